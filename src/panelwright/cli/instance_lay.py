"""`panelwright lay INSTANCE.json`: outlines laid, or a lay of them that was made before, drawn."""

import time
from argparse import Namespace
from pathlib import Path

from panelwright.app.instance_lay import instance_cloth, instance_lay
from panelwright.app.lay_file import lay_reduction, write_lay_file
from panelwright.app.lay_instance import LayInstance, load_lay_instance, save_lay_result
from panelwright.app.lay_result import load_lay_result
from panelwright.cli.console import Console
from panelwright.cli.given import (
    given_budget,
    given_cores,
    given_count,
    given_files,
    given_length,
    given_out,
    given_paper,
)
from panelwright.drawing.heading import Heading
from panelwright.errors import InputError
from panelwright.lay.cloth import USUAL_SALE
from panelwright.lay.lay import Lay
from panelwright.lay.search.search import shortest_lay
from panelwright.lay.search.task import Found


def lay_instance_given(arguments: Namespace, console: Console) -> int:
    """Plan the lay and write it, or take one from a file; draw it if that is asked for; returns the exit status."""
    (path,) = given_files(arguments, "a lay to plan")
    choice = given_paper(arguments, with_scale=False)
    given = given_length(arguments.sold_by, "sold-by", choice.unit)
    sold_by = USUAL_SALE if given is None else given
    instance = load_lay_instance(path)
    if arguments.draw is not None:
        instance_cloth(instance, sold_by)  # what cannot be drawn is told before any search
    start = time.process_time()
    if arguments.result is not None:
        if arguments.draw is None:
            raise InputError("--result gives a lay to draw: give --draw FILE too", "result")
        found, written = load_lay_result(Path(arguments.result), instance), []
    else:
        out = given_out(arguments, f"{path.stem}-lay.json")
        found, written = _planned(arguments, console, instance, out), [out]
    lay = None
    if arguments.draw is not None:
        drawing, heading = Path(arguments.draw), Heading(instance.name or path.stem, "", choice.made_on, choice.unit)
        lay = instance_lay(instance, found, sold_by)
        write_lay_file([lay], heading, drawing, choice, lay_reduction(arguments.scale))
        written.append(drawing)
    _tell(console, instance, found, lay, written, time.process_time() - start, arguments)
    return 0


def _planned(arguments: Namespace, console: Console, instance: LayInstance, out: Path) -> Found:
    """The lay that is found; the best one is kept in `out` whatever ends the search."""
    budget, seed = given_budget(arguments), given_count(arguments.seed, "seed", 1) or 0
    found: Found | None = None

    def told(share: float, best: Found) -> None:
        nonlocal found
        found = best
        console.progress(min(int(100 * share), 100), 100, f"{best.length:.1f} mm")

    try:
        found = shortest_lay(instance.task, budget, seed, told, given_cores(arguments))
    finally:  # what was found before somebody stopped the search is kept
        if found is not None:
            save_lay_result(instance, found, out)
    return found


def _tell(
    console: Console,
    instance: LayInstance,
    found: Found,
    lay: Lay | None,
    written: list[Path],
    seconds: float,
    arguments: Namespace,
) -> None:
    use = instance.task.area / (instance.task.width * found.length)
    facts: dict[str, object] = {
        "status": 0,
        "command": "lay",
        "name": instance.name,
        "length_mm": found.length,
        "to_buy_mm": None if lay is None else lay.to_buy,
        "use": use,
        "bound_mm": instance.task.bound,
        "seconds": seconds,
        "seed": given_count(arguments.seed, "seed", 1) or 0,
        "files": [str(path) for path in written],
    }
    console.answer(
        facts,
        f"The {len(found.places)} pieces lie on {found.length:.1f} mm of cloth, of which they take {100 * use:.1f} "
        f"percent; no lay can be shorter than {instance.task.bound:.1f} mm. "
        + (f"Buy {lay.to_buy / 10:.1f} cm. " if lay else "")
        + f"{'It is' if len(written) == 1 else 'They are'} in {' and '.join(map(str, written))}.",
    )
