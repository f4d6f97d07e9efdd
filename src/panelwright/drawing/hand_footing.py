"""The line at the foot of a page that is handed out: what it is, whose it is, which page."""

from dataclasses import replace
from typing import Final

from panelwright.drawing.drawing import Drawing, Lettering
from panelwright.drawing.sheet import Laid, Sheet
from panelwright.drawing.typeface import typeface

SIZE: Final = 2.7
HEIGHT: Final = 4.6
SIDE: Final = 10.0


def footed(sheet: Sheet, what: str, page: str) -> Sheet:
    """The sheet with `what` at the left of its lower margin and `page` at the right."""
    right = Lettering(page, (sheet.width - SIDE, HEIGHT), SIZE, "sheet", anchor="right")
    words = typeface().shortened(what, SIZE, sheet.width - 2 * SIDE - right.width - 6.0)
    left = Lettering(words, (SIDE, HEIGHT), SIZE, "sheet")
    return replace(sheet, laid=(*sheet.laid, Laid(Drawing((left, right)))))
