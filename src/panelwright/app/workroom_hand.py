"""Sheets to draw a design of the workroom by hand, for one learner or a class, as PDF."""

from collections.abc import Generator, Iterator, Sequence
from contextlib import closing, contextmanager
from dataclasses import dataclass
from functools import partial
from typing import Final

from panelwright.app.block_shelf import BlockShelf
from panelwright.app.class_pack import OWN_MEASUREMENTS, Person, bound, for_each, refuse_counts, shared_out
from panelwright.app.design_file import read_design
from panelwright.app.drawn_design import DrawnDesign, draw_design
from panelwright.app.garment_design import GarmentDesign
from panelwright.app.hand_pack import hand_pack, numbered, whose
from panelwright.app.paper import PaperChoice
from panelwright.app.progress import Progress
from panelwright.app.side_by_side import processors
from panelwright.app.workroom_garments import WorkroomGarments
from panelwright.app.workroom_item import found_item
from panelwright.app.worn_item import person, worn_item
from panelwright.body.worded_length import worded_in
from panelwright.drawing.hand_index import Entry
from panelwright.drawing.sheet import Sheet
from panelwright.errors import BlockError, DesignError, InputError
from panelwright.output.pdf import pdf_bytes
from panelwright.quotation import quoted
from panelwright.store.workroom import Workroom

DRAWING: Final = 1  # steps told before the pages
ONE_SIZE: Final = "this design lies on a traced block, which has one size whoever learns: make one pack for all"


@dataclass(frozen=True)
class HandAsked:
    """What is asked for.

    Attributes:
        design, wearer: refs.
        choice: paper, unit and date.
        named: whether the sheets say whom they are for: not before an audience.
        learners: how many packs for a class; None: one set of sheets, for no class.
        spares: further packs of a class.
        wearers: refs of a class whose learners draw from their own measurements, one each; then `wearer` says nothing.

    Raises:
        InputError: if there are too few or too many learners or spares, or one of them is named twice, or their own
            measurements are asked for before an audience.
    """

    design: str
    wearer: str
    choice: PaperChoice
    named: bool = True
    learners: int | None = None
    spares: int = 0
    wearers: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if self.learners is not None:
            refuse_counts(self.learners, self.spares)
        if not self.wearers:
            return
        refuse_counts(len(self.wearers), self.spares)
        twice = next((ref for ref in self.wearers if self.wearers.count(ref) > 1), None)
        if twice is not None:
            raise InputError(f"learner {quoted(twice)} is named twice: each has one pack", "wearers")
        if not self.named:
            raise InputError(
                "packs of the learners' own measurements are not made before an audience: leave presenter mode first",
                "wearers",
            )

    @property
    def is_class(self) -> bool:
        """Whether packs for a class are asked for."""
        return self.learners is not None or bool(self.wearers)

    @property
    def file_name(self) -> str:
        """What the PDF is called."""
        if self.is_class:
            return f"{self.design}-class.pdf"
        return f"{self.design}-{self.wearer}-by-hand.pdf" if self.named else f"{self.design}-by-hand.pdf"


def workroom_hand(
    room: Workroom, garments: WorkroomGarments, asked: HandAsked, progress: Progress
) -> tuple[bytes, int]:
    """(the PDF, how many pages it has).

    Args:
        progress: told before each garment and each page; may raise CancelledError to stop.

    Raises:
        NotThereError: if there is no such design or wearer.
        InputError, BlockError, DesignError: if the garment cannot be made, or a panel does not fit on the paper.
    """
    if asked.wearers:
        title, sheets = _own_packs(room, asked, progress)
    else:
        progress(0, 1, "pieces")
        drawn = garments.complete(asked.design, asked.wearer, asked.choice.unit, asked.named).design
        progress(0, 1, "instructions")
        title, sheets = drawn.design.title, _sheets(drawn, asked)
    told = f"{title}, {'class pack' if asked.is_class else 'to draw by hand'}"
    return pdf_bytes(_told(sheets, progress), told, asked.choice.made_on), len(sheets)


def _own_packs(room: Workroom, asked: HandAsked, progress: Progress) -> tuple[str, tuple[Sheet, ...]]:
    """(the design's title, the packs of learners who draw from their own measurements)."""
    design = read_design(found_item(room, "design", asked.design).text)
    if design.traced is not None:
        raise InputError(ONE_SIZE, "wearers")
    people = []
    for wearer in asked.wearers:
        with _told_for(wearer):
            people.append(person(worn_item(room, wearer)))
    made: dict[str, tuple[Sheet, ...]] = {}
    work = partial(_own_sheets, design, asked.choice)
    with closing(for_each(work, people, progress, processors())) as results:
        for wearer in asked.wearers:
            with _told_for(wearer):
                made[wearer] = next(results)
    named = shared_out(asked.wearers, len(asked.wearers), asked.spares)
    packs = [(Entry(name, wearer, len(made[wearer])), made[wearer]) for name, wearer in named]
    return design.title, bound(design.title, OWN_MEASUREMENTS, packs, asked.choice)


def _own_sheets(design: GarmentDesign, choice: PaperChoice, person: Person) -> tuple[Sheet, ...]:
    """Of a learner, drawn as the board draws; it may be called in another process, which has no shelf of blocks."""
    measurements, fitting = person
    with worded_in(choice.unit):
        block = BlockShelf().block(measurements, design.block_options, fitting, choice.unit)
        drawn = draw_design(design, block, choice.unit)
    drawn.refuse_half()
    return hand_pack(drawn, choice, every_width=False)


@contextmanager
def _told_for(wearer: str) -> Generator[None]:
    """Whose garment cannot be made is told with the reason."""
    try:
        yield
    except (BlockError, DesignError, InputError) as error:
        raise InputError(f"for {wearer}: {error}", "wearers") from error


def _sheets(drawn: DrawnDesign, asked: HandAsked) -> tuple[Sheet, ...]:
    title, worn_by = drawn.design.title, drawn.cutting.pattern.worn_by
    if asked.learners is None:
        return numbered(hand_pack(drawn, asked.choice), title, whose(worn_by))
    made = hand_pack(drawn, asked.choice, every_width=False)
    packs = [(Entry(name, by, len(made)), made) for name, by in shared_out([worn_by], asked.learners, asked.spares)]
    return bound(title, worn_by, packs, asked.choice)


def _told(sheets: Sequence[Sheet], progress: Progress) -> Iterator[Sheet]:
    whole = len(sheets) + DRAWING
    for number, sheet in enumerate(sheets, 1):
        progress(number, whole, f"page {number} of {len(sheets)}")
        yield sheet
