"""`panelwright lay`: a short lay for pieces given as outlines."""

import time
from argparse import Namespace
from pathlib import Path

from panelwright.app.lay_instance import load_lay_instance, save_lay_result
from panelwright.cli.console import Console
from panelwright.cli.given import given_files, given_seconds
from panelwright.errors import InputError
from panelwright.lay.search.budget import Budget
from panelwright.lay.search.search import shortest_lay
from panelwright.lay.search.task import Found
from panelwright.quotation import quoted

USUAL_SECONDS = 10.0


def run(arguments: Namespace, console: Console) -> int:
    """Plan the lay and write it; returns the exit status."""
    (path,) = given_files(arguments, "a lay to plan")
    budget, seed = _budget(arguments), _whole(arguments.seed, "seed")
    out = Path(arguments.out) if arguments.out is not None else Path(f"{path.stem}-lay.json")
    if out.is_dir():
        raise InputError(f"{quoted(str(out))} is a folder: give a file like {path.stem}-lay.json", "out")
    instance = load_lay_instance(path)
    start = time.process_time()

    def told(share: float, best: Found) -> None:
        console.progress(min(int(100 * share), 100), 100, f"{best.length:.1f} mm")

    found = shortest_lay(instance.task, budget, seed, told)
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
    moves = _whole(arguments.moves, "moves") if arguments.moves is not None else None
    if arguments.seconds is None:
        return Budget(None if moves else USUAL_SECONDS, moves)
    return Budget(given_seconds(arguments.seconds, "seconds"), moves)


def _whole(text: str, what: str) -> int:
    if text.isascii() and text.isdigit() and len(text) < 16:
        return int(text)
    raise InputError(f"--{what} takes a whole number like 1, not {quoted(text)}", what)
