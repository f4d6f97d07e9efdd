"""Block templates: the panels of a block at quarter scale, to trace or to cut out."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from panelwright.body.units import Unit
from panelwright.drawing.drawing import Drawing, Lettering
from panelwright.drawing.heading import Heading
from panelwright.drawing.paper import Paper
from panelwright.drawing.piece_drawing import PieceDrawing, piece_drawing
from panelwright.drawing.quarter_sheets import LAYER_NAMES, quarter_sheets
from panelwright.drawing.scale import QUARTER
from panelwright.drawing.sheet import Laid, Sheet
from panelwright.finish.cut_piece import CutPiece, CuttingPattern
from panelwright.finish.finishing import finish
from panelwright.finish.options import Finish
from panelwright.pattern.pattern import Pattern

WORDS: Final = ("Block template", "The thick line is the stitch line: no allowance")
NAME: Final = "block templates"


def template_sheets(block: Pattern, heading: Heading, paper: Paper, allowance: float = 10.0) -> tuple[Sheet, ...]:
    """The panels on as few pages as their order allows, without footings.

    Between two panels there is room for the allowance of both, so that it can be drawn on a template.

    Args:
        block: before any step.
        heading: at the head of every page.
        paper: of every page.
        allowance: the widest that will be drawn, mm on the garment.

    Raises:
        InputError: if the paper is too small for a panel.
    """
    drawings = template_drawings(block, heading.unit, allowance)
    sheets = quarter_sheets(drawings, replace(heading, title=f"{heading.title}: {NAME}"), paper)
    return tuple(replace(sheet, name=f"{NAME}, {sheet.name}", laid=_called_panels(sheet.laid)) for sheet in sheets)


def _called_panels(laid: Sequence[Laid]) -> tuple[Laid, ...]:
    """The page with its panels called so, since a block is not cut in cloth."""
    cloth = LAYER_NAMES["outer"]
    return tuple(
        replace(each, drawing=Drawing((replace(sign, text="Panels"),)))
        if len(each.drawing.signs) == 1 and isinstance(sign := each.drawing.signs[0], Lettering) and sign.text == cloth
        else each
        for each in laid
    )


def template_drawings(block: Pattern, unit: Unit, allowance: float) -> tuple[PieceDrawing, ...]:
    """The panels drawn at quarter scale, each keeping room for its allowance."""
    cutting = finish(block, Finish(allowance=0.0, unit=unit))
    drawings = (piece_drawing(piece, _worded(piece.id, cutting), QUARTER) for piece, _ in cutting.pieces)
    return tuple(replace(drawing, allowance=allowance * QUARTER.factor) for drawing in drawings)


def _worded(piece: str, cutting: CuttingPattern) -> CutPiece:
    cut_piece = cutting.cut[piece]
    kept = [line for line in cut_piece.text[1:] if line.endswith((" fold", " opening"))]
    return replace(cut_piece, text=(cut_piece.text[0], *WORDS, *kept))
