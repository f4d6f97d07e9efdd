"""Shoulder seams and straps: what a garment hangs by, told by the lines that bodice tops and straps draw."""

import re
from typing import Final

from panelwright.pattern.line import ARMHOLE, SHOULDER
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Seam

_WORDS: Final = frozenset({"strap", "straps", SHOULDER, "halter"})


def hangs(line: str) -> bool:
    """Whether a line belongs to a shoulder or strap: `shoulder`, `<step uid>/strap-edge`."""
    return bool(set(re.split(r"[^a-z]+", line.rpartition("/")[2].lower())) & _WORDS)


def has_shoulders(pattern: Pattern) -> bool:
    """Whether it is a bodice to the shoulder, with armholes of its own; a strap's edge is no armhole."""
    outer = (piece for piece in pattern.pieces if piece.layer == "outer")
    return any(edge.line.rpartition("/")[2] == ARMHOLE for piece in outer for edge in piece.edges)


def is_shoulder_seam(pattern: Pattern, seam: Seam) -> bool:
    """Whether a seam joins front and back at the shoulder, of the bodice or of a grown strap."""
    return pattern.edge(seam.a[0]).line.rpartition("/")[2] == SHOULDER
