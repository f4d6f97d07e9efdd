"""`panelwright order`: what to sew after what, for one design on one wearer."""

from argparse import Namespace

from panelwright.app.design_file import load_design
from panelwright.app.garment import STAGES, make_garment
from panelwright.app.order_pack import OrderPack, tasks_document
from panelwright.app.progress import part_of
from panelwright.cli.console import Console
from panelwright.cli.given import given_fitting, given_out, given_paper, given_wearer
from panelwright.cli.outcome import tell
from panelwright.saved_file import save


def run(arguments: Namespace, console: Console) -> int:
    """Write the pages; returns the exit status."""
    choice = given_paper(arguments)
    wearer, (design_path,) = given_wearer(arguments, "a design file")
    design, fitting = load_design(design_path), given_fitting(arguments)
    path = given_out(arguments, f"{design.ref}-{wearer.ref}-order-of-work.pdf")
    garment = make_garment(wearer, design, part_of(console.progress, 0, STAGES + 1), choice.unit, fitting=fitting)
    console.progress(STAGES, STAGES + 1, path.name)
    pack = OrderPack.of(garment, choice)
    save(path, pack.pdf())
    facts: dict[str, object] = {
        "command": "order",
        "wearer": wearer.ref,
        "design": design.ref,
        "pages": len(pack.sheets),
        "tasks": tasks_document(pack.tasks),
    }
    lead = f"{design.title} for {wearer.ref}, the order of work in {len(pack.tasks)} tasks, {len(pack.sheets)} pages:"
    return tell(console, facts, lead, garment.findings, [path])
