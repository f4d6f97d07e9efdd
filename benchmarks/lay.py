"""Holds our lays against others': `uv run python benchmarks/lay.py --seconds 60 --seeds 3 [INSTANCE ...]`.

For every instance: a lower bound, then the length and density that each seed reaches in the same computing time. Open
instances are also given to spyrrow, a general packer, in the same run; it lays nothing on a fold, so folded ones stand
beside the baselines of their folder. The instances lie in the folder `shared` beside the repository.

The packer ends by the clock. On a machine that has other work it is given so much longer as computing takes longer, and
ours then gets exactly the computing time that the packer took.
"""

import argparse
import json
import sys
import time
from pathlib import Path

import numpy as np
from lay_instances import LAYS, paths
from stopwatch import pace

from panelwright.app.lay_instance import LayInstance, load_lay_instance
from panelwright.lay.search.budget import QUICK_CLOCK, QUICK_SECONDS, Budget
from panelwright.lay.search.search import shortest_lay
from panelwright.lay.search.task import LayTask


def asked() -> argparse.Namespace:
    """What the command line says."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("instances", nargs="*", help="names like shirts, or paths; default: all in the folder")
    parser.add_argument("--seconds", type=float, default=60.0, help="computing time of each search; default: 60")
    parser.add_argument("--seeds", type=int, default=3, help="searches of each instance; default: 3")
    parser.add_argument("--alone", action="store_true", help="ours alone")
    return parser.parse_args()


def ours(task: LayTask, budget: Budget, seed: int, cores: int = 1) -> tuple[float, float]:
    """(length, computing time)."""
    start = time.process_time()
    found = shortest_lay(task, budget, seed, cores=cores)
    return found.length, time.process_time() - start


def slowness() -> float:
    """How much longer than it computes this process takes just now."""
    clock, start = time.perf_counter(), time.process_time()
    while time.process_time() - start < 2.0:
        pass
    return max(1.0, (time.perf_counter() - clock) / (time.process_time() - start))


def packers(task: LayTask, seconds: float, seed: int) -> tuple[float, float]:
    """The same by spyrrow."""
    import spyrrow

    items = []
    kinds = dict.fromkeys((piece.shape, piece.turns) for piece in task.pieces)
    for number, (shape, turns) in enumerate(kinds):
        points = turns[0].points(task.outlines[shape]) if turns[0].mirrored else task.outlines[shape]
        count = sum((piece.shape, piece.turns) == (shape, turns) for piece in task.pieces)
        degrees = [turn.degrees for turn in turns]
        items.append(spyrrow.Item(str(number), [tuple(p) for p in points.tolist()], count, degrees))
    config = spyrrow.StripPackingConfig(
        early_termination=False, total_computation_time=round(seconds * slowness()), num_workers=1, seed=seed
    )
    start = time.process_time()
    solution = spyrrow.StripPackingInstance("lay", task.width, items).solve(config)
    return float(solution.width), time.process_time() - start


def baseline(path: Path, method: str) -> float | None:
    """The mean length in the folder's list."""
    runs = json.loads((path.parent / "baselines.json").read_text(encoding="utf-8"))["instances"]
    lengths = [run["length_mm"] for run in runs.get(path.stem, {}).get("runs", []) if run["method"] == method]
    return float(np.mean(lengths)) if lengths else None


def tell(name: str, task: LayTask, found: list[tuple[float, float]]) -> None:
    """One line."""
    lengths = [length for length, _ in found]
    density = np.mean([task.area / task.width / length for length in lengths])
    each = ", ".join(f"{length:.2f}" for length in lengths)
    cpu = ", ".join(f"{seconds:.1f}" for _, seconds in found)
    print(
        f"  {name:10} mean {np.mean(lengths):10.2f} mm  density {100 * density:.2f} %  ({each}; {cpu} CPU-s)",
        flush=True,
    )


def main() -> None:
    """Print every instance."""
    given = asked()
    if not LAYS.is_dir() and not given.instances:
        sys.exit("needs the folder `shared` beside the repository, which is not part of it; or give instance files")
    print(f"this machine: ten million additions in plain Python take {pace():.2f} s")
    for path in paths(given.instances):
        instance: LayInstance = load_lay_instance(path)
        task = instance.task
        shortest_lay(task, Budget(moves=20))  # compiles, or reads what was compiled
        print(f"{path.parent.name}/{path.stem}: {len(task.pieces)} pieces, bound {task.bound:.2f} mm", flush=True)
        seeds = range(1, given.seeds + 1)
        times = [given.seconds for _ in seeds]
        if path.parent.name == "open" and not given.alone:
            packed = [packers(task, given.seconds, seed) for seed in seeds]
            tell("spyrrow", task, packed)
            times = [cpu for _, cpu in packed]
        for method in ("composite", "gls") if path.parent.name == "folded" else ():
            known = baseline(path, method)
            print(f"  {method:10} {known:15.2f} mm (listed)" if known else f"  {method:10} not listed")
        tell("ours", task, [ours(task, Budget(seconds), seed) for seconds, seed in zip(times, seeds, strict=True)])
        quick = Budget(2 * QUICK_SECONDS, clock=QUICK_CLOCK)
        tell("quick", task, [ours(task, quick, seed, cores=2) for seed in seeds])


if __name__ == "__main__":
    main()
