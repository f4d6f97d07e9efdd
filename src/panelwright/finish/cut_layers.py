"""The layers inside a garment that are no plain copies of its shell: bands, what they leave, and smaller copies."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import chain

from panelwright.design.chain import EdgePart
from panelwright.errors import GeometryError
from panelwright.finish.facing_edge import FACING_EDGE
from panelwright.finish.facing_ends import BandEnd, settled
from panelwright.finish.facing_path import Band, bands
from panelwright.finish.facing_plan import FacingPlan
from panelwright.finish.layer_draft import Draft, band_drafts, lining_draft, whole_draft
from panelwright.finish.layer_seams import LayerSeam, freed, layer_seams
from panelwright.finish.options import Finish
from panelwright.finish.turn_of_cloth import turned
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Layer, Piece
from panelwright.pattern.seam import Seam, SeamRegion, Span


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


def cut_layers(shell: Pattern, options: Finish) -> CutLayers:
    """All layers of the options whose pieces are not the shell's own shapes."""
    groups: list[Sequence[Draft]] = []
    outer = [piece for piece in shell.pieces if piece.layer == "outer"]
    if options.facing == "edge":
        groups.append(_banded(shell, outer, options))
    if options.turn_of_cloth:
        copies: dict[Layer, bool] = {"facing": options.facing == "full", "lining": options.lining == "full"}
        groups += [[whole_draft(piece, layer) for piece in outer] for layer, wanted in copies.items() if wanted]
    made = CutLayers()
    for drafts in groups:
        if options.turn_of_cloth:
            drafts = turned(drafts, shell, options)
        own = _made(shell, drafts, turned_edges=options.turn_of_cloth > 0)
        made = CutLayers(made.pieces + own.pieces, made.seams + own.seams, made.joins + own.joins)
    return made


def _banded(shell: Pattern, outer: Sequence[Piece], options: Finish) -> list[Draft]:
    """Facings of a width, and the lining that they leave."""
    plan, lined = FacingPlan.of(shell, options), options.lining == "to_facing"
    planned = {piece.id: None if piece.id in plan.whole else _sound_bands(piece, plan) for piece in outer}
    found = [band for own in planned.values() for band in own or ()]
    ends = settled(shell, chain.from_iterable(BandEnd.both(band) for band in found))
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


def _sound_bands(piece: Piece, plan: FacingPlan) -> tuple[Band, ...] | None:
    """The bands of a piece, or None where they make no pieces: it is faced whole then."""
    own = bands(piece, plan)
    if not own:
        return own
    ends = {end.key: end for band in own for end in BandEnd.both(band)}
    try:
        for draft in band_drafts(piece, own, ends, plan.hems, "finished"):
            draft.piece()
    except GeometryError:
        return None
    return own


def _made(shell: Pattern, drafts: Sequence[Draft], turned_edges: bool) -> CutLayers:
    """The pieces of drafts and the seams between them."""
    pieces = {draft.id: draft.piece() for draft in drafts}
    parts: dict[str, tuple[EdgePart, ...]] = {}
    for draft in drafts:
        for old, own in draft.parts.items():
            parts[old] = parts.get(old, ()) + tuple(own)
    sewn = layer_seams(_sewable(shell) if turned_edges else shell, parts, pieces)
    joins = tuple(_joins(shell, pieces.values()))
    made, seams = freed(tuple(pieces.values()), [*(one.seam for one in sewn), *joins])
    repeated = tuple(replace(one, seam=seam) for one, seam in zip(sewn, seams[: len(sewn)], strict=True))
    return CutLayers(made, repeated, seams[len(sewn) :])


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
