"""`panelwright lay MEASUREMENTS.json DESIGN.json`: a short lay on every cloth of a garment, drawn."""

from argparse import Namespace
from dataclasses import replace

from panelwright.app.design_file import load_design
from panelwright.app.findings_text import finding_facts
from panelwright.app.garment import STAGES, Garment, make_garment
from panelwright.app.lay_file import lay_reduction, write_lay_file
from panelwright.app.picture_file import picture_form
from panelwright.app.progress import part_of
from panelwright.cli.console import Console
from panelwright.cli.given import (
    given_budget,
    given_cores,
    given_count,
    given_fitting,
    given_length,
    given_out,
    given_paper,
    given_wearer,
)
from panelwright.cli.interrupt import Interrupt, first_interrupt
from panelwright.cli.outcome import status_of
from panelwright.drawing.heading import Heading
from panelwright.drawing.lay_words import buying_words
from panelwright.errors import InputError, LayError
from panelwright.lay.lay import Lay
from panelwright.lay.planned_lay import Planning
from panelwright.lay.search.search import EndSearch
from panelwright.lay.search.task import Found


def lay_garment_given(arguments: Namespace, console: Console) -> int:
    """Make the garment, plan its lays and draw them; returns the exit status."""
    if arguments.result is not None:
        raise InputError("--result draws a lay of outlines: give one lay to plan with it, and no design", "result")
    if arguments.draw is not None and arguments.out is not None:
        raise InputError("--draw and --out both name the drawing of a garment's lays: give one of them", "out")
    choice = given_paper(arguments, with_scale=False)
    sold_by = given_length(arguments.sold_by, "sold-by", choice.unit)
    wearer, (design_path,) = given_wearer(arguments, "a design file")
    design, fitting = load_design(design_path), given_fitting(arguments)
    arguments.out = arguments.draw if arguments.draw is not None else arguments.out
    path = given_out(arguments, f"{design.ref}-{wearer.ref}-lay.pdf")
    picture_form(path)
    garment = make_garment(wearer, design, part_of(console.progress, 0, STAGES + 1), choice.unit, fitting=fitting)
    with first_interrupt() as interrupt:
        garment = _with_planning(garment, arguments, console, sold_by, interrupt)
        refused = tuple(finding for finding in garment.findings if finding.code == "cannot-be-laid")
        lays = garment.lays
    if not lays:
        raise LayError(" ".join(f"{finding.message} {finding.remedy}" for finding in refused) or "no piece is cut")
    heading = Heading.of(garment.cutting.pattern, design.title, choice.made_on, choice.unit)
    write_lay_file(lays, heading, path, choice, lay_reduction(arguments.scale))
    facts: dict[str, object] = {
        "status": status_of(refused),
        "command": "lay",
        "wearer": wearer.ref,
        "design": design.ref,
        "lays": [_facts(lay) for lay in lays],
        "refused": [finding_facts(finding) for finding in refused],
        "files": [str(path)],
    }
    lines = [f"{design.title} for {wearer.ref}:", *(f"  {buying_words(lay, choice.unit)}" for lay in lays)]
    lines += [f"  no lay: {finding.message} {finding.remedy}" for finding in refused]
    console.answer(facts, "\n".join([*lines, f"  {path}"]))
    return status_of(refused)


def _with_planning(
    garment: Garment, arguments: Namespace, console: Console, sold_by: float | None, interrupt: Interrupt
) -> Garment:
    cloths = garment.cloths
    if sold_by is not None:
        cloths = tuple(replace(cloth, sold_by=sold_by) for cloth in cloths)

    def told(share: float, best: Found) -> None:
        if interrupt.asked:
            raise EndSearch
        console.progress(min(int(100 * share), 100), 100, f"{best.length / 10:.1f} cm")

    seed = given_count(arguments.seed, "seed", 1) or 0
    planning = Planning(given_budget(arguments), seed, told, given_cores(arguments))
    return replace(garment, cloths=cloths, planning=planning)


def _facts(lay: Lay) -> dict[str, object]:
    return {
        "cloth": lay.cloth.name,
        "width_mm": lay.cloth.width,
        "folded": lay.folded,
        "length_mm": lay.length,
        "to_buy_mm": lay.to_buy,
        "use": lay.use,
        "cost": lay.cost,
    }
