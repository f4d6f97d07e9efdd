"""A block on the table: measured by its pattern file alone, before and after fitting notes."""

import numpy as np
from measured_pattern import MeasuredPattern, length, polyline

from panelwright.blocks.block import Block
from panelwright.finish.finishing import finish
from panelwright.finish.options import Finish
from panelwright.output.pattern_document import pattern_to_json
from panelwright.pattern.pattern import Pattern


def on_the_table(pattern: Pattern) -> MeasuredPattern:
    """The pattern as its file holds it, without allowances."""
    return MeasuredPattern(pattern_to_json(finish(pattern, Finish(allowance=0.0)), ()))


def widths(block: Block) -> dict[tuple[str, str], float]:
    """(panel, level) -> width, mm."""
    table = on_the_table(block.pattern)
    return {(id, line["id"]): table.width(id, line["id"]) for id in table.pieces for line in table.pieces[id]["inside"]}


def level_end(table: MeasuredPattern, piece: str, level: str, right: bool) -> np.ndarray:
    """Where a level line ends at the piece's right (front) or left (back) edge; levels run from left to right."""
    (line,) = (line for line in table.pieces[piece]["inside"] if line["id"] == level)
    return polyline(line["bezier"])[-1 if right else 0]


def upright(table: MeasuredPattern, edge: str) -> np.ndarray:
    """An edge up the body as a polyline from the hem upwards."""
    line = table.edge(edge)
    return line if line[-1, 1] > line[0, 1] else line[::-1]


def arc_to(line: np.ndarray, point: np.ndarray) -> float:
    """Arc position of the vertex of a fine polyline that lies nearest to a point."""
    return length(line[: int(np.linalg.norm(line - point, axis=1).argmin()) + 1])


def spans(table: MeasuredPattern, piece: str, line: str, levels: tuple[str, ...]) -> dict[tuple[str, str], float]:
    """(level, next level) -> length of an upright edge between them, mm."""
    edge = upright(table, f"{piece}.{line}")
    bounds = table.pieces[piece]["edges"]
    right = next(k for k, entry in enumerate(bounds) if entry["line"] == line) == 1  # hem, front line, top, back line
    arcs = [arc_to(edge, level_end(table, piece, level, right)) for level in levels]
    return {(a, b): v - u for a, b, u, v in zip(levels, levels[1:], arcs, arcs[1:], strict=False)}
