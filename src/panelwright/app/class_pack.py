"""A class pack: one PDF with the sheets of every learner, spares, and an index."""

from collections.abc import Callable, Generator, Iterator, Mapping, Sequence
from contextlib import closing
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import Final, TypeVar

from panelwright.app.fittings import fittings_of
from panelwright.app.garment import make_garment
from panelwright.app.garment_design import GarmentDesign
from panelwright.app.hand_pack import hand_pack, numbered
from panelwright.app.paper import PaperChoice
from panelwright.app.progress import Progress, unheard
from panelwright.app.side_by_side import side_by_side
from panelwright.app.sign_off import page_of
from panelwright.body.measurements import Measurements
from panelwright.checks.inspection import by_severity
from panelwright.drawing.hand_index import Entry, index_sheets
from panelwright.drawing.heading import Heading
from panelwright.drawing.sheet import Sheet
from panelwright.errors import InputError
from panelwright.finding import Finding
from panelwright.fitting.fitting import Fitting
from panelwright.output.pdf import write_pdf

MOST_LEARNERS: Final = 60
MOST_SPARES: Final = 20
OWN_MEASUREMENTS: Final = "each learner’s own measurements"
Source = TypeVar("Source")
Person = tuple[Measurements, Fitting | None]
Result = TypeVar("Result")


def refuse_counts(learners: int, spares: int) -> None:
    """Raises InputError if there are too few or too many of them."""
    if not 1 <= learners <= MOST_LEARNERS:
        raise InputError(f"a class has 1 to {MOST_LEARNERS} learners, not {learners}", "learners")
    if not 0 <= spares <= MOST_SPARES:
        raise InputError(f"a class has 0 to {MOST_SPARES} spare packs, not {spares}", "spares")


def shared_out(sources: Sequence[Source], learners: int, spares: int) -> list[tuple[str, Source]]:
    """(name, what it is drawn from) of every pack: `learner 1`, …, `spare 1`, …: plain numbers, no names.

    Args:
        sources: one for all, or one for each learner; spares go round them in order.
    """
    counts = (("learner", learners), ("spare", spares))
    return [(f"{name} {k + 1}", sources[k % len(sources)]) for name, count in counts for k in range(count)]


@dataclass(frozen=True)
class SchoolClass:
    """Who learns together.

    Attributes:
        wearers: one, whose sheets all draw, or one for each learner.
        learners: how many.
        spares: further packs; they go round the wearers in order.
        fittings: notes of those wearers who have some.

    Raises:
        InputError: if there are too few or too many of them, or several wearers are not as many as the learners, or it
            cannot be told whose notes some are.
    """

    wearers: tuple[Measurements, ...]
    learners: int
    spares: int = 0
    fittings: tuple[Fitting, ...] = ()

    def __post_init__(self) -> None:
        fittings_of(self.wearers, self.fittings)
        refuse_counts(self.learners, self.spares)
        if len(self.wearers) not in (1, self.learners):
            raise InputError(
                f"{len(self.wearers)} measurements files are given for {self.learners} learners; give one for all, or "
                "one for each",
                "learners",
            )

    @property
    def packs(self) -> tuple[tuple[str, Measurements], ...]:
        """(name, whose measurements) of every pack; plain numbers, no names."""
        return tuple(shared_out(self.wearers, self.learners, self.spares))


@dataclass(frozen=True)
class ClassPack:
    """What was written.

    Attributes:
        entries: the packs in their order.
        pages: of the file, the index among them.
        findings: of the garments, each once; where learners differ, with the refs of those whom it is about.
    """

    entries: tuple[Entry, ...]
    pages: int
    findings: tuple[Finding, ...]


def write_class_pack(
    design: GarmentDesign,
    school: SchoolClass,
    path: Path,
    choice: PaperChoice,
    progress: Progress = unheard,
    processes: int = 1,
) -> ClassPack:
    """Write the pack; the file is there whole or not at all.

    What is equal between learners is made once: a garment and its sheets for each wearer.

    Args:
        processes: how many draw at once (`side_by_side` tells what more than one asks of a script).

    Raises:
        BlockError, DesignError, InputError: if the design cannot be made for one of the wearers.
        OutputError: if the file cannot be written.
    """
    wearers = tuple(dict.fromkeys(school.wearers))
    fittings = fittings_of(school.wearers, school.fittings)
    people = [(wearer, fittings.get(wearer)) for wearer in wearers]
    made: dict[Measurements, tuple[Sheet, ...]] = {}
    findings: dict[Finding, list[str]] = {}
    with closing(for_each(partial(_drawn, design, choice), people, progress, processes)) as results:
        for wearer, (sheets, found) in zip(wearers, results, strict=True):
            made[wearer] = sheets
            for finding in found:
                findings.setdefault(finding, []).append(wearer.ref)
    source = school.wearers[0].ref if len(school.wearers) == 1 else OWN_MEASUREMENTS
    packs = [(Entry(name, wearer.ref, len(made[wearer])), made[wearer]) for name, wearer in school.packs]
    entries = tuple(entry for entry, _ in packs)
    sheets = bound(design.title, source, packs, choice)
    progress(len(wearers), len(wearers) + 1, path.name)
    write_pdf(sheets, path, f"{design.title}, class pack", choice.made_on)
    about = findings if len(wearers) == 1 else _named(findings)
    return ClassPack(entries, len(sheets), by_severity(about))


def _named(findings: Mapping[Finding, Sequence[str]]) -> Iterator[Finding]:
    """Findings that say whom they are about."""
    for finding, refs in findings.items():
        yield replace(finding, message=f"{', '.join(refs)}: {finding.message}")


def for_each(
    work: Callable[[Person], Result], people: Sequence[Person], progress: Progress, processes: int
) -> Generator[Result]:
    """What comes of each of a class, in their order; close it to stop at once.

    Args:
        work: a function of a module, with what can travel to another process.
        people: each with the fitting notes, if there are some.
        progress: told whose turn comes, of one step more than there are people; may raise CancelledError to stop.
        processes: how many work at once (`side_by_side` tells what more than one asks of a script).
    """
    done = 0

    def tell() -> None:
        progress(done, len(people) + 1, f"sheets for {people[done][0].ref}")

    with closing(side_by_side(work, people, processes, tell)) as results:
        for number in range(len(people)):
            done = number
            tell()
            yield next(results)


def _drawn(design: GarmentDesign, choice: PaperChoice, person: Person) -> tuple[tuple[Sheet, ...], tuple[Finding, ...]]:
    """(sheets without footings, what is found on the garment)."""
    wearer, fitting = person
    garment = make_garment(wearer, design, unit=choice.unit, fitting=fitting)
    return hand_pack(garment, choice, every_width=False), tuple(garment.findings)


def bound(
    title: str, source: str, packs: Sequence[tuple[Entry, tuple[Sheet, ...]]], choice: PaperChoice
) -> tuple[Sheet, ...]:
    """The index and all packs, each page with its footing.

    Args:
        title: of the design.
        source: whose measurements were used, for the index.
        packs: each with its entry in the index.
    """
    heading = Heading(title, source, choice.made_on, choice.unit)
    entries = [entry for entry, _ in packs]
    index = numbered(index_sheets(entries, heading, page_of(choice.paper)), title, "index")
    pages = (numbered(sheets, title, entry.name) for entry, sheets in packs)
    return (*index, *(sheet for pack in pages for sheet in pack))
