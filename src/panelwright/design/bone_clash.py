"""What a bone must not lie on: another bone, a button or an eyelet, the bust point."""

from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import Final

import shapely
from shapely import Point

from panelwright.body.worded_length import given_words
from panelwright.design.bone import Bone
from panelwright.errors import DesignError
from panelwright.pattern.level import BUST
from panelwright.pattern.line import FRONT_PRINCESS
from panelwright.pattern.mark import Mark, as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.spoken_piece import spoken_piece

BUST_POINT: Final = "bust-point"
MARK_ROOM: Final = 3.0  # mm between a channel and the middle of an eyelet, button or drill hole (own choice)
BUST_ROOM: Final = 15.0  # mm between a channel and the bust point (own choice)


def refuse_clashes(bones: Sequence[Bone], pattern: Pattern) -> None:
    """Refuse bones that lie on one another, on a button or an eyelet, or on the bust point unasked.

    Raises:
        DesignError: one sentence with the bones, the place and the remedy.
    """
    covered = [(bone, part.bed.piece, part.bed.area(*part.stretch)) for bone in bones for part in bone.laid]
    for (one, piece, area), (other, on, beside) in combinations(covered, 2):
        if one is not other and piece.id == on.id and shapely.intersects(area, beside):
            raise DesignError(
                f"the bones {_words(one)} and {_words(other)} lie on one another in "
                f"{spoken_piece(piece)}; move the channel, or leave one of the two out",
                piece.id,
            )
    for bone, piece, area in covered:
        for mark in _obstacles(piece):
            if shapely.distance(area, Point(mark.at)) < MARK_ROOM:
                raise DesignError(
                    f"{bone.place} it would lie on one of the {mark.kind}s of {spoken_piece(piece)}; make the bone "
                    f"narrower, set the {mark.kind}s farther from the edge, or name only the "
                    "other lines for bones",
                    piece.id,
                )
        for at in () if bone.over_bust_point else _bust_points(piece, pattern):
            if shapely.distance(area, Point(at)) < BUST_ROOM:
                raise DesignError(
                    f"the channel {bone.place} comes within {given_words(BUST_ROOM)} of the bust point; move its "
                    "place, end it lower, or say that it may lie on the bust point if it is meant",
                    piece.id,
                )


def _words(bone: Bone) -> str:
    """`in the side back (channel 2)`: of channels there may be several in one place."""
    return f"{bone.place} ({bone.name.replace('-', ' ')})" if bone.name.startswith("channel") else bone.place


def _obstacles(piece: Piece) -> tuple[Mark, ...]:
    return tuple(mark for mark in piece.marks if mark.kind != "point")


def _bust_points(piece: Piece, pattern: Pattern) -> Iterator[tuple[float, float]]:
    """The piece's own bust point, and where one that lies on the princess seam of its neighbour meets the piece."""
    yield from (mark.at for mark in piece.marks if mark.id == BUST_POINT)
    for edge in piece.on_line(FRONT_PRINCESS):
        place = pattern.level_place(edge, piece, BUST)
        if place is not None and any(_marked(other) for other, _ in pattern.pieces_on_line(FRONT_PRINCESS)):
            yield as_point(edge.line_curve.point(place))


def _marked(piece: Piece) -> bool:
    """Whether a bust point is marked so near the princess seam that it lies across it too."""
    marks = [mark.at for mark in piece.marks if mark.id == BUST_POINT]
    return any(edge.curve.nearest(at)[1] < BUST_ROOM for edge in piece.on_line(FRONT_PRINCESS) for at in marks)
