"""A garment on its wearer: the torso, and every outer piece at the same places flat and on the body."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal, TypeVar

import numpy as np

from panelwright.app.board_pattern import level_facts
from panelwright.app.board_piece import Document
from panelwright.app.body_strap import BodyStrap
from panelwright.app.flat_mesh import even_points, flat_mesh
from panelwright.app.panel_map import PieceMap, panel_maps
from panelwright.app.surface_mesh import SurfaceMesh, Triangles
from panelwright.app.torso_mesh import torso_mesh
from panelwright.blocks.block import Block
from panelwright.design.worn_strap import WornStrap
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.pattern.level import Level
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

Side = Literal["right", "left", "both"]
LineKind = Literal["edge", "level"]
Shown = TypeVar("Shown")
OUTSIDE: Final = 3.0  # mm: cloth that lies nearer to the body is drawn so far outside it
LOOSE: Final = 5.0  # mm off the block's cloth: a tie that was grown from a panel hangs from there and is not drawn
_OTHER_SIDE: Final = np.array([-1.0, 1.0, 1.0])


@dataclass(frozen=True, eq=False)
class Patch:
    """A piece on one side of the wearer.

    Attributes:
        piece: id.
        hand: the wearer's side that it is on; both: the piece is cut whole.
        flat: places on the piece, shape (n, 2), mm.
        body: the same places on the wearer, shape (n, 3), mm.
        triangles: numbers of places, shape (m, 3); seen from outside anticlockwise.
    """

    piece: str
    hand: Side
    flat: Array
    body: Array
    triangles: Triangles

    def document(self) -> Document:
        """Ready for JSON."""
        return {
            "piece": self.piece,
            "hand": self.hand,
            "flat": _rounded(self.flat),
            "body": _rounded(self.body),
            "triangles": self.triangles.ravel().tolist(),
        }


@dataclass(frozen=True, eq=False)
class BodyLine:
    """An edge of a piece, or a level on it, as it runs on the wearer.

    Attributes:
        line: id of the line or level.
        kind: which of the two.
        piece, hand: as of a `Patch`.
        points: shape (n, 3), mm.
    """

    line: str
    kind: LineKind
    piece: str
    hand: Side
    points: Array

    def document(self) -> Document:
        """Ready for JSON."""
        return {
            "line": self.line,
            "kind": self.kind,
            "piece": self.piece,
            "hand": self.hand,
            "points": _rounded(self.points),
        }


@dataclass(frozen=True, eq=False)
class BodyView:
    """What the Body view shows.

    Attributes:
        torso: the wearer.
        panels: all outer pieces that were cut from the block, and straps, on both sides.
        lines: their edges and levels.
        hanging: ids of outer pieces that lie on no part of the block and are no straps (ties, strips): they are not
            drawn.
        crossed: levels of the block that an edge of the garment crosses, so that no one girth goes round there.
    """

    torso: SurfaceMesh
    panels: tuple[Patch, ...]
    lines: tuple[BodyLine, ...]
    hanging: tuple[str, ...]
    crossed: tuple[Level, ...] = ()

    def document(self) -> Document:
        """The *Body* answer of docs/board.md."""
        return {
            "torso": {"points": _rounded(self.torso.points), "triangles": self.torso.triangles.ravel().tolist()},
            "panels": [patch.document() for patch in self.panels],
            "lines": [line.document() for line in self.lines],
            "hanging": list(self.hanging),
            "crossed": [level_facts(level) for level in self.crossed],
        }


def body_view(pattern: Pattern, block: Block, straps: Sequence[WornStrap] = ()) -> BodyView:
    """A finished pattern on the body of its wearer.

    The cloth lies where the block has it, with its ease, and at least 3 mm outside the body; straps as a taut tape.

    Args:
        pattern: the pieces; facings, linings and interfacings are not shown.
        block: the one that the pattern was made from.
        straps: how its straps that are pieces of their own lie.
    """
    laid = {piece.id: strap for strap in straps for piece, _ in pattern.pieces_on_line(strap.line)}
    torso, panels = torso_mesh(block.wearer, block.torso), panel_maps(block)
    patches: list[Patch] = []
    lines: list[BodyLine] = []
    hanging = []
    for piece in pattern.pieces:
        if piece.layer != "outer":
            continue
        if piece.id in laid:
            patch, edges = _strapped(BodyStrap(piece, laid[piece.id], torso.taped, OUTSIDE))
        elif any(region.panel in panels for region in piece.material):
            patch, edges = _dressed(piece, PieceMap(piece, panels), torso.taped)
        else:
            hanging.append(piece.id)
            continue
        patches += _both_hands(piece, patch, _other_patch)
        for line in edges:
            lines += _both_hands(piece, line, _other_line)
    return BodyView(torso.skin, tuple(patches), tuple(lines), tuple(hanging), _crossed(pattern, block))


def _crossed(pattern: Pattern, block: Block) -> tuple[Level, ...]:
    """Levels that are left on outer pieces as guides alone."""
    whole = {level.id for level in pattern.levels}
    outer = [piece for piece in pattern.pieces if piece.layer == "outer"]
    left = {line.id for piece in outer for line in piece.inside if line.kind == "guide"} - whole
    return tuple(level for level in block.pattern.levels if level.id in left)


def _dressed(piece: Piece, places: PieceMap, body: SurfaceMesh) -> tuple[Patch, list[BodyLine]]:
    """A piece on the wearer as it is drawn, and its edges and levels; all places are looked up at once."""
    hand: Side = "right" if _is_pair(piece) else piece.hand
    mesh, triangles = flat_mesh(piece)
    triangles = triangles[places.off_material(mesh[triangles].mean(axis=1)) < LOOSE]
    used, numbers = np.unique(triangles, return_inverse=True)
    names: list[tuple[str, LineKind]] = []
    runs = [mesh[used]]
    for name, kind, curve in _lines(piece):
        run = even_points(curve)
        run = run[places.off_material(run) < LOOSE]
        if len(run) > 1:
            names.append((name, kind))
            runs.append(run)
    on_body = body.kept_outside(places.in_space(np.concatenate(runs)), OUTSIDE)
    patch, *lines = np.split(on_body, np.cumsum([len(run) for run in runs])[:-1])
    drawn = [BodyLine(*name, piece.id, hand, points) for name, points in zip(names, lines, strict=True)]
    return Patch(piece.id, hand, runs[0], patch, numbers.reshape(-1, 3)), drawn


def _strapped(strap: BodyStrap) -> tuple[Patch, list[BodyLine]]:
    hand: Side = "right" if _is_pair(strap.piece) else "both"
    edges = [BodyLine(strap.line, "edge", strap.piece.id, hand, edge) for edge in strap.edges]
    return Patch(strap.piece.id, hand, strap.flat, strap.body, strap.triangles), edges


def _lines(piece: Piece) -> Iterator[tuple[str, LineKind, Curve]]:
    for edge in piece.edges:
        yield edge.line, "edge", edge.curve
    for line in piece.inside:
        if line.kind == "level":
            yield line.id, "level", line.curve


def _is_pair(piece: Piece) -> bool:
    """Whether it is worn on both sides: a pair of it is cut, or it is half of a whole."""
    return piece.hand == "both" and piece.extent != "whole"


def _both_hands(piece: Piece, drawn: Shown, other: Callable[[Shown], Shown]) -> tuple[Shown, ...]:
    return (drawn, other(drawn)) if _is_pair(piece) else (drawn,)


def _other_patch(patch: Patch) -> Patch:
    return replace(patch, hand="left", body=patch.body * _OTHER_SIDE, triangles=patch.triangles[:, ::-1])


def _other_line(line: BodyLine) -> BodyLine:
    return replace(line, hand="left", points=line.points * _OTHER_SIDE)


def _rounded(points: Array) -> list[float]:
    """A flat list, to a hundredth of a mm."""
    values: list[float] = np.round(points, 2).ravel().tolist()
    return values
