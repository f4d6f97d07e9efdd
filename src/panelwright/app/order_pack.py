"""The order of work of a garment as pages, and as data."""

from pathlib import Path

from panelwright.app.garment import Garment
from panelwright.app.hand_pack import numbered
from panelwright.app.paper import PaperChoice
from panelwright.app.sign_off import page_of
from panelwright.body.units import Unit
from panelwright.body.worded_length import worded_in
from panelwright.drawing.heading import Heading
from panelwright.drawing.order_sheet import order_sheets
from panelwright.drawing.piece_drawing import piece_drawing
from panelwright.drawing.scale import QUARTER
from panelwright.drawing.sheet import Sheet
from panelwright.output.pdf import write_pdf
from panelwright.sewing.order import order_of_work
from panelwright.sewing.stitch import Sewing
from panelwright.sewing.task import Task
from panelwright.sewing.thread import thread_needed


def garment_tasks(garment: Garment, unit: Unit) -> tuple[Task, ...]:
    """The order of work of a garment, its sentences in a unit."""
    with worded_in(unit):
        return order_of_work(garment.cutting, garment.design.finish)


def order_pack(garment: Garment, choice: PaperChoice) -> tuple[Sheet, ...]:
    """The pages of the order of work, with their footings.

    Args:
        garment: as it was made.
        choice: paper (A4 where it is A3), unit and date.
    """
    tasks = garment_tasks(garment, choice.unit)
    heading = Heading.of(garment.cutting.pattern, garment.design.title, choice.made_on, choice.unit)
    pieces = {piece.id: piece_drawing(piece, cut, QUARTER) for piece, cut in garment.cutting.pieces}
    sheets = order_sheets(tasks, thread_needed(tasks, Sewing()), pieces, heading, page_of(choice.paper))
    return numbered(sheets, garment.design.title, f"wearer {garment.wearer.ref}")


def write_order(garment: Garment, path: Path, choice: PaperChoice) -> int:
    """Write the order of work as one PDF, there whole or not at all, and return how many pages it has.

    Raises:
        OutputError: if the file cannot be written.
    """
    sheets = order_pack(garment, choice)
    write_pdf(sheets, path, f"{garment.design.title}, {garment.wearer.ref}, order of work", choice.made_on)
    return len(sheets)


def tasks_document(tasks: tuple[Task, ...]) -> list[dict[str, object]]:
    """The tasks ready for JSON, lengths in mm."""
    return [
        {
            "title": task.title,
            "words": list(task.words),
            "sewn": [
                {
                    "what": sewn.what,
                    "seam": sewn.seam,
                    "length_mm": round(sewn.length, 3),
                    "stitch": sewn.stitch.number,
                    "seam_class": sewn.kind.value if sewn.kind else None,
                }
                for sewn in task.sewn
            ],
            "caution": task.caution,
        }
        for task in tasks
    ]
