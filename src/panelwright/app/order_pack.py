"""The order of work of a garment as pages, and as data."""

from dataclasses import dataclass
from functools import cached_property
from typing import Self

from panelwright.app.garment import Garment
from panelwright.app.hand_pack import numbered, whose
from panelwright.app.paper import PaperChoice
from panelwright.app.sign_off import page_of
from panelwright.body.worded_length import worded_in
from panelwright.drawing.bill import Bill
from panelwright.drawing.heading import Heading
from panelwright.drawing.order_sheet import order_sheets
from panelwright.drawing.piece_drawing import piece_drawing
from panelwright.drawing.scale import QUARTER
from panelwright.drawing.sheet import Sheet
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.finish.options import Finish
from panelwright.output.pdf import pdf_bytes
from panelwright.sewing.order import order_of_work
from panelwright.sewing.stitch import Sewing
from panelwright.sewing.task import Task
from panelwright.sewing.thread import thread_needed


@dataclass(frozen=True, eq=False, repr=False)
class OrderPack:
    """The order of work of a garment.

    Attributes:
        cutting: its pieces, ready to cut; their pattern names the wearer, or nobody.
        finish: how they were finished.
        title: of the garment.
        choice: paper (A4 where it is A3), unit and date.
        bill: what it costs, where prices are known.
    """

    cutting: CuttingPattern
    finish: Finish
    title: str
    choice: PaperChoice
    bill: Bill | None = None

    @classmethod
    def of(cls, garment: Garment, choice: PaperChoice, bill: Bill | None = None) -> Self:
        """The order of work of a garment as it was made."""
        return cls(garment.cutting, garment.design.finish, garment.design.title, choice, bill)

    @cached_property
    def tasks(self) -> tuple[Task, ...]:
        """What to do, in order; sentences in the chosen unit."""
        with worded_in(self.choice.unit):
            return order_of_work(self.cutting, self.finish)

    @cached_property
    def sheets(self) -> tuple[Sheet, ...]:
        """The pages with their footings."""
        choice, pattern = self.choice, self.cutting.pattern
        heading = Heading.of(pattern, self.title, choice.made_on, choice.unit)
        pieces = {piece.id: piece_drawing(piece, cut, QUARTER) for piece, cut in self.cutting.pieces}
        threads = thread_needed(self.tasks, Sewing())
        sheets = order_sheets(self.tasks, threads, pieces, heading, page_of(choice.paper), self.bill)
        return numbered(sheets, self.title, whose(pattern.worn_by))

    def pdf(self) -> bytes:
        """The pages as one PDF."""
        title = [self.title, self.cutting.pattern.worn_by, "order of work"]
        return pdf_bytes(self.sheets, ", ".join(filter(None, title)), self.choice.made_on)


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
