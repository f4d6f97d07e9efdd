"""The tasks of the edges: facing and lining, or edges that are bound and turned.

Sewing the facing on last and understitching it is common practice; so is trimming, clipping and grading an allowance
that is turned.
"""

from collections.abc import Iterator
from typing import Final

from panelwright.pattern.edge import Edge
from panelwright.pattern.piece import Layer, Piece
from panelwright.sewing.seams import GarmentSeams, Part
from panelwright.sewing.stitch import BY_HAND, SeamClass
from panelwright.sewing.task import Sewn, Task

SEAMS: Final[tuple[Part, ...]] = ("dart", "panel", "centre", "shoulder", "side", "sleeve", "armhole", "strip")
_TURNED: Final = (
    "Trim the allowances in steps, clip hollows to just before the stitching, and take the corners off.",
    "Understitch: with all allowances under the facing, sew close beside the seam as far as you reach.",
    "Turn to the inside, roll the seam a little inwards, and press.",
)


def set_on(garment: GarmentSeams) -> Iterator[Task]:
    """Straps and other things that are sewn to a finished edge, before the facing covers their ends."""
    seams = garment.seams("set-on")
    if seams:
        covered = "the facing will cover their ends" if garment.inner_layers else "turn their ends in"
        words = (
            f"Pin between the marks, raw edge on raw edge, and try it on before you sew: {covered}.",
            *(text for text in map(garment.eased, seams) if text),
        )
        yield Task("Sew on straps and ends", words, tuple(garment.sewn(seam) for seam in seams))


def layers(garment: GarmentSeams) -> Iterator[Task]:
    """Facing and lining are made like the shell."""
    for layer in ("facing", "lining"):
        yield from _layer(garment, layer)
    between = garment.between_layers()
    if between:
        words = ("Right sides together, notch on notch; press the allowances to the lining.",)
        yield Task("Lining to facing", words, tuple(garment.sewn(seam) for seam in between))


def _layer(garment: GarmentSeams, layer: Layer) -> Iterator[Task]:
    own: Layer = "outer" if layer == "facing" and garment.options.combined else layer
    seams = [seam for part in SEAMS for seam in garment.seams(part, own)]
    if layer in garment.inner_layers and seams:
        words = (
            f"Sew the {layer} together like the shell, with the same notches; leave open what opens in the shell.",
            "Press the seams open.",
            *(text for text in map(garment.eased, seams) if text and own != "outer"),
        )
        yield Task(f"Make the {layer}", words, tuple(garment.sewn(seam) for seam in seams))


def edges(garment: GarmentSeams) -> Iterator[Task]:
    """Upper edge, armholes and hem."""
    faced, bare = _faced(garment)
    if faced:
        length = sum(garment.edge_length(piece, edge) for piece, edge in faced)
        ids = frozenset(edge.id for _, edge in faced)
        what = " and ".join(sorted(garment.inner_layers))
        words = (
            f"Pin {what} to the shell right sides together, seam on seam, and sew along the stitch line.",
            *_TURNED,
        )
        yield Task(
            f"Sew the {what} to the edges",
            words,
            (Sewn("faced edges", ids, length), Sewn("understitching", ids, length, kind=SeamClass.LAPPED)),
        )
    zips = [closure for closure in garment.pattern.closures if closure.kind == "zip"]
    if zips and garment.inner_layers:
        length = 2 * sum(closure.opening for closure in zips)
        how = "Turn the inner edges in beside the teeth and sew them to the tapes by hand, clear of the slider."
        sewn = Sewn("inner edges at the zip", frozenset(), length, stitch=BY_HAND, kind=None)
        yield Task("Inner layers to the zip tapes", (how,), (sewn,))
    yield from _bare(garment, bare)


def _bare(garment: GarmentSeams, bare: list[tuple[Piece, Edge]]) -> Iterator[Task]:
    hems = [(piece, edge) for piece, edge in bare if edge.line in garment.hems]
    others = [(piece, edge) for piece, edge in bare if edge.line not in garment.hems]
    if others:
        words = (
            "Bind the edges with a bias strip, or turn them in twice where they are straight.",
            "A strip round a hollow is stretched a little, round a bulge it is eased.",
        )
        yield Task("Finish the free edges", words, (_edges_sewn(garment, others, "free edges", SeamClass.BOUND),))
    if hems:
        words = (
            "Try it on and mark the length; even the hem from the floor if it hangs.",
            "Turn it up by its allowance, press, and sew it down by hand with loose stitches; a curved hem is bound or "
            "faced instead.",
        )
        length = sum(garment.edge_length(piece, edge) for piece, edge in hems)
        ids = frozenset(edge.id for _, edge in hems)
        yield Task("Hem", words, (Sewn("hem", ids, length, stitch=BY_HAND, kind=SeamClass.EDGE_FINISHING),))


def _edges_sewn(garment: GarmentSeams, found: list[tuple[Piece, Edge]], what: str, kind: SeamClass) -> Sewn:
    length = sum(garment.edge_length(piece, edge) for piece, edge in found)
    return Sewn(what, frozenset(edge.id for _, edge in found), length, kind=kind)


def _faced(garment: GarmentSeams) -> tuple[list[tuple[Piece, Edge]], list[tuple[Piece, Edge]]]:
    """The finished edges of the shell that an inner layer turns, and those that none does; strips are made before."""
    strips = {piece.id for piece in garment.strips}
    inner = {
        (piece.derived_from, edge.line)
        for piece in garment.pattern.pieces
        if piece.layer in ("facing", "lining")
        for edge in piece.edges
    }
    faced: list[tuple[Piece, Edge]] = []
    bare: list[tuple[Piece, Edge]] = []
    for piece in garment.outer:
        if piece.id in strips or not piece.material:
            continue
        for edge in piece.edges:
            if edge.kind == "finished":
                turned = garment.options.combined or (piece.id, edge.line) in inner
                (faced if turned else bare).append((piece, edge))
    return faced, bare
