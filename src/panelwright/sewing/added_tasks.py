"""The tasks of what is added to a shell: frills and peplums, sleeves, a waistband.

Two rows of long stitches for gathers and for the ease of a cap, and sleeves after the side seams, are common practice.
"""

from collections.abc import Iterator, Sequence
from typing import Final

from panelwright.pattern.piece import Piece
from panelwright.sewing.seams import FLOUNCES, GarmentSeams
from panelwright.sewing.stitch import BY_HAND, SeamClass
from panelwright.sewing.task import Sewn, Task

_SET_IN: Final = (
    "Run two rows of long stitches over the cap between the notches and draw them up until it fits the armhole.",
    "Pin the sleeve in: underarm on side seam, notch on notch (one in front, two behind), crown on shoulder.",
    "Sew with the sleeve above, from the underarm round; no tuck is caught. Sew the lower half a second time.",
)


def flounces(garment: GarmentSeams) -> Iterator[Task]:
    """Frills and peplums are closed to a ring and finished at their free edge before they are sewn on."""
    for piece in garment.added(*FLOUNCES):
        own = [seam for seam in garment.seams("strip") if seam.a[0].piece == piece.id]
        sewn = (*(garment.sewn(seam) for seam in own), *_finished(garment, [piece], "free edges"))
        words = ["Sew its ends together and press the seam open."] if own else []
        words.append("Turn its free edges in twice, or bind them where they are round.")
        yield Task(f"Make the {piece.label.lower()}", tuple(words), sewn)


def flounces_on(garment: GarmentSeams) -> Iterator[Task]:
    """Those that go to an edge are sewn on when the shell is closed round."""
    seams = garment.seams("added")
    if seams:
        eased = tuple(words for words in map(garment.eased, seams) if words)
        words = ("Pin right sides together, ends and notches first, and sew with the fuller side above.", *eased)
        sewn = (*(garment.sewn(seam) for seam in seams), *garment.neatened(seams))
        yield Task("Sew on frill and peplum", words, sewn)


def sleeves(garment: GarmentSeams) -> Iterator[Task]:
    """Sleeves are closed, then set into the armholes."""
    pieces = garment.added("sleeve")
    if not pieces:
        return
    under = [garment.sewn(seam) for seam in garment.seams("sleeve")]
    made = ("Sew the underarm seam, right sides together, and press it open.", "Turn the wrist up and sew it down.")
    wrists = _finished(garment, pieces, "wrists", by_hand=True)
    yield Task("Make the sleeves", made, (*under, *wrists, *garment.neatened(garment.seams("sleeve"))))
    seams = garment.seams("armhole")
    yield Task("Set the sleeves in", _SET_IN, (*map(garment.sewn, seams), *garment.neatened(seams)))


def waist(garment: GarmentSeams) -> Iterator[Task]:
    """A skirt is sewn to the bodice when both are closed at their sides, before the zip goes through the seam."""
    seams = garment.seams("waist")
    if not seams:
        return
    eased = tuple(words for words in map(garment.eased, seams) if words)
    words = (
        "Slip the bodice into the skirt, right sides together: centres on centres, side seams and notches together.",
        *eased,
        "Sew round the waist on the bodice's side, and hold the seam with a tape so that the skirt's weight does not "
        "stretch it.",
        "Let it hang for a day before the hem is levelled.",
    )
    yield Task("Waist seam", words, (*map(garment.sewn, seams), *garment.neatened(seams)))


def waistband(garment: GarmentSeams) -> Iterator[Task]:
    """A band takes the waist edge between its two sides."""
    pieces = garment.added("waistband")
    for piece, seam in zip(pieces, garment.seams("waistband"), strict=True):
        folded = any(line.kind == "fold" for line in piece.inside)
        inner = "the other half of the band, folded along its middle" if folded else "its second layer"
        words = (
            "Hold the band round the waist before you sew: it is as long as the edge, and its overlap.",
            "Pin its sewn edge to the waist, right sides together, notch on notch, and sew.",
            f"Sew the ends to {inner}, right sides together, and turn them.",
            "Turn the free edge in over the seam and sew it down inside.",
        )
        hooks = [n for n in garment.pattern.notions if n.step == seam.id]
        fasten = tuple(f"Sew on {notion.count} × {notion.name}, {notion.detail}." for notion in hooks)
        sewn = (garment.sewn(seam), *_finished(garment, [piece], "ends and free edge"))
        yield Task("Waistband", (*words, *fasten), sewn)


def _finished(garment: GarmentSeams, pieces: Sequence[Piece], what: str, by_hand: bool = False) -> tuple[Sewn, ...]:
    """The finished edges of pieces as they are sewn."""
    found = [(piece, edge) for piece in pieces for edge in piece.edges if edge.kind == "finished"]
    if not found:
        return ()
    length = sum(garment.edge_length(piece, edge) for piece, edge in found)
    edges = frozenset(edge.id for _, edge in found)
    if by_hand:
        return (Sewn(what, edges, length, stitch=BY_HAND, kind=SeamClass.EDGE_FINISHING),)
    return (Sewn(what, edges, length, kind=SeamClass.EDGE_FINISHING),)
