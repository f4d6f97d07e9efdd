"""The order of work on pages: each task with the pieces that it takes, what is sewn drawn bold."""

from collections.abc import Mapping, Sequence
from typing import Final

from panelwright.body.units import Unit
from panelwright.drawing.amount import amount
from panelwright.drawing.bill import Bill
from panelwright.drawing.garment_picture import garment_picture
from panelwright.drawing.heading import Heading, heading_drawing
from panelwright.drawing.page_flow import Strip, beside, flowed, hung, kept_together, space
from panelwright.drawing.paper import Paper
from panelwright.drawing.paragraph import BODY, SMALL, Column, paragraph, section, table
from panelwright.drawing.piece_drawing import PieceDrawing
from panelwright.drawing.sheet import Sheet
from panelwright.sewing.task import Sewn, Task
from panelwright.sewing.thread import Thread, reels

NAME: Final = "order of work"
PICTURE: Final = (62.0, 46.0)
GUTTER: Final = 6.0
BETWEEN: Final = 5.0
READ: Final = (
    "Bold lines on the pictures are what is sewn; the wearer's right half is drawn, the left is its mirror image. "
    "Stitches have their numbers of ISO 4915, seams their class of ISO 4916; lengths are of the whole garment. A "
    "teacher's or a maker's own order may differ."
)
_SEWN: Final = (Column("Sew", 0.36), Column("Length", 0.14, "right"), Column("Stitch", 0.5))
_THREAD: Final = (Column("Stitch", 0.46), Column("Seam", 0.24, "right"), Column("Thread", 0.3, "right"))


def order_sheets(
    tasks: Sequence[Task],
    threads: Sequence[Thread],
    pieces: Mapping[str, PieceDrawing],
    heading: Heading,
    paper: Paper,
    bill: Bill | None = None,
) -> tuple[Sheet, ...]:
    """The pages, without footings.

    Args:
        tasks: in order.
        threads: of the whole garment.
        pieces: id -> the piece as it is drawn, at any scale.
        heading: of the garment.
        paper: of every page, upright.
        bill: what the garment costs, where prices are known.
    """
    width, unit = paper.inner_width, heading.unit
    strips = [_heading(heading, width), paragraph(READ, width, SMALL), space(3.0)]
    for number, task in enumerate(tasks, 1):
        strips += [*_task(number, task, pieces, width, unit), space(BETWEEN)]
    strips += _thread(threads, width, unit)
    strips += [space(BETWEEN), *bill.strips(width)] if bill is not None else []
    pages = flowed(strips, paper.height - 2 * paper.margin)
    return tuple(
        Sheet(
            paper.width,
            paper.height,
            f"{NAME}, page {number} of {len(pages)}",
            tuple(hung(page, paper.margin, paper.height - paper.margin)),
        )
        for number, page in enumerate(pages, 1)
    )


def _heading(heading: Heading, width: float) -> Strip:
    drawing = heading_drawing(heading, heading.notes("no pattern: pictures are not to scale"), NAME, 0.0, 0.0, width)
    return Strip(drawing, -drawing.bounds[1] + 3.0)


def _task(number: int, task: Task, pieces: Mapping[str, PieceDrawing], width: float, unit: Unit) -> list[Strip]:
    """Its title, and under it the picture beside the words."""
    shown = _shown(task, pieces)
    left = PICTURE[0] + GUTTER if shown else 0.0
    words = [paragraph(text, width - left, BODY) for text in task.words]
    words += _table(task.sewn, width - left, unit)
    words += [paragraph(f"Take care: {task.caution}", width - left, BODY, bold=True)] if task.caution else []
    columns: list[tuple[float, Sequence[Strip]]] = [(left, [space(0.8), *words])]
    if shown:
        columns.append((0.0, [space(1.0), garment_picture(shown, *PICTURE, noted=False, bold=task.edges)]))
    return kept_together([section(f"{number}  {task.title}", width), beside(columns)])


def _shown(task: Task, pieces: Mapping[str, PieceDrawing]) -> list[PieceDrawing]:
    """The pieces that it takes."""
    return [
        piece
        for piece in pieces.values()
        if piece.piece in task.pieces or any(edge.id in task.edges for edge in piece.source[0].edges)
    ]


def _table(sewn: Sequence[Sewn], width: float, unit: Unit) -> list[Strip]:
    rows = [[each.what, amount(each.length, unit), _stitch(each)] for each in sewn]
    return [space(1.0), *table(_SEWN, rows, width, SMALL), space(1.0)] if rows else []


def _stitch(sewn: Sewn) -> str:
    return sewn.stitch.words + (f"; seam {sewn.kind.words}" if sewn.kind else "")


def _thread(threads: Sequence[Thread], width: float, unit: Unit) -> list[Strip]:
    rows = [[each.stitch.words, _metres(each.seam, unit), _metres(each.needed, unit)] for each in threads]
    count = reels(sum(each.needed for each in threads))
    total = (
        f"In one colour that is {count} {'reel' if count == 1 else 'reels'} of 100 m. Reckoned for stitches of 2.5 mm "
        "and seams 0.8 mm thick, with 15 % for ends and seams sewn again; tacking and buttonholes come on top."
    )
    return kept_together([section("Thread", width), *table(_THREAD, rows, width), paragraph(total, width, SMALL)])


def _metres(length: float, unit: Unit) -> str:
    """Metres, or yards where inches are read."""
    return f"{length / 914.4:.1f} yd" if unit is Unit.INCH else f"{length / 1000:.1f} m"
