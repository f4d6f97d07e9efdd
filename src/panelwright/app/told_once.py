"""Findings about a block read off paper, each misfit once."""

from collections.abc import Iterable
from typing import Final

from panelwright.finding import Finding

# What a fold that was drawn bent brings with it, and what judges a girth that is otherwise only told.
FOLLOWS_BENT_FOLD: Final = ("centre-front-place", "beyond-fold")
JUDGES_GIRTH: Final = ("tight", "loose", "ease-unusual")


def told_once(found: Iterable[Finding], own: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Without what is said again.

    A seam's length is told by the block's own finding, with its place, and not by the drafting rule; what follows from
    a fold that was drawn bent is told by the bend; the plain number of a girth goes where that girth is judged.

    Args:
        found: all of them.
        own: those among them that tell of the block itself.
    """
    listed, mine = tuple(found), set(map(id, own))
    seams = {each.subject for each in own if each.code == "seam-length"}
    bent = {each.piece for each in listed if each.code == "fold-straight"}
    judged = {each.subject for each in listed if each.code in JUDGES_GIRTH}

    def is_said(each: Finding) -> bool:
        match each.code:
            case "seam-length":
                return id(each) not in mine and each.subject in seams
            case "drawn-girth":
                return each.subject in judged
        return each.code in FOLLOWS_BENT_FOLD and each.piece in bent

    return tuple(each for each in listed if not is_said(each))
