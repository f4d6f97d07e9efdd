"""How much cloth a knot takes, and how a given length is judged."""

import math
from dataclasses import replace

import pytest

from panelwright.design.tie_knot import PACKED, gathered_diameter, half_knot, knot_parts
from panelwright.design.tie_length import Thumb, Tying, back_thumb, sash_thumb
from panelwright.errors import DesignError
from panelwright.pattern.working import Part

# Rope length of the ideal trefoil, a half knot whose two ends are joined, in diameters of its rope. MEM: published
# work on ideal knots, from memory.
IDEAL_TREFOIL = 16.37
REACH = (Part("across the back", 180.0),)


def length(parts: tuple[Part, ...]) -> float:
    return sum(part.length for part in parts)


def test_a_gathered_tie_keeps_its_cloth_in_a_circle_that_is_half_air() -> None:
    """Closed form: the area of the circle, times the share that is cloth, is the flat tie's cross-section."""
    diameter = gathered_diameter(70.0, 0.4, 2)
    assert math.pi * diameter**2 / 4 * PACKED == pytest.approx(70.0 * 0.4 * 2)
    assert gathered_diameter(280.0, 0.4, 2) == pytest.approx(2 * diameter)  # four times the cloth, twice as thick


def test_a_half_knot_is_a_little_less_than_the_ideal_closed_one() -> None:
    """MEM. Both ends of an open knot together need less rope than the tightest closed one, but of the same order."""
    both_ends = 2 * half_knot(1.0)
    assert 0.6 * IDEAL_TREFOIL < both_ends < IDEAL_TREFOIL


def test_a_bow_takes_its_loops_there_and_back_and_a_thicker_second_knot() -> None:
    double, bow = knot_parts("double", 12.0, 110.0), knot_parts("bow", 12.0, 110.0)
    assert length(double) == pytest.approx(2 * 2 * math.pi * 12.0)
    assert [part.length for part in bow][1:] == [220.0]
    assert length(bow) - 220.0 == pytest.approx(2 * math.pi * 12.0 * (1 + math.sqrt(2)))
    assert length(bow) > length(double)


def tying(knot: str = "double", given: float | None = None, tail: float = 100.0) -> Tying:
    return Tying(knot, 70.0, 0.4, 2, tail, 120.0, given)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("given", "off"), [(None, 0.0), (-60.0, -60.0), (-40.0, 0.0), (0.0, 0.0), (90.0, 0.0), (110.0, 110.0)]
)
def test_a_given_length_is_judged_against_the_reckoned_one(given: float | None, off: float) -> None:
    """Half the tail may be wanting, and another tail is no harm."""
    reckoned = tying().working("tie/length", "Tie", REACH)
    assert reckoned.reckoned == pytest.approx(180.0 + length(knot_parts("double", 11.9416, 0.0)) + 100.0, abs=0.05)
    asked = None if given is None else reckoned.reckoned + given
    working = tying(given=asked).working("tie/length", "Tie", REACH)
    assert working.off == pytest.approx(off)
    assert working.length == pytest.approx(asked or reckoned.reckoned)


@pytest.mark.parametrize(
    ("thumb", "words", "length"),
    [
        (back_thumb("double", 179.0), "About twice the width of the back panels", 358.0),
        (back_thumb("bow", 179.0), "More than twice the width of the back panels", 358.0),
        (sash_thumb(179.0), "each end of a sash", 179.0 + 300.0),
    ],
)
def test_the_rule_of_thumb_stands_beside_it_and_its_number_apart(thumb: Thumb, words: str, length: float) -> None:
    """CP: twice the back panels for a double knot, a bow needs more. A home-sewing page: a sash is waist + 60 cm."""
    working = tying().working("tie/length", "Tie", REACH, thumb)
    assert words in working.rule_of_thumb
    assert working.rule_length == pytest.approx(length)
    said = " ".join((working.what, working.note, working.rule_of_thumb, *(part.label for part in working.parts)))
    assert not any(letter.isdigit() for letter in said)


def test_a_tie_without_a_rule_says_none() -> None:
    working = tying().working("tie/length", "Tie", REACH)
    assert (working.rule_of_thumb, working.rule_length) == ("", None)


@pytest.mark.parametrize(("layers", "words"), [(1, "one layer of cloth"), (2, "two layers of cloth")])
def test_the_note_says_how_many_layers_are_knotted(layers: int, words: str) -> None:
    assert words in replace(tying(), layers=layers).note


def test_a_length_that_ends_before_the_knot_is_refused() -> None:
    with pytest.raises(DesignError, match=r"a length of 20\.0 cm ends before the knot; give at least 21 cm"):
        tying(given=200.0).working("tie/length", "Tie", REACH)
