"""`panelwright buy`: what a group of garments needs: lays, metres, notions, cost."""

from argparse import Namespace
from dataclasses import replace

from panelwright.app.group import load_group
from panelwright.app.output_folder import open_folder
from panelwright.app.progress import part_of
from panelwright.app.shopping import Shopping, make_group, shopping_for
from panelwright.app.shopping_folder import write_shopping
from panelwright.app.shopping_rows import long_length, notes, total_words
from panelwright.body.units import Unit
from panelwright.cli.console import Console
from panelwright.cli.given import given_files, given_fittings, given_folder, given_paper, given_planning
from panelwright.cli.outcome import ERRORS_FOUND, FINE
from panelwright.finish.cut_count import cloth_words


def run(arguments: Namespace, console: Console) -> int:
    """Make the garments, lay them together and write the list; returns the exit status."""
    choice, planning = given_paper(arguments), given_planning(arguments)
    (path,) = given_files(arguments, "a group file")
    group = load_group(path)
    group = replace(group, fittings=(*group.fittings, *given_fittings(arguments)))
    folder = open_folder(given_folder(arguments, f"{group.ref}-shopping"))
    count = len(group.garments)
    garments = make_group(group, choice.unit, part_of(console.progress, 0, 2 * count))

    def told(done: int, whole: int, what: str) -> None:
        console.progress(count + count * done // max(whole, 1), 2 * count, what)

    shopping = shopping_for(group, garments, choice.unit, planning, told)
    written = write_shopping(shopping, folder, choice)
    status = ERRORS_FOUND if shopping.not_ready else FINE
    facts = {"status": status, "command": "buy", **_facts(shopping), "files": [str(file) for file in written]}
    lines = [f"{group.title}, {sum(own.count for own in group.garments)} garments:", *_lines(shopping, choice.unit)]
    console.answer(facts, "\n".join([*lines, *(f"  {file}" for file in written)]))
    return status


def _lines(shopping: Shopping, unit: Unit) -> list[str]:
    lines = [
        f"  {cloth_words(bought.cloth.name)}: buy {long_length(bought.to_buy, unit)}, {len(bought.lays)} "
        f"{'lay' if len(bought.lays) == 1 else 'lays'}, {100 * bought.use:.0f} % becomes pieces"
        for bought in shopping.cloths
    ]
    return [*lines, f"  {total_words(shopping)}", *(f"  {note}" for note in notes(shopping, unit))]


def _facts(shopping: Shopping) -> dict[str, object]:
    return {
        "group": shopping.group.ref,
        "cloths": [
            {
                "cloth": bought.cloth.name,
                "width_mm": bought.cloth.width,
                "assumed": bought.cloth.assumed,
                "lays": [{"length_mm": lay.length, "folded": lay.folded, "use": lay.use} for lay in bought.lays],
                "length_mm": bought.length,
                "to_buy_mm": bought.to_buy,
                "cost": bought.cost,
                "garments": [garment.mark for garment in bought.garments],
            }
            for bought in shopping.cloths
        ],
        "notions": [
            {
                "kind": notion.kind,
                "name": notion.name,
                "count": notion.count,
                "length_mm": notion.length,
                "by_length": notion.by_length,
                "cost": notion.cost,
                "garments": list(notion.marks),
            }
            for notion in shopping.notions
        ],
        "fitted": list(shopping.fitted),
        "notes_left_out": list(shopping.notes_left_out),
        "reels": shopping.reels,
        "cost": shopping.cost,
        "without_price": list(shopping.without_price),
        "not_ready": [{"garment": mark, "error": error} for mark, error in shopping.not_ready],
    }
