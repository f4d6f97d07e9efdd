"""`panelwright order`: what to sew after what, for one design on one wearer."""

from argparse import Namespace
from dataclasses import replace
from pathlib import Path

from panelwright.app.design_file import load_design
from panelwright.app.garment import STAGES, Garment, make_garment
from panelwright.app.garment_cost import bill_of, cost_facts, garment_cost
from panelwright.app.group import Group, load_group
from panelwright.app.lays_as_kept import lays_as_kept
from panelwright.app.order_pack import OrderPack, tasks_document
from panelwright.app.paper import PaperChoice
from panelwright.app.progress import part_of
from panelwright.app.shopping import Shopping
from panelwright.app.shopping_rows import total_words
from panelwright.cli.console import Console
from panelwright.cli.given import given_fitting, given_lays, given_out, given_paper, given_wearer
from panelwright.cli.outcome import tell
from panelwright.lay.piece_to_cut import cloths_of
from panelwright.saved_file import save


def run(arguments: Namespace, console: Console) -> int:
    """Write the pages; returns the exit status."""
    choice = given_paper(arguments)
    wearer, (design_path,) = given_wearer(arguments, "a design file")
    design, fitting, kept = load_design(design_path), given_fitting(arguments), given_lays(arguments)
    prices = None if arguments.prices is None else load_group(Path(arguments.prices))
    path = given_out(arguments, f"{design.ref}-{wearer.ref}-order-of-work.pdf")
    garment = make_garment(wearer, design, part_of(console.progress, 0, STAGES + 1), choice.unit, fitting=fitting)
    if kept is not None:
        garment = replace(garment, kept=lays_as_kept(garment, kept, choice.unit))
    console.progress(STAGES, STAGES + 1, path.name)
    cost = _cost(garment, prices, choice)
    pack = OrderPack.of(garment, choice, None if cost is None else bill_of(cost, choice.unit))
    save(path, pack.pdf())
    facts: dict[str, object] = {
        "command": "order",
        "wearer": wearer.ref,
        "design": design.ref,
        "pages": len(pack.sheets),
        "tasks": tasks_document(pack.tasks),
        "costs": None if cost is None else cost_facts(cost),
    }
    lead = f"{design.title} for {wearer.ref}, the order of work in {len(pack.tasks)} tasks, {len(pack.sheets)} pages"
    lead += ":" if cost is None else f". {total_words(cost)}"
    return tell(console, facts, lead, garment.findings, [path])


def _cost(garment: Garment, prices: Group | None, choice: PaperChoice) -> Shopping | None:
    """What the garment costs; None where nobody said a price, or a piece fits on no cloth, which is a finding."""
    if len(garment.cloths) < len(cloths_of(garment.cutting)) and prices is None:
        return None
    cost = garment_cost(garment, prices, choice.unit)
    return None if prices is None and cost.cost is None else cost
