"""The hand sheet of a garment: its steps with their pictures, on pages."""

from collections.abc import Sequence

from panelwright.drawing.hand_finish import ALLOWANCES, CUTTING
from panelwright.drawing.hand_pages import hand_pages
from panelwright.drawing.hand_picture import Picture, allowance_picture, cut_picture, step_picture
from panelwright.drawing.hand_rows import picture_rows
from panelwright.drawing.hand_step import HandStep, Known
from panelwright.drawing.heading import Heading
from panelwright.drawing.paper import Paper
from panelwright.drawing.sheet import Sheet
from panelwright.finish.cut_piece import CuttingPattern


def hand_sheets(
    steps: Sequence[HandStep], cutting: CuttingPattern, known: Known, heading: Heading, paper: Paper
) -> tuple[Sheet, ...]:
    """The pages, without footings.

    Args:
        steps: in the order of work.
        cutting: the garment at the end; its outer pieces are shown with allowances, and as they are cut.
        known: what is on paper after the drawing.
        heading: at the head of the first page.
        paper: of every page, upright.
    """
    rows = [picture_rows(_pictures(step, cutting, known), paper.inner_width) for step in steps]
    return hand_pages(steps, rows, heading, paper)


def _pictures(step: HandStep, cutting: CuttingPattern, known: Known) -> list[Picture]:
    outer = [(piece, cut_piece) for piece, cut_piece in cutting.pieces if piece.layer == "outer"]
    if step.title == ALLOWANCES:
        return [allowance_picture(piece, cut_piece, known[piece.id][0]) for piece, cut_piece in outer]
    if step.title == CUTTING:
        return [cut_picture(piece, cut_piece) for piece, cut_piece in outer]
    return [step_picture(draft) for draft in step.drafts]
