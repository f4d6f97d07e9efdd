"""`panelwright lay`: a short lay for pieces given as outlines."""

import time
from argparse import Namespace

from panelwright.app.lay_instance import load_lay_instance, save_lay_result
from panelwright.cli.console import Console
from panelwright.cli.given import given_count, given_files, given_out, given_seconds
from panelwright.lay.search.budget import Budget
from panelwright.lay.search.search import shortest_lay
from panelwright.lay.search.task import Found

USUAL_SECONDS = 10.0


def run(arguments: Namespace, console: Console) -> int:
    """Plan the lay and write it; returns the exit status."""
    (path,) = given_files(arguments, "a lay to plan")
    budget, seed = _budget(arguments), given_count(arguments.seed, "seed", 1) or 0
    out = given_out(arguments, f"{path.stem}-lay.json")
    instance = load_lay_instance(path)
    start = time.process_time()

    found: Found | None = None

    def told(share: float, best: Found) -> None:
        nonlocal found
        found = best
        console.progress(min(int(100 * share), 100), 100, f"{best.length:.1f} mm")

    try:
        found = shortest_lay(instance.task, budget, seed, told)
    finally:  # what was found before somebody stopped the search is kept
        if found is not None:
            save_lay_result(instance, found, out)
    use = instance.task.area / (instance.task.width * found.length)
    facts: dict[str, object] = {
        "status": 0,
        "command": "lay",
        "name": instance.name,
        "length_mm": found.length,
        "use": use,
        "bound_mm": instance.task.bound,
        "seconds": time.process_time() - start,
        "seed": seed,
        "files": [str(out)],
    }
    console.answer(
        facts,
        f"The {len(found.places)} pieces lie on {found.length:.1f} mm of cloth, of which they take {100 * use:.1f} "
        f"percent; no lay can be shorter than {instance.task.bound:.1f} mm. Where each lies is in {out}.",
    )
    return 0


def _budget(arguments: Namespace) -> Budget:
    moves = given_count(arguments.moves, "moves", 100_000)
    if arguments.seconds is None:
        return Budget(USUAL_SECONDS if moves is None else None, moves)
    return Budget(given_seconds(arguments.seconds, "seconds"), moves)
