"""The hand sheet of a garment: its design replayed step by step, as a learner draws it."""

from dataclasses import dataclass, replace
from typing import Final

from panelwright.app.drawn_design import DrawnDesign
from panelwright.app.garment import Garment
from panelwright.app.step_labels import STEP_LABELS
from panelwright.body.units import Unit
from panelwright.design.replay import replay
from panelwright.drawing.hand_finish import allowance_step, cutting_step
from panelwright.drawing.hand_step import HandStep, Known, Stage, course

BLOCK: Final = "The block"
LAYERS: Final = "Facing, lining and interfacing"
_BLOCK_ABOUT: Final = (
    "The block fits the wearer and has no design yet. If you have the block templates, trace them and check the "
    "numbers; otherwise draw the block by these numbers."
)
_LAYERS_ABOUT: Final = "What lies inside the garment is drawn on tracings of the outer pieces."


@dataclass(frozen=True, eq=False)
class HandWork:
    """A garment as it is drawn by hand.

    Attributes:
        garment: what is drawn.
        steps: the block, each step of the design, the inner layers, allowances and notches, cutting.
        known: what is on paper when all lines are drawn.
    """

    garment: Garment | DrawnDesign
    steps: tuple[HandStep, ...]
    known: Known


def hand_work(garment: Garment | DrawnDesign, unit: Unit = Unit.CM) -> HandWork:
    """The work of a garment, step by step.

    Args:
        garment: as it was made; every step of its design was carried out.
        unit: of the lengths on the garment that stand beside those on paper.
    """
    drawn = course(_stages(garment), unit)
    finish = [made(garment.cutting, drawn.known, unit) for made in (allowance_step, cutting_step)]
    return HandWork(garment, (*drawn.steps, *finish), drawn.known)


def _stages(garment: Garment | DrawnDesign) -> list[Stage]:
    design, block = garment.design.design, garment.block.pattern
    stages = [Stage(BLOCK, _BLOCK_ABOUT, block)]
    for number, step in enumerate(design.steps, 1):
        if step.uid not in design.off:
            pattern = replay(replace(design, steps=design.steps[:number]), block).pattern
            stages.append(Stage(step.label, STEP_LABELS[step.kind].about, pattern))
    cut = garment.cutting.pattern
    if any(piece.derived_from for piece in cut.pieces):
        stages.append(Stage(LAYERS, _LAYERS_ABOUT, cut))
    return stages
