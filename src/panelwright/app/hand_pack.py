"""All sheets to draw one garment by hand: block templates, hand sheet, blank cloth, key of marks."""

from dataclasses import replace
from pathlib import Path
from typing import Final

from panelwright.app.drawn_design import DrawnDesign
from panelwright.app.garment import Garment
from panelwright.app.hand_steps import hand_work
from panelwright.app.paper import PaperChoice
from panelwright.app.sign_off import page_of
from panelwright.drawing.hand_footing import footed
from panelwright.drawing.hand_key import key_sheet
from panelwright.drawing.hand_sheet import hand_sheets
from panelwright.drawing.heading import Heading
from panelwright.drawing.sheet import Sheet
from panelwright.drawing.template_cloth import cloth_sheet, nearest_width, widths
from panelwright.drawing.template_sheets import template_sheets
from panelwright.output.pdf import write_pdf

# A class gets cloth of one width, this one where the design names none, mm; so much of it that a bodice has room.
USUAL_WIDTH: Final = 1400.0
CLASS_SHEETS: Final = 2


def hand_pack(garment: Garment | DrawnDesign, choice: PaperChoice, every_width: bool = True) -> tuple[Sheet, ...]:
    """The sheets, without footings.

    Args:
        garment: as it was made, or drawn with every step carried out.
        choice: paper (A4 where it is A3), unit and date.
        every_width: a sheet of blank cloth of every width; False: two sheets, of the design's width or a usual one.

    Raises:
        InputError: if the paper is too small for a panel of the block.
    """
    work = hand_work(garment, choice.unit)
    paper = page_of(choice.paper)
    cutting = garment.cutting
    heading = Heading.of(cutting.pattern, garment.design.title, choice.made_on, choice.unit)
    widest = max(width for piece in cutting.cut.values() for width in piece.allowances.values())
    if every_width:
        cloths = [cloth_sheet(width, heading, paper) for width in widths(choice.unit)]
    else:
        known = next((cloth.width for cloth in garment.design.cloths), USUAL_WIDTH)
        width = nearest_width(known, choice.unit)
        cloths = [cloth_sheet(width, heading, paper, number) for number in range(1, CLASS_SHEETS + 1)]
    return (
        *template_sheets(garment.block.pattern, heading, paper, widest),
        *hand_sheets(work.steps, cutting, work.known, heading, paper),
        *cloths,
        key_sheet(heading, paper),
    )


def write_hand_pack(garment: Garment, path: Path, choice: PaperChoice) -> int:
    """Write the sheets as one PDF, there whole or not at all, and return how many pages it has.

    Raises:
        InputError: if the paper is too small for a panel of the block.
        OutputError: if the file cannot be written.
    """
    sheets = numbered(hand_pack(garment, choice), garment.design.title, f"wearer {garment.wearer.ref}")
    write_pdf(sheets, path, f"{garment.design.title}, {garment.wearer.ref}, to draw by hand", choice.made_on)
    return len(sheets)


def whose(wearer: str) -> str:
    """`wearer w-07`; nothing where the garment is for nobody."""
    return f"wearer {wearer}" if wearer else ""


def numbered(sheets: tuple[Sheet, ...], title: str, whose: str) -> tuple[Sheet, ...]:
    """The sheets with their footings: the garment's title, whose they are, and the number of the page."""
    total = len(sheets)

    def told(words: str, between: str) -> str:
        return between.join(filter(None, [whose, words]))

    pages = (footed(sheet, title, told(f"page {number} of {total}", " · ")) for number, sheet in enumerate(sheets, 1))
    return tuple(replace(sheet, name=told(sheet.name, ", ")) for sheet in pages)
