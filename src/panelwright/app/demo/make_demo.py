"""The demo: the dancers of the troupe in their designs, a fitting and a size range, from measurements to sheets."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from panelwright.app.demo.demo_fitting import FITTED, DemoFitting, make_fitting
from panelwright.app.demo.demo_sizes import GRADED, DemoSizes, make_sizes
from panelwright.app.demo.index_page import Entry, index_page
from panelwright.app.demo.troupe import DANCED, Dancer, DemoDesign, designs, group_text, troupe
from panelwright.app.garment import Garment, make_garment
from panelwright.app.garment_folder import write_garment
from panelwright.app.group import load_group
from panelwright.app.output_folder import open_folder
from panelwright.app.paper import PaperChoice
from panelwright.app.progress import Progress, unheard
from panelwright.app.shopping import shopping_for
from panelwright.app.shopping_folder import write_shopping
from panelwright.blocks.block import Block
from panelwright.blocks.options import BlockOptions
from panelwright.finding import Finding
from panelwright.saved_file import save

INDEX: Final = "index.html"
GROUP: Final = "group.json"
SHOPPING: Final = "shopping"
# What is made after the garments, in order.
FURTHER: Final = ("a toile and its fitting", "a range of sizes", "what the troupe buys together")
Blocks = dict[tuple[str, BlockOptions], Block]


@dataclass(frozen=True, eq=False)
class Demo:
    """What the demo made.

    Attributes:
        folder: where everything is.
        index: the page to open first.
        entries: one for each garment.
        fitting: one dancer's toile and the garment after its fitting.
        sizes: one design in a range of sizes.
    """

    folder: Path
    index: Path
    entries: tuple[Entry, ...]
    fitting: DemoFitting
    sizes: DemoSizes

    @property
    def findings(self) -> tuple[Finding, ...]:
        """All findings of all that was made."""
        garments = tuple(finding for entry in self.entries for finding in entry.findings)
        return (*garments, *self.fitting.findings, *self.sizes.findings)


def make_demo(folder: Path, choice: PaperChoice | None = None, progress: Progress = unheard) -> Demo:
    """Make the troupe's first garments, a fitting and a range of sizes into a folder.

    Args:
        folder: made if it is not there; files of the same names are replaced.
        choice: paper, units and date of the sheets; A4, centimetres and no date by default.
        progress: told what comes next; may raise CancelledError, which leaves the files written so far.

    Raises:
        OutputError: if the folder or a file cannot be written.
    """
    open_folder(folder)
    choice = choice or PaperChoice()
    dancers, cuts = tuple(troupe()), tuple(designs())
    _write_sources(folder, dancers, cuts)
    entries: list[Entry] = []
    blocks: Blocks = {}
    pairs = [(dancer, cut) for dancer in dancers for cut in cuts if dancer.wearer.ref in DANCED[cut.design.ref]]
    garments: dict[tuple[str, str], Garment] = {}
    whole = len(pairs) + len(FURTHER)
    for done, (dancer, cut) in enumerate(pairs):
        what = f"{cut.design.title}, for {dancer.wearer.ref}, {dancer.role}"
        garment, entry = _made(dancer, cut, blocks, folder, choice, _standing(progress, done, whole, what))
        garments[dancer.wearer.ref, cut.design.ref] = garment
        entries.append(entry)
    told = [_standing(progress, len(pairs) + k, whole, what) for k, what in enumerate(FURTHER)]
    fitted = next(dancer for dancer in dancers if dancer.wearer.ref == FITTED[0])
    fitting = make_fitting(fitted, garments[FITTED], folder, choice, told[0])
    sizes = make_sizes(next(cut for cut in cuts if cut.design.ref == GRADED), folder, choice, told[1])
    bought = _bought(garments, folder, choice, told[2])
    index = folder / INDEX
    save(index, index_page(entries, bought, (fitting.section, sizes.section)).encode())
    progress(whole, whole, "done")
    return Demo(folder, index, tuple(entries), fitting, sizes)


def _made(
    dancer: Dancer, cut: DemoDesign, blocks: Blocks, folder: Path, choice: PaperChoice, progress: Progress
) -> tuple[Garment, Entry]:
    """One garment made and written. Designs with the same block options share the dancer's block."""
    key = (dancer.wearer.ref, cut.design.block_options)
    garment = make_garment(dancer.wearer, cut.design, progress, choice.unit, blocks.get(key))
    blocks[key] = garment.block
    own = Path("garments") / f"{cut.design.ref}-{dancer.wearer.ref}"
    files = write_garment(garment, open_folder(folder / own), choice, progress)
    entry = Entry(
        wearer=dancer.wearer.ref,
        role=dancer.role,
        title=cut.design.title,
        findings=garment.findings,
        files=tuple((own / file.name).as_posix() for file in files),
    )
    return garment, entry


def _bought(
    garments: Mapping[tuple[str, str], Garment], folder: Path, choice: PaperChoice, progress: Progress
) -> tuple[str, ...]:
    """The troupe's shopping written from the garments as they were made; its files, as paths from the folder."""
    group = load_group(folder / GROUP)
    made = [garments[own.wearer.ref, own.design.ref] for own in group.garments]
    shopping = shopping_for(group, made, choice.unit, progress=progress)
    files = write_shopping(shopping, open_folder(folder / SHOPPING), choice)
    return (GROUP, *((Path(SHOPPING) / file.name).as_posix() for file in files))


def _write_sources(folder: Path, dancers: tuple[Dancer, ...], cuts: tuple[DemoDesign, ...]) -> None:
    wearers, plans = open_folder(folder / "wearers"), open_folder(folder / "designs")
    for dancer in dancers:
        save(wearers / f"{dancer.wearer.ref}.json", dancer.text.encode())
    save(folder / GROUP, group_text().encode())
    for cut in cuts:
        save(plans / f"{cut.design.ref}.json", cut.text.encode())


def _standing(progress: Progress, done: int, whole: int, what: str) -> Progress:
    """Says which garment it is, whatever part of it comes next."""

    def told(_done: int, _whole: int, _what: str) -> None:
        progress(done, whole, what)

    return told
