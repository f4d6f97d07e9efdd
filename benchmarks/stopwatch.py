"""Timing for the benchmarks: repeated runs, their median and 95th percentile, and the largest memory."""

import argparse
import os
import sys
import time
from collections.abc import Callable, Iterable

import numpy as np

# One thread, as in the program itself: two would fight over small matrices.
for name in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(name, "1")


def runs_asked(description: str, usual: int) -> int:
    """The number after --runs."""
    parser = argparse.ArgumentParser(description=description)
    parser.add_argument("--runs", type=int, default=usual, help=f"how often to run it; default: {usual}")
    runs = max(1, int(parser.parse_args().runs))
    print(f"this machine: ten million additions in plain Python take {pace():.2f} s")
    return runs


def pace() -> float:
    """Seconds for a fixed piece of work, so that figures of unlike machines, or of a busy one, can be compared."""
    start, total = time.perf_counter(), 0
    for number in range(10_000_000):
        total += number
    return time.perf_counter() - start


def milliseconds(work: Callable[[], object], runs: int) -> list[float]:
    """The wall time of each run."""
    times = []
    for _ in range(runs):
        start = time.perf_counter()
        work()
        times.append((time.perf_counter() - start) * 1000)
    return times


def tell(what: str, times_ms: Iterable[float], median_ms: float | None = None, p95_ms: float | None = None) -> None:
    """Print median and 95th percentile beside their targets."""
    times = np.array(list(times_ms))
    median, p95 = float(np.median(times)), float(np.percentile(times, 95))
    parts = [f"median {median:8.1f} ms{_against(median, median_ms)}", f"p95 {p95:8.1f} ms{_against(p95, p95_ms)}"]
    print(f"{what:<58} {'   '.join(parts)}   n = {len(times)}")


def peak_mb() -> float | None:
    """The largest memory that this process has used, MB; None on Windows, which does not tell it so."""
    if sys.platform == "win32":
        return None
    import resource

    used = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return used / 1e6 if sys.platform == "darwin" else used / 1e3


def _against(value: float, target: float | None) -> str:
    if target is None:
        return ""
    return f" (target {target:g}, {'met' if value <= target else 'MISSED'})"
