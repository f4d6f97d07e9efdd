"""Times the lays of 25 bodices bought together: `uv run python benchmarks/group.py [--seconds 20]`.

Every learner has another waist (invented). Outer cloth, facing and interfacing are laid, several bodices to a lay; with
--seconds every lay is searched for so long on one core, as `panelwright buy --lay-seconds` does. Prints the time from
measurements to the written list, and the metres.
"""

import argparse
import time
from pathlib import Path
from tempfile import TemporaryDirectory

from class_pack import own_measurements
from stopwatch import pace, peak_mb

from panelwright.app.demo.troupe import designs
from panelwright.app.group import Group, GroupGarment
from panelwright.app.shopping import make_group, shopping_for
from panelwright.app.shopping_folder import write_shopping
from panelwright.lay.cloth import Cloth
from panelwright.lay.planned_lay import Planning
from panelwright.lay.search.budget import Budget

REF = "lantern-01"
TARGET = 300.0  # s


def group() -> Group:
    """The bodices and their cloths."""
    design = next(cut.design for cut in designs() if cut.design.ref == REF)
    garments = tuple(GroupGarment(wearer, design) for wearer in own_measurements())
    widths = {"outer": 1400.0, "facing": 1400.0, "interfacing": 900.0}
    return Group("class", "A class of 25", garments, tuple(Cloth(name, width) for name, width in widths.items()))


def main() -> None:
    """Print times and metres beside the target."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seconds", type=float, help="of search for each lay; default: none")
    seconds = parser.parse_args().seconds
    planning = None if seconds is None else Planning(Budget(seconds=seconds))
    print(f"this machine: ten million additions in plain Python take {pace():.2f} s")
    start, own = time.perf_counter(), group()
    garments = make_group(own)
    made = time.perf_counter()
    shopping = shopping_for(own, garments, planning=planning)
    laid = time.perf_counter()
    with TemporaryDirectory() as folder:
        write_shopping(shopping, Path(folder))
    end = time.perf_counter()
    for bought in shopping.cloths:
        ways = ", ".join(f"{lay.length / 1000:.2f} m {'folded' if lay.folded else 'spread out'}" for lay in bought.lays)
        print(f"  {bought.cloth.name:12} {bought.length / 1000:6.2f} m, {100 * bought.use:.0f} % used: {ways}")
    print(f"  25 garments {made - start:.0f} s, lays {laid - made:.0f} s, files {end - laid:.0f} s")
    met = "met" if end - start <= TARGET else "MISSED"
    print(f"  in all {end - start:.0f} s (target {TARGET:.0f}, {met}), peak memory {peak_mb() or 0:.0f} MB")


if __name__ == "__main__":
    main()
