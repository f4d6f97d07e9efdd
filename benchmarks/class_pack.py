"""Times the sheets of a class of twenty-five: `uv run python benchmarks/class_pack.py --runs 3`.

Once from one size for all, once from each learner's own measurements (invented: every learner has another waist), with
two spares, from measurements and a design to the written PDF, as `panelwright hand` and the board do it: in several
processes.
"""

import json
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory

from stopwatch import milliseconds, peak_mb, runs_asked, tell

from panelwright.app.block_shelf import BlockShelf
from panelwright.app.class_pack import SchoolClass, write_class_pack
from panelwright.app.demo.troupe import designs
from panelwright.app.paper import PaperChoice
from panelwright.app.progress import unheard
from panelwright.app.side_by_side import processors
from panelwright.app.workroom_garments import WorkroomGarments
from panelwright.app.workroom_hand import HandAsked, workroom_hand
from panelwright.app.workroom_start import STAND, open_workroom
from panelwright.body.measurement_file import measurement_document
from panelwright.body.measurements import Measurements
from panelwright.body.size_table import size
from panelwright.body.units import Unit
from panelwright.store.change import Change

LEARNERS, SPARES, REF = 25, 2, "ribbon-02"
TARGET_MS = 60_000.0


def own_measurements(letter: str = "w") -> tuple[Measurements, ...]:
    """Twenty-five invented wearers round size 88."""
    usual = {"bust_girth": 880.0, "underbust_girth": 750.0, "hip_girth": 960.0, "back_neck_to_waist": 400.0}
    return tuple(
        Measurements.of(f"{letter}-{k:02}", {**usual, "waist_girth": 690.0 + 3.0 * k}, Unit.CM)
        for k in range(1, LEARNERS + 1)
    )


def main() -> None:
    """Print the times beside the target."""
    runs = runs_asked(__doc__ or "", 2)
    design = next(cut.design for cut in designs() if cut.design.ref == REF)
    with TemporaryDirectory() as folder:
        path = Path(folder) / "class.pdf"

        def written(wearers: tuple[Measurements, ...]) -> int:
            school = SchoolClass(wearers, LEARNERS, SPARES)
            return write_class_pack(design, school, path, PaperChoice(), processes=processors()).pages

        timed("one size", lambda: written((size(88),)), runs)
        timed("own measurements", lambda: written(own_measurements()), runs)
        timed("own measurements, on the board", lambda: of_the_board(Path(folder)), runs)


def of_the_board(folder: Path) -> int:
    """The pages of a pack from a workroom that was just opened, so that nothing is kept yet."""
    name = f"{len(list(folder.iterdir()))}.sqlite"
    with open_workroom(folder / name) as room:
        learners = own_measurements("n")
        texts = {learner.ref: json.dumps(measurement_document(learner)) for learner in learners}
        room.save_all([Change("wearer", ref, text, "put in to be timed") for ref, text in texts.items()])
        asked = HandAsked(REF, STAND, PaperChoice(), spares=SPARES, wearers=tuple(texts))
        return workroom_hand(room, WorkroomGarments(room, BlockShelf()), asked, unheard)[1]


def timed(what: str, work: Callable[[], int], runs: int) -> None:
    """Time work that tells how many pages it made."""
    pages: list[int] = []
    times = milliseconds(lambda: pages.append(work()), runs)
    tell(f"{LEARNERS} learners and {SPARES} spares, {what}, {pages[0]} pages", times, TARGET_MS)
    print(f"  peak memory {peak_mb() or 0:.0f} MB")


if __name__ == "__main__":
    main()
