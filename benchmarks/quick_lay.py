"""Times the quick lay by the clock: `uv run python benchmarks/quick_lay.py --runs 20 [--long 60] [INSTANCE ...]`.

Of every instance of the folder `shared` beside the repository: median and 95th percentile by the clock, each run with
another seed, once the machine code is loaded; computing time; and, with `--long`, how much longer the lays are than
what one search of so many seconds of computing time finds (seed 1, one core).

`share of a core` is how much of one core a single thread gets while nothing else of this program runs: below 1 the
machine has other work, and the quick lay is worse for it, since it ends by the clock.
"""

import argparse
import sys
import time

import numpy as np
from lay_instances import LAYS, paths
from stopwatch import pace, tell

from panelwright.app.lay_instance import load_lay_instance
from panelwright.lay.search.budget import QUICK_CLOCK, QUICK_SECONDS, USUAL_CORES, Budget, usable_cores
from panelwright.lay.search.search import shortest_lay
from panelwright.lay.search.task import LayTask

CLOCK_MS = 500.0
FARTHER = 0.05  # that the quick lay may be longer in the mean


def asked() -> argparse.Namespace:
    """What the command line says."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("instances", nargs="*", help="names like shirts, or paths; default: all in the folder")
    parser.add_argument("--runs", type=int, default=20, help="quick lays of each instance; default: 20")
    parser.add_argument("--long", type=float, default=0.0, help="seconds of the search to compare with; default: none")
    parser.add_argument("--cores", type=int, default=min(usable_cores(), USUAL_CORES), help="default: as the program")
    return parser.parse_args()


def share_of_a_core(seconds: float = 0.5) -> float:
    """Computing time that this thread gets in a second by the clock."""
    clock, start = time.perf_counter(), time.thread_time()
    while time.perf_counter() - clock < seconds:
        pass
    return (time.thread_time() - start) / (time.perf_counter() - clock)


def quick(task: LayTask, seed: int, cores: int) -> tuple[float, float, float]:
    """(ms by the clock, computing time in s, length in mm)."""
    clock, start = time.perf_counter(), time.process_time()
    found = shortest_lay(task, Budget(QUICK_SECONDS * cores, clock=QUICK_CLOCK), seed, cores=cores)
    return 1000 * (time.perf_counter() - clock), time.process_time() - start, found.length


def main() -> None:
    """Print every instance, and all together."""
    given = asked()
    if not LAYS.is_dir() and not given.instances:
        sys.exit("needs the folder `shared` beside the repository, which is not part of it; or give instance files")
    print(f"this machine: ten million additions in plain Python take {pace():.2f} s; {given.cores} cores at once")
    clocks, longer = list[float](), list[float]()
    for path in paths(given.instances):
        task = load_lay_instance(path).task
        shortest_lay(task, Budget(moves=20))  # compiles, or reads what was compiled
        share = share_of_a_core()
        runs = np.array([quick(task, seed, given.cores) for seed in range(1, given.runs + 1)])
        tell(f"{path.stem}, {len(task.pieces)} pieces", runs[:, 0], CLOCK_MS, CLOCK_MS)
        words = [f"computed {runs[:, 1].mean():.2f} s", f"share of a core {share:.2f}", f"{runs[:, 2].mean():.1f} mm"]
        clocks += runs[:, 0].tolist()
        if given.long:
            long = shortest_lay(task, Budget(given.long)).length
            longer.append(float(runs[:, 2].mean() / long - 1.0))
            words += [f"{given.long:g} s of search: {long:.1f} mm", f"{100 * longer[-1]:+.2f} %"]
        print(f"    {'; '.join(words)}", flush=True)
    tell("all", clocks, CLOCK_MS, CLOCK_MS)
    if longer:
        mean = float(np.mean(longer))
        met = "met" if mean <= FARTHER else "MISSED"
        print(f"longer than the long lays in the mean: {100 * mean:+.2f} % (target {100 * FARTHER:g} %, {met})")


if __name__ == "__main__":
    main()
