"""The order of work of a garment: every seam once, in the order in which it can be sewn."""

from collections.abc import Callable, Iterator
from typing import Final

from panelwright.checks.turning_through import check_turning_through
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.finish.cutting_list import cutting_lists
from panelwright.finish.options import Finish
from panelwright.sewing import added_tasks, closing_tasks, edge_tasks, shell_tasks
from panelwright.sewing.seams import GarmentSeams
from panelwright.sewing.task import Task

_STAGES: Final[tuple[Callable[[GarmentSeams], Iterator[Task]], ...]] = (
    shell_tasks.interfacing,
    shell_tasks.darts,
    shell_tasks.strips,
    added_tasks.flounces,
    shell_tasks.caught,
    shell_tasks.panels,
    shell_tasks.shoulders,
    shell_tasks.sides,
    added_tasks.waist,
    added_tasks.sleeves,
    added_tasks.flounces_on,
    closing_tasks.channels,
    closing_tasks.zips,
    edge_tasks.set_on,
    edge_tasks.layers,
    added_tasks.waistband,
    edge_tasks.edges,
)
_LAST: Final[tuple[Callable[[GarmentSeams], Iterator[Task]], ...]] = (
    closing_tasks.bones_in,
    closing_tasks.modesty,
    closing_tasks.after_edges,
)
CHECKED: Final = "Count the pins: all that went in have come out. Try it on, and let the fitter look at it in movement."


def order_of_work(cutting: CuttingPattern, options: Finish) -> tuple[Task, ...]:
    """The tasks in order.

    Every seam of the outer cloth, of facing and lining is sewn in one of them; interfacing goes with its piece.

    Args:
        cutting: the garment ready to cut.
        options: how it was finished.
    """
    garment = GarmentSeams(cutting, options)
    tasks = [_before(garment), *(task for stage in _STAGES for task in stage(garment))]
    if check_turning_through(cutting):
        tasks += shell_tasks.shoulder_task(garment, last=True)
    tasks += [task for stage in _LAST for task in stage(garment)]
    return (*tasks, Task("Press and look it over", (CHECKED,), caution=shell_tasks.IRON))


def _before(garment: GarmentSeams) -> Task:
    counts = [f"{listed.total} of {listed.cloth}" for listed in cutting_lists(garment.cutting)]
    words = (
        f"Count the pieces against the cutting list: {', '.join(counts)}.",
        "Carry notches, bust points and other marks over to the wrong side of every layer, and mark right and left.",
        "Run a line of stitches just inside the stitch line of hollow and slanting edges, so that they do not stretch.",
    )
    return Task(
        "Before you sew", words, caution="Needles, pins and blades hurt: put each away before the next is taken."
    )
