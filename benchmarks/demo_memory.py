"""How much memory the demo needs at its peak, and how long it takes."""

import tempfile
from pathlib import Path

from stopwatch import milliseconds, peak_mb, runs_asked, tell

from panelwright.app.demo.make_demo import make_demo

if __name__ == "__main__":
    runs = runs_asked(__doc__, 1)
    with tempfile.TemporaryDirectory() as place:
        times = milliseconds(lambda: make_demo(Path(place)), runs)
    tell("demo", times, 60_000)
    peak = peak_mb()
    if peak is not None:
        print(f"peak memory {peak:.0f} MB (target 500, {'met' if peak <= 500 else 'MISSED'})")
