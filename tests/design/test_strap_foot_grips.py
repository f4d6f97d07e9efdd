"""Handles at the foot of a grown strap, against the top edge as it runs without the strap."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import pytest
from design.strap_garment import block, ends_on, top

from panelwright.app.garment_design import HEM_STEP
from panelwright.blocks.options import PrincessTo
from panelwright.design.handle import Handle, dragged, handles
from panelwright.design.replay import Design, replay
from panelwright.design.strap import Strap
from panelwright.errors import DesignError
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.pattern.pattern import Pattern

STRAP = Strap("s-1", width=35.0)
LEVEL = top("straight", -10.0)
WAYS: tuple[PrincessTo, ...] = ("shoulder", "armhole")


def before(princess: PrincessTo) -> Pattern:
    made = replay(Design("d-1", "Lantern bodice", (LEVEL, HEM_STEP)), block(front=princess, back=princess).pattern)
    assert made.complete
    return made.pattern


def made(step: Strap, princess: PrincessTo) -> Pattern:
    done = replay(
        Design("d-1", "Lantern bodice", (LEVEL, HEM_STEP, step)), block(front=princess, back=princess).pattern
    )
    assert done.complete, done.outcomes
    return done.pattern


def held(step: Strap, princess: PrincessTo) -> dict[str, Handle]:
    own = block(front=princess, back=princess).pattern
    return {each.name: each for each in handles(step, made(step, princess), own, before(princess))}


def moved(step: Strap, princess: PrincessTo, handle: Handle, to: Array) -> Strap:
    own = block(front=princess, back=princess).pattern
    place = float(to[0]), float(to[1])
    changed = dragged(step, handle.name, handle.piece, place, made(step, princess), own, before=before(princess))
    assert isinstance(changed, Strap)
    return changed


def top_edge(princess: PrincessTo, piece: str) -> Curve:
    """The top edge of a panel before the strap, away from the centre."""
    (edge,) = before(princess).piece(piece).on_line("neck/line")
    curve = edge.curve
    return curve if abs(curve.start[0]) < abs(curve.end[0]) or piece == "CB" else curve.reversed()


def feet(pattern: Pattern) -> Iterator[Array]:
    """Where the strap's edges run into the top edge in front."""
    for line in ("s-1/strap-neckline", "s-1/strap-armhole"):
        for piece, edge, _, follows in ends_on(pattern, line, "neck/line"):
            if piece.id in ("CF", "SF"):
                yield edge.curve.end if follows else edge.curve.start


@pytest.mark.parametrize("princess", WAYS)
def test_without_the_pattern_before_it_a_strap_has_its_shoulder_alone(princess: PrincessTo) -> None:
    own = block(front=princess, back=princess).pattern
    assert [each.name for each in handles(STRAP, made(STRAP, princess), own)] == ["shoulder", "width"]
    assert list(held(STRAP, princess)) == ["shoulder", "width", "front", "back", "foot"]


@pytest.mark.parametrize("princess", WAYS)
@pytest.mark.parametrize("name", ["front", "back", "foot"])
def test_they_lie_on_the_top_edge_that_the_strap_took(princess: PrincessTo, name: str) -> None:
    handle = held(STRAP, princess)[name]
    assert top_edge(princess, handle.piece).nearest(handle.at)[1] < 0.01
    outline = made(STRAP, princess).piece(handle.piece).outline
    assert outline.buffer(0.05).contains(outline.__class__([handle.at, handle.at, handle.at]).centroid)


@pytest.mark.parametrize("princess", WAYS)
@pytest.mark.parametrize(("name", "field"), [("front", "at_front"), ("back", "at_back")])
@pytest.mark.parametrize("distance", [-4.0, 4.0])
def test_a_foot_moves_along_the_top_edge_as_far_as_the_hand(
    princess: PrincessTo, name: str, field: str, distance: float
) -> None:
    at = {"front": 75.0, "back": 60.0}[name]
    step = replace(STRAP, **{field: at})
    handle = held(step, princess)[name]
    line = top_edge(princess, handle.piece)
    arc = line.nearest(handle.at)[0]
    there = line.point(arc + distance)
    changed = moved(step, princess, handle, there)
    assert abs(abs(getattr(changed, field) - at) - abs(distance)) <= 0.05 + 1e-9
    assert changed == replace(step, **{field: getattr(changed, field)})
    after = held(changed, princess)[name]
    assert np.linalg.norm(np.subtract(after.at, there)) < 0.1


@pytest.mark.parametrize("princess", WAYS)
def test_the_foot_is_widened_on_both_sides_of_its_middle(princess: PrincessTo) -> None:
    step = replace(STRAP, foot_width=40.0, at_front=80.0)
    handle = held(step, princess)["foot"]
    line = top_edge(princess, handle.piece)
    arc = line.nearest(handle.at)[0]
    place = held(step, princess)["front"].at
    changed = moved(step, princess, handle, line.point(arc + 3.0))
    assert changed.foot_width is not None
    grown = changed.foot_width - 40.0
    outer, inner = held(changed, princess)["foot"].at, held(changed, princess)["front"].at
    assert np.linalg.norm(np.subtract(outer, line.point(arc + 3.0))) < 0.1
    # What the width grows by, its two ends together have moved by.
    assert np.linalg.norm(np.subtract(inner, place)) == pytest.approx(grown - 3.0, abs=0.15)
    wide = [np.subtract(*feet(made(each, princess))) for each in (step, changed)]
    assert np.linalg.norm(wide[1]) - np.linalg.norm(wide[0]) == pytest.approx(grown, abs=2.0)


def test_a_foot_goes_no_farther_than_a_top_edge_reaches() -> None:
    handle = held(STRAP, "armhole")["front"]
    outwards = np.subtract(handle.way[1], handle.way[0]) * np.sign(handle.way[0][0] - handle.way[1][0])
    far = np.add(handle.at, 600.0 * outwards / np.linalg.norm(outwards))
    with pytest.raises(DesignError, match=r"^strap: its at front is .* give 0.5 to 40 cm"):
        moved(STRAP, "armhole", handle, far)
