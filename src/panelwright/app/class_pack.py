"""A class pack: one PDF with the sheets of every learner, spares, and an index."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from panelwright.app.garment import Garment, make_garment
from panelwright.app.garment_design import GarmentDesign
from panelwright.app.hand_pack import hand_pack, numbered
from panelwright.app.paper import PaperChoice
from panelwright.app.progress import Progress, unheard
from panelwright.app.sign_off import page_of
from panelwright.body.measurements import Measurements
from panelwright.checks.inspection import by_severity
from panelwright.drawing.hand_index import Entry, index_sheets
from panelwright.drawing.heading import Heading
from panelwright.drawing.sheet import Sheet
from panelwright.errors import InputError
from panelwright.finding import Finding
from panelwright.output.pdf import write_pdf

MOST_LEARNERS: Final = 60
MOST_SPARES: Final = 20


@dataclass(frozen=True)
class SchoolClass:
    """Who learns together.

    Attributes:
        wearers: one, whose sheets all draw, or one for each learner.
        learners: how many.
        spares: further packs; they go round the wearers in order.

    Raises:
        InputError: if there are too few or too many of them, or several wearers are not as many as the learners.
    """

    wearers: tuple[Measurements, ...]
    learners: int
    spares: int = 0

    def __post_init__(self) -> None:
        if not 1 <= self.learners <= MOST_LEARNERS:
            raise InputError(f"a class has 1 to {MOST_LEARNERS} learners, not {self.learners}", "learners")
        if not 0 <= self.spares <= MOST_SPARES:
            raise InputError(f"a class has 0 to {MOST_SPARES} spare packs, not {self.spares}", "spares")
        if len(self.wearers) not in (1, self.learners):
            raise InputError(
                f"{len(self.wearers)} measurements files are given for {self.learners} learners; give one for all, or "
                "one for each",
                "learners",
            )

    @property
    def packs(self) -> tuple[tuple[str, Measurements], ...]:
        """(name, whose measurements) of every pack; plain numbers, no names."""
        named = [f"learner {number}" for number in range(1, self.learners + 1)]
        named += [f"spare {number}" for number in range(1, self.spares + 1)]
        wearers = [self.wearers[k % len(self.wearers)] for k in range(self.learners)]
        wearers += [self.wearers[k % len(self.wearers)] for k in range(self.spares)]
        return tuple(zip(named, wearers, strict=True))


@dataclass(frozen=True)
class ClassPack:
    """What was written.

    Attributes:
        entries: the packs in their order.
        pages: of the file, the index among them.
        findings: of the garments, each once.
    """

    entries: tuple[Entry, ...]
    pages: int
    findings: tuple[Finding, ...]


def write_class_pack(
    design: GarmentDesign, school: SchoolClass, path: Path, choice: PaperChoice, progress: Progress = unheard
) -> ClassPack:
    """Write the pack; the file is there whole or not at all.

    What is equal between learners is made once: a garment and its sheets for each wearer.

    Raises:
        BlockError, DesignError, InputError: if the design cannot be made for one of the wearers.
        OutputError: if the file cannot be written.
    """
    whole = len(school.wearers) + 1
    made: dict[Measurements, tuple[Sheet, ...]] = {}
    garments: list[Garment] = []
    for done, wearer in enumerate(school.wearers):
        progress(done, whole, f"sheets for {wearer.ref}")
        if wearer not in made:
            garments.append(make_garment(wearer, design, unit=choice.unit))
            made[wearer] = hand_pack(garments[-1], choice, every_width=False)
    entries = tuple(Entry(name, wearer.ref, len(made[wearer])) for name, wearer in school.packs)
    sheets = _bound(design, school, entries, made, choice)
    progress(whole - 1, whole, path.name)
    write_pdf(sheets, path, f"{design.title}, class pack", choice.made_on)
    findings = dict.fromkeys(finding for garment in garments for finding in garment.findings)
    return ClassPack(entries, len(sheets), by_severity(findings))


def _bound(
    design: GarmentDesign,
    school: SchoolClass,
    entries: Sequence[Entry],
    made: dict[Measurements, tuple[Sheet, ...]],
    choice: PaperChoice,
) -> tuple[Sheet, ...]:
    """The index and all packs, each page with its footing."""
    source = school.wearers[0].ref if len(school.wearers) == 1 else "each learner’s own measurements"
    heading = Heading(design.title, source, choice.made_on, choice.unit)
    index = numbered(index_sheets(entries, heading, page_of(choice.paper)), design.title, "index")
    packs = (numbered(made[wearer], design.title, name) for name, wearer in school.packs)
    return (*index, *(sheet for pack in packs for sheet in pack))
