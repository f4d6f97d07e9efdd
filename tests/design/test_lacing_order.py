"""A lacing comes out the same wherever it stands among the other closures. G: geometry, derivable."""

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from design.closed_garment import EDGES, block, closing, made
from verifier import violations
from worn_garment import TOP, WEARER, closure, garment

from panelwright.body.units import Unit
from panelwright.checks import check
from panelwright.checks.layered import opens_at_a_centre
from panelwright.checks.wearing import Wearing
from panelwright.design.lacing_cord import TO_TIE, LacingCord
from panelwright.drawing.sign_off_closures import closure_words
from panelwright.finish.finishing import finish
from panelwright.output.pattern_document import pattern_to_json
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.working import Working

SEWN = closure("centre-back", "seam")
FRONT = closure("centre-front", "lacing", gap_cm=5)
# The other closure, and whether the garment comes apart there.
OTHERS: dict[str, tuple[dict[str, Any], bool]] = {
    "seam": (SEWN, False),
    "fold": (closure("centre-back", "fold"), False),
    "zip": (closure("centre-back", "zip"), True),
    "short zip": (closure("centre-back", "zip", opening_cm=10), False),
    "hooks": (closure("centre-back", "hooks", underlap_cm=2), True),
    "buttons": (closure("centre-back", "buttons"), True),
    "tie": (closure("centre-back", "tie"), True),
    "lacing": (closure("centre-back", "lacing", gap_cm=4), False),
}


def cord(pattern: Pattern, uid: str = "centre-front-closure") -> Working:
    (found,) = [working for working in pattern.workings if working.id == f"{uid}/cord"]
    return found


def without_order(pattern: Pattern) -> tuple[Any, ...]:
    """All that a maker sees of a pattern, in an order that does not come from the order of its steps."""
    drawn = [replace(piece, marks=tuple(sorted(piece.marks, key=lambda mark: mark.id))) for piece in pattern.pieces]
    named = (drawn, pattern.seams, pattern.levels, pattern.closures, pattern.workings)
    return (*(sorted(part, key=lambda item: item.id) for part in named), set(pattern.notions))


def codes(pattern: Pattern) -> list[tuple[str, str, str]]:
    found = check(finish(pattern), WEARER, Wearing())
    return sorted((finding.code, finding.subject, finding.message) for finding in found)


@pytest.mark.parametrize("cord_cm", [None, 30])
@pytest.mark.parametrize("other", OTHERS)
def test_a_lacing_before_and_after_another_closure_is_the_same(other: str, cord_cm: int | None) -> None:
    entry, parts = OTHERS[other]
    laced = FRONT if cord_cm is None else {**FRONT, "cord_cm": cord_cm}
    if other == "lacing" and cord_cm is not None:
        entry = {**entry, "cord_cm": cord_cm}
    before, after = garment([TOP], [laced, entry]), garment([TOP], [entry, laced])
    assert without_order(before) == without_order(after)
    assert codes(before) == codes(after)
    shut = not parts and cord_cm is not None
    assert ("cannot-be-put-on" in {code for code, _, _ in codes(before)}) == shut


@pytest.mark.parametrize("order", [1, -1])
@pytest.mark.parametrize("other", ["seam", "fold", "short zip"])
def test_a_lacing_that_is_the_way_in_lets_the_hips_pass_the_waist(other: str, order: int) -> None:
    """G: what the edges spread and the closed girth without the gap are the hips together."""
    pattern = garment([TOP], [FRONT, OTHERS[other][0]][::order])
    (laced,) = [closing for closing in pattern.closures if closing.kind == "lacing"]
    waist = pattern.level("waist").finished_girth
    assert laced.spreads == pytest.approx(WEARER["hip_girth"] - waist + 50.0, abs=1.0)
    assert "no other opening" in cord(pattern).note


@pytest.mark.parametrize("other", ["zip", "hooks", "buttons", "tie"])
def test_a_lacing_beside_a_way_in_stays_as_worn(other: str) -> None:
    pattern = garment([TOP], [FRONT, OTHERS[other][0]])
    (laced,) = [closing for closing in pattern.closures if closing.kind == "lacing"]
    assert laced.spreads == pytest.approx(laced.gap)
    assert not laced.opens_flat
    assert "another opening" in cord(pattern).note
    assert "let out" not in closure_words(laced, Unit.CM)
    assert opens_at_a_centre(pattern)


def test_of_two_lacings_the_back_is_let_out() -> None:
    pattern = garment([TOP], [FRONT, OTHERS["lacing"][0]])
    front, back = pattern.closures
    assert front.spreads == pytest.approx(front.gap)
    assert back.spreads - back.gap == pytest.approx(
        WEARER["hip_girth"] - pattern.level("waist").finished_girth, abs=1.0
    )
    assert "another opening" in cord(pattern).note
    assert "no other opening" in cord(pattern, "centre-back-closure").note


def test_a_laced_garment_is_turned_through_before_it_is_laced() -> None:
    """CP: the cord goes in last."""
    assert opens_at_a_centre(garment([TOP], [FRONT, SEWN]))
    assert not opens_at_a_centre(garment([TOP], [SEWN]))


@pytest.mark.parametrize(("pairs", "pitch", "gap"), [(2, 8.0, 200.0), (14, 25.0, 50.0), (30, 80.0, 0.0)])
def test_the_row_is_found_again_from_its_worn_cord(pairs: int, pitch: float, gap: float) -> None:
    own = LacingCord(pairs, pitch, 12.0)
    assert LacingCord.of_worn(pairs, own.zigzag(gap), gap, 12.0).pitch == pytest.approx(pitch, abs=1e-6)


@pytest.mark.parametrize("pitch_cm", [0.8, 2.5])
def test_a_cord_of_the_reckoned_length_can_be_given(pitch_cm: float) -> None:
    laced = closing("centre-back", "lacing", gap_cm=5, pitch_cm=pitch_cm)
    reckoned = cord(made(block(0), closing("centre-front", "seam", "front"), laced), "shut").reckoned
    given = made(block(0), laced | {"cord_cm": round(reckoned / 10, 1)})
    assert cord(given, "shut").off == 0.0
    assert reckoned > TO_TIE


def test_a_long_cord_can_be_given() -> None:
    given = made(block(0), closing("centre-back", "lacing", cord_cm=2600))
    assert cord(given, "shut").length == 26_000.0


@pytest.mark.parametrize("order", [1, -1])
def test_two_lacings_are_sound_for_the_outside_verifier(order: int, shared: Path) -> None:
    two = [closing("centre-front", "lacing", "front", gap_cm=3), closing("centre-back", "lacing", "back")][::order]
    assert violations(shared, pattern_to_json(finish(made(block(1), *two, edges=EDGES)))) == []
