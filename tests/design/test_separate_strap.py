"""Straps that are strips of their own: separate ones, crossed ones and halters."""

from pathlib import Path
from typing import Any

import numpy as np
import pytest
from design.strap_garment import block, inner_angle, made, outcome, refusal, top
from verifier import violations

from panelwright.app.garment_design import HEM_STEP
from panelwright.checks import check_drafting
from panelwright.design.strap import Strap
from panelwright.design.tie import Tie
from panelwright.design.tie_knot import gathered_diameter, knot_parts
from panelwright.design.unfold import unfold
from panelwright.finish.finishing import finish
from panelwright.finish.options import Finish
from panelwright.output.pattern_document import pattern_to_json
from panelwright.pattern.pattern import Pattern

FACED = Finish(facing="full")
STRAPS = (
    Strap("strap", type="separate"),
    Strap("strap", type="separate", width=18.0, foot_width=42.0, crossed=True, at_front=35.0),
    Strap("strap", type="halter", width=30.0, foot_width=60.0),
    Strap("strap", type="halter", nape="one"),
    Strap("strap", type="halter", nape="tie", knot="double"),
)


@pytest.mark.parametrize("strap", STRAPS, ids=lambda strap: strap.label)
@pytest.mark.parametrize("shape", ["square", "sweetheart"])
def test_a_strip_leaves_a_pattern_without_a_fault(strap: Strap, shape: str, shared: Path) -> None:
    pattern = made(block(1), strap, top(shape))  # type: ignore[arg-type]  # a shape by its name
    cutting = finish(pattern, FACED)
    assert check_drafting(cutting) == ()
    assert violations(shared, pattern_to_json(cutting, ())) == []


@pytest.mark.parametrize("strap", STRAPS, ids=lambda strap: strap.label)
def test_a_strip_is_as_long_and_wide_as_asked_with_square_ends(strap: Strap) -> None:
    pattern = made(block(2), strap)
    piece = pattern.pieces[-1]
    (working,) = pattern.workings
    front, _, upper, _ = piece.edges
    foot = strap.foot_width or strap.width
    assert front.curve.length == pytest.approx(foot)
    assert upper.curve.length == pytest.approx(foot if strap.nape == "one" else strap.width)
    assert np.ptp(piece.vertices[:, 1]) == pytest.approx(working.length)
    for edge in piece.edges:
        assert inner_angle(piece, edge, True) == pytest.approx(90.0, abs=1e-6)


def sewn_stretch(pattern: Pattern, seam: str) -> float:
    return pattern.chain_length(pattern.seam(seam).a)


def test_its_ends_are_sewn_to_stretches_as_wide_that_are_marked() -> None:
    strap = Strap("strap", type="separate", width=20.0, foot_width=36.0, at_front=50.0)
    pattern = made(block(3), strap, top("straight", centre=-12.0))
    assert sewn_stretch(pattern, "STRAP.front") == pytest.approx(36.0, abs=1e-6)
    assert sewn_stretch(pattern, "STRAP.back") == pytest.approx(20.0, abs=1e-6)
    cf = pattern.piece("CF")
    (edge,) = cf.on_line("neck/line")
    places = [edge.curve.nearest(mark.at) for mark in cf.marks if mark.id.startswith("strap-front")]
    assert sorted(arc for arc, _ in places) == pytest.approx([32.0, 68.0], abs=1e-3)
    assert max(gap for _, gap in places) < 1e-6


def test_a_crossed_strap_is_longer_behind_and_sewn_to_the_other_side() -> None:
    own = block(4)
    straight, crossed = (made(own, Strap("strap", type="separate", crossed=x)) for x in (False, True))
    (one,), (two,) = straight.workings, crossed.workings
    assert one.parts[0] == two.parts[0]
    assert two.parts[1].length > one.parts[1].length + 20.0
    assert {span.hand for span in crossed.seam("STRAP.back").a} == {"mirror"}
    assert {span.hand for span in straight.seam("STRAP.back").a} == {"same"}


def test_a_crossed_strap_is_sewn_on_both_sides_of_an_unfolded_garment(shared: Path) -> None:
    whole = unfold(made(block(0), STRAPS[1]))
    right, left = whole.seam("STRAP.back"), whole.seam("STRAP.back/left")
    assert {span.piece for span in right.a}.isdisjoint({span.piece for span in left.a})
    assert {span.piece for span in right.b} == {"STRAP"}
    assert all(span.piece.endswith("/left") for span in right.a)
    assert {span.piece for span in left.b} == {"STRAP/left"}
    assert not any(span.piece.endswith("/left") for span in left.a)
    cutting = finish(whole, FACED)
    assert check_drafting(cutting) == ()
    assert violations(shared, pattern_to_json(cutting, ())) == []


def test_a_halter_in_one_piece_is_twice_as_long_as_its_half() -> None:
    half, one = (made(block(5), Strap("strap", type="halter", nape=nape)) for nape in ("seam", "one"))
    assert one.workings[0].length == pytest.approx(2 * half.workings[0].length)


def test_a_tied_halter_adds_knot_and_tail() -> None:
    half, tied = (made(block(5), Strap("strap", type="halter", nape=nape)) for nape in ("seam", "tie"))
    knot = sum(part.length for part in knot_parts("bow", gathered_diameter(30.0, 0.4, 2), 120.0))
    assert tied.workings[0].length - half.workings[0].length == pytest.approx(knot + 100.0)


def test_a_given_length_is_drawn_and_judged() -> None:
    own = block(0)
    reckoned = made(own, Strap("strap", type="separate")).workings[0].reckoned
    pattern = made(own, Strap("strap", type="separate", length=reckoned + 55.0))
    assert pattern.workings[0].off == pytest.approx(55.0)
    assert np.ptp(pattern.piece("STRAP").vertices[:, 1]) == pytest.approx(reckoned + 55.0)


@pytest.mark.parametrize("first", ["tie", "halter"])
def test_a_halter_goes_with_a_back_that_is_a_tie(first: str, shared: Path) -> None:
    steps = (Tie("tie"), Strap("halter", type="halter", width=25.0))
    pattern, done = outcome(block(2), top(), HEM_STEP, *(steps if first == "tie" else steps[::-1]))
    assert all(each.state == "done" for each in done), done
    cutting = finish(pattern, FACED)
    assert check_drafting(cutting) == ()
    assert violations(shared, pattern_to_json(cutting, ())) == []


@pytest.mark.parametrize("type", ["grown", "separate"])
def test_other_straps_and_a_back_that_is_a_tie_refuse_each_other(type: str) -> None:
    strap = Strap("strap", type=type)  # type: ignore[arg-type]  # a type by its name
    assert "use straps of the type halter" in refusal(block(2), top(), HEM_STEP, strap, Tie("tie"))
    assert "a back that is a tie takes a halter" in refusal(block(2), top(), HEM_STEP, Tie("tie"), strap)


def test_two_pairs_of_straps_have_names_of_their_own() -> None:
    wide = Strap("other", type="separate", width=15.0, at_front=40.0, at_back=30.0)
    both = wide.apply(made(block(0), Strap("strap", type="separate", width=15.0)), block(0).pattern)
    assert {"STRAP", "STRAP-2"} <= {piece.id for piece in both.pieces}
    assert [working.id for working in both.workings] == ["strap/length", "other/length"]


def test_a_strip_without_room_is_refused_with_its_room() -> None:
    said = refusal(block(0), top(), Strap("strap", type="separate", at_front=5.0))
    assert "a strap 3.0 cm wide has no room there on the front top edge" in said
    assert "make it narrower" in said


@pytest.mark.parametrize(
    ("fields", "words", "length"),
    [
        ({"width": 16.0}, "one length for everybody", 22 * 25.4),
        ({"width": 40.0}, "a tape from the front top edge over the shoulder", None),
        ({"width": 16.0, "crossed": True}, "", None),
        ({"type": "halter", "width": 16.0}, "", None),
        ({"type": "grown", "width": 45.0}, "a tape from the front top edge over the shoulder", None),
    ],
)
def test_each_kind_of_strap_has_its_own_rule_of_thumb_or_none(
    fields: dict[str, Any], words: str, length: float | None
) -> None:
    """R (two home-sewing pages): a narrow strap is cut 22 in each. A tape to the back says nothing of a halter."""
    working = made(block(2), Strap("strap", **{"type": "separate", **fields}), top("straight")).workings[0]
    assert working.rule_length == length
    assert words in working.rule_of_thumb
    assert bool(working.rule_of_thumb) == bool(words)
    assert not any(letter.isdigit() for letter in working.rule_of_thumb + working.note)
