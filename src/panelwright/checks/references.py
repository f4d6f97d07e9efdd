"""Rule 1: ids are unique within their kind, every reference resolves, every number is finite.

The types refuse most of this; here is what is left to get wrong.
"""

from collections import Counter
from collections.abc import Iterable, Iterator

import numpy as np
from numpy.typing import ArrayLike

from panelwright.finding import Finding
from panelwright.finish.cut_piece import CutPiece, CuttingPattern
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.line import BLOCK
from panelwright.pattern.piece import Piece

MAKE_AGAIN = "Make the cutting pattern again from its block and design; if it stays, the program is at fault."


def check_references(cutting: CuttingPattern) -> tuple[Finding, ...]:
    """`id-twice`, `unknown-reference`, `text-missing` and `bad-number` findings, all of them errors.

    A pattern with any of them cannot be judged by the other rules.
    """
    return (*_twice(cutting), *_unknown(cutting), *_unnamed(cutting), *_numbers(cutting))


def _twice(cutting: CuttingPattern) -> Iterator[Finding]:
    pattern = cutting.pattern
    kinds: list[tuple[str, Iterable[str]]] = [
        ("notches", (notch.id for notch in cutting.notches)),
        ("steps", (step.uid for step in pattern.steps)),
        ("closures", (closure.id for closure in pattern.closures)),
        *((f"marks of piece {piece.id}", (mark.id for mark in piece.marks)) for piece in pattern.pieces),
    ]
    for kind, ids in kinds:
        for id, times in Counter(ids).items():
            if times > 1:
                yield Finding(
                    "id-twice", "error", id, times, 1, f"{times} {kind} are called {id}.", MAKE_AGAIN, unit="times"
                )


def _unknown(cutting: CuttingPattern) -> Iterator[Finding]:
    pattern = cutting.pattern
    seams, levels = {seam.id for seam in pattern.seams}, {level.id for level in pattern.levels}
    workings = {working.id for working in pattern.workings}
    origins = {BLOCK, *(step.uid for step in pattern.steps)}
    named = [
        *((f"notch {n.id}", "seam", n.seam) for n in cutting.notches if n.seam not in seams),
        *(
            (f"notch {n.id}", "level", n.level)
            for n in cutting.notches
            if n.level is not None and n.level not in levels
        ),
        *((f"line {line.id}", "step", line.origin) for line in pattern.lines if line.origin not in origins),
        *(
            (f"piece {piece.id}", "piece", piece.derived_from)
            for piece in pattern.pieces
            if piece.derived_from is not None and not pattern.has_piece(piece.derived_from)
        ),
        *((f"closure {c.id}", "seam", c.seam) for c in pattern.closures if c.seam and c.seam not in seams),
        *((f"notion {n.name}", "step", n.step) for n in pattern.notions if n.step and n.step not in origins),
        *(
            (f"notion {n.name}", "working", n.working)
            for n in pattern.notions
            if n.working and n.working not in workings
        ),
        *(lost for piece in pattern.pieces for lost in _cut_side(piece, cutting.cut.get(piece.id))),
    ]
    for owner, kind, name in named:
        message = f"{_opening(owner)} names {kind} {name}, which is not there."
        yield Finding("unknown-reference", "error", owner.partition(" ")[2], 1, 0, message, MAKE_AGAIN, unit="times")


def _cut_side(piece: Piece, cut: CutPiece | None) -> Iterator[tuple[str, str, str]]:
    """What the cutting side of a piece lacks or names in vain."""
    owner, edges = f"piece {piece.id}", {edge.id for edge in piece.edges}
    if cut is None:
        yield owner, "cutting side", piece.id
        return
    for id in edges:
        if id not in cut.allowances or id not in cut.corners:
            yield owner, "allowance or corner of edge", id
    for span in cut.spans:
        if span.edge not in edges:
            yield owner, "edge", span.edge
        if not (0 <= span.first < len(cut.cut_line) and 0 <= span.last < len(cut.cut_line)):
            yield owner, "cut-line point", f"{span.first} to {span.last}"


def _unnamed(cutting: CuttingPattern) -> Iterator[Finding]:
    pattern = cutting.pattern
    texts = [
        ("the wearer", "reference", pattern.wearer),
        ("the design", "reference", pattern.design),
        *((f"line {line.id}", "label", line.label) for line in pattern.lines),
        *((f"step {step.uid}", "label", step.label and step.kind) for step in pattern.steps),
        *((f"piece {piece.id}", "label", piece.label) for piece in pattern.pieces),
    ]
    for owner, what, text in texts:
        if not text:
            message = f"{_opening(owner)} has no {what}."
            yield Finding(
                "text-missing", "error", owner.partition(" ")[2], 0, 1, message, f"Give it a {what}.", unit="times"
            )


def _numbers(cutting: CuttingPattern) -> Iterator[Finding]:
    pattern = cutting.pattern
    girths = {level.id: (level.body_girth, level.gap, level.overlap, level.finished_girth) for level in pattern.levels}
    numbers: list[tuple[str, ArrayLike]] = [
        *((f"level {id}", values) for id, values in girths.items()),
        *((f"seam {seam.id}", (seam.ratio, seam.ease)) for seam in pattern.seams),
        *((f"notch {notch.id}", (notch.at_a, notch.at_b)) for notch in cutting.notches),
        *((f"piece {piece.id}", _inside(piece)) for piece in pattern.pieces),
        *((f"piece {cut.piece}", cut.cut_line) for cut in cutting.cut.values()),
        *((f"piece {cut.piece}", tuple(cut.allowances.values())) for cut in cutting.cut.values()),
    ]
    bad = [owner for owner, values in numbers if not _usable(values)]
    bad += [f"level {id}" for id, values in girths.items() if min(values) < 0]
    for owner in dict.fromkeys(bad):
        most = TOLERANCES.extent / 1000
        message = f"{_opening(owner)} has a number that is not finite, beyond {most:g} m, or a girth below 0."
        yield Finding("bad-number", "error", owner.partition(" ")[2], 1, 0, message, MAKE_AGAIN, unit="times")


def _inside(piece: Piece) -> ArrayLike:
    """Every coordinate inside a piece's outline."""
    points = [piece.grain.start, piece.grain.end, *(mark.at for mark in piece.marks)]
    return np.concatenate([np.ravel(points), *(line.curve.cubics.ravel() for line in piece.inside)])


def _usable(values: ArrayLike) -> bool:
    return bool((np.abs(np.asarray(values, float)) <= TOLERANCES.extent).all())


def _opening(owner: str) -> str:
    """The owner as the first words of a sentence."""
    return owner[0].upper() + owner[1:]
