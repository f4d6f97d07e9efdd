"""Faults of a lay, found from the true cut lines alone: whoever made the lay is not trusted."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
import shapely

from panelwright.geometry.tolerances import TOLERANCES
from panelwright.lay.lay import LaidPiece, Lay
from panelwright.lay.piece_to_cut import PieceToCut

FaultKind = Literal[
    "missing",
    "too-many",
    "wrong-hand",
    "unknown",
    "off-cloth",
    "off-grain",
    "against-nap",
    "off-fold",
    "overlap",
    "near",
]


@dataclass(frozen=True)
class LayFault:
    """One thing that is wrong with a lay.

    Attributes:
        kind: `missing` and `too-many` pieces (how many); `wrong-hand`, cut face up instead of down or the reverse (how
            many); `unknown`, a piece that is not cut from this cloth; `off-cloth`, how far it reaches out, mm;
            `off-grain`, by how much its two distances from the selvage differ, mm; `against-nap`, radians from the
            direction of the others; `off-fold`, how far its fold edge lies from the fold, mm; `overlap` of two
            pieces, mm²; `near`, how much too near to each other two pieces are, mm.
        pieces: ids of those at fault.
        amount: as `kind` says.
    """

    kind: FaultKind
    pieces: tuple[str, ...]
    amount: float


def lay_faults(lay: Lay, wanted: Sequence[PieceToCut]) -> tuple[LayFault, ...]:
    """All that is wrong with a lay that shall yield `wanted`; nothing where it can be cut as it lies."""
    found = [*_counts(lay, wanted)]
    for laid in lay.laid:
        found += [*_on_cloth(lay, laid), *_straight(lay, laid), *_on_fold(lay, laid)]
    return (*found, *_apart(lay))


def _counts(lay: Lay, wanted: Sequence[PieceToCut]) -> Iterator[LayFault]:
    known = {piece.id for piece in wanted}
    for id in dict.fromkeys(laid.piece.id for laid in lay.laid if laid.piece.id not in known):
        yield LayFault("unknown", (id,), 1)
    for piece in wanted:
        up, down, spare = _yield(lay, piece)
        short = max(piece.face_up - up, 0) + max(piece.face_down - down, 0)
        over = max(up - piece.face_up, 0) + max(down - piece.face_down, 0) - spare
        turned = min(short, max(over, 0))
        faults: tuple[tuple[FaultKind, int], ...] = (
            ("wrong-hand", turned),
            ("missing", short - turned + max(-over, 0)),
            ("too-many", max(over, 0) - turned),
        )
        yield from (LayFault(kind, (piece.id,), number) for kind, number in faults if number)


def _yield(lay: Lay, piece: PieceToCut) -> tuple[int, int, int]:
    """(face up, face down, spare) pieces that a lay gives of one piece."""
    places = [laid for laid in lay.laid if laid.piece.id == piece.id]
    spare = sum(laid.spare for laid in places)
    if lay.folded:
        return len(places), 0 if piece.fold is not None else len(places), spare
    if piece.fold is not None:
        return len(places), 0, spare
    return sum(not laid.placement.mirrored for laid in places), sum(laid.placement.mirrored for laid in places), spare


def _on_cloth(lay: Lay, laid: LaidPiece) -> Iterator[LayFault]:
    (left, low), (_, high) = laid.outline.min(axis=0), laid.outline.max(axis=0)
    out = float(max(-left, -low, high - lay.width))
    bent = TOLERANCES.straight if lay.folded and laid.piece.fold is not None else TOLERANCES.laid
    if out > bent:
        yield LayFault("off-cloth", (laid.piece.id,), out)


def _straight(lay: Lay, laid: LaidPiece) -> Iterator[LayFault]:
    """The grain runs along the cloth, and on one-way cloth with its top ahead; a fold stands for the grain."""
    line = laid.grain if laid.piece.fold is None else laid.placement.points(laid.piece.fold)
    off = abs(float(line[1, 1] - line[0, 1]))
    if off > TOLERANCES.laid:
        yield LayFault("off-grain", (laid.piece.id,), off)
    ahead = laid.placement.vectors(np.array([np.cos(laid.piece.up), np.sin(laid.piece.up)]))
    if lay.cloth.one_way and ahead[0] < 0:
        yield LayFault("against-nap", (laid.piece.id,), float(np.arctan2(abs(ahead[1]), ahead[0])))


def _on_fold(lay: Lay, laid: LaidPiece) -> Iterator[LayFault]:
    if laid.piece.fold is None:
        return
    ends = laid.placement.points(laid.piece.fold)[:, 1]
    folds = (0.0, lay.width) if lay.tubular else (0.0,)
    away = min(float(np.abs(ends - fold).max()) for fold in folds) if lay.folded else float("inf")
    if away > TOLERANCES.laid:
        yield LayFault("off-fold", (laid.piece.id,), away)


def _apart(lay: Lay) -> Iterator[LayFault]:
    areas = [laid.area for laid in lay.laid]
    tree = shapely.STRtree(areas)
    ones, others = tree.query(areas, predicate="dwithin", distance=lay.spacing)
    for k, other in sorted(zip(ones.tolist(), others.tolist(), strict=True)):
        if k >= other:
            continue
        ids = (lay.laid[k].piece.id, lay.laid[other].piece.id)
        shared = float(areas[k].intersection(areas[other]).area)
        missing = lay.spacing - float(areas[k].distance(areas[other]))
        if shared > TOLERANCES.laid_overlap:
            yield LayFault("overlap", ids, shared)
        elif missing > TOLERANCES.laid:
            yield LayFault("near", ids, missing)
