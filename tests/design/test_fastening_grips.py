"""Handles of a lacing's gap and of buttons, against what the paper then measures."""

from dataclasses import replace

import numpy as np
import pytest
from design.demo_garments import demo_garment

from panelwright.design.buttons import Buttons
from panelwright.design.closure import ClosureStep
from panelwright.design.handle import Handle, dragged, handles
from panelwright.design.lacing import Lacing
from panelwright.errors import DesignError
from panelwright.pattern.mark import Point
from panelwright.pattern.pattern import Pattern

DRUM = demo_garment("drum-03")


def closure(uid: str, fastening: Lacing | Buttons) -> ClosureStep:
    step = DRUM.step(uid)
    assert isinstance(step, ClosureStep)
    return replace(step, fastening=fastening)


def taken(step: ClosureStep) -> tuple[Handle, Pattern]:
    made = DRUM.with_step(step)
    assert made.complete, made.outcomes
    (handle,) = handles(step, made.pattern, DRUM.block)
    return handle, made.pattern


def along(handle: Handle, distance: float, end: int) -> Point:
    """Towards one end of the handle's way."""
    way = np.subtract(handle.way[end], handle.at)
    x, y = np.add(handle.at, distance * way / np.linalg.norm(way))
    return float(x), float(y)


def half_waist(pattern: Pattern, piece: str) -> float:
    line = pattern.piece(piece).inside_line("waist")
    assert line is not None
    return line.curve.length


@pytest.mark.parametrize(("uid", "piece"), [("back", "CB"), ("front", "CF")])
@pytest.mark.parametrize("distance", [-7.0, 4.0])
def test_the_gap_is_twice_the_way_and_comes_off_both_edges(uid: str, piece: str, distance: float) -> None:
    step = closure(uid, Lacing(gap=50.0))
    handle, pattern = taken(step)
    assert (handle.name, handle.piece) == ("gap", piece)
    # Towards the middle of the piece the gap of a back grows; a front's is held by its middle, beyond the edge.
    inwards = pattern.piece(piece).outline.centroid.coords[0][0] > handle.at[0]
    inner = int((handle.way[1][0] > handle.at[0]) == inwards)
    wider = inner if piece == "CB" else 1 - inner
    to = along(handle, distance, wider)
    changed = dragged(step, "gap", piece, to, pattern, DRUM.block)
    assert changed == closure(uid, Lacing(gap=50.0 + 2 * distance))
    assert isinstance(changed, ClosureStep)
    after, made = taken(changed)
    assert after.at == pytest.approx(to, abs=0.05)
    # What the gap takes, the waist of the piece loses: half of it on either edge of the garment. The waist meets a
    # bent centre back not quite squarely.
    assert half_waist(pattern, piece) - half_waist(made, piece) == pytest.approx(distance, abs=0.1)


def test_a_gap_is_held_by_the_edge_of_a_back_and_by_the_middle_between_the_edges_of_a_front() -> None:
    back, pattern = taken(closure("back", Lacing(gap=50.0)))
    (edge,) = pattern.piece("CB").on_line("centre-back")
    assert edge.curve.nearest(back.at)[1] < 0.05
    front, pattern = taken(closure("front", Lacing(gap=50.0)))
    (edge,) = pattern.piece("CF").on_line("centre-front")
    assert edge.curve.nearest(front.at)[1] == pytest.approx(25.0, abs=0.05)


def test_a_gap_is_never_less_than_closed_nor_wider_than_can_be_laced() -> None:
    step = closure("front", Lacing(gap=20.0))
    handle, pattern = taken(step)
    x, y = handle.at
    assert dragged(step, "gap", "CF", (x - 60.0, y), pattern, DRUM.block) == closure("front", Lacing(gap=0.0))
    with pytest.raises(DesignError, match=r"gap of a lacing .* 20 cm"):
        dragged(step, "gap", "CF", (x + 120.0, y), pattern, DRUM.block)


def heights(pattern: Pattern) -> list[float]:
    """Of the buttons, mm above the waist."""
    return sorted(mark.at[1] for mark in pattern.piece("CF").marks if mark.kind == "button")


@pytest.mark.parametrize("distance", [-20.0, 4.0, 35.0])
def test_the_spacing_is_what_lies_between_the_button_at_the_bust_and_the_handle(distance: float) -> None:
    step = closure("front", Buttons(stand=15.0, spacing=60.0))
    handle, pattern = taken(step)
    bust = min(heights(pattern), key=lambda height: abs(height - handle.at[1] - 60.0))
    assert handle.at == pytest.approx((-15.0, bust - 60.0), abs=0.01)  # on the centre line, a stand from the edge
    to = (handle.at[0], handle.at[1] - distance)
    changed = dragged(step, "spacing", "CF", to, pattern, DRUM.block)
    assert changed == closure("front", Buttons(stand=15.0, spacing=60.0 + distance))
    assert isinstance(changed, ClosureStep)
    after, made = taken(changed)
    assert after.at == pytest.approx(to, abs=0.05)
    row = heights(made)
    assert min(abs(height - bust) for height in row) < 0.01  # it stays,
    pitches = np.diff(row)
    assert pitches == pytest.approx(pitches[0])  # they are even,
    assert abs(pitches[0] - (60.0 + distance)) < (60.0 + distance) / 2  # and near what is asked for


def test_buttons_sit_no_nearer_than_they_can() -> None:
    step = closure("front", Buttons(spacing=30.0))
    handle, pattern = taken(step)
    x, y = handle.at
    with pytest.raises(DesignError, match=r"spacing of buttons .* 1\.5"):
        dragged(step, "spacing", "CF", (x, y + 25.0), pattern, DRUM.block)
