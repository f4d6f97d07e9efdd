"""Style lines against closed forms on developable blocks, and true across seams on any block."""

import math

import numpy as np
import pytest
import shapely
from design.developable_block import HEIGHTS, WIDTHS, developable_block
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from plain_block import plain_block

from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions
from panelwright.body.measurements import Measurements
from panelwright.design.body_chart import half_chart
from panelwright.design.finished_edge import EdgeDesign, FreePoint
from panelwright.design.position import BodyPoint, Height
from panelwright.design.style_line import StyleLine
from panelwright.errors import DesignError
from panelwright.geometry.arrays import turn
from panelwright.pattern.level import LEVELS
from panelwright.pattern.pattern import Pattern

PLAIN = plain_block()
CYLINDER, CONE = developable_block(), developable_block(900.0)
REACH = 900.0
DANCER = {
    "bust_girth": 940.0,
    "underbust_girth": 800.0,
    "waist_girth": 740.0,
    "hip_girth": 1000.0,
    "back_neck_to_waist": 410.0,
}


@pytest.fixture(scope="module", params=[3, 4, 5, 6])
def made(request: pytest.FixtureRequest) -> Pattern:
    """The block of an invented dancer, 3 to 6 panels a half."""
    return make_block(Measurements.of("w-07", DANCER), BlockOptions(panels=request.param)).pattern


def line_on(block: Pattern, design: EdgeDesign) -> StyleLine:
    return design.line(half_chart(block))


def unrolled(line: StyleLine) -> np.ndarray:
    """(way, height) of points of a line on the cylinder, shape (n, 2)."""
    start, points = 0.0, []
    for part in line.panels:
        for curve in part.curves:
            points.append(curve.polyline(0.001) * [-1.0, 1.0] + [start, 0.0])
        start += WIDTHS[part.panel]
    return np.concatenate(points)


def upright_angles(block: Pattern, line: StyleLine) -> list[tuple[float, float]]:
    """Degrees from each seam's upward direction to the line, on the panel before and on the panel after."""
    pairs = []
    for before, after in zip(line.panels[:-1], line.panels[1:], strict=True):
        angles = []
        for part, place, at_end in ((before, before.exit, True), (after, after.entry, False)):
            edge = block.piece(part.panel).on_line(place.line)[0].line_curve
            curve = part.curves[-1 if at_end else 0]
            way = curve.end_tangent if at_end else curve.start_tangent
            arc = place.share * edge.length
            up = edge.end_tangent if place.share == 1.0 else edge.tangent(arc)
            here = curve.end if at_end else curve.start
            assert np.linalg.norm(edge.point(arc) - here) < 1e-6
            angles.append(math.degrees(turn(up, way)))
        assert before.exit == after.entry
        pairs.append((angles[0], angles[1]))
    return pairs


def centre_angles(block: Pattern, line: StyleLine) -> tuple[float, float]:
    first, last = line.panels[0], line.panels[-1]
    front = block.piece(first.panel).on_line(first.entry.line)[0].line_curve
    back = block.piece(last.panel).on_line(last.exit.line)[0].line_curve
    back_up = back.end_tangent if last.exit.share == 1.0 else back.tangent(last.exit.share * back.length)
    return (
        math.degrees(turn(front.tangent(first.entry.share * front.length), first.curves[0].start_tangent)),
        math.degrees(turn(back_up, last.curves[-1].end_tangent)),
    )


@pytest.mark.parametrize(("level", "offset"), [("bust", 12.0), ("waist", 0.0), ("top-hip", -30.0), ("hip", 0.0)])
def test_at_one_height_a_cylinder_is_cut_straight(level: str, offset: float) -> None:
    height = Height(level, offset)
    points = unrolled(line_on(CYLINDER, EdgeDesign("straight", height, height)))
    assert np.abs(points[:, 1] - (HEIGHTS[level] + offset)).max() < 1e-9


@pytest.mark.parametrize(("level", "offset"), [("bust", 12.0), ("waist", 0.0), ("top-hip", -30.0), ("hip", 0.0)])
def test_at_one_height_a_cone_is_cut_along_a_circle(level: str, offset: float) -> None:
    height = Height(level, offset)
    line = line_on(CONE, EdgeDesign("straight", height, height))
    for part in line.panels:
        (curve,) = part.curves
        radii = np.linalg.norm(curve.polyline(0.001) - [0.0, REACH], axis=1)
        assert np.abs(radii - (REACH - HEIGHTS[level] - offset)).max() < 0.01


def test_a_shaped_line_rises_like_a_smooth_step() -> None:
    """On a cylinder: h = centre + (side - centre) · (3t² - 2t³), t the share of the way to the side."""
    line = line_on(CYLINDER, EdgeDesign("straight", Height("top-hip", -40.0), Height("waist", -10.0)))
    points = unrolled(line)
    t = np.clip(points[:, 0] / (WIDTHS["CF"] + WIDTHS["SF"]), 0.0, 1.0)
    assert np.abs(points[:, 1] - (-140.0 + 130.0 * (3 * t**2 - 2 * t**3))).max() < 0.002


def test_a_v_is_straight_from_its_point_and_then_rounds_off() -> None:
    line = line_on(CYLINDER, EdgeDesign("v", Height("bust", -60.0), Height("bust", 20.0), pointed=True))
    points = unrolled(line)
    side = WIDTHS["CF"] + WIDTHS["SF"]
    slope = (points[1, 1] - points[0, 1]) / (points[1, 0] - points[0, 0])
    straight = points[points[:, 0] < 0.6 * side]
    assert np.abs(straight[:, 1] - (90.0 + slope * straight[:, 0])).max() < 1e-6
    # A parabola takes over at 0.62 of the way and ends level: the mean of its slopes is half the first.
    assert slope * (0.62 + 0.38 / 2) * side == pytest.approx(80.0)


def test_a_pointed_hem_is_one_parabola() -> None:
    line = line_on(CYLINDER, EdgeDesign("pointed", Height("top-hip", -60.0), Height("waist", -20.0), pointed=True))
    points = unrolled(line)
    t = np.clip(points[:, 0] / (WIDTHS["CF"] + WIDTHS["SF"]), 0.0, 1.0)
    assert np.abs(points[:, 1] - (-160.0 + 140.0 * (2 * t - t**2))).max() < 0.002


def test_a_free_point_within_a_straight_part_bends_it_without_a_kink() -> None:
    point = FreePoint(BodyPoint(Height("bust", -25.0), "centre-front", "front-princess", 0.5))
    design = EdgeDesign("v", Height("bust", -60.0), Height("bust", 20.0), points=(point,), pointed=True)
    (curve,) = line_on(CYLINDER, design).panels[0].curves
    arc, gap = curve.nearest((-WIDTHS["CF"] / 2, 125.0))
    assert gap < 1e-6
    assert abs(turn(curve.tangent(arc - 1e-3), curve.tangent(arc + 1e-3))) < 1e-3


def test_a_square_is_level_then_a_wall_then_level() -> None:
    line = line_on(CYLINDER, EdgeDesign("square", Height("bust"), Height("upper-bust", -10.0)))
    low, wall, high = line.panels[0].curves
    assert np.abs(low.polyline()[:, 1] - 150.0).max() < 1e-6
    assert np.abs(high.polyline()[:, 1] - 190.0).max() < 1e-6
    assert wall.length == pytest.approx(float(np.linalg.norm(wall.chord)))
    assert wall.start[0] > wall.end[0] > -WIDTHS["CF"]


def test_a_sweetheart_peaks_over_the_bust_and_dips_at_the_centre() -> None:
    points = unrolled(line_on(CYLINDER, EdgeDesign("sweetheart", Height("bust"), Height("bust", 35.0), pointed=True)))
    top = points[points[:, 1].argmax()]
    assert top[0] == pytest.approx(WIDTHS["CF"], abs=0.5)
    assert points[0, 1] == pytest.approx(150.0)
    assert points[-1, 1] == pytest.approx(185.0)
    assert 185.0 < top[1] < 200.0


def test_a_scoop_lies_above_the_shaped_line_and_keeps_its_ends() -> None:
    heights = Height("bust"), Height("bust", 40.0)
    scoop = unrolled(line_on(CYLINDER, EdgeDesign("scooped", *heights)))
    plain = unrolled(line_on(CYLINDER, EdgeDesign("straight", *heights)))
    ways = np.linspace(20.0, 170.0, 16)
    assert (np.interp(ways, *scoop.T) > np.interp(ways, *plain.T)).all()
    assert scoop[[0, -1], 1] == pytest.approx(plain[[0, -1], 1])


def test_heights_rise_steadily_with_one_inflection() -> None:
    """Common practice: a shaped hem rises steadily from centre to side and turns from hollow to round at most once."""
    points = unrolled(line_on(CYLINDER, EdgeDesign("shaped", Height("hip", 20.0), Height("waist", -30.0))))
    front = points[points[:, 0] <= WIDTHS["CF"] + WIDTHS["SF"]]
    ways = np.linspace(0.0, front[-1, 0], 60)
    heights = np.interp(ways, front[:, 0], front[:, 1])
    assert (np.diff(heights) > 0).all()
    bends = np.diff(heights, 2)
    signs = np.sign(bends[np.abs(bends) > 0.02])
    assert (np.diff(signs) != 0).sum() == 1


def test_free_points_are_met_exactly_and_do_not_move_the_rest_of_the_back() -> None:
    point = BodyPoint(Height("bust", 10.0), "front-princess", "side", 0.4)
    heights = Height("bust"), Height("bust", 30.0)
    bent = unrolled(line_on(CYLINDER, EdgeDesign("straight", *heights, points=(FreePoint(point),))))
    way = WIDTHS["CF"] + 0.4 * WIDTHS["SF"]
    assert np.abs(bent - [way, 160.0]).sum(axis=1).min() < 1e-5
    back = bent[bent[:, 0] > WIDTHS["CF"] + WIDTHS["SF"] + 1.0]
    assert np.abs(back[:, 1] - 180.0).max() < 1e-9


def test_a_free_point_on_the_line_as_it_is_changes_nothing() -> None:
    heights = Height("bust"), Height("bust", 30.0)
    t = WIDTHS["CF"] / (WIDTHS["CF"] + WIDTHS["SF"])
    there = BodyPoint(Height("bust", 30.0 * (3 * t**2 - 2 * t**3)), "front-princess")
    with_it = unrolled(line_on(CYLINDER, EdgeDesign("straight", *heights, points=(FreePoint(there),))))
    without = unrolled(line_on(CYLINDER, EdgeDesign("straight", *heights)))
    ways = np.linspace(0.0, 370.0, 200)
    assert np.abs(np.interp(ways, *with_it.T) - np.interp(ways, *without.T)).max() < 0.005


def test_a_corner_point_starts_a_new_edge_and_shares_add_up() -> None:
    corner = FreePoint(BodyPoint(Height("bust", -10.0), "side", "back-princess", 0.5), corner=True)
    line = line_on(PLAIN, EdgeDesign("straight", Height("bust"), Height("bust"), points=(corner,)))
    assert [len(part.curves) for part in line.panels] == [1, 1, 2, 1]
    shares = [share for part in line.panels for share in part.shares]
    assert (shares[0], shares[-1]) == (0.0, 1.0)
    assert shares == sorted(shares)
    first, second = line.panels[2].curves
    assert abs(math.degrees(turn(first.end_tangent, second.start_tangent))) > 5.0


def test_a_corner_on_a_seam_is_left_sharp_and_marked() -> None:
    corner = FreePoint(BodyPoint(Height("bust", -30.0), "front-princess"), corner=True)
    line = line_on(CYLINDER, EdgeDesign("straight", Height("bust"), Height("bust"), points=(corner,)))
    before, after = upright_angles(CYLINDER, line)[0]
    assert abs(before - after) > 5.0
    assert [part.pointed for part in line.panels] == [(False, True), (True, False), (False, False), (False, False)]


HEIGHT_IN_FRONT = st.builds(Height, st.sampled_from(["bust", "underbust"]), st.floats(-20.0, 25.0))
SIDE_HEIGHT = st.builds(Height, st.sampled_from(["bust", "upper-bust"]), st.floats(-40.0, 0.0))
FREE = st.builds(
    FreePoint,
    st.builds(
        BodyPoint,
        st.builds(Height, st.just("bust"), st.floats(-10.0, 30.0)),
        st.just("front-princess"),
        st.sampled_from(["centre-front", "side"]),
        st.floats(0.1, 0.9),
    ),
    st.booleans(),
)


@settings(max_examples=60)
@given(
    st.sampled_from(["straight", "scooped", "sweetheart", "v", "square"]),
    HEIGHT_IN_FRONT,
    SIDE_HEIGHT,
    st.one_of(st.none(), SIDE_HEIGHT),
    st.lists(FREE, max_size=2),
    st.booleans(),
)
def test_on_both_sides_of_a_seam_the_line_has_one_place_and_one_angle(
    shape: str, centre: Height, side: Height, back: Height | None, points: list[FreePoint], pointed: bool
) -> None:
    design = EdgeDesign(shape, centre, side, back, tuple(points), pointed or shape == "v")
    try:
        line = line_on(PLAIN, design)
    except DesignError:
        assume(False)
    for before, after in upright_angles(PLAIN, line):
        assert before == pytest.approx(after, abs=1e-6)  # so the inner angles add to 180°
    front, back_angle = centre_angles(PLAIN, line)
    assert back_angle == pytest.approx(90.0, abs=1e-6)
    if not design.pointed:
        assert front == pytest.approx(90.0, abs=1e-6)
    for part in line.panels:
        for curve in part.curves:
            for k in range(1, len(curve.cubics)):
                leaving = curve.cubics[k, 1] - curve.cubics[k, 0]
                arriving = curve.cubics[k - 1, 3] - curve.cubics[k - 1, 2]
                assert abs(turn(arriving, leaving)) < 1e-6


@pytest.mark.parametrize("level", LEVELS)
def test_on_a_made_block_a_straight_line_follows_the_level(made: Pattern, level: str) -> None:
    """Level lines laid flat meet at a seam in a slight kink, which the style line must smooth: 3 mm is its due."""
    line = line_on(made, EdgeDesign("straight", Height(level), Height(level)))
    for part in line.panels:
        inside = made.piece(part.panel).inside_line(level)
        assert inside is not None
        drawn = shapely.LineString(np.concatenate([curve.polyline() for curve in part.curves]))
        assert shapely.hausdorff_distance(drawn, shapely.LineString(inside.curve.polyline())) < 3.0
    for before, after in upright_angles(made, line):
        assert before == pytest.approx(after, abs=1e-6)


def test_the_same_check_sees_a_kink(made: Pattern) -> None:
    """Two-sided: the block's own level lines do not pass it."""
    line = line_on(made, EdgeDesign("straight", Height("upper-bust"), Height("upper-bust")))
    (part, *_) = line.panels
    edge = made.piece(part.panel).on_line(part.exit.line)[0].line_curve
    inside = made.piece(part.panel).inside_line("upper-bust")
    assert inside is not None
    level_angle = math.degrees(turn(edge.end_tangent, inside.curve.reversed().end_tangent))
    line_angle = math.degrees(turn(edge.end_tangent, part.curves[-1].end_tangent))
    assert abs(level_angle - line_angle) > 0.5


@pytest.mark.parametrize(
    ("design", "sentence"),
    [
        (EdgeDesign("straight", Height("upper-bust", 5.0), Height("upper-bust")), "front line it would lie 0.5 cm"),
        (EdgeDesign("straight", Height("waist"), Height("hip", -20.0)), "below the block, which ends at hip; raise it"),
        (
            EdgeDesign(
                "straight", Height("bust"), Height("upper-bust", -2.0),
                points=(
                    FreePoint(BodyPoint(Height("upper-bust", 15.0), "side", "back-princess", 0.5)),
                    FreePoint(BodyPoint(Height("upper-bust", -5.0), "back-princess")),
                ),
            ),
            "between the side and back princess lines it would lie 1.5 cm above the block, which ends at upper",
        ),
        (EdgeDesign("straight", Height("bosom"), Height("waist")), "no level 'bosom'"),
        (
            EdgeDesign(
                "straight", Height("bust"), Height("bust"),
                points=(
                    FreePoint(BodyPoint(Height("bust", 9.0), "side")),
                    FreePoint(BodyPoint(Height("bust"), "side")),
                ),
            ),
            "two points of the line lie one above the other",
        ),
        (
            EdgeDesign(
                "straight", Height("bust"), Height("bust"),
                points=(FreePoint(BodyPoint(Height("bust", -1.0), "side", "back-princess", 0.02), corner=True),),
            ),
            "mm from a seam or another corner",
        ),
        (
            EdgeDesign(
                "straight", Height("bust"), Height("bust"),
                points=(
                    FreePoint(BodyPoint(Height("bust", -60.0), "side", "front-princess", 0.04), corner=True),
                    FreePoint(BodyPoint(Height("bust", -15.0), "side")),
                    FreePoint(BodyPoint(Height("bust", 30.0), "side", "back-princess", 0.04), corner=True),
                ),
            ),
            "side line it runs along that line or back",
        ),
    ],
)  # fmt: skip
def test_a_line_that_cannot_be_drawn_is_refused(design: EdgeDesign, sentence: str) -> None:
    with pytest.raises(DesignError) as caught:
        line_on(PLAIN, design)
    assert sentence in str(caught.value)
