"""Closures: what they do to edges, girths and pieces. G: geometry, derivable. CP: common practice."""

import math
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import worn_garment
from design.closed_garment import (
    EDGES,
    HEM,
    LEVEL_TOP,
    TOP,
    Entry,
    block,
    closing,
    made,
    outcomes,
    refusal,
    widths,
)
from measured_pattern import MeasuredPattern
from plain_block import plain_block
from verifier import violations

from panelwright.app.garment import make_garment
from panelwright.app.garment_design import GarmentDesign
from panelwright.blocks.options import BlockOptions, Ease
from panelwright.body.size_table import size
from panelwright.checks import check_drafting
from panelwright.checks.level_girth import drawn_girth
from panelwright.design.closure import ClosureStep
from panelwright.design.lacing import Lacing
from panelwright.design.position import Height
from panelwright.design.step_file import steps_from_json
from panelwright.design.tied import Tied
from panelwright.design.unfold import unfold
from panelwright.design.zip import Zip
from panelwright.errors import DesignError
from panelwright.finish.finishing import finish
from panelwright.finish.options import Finish
from panelwright.output.pattern_document import pattern_to_json
from panelwright.pattern.closure import SPREAD_OPEN
from panelwright.pattern.pattern import Pattern

FACED = Finish(facing="full", interfacing=True)
EVERY_TYPE: list[Entry] = [
    closing(place, type, **fields)
    for place in ("centre-front", "centre-back")
    for type, fields in (
        ("fold", {}),
        ("seam", {}),
        ("zip", {}),
        ("zip", {"style": "exposed", "teeth_width_cm": 0.8}),
        ("zip", {"style": "invisible", "opening_cm": 20}),
        ("lacing", {"gap_cm": 4, "modesty_overlap_cm": 3}),
        ("hooks", {"underlap_cm": 2}),
        ("buttons", {}),
        ("tie", {}),
    )
] + [closing("side", "zip", style="invisible"), closing("side", "hooks", hand="right")]


def girths_off(pattern: Pattern) -> dict[str, float]:
    return {level.id: drawn_girth(pattern, level) - level.finished_girth for level in pattern.levels}


@pytest.mark.parametrize("number", range(len(EVERY_TYPE)))
def test_every_closure_is_sound_for_the_outside_verifier(number: int, shared: Path) -> None:
    own = block(number % 2, panels=(4, 6)[number % 2])
    cutting = finish(made(own, EVERY_TYPE[number]), FACED)
    assert violations(shared, pattern_to_json(cutting)) == []
    assert check_drafting(cutting) == ()


@pytest.mark.parametrize("body", range(4))
def test_from_zip_to_fold_to_lacing_girths_are_kept_and_no_other_panel_moves(body: int) -> None:
    """G: finished girth = body girth + ease = Σ arc · times + gap − overlap within 1 mm; a gap comes half off each
    centre edge, so every other panel is the very same."""
    own = block(body)
    zipped = made(own, closing("centre-back", "zip"))
    for entry in (
        closing("centre-back", "zip"),
        closing("centre-back", "fold"),
        closing("centre-back", "lacing", gap_cm=5),
        closing("centre-back", "buttons"),
        closing("centre-back", "zip", style="exposed", teeth_width_cm=1),
    ):
        pattern = made(own, entry)
        assert {level.id for level in pattern.levels} == {level.id for level in zipped.levels}
        assert max(map(abs, girths_off(pattern).values())) < 1.0, entry
        for piece in zipped.pieces:
            if piece.id != "CB":
                assert pattern.piece(piece.id) == piece
    assert pattern.piece("CB") != zipped.piece("CB")


@pytest.mark.parametrize("shape", ["straight", "shaped"])
@pytest.mark.parametrize("gap", [0.0, 30.0, 60.0])
def test_a_lacing_gap_comes_half_off_each_centre_edge_parallel(shape: Any, gap: float) -> None:
    """G: every place of the new edge is gap / 2 from the old one, and the level lines are as much shorter each."""
    own = block(2, shape)
    before = made(own, closing("centre-back", "zip")).piece("CB")
    after = made(own, closing("centre-back", "lacing", gap_cm=gap / 10)).piece("CB")
    old, new = before.edge("CB.centre-back").line_curve, after.edge("CB.centre-back").line_curve
    inner = np.linspace(30.0, new.length - 30.0, 40)
    assert [old.nearest(new.point(arc))[1] for arc in inner] == pytest.approx([gap / 2] * 40, abs=0.02)
    for level, width in widths(before).items():
        assert widths(after)[level] == pytest.approx(width - gap / 2, abs=0.25), level
    assert before.edge("CB.back-princess") == after.edge("CB.back-princess")


@pytest.mark.parametrize("gap_cm", [1.0, 2.0, 4.0])
def test_an_unfolded_laced_back_under_a_round_neck_is_sound_for_the_outside_verifier(
    gap_cm: float, shared: Path
) -> None:
    """Each corner is within 1° of square, both together are not: they are pointed (rule 7)."""
    laced = worn_garment.closure("centre-back", "lacing", gap_cm=gap_cm)
    pattern = unfold(worn_garment.garment([worn_garment.HIGH], [laced]))
    assert violations(shared, pattern_to_json(finish(pattern))) == []


def test_the_half_pattern_of_a_laced_bodice() -> None:
    """CP, G (rules of the cutting table): half pattern = (girth + ease − lacing gap) / 2: waist 76, ease −4, gap 6
    → 33.0 cm; the other panels do not move."""
    waists = {}
    for type, fields in (("lacing", {"gap_cm": 6}), ("zip", {})):
        steps = steps_from_json([LEVEL_TOP, HEM, closing("centre-back", type, **fields)])
        design = GarmentDesign("lantern-07", "Laced bodice", BlockOptions(Ease(waist=-40.0)), steps)
        garment = make_garment(size(92), design)
        waists[type] = MeasuredPattern(pattern_to_json(garment.cutting, garment.findings)).widths("waist")
    laced, plain = waists["lacing"], waists["zip"]
    assert sum(laced.values()) == pytest.approx(330.0, abs=0.5)
    assert sum(plain.values()) == pytest.approx(360.0, abs=0.5)
    assert {id for id in plain if plain[id] != laced[id]} == {"CB"}
    assert plain["CB"] - laced["CB"] == pytest.approx(30.0, abs=0.2)


def test_half_the_teeth_of_an_exposed_zip_come_off_each_edge() -> None:
    """CP: half the visible teeth width comes off each edge."""
    plain, exposed = (
        made(block(0), closing("centre-front", "zip", **fields))
        for fields in ({"style": "centred"}, {"style": "exposed", "teeth_width_cm": 0.8})
    )
    for level, width in widths(plain.piece("CF")).items():
        assert widths(exposed.piece("CF"))[level] == pytest.approx(width - 4.0, abs=0.05)
        assert exposed.level(level).gap == 8.0


def test_a_button_stand_reaches_beyond_the_centre_line_and_laps() -> None:
    """G: each edge is a stand wider, square to the centre, so the edges lap by two stands on every level."""
    plain, buttoned = (made(block(1), closing("centre-front", type)) for type in ("zip", "buttons"))
    old, new = plain.piece("CF"), buttoned.piece("CF")
    for level, width in widths(old).items():
        assert widths(new)[level] == pytest.approx(width + 15.0, abs=1e-6)
        assert buttoned.level(level).overlap == 30.0
    centre, edge = new.inside_line("centre-front"), new.edge("CF.centre-front")
    assert centre is not None
    assert centre.kind == "guide"
    assert centre.curve.points[:, 0] == pytest.approx([-15.0] * len(centre.curve.points))
    assert centre.curve.length == pytest.approx(old.edge("CF.centre-front").curve.length)
    for corner in (new.before(edge), edge):
        assert new.inner_angle(corner) == pytest.approx(math.pi / 2, abs=1e-6)
    assert {mark.at[0] for mark in new.marks if mark.kind == "button"} == {-15.0}


def test_a_stand_under_a_level_neckline_runs_on_in_one_edge() -> None:
    flat = made(block(1), closing("centre-front", "buttons"), edges=(LEVEL_TOP, HEM)).piece("CF")
    heart = made(block(1), closing("centre-front", "buttons")).piece("CF")
    assert [edge.line for edge in flat.edges].count("neck/line") == 1
    assert [edge.line for edge in heart.edges].count("neck/line") == 2


@pytest.mark.parametrize("place", ["centre-front", "centre-back"])
def test_a_strap_stays_where_it_is_sewn_when_a_stand_lengthens_the_edge(place: str) -> None:
    """G: what is sewn to an edge keeps its place and its length beside the princess seam."""
    strap = {"kind": "strap", "uid": "straps", "type": "separate", "at_front_cm": 5, "at_back_cm": 5}
    top = {**worn_garment.TOP, "shape": "straight"}
    before, after = (
        worn_garment.garment([top, strap], shut)
        for shut in ([], [worn_garment.closure(place, "buttons", stand_cm=1.5)])
    )
    piece = "CF" if place == "centre-front" else "CB"
    assert after.piece(piece).outline.area > before.piece(piece).outline.area
    sewn = 0
    for seam in before.seams:
        if not seam.id.startswith("STRAP."):
            continue
        (now,) = [other for other in after.seams if other.id == seam.id]
        for old, new in zip((*seam.a, *seam.b), (*now.a, *now.b), strict=True):
            if old.piece == piece:
                ends = [np.array(getattr(before.span_curve(old), end)) for end in ("start", "end")]
                ends_now = [np.array(getattr(after.span_curve(new), end)) for end in ("start", "end")]
                shift = np.array([1.5 * 10 if place == "centre-front" else 0.0, 0.0])
                assert [tuple(end + shift) for end in ends_now] == [pytest.approx(tuple(end), abs=0.05) for end in ends]
                sewn += 1
    assert sewn
    assert check_drafting(finish(after)) == ()


@pytest.mark.parametrize(
    ("type", "extent", "kind", "seam", "mode"),
    [
        ("fold", "half_on_fold", "fold", None, "fold"),
        ("seam", "one_side", "seam", "join", "pair"),
        ("zip", "one_side", "opening", "closure", "pair"),
        ("lacing", "one_side", "opening", "closure", "pair"),
        ("hooks", "one_side", "opening", "closure", "pair"),
        ("buttons", "one_side", "opening", "closure", "pair"),
        ("tie", "one_side", "opening", "closure", "pair"),
    ],
)
@pytest.mark.parametrize("line", ["centre-front", "centre-back"])
@pytest.mark.parametrize("before", ["opening", "seam", "fold"])
def test_a_closure_changes_edge_seam_allowance_and_cut_count(
    before: Any, line: str, type: str, extent: str, kind: str, seam: str | None, mode: str
) -> None:
    pattern = made(block(3, centre_back=before), closing(line, type))
    piece = pattern.piece("CF" if line == "centre-front" else "CB")
    edge = piece.edge(f"{piece.id}.{line}")
    assert (piece.extent, edge.kind) == (extent, kind)
    assert [s.kind for s in pattern.seams if s.id == line] == ([seam] if seam else [])
    cut = finish(pattern).cut[piece.id]
    assert [(entry.mode, entry.count) for entry in cut.cuts] == [(mode, 1 if mode == "fold" else 2)]
    assert cut.allowances[edge.id] == (0.0 if kind == "fold" else 10.0)


@pytest.mark.parametrize("body", range(3))
def test_a_back_laid_on_the_fold_is_the_back_that_the_block_cuts_on_the_fold(body: int) -> None:
    """Another way to the same piece: the block that was made for a fold."""
    laid = made(block(body), closing("centre-back", "fold")).piece("CB")
    own = made(block(body, centre_back="fold")).piece("CB")
    assert laid.extent == own.extent
    assert [edge.id for edge in laid.edges] == [edge.id for edge in own.edges]
    for one, other in zip(laid.edges, own.edges, strict=True):
        assert one.curve.length == pytest.approx(other.curve.length, abs=1e-3)
    assert laid.outline.area == pytest.approx(own.outline.area, abs=0.1)
    assert laid.grain.vector[0] == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("type", ["zip", "lacing", "buttons"])
def test_a_grain_that_lay_on_the_fold_turns_square_to_the_waist(type: str) -> None:
    """CP: panels but the centre front are cut square to their own waist line."""
    piece = made(block(1, centre_back="fold"), closing("centre-back", type)).piece("CB")
    waist = piece.inside_line("waist")
    assert waist is not None
    run = waist.curve.chord
    assert abs(run @ piece.grain.vector) / np.linalg.norm(run) / piece.grain.length < math.sin(math.radians(0.01))


def test_a_front_edge_lies_on_x_0_whatever_closes_it() -> None:
    for type in ("seam", "zip", "lacing", "buttons", "tie"):
        piece = made(block(0), closing("centre-front", type)).piece("CF")
        assert piece.outline.bounds[2] == pytest.approx(0.0, abs=1e-9), type
        (region,) = piece.material
        assert region.panel == "CF"


def test_the_material_map_follows_a_front_that_was_moved() -> None:
    """The same place of the block lies at the same place of the cloth: seen at the princess seam's lower end."""
    own = block(0)
    was, now = own.pattern.piece("CF"), made(own, closing("centre-front", "lacing", gap_cm=6)).piece("CF")
    line = now.inside_line("waist")
    old = was.inside_line("waist")
    assert line is not None
    assert old is not None
    assert now.material[0].placement.points(old.curve.start) == pytest.approx(line.curve.start, abs=1e-6)
    assert line.curve.start[0] == pytest.approx(old.curve.start[0] + 30.0, abs=1e-6)


def test_a_part_of_the_centre_opens_and_the_rest_is_sewn() -> None:
    pattern = made(block(0), closing("centre-back", "zip", opening_cm=20))
    (closure,) = pattern.closures
    length = pattern.piece("CB").edge("CB.centre-back").curve.length
    assert (closure.low, closure.high) == pytest.approx((length - 200.0, length))
    assert (closure.to_top, closure.to_hem, closure.opens_flat) == (True, False, False)
    assert closure.seam == "shut/centre-back"
    shares = {seam.kind: seam.a[0].share for seam in pattern.seams if seam.is_centre}
    assert shares == pytest.approx({"closure": 200.0 / length, "join": 1 - 200.0 / length})
    (end,) = (mark for mark in pattern.piece("CB").marks if mark.id == "shut/zip-end")
    edge = pattern.piece("CB").edge("CB.centre-back").line_curve
    assert end.at == pytest.approx(tuple(edge.point(length - 200.0)))


def test_an_opening_may_end_at_a_level_of_the_wearer() -> None:
    pattern = made(block(0), closing("centre-back", "zip", down_to={"level": "waist", "offset_cm": -3}))
    piece = pattern.piece("CB")
    waist = pattern.level_place(piece.edge("CB.centre-back"), piece, "waist")
    assert waist is not None
    assert pattern.closures[0].low == pytest.approx(waist - 30.0, abs=1e-6)


TO_HIP: Entry = {
    "kind": "hem", "uid": "low", "shape": "straight", "centre": {"level": "hip"}, "side": {"level": "hip"},
}  # fmt: skip


def test_a_side_opens_on_the_left_down_to_the_top_hip() -> None:
    pattern = made(block(0), closing("side", "zip"), edges=(TOP, TO_HIP))
    (closure,) = pattern.closures
    assert (closure.hand, closure.seam, closure.to_hem) == ("left", "side", False)
    for id in ("SF", "SB"):
        piece = pattern.piece(id)
        top_hip = pattern.level_place(piece.edge(f"{id}.side"), piece, "top-hip")
        assert top_hip is not None
        assert closure.low == pytest.approx(top_hip, abs=0.05)
        assert [mark.id for mark in piece.marks if mark.kind == "point"][-1] == "shut/zip-end"
    plain = made(block(0), edges=(TOP, TO_HIP))
    assert pattern.seams == plain.seams
    assert [piece for piece in pattern.pieces if piece.id not in ("SF", "SB")] == [
        piece for piece in plain.pieces if piece.id not in ("SF", "SB")
    ]


def test_where_hardly_anything_would_stay_sewn_it_opens_to_the_hem() -> None:
    to_hem = made(block(0), closing("side", "zip", down_to={"level": "hip"}))
    assert to_hem.closures[0].opens_flat
    assert to_hem.notions[0].name == "separating zip"
    assert all(mark.id != "shut/zip-end" for mark in to_hem.piece("SF").marks)


def test_no_closure_or_notion_is_left_by_a_fold_or_a_seam() -> None:
    for type in ("fold", "seam"):
        pattern = made(block(0), closing("centre-back", type))
        assert (pattern.closures, pattern.notions, pattern.workings) == ((), (), ())


def test_a_modesty_panel_and_an_underlap_are_pieces_of_their_own() -> None:
    laced = made(block(0), closing("centre-back", "lacing", gap_cm=5, modesty_overlap_cm=3))
    panel = laced.piece("shut-modesty-panel")
    low_x, low_y, high_x, high_y = panel.outline.bounds
    assert (high_x - low_x, high_y - low_y) == pytest.approx((110.0, laced.closures[0].opening))
    assert (panel.extent, panel.label, {edge.kind for edge in panel.edges}) == ("whole", "Modesty panel", {"finished"})
    assert high_x < min(piece.outline.bounds[0] for piece in laced.pieces if piece is not panel)
    hooked = made(block(0), closing("centre-front", "hooks", underlap_cm=2)).piece("shut-underlap")
    assert hooked.outline.bounds[2] - hooked.outline.bounds[0] == pytest.approx(40.0)


def test_edges_that_come_apart_spread_without_end_and_a_lacing_as_far_as_its_cord() -> None:
    for type in ("zip", "hooks", "buttons", "tie"):
        assert made(block(0), closing("centre-back", type)).closures[0].spreads == SPREAD_OPEN
    assert made(block(0), closing("centre-back", "lacing")).closures[0].spreads < 1000.0


def test_two_centres_may_be_closed_each_in_its_own_way() -> None:
    pattern = made(
        block(0), closing("centre-front", "buttons", "front"), closing("centre-back", "lacing", "back", gap_cm=4)
    )
    assert [(c.id, c.gap, c.overlap) for c in pattern.closures] == [("front", 0.0, 30.0), ("back", 40.0, 0.0)]
    assert {(level.gap, level.overlap) for level in pattern.levels} == {(40.0, 30.0)}
    assert max(map(abs, girths_off(pattern).values())) < 1.0


def test_it_is_pure_and_repeats() -> None:
    entry = closing("centre-back", "lacing", modesty_overlap_cm=2)
    assert made(block(0), entry) == made(block(0), entry)
    assert hash(steps_from_json([entry])) == hash(steps_from_json([dict(entry)]))


FAULTS: list[tuple[tuple[Entry, ...], str]] = [
    ((closing("centre-back", "zip"),), "its length is not settled yet; put this step after the top edge and the hem"),
    ((TOP, closing("centre-front", "buttons")), "put this step after the top edge and the hem"),
    ((HEM, closing("side", "zip")), "put this step after the top edge and the hem"),
    (
        (*EDGES, closing("centre-back", "zip", "one"), closing("centre-back", "seam")),
        "is already closed by the step “Closure: centre back, centred zip”",
    ),
    (
        (*EDGES, closing("side", "zip", "one"), closing("side", "hooks")),
        "the side is already closed by the step “Closure: side, centred zip”",
    ),
    ((*EDGES, closing("centre-back", "lacing", gap_cm=19)), "wide at its narrowest; make the gap "),
    (
        (*EDGES, closing("centre-back", "zip", down_to={"level": "upper-bust"})),
        "it would open 0.0 cm of the centre back",
    ),
]


@pytest.mark.parametrize(("entries", "sentence"), FAULTS)
def test_what_cannot_be_is_refused_in_one_sentence(entries: tuple[Entry, ...], sentence: str) -> None:
    reason = refusal(block(0), *entries)
    assert reason.startswith("closure: ")
    assert sentence in reason
    assert "\n" not in reason


def test_a_shaped_back_cannot_be_folded() -> None:
    """CP: cloth is folded along a straight line."""
    reason = refusal(block(2, "shaped"), *EDGES, closing("centre-back", "fold"))
    assert "mm off the straight; a fold may bend 0.2 mm" in reason
    assert "draw the centre back straight (in a file: block.centre_back_shape, straight), or choose a seam" in reason


def test_a_block_without_a_side_seam_has_no_side_closure() -> None:
    reason = refusal(block(0, panels=5), *EDGES, closing("side", "zip"))
    assert "choose a block of 4 or 6 panels, or close the centre back" in reason


def test_both_sides_drawn_or_a_lost_centre_is_said() -> None:
    own = plain_block()
    step = ClosureStep("shut", "centre-back", Zip())
    with pytest.raises(DesignError, match=r"over several edges|drawn for one side"):
        step.apply(unfold(own), own)
    lost = replace(own, pieces=own.pieces[:-1], seams=own.seams[:2], levels=())
    with pytest.raises(DesignError, match="no centre back edge any more"):
        step.apply(lost, own)


@pytest.mark.parametrize(
    ("fields", "sentence"),
    [
        (("side", "fold"), "a side cannot be cut on the fold here"),
        (("side", Lacing()), "a lacing takes its gap off both side seams"),
        (("side", Zip("exposed", 6.0)), "both side seams share one drawing"),
        (("centre-back", Lacing(), Height("waist")), "a lacing opens to the hem"),
        (("centre-back", Zip("exposed", 6.0), None, 200.0), "would leave a step in the edge"),
        (("centre-back", "seam", Height("waist")), "a seam opens nowhere"),
        (("centre-back", Zip(), Height("waist"), 200.0), "give the lower end of the opening or its length, not both"),
        (("back", Tied()), "a closure is at the centre-front, centre-back, side, not 'back'"),
    ],
)
def test_parts_that_do_not_go_together_are_refused(fields: tuple[Any, ...], sentence: str) -> None:
    with pytest.raises(DesignError, match=sentence):
        ClosureStep("shut", *fields)


def test_a_neckline_after_a_moved_centre_is_not_drawn_wrong() -> None:
    """A second top edge after the closure: refused, never a piece with a step in its outline."""
    lower = {**TOP, "uid": "later", "shape": "scooped", "centre": {"level": "bust", "offset_cm": 1}}
    _, done = outcomes(block(0), *EDGES, closing("centre-front", "lacing"), lower)
    assert done[-1].state == "failed"
