"""How long an edit takes: a top edge is moved, and the pieces are cut again with allowances, and checked.

Every run moves the line to a new height, so that no step, offset or check is remembered from an earlier run. What is
remembered is the block and the steps before the edit, as when a maker drags a line. While it is dragged the outer
pieces follow; facing, lining and interfacing follow when it is let go, which is told beside that and has no target.
"""

from collections.abc import Callable
from dataclasses import replace
from itertools import count

from stopwatch import milliseconds, runs_asked, tell

from panelwright.app.demo.troupe import designs, troupe
from panelwright.app.garment_design import GarmentDesign
from panelwright.blocks.block import Block
from panelwright.blocks.make_block import make_block
from panelwright.checks import check
from panelwright.design.position import Height
from panelwright.design.replay import Design, replay
from panelwright.design.top_edge import TopEdge
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.finish.finishing import finish

_moves = count()
# What is timed -> (median, 95th percentile) that it should keep to, ms.
TARGETS: dict[str, tuple[float | None, float | None]] = {
    "replay": (None, None),
    "outer pieces": (12, 18),
    "outer pieces, checked": (None, 33),
    "all layers": (None, None),
    "all layers, checked": (None, None),
}


def moved(cut: GarmentDesign) -> Design:
    """Hem and top edge of the design alone, the top edge last, at a height that was never used before."""
    top, hem = cut.steps[:2]
    assert isinstance(top, TopEdge)
    offset = top.centre.offset - 2.0 + (next(_moves) % 4000) * 1e-3
    return Design(cut.ref, cut.title, (hem, replace(top, centre=Height(top.centre.level, offset))))


def recut(cut: GarmentDesign, block: Block, layers: bool) -> CuttingPattern:
    """Edit, replay, finish."""
    return finish(replay(moved(cut), block.pattern).pattern, cut.finish, layers)


def checked(cut: GarmentDesign, block: Block, layers: bool) -> tuple[Finding, ...]:
    """Edit, replay, finish, check."""
    cutting = recut(cut, block, layers)
    return check(cutting, block.wearer, cut.wearing, block.strain_p95, block.findings, block.pattern)


def stages(cut: GarmentDesign, block: Block) -> dict[str, Callable[[], object]]:
    """What is timed."""
    return {
        "replay": lambda: replay(moved(cut), block.pattern),
        "outer pieces": lambda: recut(cut, block, False),
        "outer pieces, checked": lambda: checked(cut, block, False),
        "all layers": lambda: recut(cut, block, True),
        "all layers, checked": lambda: checked(cut, block, True),
    }


if __name__ == "__main__":
    runs = runs_asked(__doc__, 60)
    every: dict[str, list[float]] = {name: [] for name in TARGETS}
    wearer = next(troupe()).wearer
    for demo in (demo for demo in designs() if isinstance(demo.design.steps[0], TopEdge)):
        block = make_block(wearer, demo.design.block)
        pieces = len(recut(demo.design, block, True).pattern.pieces)
        for name, work in stages(demo.design, block).items():
            milliseconds(work, 5)
            times = milliseconds(work, runs)
            tell(f"{demo.design.ref} ({pieces} pieces), {name}", times)
            every[name] += times
    for name, times in every.items():
        tell(f"all designs, {name}", times, *TARGETS[name])
