"""The demo's range: one of its designs in several sizes of our table."""

from dataclasses import dataclass
from pathlib import Path
from typing import Final

from panelwright.app.demo.page_section import Figure, Section, links_to
from panelwright.app.demo.troupe import DemoDesign
from panelwright.app.findings_text import FINDINGS_FILE
from panelwright.app.output_folder import open_folder
from panelwright.app.paper import OVERVIEW, PaperChoice
from panelwright.app.progress import Progress
from panelwright.app.size_range import GRADE_FILE, LARGE_FILE, NESTED_FILE, make_range, write_range
from panelwright.checks.tally import counts_in_words
from panelwright.finding import Finding

GRADED: Final = "lantern-01"
BUSTS: Final = (80, 84, 88, 92, 96)
LINKS: Final = {
    FINDINGS_FILE: "findings",
    NESTED_FILE: "nested at quarter scale",
    LARGE_FILE: "nested at full scale",
    GRADE_FILE: "grade report",
}
WORDS: Final = (
    "One design made for each size, trued and checked, and the sizes of every piece laid on one another. The grade "
    "report tells how far each corner moves. A size is nobody’s body: sew a toile on whoever will wear it.",
)


@dataclass(frozen=True, eq=False)
class DemoSizes:
    """What the range made.

    Attributes:
        folder: as a path from the demo's.
        findings: of the grade, and the errors of every size.
        section: what the page shows of it.
    """

    folder: str
    findings: tuple[Finding, ...]
    section: Section


def make_sizes(cut: DemoDesign, folder: Path, choice: PaperChoice, progress: Progress) -> DemoSizes:
    """Make a design in `BUSTS` and write pattern files, nested drawings and grade report.

    Args:
        cut: the design.
        folder: of the demo.
        choice: paper, units and date.
        progress: told what comes next.

    Raises:
        OutputError: if a file cannot be written.
    """
    design, own = cut.design, Path("sizes") / cut.design.ref
    made = make_range(design, BUSTS, progress=progress, unit=choice.unit)
    files = write_range(made, open_folder(folder / own), choice)
    paths = [(own / file.name).as_posix() for file in files if file.parent == folder / own]
    figure = Figure(
        picture=(own / OVERVIEW).as_posix(),
        alt=f"The pieces of {design.title} in sizes {BUSTS[0]} to {BUSTS[-1]}, laid on one another",
        title=f"{design.title}, sizes {', '.join(map(str, BUSTS))}",
        words=counts_in_words(made.findings),
        links=links_to(paths, LINKS),
        wrong=any(finding.severity == "error" for finding in made.findings),
    )
    return DemoSizes(own.as_posix(), made.findings, Section("A range of sizes", (figure,), WORDS))
