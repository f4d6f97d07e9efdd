"""A dart turned into gathers or tucks, and pieces slashed and spread: lengths by closed forms."""

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kernel.sewing_rules import arc_length, faults, span_length
from surgery.surgery_garment import bare, edges, made, reason, replayed

from panelwright.design.dart import dart_on
from panelwright.pattern.pattern import Pattern

FRONT: dict[str, Any] = {"kind": "join", "uid": "front", "seam": "front-princess", "misfit": "dart"}
TO: dict[str, Any] = {"kind": "swing", "uid": "to", "dart": "front/dart", "to": {"line": "side", "fraction": 0.6}}
GATHER: dict[str, Any] = {"kind": "gather", "uid": "soft", "dart": "to/dart"}
FLARE: dict[str, Any] = {
    "kind": "spread", "uid": "flare", "piece": "SF", "open": "hem/line", "closed": "neck/line", "amount_cm": 6,
}  # fmt: skip


def chain(pattern: Pattern, seam: str, side: str) -> float:
    return sum(span_length(pattern, span) for span in getattr(pattern.seam(seam), side))


def edge_length(pattern: Pattern, piece: str, line: str) -> float:
    return sum(arc_length(edge.curve) for edge in pattern.piece(piece).on_line(line))


def test_the_mouth_of_a_dart_is_gathered_into_its_seam() -> None:
    darted = made(FRONT, TO, hem="waist")
    gathered = made(FRONT, TO, GATHER, hem="waist")
    assert faults(gathered) == []
    seam, dart = gathered.seam("side"), dart_on(darted, "to/dart")
    sides = chain(gathered, "side", "a"), chain(gathered, "side", "b")
    assert seam.ratio == pytest.approx(sides[1] / sides[0], abs=1e-9)
    gained = max(sides) - chain(darted, "side", "a")
    assert dart.width - 0.1 <= gained <= 1.05 * dart.width
    assert not any(each.kind == "dart" for each in gathered.seams)
    assert len(gathered.piece("CF").on_line("side")) == 1
    (working,) = [each for each in gathered.workings if each.id == "soft/fullness"]
    assert working.reckoned == pytest.approx(max(sides) - min(sides), abs=1e-6)
    assert {mark.id for mark in gathered.piece("CF").marks} >= {"soft-from", "soft-to"}


def test_tucks_are_ease_and_are_stitched_down() -> None:
    tucked = made(FRONT, TO, {**GATHER, "fullness": "tucks", "tuck_cm": 3}, hem="waist")
    assert faults(tucked) == []
    seam = tucked.seam("side")
    assert seam.ratio == 1.0
    assert abs(seam.ease) == pytest.approx(abs(chain(tucked, "side", "b") - chain(tucked, "side", "a")), abs=1e-6)
    lines = [tucked.piece("CF").inside_line(f"soft-{k}") for k in (1, 2)]
    assert [line.curve.length for line in lines if line] == pytest.approx([30.0, 30.0], abs=1e-6)


@settings(max_examples=10)
@given(st.floats(1.0, 20.0), st.integers(1, 6), st.sampled_from(["CF", "SF", "SB"]))
def test_flare_opens_one_edge_by_its_amount_and_leaves_the_other(amount: float, slashes: int, piece: str) -> None:
    step = {**FLARE, "piece": piece, "amount_cm": round(amount, 3), "slashes": slashes}
    result = replayed([*edges(), step])
    if result.outcomes[-1].state == "failed":  # near a hollow seam a straight slash leaves the piece
        assert "fewer slashes" in result.outcomes[-1].reason
        assert slashes > 2
        return
    pattern = result.pattern
    assert faults(pattern) == []
    before = bare()
    # A chord of each gap is its amount; the bridge over it bends by no more than the part is turned.
    gained = edge_length(pattern, piece, "hem/line") - edge_length(before, piece, "hem/line")
    assert 10 * amount - 0.05 <= gained <= 10 * amount * 1.03
    assert edge_length(pattern, piece, "neck/line") == pytest.approx(edge_length(before, piece, "neck/line"), abs=0.25)
    for seam in ("front-princess", "side", "back-princess"):
        assert pattern.seam(seam).ratio == 1.0
        assert chain(pattern, seam, "a") == pytest.approx(chain(before, seam, "a"), abs=1e-6)


def test_the_parts_turn_by_the_angle_of_the_closed_form() -> None:
    pattern, before = made({**FLARE, "slashes": 1}), bare()
    angles = [region.placement.angle for region in pattern.piece("SF").material]
    ends = [before.piece("SF").on_line(line)[0].line_curve for line in ("neck/line", "hem/line")]
    slash = math.dist(*(curve.point(curve.length / 2) for curve in ends))
    assert abs(angles[0] - angles[1]) == pytest.approx(2 * math.asin(60.0 / 2 / slash), abs=1e-9)


@settings(max_examples=6)
@given(st.floats(1.0, 15.0), st.integers(1, 5))
def test_fullness_opens_both_edges_alike(amount: float, slashes: int) -> None:
    pattern, before = (
        made({**FLARE, "amount_cm": round(amount, 3), "closed_amount_cm": round(amount, 3), "slashes": slashes}),
        bare(),
    )
    assert faults(pattern) == []
    for line in ("neck/line", "hem/line"):
        gained = edge_length(pattern, "SF", line) - edge_length(before, "SF", line)
        assert gained == pytest.approx(10 * amount, abs=0.1)
    assert {region.placement.angle for region in pattern.piece("SF").material} == {0.0}


def test_levels_state_the_flare_as_ease() -> None:
    pattern, before = made(FLARE), bare()
    drawn = pattern.level("top-hip").ease - before.level("top-hip").ease
    assert drawn == pytest.approx(2 * 60.0, rel=0.03)
    waist = pattern.level("waist").ease - before.level("waist").ease
    assert 0 < waist < drawn
    assert len(pattern.level("waist").path) == len(before.level("waist").path)


def test_fullness_in_a_seam_is_gathered_to_its_partner() -> None:
    yoke = {"kind": "split", "uid": "yoke", "way": "yoke", "pieces": ["SF"], "height": {"level": "underbust"}}
    pattern = made(yoke, {**FLARE, "closed": "yoke/line", "closed_amount_cm": 6})
    assert faults(pattern) == []
    sides = chain(pattern, "yoke/line", "a"), chain(pattern, "yoke/line", "b")
    assert pattern.seam("yoke/line").ratio == pytest.approx(sides[1] / sides[0], abs=1e-9)
    assert sides[0] - sides[1] == pytest.approx(60.0, abs=0.1)


def test_the_fold_stays_and_one_side_may_flare_alone() -> None:
    folds = [
        next(e for e in pattern.piece("CF").edges if e.kind == "fold")
        for pattern in (bare(), made({**FLARE, "piece": "CF"}))
    ]
    assert np.allclose(folds[0].curve.points, folds[1].curve.points)
    alone = made({"kind": "unfold", "uid": "both"}, {**FLARE, "piece": "SF/left"})
    assert faults(alone) == []
    assert alone.piece("SF").outline.area == pytest.approx(bare().piece("SF").outline.area)


@pytest.mark.parametrize(
    ("steps", "said"),
    [
        ([{**GATHER, "dart": "front/dart"}], "a finished edge, where nothing holds the fullness"),
        ([TO, {**GATHER, "fullness": "tucks", "tuck_cm": 25}], "too long for a dart"),
        ([{**FLARE, "piece": "XX"}], "no piece 'XX'"),
        ([{**FLARE, "piece": "SB", "closed": "front-princess"}], "no edge on the line"),
        ([{**FLARE, "piece": "CF", "open": "centre-front", "closed": "side"}], "at its fold or opening"),
    ],
)
def test_what_has_no_meaning_says_why(steps: list[dict[str, Any]], said: str) -> None:
    assert said in reason(FRONT, *steps, hem="waist")
