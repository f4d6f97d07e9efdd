"""Ties: the back panels that run on as one, and strips that are sewn on."""

import math
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
import shapely
from plain_block import plain_block
from plausible_bodies import plausible_bodies

from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions, CentreBackEdge
from panelwright.body.measurements import Measurements
from panelwright.design.hem import Hem
from panelwright.design.position import Height
from panelwright.design.replay import Design, replay
from panelwright.design.step import Step
from panelwright.design.step_file import steps_from_json, steps_to_json
from panelwright.design.tie import Tie
from panelwright.design.top_edge import TopEdge
from panelwright.design.unfold import unfold
from panelwright.drawing.heading import Heading
from panelwright.drawing.paper import PAPERS
from panelwright.drawing.piece_drawing import draw_pieces
from panelwright.drawing.quarter_sheets import quarter_sheets
from panelwright.drawing.scale import QUARTER
from panelwright.errors import DesignError
from panelwright.finish.finishing import finish
from panelwright.finish.options import Cloths, Finish
from panelwright.pattern.closure import SPREAD_OPEN, Closure
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

PLAIN = plain_block()
TOP = TopEdge("top", "straight", Height("upper-bust", -5.0), Height("upper-bust", -5.0))
HEM = Hem("hem", "straight", Height("top-hip"), Height("top-hip"))
TIE = Tie("tie")
SMALL = {"bust": 780.0, "underbust": 680.0, "waist": 600.0, "hip": 840.0}
MIDDLING = {"bust": 920.0, "underbust": 800.0, "waist": 740.0, "hip": 980.0}
LARGE = {"bust": 1280.0, "underbust": 1080.0, "waist": 1060.0, "hip": 1300.0}


@cache
def block(panels: int = 4, centre_back: CentreBackEdge = "opening", seed: int = 5) -> Pattern:
    straight = "straight" if centre_back == "fold" else "shaped"
    options = BlockOptions(panels=panels, centre_back=centre_back, centre_back_shape=straight)
    return make_block(next(plausible_bodies(1, seed=seed)), options).pattern


@cache
def block_of(bust: float, underbust: float, waist: float, hip: float) -> Pattern:
    girths = {"bust_girth": bust, "underbust_girth": underbust, "waist_girth": waist, "hip_girth": hip}
    return make_block(Measurements.of("w-1", {**girths, "back_neck_to_waist": 400.0})).pattern


def made(*steps: Step, on: Pattern = PLAIN) -> Pattern:
    pattern = on
    for step in steps:
        pattern = step.apply(pattern, on)
    return pattern


def tied(tie: Tie = TIE, on: Pattern = PLAIN) -> Pattern:
    return made(TOP, HEM, tie, on=on)


def length_parts(pattern: Pattern) -> dict[str, float]:
    (working,) = [working for working in pattern.workings if working.id == "tie/length"]
    return {part.label: part.length for part in working.parts}


def reach(pattern: Pattern) -> float:
    return length_parts(pattern)["across the back, from the side to the centre back"]


def corners(piece: Piece) -> dict[str, float]:
    """Inner angle in degrees at the end of each edge, from directions alone."""
    return {edge.id: math.degrees(piece.inner_angle(edge)) for edge in piece.edges}


def middle_of_end(piece: Piece) -> np.ndarray:
    first, *others = piece.on_line("tie/end")
    return first.curve.end if others else (first.curve.start + first.curve.end) / 2


def test_the_back_is_one_piece_and_the_centre_back_is_gone() -> None:
    pattern = tied()
    assert [piece.id for piece in pattern.pieces] == ["CF", "SF", "TIE"]
    assert [seam.id for seam in pattern.seams] == ["front-princess", "side"]
    assert [edge.line for edge in pattern.piece("TIE").edges] == ["side", "tie/upper", "tie/end", "tie/lower"]
    assert (pattern.piece("TIE").label, pattern.piece("TIE").extent, pattern.piece("TIE").hand) == (
        "Tie", "one_side", "both"
    )  # fmt: skip


@pytest.mark.parametrize("panels", [3, 4, 5, 6])
def test_the_edge_at_the_side_stays_and_finished_edges_run_on_across_it(panels: int) -> None:
    before, pattern = made(TOP, HEM, on=block(panels)), tied(on=block(panels))
    tie = pattern.piece("TIE")
    edge = tie.edges[0]
    (old,) = [e for p in before.pieces for e in p.on_line(edge.line) if e.side == "left"]
    assert edge.curve == old.curve
    seam = pattern.seam(edge.line)
    assert pattern.chain_length(seam.b) == pytest.approx(pattern.chain_length(seam.a) + seam.ease, abs=0.05)
    front = pattern.piece(seam.a[0].piece)
    (other,) = front.on_line(edge.line)
    angles, beside = corners(tie), corners(front)
    assert angles[edge.id] + beside[front.before(other).id] == pytest.approx(180.0, abs=1.0)
    assert angles[tie.before(edge).id] + beside[other.id] == pytest.approx(180.0, abs=1.0)


def test_all_other_pieces_are_untouched() -> None:
    before, pattern = made(TOP, HEM), tied()
    for id in ("CF", "SF"):
        assert pattern.piece(id).edges == before.piece(id).edges


def test_the_reach_is_half_the_back_then_come_knot_and_tail() -> None:
    """G: on the plain block the waist lines of SB and CB are as wide as they are drawn: half the back."""
    widths = [PLAIN.piece(id).inside_line("waist").curve.length for id in ("SB", "CB")]
    assert reach(tied()) == pytest.approx(sum(widths), abs=0.1)
    assert list(length_parts(tied()))[-2:] == ["double knot", "tail"]


@pytest.mark.parametrize("end", ["square", "pointed"])
@pytest.mark.parametrize("misfit", ["eased", "dart"])
@pytest.mark.parametrize("given", [None, 610.0])
def test_the_piece_is_drawn_as_long_as_it_was_reckoned(end: str, misfit: str, given: float | None) -> None:
    """Measured on the outline with shapely: from the tip along the middle to the side, less what a dart takes up."""
    pattern = tied(replace(TIE, end=end, misfit=misfit, length=given), on=block())
    tie, working = pattern.piece("TIE"), pattern.workings[0]
    tip = middle_of_end(tie)
    upper, lower = tie.on_line("tie/upper")[0].curve, tie.on_line("tie/lower")[0].curve
    back = -(upper.end_tangent - lower.start_tangent) / 2
    line = shapely.LineString([tip + 0.001 * back, tip + 3000.0 * back / np.linalg.norm(back)])
    drawn = shapely.length(shapely.intersection(line, tie.outline))
    sewn = sum(shapely.length(shapely.intersection(line, dart)) for dart in darts(tie))
    assert working.length == pytest.approx(given or working.reckoned)
    assert drawn - sewn == pytest.approx(working.length, abs=0.5)
    assert bool(darts(tie)) == (misfit == "dart")


def darts(piece: Piece) -> list[shapely.Polygon]:
    lines = [line.curve for line in piece.inside if line.kind == "dart"]
    rings = [
        np.concatenate([a.polyline(), b.reversed().polyline()]) for a, b in zip(lines[::2], lines[1::2], strict=True)
    ]
    return [shapely.Polygon(ring) for ring in rings]


def test_a_dart_is_sewn_on_itself_and_takes_fullness_off() -> None:
    eased, darted = tied(on=block()), tied(replace(TIE, misfit="dart"), on=block())
    one, other = [line.curve for line in darted.piece("TIE").inside if line.kind == "dart"]
    assert one.length == pytest.approx(other.length, abs=1e-9)
    (shape,) = darts(darted.piece("TIE"))
    assert darted.piece("TIE").outline.buffer(-10.0).contains(shape)
    left = "fullness left where the back panels are joined"
    assert 0.0 < length_parts(darted)[left] < 0.6 * length_parts(eased)[left]
    widest = [w.parts[0].length for w in darted.workings if w.id == "tie/fullness"]
    assert widest[0] >= length_parts(eased)[left] - 0.5
    measured = [w for w in (*eased.workings, *darted.workings) if w.id == "tie/fullness"]
    assert [(w.short, w.long) for w in measured] == [(0.0, 0.0)] * 2


def test_knots_do_not_shrink_with_the_waist() -> None:
    """G: rule of the cutting table. What lies past the centre back is the same for a small and a large wearer."""
    small, large = tied(on=block_of(**SMALL)), tied(on=block_of(**LARGE))
    past = [sum(length_parts(p)[name] for name in ("double knot", "tail")) for p in (small, large)]
    assert past[0] == pytest.approx(past[1])
    assert reach(large) > 1.4 * reach(small)


def test_a_tie_is_about_twice_the_back_it_replaces_and_a_bow_longer() -> None:
    """CP: a double knot takes about twice the width of the back panels on a middling body; a bow needs more."""
    middling = block_of(**MIDDLING)
    pattern, bow = tied(on=middling), tied(replace(TIE, knot="bow"), on=middling)
    assert 1.7 < pattern.workings[0].length / reach(pattern) < 2.6
    assert pattern.workings[0].rule_length == pytest.approx(2 * reach(pattern))
    assert bow.workings[0].length > pattern.workings[0].length + 150.0


def test_a_pair_of_ties_is_about_a_sash() -> None:
    """R (a home-sewing page): a sash is the waist and 60 cm tied, so each end has about 30 cm past the back."""
    pattern = tied(on=block_of(**MIDDLING))
    past = pattern.workings[0].length - reach(pattern)
    assert past == pytest.approx(300.0, abs=70.0)


@pytest.mark.parametrize("girths", [SMALL, MIDDLING, LARGE])
def test_the_lower_edge_rises_and_the_tie_tapers(girths: dict[str, float]) -> None:
    """CP: rule of the cutting table. Widths are measured square to the tie, from the side to the end."""
    tie = tied(replace(TIE, width=80.0, end_width=50.0), on=block_of(**girths)).piece("TIE")
    upper, lower = tie.on_line("tie/upper")[0].curve, tie.on_line("tie/lower")[0].curve
    way = (upper.end_tangent - lower.start_tangent) / 2
    along, across = way / np.linalg.norm(way), np.array([way[1], -way[0]]) / np.linalg.norm(way)
    assert (lower.start - lower.end) @ across > 5.0
    assert (upper.start - upper.end) @ across > 5.0
    start, end = (float(point @ along) for point in (lower.end, lower.start))
    widths = []
    for place in np.linspace(start + 25.0, end - 5.0, 30):
        foot = place * along
        cut = shapely.intersection(tie.outline, shapely.LineString([foot - 900 * across, foot + 900 * across]))
        widths.append(shapely.length(cut))
    assert (np.diff(widths) < 0.5).all()
    assert widths[-1] == pytest.approx(50.0, abs=1.0)
    assert np.linalg.norm(upper.end - lower.start) == pytest.approx(50.0, abs=1e-6)


def test_ends_are_square_or_pointed_at_a_right_angle() -> None:
    square, pointed = (tied(replace(TIE, end=end)).piece("TIE") for end in ("square", "pointed"))
    angles = corners(square)
    assert [angles["TIE.tie/upper"], angles["TIE.tie/end"]] == pytest.approx([90.0, 90.0])
    angles = corners(pointed)
    assert angles["TIE.tie/end"] == pytest.approx(90.0)
    assert [angles["TIE.tie/upper"], angles["TIE.tie/end-2"]] == pytest.approx([135.0, 135.0])
    assert [edge.pointed_end for edge in pointed.on_line("tie/end")] == [True, False]


def test_the_grain_of_the_panel_at_the_side_survives_unless_asked() -> None:
    """CP: rule of the cutting table."""
    grain, own = tied(on=block()).piece("TIE").grain, block().piece("SB").grain
    assert grain.vector / grain.length == pytest.approx(own.vector / own.length)
    turned = tied(replace(TIE, grain_along=True), on=block()).piece("TIE").grain
    assert abs(turned.vector[1]) < 0.2 * turned.length
    assert abs(turned.vector[0]) > 0.5 * tied(on=block()).workings[0].length


def test_levels_that_ran_through_the_back_leave_guides() -> None:
    pattern = tied()
    assert pattern.levels == ()
    for piece in pattern.pieces:
        assert {line.kind for line in piece.inside} == {"guide"}
    assert {"waist", "waist-2", "back-princess", "centre-back"} <= {line.id for line in pattern.piece("TIE").inside}


def test_the_closure_is_the_tie() -> None:
    (closure,) = tied().closures
    assert (closure.id, closure.place, closure.kind, closure.seam) == ("tie", "centre-back", "tie", "")
    assert closure.spreads == SPREAD_OPEN
    assert closure.opens_flat
    assert closure.high == pytest.approx(70.0, abs=3.0)  # as high as the tie where it passes the centre back


def test_a_three_piece_design_is_cut_ten_times_with_a_full_facing() -> None:
    """CP: CF 2 on fold, SF 2 pairs, tie 2 pairs in self cloth are 10 pieces."""
    cutting = finish(tied(), Finish(facing="full", cloths=Cloths("silk", "silk")))
    counts = {piece.id: [(cut.mode, cut.count) for cut in side.cuts] for piece, side in cutting.pieces}
    assert counts == {"CF": [("fold", 2)], "SF": [("pair", 4)], "TIE": [("pair", 4)]}


def test_twenty_centimetres_of_tie_are_drawn_five_at_quarter_scale() -> None:
    """CP: quarter scale. Without an allowance the cut line is the strip itself."""
    pattern = tied(Tie("tie", "centre-back", width=40.0, length=200.0))
    drawings = draw_pieces(finish(pattern, Finish(allowance=0.0)), QUARTER)
    (strip,) = [drawing for drawing in drawings if drawing.piece == "TIE"]
    assert np.ptp(strip.cut_line, axis=0) == pytest.approx([50.0, 10.0])


@pytest.mark.parametrize(("length", "size"), [(450.0, (210.0, 297.0)), (850.0, (297.0, 210.0))])
def test_a_long_tie_lays_the_pages_on_their_side(length: float, size: tuple[float, float]) -> None:
    drawings = draw_pieces(finish(tied(replace(TIE, length=length), on=block())), QUARTER)
    sheets = quarter_sheets(drawings, Heading("Lantern bodice", "w-1"), PAPERS["A4"])
    assert {(sheet.width, sheet.height) for sheet in sheets} == {size}


def test_a_narrow_back_tapers_on_past_the_centre_and_says_how_far() -> None:
    """With three panels the tie grows out of the centre back panel alone."""
    low = Hem("hem", "straight", Height("hip"), Height("hip"))
    parts = length_parts(made(TOP, low, TIE, on=block(3)))
    assert parts["past the centre back, until it is narrow enough to knot"] > 20.0
    assert "fullness left where the back panels are joined" not in parts


def test_a_height_moves_the_tie_at_the_centre_back() -> None:
    low, high = (
        tied(replace(TIE, height=Height("waist", offset)), on=block()).piece("TIE").inside_line("centre-back").curve
        for offset in (0.0, 50.0)
    )
    middles = [(curve.start + curve.end) / 2 for curve in (low, high)]
    assert np.linalg.norm(middles[1] - middles[0]) == pytest.approx(50.0, abs=3.0)
    assert middles[1][1] > middles[0][1] + 40.0


def test_where_the_hem_is_at_the_waist_the_tie_goes_above_it() -> None:
    waist = Hem("hem", "straight", Height("waist"), Height("waist"))
    tie = made(TOP, waist, TIE, on=block()).piece("TIE")
    side, lower = tie.edges[0].curve.start, tie.on_line("tie/lower")[0].curve
    assert lower.end == pytest.approx(side)
    assert lower.polyline()[:, 1].min() > side[1] - 4.0  # it leaves in the hem's direction, square to the side seam
    assert lower.start[1] > side[1]


def test_the_step_is_pure_and_takes_its_own_records_out_first() -> None:
    pattern = tied()
    assert tied() == pattern
    assert len({TIE, replace(TIE)}) == 1
    stale = replace(made(TOP, HEM), workings=pattern.workings, closures=pattern.closures)
    assert [working.id for working in TIE.apply(stale, PLAIN).workings] == [w.id for w in pattern.workings]
    assert [closure.id for closure in TIE.apply(stale, PLAIN).closures] == ["tie"]


def test_a_design_file_needs_no_more_than_where_it_starts() -> None:
    (step,) = steps_from_json([{"kind": "tie", "uid": "tie", "from": "side"}])
    assert step == TIE
    outcome = replay(Design("d-1", "Lantern bodice", (TOP, HEM, step)), PLAIN)
    assert outcome.complete, outcome.outcomes


@pytest.mark.parametrize(
    "step",
    [
        TIE,
        Tie("sash", "caught-in-side", "bow", 25.0, 60.0, "pointed", 250.0, 90.0, 900.0, Height("waist", 12.5)),
        Tie("front", "centre-front", count=3, thickness=1.25, layers=1),
        Tie("back", misfit="dart", grain_along=True),
    ],
)
def test_a_tie_comes_back_from_a_design_file_as_it_was(step: Tie) -> None:
    entries = steps_to_json([step])
    assert steps_from_json(entries) == (step,)
    assert entries[0].get("from", "side") == step.start


REFUSED_IN_A_FILE = [
    ({"from": "back"}, "from is 'back'; use one of side, centre-front, centre-back, caught-in-side"),
    ({"form": "side"}, "has no field 'form'; did you mean 'from'?"),
    ({"width_cm": 50}, "its width is 50 cm; give 1 to 30 cm"),
    ({"layers": 1.5}, "layers is 1.5; it should be a whole number"),
    ({"count": 2}, "there is one tie on each side of the wearer; start several from the centre back"),
    ({"from": "centre-back", "count": 2, "height": {"level": "waist"}}, "several ties are spread evenly"),
    ({"from": "centre-back", "misfit": "dart"}, "an added tie has no joined panels"),
    ({"height": {"level": "hips"}}, "height names the level 'hips'"),
    ({"cloth_thickness_mm": 0}, "cloth_thickness_mm is 0; the least is 0.05"),
    ({"uid": "centre-front-tie"}, "its lines would be taken for the centre front; call it otherwise"),
]


@pytest.mark.parametrize(("fields", "sentence"), REFUSED_IN_A_FILE)
def test_what_a_file_cannot_ask_for_is_refused(fields: dict[str, object], sentence: str) -> None:
    with pytest.raises(DesignError) as caught:
        steps_from_json([{"kind": "tie", "uid": "tie", **fields}])
    assert sentence in str(caught.value)
    assert "\n" not in str(caught.value)


def test_what_cannot_be_tied_is_refused_in_one_sentence() -> None:
    zipped = Closure("zip", "centre-back", "zip", "centred", "centre", "centre-back", 0.0, 300.0)
    low_top = TopEdge("top", "straight", Height("waist", 90.0), Height("waist", 90.0))
    short = Hem("hem", "straight", Height("waist"), Height("waist"))
    folded = block(centre_back="fold")
    cases = [
        (lambda: made(TIE), "the tie piece still ends at the block's own upper edge; put the top edge before the tie"),
        (lambda: made(TOP, TIE), "the tie piece still ends at the block's own hem; put the hem before the tie"),
        (lambda: tied(on=folded), "let the block open at the centre back (in a file: block.centre_back, opening)"),
        (lambda: TIE.apply(unfold(made(TOP, HEM)), PLAIN), "put the tie before unfolding"),
        (
            lambda: TIE.apply(replace(made(TOP, HEM), closures=(zipped,)), PLAIN),
            "closed already, by the step “zip”; take it out",
        ),
        (lambda: Tie("again").apply(tied(), PLAIN), "a back panel is no longer there"),
        (lambda: tied(replace(TIE, length=150.0)), "a length of 15.0 cm ends before the knot; give at least"),
        (lambda: tied(replace(TIE, height=Height("hip"))), "the middle of the tie would lie 10.0 cm below the hem"),
        (lambda: made(low_top, short, replace(TIE, width=100.0)), "no room to draw in; give it less width, or raise"),
    ]
    for attempt, sentence in cases:
        with pytest.raises(DesignError) as caught:
            attempt()
        assert sentence in str(caught.value)
        assert str(caught.value).startswith("tie: ")
        assert "\n" not in str(caught.value)
