import math
import re

import pytest

from panelwright.body.term import Bounds, Term
from panelwright.body.terms import REQUIRED, TERMS, find_term
from panelwright.errors import InputError

# Clauses read on secondary pages on ISO 8559-1:2017; the sources disagree on the underbust girth: none is cited.
CLAUSES = {
    "bust_girth": "5.3.4",
    "waist_girth": "5.3.10",
    "hip_girth": "5.3.13",
    "top_hip_girth": "5.3.12",
    "neck_base_girth": "5.3.3",
    "back_neck_to_waist": "5.4.5",
}


def test_only_clauses_that_were_read_are_cited() -> None:
    assert {id: term.clause for id, term in TERMS.items() if term.clause} == CLAUSES


def test_a_block_needs_five_measurements() -> None:
    assert REQUIRED == ("bust_girth", "underbust_girth", "waist_girth", "hip_girth", "back_neck_to_waist")
    assert [id for id, term in TERMS.items() if term.required] == list(REQUIRED)


@pytest.mark.parametrize("term", TERMS.values(), ids=lambda term: term.id)
def test_each_term_says_how_it_is_taken_in_one_line(term: Term) -> None:
    assert re.fullmatch(r"[a-z]+(_[a-z]+)*", term.id)
    assert term.label.replace(" point", "").replace(" ", "_") == term.id.replace("_point", "")
    assert re.fullmatch(r"[A-Z][^\n]{30,110}\.", term.how)


def test_labels_are_told_apart() -> None:
    assert len({term.label for term in TERMS.values()}) == len(TERMS)


def test_only_the_shoulder_slope_is_an_angle() -> None:
    assert [term.id for term in TERMS.values() if term.quantity == "angle"] == ["shoulder_slope"]
    assert TERMS["shoulder_slope"].possible.most < math.pi / 2


@pytest.mark.parametrize(
    "likely", [Bounds(90, 150), Bounds(100, 210), Bounds(150, 150), Bounds(160, 150), Bounds(math.nan, 150)]
)
def test_likely_bounds_outside_the_possible_ones_are_refused(likely: Bounds) -> None:
    with pytest.raises(InputError, match="likely stature"):
        Term("stature", "stature", "Height.", possible=Bounds(100, 200), likely=likely)


@pytest.mark.parametrize(
    ("name", "remedy"),
    [
        ("bust", "did you mean bust_girth"),
        ("Waist_Girth", "did you mean waist_girth"),
        ("underbust_grith", "did you mean underbust_girth"),
        ("xylophone", "the terms are bust_girth, "),
        ("x" * 5000, "the terms are"),
        ("", "the terms are"),
        ("\ud800\n", "the terms are"),
    ],
)
def test_an_unknown_name_is_refused_with_the_nearest(name: str, remedy: str) -> None:
    with pytest.raises(InputError, match=remedy) as caught:
        find_term(name)
    str(caught.value).encode("utf-8")
    assert len(str(caught.value)) < 450
    assert "\n" not in str(caught.value)


def test_bounds_hold_their_ends_and_never_nan() -> None:
    assert Bounds(1, 2).hold(1)
    assert Bounds(1, 2).hold(2)
    assert not Bounds(1, 2).hold(2.0000001)
    assert not Bounds(1, 2).hold(math.nan)
