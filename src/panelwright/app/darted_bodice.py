"""A bodice of one front and one back with darts: what the design of a princess block adds to become one.

The panels are those of the princess block, so girths and edges are. Front and back halves are laid together above the
bust and below the shoulder blades; what the princess seams took out below becomes the waist darts, and a share of the
front one the bust dart.
"""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import replace
from typing import Final

from panelwright.blocks.options import BlockOptions
from panelwright.design.bodice_top import BodiceTop
from panelwright.design.closure import ClosureStep
from panelwright.design.hem import Hem
from panelwright.design.join_step import Join
from panelwright.design.outline_point import OutlinePoint
from panelwright.design.position import Height
from panelwright.design.step import Step
from panelwright.design.strap import Strap
from panelwright.design.swing_step import SwingDart
from panelwright.design.tie import Tie
from panelwright.design.top_edge import TopEdge
from panelwright.pattern import level as levels
from panelwright.pattern import line as lines

DARTED_TOP: Final = BodiceTop("top")
DARTED_HEM: Final = Hem("hem", "straight", Height(levels.WAIST), Height(levels.WAIST), Height(levels.WAIST))
# The back dart ends where the shoulder blades stand out most, about the level of the underarm (common practice).
BACK_POINT: Final = Height(levels.UPPER_BUST)
# The bust dart opens 4 cm below the bust's level on the side seam, so that it rises to its point (common practice).
BUST_DART: Final = OutlinePoint(lines.SIDE, level=levels.BUST, offset=-40.0)
_BEFORE: Final = (TopEdge, BodiceTop, Hem, Strap, Tie, ClosureStep)


def darted_steps(options: BlockOptions, steps: Iterable[Step], off: Collection[str]) -> tuple[Step, ...]:
    """The steps of a design on a darted bodice: its own, the edges that it lacks, and the darts after all edges.

    Args:
        options: of the block.
        steps: the design's own.
        off: uids of those that are switched off.
    """
    own = tuple(steps)
    taken = {step.uid for step in own}
    working = [step for step in own if step.uid not in off]
    missing: list[Step] = []
    if not any(isinstance(step, TopEdge | BodiceTop) for step in working):
        missing.append(replace(DARTED_TOP, uid=_free(DARTED_TOP.uid, taken)))
    if not any(isinstance(step, Hem) for step in working):
        missing.append(replace(DARTED_HEM, uid=_free(DARTED_HEM.uid, taken)))
    cut = max((number for number, step in enumerate(own, 1) if isinstance(step, _BEFORE)), default=0)
    return (*missing, *own[:cut], *_darts(options, taken), *own[cut:])


def _darts(options: BlockOptions, taken: set[str]) -> Iterator[Step]:
    front = _free("front", taken)
    yield Join(front, lines.FRONT_PRINCESS, misfit="dart")
    yield Join(_free("back", taken | {front}), lines.BACK_PRINCESS, misfit="dart", point=BACK_POINT)
    if options.bust_dart:
        yield SwingDart(_free("bust", taken), f"{front}/dart", BUST_DART, options.bust_dart)


def _free(uid: str, taken: set[str]) -> str:
    return uid if uid not in taken else _free(f"default-{uid}", taken)
