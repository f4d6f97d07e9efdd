"""What the marks of a piece are called on its drawing: a name for each, one for both ends of a tie."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from panelwright.geometry.arrays import Array
from panelwright.pattern.mark import Mark


@dataclass(frozen=True, eq=False)
class MarkName:
    """A name and what it belongs to.

    Attributes:
        text: as it is written.
        at: the mark, or the middle between the two ends of a tie, mm.
    """

    text: str
    at: Array


def mark_names(marks: Sequence[Mark]) -> list[MarkName]:
    """A name for every point; two points that are the ends of one tie have one, `tie 2`, between them."""
    own = {mark.id: mark for mark in marks if mark.kind == "point"}
    ties = {id: match for id in own if (match := re.fullmatch(r"(.+-(\d+))-(upper|lower)", id))}
    paired = {id: match for id, match in ties.items() if {f"{match[1]}-upper", f"{match[1]}-lower"} <= own.keys()}
    alone = len({match[1] for match in paired.values()}) == 1
    names = []
    for id, mark in own.items():
        if id not in paired:
            names.append(MarkName(id.rsplit("/", 1)[-1].replace("-", " "), np.array(mark.at)))
        elif paired[id][3] == "upper":
            middle = np.mean([mark.at, own[f"{paired[id][1]}-lower"].at], axis=0)
            names.append(MarkName("tie" if alone else f"tie {paired[id][2]}", middle))
    return names
