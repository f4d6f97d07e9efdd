"""A part that was cut off a piece and comes back to it elsewhere: what is in it takes names that are free there."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache

from panelwright.design.chain import EdgePart, Parts
from panelwright.geometry.placement import Placement
from panelwright.pattern.level import Level
from panelwright.pattern.piece import Piece

KEPT = 256


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

    @cached_property
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


@lru_cache(maxsize=KEPT)
def adopted(part: Piece, id: str, placement: Placement, there: tuple[Piece, ...]) -> AdoptedPart:
    """A part as a piece takes it in; remembered by content.

    Args:
        part: whose edges are called `<part id>.…` where they were the piece's own.
        id: of the piece that takes it in.
        placement: of the part in the piece.
        there: parts that are in the piece already.
    """
    own = [id + edge.id[len(part.id) :] if edge.id.startswith(f"{part.id}.") else edge.id for edge in part.edges]
    edges = _free([edge.id for piece in there for edge in piece.edges], own)
    inside = _free([line.id for piece in there for line in piece.inside], [line.id for line in part.inside])
    marks = _free([mark.id for piece in there for mark in piece.marks], [mark.id for mark in part.marks])
    moved = part.placed(placement)
    piece = replace(
        moved,
        id=id,
        edges=tuple(replace(edge, id=name) for edge, name in zip(moved.edges, edges, strict=True)),
        inside=tuple(replace(line, id=name) for line, name in zip(moved.inside, inside, strict=True)),
        marks=tuple(replace(mark, id=name) for mark, name in zip(moved.marks, marks, strict=True)),
    )
    return AdoptedPart(
        part.id,
        piece,
        {edge.id: name for edge, name in zip(part.edges, edges, strict=True)},
        {line.id: name for line, name in zip(part.inside, inside, strict=True)},
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
