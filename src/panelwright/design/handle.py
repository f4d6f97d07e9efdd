"""Handles: where the steps of a design can be taken hold of on the flat pieces, and a step after one was moved."""

from collections.abc import Iterator
from functools import lru_cache
from typing import Final

import numpy as np

from panelwright.design.bodice_grips import bodice_grips
from panelwright.design.bodice_top import BodiceTop
from panelwright.design.bones import Bones
from panelwright.design.bones_grips import bones_grips
from panelwright.design.closure import ClosureStep
from panelwright.design.closure_grips import closure_grips
from panelwright.design.edge_grips import edge_grips
from panelwright.design.grip import Grip, Handle
from panelwright.design.grown_strap_grips import grown_strap_grips
from panelwright.design.hem import Hem
from panelwright.design.step import Step
from panelwright.design.strap import Strap
from panelwright.design.strap_grips import strap_grips
from panelwright.design.tie import Tie
from panelwright.design.tie_grips import tie_grips
from panelwright.design.top_edge import TopEdge
from panelwright.errors import DesignError
from panelwright.pattern.mark import Point
from panelwright.pattern.pattern import Pattern

__all__ = ["Handle", "asks_for_before", "dragged", "handles"]

UNMOVED: Final = 0.01  # mm; a handle put back within this is where it was


def asks_for_before(step: Step) -> bool:
    """Whether handles of a step lie on what the step itself cut away."""
    return isinstance(step, Strap) and step.type == "grown"


def handles(
    step: Step, pattern: Pattern, block: Pattern, before: Pattern | None = None, name: str | None = None
) -> tuple[Handle, ...]:
    """What of a step can be taken hold of.

    Args:
        step: one that was carried out.
        pattern: after it, and after any steps that follow.
        block: the unmodified block of the wearer.
        before: the pattern that the step was carried out on, where `asks_for_before`; without it such handles are
            left out.
        name: of those that are wanted, which are found sooner than all; None for all.

    Returns:
        The handles in a fixed order; none where the step has nothing to move by hand.

    Raises:
        DesignError: if the step cannot be drawn on this block.
    """
    if name is None:
        return tuple(grip.handle for grip in _known(step, pattern, block, before))
    return tuple(grip.handle for grip in _grips(step, pattern, block, before, name) if grip.handle.name == name)


def dragged(
    step: Step,
    name: str,
    piece: str,
    to: Point,
    pattern: Pattern,
    block: Pattern,
    snap: bool = False,
    before: Pattern | None = None,
) -> Step:
    """The step after one of its handles was moved.

    What was an offset from a level stays one, and what was in proportion stays so. The step that comes back may still
    be refused when it is carried out.

    Args:
        step: as it was before.
        name, piece: of the handle.
        to: where it was moved to, mm on that piece; the nearest place of its track is meant.
        pattern: after `step` and any steps that follow.
        block: the unmodified block of the wearer.
        snap: a height within 3 mm of a level becomes that level.
        before: as for `handles`.

    Raises:
        DesignError: one sentence, if there is no such handle or it cannot go there.
    """
    known = _known(step, pattern, block, before)
    found = [grip for grip in known if grip.handle.name == name and grip.handle.piece == piece]
    if not found:
        raise DesignError(f"{step.label}: it has no handle {name!r} on {piece}", f"step {step.uid}")
    place = np.asarray(to, float)
    if not (place.shape == (2,) and np.isfinite(place).all()):
        raise DesignError(f"{step.label}: a place is two numbers in mm", f"step {step.uid}")
    if float(np.linalg.norm(place - found[0].handle.at)) < UNMOVED:
        return step
    try:
        return found[0].moved(place, snap)
    except DesignError as error:
        start = f"{step.kind.replace('-', ' ')}: "
        named = str(error).startswith(start)  # what the step itself refuses names it already
        raise DesignError(str(error) if named else f"{start}{error}", f"step {step.uid}") from error


@lru_cache(maxsize=32)
def _known(step: Step, pattern: Pattern, block: Pattern, before: Pattern | None) -> tuple[Grip, ...]:
    """All grips, remembered by content: a drag asks for the same ones at every move."""
    return tuple(_grips(step, pattern, block, before))


def _grips(
    step: Step, pattern: Pattern, block: Pattern, before: Pattern | None, name: str | None = None
) -> Iterator[Grip]:
    """All, or at least those of a name."""
    match step:
        case TopEdge() | Hem():
            yield from edge_grips(step, pattern, block, name)
        case BodiceTop():
            yield from bodice_grips(step, pattern, block)
        case Strap(type="grown"):
            yield from grown_strap_grips(step, pattern, block, before)
        case Strap():
            yield from strap_grips(step, pattern)
        case Tie():
            yield from tie_grips(step, pattern, block)
        case ClosureStep():
            yield from closure_grips(step, pattern, block)
        case Bones():
            yield from bones_grips(step, pattern, block)
