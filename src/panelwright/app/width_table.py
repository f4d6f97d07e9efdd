"""Length against cloth width for one cloth of a garment: widths that people ask for, and the file that shows it."""

from collections.abc import Sequence
from pathlib import Path
from typing import Final

from panelwright.app.field_fault import nearest
from panelwright.app.garment import Garment
from panelwright.app.lay import cloths_for
from panelwright.app.paper import PaperChoice
from panelwright.app.picture_file import write_picture
from panelwright.body.units import Unit, parse_length
from panelwright.drawing.heading import Heading
from panelwright.drawing.width_sheet import width_sheets
from panelwright.errors import InputError, LayError
from panelwright.lay.cloth import Cloth
from panelwright.lay.lay_garment import SPACING
from panelwright.lay.length_by_width import OneWidth, ToldWidth, length_by_width, unheard
from panelwright.lay.piece_to_cut import pieces_to_cut
from panelwright.lay.planned_lay import Planning
from panelwright.quotation import quoted

# Widths that cloth is sold in, between 90 and 152 cm (36 and 60 in).
USUAL: Final = {
    Unit.CM: (90.0, 100.0, 110.0, 115.0, 120.0, 130.0, 140.0, 145.0, 150.0, 152.0),
    Unit.INCH: (36.0, 39.0, 42.0, 45.0, 48.0, 50.0, 52.0, 54.0, 58.0, 60.0),
}


def usual_widths(unit: Unit) -> tuple[float, ...]:
    """Widths that cloth is sold in where people measure in the unit, mm."""
    own = Unit.INCH if unit is Unit.INCH else Unit.CM
    return tuple(width * own.millimetres for width in USUAL[own])


def widths_in(text: str, unit: Unit) -> tuple[float, ...]:
    """Widths as a person lists them, `90, 115, 140 cm`, mm; a number without a unit is in `unit`.

    Raises:
        InputError: if one of them is no length.
    """
    return tuple(parse_length(part.strip(), unit) for part in text.split(","))


def cloth_named(garment: Garment, name: str | None) -> Cloth:
    """A cloth of the garment, the first one if none is named.

    Raises:
        InputError: if no piece is cut from it, or from any.
    """
    cloths = cloths_for(garment.cutting, garment.design.cloths)
    if not cloths:
        raise InputError("no piece of the garment is cut from any cloth", "cloth")
    if name is None:
        return next(iter(cloths.values()))
    if name not in cloths:
        raise InputError(f"no piece is cut from {quoted(name)}; {nearest(name, cloths)}", "cloth")
    return cloths[name]


def garment_by_width(
    garment: Garment,
    cloth: Cloth,
    widths: Sequence[float],
    unit: Unit = Unit.CM,
    planning: Planning | None = None,
    told: ToldWidth = unheard,
) -> tuple[OneWidth, ...]:
    """The lays of a garment's pieces on one of its cloths, for every width in mm.

    Raises:
        InputError: if a width cannot be.
        LayError: if a piece is too wide for every one of them.
    """
    pieces = pieces_to_cut(garment.cutting, cloth.name)
    found = length_by_width(cloth, pieces, widths, SPACING, unit, planning, told)
    if not any(one.lays for one in found):
        raise LayError(found[-1].refusal, cloth.name)
    return found


def write_width_file(
    garment: Garment, cloth: Cloth, found: Sequence[OneWidth], path: Path, choice: PaperChoice
) -> None:
    """Write plot and table as .pdf, .svg or .png; the file is there whole or not at all.

    Raises:
        InputError: if the file ends in something else.
        OutputError: if it cannot be written.
    """
    title = garment.design.title
    heading = Heading.of(garment.cutting.pattern, title, choice.made_on, choice.unit)
    write_picture(width_sheets(cloth, found, heading, choice.paper), path, f"{title}, length by width", choice)
