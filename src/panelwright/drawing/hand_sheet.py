"""The hand sheet of a garment: its steps with their pictures, on pages."""

from collections.abc import Sequence

from panelwright.drawing.hand_finish import ALLOWANCES, CUTTING
from panelwright.drawing.hand_pages import hand_pages
from panelwright.drawing.hand_picture import allowance_picture, cut_picture, step_picture
from panelwright.drawing.hand_rows import one_row, picture_rows
from panelwright.drawing.hand_step import HandStep, Known
from panelwright.drawing.heading import Heading
from panelwright.drawing.page_flow import Strip
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
    rows = [_rows(step, cutting, known, paper.inner_width) for step in steps]
    return hand_pages(steps, rows, heading, paper)


def _rows(step: HandStep, cutting: CuttingPattern, known: Known, width: float) -> list[Strip]:
    """The pictures of a step, a row at least for each layer."""
    outer = [(piece, cut_piece) for piece, cut_piece in cutting.pieces if piece.layer == "outer"]
    smaller = one_row([piece for piece, _ in outer], width)
    if step.title == ALLOWANCES:
        pictures = [allowance_picture(piece, cut_piece, known[piece.id][0], smaller) for piece, cut_piece in outer]
        return picture_rows(pictures, width)
    if step.title == CUTTING:
        return picture_rows([cut_picture(piece, cut_piece, smaller) for piece, cut_piece in outer], width)
    rows = []
    for layer in dict.fromkeys(draft.piece.layer for draft in step.drafts):
        drafts = [draft for draft in step.drafts if draft.piece.layer == layer]
        smaller = one_row([draft.piece for draft in drafts], width)
        rows += picture_rows([step_picture(draft, smaller) for draft in drafts], width)
    return rows
