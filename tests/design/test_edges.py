"""Top edge and hem: what is cut, what is kept, and that the pieces still sew together."""

from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
import shapely
from design.sewn_line import corner_degrees, drawn, seam_pairs
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from plain_block import plain_block

from panelwright.design.finished_edge import FreePoint
from panelwright.design.hem import Hem
from panelwright.design.position import BodyPoint, Height
from panelwright.design.step import Step
from panelwright.design.top_edge import TopEdge
from panelwright.errors import DesignError
from panelwright.geometry.placement import Placement
from panelwright.pattern.pattern import Pattern

BLOCK = plain_block()
TOP = TopEdge("neck", "sweetheart", Height("bust", 5.0), Height("upper-bust", -15.0))
HEM = Hem("hem", "shaped", Height("top-hip", -60.0), Height("waist", -20.0), Height("top-hip"))
WAIST = Hem("hem", "straight", Height("waist"), Height("waist"))


def carried_out(*steps: Step, block: Pattern = BLOCK) -> Pattern:
    pattern = block
    for step in steps:
        pattern = step.apply(pattern, block)
    return pattern


def notch_between(line: str, towards: str, high: Height, low: Height) -> tuple[FreePoint, ...]:
    """Corners that cut a V into the middle of a panel."""
    places = ((0.2, high), (0.5, low), (0.8, high))
    return tuple(FreePoint(BodyPoint(height, line, towards, share), corner=True) for share, height in places)


def seam_difference(pattern: Pattern, seam: str) -> float:
    """How much longer chain b is than chain a, from fine polylines."""
    lengths = []
    for chain in (pattern.seam(seam).a, pattern.seam(seam).b):
        curves = [pattern.span_curve(span).polyline(1e-6) for span in chain]
        lengths.append(sum(float(np.linalg.norm(np.diff(points, axis=0), axis=1).sum()) for points in curves))
    return lengths[1] - lengths[0]


@pytest.mark.parametrize("steps", [(TOP, HEM), (HEM, TOP)])
def test_pieces_are_cut_and_still_sew_together(steps: tuple[Step, ...]) -> None:
    pattern = carried_out(*steps)
    for piece in pattern.pieces:
        assert {edge.line for edge in piece.edges if edge.kind == "finished"} == {"neck/line", "hem/line"}
        assert piece.outline.area < BLOCK.piece(piece.id).outline.area
    for line, before, after in seam_pairs(pattern):
        assert abs(seam_difference(pattern, line)) < 1e-3
        assert before.on_line(line)[0].interval == pytest.approx(after.on_line(line)[0].interval, abs=1e-9)
        for finished in ("neck/line", "hem/line"):
            total = corner_degrees(before, line, finished) + corner_degrees(after, line, finished)
            assert total == pytest.approx(180.0, abs=1e-3)
    assert corner_degrees(pattern.piece("CF"), "centre-front", "hem/line") == pytest.approx(90.0, abs=1e-3)
    assert corner_degrees(pattern.piece("CB"), "centre-back", "hem/line") == pytest.approx(90.0, abs=1e-3)
    assert corner_degrees(pattern.piece("CB"), "centre-back", "neck/line") == pytest.approx(90.0, abs=1e-3)


def test_the_order_of_top_edge_and_hem_does_not_matter() -> None:
    one, other = carried_out(TOP, HEM), carried_out(HEM, TOP)
    for piece in one.pieces:
        same = other.piece(piece.id)
        assert shapely.symmetric_difference(piece.outline, same.outline).area < 1e-3
        assert {line.id for line in piece.inside} == {line.id for line in same.inside}


def test_the_new_line_is_named_after_its_step_and_divided_among_the_pieces() -> None:
    pattern = carried_out(TOP)
    assert (pattern.line("neck/line").origin, TOP.slots) == ("neck", ("line",))
    edges = [edge for piece in pattern.pieces for edge in piece.on_line("neck/line")]
    assert (edges[0].interval[0], edges[-1].interval[1]) == (0.0, 1.0)
    for before, after in pairwise(edges):
        assert before.interval[1] == after.interval[0]
    lengths = [edge.curve.length for edge in edges]
    shares = [edge.interval[1] - edge.interval[0] for edge in edges]
    assert shares == pytest.approx([length / sum(lengths) for length in lengths])


def test_points_are_marked_where_they_were_asked_for() -> None:
    pattern = carried_out(TOP, Hem("hem", "pointed", Height("top-hip", -60.0), Height("waist")))
    pointed = {edge.id for piece in pattern.pieces for edge in piece.edges if edge.pointed_end}
    assert pointed == {"CF.centre-front", "CF.hem/line"}
    square = carried_out(TopEdge("neck", "square", Height("bust"), Height("upper-bust")))
    marked = [edge.id for edge in square.piece("CF").edges if edge.pointed_end]
    assert marked == ["CF.neck/line", "CF.neck/line-2"]
    assert [edge.id for edge in square.piece("CF").on_line("neck/line")] == [
        "CF.neck/line", "CF.neck/line-2", "CF.neck/line-3"
    ]  # fmt: skip


def test_a_level_that_is_cut_open_leaves_guides() -> None:
    pattern = carried_out(TOP, HEM)
    assert [level.id for level in pattern.levels] == ["bust", "underbust", "waist"]
    for piece in pattern.pieces:
        kinds = {line.id: line.kind for line in piece.inside}
        assert kinds["waist"] == "level"
        assert not {"upper-bust", "hip"} & set(kinds)  # wholly cut off
        assert kinds.get("lower-waist", "guide") == "guide"
        for line in piece.inside:
            assert (
                line.curve.length <= BLOCK.piece(piece.id).inside_line(line.id.removesuffix("-2")).curve.length + 1e-6
            )
    assert "top-hip" in {line.id for line in pattern.piece("CF").inside}


def test_a_level_cut_in_two_keeps_both_parts_with_ids_of_their_own() -> None:
    high = Height("bust", 20.0)
    points = notch_between("side", "back-princess", high, Height("underbust", 40.0))
    pattern = carried_out(TopEdge("neck", "straight", high, high, points=points))
    parts = [line for line in pattern.piece("SB").inside if line.id.startswith("bust")]
    assert [(line.id, line.kind) for line in parts] == [("bust", "guide"), ("bust-2", "guide")]
    assert [line.kind for line in pattern.piece("CF").inside if line.id == "bust"] == ["guide"]
    assert not pattern.has_level("bust")


def test_a_level_that_the_hem_runs_along_stays_and_is_drawn_as_the_hem() -> None:
    pattern = carried_out(WAIST)
    level = pattern.level("waist")
    girth = sum(step.times * pattern.piece(step.piece).inside_line("waist").curve.length for step in level.path)
    assert girth == pytest.approx(level.finished_girth, abs=1.0)
    for piece in pattern.pieces:
        assert np.abs(piece.inside_line("waist").curve.points - piece.on_line("hem/line")[0].curve.points).max() < 1e-6
    assert [each.id for each in pattern.levels] == ["upper-bust", "bust", "underbust", "waist"]


def test_marks_above_the_top_edge_are_gone_and_others_stay() -> None:
    low = TopEdge("neck", "straight", Height("bust", -20.0), Height("bust", -20.0))
    assert carried_out(low).piece("CF").marks == ()
    assert [mark.id for mark in carried_out(TOP).piece("CF").marks] == ["bust-point"]


@pytest.mark.parametrize(
    "steps",
    [
        (TOP, HEM),
        (WAIST, TopEdge("neck", "straight", Height("underbust"), Height("underbust"))),
        (Hem("hem", "straight", Height("bust", -20.0), Height("bust", -20.0)),),
    ],
)
def test_the_grain_stays_inside_and_a_third_of_the_piece_long(steps: tuple[Step, ...]) -> None:
    """Rule 9 of docs/pattern-file.md."""
    for piece in carried_out(*steps).pieces:
        line = shapely.LineString([piece.grain.start, piece.grain.end])
        assert piece.outline.buffer(0.05).contains(line)
        assert abs(piece.grain.vector[0]) < 1e-9  # still upright
        assert piece.grain.length >= np.ptp(drawn_outline(piece)[:, 1]) / 3


def drawn_outline(piece) -> np.ndarray:  # type: ignore[no-untyped-def]
    return np.array(piece.outline.exterior.coords)


def test_a_seam_with_ease_keeps_its_share_of_it() -> None:
    """SB's back princess edge stretched by 4 mm: cut where 60 % is left, 60 % of the ease is left."""
    block = with_longer_edge(BLOCK, "back-princess", 4.0)
    seam = block.seam("back-princess")
    pattern = carried_out(WAIST, block=block)
    cut = pattern.seam("back-princess")
    share = pattern.chain_length(cut.a) / block.chain_length(seam.a)
    assert 0.4 < share < 0.6
    assert cut.ease == pytest.approx(4.0 * share)
    assert pattern.chain_length(cut.b) - pattern.chain_length(cut.a) == pytest.approx(cut.ease, abs=1e-3)


def with_longer_edge(block: Pattern, line: str, more: float) -> Pattern:
    """The block with the CB side of a seam scaled up along with its piece's height, and the difference as ease."""
    piece = block.piece("CB")
    edge = piece.on_line(line)[0]
    factor = 1 + more / edge.curve.length
    taller = replace(
        piece,
        edges=tuple(replace(e, curve=e.curve.scaled(factor)) for e in piece.edges),
        inside=tuple(replace(i, curve=i.curve.scaled(factor)) for i in piece.inside),
    )
    seam = block.seam(line)
    seams = tuple(replace(s, ease=more) if s.id == line else s for s in block.seams)
    assert edge.line == seam.id
    return replace(block.with_pieces(taller), seams=seams)


def test_moved_pieces_are_cut_where_they_lie() -> None:
    """The material map carries the line: a pattern whose SF was turned is cut like one whose SF was not."""
    turned = Placement(0.4, 30.0, -12.0)
    moved = BLOCK.with_pieces(BLOCK.piece("SF").placed(turned))
    cut = TOP.apply(moved, BLOCK).piece("SF")
    plain = carried_out(TOP).piece("SF").placed(turned)
    assert np.abs(drawn(cut, "neck/line") - drawn(plain, "neck/line")).max() < 1e-9


SHAPES = st.sampled_from(["straight", "scooped", "sweetheart", "v", "square"])
OFFSET = st.floats(-25.0, 25.0)


@settings(max_examples=40)
@given(SHAPES, OFFSET, st.floats(-40.0, 0.0), st.sampled_from(["shaped", "pointed"]), OFFSET, OFFSET, OFFSET)
def test_any_garment_that_can_be_cut_sews_together(
    shape: str, centre: float, side: float, hem: str, low: float, mid: float, back: float
) -> None:
    top = TopEdge("neck", shape, Height("bust", centre), Height("upper-bust", side))
    bottom = Hem("hem", hem, Height("top-hip", low), Height("lower-waist", mid), Height("top-hip", back))
    try:
        pattern = carried_out(top, bottom)
    except DesignError:
        assume(False)
    for line, before, after in seam_pairs(pattern):
        assert abs(seam_difference(pattern, line)) < 1e-3
        for finished in ("neck/line", "hem/line"):
            total = corner_degrees(before, line, finished) + corner_degrees(after, line, finished)
            assert total == pytest.approx(180.0, abs=1e-3)
    for piece in pattern.pieces:
        assert piece.outline.is_valid
        for line in piece.inside:
            middle = shapely.Point(line.curve.point(line.curve.length / 2))
            assert piece.outline.distance(middle) < 0.15
    for level in pattern.levels:
        girth = sum(s.times * pattern.piece(s.piece).inside_line(s.inside).curve.length for s in level.path)
        assert girth == pytest.approx(level.finished_girth, abs=1.0)


def test_seams_that_do_not_match_would_be_seen() -> None:
    """Two-sided: the difference that the tests above bound is there as soon as one side is sewn a little shorter."""
    pattern = carried_out(TOP)
    seam = pattern.seam("side")
    shorter = replace(seam, b=(replace(seam.b[0], end=0.999),))
    seams = tuple(shorter if each.id == seam.id else each for each in pattern.seams)
    assert seam_difference(replace(pattern, seams=seams), "side") < -0.1


@pytest.mark.parametrize(
    ("steps", "sentence"),
    [
        (
            lambda: (TopEdge("neck", "straight", Height("bust"), Height("upper-bust", 20.0)),),
            "top edge: at the side line it would lie 2.0 cm above the block, which ends at upper bust; "
            "lower it by that much or choose another level",
        ),
        (
            lambda: (Hem("low", "straight", Height("hip", -30.0), Height("hip", -30.0)),),
            "hem: at the centre front line it would lie 3.0 cm below the block",
        ),
        (
            lambda: (WAIST, TopEdge("neck", "straight", Height("waist", -20.0), Height("bust"))),
            "top edge: at the centre front line it lies beyond the hem that the centre front piece already has; "
            "raise it",
        ),
        (
            lambda: (TOP, Hem("hem", "straight", Height("upper-bust"), Height("upper-bust"))),
            "hem: at the centre front line it lies beyond the top edge that the centre front piece already has; "
            "lower it",
        ),
        (
            lambda: (
                TopEdge("first", "straight", Height("bust"), Height("bust")),
                TopEdge("second", "straight", Height("bust", 10.0), Height("bust", 10.0)),
            ),
            "top edge: at the centre front line it lies beyond the top edge that the centre front piece already has",
        ),
        (
            lambda: (WAIST, TopEdge("neck", "straight", Height("waist", 9.0), Height("bust"))),
            "it leaves 0.9 cm of the centre front edge of the centre front piece; leave at least 1.5 cm",
        ),
        (
            lambda: (
                WAIST,
                TopEdge(
                    "neck", "straight", Height("bust"), Height("bust"),
                    points=notch_between("side", "front-princess", Height("bust"), Height("waist", -30.0)),
                ),
            ),
            "the line crosses the hem/line edge of the side front piece; leave room between them",
        ),
        (lambda: (TopEdge("neck", "heart", Height("bust"), Height("bust")),), "a top edge is straight, scooped"),
        (lambda: (Hem("hem", "round", Height("waist"), Height("waist")),), "a hem is straight, shaped, pointed"),
        (lambda: (Hem("hem", "straight", Height("waist"), Height("hip")),), "a straight hem runs at one height"),
        (
            lambda: (TopEdge("neck", "v", Height("bust"), Height("bust"), point_at_centre=False),),
            "a V has a point at the centre",
        ),
        (
            lambda: (Hem("hem", "pointed", Height("hip"), Height("waist"), point_at_centre=False),),
            "a pointed hem has a point at the centre",
        ),
        (lambda: (TopEdge("Neck line", "v", Height("bust"), Height("bust")),), "a step cannot be called 'Neck line'"),
    ],
)  # fmt: skip
def test_what_cannot_be_cut_is_refused_in_one_sentence(steps: Callable[[], tuple[Step, ...]], sentence: str) -> None:
    with pytest.raises(DesignError) as caught:
        carried_out(*steps())
    assert sentence in str(caught.value)
    assert "\n" not in str(caught.value)
    assert caught.value.where


def test_a_block_without_one_row_of_panels_is_refused() -> None:
    alone = replace(BLOCK, pieces=BLOCK.pieces[:2], seams=BLOCK.seams[:1], levels=())
    with pytest.raises(DesignError, match="do not follow one another across side"):
        TOP.apply(alone, alone)
