"""Drafts of derived pieces: outlines cut from the shell's pieces, and which edge came from which."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from panelwright.design.chain import EdgePart
from panelwright.design.outline_cut import CutOutline, OutlinePlace, cut_outline, renamed
from panelwright.design.remnant import remnant
from panelwright.errors import GeometryError
from panelwright.finish.band_grain import band_grain
from panelwright.finish.facing_edge import FACING_EDGE
from panelwright.finish.facing_ends import BandEnd
from panelwright.finish.facing_line import inner_curve
from panelwright.finish.facing_path import Band, EndKey
from panelwright.geometry.curve import Curve
from panelwright.geometry.placement import Placement
from panelwright.pattern.edge import Edge, EdgeKind
from panelwright.pattern.line import CENTRE_FRONT
from panelwright.pattern.piece import Extent, Layer, Piece

_MOST_OFF = 10.0  # mm


@dataclass(frozen=True)
class Draft:
    """A derived piece before it is drawn.

    Attributes:
        source: the shell's piece.
        edges: the outline, closed within rounding.
        parts: shell edge -> what the draft has of it.
        cut: curves that the source does not have.
        other: what it does not take over from the source: id, label, layer, derived_from, extent.
    """

    source: Piece
    edges: tuple[Edge, ...]
    parts: Mapping[str, tuple[EdgePart, ...]]
    cut: tuple[Curve, ...]
    other: Mapping[str, Any]

    @property
    def id(self) -> str:
        """Of the piece to be."""
        return str(self.other["id"])

    @property
    def origins(self) -> dict[str, tuple[str, EdgePart]]:
        """Edge of the draft -> (shell edge, what part of it)."""
        return {part.edge: (old, part) for old, parts in self.parts.items() for part in parts}

    def piece(self) -> Piece:
        """The piece, with what is drawn in the source as far as it lies inside.

        Raises:
            GeometryError: if the edges make no piece, or a facing that has no room for a grain line.
        """
        if not self.cut:
            return replace(self.source, edges=self.edges, **self.other)
        piece = remnant(self.source, self.edges, self.cut, **self.other).piece()
        grain = band_grain(piece)
        if grain is None and piece.on_line(FACING_EDGE.id):
            raise GeometryError(f"{piece.id} has no room for a grain line")
        return _at_centre(replace(piece, grain=grain or piece.grain))


def _at_centre(piece: Piece) -> Piece:
    """A right-hand piece is laid with its centre-front edge on x = 0, which turn of cloth may have moved in."""
    centre = [float(edge.curve.points[:, 0].max()) for edge in piece.on_line(CENTRE_FRONT)]
    off = -max(centre, default=0.0)
    return piece.placed(Placement(x=off)) if 0.0 < off <= _MOST_OFF else piece


def whole_draft(piece: Piece, layer: Layer) -> Draft:
    """The whole shape once more: `CF` becomes `CF/facing`, its edge `CF.hem` becomes `CF/facing.hem`."""
    id = f"{piece.id}/{layer}"
    edges = tuple(replace(edge, id=renamed(edge.id, piece.id, id)) for edge in piece.edges)
    parts = {old.id: (EdgePart(id, new.id),) for old, new in zip(piece.edges, edges, strict=True)}
    return Draft(piece, edges, parts, (), _other(piece, id, f"{piece.label} {layer}", layer, edges))


def band_drafts(
    piece: Piece, bands: Sequence[Band], ends: Mapping[EndKey, BandEnd], hems: frozenset[str], kind: EdgeKind
) -> tuple[Draft, ...]:
    """A facing for each band, the inner edges as they are settled; `kind` is theirs, sewn to a lining or finished."""
    drafts = []
    for band, (id, label) in zip(bands, _names(piece, bands, hems), strict=True):
        leave, enter = _settled_ends(band, ends)
        curve = inner_curve(band.path, leave, enter)
        inner = Edge(f"{id}.{FACING_EDGE.id}", FACING_EDGE.id, "left", kind, curve)
        cut = cut_outline(piece, _place(leave), _place(enter), [inner], rename=id)
        drafts.append(_draft(piece, cut, (curve,), id, label, "facing"))
    return tuple(drafts)


def lining_draft(
    piece: Piece, bands: Sequence[Band], facings: Sequence[Draft], ends: Mapping[EndKey, BandEnd]
) -> Draft:
    """What the facings leave of a piece, sewn to their inner edges."""
    id = f"{piece.id}/lining"
    edges: list[Edge] = []
    parts: dict[str, tuple[EdgePart, ...]] = {}
    for k, (band, facing) in enumerate(zip(bands, facings, strict=True)):
        following = bands[(k + 1) % len(bands)]
        start, end = _settled_ends(band, ends)[0], _settled_ends(following, ends)[1]
        own = cut_outline(piece, _place(end), _place(start), [], rename=id)
        number = f"-{k + 1}" if k else ""
        inner = Edge(f"{id}.{FACING_EDGE.id}{number}", FACING_EDGE.id, "right", "seam", facing.cut[0].reversed())
        edges += [inner, *own.edges]
        parts |= {old: made for old, made in own.parts.items() if made}
    curves = tuple(facing.cut[0] for facing in facings)
    return _draft(piece, CutOutline(tuple(edges), parts), curves, id, f"{piece.label} lining", "lining")


def _settled_ends(band: Band, ends: Mapping[EndKey, BandEnd]) -> tuple[BandEnd, BandEnd]:
    return ends[band.leave.id, False], ends[band.enter.id, True]


def _place(end: BandEnd) -> OutlinePlace:
    return OutlinePlace(end.edge.id, end.arc)


def _draft(piece: Piece, cut: CutOutline, curves: tuple[Curve, ...], id: str, label: str, layer: Layer) -> Draft:
    parts = {old: made for old, made in cut.parts.items() if made}
    return Draft(piece, cut.edges, parts, curves, _other(piece, id, label, layer, cut.edges))


def _other(piece: Piece, id: str, label: str, layer: Layer, edges: Sequence[Edge]) -> dict[str, Any]:
    extent: Extent = piece.extent
    if extent == "half_on_fold" and all(edge.kind != "fold" for edge in edges):
        extent = "one_side"
    return {"id": id, "label": label, "layer": layer, "derived_from": piece.id, "extent": extent}


def _names(piece: Piece, bands: Sequence[Band], hems: frozenset[str]) -> list[tuple[str, str]]:
    """(id, label) of each band's facing: the hem's is called so, further ones are numbered."""
    names: list[tuple[str, str]] = []
    taken: dict[str, int] = {}
    for band in bands:
        hem = all(edge.line in hems for edge in band.run)
        word = "hem-facing" if hem else "facing"
        taken[word] = number = taken.get(word, 0) + 1
        suffix = f"-{number}" if number > 1 else ""
        names.append(
            (f"{piece.id}/{word}{suffix}", f"{piece.label} {word.replace('-', ' ')}{suffix.replace('-', ' ')}")
        )
    return names
