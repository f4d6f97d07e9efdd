"""Times a whole garment's way onto paper: `uv run python benchmarks/paper.py`.

Four outer and four facing pieces, as quarter-scale sheets, A4 tiles and one large sheet, drawn and made into PDFs.
"""

import statistics
import time
from dataclasses import replace

from panelwright.app.demo.troupe import designs, troupe
from panelwright.app.garment import make_garment
from panelwright.drawing.heading import Heading
from panelwright.drawing.large_sheets import large_sheets
from panelwright.drawing.paper import PAPERS
from panelwright.drawing.piece_drawing import draw_pieces
from panelwright.drawing.quarter_sheets import quarter_sheets
from panelwright.drawing.scale import FULL, QUARTER
from panelwright.drawing.tiled_sheets import tiled_sheets
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.output.pdf import pdf_bytes
from panelwright.pattern.pattern import Pattern

RUNS = 20


def garment() -> tuple[CuttingPattern, Pattern]:
    """The first demo garment with a facing and no interfacing: eight pieces."""
    design = next(iter(designs())).design
    faced = replace(design, finish=replace(design.finish, facing="full", interfacing=False))
    made = make_garment(next(iter(troupe())).wearer, faced)
    return made.cutting, made.block.pattern


def on_paper(cutting: CuttingPattern, block: Pattern) -> int:
    """Bytes of the three documents."""
    heading = Heading.of(cutting.pattern, "Lantern bodice")
    quarter, full = draw_pieces(cutting, QUARTER, block), draw_pieces(cutting, FULL, block)
    documents = (
        quarter_sheets(quarter, heading, PAPERS["A4"]),
        tiled_sheets(full, heading, PAPERS["A4"]),
        large_sheets(full, heading),
    )
    return sum(len(pdf_bytes(sheets, heading.title)) for sheets in documents)


def main() -> None:
    """Print median and 95th percentile."""
    cutting, block = garment()
    times = []
    for _ in range(RUNS):
        start = time.perf_counter()
        size = on_paper(cutting, block)
        times.append(time.perf_counter() - start)
    p95 = statistics.quantiles(times, n=20)[-1]
    print(f"{len(cutting.pieces)} pieces, {size // 1024} kB of PDF")
    print(f"first {times[0]:.2f} s, median {statistics.median(times):.2f} s, p95 {p95:.2f} s (aim 1.0 s)")


if __name__ == "__main__":
    main()
