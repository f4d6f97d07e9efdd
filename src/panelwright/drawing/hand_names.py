"""What lines, levels and marks are called on a hand sheet: plain words, no commas, no capitals."""

from typing import Final

from panelwright.pattern.edge import EdgeKind
from panelwright.pattern.line import BLOCK, HEM, TOP, Line
from panelwright.pattern.mark import InsideKind, InsideLine, Mark

_BLOCK_ENDS: Final = {TOP: "upper edge of the block", HEM: "lower edge of the block"}
_INSIDE: Final[dict[InsideKind, str]] = {"stitch": "stitching line", "dart": "dart line", "fold": "fold line"}
BUST_POINT: Final = "bust-point"
_KINDS: Final[dict[EdgeKind, str]] = {
    "fold": "lies on the fold of the cloth",
    "opening": "is an opening",
    "seam": "is sewn as a seam",
    "finished": "is a finished edge",
}


def line_name(line: Line) -> str:
    """`side seam`, `top edge`; the ends of a block say that they are the block's."""
    if line.origin == BLOCK and line.id in _BLOCK_ENDS:
        return _BLOCK_ENDS[line.id]
    name = line.label.replace(",", "").replace(" edges", " edge")
    return name[0].lower() + name[1:]


def inside_name(inside: InsideLine) -> str:
    """`stitching line centre back 1`."""
    return f"{_INSIDE[inside.kind]} {_plain(inside.id).removeprefix('dart ')}"


def level_name(id: str) -> str:
    """`lower waist`."""
    return id.replace("-", " ")


def mark_words(mark: Mark) -> str:
    """`the bust point`, `button 1`, `“straps front inner”`."""
    words = _plain(mark.id)
    if mark.id == BUST_POINT:
        return f"the {words}"
    return f"“{words}”" if mark.kind == "point" else words


def kind_words(kind: EdgeKind) -> str:
    """What becomes of an edge, after its name."""
    return _KINDS[kind]


def _plain(id: str) -> str:
    return id.rsplit("/", 1)[-1].replace("-", " ")
