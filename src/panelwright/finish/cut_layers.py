"""The layers inside a garment that are no plain copies of its shell: bands, what they leave, and smaller copies."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final

from panelwright.design.chain import EdgePart
from panelwright.errors import GeometryError, InputError
from panelwright.file_words import in_file
from panelwright.finish.facing_edge import FACING_EDGE
from panelwright.finish.facing_ends import BandEnd, settled
from panelwright.finish.facing_path import Band, EndKey, bands, is_pinched
from panelwright.finish.facing_plan import FacingPlan
from panelwright.finish.layer_draft import Draft, band_drafts, lining_draft, whole_draft
from panelwright.finish.layer_seams import LayerSeam, freed, layer_seams
from panelwright.finish.layers import lined
from panelwright.finish.options import Finish
from panelwright.finish.turn_of_cloth import turned
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Layer, Piece
from panelwright.pattern.seam import Seam, SeamRegion, Span

# Plans are drawn again until no facing is more than this shorter on a seam than its neighbour, mm.
_SHORT: Final = 3.0
_MOST_PLANS: Final = 6


@dataclass(frozen=True)
class CutLayers:
    """Derived pieces with shapes of their own.

    Attributes:
        pieces: facings first.
        seams: between them, each with the stretch of the shell's seam that it repeats.
        joins: seams between a facing and its lining.
    """

    pieces: tuple[Piece, ...] = ()
    seams: tuple[LayerSeam, ...] = ()
    joins: tuple[Seam, ...] = ()

    def __add__(self, other: "CutLayers") -> "CutLayers":
        return CutLayers(self.pieces + other.pieces, self.seams + other.seams, self.joins + other.joins)

    def on(self, pattern: Pattern) -> Pattern:
        """The pattern with these layers."""
        if not self.pieces:
            return pattern
        edges = (edge for piece in self.pieces for edge in piece.edges)
        lines = (FACING_EDGE,) if any(edge.line == FACING_EDGE.id for edge in edges) else ()
        return replace(
            pattern,
            pieces=pattern.pieces + self.pieces,
            seams=pattern.seams + tuple(one.seam for one in self.seams) + self.joins,
            lines=pattern.lines + lines,
        )


@lru_cache(maxsize=16)
def cut_layers(shell: Pattern, options: Finish) -> CutLayers:
    """All layers of the options whose pieces are not the shell's own shapes; remembered by content.

    Raises:
        InputError: if a piece is too narrow for the turn of cloth.
    """
    outer = [piece for piece in shell.pieces if piece.layer == "outer"]
    made = _faced(shell, outer, options) if options.facing == "edge" else CutLayers()
    if options.turn_of_cloth:
        copies: dict[Layer, bool] = {"facing": options.facing == "full", "lining": options.lining == "full"}
        for layer in (layer for layer, wanted in copies.items() if wanted):
            repeated = lined(outer, options) if layer == "lining" else outer
            made += _made(shell, [whole_draft(piece, layer) for piece in repeated], options)
    return made


def _faced(shell: Pattern, outer: Sequence[Piece], options: Finish) -> CutLayers:
    """Facings of a width; a panel whose band makes no piece, because it is too narrow somewhere, is faced whole."""
    plan = FacingPlan.of(shell, options)
    if options.lining == "to_facing" and any(is_pinched(piece, plan) for piece in outer):
        plan = FacingPlan.of(shell, options, across=True)
    while True:
        try:
            return _made(shell, _banded(shell, outer, plan, options), options)
        except _NoPiece as fault:
            if fault.source in plan.whole:
                raise
            plan = replace(plan, whole=plan.whole | {fault.source})


class _NoPiece(InputError):
    """A draft that makes no piece; `source` is the id of the panel that it was cut from."""

    def __init__(self, source: str) -> None:
        super().__init__(
            f"piece {source} is too narrow somewhere for a layer inside that is smaller by the turn of cloth; "
            f"give less of it{in_file('finish.turn_of_cloth_mm')}, or leave it out",
            "turn_of_cloth",
        )
        self.source = source


def _banded(shell: Pattern, outer: Sequence[Piece], plan: FacingPlan, options: Finish) -> list[Draft]:
    """Facings of a width, and the lining that they leave."""
    lined = options.lining == "to_facing"
    planned, ends = _planned(shell, outer, plan)
    facings: list[Draft] = []
    linings: list[Draft] = []
    for piece in outer:
        own = planned[piece.id]
        if own is None:
            facings.append(whole_draft(piece, "facing"))
            continue
        drafts = band_drafts(piece, own, ends, plan.hems, "seam" if lined else "finished")
        facings += drafts
        if lined:
            linings.append(lining_draft(piece, own, drafts, ends) if own else whole_draft(piece, "lining"))
    return facings + linings


def _planned(
    shell: Pattern, outer: Sequence[Piece], plan: FacingPlan
) -> tuple[Mapping[str, tuple[Band, ...] | None], Mapping[EndKey, BandEnd]]:
    """(bands of each piece, None where it is faced whole; their ends as neighbours agree on them).

    A panel whose neighbour's facing reaches farther down their seam is planned again with a band along the seam.
    """
    deeper: dict[EndKey, float] = {}
    planned: dict[str, tuple[Band, ...] | None] = {}
    changed = {edge.id for piece in outer for edge in piece.edges}
    for _ in range(_MOST_PLANS):
        for piece in outer:
            if not changed.isdisjoint(edge.id for edge in piece.edges):
                planned[piece.id] = None if piece.id in plan.whole else bands(piece, plan, deeper)
        own = [end for found in planned.values() for band in found or () for end in BandEnd.both(band)]
        ends = settled(shell, own)
        wanted = {end.key: max(ends[end.key].depth, end.wants) for end in own}
        short = {end.key: wanted[end.key] for end in own if wanted[end.key] > end.depth + _SHORT}
        if all(depth < deeper.get(key, 0.0) + _SHORT for key, depth in short.items()):
            break
        deeper |= short
        changed = {edge for edge, _ in short}
    return planned, ends


def _made(shell: Pattern, drafts: Sequence[Draft], options: Finish) -> CutLayers:
    """The pieces of drafts that are sewn together, and the seams between them."""
    if options.turn_of_cloth:
        drafts = turned(drafts, shell, options)
    pieces = {draft.id: _piece(draft) for draft in drafts}
    parts: dict[str, tuple[EdgePart, ...]] = {}
    for draft in drafts:
        for old, own in draft.parts.items():
            parts[old] = parts.get(old, ()) + tuple(own)
    sewn = layer_seams(_sewable(shell) if options.turn_of_cloth else shell, parts, pieces)
    joins = tuple(_joins(shell, pieces.values()))
    made, seams = freed(tuple(pieces.values()), [*(one.seam for one in sewn), *joins])
    repeated = tuple(replace(one, seam=seam) for one, seam in zip(sewn, seams[: len(sewn)], strict=True))
    return CutLayers(made, repeated, seams[len(sewn) :])


def _piece(draft: Draft) -> Piece:
    try:
        return draft.piece()
    except GeometryError as error:
        raise _NoPiece(draft.source.id) from error


def _joins(shell: Pattern, pieces: Iterable[Piece]) -> Iterator[Seam]:
    """A seam between every lining and each facing of its panel, whose inner edges it has in the same order."""
    own = list(pieces)
    for lining in (piece for piece in own if piece.layer == "lining"):
        facings = [piece for piece in own if piece.layer == "facing" and piece.derived_from == lining.derived_from]
        inner = [(piece, edge) for piece in facings for edge in piece.on_line(FACING_EDGE.id)]
        for (facing, mine), edge in zip(inner, lining.on_line(FACING_EDGE.id), strict=True):
            a, b = Span(facing.id, mine.id), Span(lining.id, edge.id, 1.0, 0.0)
            region = _region(shell, lining.derived_from)
            yield Seam(f"{FACING_EDGE.id}/{facing.id}", "join", (a,), (b,), region, blend=False)


def _region(shell: Pattern, piece: str | None) -> SeamRegion:
    backs = (seam for seam in shell.seams if seam.region == "back")
    return "back" if any(span.piece == piece for seam in backs for span in (*seam.a, *seam.b)) else "front"


def _sewable(shell: Pattern) -> Pattern:
    """The shell without what is set on a finished edge: once that edge is turned inside, its length is another."""
    kept = tuple(
        seam for seam in shell.seams if all(shell.edge(span).kind != "finished" for span in (*seam.a, *seam.b))
    )
    return replace(shell, seams=kept)
