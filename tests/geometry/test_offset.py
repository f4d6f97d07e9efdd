import math
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from random_outline import outlines, ring
from scipy.interpolate import CubicSpline
from shapely import LineString, Point, Polygon

from panelwright.errors import GeometryError
from panelwright.geometry import offset
from panelwright.geometry.corner import MITRE_LIMIT
from panelwright.geometry.curve import Curve
from panelwright.geometry.offset import Allowance, CutLine, cut_line

ACCURATE = 0.02  # mm: what the module promises


def polygon_edges(corners: list[tuple[float, float]], widths: list[float], **common: object) -> tuple[Allowance, ...]:
    ends = zip(corners, corners[1:] + corners[:1], widths, strict=True)
    return tuple(Allowance(Curve.straight(a, b), width, **common) for a, b, width in ends)  # type: ignore[arg-type]


def area_of(line: CutLine) -> Polygon:
    return Polygon(line.points)


def same_area(one: Polygon, other: Polygon, within: float = 1e-6) -> bool:
    """Two areas differ by less than a border `within` mm wide, on both sides."""
    return one.buffer(within).contains(other) and other.buffer(within).contains(one)


def run(line: CutLine, edge: int) -> list[np.ndarray]:
    """The polylines of the cut line that belong to an edge."""
    count = len(line.points)
    return [
        line.points[(first + np.arange((last - first) % count + 1)) % count]
        for k, first, last in line.runs
        if k == edge
    ]


def united_line(edges: tuple[Allowance, ...], monkeypatch: pytest.MonkeyPatch) -> CutLine:
    """The cut line by the union of areas, even where the plain chain of runs would do."""
    with monkeypatch.context() as patched:
        patched.setattr(offset.shapely, "is_valid", lambda _: False)
        return cut_line.__wrapped__(edges)


# Closed forms


def test_a_rectangle_with_four_widths_grows_by_each_of_them() -> None:
    line = cut_line(polygon_edges([(0, 0), (40, 0), (40, 30), (0, 30)], [25, 10, 12, 0]))
    assert same_area(area_of(line), shapely.box(0, -25, 50, 42))


def test_every_edge_owns_its_own_side_of_a_rectangle() -> None:
    line = cut_line(polygon_edges([(0, 0), (40, 0), (40, 30), (0, 30)], [25, 10, 12, 5]))
    sides = [(1, -25.0), (0, 50.0), (1, 42.0), (0, -5.0)]
    for k, (axis, value) in enumerate(sides):
        (own,) = run(line, k)
        assert np.allclose(own[:, axis], value, atol=1e-12)
        assert np.ptp(own[:, 1 - axis]) == pytest.approx([55, 67, 55, 67][k])


def test_no_allowance_gives_the_outline_itself() -> None:
    edges = polygon_edges([(0, 0), (40, 0), (55, 30), (0, 30)], [0, 0, 0, 0])
    assert same_area(area_of(cut_line(edges)), Polygon([(0, 0), (40, 0), (55, 30), (0, 30)]), 1e-9)


def test_area_round_a_smooth_outline_is_steiners() -> None:
    """Steiner's formula: area + perimeter · w + π w² round any smooth convex outline; here an oval of splines."""
    angle = np.linspace(0, 2 * np.pi, 33)
    points = np.column_stack([90 * np.cos(angle), 140 * np.sin(angle)])
    points[-1] = points[0]
    halves = [through_periodic(points)[:16], through_periodic(points)[16:]]
    edges = tuple(Allowance(Curve(half), 15.0) for half in halves)
    outline = Polygon(ring(edges, 1e-5))
    wanted = outline.area + 15.0 * outline.length + math.pi * 15.0**2
    assert area_of(cut_line(edges)).area == pytest.approx(wanted, rel=2e-4)


def through_periodic(points: np.ndarray) -> np.ndarray:
    """Cubics of the closed C2 spline through points whose last is the first, shape (n - 1, 4, 2)."""
    slopes = CubicSpline(np.arange(len(points)), points, bc_type="periodic")(np.arange(len(points)), 1)
    ends = zip(pairwise(points), pairwise(slopes), strict=True)
    return np.array([[a, a + s / 3, b - t / 3, b] for (a, b), (s, t) in ends])


@pytest.mark.parametrize("width", [8.0, 20.0, 40.0])
def test_a_hollow_tighter_than_its_allowance_closes_where_the_closed_form_says(width: float) -> None:
    """Normals of y = a x² of length w meet on the axis at y = a w² + 1/(4 a) once w > 1/(2 a)."""
    a, half = 0.05, 60.0
    high = a * half**2
    top = Curve.from_points([(half, high), (half / 3, -high / 3), (-half / 3, -high / 3), (-half, high)])
    low = -60.0
    rest = [(-half, high), (-half, low), (half, low), (half, high)]
    sides = [Allowance(Curve.straight(p, q), 10.0) for p, q in pairwise(rest)]
    line = cut_line((Allowance(top, width), *sides))
    axis = LineString([(0, -50), (0, 400)]).intersection(area_of(line).exterior)
    closes = a * width**2 + 1 / (4 * a) if width > 1 / (2 * a) else width
    assert axis.y == pytest.approx(closes, abs=2 * ACCURATE)


def test_a_square_neckline_corner_that_turns_right() -> None:
    """Where two allowances overlap in a hollow corner, the cut line turns once, at their crossing."""
    corners = [(0, 0), (100, 0), (100, 100), (70, 100), (70, 60), (30, 60), (30, 100), (0, 100)]
    widths = [10.0, 10.0, 8.0, 6.0, 12.0, 6.0, 8.0, 10.0]
    wanted = Polygon([(-10, -10), (110, -10), (110, 108), (64, 108), (64, 72), (36, 72), (36, 108), (-10, 108)])
    assert same_area(area_of(cut_line(polygon_edges(corners, widths))), wanted, 1e-6)


def test_a_slit_narrower_than_its_allowances_is_filled() -> None:
    corners = [(0, 0), (100, 0), (100, 100), (55, 100), (55, 40), (45, 40), (45, 100), (0, 100)]
    line = cut_line(polygon_edges(corners, [10.0] * 8))
    assert same_area(area_of(line), shapely.box(-10, -10, 110, 110), 1e-6)


# Corners


def corner_of(angle: float, widths: tuple[float, float], **choices: object) -> tuple[Allowance, ...]:
    """Edges of 300 mm that meet in the origin at an inner angle (degrees): the first arrives along +x."""
    inner = math.radians(angle)
    far = 300 * np.array([-math.cos(inner), math.sin(inner)])
    first = Allowance(Curve.straight((-300, 0), (0, 0)), widths[0], **choices)  # type: ignore[arg-type]
    second = Allowance(Curve.straight((0, 0), far), widths[1])
    third = Allowance(Curve.straight(far, (-300 + far[0], 300 + far[1])), 0.0)
    return first, second, third, Allowance(Curve.straight(third.curve.end, (-300, 0)), 0.0)


@pytest.mark.parametrize("angle", [60.0, 80.0, 90.0, 100.0, 110.0])
@pytest.mark.parametrize("widths", [(10.0, 10.0), (25.0, 10.0)])
def test_a_mitre_has_both_allowances_at_its_tip(angle: float, widths: tuple[float, float]) -> None:
    edges = corner_of(angle, widths)
    line = cut_line(edges)
    tip = run(line, 0)[0][-1]
    inner = math.radians(angle)
    away = np.array([math.sin(inner), math.cos(inner)])  # the second edge's outward normal
    assert -tip[1] == pytest.approx(widths[0])
    assert np.allclose(tip, run(line, 1)[0][0])
    assert tip @ away == pytest.approx(widths[1])


def test_a_wide_allowance_keeps_its_end_beside_a_narrow_one_at_a_flat_corner() -> None:
    """At 170° the mitre of 25 and 10 mm would cut 83 mm off the wide allowance: it ends square instead."""
    line = cut_line(corner_of(170.0, (25.0, 10.0)))
    assert np.allclose(run(line, 0)[0][-1], (0, -25))
    foot = run(line, 1)[0][0]
    assert foot[0] == pytest.approx(0)
    assert -foot[1] == pytest.approx(10 / math.cos(math.radians(10)))


def test_a_sharp_mitre_is_cut_off_at_its_limit() -> None:
    line = cut_line(corner_of(20.0, (10.0, 10.0)))
    near = area_of(line).intersection(Point(0, 0).buffer(100))
    way = np.array([math.cos(math.radians(10)), -math.sin(math.radians(10))])
    tip = np.array(near.exterior.coords) @ way
    assert tip.max() == pytest.approx(MITRE_LIMIT * 10.0)
    assert 10.0 / math.sin(math.radians(10)) > MITRE_LIMIT * 10.0


@pytest.mark.parametrize("angle", [60.0, 85.0, 90.0, 95.0, 120.0])
@pytest.mark.parametrize("turned", ["this", "next"])
def test_a_squared_end_stands_square_to_the_turned_stitch_line(angle: float, turned: str) -> None:
    edges = corner_of(angle, (15.0, 10.0), corner="square", turned=turned)
    line = cut_line(edges)
    end, start = run(line, 0)[0][-1], run(line, 1)[0][0]
    stitch = edges[0].curve.chord if turned == "this" else edges[1].curve.chord
    assert (end - start) @ stitch == pytest.approx(0, abs=1e-9)
    assert np.linalg.norm(end - start) == pytest.approx(15.0 if turned == "this" else 10.0)
    on_stitch_line = start if turned == "this" else end
    assert np.cross([*stitch, 0], [*on_stitch_line, 0])[2] == pytest.approx(0, abs=1e-6)


@pytest.mark.parametrize("angle", [80.0, 100.0])
def test_squared_ends_of_two_panels_that_add_to_180_are_equally_long(angle: float) -> None:
    """So the two allowances of a bagged-out seam end together; mitred ones do not."""

    def end(inner: float, corner: str) -> float:
        return float(run(cut_line(corner_of(inner, (10.0, 12.0), corner=corner)), 0)[0][-1][0])

    assert end(angle, "square") == pytest.approx(end(180 - angle, "square"))
    assert abs(end(angle, "mitre") - end(180 - angle, "mitre")) > 3


@pytest.mark.parametrize("angle", [60.0, 85.0, 90.0, 95.0, 120.0])
@pytest.mark.parametrize("turned", ["this", "next"])
def test_a_folded_back_allowance_ends_on_the_other_cut_line_once_pressed(angle: float, turned: str) -> None:
    edges = corner_of(angle, (25.0, 25.0), corner="fold_back", turned=turned)
    line = cut_line(edges)
    end, start = run(line, 0)[0][-1], run(line, 1)[0][0]
    folded, other, free = (0, 1, end) if turned == "this" else (1, 0, start)
    stitch = edges[folded].curve.chord / np.linalg.norm(edges[folded].curve.chord)
    pressed = 2 * (free @ stitch) * stitch - free  # mirrored at the stitch line through the origin
    direction = edges[other].curve.chord / np.linalg.norm(edges[other].curve.chord)
    normal = np.array([direction[1], -direction[0]])
    assert pressed @ normal == pytest.approx(25.0, abs=1e-6)
    assert area_of(line).is_valid


def test_a_mitre_does_not_match_once_pressed_but_a_folded_end_does() -> None:
    """The corner rule: a hem turned up at a slanted side sticks out by 2 · 25 · cos(inner angle) if mitred."""

    def overshoot(corner: str) -> float:
        edges = corner_of(75.0, (25.0, 10.0), corner=corner)
        line = area_of(cut_line(edges))
        below = line.intersection(shapely.box(-400, -400, 400, 0))
        pressed = shapely.affinity.scale(below, yfact=-1, origin=(0, 0))
        sheet = line.intersection(shapely.box(-400, 0, 400, 250))
        return float(pressed.intersection(shapely.box(-250, 0, 400, 250)).difference(sheet.buffer(1e-6)).area)

    assert overshoot("fold_back") == pytest.approx(0, abs=1e-3)
    assert overshoot("mitre") == pytest.approx(25 * 25 / math.tan(math.radians(75)), rel=0.02)


# Folds


def folded(top: tuple[float, float], bottom: tuple[float, float]) -> tuple[Allowance, ...]:
    """A half piece at x <= 0 with its fold on x = 0 from (0, 0) up to (0, 200)."""
    corners = [(0.0, 0.0), (0.0, 200.0), top, bottom]
    ends = zip(corners, corners[1:] + corners[:1], strict=True)
    return tuple(Allowance(Curve.straight(a, b), 0.0 if k == 0 else 10.0, fold=k == 0) for k, (a, b) in enumerate(ends))


@pytest.mark.parametrize(("top", "bottom"), [(200, 0), (150, 0), (260, 0), (240, -40), (200, 50)])
def test_the_cut_line_lies_on_a_fold_and_the_allowances_beside_it_end_on_its_line(top: float, bottom: float) -> None:
    edges = folded((-100.0, top), (-100.0, bottom))
    line = cut_line(edges)
    (fold,) = run(line, 0)
    assert np.allclose(fold[:, 0], 0.0, atol=1e-12)
    assert line.points[:, 0].max() == pytest.approx(0.0, abs=1e-9)
    # Unfolded, the whole is the half and its mirror image, and a mitre or hollow at the fold of the whole piece.
    slant = math.atan2(top - 200, 100)
    assert fold[:, 1].max() == pytest.approx(200 + 10 / math.cos(slant))
    assert fold[:, 1].min() == pytest.approx(-10 / math.cos(math.atan2(bottom, 100)))


def test_allowances_end_at_right_angles_where_edges_meet_the_fold_squarely() -> None:
    line = cut_line(folded((-100.0, 200.0), (-100.0, 0.0)))
    assert same_area(area_of(line), shapely.box(-110, -10, 0, 210), 1e-9)


def test_a_hollow_beside_a_fold_stays_on_its_own_side(monkeypatch: pytest.MonkeyPatch) -> None:
    edges = folded((-100.0, 260.0), (-100.0, 0.0))
    assert united_line(edges, monkeypatch).points[:, 0].max() == pytest.approx(0.0, abs=1e-9)


# Bends inside an edge


@pytest.mark.parametrize("bend", [-40.0, -5.0, 5.0, 40.0])
def test_a_bend_inside_an_edge_keeps_the_allowance_all_round(bend: float) -> None:
    far = 100 * np.array([math.cos(math.radians(bend)), math.sin(math.radians(bend))])
    bent = Curve.straight((-100, 0), (0, 0)).joined(Curve.straight((0, 0), far))
    rest = pairwise([bent.end, (far[0], 200), (-100, 200), bent.start])
    edges = (Allowance(bent, 20.0), *(Allowance(Curve.straight(a, b), 10.0) for a, b in rest))
    own = np.concatenate(run(cut_line(edges), 0))
    own = own[(own[:, 0] > -70) & (own[:, 0] < far[0] - 30)]
    middles = np.concatenate([own, (own[1:] + own[:-1]) / 2])
    away = shapely.distance(LineString([(-100, 0), (0, 0), far]), shapely.points(middles))
    assert np.abs(away - 20.0).max() < ACCURATE


def test_control_points_on_the_ends_of_an_edge_do_no_harm() -> None:
    lazy = Curve.from_points([(0, 0), (0, 0), (100, 0), (100, 0)])
    rest = polygon_edges([(0, 0), (100, 0), (100, 80), (0, 80)], [10.0] * 4)[1:]
    assert same_area(area_of(cut_line((Allowance(lazy, 10.0), *rest))), shapely.box(-10, -10, 110, 90), 1e-6)


# Any outline


@given(outlines())
@settings(max_examples=150)
def test_the_cut_line_is_simple_and_contains_the_outline(edges: tuple[Allowance, ...]) -> None:
    line = cut_line(edges)
    area = area_of(line)
    assert area.is_valid
    assert area.exterior.is_ccw
    assert area.buffer(ACCURATE + 0.001).contains(Polygon(ring(edges)))


def corners_left_out(edges: tuple[Allowance, ...]) -> shapely.Geometry:
    """Discs at the corners, as wide as the larger allowance's mitre limit."""
    discs = []
    for edge, after in zip(edges, edges[1:] + edges[:1], strict=True):
        radius = (MITRE_LIMIT + 0.3) * max(edge.width, after.width) + 1
        discs.append(Point(edge.curve.end).buffer(radius, quad_segs=32))
    return shapely.union_all(discs)


@given(outlines())
@settings(max_examples=100)
def test_away_from_corners_the_cut_line_is_the_outer_boundary_of_shapelys_buffers(edges: tuple[Allowance, ...]) -> None:
    """Both ways: neither boundary has a point farther than 0.02 mm (and both chord errors) from the other.

    Shapely buffers the outer side of a fine polyline of each edge by its allowance, with flat ends.
    """
    buffers = [
        LineString(edge.curve.polyline(0.002)).buffer(-edge.width, quad_segs=200, single_sided=True)
        for edge in edges
        if edge.width
    ]
    body = Polygon(ring(edges, 0.002)).buffer(0.001)  # so that it overlaps the buffers
    wanted = Polygon(shapely.union_all([body, *buffers]).exterior).exterior
    mine = area_of(cut_line(edges)).exterior
    out = corners_left_out(edges)
    for here, there in ((mine, wanted), (wanted, mine)):
        points = shapely.points(shapely.get_coordinates(shapely.segmentize(here, 1.0)))
        points = points[~shapely.intersects(out, points)]
        if len(points):
            assert shapely.distance(there, points).max() < ACCURATE + 0.002


@given(outlines())
@settings(max_examples=100)
def test_owned_stretches_run_at_their_edges_allowance(edges: tuple[Allowance, ...]) -> None:
    line = cut_line(edges)
    for k, edge in enumerate(edges):
        curve = LineString(edge.curve.polyline(0.002))
        for own in run(line, k):
            points = shapely.points(shapely.get_coordinates(shapely.segmentize(LineString(own), 1.0)))
            foot = shapely.line_locate_point(curve, points)
            points = points[(foot > 1e-6) & (foot < curve.length - 1e-6)]
            if len(points):
                assert np.abs(shapely.distance(curve, points) - edge.width).max() < ACCURATE + 0.002


@given(outlines(most_bulge=0.05))
@settings(max_examples=60)
def test_the_chain_of_runs_and_the_union_of_areas_agree(edges: tuple[Allowance, ...]) -> None:
    with pytest.MonkeyPatch.context() as patch:
        by_areas = united_line(edges, patch)
    chained = cut_line(edges)
    assert area_of(chained).symmetric_difference(area_of(by_areas)).area < 1e-6


@given(outlines(), st.floats(0.3, 3.0))
@settings(max_examples=30)
def test_scaled_outline_and_widths_give_the_scaled_cut_line(edges: tuple[Allowance, ...], factor: float) -> None:
    scaled = [
        Allowance(edge.curve.scaled(factor), edge.width * factor, edge.fold, edge.corner, edge.turned) for edge in edges
    ]
    scaled = [
        Allowance(edge.curve.ending_at(end=after.curve.start), edge.width, edge.fold, edge.corner, edge.turned)
        for edge, after in zip(scaled, scaled[1:] + scaled[:1], strict=True)
    ]
    small = shapely.affinity.scale(area_of(cut_line(edges)), factor, factor, origin=(0, 0))
    assert same_area(area_of(cut_line(tuple(scaled))), small, ACCURATE * (1 + factor) * 1.5)


def test_the_answer_is_remembered_by_content() -> None:
    corners = [(0.0, 0.0), (40.0, 0.0), (40.0, 31.0), (0.0, 31.0)]
    assert cut_line(polygon_edges(corners, [10.0] * 4)) is cut_line(polygon_edges(list(corners), [10.0] * 4))


# What is refused


@pytest.mark.parametrize("width", [-1.0, math.nan, math.inf])
def test_an_impossible_width_is_refused(width: float) -> None:
    with pytest.raises(GeometryError, match="an allowance is a width from 0 mm up"):
        Allowance(Curve.straight((0, 0), (1, 0)), width)


def test_a_fold_with_an_allowance_is_refused() -> None:
    with pytest.raises(GeometryError, match="takes no allowance, not 10"):
        Allowance(Curve.straight((0, 0), (1, 0)), 10, fold=True)


def test_edges_that_do_not_follow_one_another_are_refused() -> None:
    edges = polygon_edges([(0, 0), (40, 0), (40, 30)], [10, 10, 10])
    with pytest.raises(GeometryError, match="do not follow one another"):
        cut_line(edges[:2])


def slanting_notch(slant: float, mouth: float = 12.0, depth: float = 60.0) -> tuple[Allowance, ...]:
    """A rectangle with a notch in its upper edge, `slant` radians off upright to the right; legs are trimmed."""
    left, right = np.array([120.0 - mouth / 2, 200.0]), np.array([120.0 + mouth / 2, 200.0])
    point = (left + right) / 2 - depth * np.array([math.sin(slant), math.cos(slant)])
    corners = [(0, 0), (300, 0), (300, 200), tuple(right), tuple(point), tuple(left), (0, 200)]
    return polygon_edges(corners, [10, 10, 10, 0.3 * mouth * math.cos(slant), 0.3 * mouth * math.cos(slant), 10, 10])


@pytest.mark.parametrize("slant", [-55.0, -40.0, 0.0, 40.0, 55.0])
def test_a_slanting_notch_stays_open_along_its_middle_line(slant: float) -> None:
    edges = slanting_notch(math.radians(slant))
    line = cut_line(edges)
    point, mouth = edges[3].curve.end, np.array([120.0, 200.0])
    # Deep inside, the allowances of the two legs meet; from three quarters of the way on there is room between them.
    middle = LineString([point + 0.75 * (mouth - point), point + 4.0 * (mouth - point)])
    assert area_of(line).buffer(-1e-6).intersection(middle).is_empty
    # Both upper edges keep their allowance from the width of one on, and a tip belongs to an edge at its corner.
    for k in (2, 5):
        on = [edges[k].curve.point(arc) for arc in np.linspace(10.0, edges[k].curve.length - 10.0, 50)]
        assert max(area_of(line).exterior.distance(Point(x, y + 10.0)) for x, y in on) < ACCURATE
        feet = [edges[k].curve.nearest(at) for own in run(line, k) for at in own]
        assert all(abs(gap - 10.0) < ACCURATE or min(arc, edges[k].curve.length - arc) < 10.0 for arc, gap in feet)
