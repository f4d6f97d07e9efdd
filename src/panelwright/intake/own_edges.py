"""What becomes of every edge of a drawn pattern: the line that it lies on, its kind, its id."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import permutations
from typing import Final

from panelwright.intake.drawn_pattern import DrawnPattern
from panelwright.intake.edge_ref import EdgeRef
from panelwright.intake.edge_trait import EdgeTrait, traits
from panelwright.pattern import line as lines
from panelwright.pattern.edge import EdgeKind

CENTRE_OF: Final = {"CF": lines.CENTRE_FRONT, "CB": lines.CENTRE_BACK}


@dataclass(frozen=True)
class OwnEdge:
    """An edge that has been named.

    Attributes:
        id: unique in the pattern, `SF.side`.
        line: id of its line.
        kind: what becomes of it.
        rising: whether its outline runs up the body there; None for an edge that runs across.
    """

    id: str
    line: str
    kind: EdgeKind
    rising: bool | None


def own_edges(whole: DrawnPattern) -> Mapping[EdgeRef, OwnEdge]:
    """The edges of a pattern at full scale, by their places in its outlines, its shared edges divided.

    An edge in a seam bears the seam's name, a centre or finished edge the name it was given, else `top` or `hem` as it
    lies, else one of its own. A centre front of which nobody said how it is cut is on the fold, a centre back opens.

    Raises:
        InputError: if one edge is in two seams.
    """
    seams = whole.sewn
    found: dict[EdgeRef, OwnEdge] = {}
    for trait in traits(whole):
        line, kind = _line(trait, seams.get(trait.ref)), _kind(trait, trait.ref in seams)
        id = f"{trait.ref.piece}.{line}"
        taken = {edge.id for edge in found.values()}
        number = next(k for k in range(1, len(taken) + 2) if (id if k == 1 else f"{id}-{k}") not in taken)
        found[trait.ref] = OwnEdge(id if number == 1 else f"{id}-{number}", line, kind, trait.rising)
    return found


def called(line: str, pieces: Sequence[str]) -> str:
    """The label of a line: its name, `Front princess`; else `Edge 4` of its piece, or `F–SB` of the pieces it joins.

    Args:
        pieces: ids of those that have it.
    """
    own = f"{pieces[0]}-edge-"
    if line.startswith(own):
        return f"Edge {line.removeprefix(own)}"
    for one, other in permutations(pieces, 2):
        if line.startswith(f"{one}-{other}".lower()):
            return f"{one}–{other}"
    return line.replace("-", " ").capitalize()


def _line(trait: EdgeTrait, seam: str | None) -> str:
    if seam is not None:
        return seam
    if trait.edge.line:
        return trait.edge.line
    plain = f"{trait.ref.piece}-edge-{trait.piece.drawn_number(trait.ref.number)}"
    if trait.role == "centre":
        return CENTRE_OF.get(trait.ref.piece, plain)
    if trait.role == "finished" and not trait.upright:
        return lines.TOP if trait.high else lines.HEM
    return plain


def _kind(trait: EdgeTrait, sewn: bool) -> EdgeKind:
    if sewn:
        return "seam"
    if trait.edge.kind is not None:
        return trait.edge.kind
    if trait.role == "centre":
        return "fold" if trait.edge.line == lines.CENTRE_FRONT else "opening"
    return "seam" if trait.role == "seam" else "finished"
