"""`panelwright hand`: sheets to draw a design by hand at quarter scale, for one learner or a class."""

from argparse import Namespace
from pathlib import Path

from panelwright.app.class_pack import SchoolClass, write_class_pack
from panelwright.app.design_file import load_design
from panelwright.app.fittings import fittings_of
from panelwright.app.garment import STAGES, make_garment
from panelwright.app.garment_design import GarmentDesign
from panelwright.app.hand_pack import write_hand_pack
from panelwright.app.paper import PaperChoice
from panelwright.app.progress import part_of
from panelwright.app.side_by_side import processors
from panelwright.body.measurement_file import load_measurements
from panelwright.body.measurements import Measurements
from panelwright.cli.console import Console
from panelwright.cli.given import given_count, given_files, given_fittings, given_out, given_paper, given_wearer
from panelwright.cli.outcome import tell
from panelwright.fitting.fitting import Fitting


def run(arguments: Namespace, console: Console) -> int:
    """Write the sheets or the class pack; returns the exit status."""
    choice = given_paper(arguments)
    learners, spares = (
        given_count(arguments.learners, "learners", 25),
        given_count(arguments.spares, "spares", 25),
    )
    wearers, design_path = _wearers(arguments)
    design, fittings = load_design(design_path), given_fittings(arguments)
    if learners is None and spares is None and len(wearers) == 1:
        path = given_out(arguments, f"{design.ref}-{wearers[0].ref}-by-hand.pdf")
        fitting = fittings_of(wearers, fittings).get(wearers[0])
        return _one(design, wearers[0], fitting, path, choice, console)
    path = given_out(arguments, f"{design.ref}-class.pdf")
    count = len(wearers) if learners is None else learners
    return _class(design, SchoolClass(wearers, count, spares or 0, fittings), path, choice, console)


def _one(
    design: GarmentDesign,
    wearer: Measurements,
    fitting: Fitting | None,
    path: Path,
    choice: PaperChoice,
    console: Console,
) -> int:
    garment = make_garment(wearer, design, part_of(console.progress, 0, STAGES + 1), choice.unit, fitting=fitting)
    console.progress(STAGES, STAGES + 1, path.name)
    pages = write_hand_pack(garment, path, choice)
    facts: dict[str, object] = {"command": "hand", "wearer": wearer.ref, "design": design.ref, "pages": pages}
    lead = f"{design.title} for {wearer.ref}, to draw by hand, {pages} pages:"
    return tell(console, facts, lead, garment.findings, [path])


def _class(design: GarmentDesign, school: SchoolClass, path: Path, choice: PaperChoice, console: Console) -> int:
    pack = write_class_pack(design, school, path, choice, console.progress, processors())
    facts: dict[str, object] = {
        "command": "hand",
        "design": design.ref,
        "learners": school.learners,
        "spares": school.spares,
        "pages": pack.pages,
    }
    lead = f"{design.title} for a class, {len(pack.entries)} packs, {pack.pages} pages:"
    return tell(console, facts, lead, pack.findings, [path])


def _wearers(arguments: Namespace) -> tuple[tuple[Measurements, ...], Path]:
    """Whose measurements are drawn, and the design file, which comes last.

    Raises:
        InputError: if a file is missing or cannot be used, or there is no such size.
    """
    if arguments.size is not None or len(arguments.files) < 3:
        wearer, (design,) = given_wearer(arguments, "a design file")
        return (wearer,), design
    *measured, design = given_files(arguments, *["a file"] * len(arguments.files))
    return tuple(load_measurements(path) for path in measured), design
