"""Straps that grow out of the panels. G: geometry, derivable; CP: common practice (the cutting table)."""

import re
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from design.strap_garment import BODIES, block, ends_on, inner_angle, made, outcome, refusal, top
from verifier import violations

from panelwright.app.garment_design import HEM_STEP, GarmentDesign
from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions, PrincessTo
from panelwright.checks import check_drafting
from panelwright.checks.wearer_support import is_strapless
from panelwright.design.edge_shape import TopShape
from panelwright.design.step_file import steps_from_json, steps_to_json
from panelwright.design.strap import Strap
from panelwright.design.strap_fields import FIELDS
from panelwright.design.tie import Tie
from panelwright.design.unfold import unfold
from panelwright.errors import DesignError, InputError
from panelwright.finish.finishing import finish
from panelwright.finish.options import Finish
from panelwright.output.pattern_document import pattern_to_json
from panelwright.pattern.pattern import Pattern

FACED = Finish(facing="full")
NECKLINE, SHOULDER, ARMHOLE = "strap/strap-neckline", "strap/shoulder", "strap/strap-armhole"
TOP = "neck/line"
Case = tuple[int, PrincessTo, PrincessTo, int, TopShape, Strap]
# Each way in which two panels can carry a strap: both, the centre panel, the one beside it, across the princess seam.
CASES: tuple[Case, ...] = (
    (0, "shoulder", "shoulder", 4, "sweetheart", Strap("strap")),
    (1, "shoulder", "shoulder", 6, "scooped", Strap("strap", width=50.0, foot_width=60.0, rounding=40.0)),
    (2, "armhole", "armhole", 4, "v", Strap("strap", width=22.0)),
    (3, "armhole", "shoulder", 4, "square", Strap("strap", share=0.9, width=25.0)),
    (4, "shoulder", "armhole", 6, "straight", Strap("strap", share=0.2, width=20.0)),
    (5, "armhole", "armhole", 4, "straight", Strap("strap", width=40.0, corner=True)),
)


def pattern_of(case: Case) -> Pattern:
    body, front, back, panels, shape, strap = case
    return made(block(body, front, back, panels), strap, top(shape))


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case[0]}")
def test_a_strap_leaves_a_pattern_without_a_fault(case: Case, shared: Path) -> None:
    cutting = finish(pattern_of(case), FACED)
    assert check_drafting(cutting) == ()
    assert violations(shared, pattern_to_json(cutting, ())) == []


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case[0]}")
def test_front_and_back_strap_end_square_and_equally_wide(case: Case) -> None:
    """CP: the same width where they meet, ends squared."""
    pattern, strap = pattern_of(case), case[-1]
    seam = pattern.seam("shoulder")
    for chain in (seam.a, seam.b):
        assert pattern.chain_length(chain) == pytest.approx(strap.width, abs=1e-6)
    corners = [
        inner_angle(piece, edge, follows)
        for line in (NECKLINE, ARMHOLE)
        for piece, edge, _, follows in ends_on(pattern, line, SHOULDER)
    ]
    assert len(corners) == 4
    assert corners == pytest.approx([90.0] * 4, abs=1e-6)


@pytest.mark.parametrize("case", CASES[:-1], ids=lambda case: f"{case[0]}")
def test_strap_and_top_edge_run_on_into_each_other(case: Case) -> None:
    pattern = pattern_of(case)
    joins = [
        inner_angle(piece, edge, follows)
        for line in (NECKLINE, ARMHOLE)
        for piece, edge, _, follows in ends_on(pattern, line, TOP)
    ]
    assert len(joins) == 4
    assert joins == pytest.approx([180.0] * 4, abs=0.01)


def test_corners_are_left_where_they_are_asked_for_and_open_wide_enough_to_clip() -> None:
    pattern = pattern_of(CASES[-1])
    angles = [
        inner_angle(piece, edge, follows)
        for line in (NECKLINE, ARMHOLE)
        for piece, edge, _, follows in ends_on(pattern, line, TOP)
    ]
    assert len(angles) == 4
    assert all(200.0 < angle < 270.0 for angle in angles), angles


def test_the_armhole_runs_on_across_the_side_seam_and_over_the_princess_seam() -> None:
    """G: the two inner angles at a seam's end add to 180 degrees."""
    pattern = pattern_of(CASES[2])
    for line, edge_line in (("side", TOP), ("front-princess", ARMHOLE), ("back-princess", ARMHOLE)):
        seam = pattern.seam(line)
        angles = []
        for span in (seam.a[-1], seam.b[-1]):
            piece, edge = pattern.piece(span.piece), pattern.edge(span)
            follows = span.end > span.start
            assert (piece.after(edge) if follows else piece.before(edge)).line == edge_line
            angles.append(inner_angle(piece, edge, follows))
        assert sum(angles) == pytest.approx(180.0, abs=1e-3)


def test_the_princess_seam_runs_on_to_the_shoulder_inside_a_strap() -> None:
    pattern, own = pattern_of(CASES[0]), block(0)
    full = own.pattern.to_shoulder
    assert full is not None
    for line in ("front-princess", "back-princess"):
        whole = full.chain_length(full.seam(line).a)
        hem = own.pattern.chain_length(own.pattern.seam(line).a) - _kept(own.pattern, line)
        assert pattern.chain_length(pattern.seam(line).a) == pytest.approx(whole - hem, abs=0.05)


def _kept(block_pattern: Pattern, line: str) -> float:
    """Length that the default hem leaves of a block's seam."""
    cut = HEM_STEP.apply(block_pattern, block_pattern)
    return cut.chain_length(cut.seam(line).a)


def test_nothing_else_of_the_garment_changes() -> None:
    own = block(4, "shoulder", "armhole", 6)
    bare, _ = outcome(own, top("straight"), HEM_STEP)
    strapped = pattern_of(CASES[4])
    assert strapped.levels == bare.levels
    for piece in bare.pieces:
        for line in ("low/line", "hem/line", "side", "front-underarm", "centre-front", "centre-back"):
            assert [e.curve for e in piece.on_line(line)] == [e.curve for e in strapped.piece(piece.id).on_line(line)]
    for id in ("UF", "UB"):
        assert strapped.piece(id) == bare.piece(id)


def test_hem_and_strap_may_come_in_either_order() -> None:
    strap = Strap("strap")
    first, _ = outcome(block(), top(), HEM_STEP, strap)
    last, _ = outcome(block(), top(), strap, HEM_STEP)
    for piece in first.pieces:
        other = last.piece(piece.id)
        assert sorted(edge.id for edge in piece.edges) == sorted(edge.id for edge in other.edges)
        for edge in piece.edges:
            twin = other.edge(edge.id)
            assert twin.curve.polyline() == pytest.approx(edge.curve.polyline(), abs=1e-6)
            assert twin.interval == pytest.approx(edge.interval)


@pytest.mark.parametrize(("princess", "distance"), [("armhole", 40.0), ("shoulder", 52.0)])
def test_a_distance_along_the_shoulder_is_kept(princess: PrincessTo, distance: float) -> None:
    own = block(1, princess, princess)
    pattern = made(own, Strap("strap", at_shoulder=distance, width=30.0))
    full = own.pattern.to_shoulder
    assert full is not None
    for panel, end in (("CF", "start"), ("CB", "end")):
        (edge,) = full.piece(panel).on_line("shoulder")
        side_neck = getattr(edge.curve, end)
        corners = [
            e.curve.end if follows else e.curve.start
            for piece, e, _, follows in ends_on(pattern, NECKLINE, SHOULDER)
            if piece.id == panel
        ]
        assert len(corners) == 1
        assert np.linalg.norm(corners[0] - side_neck) == pytest.approx(distance, abs=0.01)


def drawn_length(pattern: Pattern) -> float:
    """Mean of the two long edges of a strap with corners, over front and back: what a tape measures on paper."""
    edges = [edge.curve.length for line in (NECKLINE, ARMHOLE) for _, edge in pattern.pieces_on_line(line)]
    return sum(edges) / 2


@pytest.mark.parametrize("body", [0, 3])
@pytest.mark.parametrize("princess", ["shoulder", "armhole"])
def test_the_length_that_is_reckoned_is_the_one_drawn(body: int, princess: PrincessTo) -> None:
    pattern = made(block(body, princess, princess), Strap("strap", width=45.0, corner=True), top("straight"))
    (working,) = pattern.workings
    assert working.id == "strap/length"
    assert working.off == 0.0
    assert working.length == pytest.approx(drawn_length(pattern), abs=0.1)


@pytest.mark.parametrize("change", [-35.0, -12.0, 28.0])
@pytest.mark.parametrize("princess", ["shoulder", "armhole"])
def test_a_given_length_is_drawn_and_judged(change: float, princess: PrincessTo) -> None:
    own, strap = block(2, princess, princess), Strap("strap", width=45.0, corner=True)
    reckoned = made(own, strap, top("straight")).workings[0].reckoned
    pattern = made(own, replace(strap, length=reckoned + change), top("straight"))
    (working,) = pattern.workings
    assert drawn_length(pattern) == pytest.approx(reckoned + change, abs=0.1)
    assert working.reckoned == pytest.approx(reckoned, abs=1e-6)
    assert working.off == (pytest.approx(change) if abs(change) > 20.0 else 0.0)
    seam = pattern.seam("shoulder")
    assert [pattern.chain_length(chain) for chain in (seam.a, seam.b)] == pytest.approx([45.0, 45.0], abs=1e-6)
    assert check_drafting(finish(pattern, FACED)) == ()


def test_a_given_length_far_off_is_refused_with_both_numbers() -> None:
    said = refusal(block(), top(), Strap("strap", length=300.0))
    assert "a length of 30.0 cm is " in said
    assert "a grown strap may be changed by 4 cm" in said


def test_refusals_say_what_to_do() -> None:
    low = make_block(BODIES[0], BlockOptions())
    assert "needs a block up to the shoulder, of 4 or 6 panels" in refusal(low, top(), Strap("strap"))
    assert "put a top edge before the strap" in refusal(block(), Strap("strap"))
    again = refusal(block(), top(), Strap("strap"), Strap("other"))
    assert "reaches the shoulder already" in again
    beyond = refusal(block(), top(), Strap("strap", at_shoulder=125.0))
    assert "beyond the shoulder" in beyond
    assert "move it towards the neck" in beyond
    middle = block().pattern.to_shoulder
    assert middle is not None
    half = middle.piece("CF").on_line("shoulder")[0].curve.length
    sliver = refusal(block(), top(), Strap("strap", at_shoulder=half - 28.0))
    assert "only 0.20 cm of its width would lie on the front panel beside the princess seam" in sliver
    tied = refusal(block(), top(), HEM_STEP, Tie("tie"), Strap("strap"))
    assert "put the strap before the step that joins or divides it" in tied


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"width": 4.0}, "its width is 0.4 cm; give 0.8 to 12 cm"),
        ({"share": 1.5}, "its share of the shoulder is 1.5"),
        ({"share": 0.5, "at_shoulder": 20.0}, "not both"),
        ({"crossed": True}, "crossed does not belong to the type grown but to separate; it takes width_cm, "),
        ({"type": "halter", "rounding": 30.0}, "rounding_cm does not belong to the type halter but to grown; it takes"),
        ({"nape": "one"}, "nape does not belong to the type grown but to halter"),
        ({"type": "halter", "knot": "double"}, 'knot belongs to a halter that is tied; leave it out, or write "nape"'),
        ({"type": "halter", "at_back": 40.0}, "at_back_cm does not belong to the type halter but to grown or separate"),
        ({"type": "braided"}, "a strap is grown, separate, halter"),
    ],
)
def test_what_a_strap_cannot_be(fields: dict[str, object], said: str) -> None:
    with pytest.raises(DesignError, match=said):
        Strap("strap", **fields)  # type: ignore[arg-type]  # some of them are wrong on purpose


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"type": "halter", "rounding_cm": 2.5}, "rounding_cm does not belong to the type halter but to grown"),
        ({"type": "halter", "crossed": False}, "crossed does not belong to the type halter but to separate"),
        ({"nape": "seam"}, "nape does not belong to the type grown but to halter"),
        ({"type": "separate", "tail_cm": 10}, "tail_cm does not belong to the type separate but to halter"),
        ({"type": "halter", "tail_cm": 10}, 'tail_cm belongs to a halter that is tied; leave it out, or write "nape"'),
    ],
)
def test_a_field_of_another_type_is_refused_in_a_file_even_at_its_usual_value(
    fields: dict[str, object], said: str
) -> None:
    with pytest.raises(DesignError, match=rf"^step 1: strap: {said}"):
        steps_from_json([{"kind": "strap", "uid": "s-1", **fields}])


def test_a_share_of_the_shoulder_gives_way_to_a_sliver() -> None:
    own = block(0)
    full = own.pattern.to_shoulder
    assert full is not None
    half = full.piece("CF").on_line("shoulder")[0].curve.length
    share = (half - 28.0) / (2 * half - 30.0)  # its outer edge would lie 2 mm past the princess seam
    pattern = made(own, Strap("strap", share=share))
    (edge,) = pattern.piece("CF").on_line(SHOULDER)
    start = full.piece("CF").on_line("shoulder")[0].curve.start
    assert 0.0 < abs(np.linalg.norm(edge.curve.start - start) - (half - 28.0)) <= 20.0
    assert min(edge.curve.length for _, edge in pattern.pieces_on_line(SHOULDER)) >= 5.0 - 1e-6


def test_a_strap_holds_a_bodice_up() -> None:
    assert is_strapless(outcome(block(), top())[0])
    assert not is_strapless(made(block(), Strap("strap")))
    assert not is_strapless(made(block(), Strap("held", type="separate")))


def test_a_design_with_a_strap_asks_for_a_block_to_the_shoulder() -> None:
    plain = GarmentDesign("a-1", "Lantern bodice")
    assert plain.block_options.top == "upper-bust"
    strapped = replace(plain, steps=(*plain.steps, Strap("strap")))
    assert strapped.block_options == replace(plain.block, top="shoulder")
    for panels in (3, 5):
        with pytest.raises(InputError) as caught:
            _ = replace(strapped, block=BlockOptions(panels=panels)).block_options
        number = len(plain.steps) + 1
        said = (
            f"the block has {panels} panels (in a file: block.panels); step {number}, Straps: grown out of the panels, "
            "needs a side seam: choose 4 or 6"
        )
        assert (str(caught.value), caught.value.where) == (said, "block.panels")


@pytest.mark.parametrize(
    "strap",
    [
        Strap("s-1"),
        Strap("s-2", at_shoulder=33.0, width=25.5, foot_width=40.0, at_front=70.0, rounding=12.0, length=420.0),
        Strap("s-3", type="separate", crossed=True, share=0.25, at_back=35.0),
        Strap("s-4", type="halter", nape="tie", knot="double", tail=140.0, loop=90.0),
    ],
)
def test_a_strap_is_the_same_after_a_trip_through_a_file(strap: Strap) -> None:
    assert steps_from_json(steps_to_json([strap])) == (strap,)
    assert hash(steps_from_json(steps_to_json([strap]))[0]) == hash(strap)


def test_an_unfolded_strap_is_sewn_on_both_sides(shared: Path) -> None:
    cutting = finish(unfold(made(block(), Strap("strap"))), FACED)
    assert check_drafting(cutting) == ()
    assert violations(shared, pattern_to_json(cutting, ())) == []


def test_the_table_of_fields_in_the_documents_is_the_one_that_holds(repository: Path) -> None:
    lines = (repository / "docs" / "steps.md").read_text(encoding="utf-8").splitlines()
    start = lines.index("| field | `grown` | `separate` | `halter` |")
    told: dict[str, set[str]] = {"grown": set(), "separate": set(), "halter": set()}
    for line in lines[start + 2 : lines.index("", start)]:
        names, *marks = (cell.strip() for cell in line.strip("|").split("|"))
        for kind, mark in zip(told, marks, strict=True):
            told[kind] |= set(re.findall("`([a-z_]+)`", names)) if mark else set()
    assert told == {kind: set(own) for kind, own in FIELDS.items()}
