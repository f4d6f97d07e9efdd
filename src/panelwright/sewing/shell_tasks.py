"""The tasks of the shell: from cut pieces to a garment that is tried on.

The order is common practice: princess seams, side seams tacked, fit, sew.
"""

from collections.abc import Iterator, Sequence
from typing import Final

from panelwright.body.worded_length import length_words
from panelwright.checks.turning_through import check_turning_through
from panelwright.finish.piece_code import same_shape
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam
from panelwright.sewing.seams import GarmentSeams
from panelwright.sewing.stitch import SeamClass
from panelwright.sewing.task import Sewn, Task

NARROW: Final = 30.0  # mm: the allowances of a strip not wider than this are trimmed
IRON: Final = "An iron burns: keep fingers and steam apart, and let learners press beside a teacher."
FIT: Final = (
    "Keep pins away from skin. If it pinches, numbs or takes the breath, open it at once; the fitter decides what "
    "is changed."
)
_PINNED: Final = (
    "Pin right sides together, notch on notch, then both ends, then between; sew from the upper edge down.",
    "On a curve the cut edges differ in length; the stitch lines are equal: pin on the stitch line.",
)


def interfacing(garment: GarmentSeams) -> Iterator[Task]:
    """The interfacing is put on first, while the pieces are flat."""
    pieces = [piece for piece in garment.pattern.pieces if piece.layer == "interfacing"]
    if pieces:
        wearers = frozenset(piece.derived_from for piece in pieces if piece.derived_from)
        yield Task(
            "Interfacing",
            (
                "Try the interfacing on a scrap of the cloth first.",
                f"Lay each of the {len(pieces)} interfacing pieces on the wrong side of its own piece, stitch line on "
                "stitch line, and fuse it or baste it on inside the allowance.",
            ),
            pieces=wearers,
            caution=IRON,
        )


def darts(garment: GarmentSeams) -> Iterator[Task]:
    """Darts before seams that cross them."""
    yield from _seams_task(
        garment,
        garment.seams("dart"),
        "Darts",
        ("Fold each dart right sides together, sew from its wide end and run off at the point; knot the ends.",),
        "Press them to the centre or downwards, over something round.",
    )


def strips(garment: GarmentSeams) -> Iterator[Task]:
    """Straps and ties are made before they are caught in; those of one shape together."""
    alike: list[list[Piece]] = []
    for piece in garment.strips:
        group = next((group for group in alike if same_shape(piece, group[0])), None)
        if group is None:
            alike.append([piece])
        else:
            group.append(piece)
    for group in alike:
        long = [(piece, edge) for piece in group for edge in piece.edges if edge.kind == "finished"]
        length = sum(garment.edge_length(piece, edge) for piece, edge in long)
        doubled = garment.is_doubled(group[0])
        kind = SeamClass.SUPERIMPOSED if doubled else SeamClass.EDGE_FINISHING
        sewn = Sewn("long edges", frozenset(edge.id for _, edge in long), length, kind=kind)
        names = ", ".join(piece.label for piece in group)
        count = sum(garment.sides(piece) for piece in group)
        yield Task(f"{names}: {count} to make" if count > 1 else names, _strip_words(group[0], doubled), (sewn,))


def _strip_words(piece: Piece, doubled: bool) -> tuple[str, ...]:
    if not doubled:
        return (
            "Turn the free edges in twice and sew them down close to the edge.",
            "Ends that are caught in a seam stay raw.",
        )
    left, bottom, right, top = piece.outline.bounds
    words = [
        "Sew each to its second layer right sides together along the free edges; ends that are caught in stay open."
    ]
    if min(right - left, top - bottom) <= NARROW:
        words.append(f"Trim the allowances to about {length_words(6.0)}: more finds no room inside.")
    return (*words, "Turn right side out and press.")


def caught(garment: GarmentSeams) -> Iterator[Task]:
    """What is caught in a seam or an edge is basted there before that is sewn."""
    seams = garment.seams("caught")
    if seams:
        names = ", ".join(garment.name(seam) for seam in seams)
        yield Task(
            "Baste on what is caught in",
            (f"Right sides together, raw edge on raw edge, between its marks: {names}.",),
            tuple(garment.sewn(seam) for seam in seams),
        )


def panels(garment: GarmentSeams) -> Iterator[Task]:
    """The panels of front and back."""
    for region in ("front", "back"):
        seams = [seam for seam in garment.seams("panel") if seam.region == region]
        yield from _seams_task(
            garment,
            seams,
            f"Panel seams of the {region}",
            _PINNED if region == "front" or not garment.has_front_seams else ("Pin and sew them like those in front.",),
            "Clip the hollow allowance, take small wedges out of the round one, and press open over something round.",
        )
    centres = garment.seams("centre")
    yield from _seams_task(garment, centres, "Centre seams", tuple(_centre_words(garment, centres)), "Press open.")


def _centre_words(garment: GarmentSeams, centres: Sequence[Seam]) -> Iterator[str]:
    """Which way they are sewn, and from where on: what a closure opens stays open."""
    opened = [(seam, closure) for seam in centres for closure in garment.closures_above(seam)]
    if len({seam.id for seam, _ in opened}) < len(centres):
        yield "Right sides together, from the upper edge down."
    for seam, closure in opened:
        words = garment.name(seam)
        end = "the zip's end" if closure.kind == "zip" else "the end of the opening"
        low = "waist" if garment.runs_into_skirt(seam) else "hem"
        yield (
            f"{words[:1].upper()}{words[1:]}: right sides together, from the mark at {end} down to the {low}; above it "
            f"stays open for the {closure.kind}."
        )


def shoulders(garment: GarmentSeams) -> Iterator[Task]:
    """Shoulders, unless they have to stay open until the layers are turned."""
    if not check_turning_through(garment.cutting):
        yield from shoulder_task(garment)


def shoulder_task(garment: GarmentSeams, last: bool = False) -> Iterator[Task]:
    """The shoulder seams; last of all where the layers are turned through them."""
    how = (
        "The layers are turned: sew the outer shoulders together by machine as far as you reach, and close the inner "
        "ones by hand.",
        "Right sides together, from the neck outwards; neckline and armhole run on without a step.",
    )[0 if last else 1]
    yield from _seams_task(garment, garment.seams("shoulder"), "Shoulder seams", (how,), "Press open.")


def sides(garment: GarmentSeams) -> Iterator[Task]:
    """Side seams are tacked, the garment is tried on, then they are sewn."""
    seams = garment.seams("side")
    if seams:
        tacked = tuple(garment.sewn(seam) for seam in seams)
        yield Task(
            "Tack the side seams and try it on",
            (
                "Tack with long stitches, right sides together.",
                "Try it on over what will be worn under it, closed with pins as it will be closed.",
                "Look at the levels: waist on waist, bust point on bust point. Stand, sit, lift the arms, breathe in.",
                "Mark what is changed on both sides of the seam alike, and write it down for the next garment.",
            ),
            pieces=frozenset(span.piece for seam in seams for span in seam.a + seam.b),
            caution=FIT,
        )
        yield Task(
            "Side seams",
            (
                "Sew along the tacking, take it out, and press open.",
                *_left_open(garment, seams),
                *_eased(garment, seams),
            ),
            (*tacked, *garment.neatened(seams)),
        )


def _left_open(garment: GarmentSeams, seams: Sequence[Seam]) -> tuple[str, ...]:
    return tuple(
        f"Leave {length_words(closure.opening)} of the wearer's {closure.hand} side open for the {closure.kind}."
        for seam in seams
        for closure in garment.openings(seam)
    )


def _seams_task(
    garment: GarmentSeams, seams: Sequence[Seam], title: str, words: tuple[str, ...], then: str
) -> Iterator[Task]:
    if seams:
        sewn = tuple(garment.sewn(seam) for seam in seams)
        yield Task(title, (*words, *_eased(garment, seams), then), (*sewn, *garment.neatened(seams)))


def _eased(garment: GarmentSeams, seams: Sequence[Seam]) -> tuple[str, ...]:
    return tuple(words for words in map(garment.eased, seams) if words)
