"""`panelwright widths`: how much cloth a garment needs from cloth of one width or another."""

from argparse import Namespace
from collections.abc import Sequence
from dataclasses import replace

from panelwright.app.design_file import load_design
from panelwright.app.garment import STAGES, make_garment
from panelwright.app.picture_file import picture_form
from panelwright.app.progress import part_of
from panelwright.app.width_table import cloth_named, garment_by_width, usual_widths, widths_in, write_width_file
from panelwright.body.units import Unit
from panelwright.cli.console import Console
from panelwright.cli.given import given_fitting, given_length, given_out, given_paper, given_planning, given_wearer
from panelwright.drawing.width_words import heads, notes, rows
from panelwright.finish.cut_count import cloth_words
from panelwright.lay.cloth import Cloth
from panelwright.lay.length_by_width import OneWidth


def run(arguments: Namespace, console: Console) -> int:
    """Lay the garment on every width, and write the plot; returns the exit status."""
    choice = given_paper(arguments)
    widths = usual_widths(choice.unit) if arguments.widths is None else widths_in(arguments.widths, choice.unit)
    planning, sold_by = given_planning(arguments), given_length(arguments.sold_by, "sold-by", choice.unit)
    wearer, (design_path,) = given_wearer(arguments, "a design file")
    design, fitting = load_design(design_path), given_fitting(arguments)
    path = given_out(arguments, f"{design.ref}-{wearer.ref}-widths.pdf")
    picture_form(path)
    whole = STAGES + len(widths)
    garment = make_garment(wearer, design, part_of(console.progress, 0, whole), choice.unit, fitting=fitting)
    cloth = cloth_named(garment, arguments.cloth)
    if sold_by is not None:
        cloth = replace(cloth, sold_by=sold_by)

    def told(done: int, _: int) -> None:
        console.progress(STAGES + done, whole, "lays")

    found = garment_by_width(garment, cloth, widths, choice.unit, planning, told)
    write_width_file(garment, cloth, found, path, choice)
    facts: dict[str, object] = {
        "status": 0,
        "command": "widths",
        "wearer": wearer.ref,
        "design": design.ref,
        "cloth": cloth.name,
        "widths": [_facts(one) for one in found],
        "files": [str(path)],
    }
    lead = f"{design.title} for {wearer.ref}, {cloth_words(cloth.name)}, lengths in {choice.unit.words}:"
    console.answer(facts, "\n".join([lead, *_lines(cloth, found, choice.unit), f"  {path}"]))
    return 0


def _facts(one: OneWidth) -> dict[str, object]:
    return {
        "width_mm": one.width,
        "lays": [
            {"folded": lay.folded, "length_mm": lay.length, "to_buy_mm": lay.to_buy, "use": lay.use, "cost": lay.cost}
            for lay in one.lays
        ],
        "refused": one.refusal or None,
    }


def _lines(cloth: Cloth, found: Sequence[OneWidth], unit: Unit) -> list[str]:
    """The table in columns of text, and the notes."""
    ways = [folded for folded in (True, False) if any(one.lay(folded) for one in found)]
    cells = [heads(ways, unit), *rows(found, ways, unit)]
    wide = [max(len(row[k]) for row in cells) for k in range(len(cells[0]))]
    table = ["  " + "  ".join(cell.rjust(room) for cell, room in zip(row, wide, strict=True)) for row in cells]
    return [*table, *(f"  {note}" for note in notes(cloth, found, unit))]
