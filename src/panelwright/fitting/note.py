"""What all fitting notes have in common."""

import math
import re
from collections.abc import Hashable, Sequence
from typing import Final, Protocol

from panelwright.blocks.fit_panels import PanelFitter
from panelwright.body.worded_length import given_words, range_words
from panelwright.errors import InputError
from panelwright.fitting.reshape import Reshape
from panelwright.fitting.worked_panel import WorkedPanel
from panelwright.pattern.level import LEVELS

UID: Final = re.compile(r"[a-z0-9][a-z0-9-]{0,39}")
LEAST: Final = 1.0  # mm: less is nothing that a needle can do


class Note(Hashable, Protocol):
    """One note: a frozen, hashable value."""

    @property
    def kind(self) -> str:
        """What a fitting file calls it, `take-in`."""

    @property
    def uid(self) -> str:
        """Its permanent name in the fitting."""

    @property
    def label(self) -> str:
        """What it says, in a fitter's words."""

    def reshape(self, panels: Sequence[WorkedPanel], fitter: PanelFitter) -> Reshape | None:
        """The change of the block's panels; None for a note that is carried out by a design's steps.

        Raises:
            InputError: if the block has no such seam or level, or the note has no meaning there.
        """


def checked(uid: str, what: str, **amounts: tuple[float, float]) -> None:
    """Refuse a uid that cannot be, and amounts beyond a note's limit; each is (amount, most), mm.

    Raises:
        InputError: one sentence with the amount and the limit.
    """
    if not UID.fullmatch(uid):
        raise InputError(f"a note cannot be called {uid[:60]!r}; use up to 40 small letters, digits and hyphens", "uid")
    for name, (amount, most) in amounts.items():
        if not (math.isfinite(amount) and LEAST <= amount <= most):
            raise InputError(
                f"{what}: {name.replace('_', ' ')} is {given_words(amount)}; give {range_words(LEAST, most)}; if it "
                "is more, measure again and make a new block",
                name,
            )


def known_level(level: str, field: str) -> None:
    """Refuse a level that no block has.

    Raises:
        InputError: naming those that there are.
    """
    if level not in LEVELS:
        raise InputError(f"there is no level {level[:40]!r}; use one of {', '.join(LEVELS)}", field)


def spoken(id: str) -> str:
    """A line's or a level's id as a fitter says it: `front princess`."""
    return id.replace("-", " ")


def level_height(fitter: PanelFitter, level: str) -> float:
    """Height of a level above the waist, mm."""
    return float(fitter.z[fitter.levels.index(level)])
