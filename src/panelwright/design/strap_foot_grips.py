"""What can be taken hold of where a grown strap stands on the top edge, which is gone below it: place and width."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Any, Final

from panelwright.design.grip import Grip, tracked
from panelwright.design.grown_strap import Grown
from panelwright.design.moved_height import OFFSET_DIGITS
from panelwright.design.on_paper import on_paper
from panelwright.design.panel_walk import MIRROR
from panelwright.design.step import Step
from panelwright.design.strap import Strap
from panelwright.design.strap_panel import StrapPanel
from panelwright.design.track import Track
from panelwright.geometry.arrays import Array
from panelwright.pattern.pattern import Pattern

PLACES: Final = {"front": "place of the strap's foot in front", "back": "place of the strap's foot behind"}
WIDTH: Final = "width of the strap at its foot"
WIDEST: Final = 200.0  # mm


def strap_foot_grips(step: Strap, pattern: Pattern, front: Grown, back: Grown) -> Iterator[Grip]:
    """The inner ends of its feet, which move them, and the outer end in front, which widens it there.

    Both ends are reckoned along the top edge as it ran before the strap: the foot's corners before they are rounded.

    Args:
        step: a strap of the type `grown`.
        pattern: after the steps of the design.
        front, back: the strap before it is given a length.
    """
    for each, field in ((front, "at_front"), (back, "at_back")):
        yield from _place(step, pattern, each, field)
    yield from _width(step, pattern, front)


def _place(step: Strap, pattern: Pattern, own: Grown, field: str) -> Iterator[Grip]:
    """By mm from the centre to the middle of the foot. The hand holds the end that was asked for, and keeps holding it
    where the foot had to be wider."""
    inner = own.panels.inner.top.length
    here = inner + own.strap.foot
    end = own.strap.foot - own.strap.inwards * (step.foot_width or step.width)
    panel, arc = own.panels.place(end)
    track = _on_top(pattern, own, panel, here, arc - here, (here - arc, here - arc + panel.top.length))

    def changed(at: float, _: bool) -> Step:
        fields: dict[str, Any] = {field: round(at, OFFSET_DIGITS)}
        return replace(step, **fields)

    if track is not None:
        yield tracked(step, own.half, PLACES[own.half], track, changed)


def _width(step: Strap, pattern: Pattern, own: Grown) -> Iterator[Grip]:
    """By its width; the place of the foot stays, so that its other end moves as well."""
    width, share = own.strap.cut.foot_width, 1.0 - own.strap.inwards
    panel, arc = own.panels.place(own.strap.foot + share * width)
    start = arc - share * width
    track = _on_top(pattern, own, panel, width, start, (max(1.0, -start / share), WIDEST), share)

    def changed(to: float, _: bool) -> Step:
        return replace(step, foot_width=round(to, OFFSET_DIGITS))

    if track is not None:
        yield tracked(step, "foot", WIDTH, track, changed)


def _on_top(
    pattern: Pattern,
    own: Grown,
    panel: StrapPanel,
    here: float,
    start: float,
    ends: tuple[float, float],
    rate: float = 1.0,
) -> Track | None:
    """Along a panel's old top edge: a number lies `start + rate * number` mm along it; None if the panel is gone."""
    top = panel.top

    def on_panel(number: float) -> Array:
        place = top.point(start + rate * number)
        return place if own.half == "front" else MIRROR.points(place)

    paper = on_paper(pattern, panel.piece.id, on_panel(here))
    if paper is None:
        return None
    return Track(paper.piece, here, *ends, lambda number: paper.place(on_panel(number)))
