"""A line drawn by hand: the step that is fitted to it runs where the hand ran, with few points."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
import shapely
from design.demo_garments import demo_garment
from plain_block import plain_block

from panelwright.design.body_chart import half_chart
from panelwright.design.departures import departures
from panelwright.design.drawn_line import Stroke, run_on
from panelwright.design.evened import evened
from panelwright.design.finished_edge import FreePoint
from panelwright.design.fitted_line import EdgeStep, fitted_line
from panelwright.design.hem import Hem
from panelwright.design.position import BodyPoint, Height
from panelwright.design.top_edge import TopEdge
from panelwright.errors import DesignError
from panelwright.geometry.curve import Curve
from panelwright.pattern.pattern import Pattern

BLOCK = plain_block()
TREMOR = 0.5  # mm
EVERY = 3.0  # mm
NECK = TopEdge("neck", "scooped", Height("bust", 20.0), Height("upper-bust", -15.0))
POINTS = (
    FreePoint(BodyPoint(Height("bust", 45.0), "centre-front", "front-princess", 0.5)),
    FreePoint(BodyPoint(Height("bust", 25.0), "back-princess")),
)


def strokes(step: EdgeStep, block: Pattern, seed: int = 1) -> tuple[Stroke, ...]:
    """A step's line as a trembling hand would draw it, piece by piece."""
    tremor = np.random.default_rng(seed)
    drawn = []
    for panel in step.design.line(half_chart(block)).panels:
        points = np.concatenate([curve.polyline() for curve in panel.curves])
        arcs = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))])
        even = np.arange(0.0, arcs[-1], EVERY)
        places = np.column_stack([np.interp(even, arcs, points[:, axis]) for axis in (0, 1)])
        places += tremor.normal(0.0, TREMOR, places.shape)
        drawn.append(Stroke(panel.panel, tuple((float(x), float(y)) for x, y in places)))
    return tuple(drawn)


def farthest(pattern: Pattern, wanted: Pattern, line: str) -> float:
    """The greatest distance between two patterns' edges on a line, mm."""
    gaps = []
    for piece, edge in pattern.pieces_on_line(line):
        there = [other.curve for other in wanted.piece(piece.id).on_line(line)]
        gaps += [min(curve.nearest(point)[1] for curve in there) for point in edge.curve.polyline()]
    return max(gaps)


@pytest.mark.parametrize(
    ("ref", "uid", "shape"),
    [
        ("lantern-01", "neckline", "sweetheart"),
        ("drum-03", "neckline", "square"),
        ("round-04", "neckline", "v"),
        ("round-04", "hem", "pointed"),
        ("ribbon-02", "hem", "shaped"),
        ("star-07", "neckline", "scooped"),
        ("river-06", "hem", "straight"),
    ],
)
def test_an_edge_drawn_over_with_a_tremor_is_found_again(ref: str, uid: str, shape: str) -> None:
    garment = demo_garment(ref)
    step = garment.step(uid)
    assert isinstance(step, TopEdge | Hem)
    kind = "top-edge" if isinstance(step, TopEdge) else "hem"
    fitted = fitted_line(kind, strokes(step, garment.block), garment.block, garment.block, uid)
    assert fitted.shape == shape
    assert fitted.points == ()
    after, before = (each.apply(garment.block, garment.block) for each in (fitted, step))
    assert farthest(after, before, f"{uid}/line") < 1.2


def test_free_points_are_found_as_few_as_the_line_needs() -> None:
    step = replace(NECK, points=POINTS)
    fitted = fitted_line("top-edge", strokes(step, BLOCK), BLOCK, BLOCK, "neck")
    assert 1 <= len(fitted.points) <= 4
    after, before = (each.apply(BLOCK, BLOCK) for each in (fitted, step))
    assert farthest(after, before, "neck/line") < 3.0
    plain = replace(step, points=()).apply(BLOCK, BLOCK)
    assert farthest(plain, before, "neck/line") > 6.0


def test_a_line_may_be_drawn_either_way_round_and_in_any_order() -> None:
    forwards = strokes(NECK, BLOCK)
    backwards = tuple(Stroke(stroke.piece, stroke.points[::-1]) for stroke in reversed(forwards))
    one, other = (fitted_line("top-edge", each, BLOCK, BLOCK, "neck") for each in (forwards, backwards))
    assert farthest(one.apply(BLOCK, BLOCK), other.apply(BLOCK, BLOCK), "neck/line") < 1.0


def test_where_nothing_is_drawn_the_line_stays() -> None:
    lower = replace(NECK, centre=Height("bust", 5.0))
    front = strokes(lower, BLOCK)[:2]
    before = replace(NECK, back=Height("upper-bust", -40.0))
    fitted = fitted_line("top-edge", front, BLOCK, BLOCK, "neck", before)
    assert fitted.back == before.back
    assert fitted.centre.level == "bust"
    assert fitted.centre.offset == pytest.approx(5.0, abs=1.5)
    behind = [panel for panel in fitted.apply(BLOCK, BLOCK).pieces if panel.id in ("SB", "CB")]
    was = before.apply(BLOCK, BLOCK)
    for piece in behind:
        (edge,) = piece.on_line("neck/line")
        (there,) = was.piece(piece.id).on_line("neck/line")
        assert max(there.curve.nearest(point)[1] for point in edge.curve.polyline()) < 2.0


def test_heights_in_proportion_stay_so() -> None:
    before = replace(NECK, centre=Height("bust", share=0.4))
    fitted = fitted_line("top-edge", strokes(NECK, BLOCK), BLOCK, BLOCK, "neck", before)
    assert fitted.centre.share > 0.0
    assert fitted.centre.offset == 0.0


def test_a_line_drawn_on_the_cut_pieces_counts_as_one_on_the_block() -> None:
    garment = demo_garment("drum-03")  # its centre front is moved for the button stand
    step = garment.step("hem")
    assert isinstance(step, Hem)
    there = garment.pattern.piece("CF").material[0].placement
    moved = tuple(
        replace(stroke, points=tuple(map(tuple, there.points(np.array(stroke.points)).tolist())))
        if stroke.piece == "CF"
        else stroke
        for stroke in strokes(step, garment.block)
    )
    assert there.x != 0.0
    assert fitted_line("hem", moved, garment.pattern, garment.block, "hem").points == ()


def stroke(piece: str, *points: tuple[float, float]) -> Stroke:
    return Stroke(piece, points)


@pytest.mark.parametrize(
    ("drawn", "why"),
    [
        ((), "does not lie on the panels"),
        ((stroke("CF", (-10.0, 150.0), (-20.0, 150.0)),), "draw at least 2.5 cm"),
        ((stroke("CF", (-5.0, 150.0), (-60.0, 152.0), (-20.0, 160.0)),), "runs back over itself"),
        ((stroke("CF", (300.0, 150.0), (400.0, 150.0)),), "leaves the centre front piece"),
        ((stroke("XX", (0.0, 150.0), (-50.0, 150.0)),), "no piece 'XX'"),
        ((stroke("CF", (0.0, float("inf")), (-50.0, 150.0)),), "two numbers"),
        ((Stroke("CF", ((0.0, 0.0),) * 6000),), "more than 5000 places"),
    ],
)
def test_a_line_that_is_none_is_refused(drawn: tuple[Stroke, ...], why: str) -> None:
    with pytest.raises(DesignError, match=why):
        fitted_line("top-edge", drawn, BLOCK, BLOCK, "neck")


def wavy(panel: str) -> tuple[Stroke, ...]:
    """The neckline with a wave on one panel that is too quick for so few points."""
    found = []
    for drawn in strokes(NECK, BLOCK):
        places = np.array(drawn.points)
        if drawn.piece == panel:
            places[:, 1] += 12.0 * np.sin(2 * np.pi * (places[:, 0] - places[0, 0]) / 45.0)
        found.append(stroke(drawn.piece, *((float(x), float(y)) for x, y in places)))
    return tuple(found)


@pytest.mark.parametrize("panel", ["CF", "SF", "SB", "CB"])
def test_a_line_that_bends_too_often_is_told_with_its_piece(panel: str) -> None:
    label = BLOCK.piece(panel).label.lower()
    with pytest.raises(DesignError, match=f"bends too often, above all on the {label} piece"):
        fitted_line("top-edge", wavy(panel), BLOCK, BLOCK, "neck")


BETWEEN = 50.0  # mm of the page between two pieces


def over_the_page(height: Callable[[float], float], every: float) -> tuple[Stroke, ...]:
    """One line over pieces that lie side by side, with places `every` mm; `height` is that above the waist for a
    share of the way across the page."""
    shifts, left = {}, 0.0
    for piece in sorted(BLOCK.pieces, key=lambda piece: piece.outline.bounds[0]):
        low, _, high, _ = piece.outline.bounds
        shifts[piece.id], left = left - low, left + high - low + BETWEEN
    wide = left - BETWEEN
    page = np.append(np.arange(0.0, wide, every), wide)
    found = []
    for piece in BLOCK.pieces:
        places = [(float(x) - shifts[piece.id], height(float(x) / wide)) for x in page]
        inside = shapely.contains_xy(shapely.buffer(piece.outline, 3.0), np.array(places))
        found.append(Stroke(piece.id, tuple(place for place, held in zip(places, inside, strict=True) if held)))
    return tuple(found)


@pytest.mark.parametrize("every", [6.0, 25.0])
@pytest.mark.parametrize(
    "height",
    [lambda s: -45 - 35 * s, lambda s: -40 - 40 * s**2, lambda s: -75 + 35 * (2 * s - 1) ** 2],
    ids=["slope", "curve", "arch"],
)
def test_a_smooth_line_across_the_gaps_between_pieces_is_followed(
    height: Callable[[float], float], every: float
) -> None:
    """On a slope it leaves each gap lower than it went in; that is a step on paper and none on the garment."""
    fitted = fitted_line("hem", over_the_page(height, every), BLOCK, BLOCK, "hem")
    assert len(fitted.points) <= 6


def test_stretches_that_meet_at_a_seam_are_made_to_meet() -> None:
    one, other = np.array([[0.0, 10.0], [40.0, 10.0]]), np.array([[42.0, 4.0], [60.0, 4.0], [82.0, 4.0]])
    far = np.array([[140.0, 0.0], [160.0, 0.0]])
    first, second, third = run_on([one, other, far])
    assert first[:, 1] == pytest.approx([10.0, 7.0])
    assert second[[0, -1], 1] == pytest.approx([7.0, 4.0])
    assert third[:, 1] == pytest.approx([0.0, 0.0]), "what lies farther off is another stretch"


def test_places_far_between_are_evened_out_too() -> None:
    line = np.array([[0.0, 0.0], [20.0, 30.0], [40.0, 0.0], [60.0, 30.0], [80.0, 0.0]])
    places, _ = evened(line)
    assert np.isfinite(places).all()


def test_departures_are_above_0_where_the_line_passes_above() -> None:
    line = (Curve.straight((0.0, 10.0), (-50.0, 10.0)), Curve.straight((-50.0, 10.0), (-100.0, 10.0)))
    places = np.array([[-20.0, 7.0], [-70.0, 14.0], [-50.0, 10.0], [-103.0, 10.0]])
    assert departures(line, places)[:3] == pytest.approx([3.0, -4.0, 0.0])
    assert abs(departures(line, places)[3]) == pytest.approx(3.0)


def test_evening_out_keeps_a_corner_sharp_and_takes_tremor_away() -> None:
    tremor = np.random.default_rng(4).normal(0.0, 0.4, (121, 2))
    along = np.linspace(0.0, 60.0, 61)
    level, rising = np.column_stack([along, 0 * along]), np.column_stack([60 + 0 * along[1:], along[1:]])
    places, corners = evened(np.concatenate([level, rising]) + tremor)
    assert len(corners) == 1
    assert np.linalg.norm(places[corners[0]] - (60.0, 0.0)) < 1.0
    off = np.minimum(np.abs(places[:, 1]), np.abs(places[:, 0] - 60.0))
    assert off.max() < 1.2
    assert off.mean() < 0.2  # of a tremor of 0.3 on average
    smooth, none = evened(np.column_stack([along, 5 * np.sin(along / 20)]))
    assert none == ()
    assert np.abs(smooth[:, 1] - 5 * np.sin(smooth[:, 0] / 20)).max() < 0.4
