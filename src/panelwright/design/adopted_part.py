"""A part that was cut off a piece and comes back to it elsewhere: what is in it takes names that are free there."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from panelwright.design.chain import EdgePart, Parts
from panelwright.geometry.placement import Placement
from panelwright.pattern.level import Level
from panelwright.pattern.piece import Piece


@dataclass(frozen=True, eq=False)
class AdoptedPart:
    """A part in its new place, with names that fit the piece that takes it in.

    Attributes:
        old: id of the part while it was apart.
        piece: the part, called like the piece that takes it in.
        edges: old id of an edge -> new.
        inside: old id of an inside line -> new.
    """

    old: str
    piece: Piece
    edges: Mapping[str, str]
    inside: Mapping[str, str]

    @property
    def parts(self) -> Parts:
        """Where the edges are now, for seams."""
        return {old: (EdgePart(self.piece.id, new),) for old, new in self.edges.items()}

    def level(self, level: Level) -> Level:
        """A level measured in the piece that took the part in."""
        path = tuple(
            replace(span, piece=self.piece.id, inside=self.inside[span.inside]) if span.piece == self.old else span
            for span in level.path
        )
        return replace(level, path=path)


def adopted(part: Piece, into: Piece, placement: Placement) -> AdoptedPart:
    """A part as `into` takes it in.

    Args:
        part: whose edges are called `<part id>.…` where they were the piece's own.
        into: the rest of the piece.
        placement: of the part in the piece.
    """
    own = [into.id + edge.id[len(part.id) :] if edge.id.startswith(f"{part.id}.") else edge.id for edge in part.edges]
    edges = _free([edge.id for edge in into.edges], own)
    inside = _free([line.id for line in into.inside], [line.id for line in part.inside])
    marks = _free([mark.id for mark in into.marks], [mark.id for mark in part.marks])
    moved = part.placed(placement)
    piece = replace(
        moved,
        id=into.id,
        edges=tuple(replace(edge, id=id) for edge, id in zip(moved.edges, edges, strict=True)),
        inside=tuple(replace(line, id=id) for line, id in zip(moved.inside, inside, strict=True)),
        marks=tuple(replace(mark, id=id) for mark, id in zip(moved.marks, marks, strict=True)),
    )
    return AdoptedPart(
        part.id,
        piece,
        {edge.id: id for edge, id in zip(part.edges, edges, strict=True)},
        {line.id: id for line, id in zip(part.inside, inside, strict=True)},
    )


def _free(taken: Iterable[str], wanted: Iterable[str]) -> list[str]:
    """Each wanted name, or the first of `name-2`, `name-3`, … that is free."""
    known, found = set(taken), []
    for name in wanted:
        number, free = 2, name
        while free in known:
            free, number = f"{name}-{number}", number + 1
        known.add(free)
        found.append(free)
    return found
