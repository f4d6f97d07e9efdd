"""A piece slashed from edge to edge and spread: flare where one end stays closed, fullness where both open."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from panelwright.design.adopted_part import AdoptedPart, adopted
from panelwright.design.chain import rechained
from panelwright.design.divided_piece import PartName
from panelwright.design.level_bridge import Bridge, across, bridged, ending_on
from panelwright.design.merged_edge import resewn_merged
from panelwright.design.outline_point import WearerSide, edges_on
from panelwright.design.reunited_strips import SLASH, Strip, reunited
from panelwright.design.split import split_piece
from panelwright.errors import DesignError, GeometryError
from panelwright.geometry.arrays import Array, cross
from panelwright.geometry.curve import Curve
from panelwright.geometry.placement import Placement
from panelwright.pattern.edge import Edge
from panelwright.pattern.level import Level
from panelwright.pattern.line import Line
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import SeamRegion
from panelwright.pattern.spoken_piece import spoken_piece


@dataclass(frozen=True)
class Spread:
    """How a piece is spread.

    Attributes:
        open, closed: lines of the two edges that the slashes run between.
        amount: mm that the open edge gains in all.
        at_closed: mm that the closed edge gains in all.
        slashes: how many.
        side: of a piece drawn for both sides of the wearer.
    """

    open: str
    closed: str
    amount: float
    at_closed: float
    slashes: int
    side: WearerSide


def spread(pattern: Pattern, piece: Piece, spread: Spread, region: SeamRegion) -> Pattern:
    """The pattern with the piece spread; the part with the fold, else that at the start of the edges, stays.

    Slashes divide both edges evenly. The gaps are bridged smoothly. A seam that is fuller is gathered (its ratio); a
    level gains ease. An edge that stays closed keeps its length within smoothing.

    Raises:
        DesignError: if a slash leaves the piece, the edges do not lie opposite each other, or the spread piece laps
            over itself.
    """
    if any(edge.kind in ("fold", "opening") for line in (spread.open, spread.closed) for edge in piece.on_line(line)):
        raise DesignError(
            f"{spoken_piece(piece)} cannot be slashed at its fold or opening, which stays straight; name two other "
            "edges",
            piece.id,
        )
    slashes = _slashes(piece, spread)
    cut, parts = _cut_apart(pattern, piece, slashes, region)
    stays = _staying(cut, parts)
    moves = _moves(slashes, spread, stays)
    found: dict[int, AdoptedPart] = {}
    for k in sorted(range(len(parts)), key=lambda number: abs(number - stays)):
        found[k] = adopted(cut.piece(parts[k]), piece.id, moves[k], tuple(part.piece for part in found.values()))
    strips = [Strip(cut.piece(id), found[k]) for k, id in enumerate(parts)]
    return _Together(cut, piece, strips, slashes, stays).pattern()


@dataclass(frozen=True, eq=False)
class _Slash:
    """One slash.

    Attributes:
        closed, opened: its ends, shape (2,).
        before_left: whether what lies before it along its lines is on its left, from the closed end to the open one.
    """

    closed: Array
    opened: Array
    before_left: bool

    @property
    def curve(self) -> Curve:
        """From the closed end to the open one."""
        return Curve.straight(self.closed, self.opened)


def _slashes(piece: Piece, spread: Spread) -> list[_Slash]:
    rows = [edges_on(piece, line, spread.side) for line in (spread.closed, spread.open)]
    shares = np.arange(1, spread.slashes + 1) / (spread.slashes + 1)
    found = []
    for share in shares:
        closed, _ = _at(rows[0], float(share))
        opened, tangent = _at(rows[1], float(share))
        found.append(_Slash(closed, opened, bool(cross(opened - closed, tangent) < 0)))
    return found


def _at(edges: Sequence[Edge], share: float) -> tuple[Array, Array]:
    """(place, direction of the line) at a share of edges in the sense of their line."""
    way = share * sum(edge.curve.length for edge in edges)
    for edge in edges[:-1]:
        if way <= edge.curve.length:
            return edge.line_curve.frame(way)
        way -= edge.curve.length
    return edges[-1].line_curve.frame(min(way, edges[-1].curve.length))


def _cut_apart(
    pattern: Pattern, piece: Piece, slashes: Sequence[_Slash], region: SeamRegion
) -> tuple[Pattern, list[str]]:
    """The pattern with the strips apart, and their ids from the start of the edges; the last keeps the piece's."""
    names = []
    for k, slash in enumerate(slashes):
        name, line = f"{SLASH}{k}", Line(f"{SLASH}{k}", "Slash")
        parts = PartName(name, piece.label), PartName(piece.id, piece.label)
        try:
            pattern = split_piece(
                pattern, piece.id, [slash.curve], line, parts if slash.before_left else parts[::-1], region
            )
        except DesignError as error:
            if not isinstance(error.__cause__, GeometryError):
                raise
            raise DesignError(
                f"slash {k + 1} leaves {spoken_piece(piece)}; spread between edges that lie opposite each other, or "
                "with fewer slashes",
                piece.id,
            ) from error
        names.append(name)
    return pattern, [*names, piece.id]


def _staying(cut: Pattern, parts: Sequence[str]) -> int:
    folds = [k for k, id in enumerate(parts) if any(edge.kind == "fold" for edge in cut.piece(id).edges)]
    if len(folds) > 1:
        raise DesignError("a slash runs through the fold; spread between the two edges that the fold ends on")
    return folds[0] if folds else 0


def _moves(slashes: Sequence[_Slash], spread: Spread, stays: int) -> list[Placement]:
    """Where each strip goes."""
    steps = [_step(slash, spread) for slash in slashes]
    moves = [Placement()] * (len(slashes) + 1)
    for k in range(stays, len(slashes)):
        moves[k + 1] = moves[k].after(steps[k])
    for k in range(stays, 0, -1):
        moves[k - 1] = moves[k].after(steps[k - 1].inverse)
    return moves


def _step(slash: _Slash, spread: Spread) -> Placement:
    """What the strip behind a slash does against the strip before it."""
    each, still = spread.amount / spread.slashes, spread.at_closed / spread.slashes
    run = slash.opened - slash.closed
    reach = float(np.linalg.norm(run))
    way = -1.0 if slash.before_left else 1.0
    turn = way * 2 * math.asin(min(max((each - still) / (2 * reach), -1.0), 1.0))
    onwards = way * np.array([-run[1], run[0]]) / reach
    # Seen from half-way through the turn both ends open in one direction, so each opens by just its amount.
    pivot = slash.closed + still * Placement(turn / 2).vectors(onwards)
    shift = pivot - Placement(turn).points(slash.closed)
    return Placement(turn, float(shift[0]), float(shift[1]))


@dataclass(frozen=True, eq=False)
class _Together:
    """The strips made one piece again, and the pattern round it."""

    cut: Pattern
    old: Piece
    strips: Sequence[Strip]
    slashes: Sequence[_Slash]
    stays: int

    def pattern(self) -> Pattern:
        """The pattern with the spread piece, its seams and levels."""
        whole = reunited(self.old, tuple(self.strips), self.slashes[0].before_left, self.stays)
        piece, merges = whole.piece, whole.merges
        gone = {strip.cut.id for strip in self.strips if strip.cut.id != self.old.id}
        pieces = tuple(piece if each.id == self.old.id else each for each in self.cut.pieces if each.id not in gone)
        lines = tuple(line for line in self.cut.lines if not line.id.startswith(SLASH))
        bare = replace(self.cut, pieces=pieces, seams=(), levels=(), lines=lines)
        parts = {old: new for strip in self.strips for old, new in strip.part.parts.items()}
        seams = [
            replace(seam, a=rechained(seam.a, parts), b=rechained(seam.b, parts))
            for seam in self.cut.seams
            if not seam.id.startswith(SLASH)
        ]
        levels = tuple(self._measured(level) for level in self.cut.levels)
        after = replace(bare, seams=resewn_merged(seams, merges, bare), levels=levels)
        return bridged(after, self.old.id, self._bridges())

    def _measured(self, level: Level) -> Level:
        """A level measured in the spread piece; each name is read as it was while the strips were apart."""
        inside = {strip.cut.id: strip.part.inside for strip in self.strips}
        path = tuple(
            replace(span, piece=self.old.id, inside=inside[span.piece][span.inside]) if span.piece in inside else span
            for span in level.path
        )
        return replace(level, path=path)

    def _bridges(self) -> list[Bridge]:
        found: list[Bridge] = []
        for k, slash in enumerate(self.slashes):
            sides = [
                [(strip.part.inside[id], ends) for id, ends in ending_on(strip.cut, slash.curve)]
                for strip in self.strips[k : k + 2]
            ]
            found += across(sides[0], sides[1])
        return found
