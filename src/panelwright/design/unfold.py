"""Unfolding: a pattern of half a body becomes one of both sides, so that they may differ from then on."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from panelwright.design.remnant import bounded
from panelwright.errors import DesignError
from panelwright.geometry.arrays import Array
from panelwright.geometry.placement import Placement
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.edge import Edge
from panelwright.pattern.level import Level, LevelSpan
from panelwright.pattern.mark import InsideLine
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, Span
from panelwright.pattern.spoken_piece import spoken_piece

LEFT = "/left"
MIRROR = Placement(mirrored=True)


@dataclass(frozen=True)
class _Unfolded:
    """What became of a piece: its own edges keep their ids, each has a twin `…/left` on the piece `left`."""

    pieces: tuple[Piece, ...]
    left: str


def unfold(pattern: Pattern) -> Pattern:
    """The same garment with both sides drawn.

    A piece on the fold becomes a whole one and keeps its id; its fold line stays as a guide. Half of a pair becomes a
    right piece with its own id and a left one `<id>/left`. Every seam gets a twin `<id>/left` on the left side; one
    that joined a piece to its own mirror image joins the two sides. Levels count every line once.

    Raises:
        DesignError: if a whole piece is sewn to half of a pair without saying to which side.
    """
    unfolded = {piece.id: _piece(piece) for piece in pattern.pieces if _is_half(piece)}
    pieces = tuple(
        part for piece in pattern.pieces for part in (unfolded[piece.id].pieces if piece.id in unfolded else (piece,))
    )
    seams = tuple(new for seam in pattern.seams for new in _seams(seam, unfolded))
    levels = tuple(_level(level, unfolded) for level in pattern.levels)
    return replace(pattern, pieces=pieces, seams=seams, levels=levels)


def _is_half(piece: Piece) -> bool:
    return piece.extent == "half_on_fold" or (piece.extent == "one_side" and piece.hand == "both")


def _piece(piece: Piece) -> _Unfolded:
    if piece.extent == "one_side":
        mirrored = _named_left(piece.placed(MIRROR))
        id = f"{piece.id}{LEFT}"
        left = replace(
            mirrored, id=id, label=f"{piece.label}, left", hand="left", derived_from=_left(piece.derived_from)
        )
        return _Unfolded((replace(piece, label=f"{piece.label}, right", hand="right"), left), id)
    return _Unfolded((_whole(piece),), piece.id)


def _left(piece: str | None) -> str | None:
    return f"{piece}{LEFT}" if piece else None


def _named_left(piece: Piece) -> Piece:
    return replace(piece, edges=tuple(replace(edge, id=f"{edge.id}{LEFT}") for edge in piece.edges))


def _whole(piece: Piece) -> Piece:
    """A piece on the fold drawn entire: its right half, and its left half mirrored at the fold."""
    fold = _only_fold(piece)
    other = _named_left(piece.placed(_mirror_at(fold)))
    halves = _from(piece, fold.id), _from(other, f"{fold.id}{LEFT}")
    guide = InsideLine(fold.line, "guide", fold.line_curve)
    regions = bounded(piece)
    return Piece.closed(
        halves[0] + halves[1],
        id=piece.id,
        label=piece.label,
        extent="whole",
        hand="both",
        grain=piece.grain,
        inside=(*_inside(piece, other, fold), guide),
        marks=piece.marks + tuple(replace(mark, id=f"{mark.id}{LEFT}") for mark in other.marks),
        material=regions + tuple(region.placed(_mirror_at(fold)) for region in regions),
        layer=piece.layer,
        derived_from=piece.derived_from,
    )


def _only_fold(piece: Piece) -> Edge:
    folds = [edge for edge in piece.edges if edge.kind == "fold"]
    if len(folds) != 1:
        raise DesignError(f"{spoken_piece(piece)} has {len(folds)} folds; only one fold can be opened", piece.id)
    return folds[0]


def _mirror_at(fold: Edge) -> Placement:
    """Reflection at a fold: turned over, turned by twice the fold's angle, and shifted so that the fold stays."""
    run, point = fold.curve.chord, fold.curve.start
    angle = math.remainder(2 * math.atan2(run[1], run[0]) + math.pi, 2 * math.pi)
    shift = point - Placement(angle, mirrored=True).points(point)
    return Placement(angle, float(shift[0]), float(shift[1]), mirrored=True)


def _from(piece: Piece, fold: str) -> tuple[Edge, ...]:
    """The outline without its fold, from where the fold ends."""
    k = piece.index(fold)
    return piece.edges[k + 1 :] + piece.edges[:k]


def _inside(piece: Piece, other: Piece, fold: Edge) -> tuple[InsideLine, ...]:
    """Lines that reach the fold run on over it; the others have a twin."""
    lines: list[InsideLine] = []
    for line, twin in zip(piece.inside, other.inside, strict=True):
        ends = [_off(fold, line.curve.start), _off(fold, line.curve.end)]
        if min(ends) > TOLERANCES.seam:
            lines += [line, replace(twin, id=f"{twin.id}{LEFT}")]
            continue
        first, second = (line.curve, twin.curve) if ends[1] <= ends[0] else (twin.curve, line.curve)
        lines.append(replace(line, curve=first.joined(second.ending_at(start=first.end))))
    return tuple(lines)


def _off(fold: Edge, point: Array) -> float:
    run = fold.curve.chord / np.linalg.norm(fold.curve.chord)
    away = point - fold.curve.start
    return float(abs(run[0] * away[1] - run[1] * away[0]))


def _seams(seam: Seam, unfolded: Mapping[str, _Unfolded]) -> tuple[Seam, ...]:
    spans = seam.a + seam.b
    halves = [span.piece in unfolded for span in spans]
    if not any(halves):
        return (seam,)
    if any(span.hand == "mirror" for span in spans):
        a, b = (tuple(_handed(span, unfolded) for span in chain) for chain in (seam.a, seam.b))
        sewn = replace(seam, a=a, b=b)
        if seam.is_centre or not all(halves):
            return (sewn,)
        a, b = (tuple(_other_handed(span, unfolded) for span in chain) for chain in (seam.a, seam.b))
        return sewn, replace(seam, id=f"{seam.id}{LEFT}", a=a, b=b)
    if not all(halves):
        raise DesignError(
            f"the {seam.id} seam sews a whole piece to half of a pair; name both sides of the pair in it", seam.id
        )
    a, b = (tuple(_twin(span, unfolded) for span in chain) for chain in (seam.a, seam.b))
    return seam, replace(seam, id=f"{seam.id}{LEFT}", a=a, b=b)


def _handed(span: Span, unfolded: Mapping[str, _Unfolded]) -> Span:
    if span.hand == "same":
        return span
    return _twin(span, unfolded)


def _other_handed(span: Span, unfolded: Mapping[str, _Unfolded]) -> Span:
    """The span of a seam that crosses from one side to the other, as the other side has it."""
    return replace(span, hand="same") if span.hand == "mirror" else _twin(span, unfolded)


def _twin(span: Span, unfolded: Mapping[str, _Unfolded]) -> Span:
    """The same stretch on the left side, whose outline runs the other way."""
    left = unfolded[span.piece].left
    return Span(left, f"{span.edge}{LEFT}", 1.0 - span.start, 1.0 - span.end)


def _level(level: Level, unfolded: Mapping[str, _Unfolded]) -> Level:
    path: list[LevelSpan] = []
    for step in level.path:
        if step.piece not in unfolded or step.times != 2:
            path.append(step)
            continue
        new = unfolded[step.piece]
        path.append(replace(step, times=1))
        whole = new.pieces[0]
        if len(new.pieces) == 2:
            path.append(LevelSpan(new.left, step.inside, 1))
        elif whole.inside_line(f"{step.inside}{LEFT}"):
            path.append(LevelSpan(whole.id, f"{step.inside}{LEFT}", 1))
    return replace(level, path=tuple(path))
