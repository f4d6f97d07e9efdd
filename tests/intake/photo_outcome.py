"""What became of one rendered photo: refused, or read, and how well."""

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
import shapely
from intake.photo_compare import Compared, compared
from intake.photo_truth import PaperPiece
from intake.rendered_photo import Scene

from panelwright.errors import InputError
from panelwright.geometry.arrays import Array
from panelwright.intake.drawn_piece import DrawnPiece
from panelwright.intake.photo import read_photo

WRONG = 1.5  # mm at 99 of 100 places of an outline
NEAR = 1.5  # mm within which a drawn line or notch is found
JOINED = 1.2  # mm: a notch that a level line runs on from cannot be told from the line
NOTHING = {"grain": (0, 0), "levels": (0, 0), "notches": (0, 0), "folds": (0, 0)}


@dataclass(frozen=True, eq=False)
class Outcome:
    """Of photo `number`: its refusal, or errors of its outlines, mm; whether each piece has all its corners; how many
    corners there are that the paper has not; of each kind of drawn thing how many are right, of how many.
    """

    number: int
    table: str
    paper: str
    refusal: str = ""
    errors: Array = field(default_factory=lambda: np.zeros(0))
    corners: Array = field(default_factory=lambda: np.zeros(0, bool))
    extra: int = 0
    wrong: bool = False
    doubted: bool = False
    told: str = ""
    drawn: dict[str, tuple[int, int]] = field(default_factory=lambda: dict(NOTHING))


def outcome_of(number: int, what: Scene, photo: bytes) -> Outcome:
    try:
        found = read_photo(photo)
    except InputError as error:
        return Outcome(number, what.table, what.colour, str(error))
    results = compared(found.pieces, what.pieces)
    off = [result.errors for result in results]
    worst = max(float(np.percentile(each, 99)) for each in off)
    same = len(found.pieces) == len(what.pieces)
    parts = f"{len(found.pieces)} for {len(what.pieces)} pieces, {worst:.1f} mm off; {' / '.join(found.doubts)}"
    return Outcome(
        number, what.table, what.colour, "", np.concatenate(off),
        np.array([result.corners.all() for result in results]), sum(result.extra for result in results),
        worst > WRONG or not same, bool(found.doubts), parts, marks_right(found.pieces, results, what.pieces),
    )  # fmt: skip


def marks_right(
    found: Sequence[DrawnPiece], results: Sequence[Compared], truth: Sequence[PaperPiece]
) -> dict[str, tuple[int, int]]:
    """(right, those that are there or were read) by kind."""
    total = {kind: np.zeros(2, int) for kind in NOTHING}
    for piece, result in zip(found, results, strict=True):
        true = truth[result.truth]
        grain = [np.array([piece.grain.start, piece.grain.end])] if piece.grain else []
        levels = [line.curve.polyline() for line in piece.inside if line.kind == "level"]
        folds = [np.array([e.curve.start, e.curve.end]) for e in piece.edges if e.kind == "fold"]
        notches = [np.array([notch.at]) for notch in piece.notches]
        total["grain"] += agreeing([result.moved(g) for g in grain], list(true.lines[:1]))
        total["levels"] += agreeing([result.moved(line) for line in levels], list(true.levels))
        ends = np.array([end for line in true.levels for end in (line[0], line[-1])]).reshape(-1, 2)
        ticks = [n[:1] for n in true.notches if not len(ends) or np.hypot(*(ends - n[1]).T).min() > JOINED]
        total["notches"] += agreeing([result.moved(at) for at in notches], [*ticks, *(n[:1] for n in true.cuts)])
        total["folds"] += agreeing([result.moved(f) for f in folds], [] if true.fold is None else [true.fold])
    return {kind: (int(both[0]), int(both[1])) for kind, both in total.items()}


def agreeing(found: list[Array], true: list[Array]) -> Array:
    """(how many true lines are found, how many are true or found)."""
    free, right = list(found), 0
    for line in true:
        hit = next((k for k, other in enumerate(free) if apart(line, other) < NEAR), None)
        if hit is not None:
            right += 1
            free.pop(hit)
    return np.array([right, len(true) + len(free)])


def apart(a: Array, b: Array) -> float:
    """How far two lines are from each other, mm: the middle part of each from the other; or two places."""
    if len(a) == 1 or len(b) == 1:
        return float(np.hypot(*(a[0] - b[0]))) if len(a) == len(b) else np.inf
    first, second = shapely.LineString(a), shapely.LineString(b)
    if not 0.7 < first.length / second.length < 1.4:
        return np.inf
    middles = [
        [line.interpolate(share, normalized=True).distance(other) for share in np.linspace(0.2, 0.8, 9)]
        for line, other in ((first, second), (second, first))
    ]
    return float(np.max(middles))
