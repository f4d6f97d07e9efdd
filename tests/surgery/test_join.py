"""Joining as a step: what lies together, the dart that is left, and what the levels gain."""

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kernel.sewing_rules import arc_length, faults
from surgery.surgery_garment import bare, made, reason

from panelwright.design.dart import dart_on
from panelwright.pattern.pattern import Pattern

EASED: dict[str, Any] = {"kind": "join", "uid": "one", "seam": "front-princess"}
DARTED: dict[str, Any] = {**EASED, "misfit": "dart", "opens": "down"}


def seam_points(pattern: Pattern, piece: str, offset: float) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Hem end, dart point and top end of a piece's princess edge."""
    edge = pattern.piece(piece).on_line("front-princess")[0]
    arc = pattern.level_place(edge, pattern.piece(piece), "bust")
    assert arc is not None
    curve = edge.line_curve
    return curve.start, curve.point(arc + offset), curve.end


def angle(at: np.ndarray, one: np.ndarray, other: np.ndarray) -> float:
    """Between two directions from a place, 0 to pi, by the law of cosines."""
    a, b, c = (math.dist(*ends) for ends in ((at, one), (at, other), (one, other)))
    return math.acos((a * a + b * b - c * c) / (2 * a * b))


@settings(max_examples=20)
@given(st.floats(-25.0, 10.0))
def test_the_dart_is_what_the_two_panels_leave_of_a_full_turn(offset: float) -> None:
    pattern = made({**DARTED, "point": {"level": "bust", "offset_cm": round(offset / 10, 4)}}, hem="waist")
    assert faults(pattern) == []
    # Each edge bulges out of its panel at the bust, so the panel takes less than half a turn round the dart's point.
    turns = []
    for piece in ("CF", "SF"):
        low, point, high = seam_points(bare("waist"), piece, round(offset, 3))
        turns.append(angle(point, low, high))
    assert dart_on(pattern, "one/dart").value == pytest.approx(2 * math.pi - sum(turns), abs=1e-6)


def test_legs_are_the_two_edges_as_they_were() -> None:
    pattern = made(DARTED, hem="waist")
    dart = dart_on(pattern, "one/dart")
    for leg in (dart.first, dart.second):
        below = arc_length(leg.curve)
        edge = bare("waist").piece("CF").on_line("front-princess")[0]
        assert below == pytest.approx(bare("waist").level_place(edge, bare("waist").piece("CF"), "bust"), abs=1e-3)
    assert (dart.seam.kind, dart.seam.id, dart.line) == ("dart", "one/dart", "one/dart")
    assert dart.piece.id == "CF"
    assert dart.piece.extent == "half_on_fold"
    assert {edge.side for edge in (dart.first, dart.second)} == {"left", "right"}
    assert dart.piece.after(dart.first).id == dart.second.id


def test_girths_are_those_of_the_closed_dart() -> None:
    before, after = bare("waist"), made(DARTED, hem="waist")
    for level in before.levels:
        if level.height < 150.0:  # below the bust nothing but the dart lies between the panels
            assert after.level(level.id).finished_girth == pytest.approx(level.finished_girth, abs=1e-6)
            assert len(after.level(level.id).path) == len(level.path)


def test_what_is_laid_end_on_end_adds_ease_and_says_how_much() -> None:
    before, after = bare(), made(EASED)
    assert faults(after) == []
    gained = after.level("waist").ease - before.level("waist").ease
    # The plain block's seam bulges 4 mm outwards above, 2 mm inwards at the top hip and 14 mm inwards at the waist.
    assert gained > 2 * 2 * 10.0
    (working,) = [working for working in after.workings if working.id == "one/misfit"]
    assert gained == pytest.approx(2 * working.reckoned, rel=0.15)
    assert len(after.level("waist").path) == 3


def test_a_seam_that_a_step_made_is_joined_again() -> None:
    yoke = {"kind": "split", "uid": "yoke", "way": "yoke", "pieces": ["SF"], "height": {"level": "underbust"}}
    again = made(yoke, {**EASED, "seam": "yoke/line"})
    assert faults(again) == []
    assert again.piece("SF").outline.area == pytest.approx(bare().piece("SF").outline.area, abs=1.0)


def test_the_grain_is_turned_square_or_kept_and_said_so() -> None:
    back = {**EASED, "seam": "back-princess"}
    squared, kept = made(back), made({**back, "grain": "first"})
    waist = squared.piece("SB").inside_line("waist")
    assert waist is not None
    grain, chord = squared.piece("SB").grain, waist.curve.chord
    assert abs(grain.vector @ chord) < math.sin(math.radians(0.25)) * grain.length * float(np.linalg.norm(chord))
    assert kept.steps[-1].kind == "join-keeping-grain"
    own, before = kept.piece("SB").grain, bare().piece("SB").grain
    assert own.vector / own.length == pytest.approx(before.vector / before.length, abs=1e-6)


def test_both_fronts_are_joined_after_unfolding() -> None:
    pattern = made(
        {"kind": "unfold", "uid": "both"},
        {**DARTED, "first": "CF"},
        {**DARTED, "uid": "two", "seam": "front-princess/left", "first": "CF"},
        hem="waist",
    )
    assert faults(pattern) == []
    values = [dart_on(pattern, line).value for line in ("one/dart", "two/dart")]
    assert values[0] == pytest.approx(values[1], abs=1e-9)


@pytest.mark.parametrize(
    ("step", "said"),
    [
        ({**EASED, "seam": "front-princes"}, "did you mean 'front-princess'"),
        ({**EASED, "seam": "centre-back"}, "no two pieces are sewn together"),
        ({**EASED, "first": "SF"}, "is cut on the fold"),
        ({**EASED, "first": "CB"}, "not at that seam"),
        ({**DARTED, "point": {"level": "bust", "offset_cm": 3}}, "would be laid together"),
        ({**DARTED, "opens": "up", "point": {"level": "bust", "offset_cm": 3}}, "cm long"),
        ({**DARTED, "point": {"level": "hip"}}, "hip level does not meet"),
        ({**DARTED, "point": {"level": "waist"}, "opens": "up"}, "lap over each other"),
    ],
)
def test_what_cannot_be_joined_says_why(step: dict[str, Any], said: str) -> None:
    assert said in reason(step)
