"""The demo's fitting: a dancer's toile, what was pinned on it, and the bodice cut after those notes."""

from dataclasses import dataclass
from pathlib import Path
from typing import Final

from panelwright.app.demo.index_page import LINKS, Entry, garment_figure
from panelwright.app.demo.page_section import Figure, Section, links_to
from panelwright.app.demo.troupe import Dancer, fitting_text
from panelwright.app.fitting_change import CHANGE_FILE, change_text
from panelwright.app.fitting_file import read_fitting
from panelwright.app.garment import Garment, make_garment
from panelwright.app.garment_folder import write_garment
from panelwright.app.output_folder import open_folder
from panelwright.app.paper import PaperChoice
from panelwright.app.progress import Progress
from panelwright.app.toile import NOTES_FILE, Toile
from panelwright.checks.tally import counts_in_words
from panelwright.finding import Finding
from panelwright.saved_file import save

FITTED: Final = ("w-02", "lantern-01")
WORDS: Final = (
    "A block from a tape is a good start and no more. The toile is sewn in one layer and tried on; what is pinned is "
    "written on its fitting sheet and carried out on the wearer’s block, so that every later design starts from it.",
)


@dataclass(frozen=True, eq=False)
class DemoFitting:
    """What a fitting made.

    Attributes:
        toile, fitted: their folders, as paths from the demo's.
        findings: of the toile and of the fitted garment.
        section: what the page shows of it.
    """

    toile: str
    fitted: str
    findings: tuple[Finding, ...]
    section: Section


def make_fitting(dancer: Dancer, plain: Garment, folder: Path, choice: PaperChoice, progress: Progress) -> DemoFitting:
    """Make and write the toile of a garment, the notes of its fitting, and the garment after them.

    Args:
        dancer: whose notes they are.
        plain: the garment before the fitting.
        folder: of the demo.
        choice: paper, units and date.
        progress: told what comes next.

    Raises:
        OutputError: if a file cannot be written.
    """
    ref, design = dancer.wearer.ref, plain.design
    text = fitting_text(ref)
    notes = open_folder(folder / "fittings") / f"{ref}.json"
    save(notes, text.encode())
    fitting = read_fitting(text)
    toile, toile_at = Toile(plain.pattern, design, choice, plain.findings), Path("toiles") / f"{design.ref}-{ref}"
    sewn = toile.write(open_folder(folder / toile_at), progress)

    after = make_garment(dancer.wearer, design, progress, choice.unit, plain.block, fitting)
    fitted_at = Path("fitted") / f"{design.ref}-{ref}"
    own = open_folder(folder / fitted_at)
    change = change_text(design.title, fitting, plain.pattern, after.pattern, choice.unit)
    save(own / CHANGE_FILE, change.encode())
    files = (own / CHANGE_FILE, *write_garment(after, own, choice, progress))
    paths = tuple((fitted_at / file.name).as_posix() for file in files)
    figures = (
        _toile_figure(toile, ref, tuple((toile_at / file.name).as_posix() for file in sewn)),
        _fitted_figure(Entry(ref, dancer.role, f"{design.title}, after the fitting", after.findings, paths), ref),
    )
    section = Section(f"A toile and its fitting: {ref}, {dancer.role}", figures, WORDS)
    return DemoFitting(toile_at.as_posix(), fitted_at.as_posix(), (*toile.findings, *after.findings), section)


def _toile_figure(toile: Toile, ref: str, files: tuple[str, ...]) -> Figure:
    return Figure(
        picture=next(file for file in files if file.endswith(".svg")),
        alt=f"The toile's pieces for {ref} at quarter scale, in one layer with balance lines",
        title=toile.title,
        words=counts_in_words(toile.findings),
        links=links_to(files, {NOTES_FILE: "fitting sheet", **LINKS}),
    )


def _fitted_figure(entry: Entry, ref: str) -> Figure:
    own = garment_figure(entry)
    changed = links_to(entry.files, {CHANGE_FILE: "what the fitting changed"})
    notes = (f"fittings/{ref}.json", "the notes")
    return Figure(own.picture, own.alt, own.title, own.words, (*changed, notes, *own.links), own.wrong)
