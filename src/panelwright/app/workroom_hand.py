"""Sheets to draw a design of the workroom by hand, for one learner or a class, as PDF."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from panelwright.app.class_pack import bound, pack_names, refuse_counts
from panelwright.app.drawn_design import DrawnDesign
from panelwright.app.hand_pack import hand_pack, numbered, whose
from panelwright.app.paper import PaperChoice
from panelwright.app.progress import Progress
from panelwright.app.workroom_garments import WorkroomGarments
from panelwright.drawing.hand_index import Entry
from panelwright.drawing.sheet import Sheet
from panelwright.output.pdf import pdf_bytes

DRAWING: Final = 1  # steps told before the pages


@dataclass(frozen=True)
class HandAsked:
    """What is asked for.

    Attributes:
        design, wearer: refs.
        choice: paper, unit and date.
        named: whether the sheets say whom they are for: not before an audience.
        learners: how many packs for a class; None: one set of sheets, for no class.
        spares: further packs of a class.

    Raises:
        InputError: if there are too few or too many learners or spares.
    """

    design: str
    wearer: str
    choice: PaperChoice
    named: bool = True
    learners: int | None = None
    spares: int = 0

    def __post_init__(self) -> None:
        if self.learners is not None:
            refuse_counts(self.learners, self.spares)

    @property
    def file_name(self) -> str:
        """What the PDF is called."""
        if self.learners is not None:
            return f"{self.design}-class.pdf"
        return f"{self.design}-{self.wearer}-by-hand.pdf" if self.named else f"{self.design}-by-hand.pdf"


def workroom_hand(garments: WorkroomGarments, asked: HandAsked, progress: Progress) -> tuple[bytes, int]:
    """(the PDF, how many pages it has).

    Args:
        progress: told before each page; may raise CancelledError to stop.

    Raises:
        NotThereError: if there is no such design or wearer.
        InputError, BlockError, DesignError: if the garment cannot be made, or a panel does not fit on the paper.
    """
    progress(0, 1, "pieces")
    drawn = garments.complete(asked.design, asked.wearer, asked.choice.unit, asked.named).design
    progress(0, 1, "instructions")
    sheets = _sheets(drawn, asked)
    title = f"{drawn.design.title}, {'to draw by hand' if asked.learners is None else 'class pack'}"
    return pdf_bytes(_told(sheets, progress), title, asked.choice.made_on), len(sheets)


def _sheets(drawn: DrawnDesign, asked: HandAsked) -> tuple[Sheet, ...]:
    title, worn_by = drawn.design.title, drawn.cutting.pattern.worn_by
    if asked.learners is None:
        return numbered(hand_pack(drawn, asked.choice), title, whose(worn_by))
    made = hand_pack(drawn, asked.choice, every_width=False)
    packs = [(Entry(name, worn_by, len(made)), made) for name in pack_names(asked.learners, asked.spares)]
    return bound(title, worn_by, packs, asked.choice)


def _told(sheets: Sequence[Sheet], progress: Progress) -> Iterator[Sheet]:
    whole = len(sheets) + DRAWING
    for number, sheet in enumerate(sheets, 1):
        progress(number, whole, f"page {number} of {len(sheets)}")
        yield sheet
