"""Times the sheets of a class of twenty-five: `uv run python benchmarks/class_pack.py --runs 3`.

Once from one size for all, once from each learner's own measurements (invented: every learner has another waist), with
two spares, from measurements and a design to the written PDF, as `panelwright hand` does it: in several processes.
"""

from pathlib import Path
from tempfile import TemporaryDirectory

from stopwatch import milliseconds, peak_mb, runs_asked, tell

from panelwright.app.class_pack import SchoolClass, write_class_pack
from panelwright.app.demo.troupe import designs
from panelwright.app.paper import PaperChoice
from panelwright.app.side_by_side import processors
from panelwright.body.measurements import Measurements
from panelwright.body.size_table import size
from panelwright.body.units import Unit

LEARNERS, SPARES, REF = 25, 2, "ribbon-02"
TARGET_MS = 60_000.0


def own_measurements() -> tuple[Measurements, ...]:
    """Twenty-five invented wearers round size 88."""
    usual = {"bust_girth": 880.0, "underbust_girth": 750.0, "hip_girth": 960.0, "back_neck_to_waist": 400.0}
    return tuple(
        Measurements.of(f"w-{k:02}", {**usual, "waist_girth": 690.0 + 3.0 * k}, Unit.CM) for k in range(1, LEARNERS + 1)
    )


def main() -> None:
    """Print the times beside the target."""
    runs = runs_asked(__doc__ or "", 2)
    design = next(cut.design for cut in designs() if cut.design.ref == REF)
    with TemporaryDirectory() as folder:
        path = Path(folder) / "class.pdf"
        for what, wearers in (("one size", (size(88),)), ("own measurements", own_measurements())):
            school = SchoolClass(wearers, LEARNERS, SPARES)
            pages: list[int] = []

            def work(school: SchoolClass = school, pages: list[int] = pages) -> None:
                pages.append(write_class_pack(design, school, path, PaperChoice(), processes=processors()).pages)

            times = milliseconds(work, runs)
            tell(f"{LEARNERS} learners and {SPARES} spares, {what}, {pages[0]} pages", times, TARGET_MS)
            print(f"  {path.stat().st_size / 1e6:.1f} MB of PDF, peak memory {peak_mb() or 0:.0f} MB")


if __name__ == "__main__":
    main()
