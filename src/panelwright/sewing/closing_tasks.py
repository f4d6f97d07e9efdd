"""The tasks that open and shut a garment, and those that stiffen it."""

from collections.abc import Iterator
from typing import Final

from panelwright.pattern.closure import Closure, carried_on
from panelwright.pattern.notion import Notion
from panelwright.sewing.seams import MODESTY, GarmentSeams
from panelwright.sewing.stitch import BY_HAND, SeamClass
from panelwright.sewing.task import Sewn, Task

PUNCH: Final = "A punch and an eyelet tool bruise: strike on a block, fingers away."
STEEL: Final = (
    "Wear glasses when you cut steel. Cap or file both ends of every bone: an end that works through the cloth hurts."
)
_ZIPS: Final = {
    "centred": "Tack the opening shut along the stitch line, press it open, sew the zip behind it, take the tack out.",
    "lapped": "Sew one edge close to the teeth; the other edge laps over them and is sewn through all layers.",
    "exposed": "Turn both edges in so that the teeth show between them, and sew close to each edge.",
    "invisible": "Unroll the teeth with a cool iron and sew in the groove beside them, each edge right sides together.",
}


def zips(garment: GarmentSeams) -> Iterator[Task]:
    """Zips are sewn in before the facing covers their tapes."""
    # A zip that runs on through a waist seam is sewn in one with what it closes of the skirt.
    below = carried_on(garment.pattern.closures)
    zips = [one for one in garment.pattern.closures if one.kind == "zip" and one not in below.values()]
    for closure in zips:
        words = (
            f"{_zip_name(garment, closure)}: check its length against the opening before you sew.",
            _ZIPS.get(closure.style, "Sew each tape along its stitch line, from the same end."),
            "Begin both sides at the same end, and match waist and upper edge across the opening.",
        )
        sewn = _edges_sewn(garment, closure, "zip tapes")
        if closure.id in below:
            sewn += _edges_sewn(garment, below[closure.id], "zip tapes in the skirt")
        yield Task(f"Zip, {_place(closure)}", words, sewn)


def after_edges(garment: GarmentSeams) -> Iterator[Task]:
    """Closures that need the edges finished first."""
    for closure in garment.pattern.closures:
        match closure.kind:
            case "lacing":
                yield _lacing(garment, closure)
            case "hooks":
                yield _by_hand(garment, closure, "hook", "Hooks and eyes", "Sew each hook and its eye on opposite each "
                               "other, a little back from the edges, so that the edges just meet.")  # fmt: skip
            case "buttons":
                yield _by_hand(garment, closure, "button", "Buttons and buttonholes", "Make the buttonholes first, "
                               "through all layers, at the marks; sew the buttons on opposite them with a stem as long "
                               "as the cloth is thick.")  # fmt: skip
            case "tie":
                yield Task(
                    f"Ties, {_place(closure)}",
                    ("They are sewn on already: tie them as they will be worn before you finish their ends.",),
                    pieces=frozenset(piece.id for piece in garment.strips),
                )
            case "zip":
                pass


def channels(garment: GarmentSeams) -> Iterator[Task]:
    """Bone channels are sewn while the inside of the shell is still open."""
    bones = _notions(garment, "bone")
    if bones:
        length = 2 * sum(bone.count * (bone.length or 0.0) for bone in bones)
        casing = bool(_notions(garment, "casing"))
        where = tuple(f"{bone.count} × {bone.name}: {bone.detail}." for bone in bones)
        how = (
            "Sew the casing flat on the allowances, or along the guides, with a row of stitches on each side."
            if casing
            else "Sew both layers together along the channel's guides."
        )
        stop = "No channel crosses a stitched edge; leave one end of each open."
        yield Task("Bone channels", (how, *where, stop), (Sewn("channels", frozenset(), length, kind=None),))


def bones_in(garment: GarmentSeams) -> Iterator[Task]:
    """The bones go in when their other end is closed."""
    if _notions(garment, "bone"):
        yield Task(
            "Put the bones in",
            (
                "Cut each bone to the length that the sign-off page tells, after the fitting.",
                "Cap or file its ends, slide it in, and stitch the open end of the channel shut by hand.",
            ),
            caution=STEEL,
        )


def modesty(garment: GarmentSeams) -> Iterator[Task]:
    """The panel behind a lacing."""
    for piece in garment.outer:
        if piece.id.endswith(MODESTY):
            length = sum(garment.edge_length(piece, edge) for edge in piece.edges)
            edges = frozenset(edge.id for edge in piece.edges)
            sewn = Sewn("its edges", edges, length, kind=SeamClass.EDGE_FINISHING)
            words = (
                "Finish it all round, or sew it to its second layer and turn it.",
                "Sew one of its upright edges behind one edge of the lacing; the other stays loose.",
            )
            yield Task(piece.label, words, (sewn,))


def _lacing(garment: GarmentSeams, closure: Closure) -> Task:
    eyelets = [notion for notion in _notions(garment, "eyelet") if notion.step == closure.id]
    cords = [notion for notion in _notions(garment, "cord") if notion.step == closure.id]
    count = sum(notion.count for notion in eyelets)
    words = [
        f"Set {count} eyelets at their marks, half on each edge, through all layers." if count else "Set the eyelets.",
        "Try one on a scrap of the same layers first.",
    ]
    words += [f"Lace {cord.name} loosely from the top to the waist and from the hem to the waist." for cord in cords]
    return Task(f"Lacing, {_place(closure)}", tuple(words), pieces=_pieces(garment, closure), caution=PUNCH)


def _by_hand(garment: GarmentSeams, closure: Closure, kind: str, title: str, how: str) -> Task:
    notions = [notion for notion in _notions(garment, kind) if notion.step == closure.id]
    words = [f"{notion.count} × {notion.name}: {notion.detail}." for notion in notions]
    edges = _closure_edges(garment, closure)
    sewn = Sewn(title.lower(), edges, closure.opening, stitch=BY_HAND, kind=None)
    return Task(f"{title}, {_place(closure)}", (*words, how), (sewn,))


def _edges_sewn(garment: GarmentSeams, closure: Closure, what: str) -> tuple[Sewn, ...]:
    edges = _closure_edges(garment, closure)
    return (Sewn(what, edges, 2 * closure.opening, kind=None),)


def _closure_edges(garment: GarmentSeams, closure: Closure) -> frozenset[str]:
    """The outer edges that it shuts: those of its seam, else those on its line."""
    shut = [seam for seam in garment.pattern.seams if seam.id == closure.seam and seam.is_centre]
    if shut:
        return frozenset(span.edge for seam in shut for span in seam.a + seam.b)
    return frozenset(
        edge.id for piece in garment.outer for edge in piece.edges if edge.line == closure.place and edge.kind != "fold"
    )


def _pieces(garment: GarmentSeams, closure: Closure) -> frozenset[str]:
    edges = _closure_edges(garment, closure)
    return frozenset(piece.id for piece in garment.outer for edge in piece.edges if edge.id in edges)


def _zip_name(garment: GarmentSeams, closure: Closure) -> str:
    found = [notion for notion in _notions(garment, "zip") if notion.step == closure.id]
    return f"{found[0].name[:1].upper()}{found[0].name[1:]}" if found else "The zip"


def _place(closure: Closure) -> str:
    side = {"centre": "", "left": "left ", "right": "right "}[closure.hand]
    return f"{side}{closure.place.replace('-', ' ')}"


def _notions(garment: GarmentSeams, kind: str) -> list[Notion]:
    return [notion for notion in garment.pattern.notions if notion.kind == kind]
