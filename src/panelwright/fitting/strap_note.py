"""Straps shorter or longer than reckoned for this wearer."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal, get_args

from panelwright.blocks.fit_panels import PanelFitter
from panelwright.body.worded_length import given_words
from panelwright.errors import InputError
from panelwright.fitting.note import checked
from panelwright.fitting.worked_panel import WorkedPanel

Way = Literal["shorter", "longer"]
WAYS: Final[tuple[str, ...]] = get_args(Way)
MOST: Final = 40.0  # mm: as far as a grown strap can be changed


@dataclass(frozen=True)
class StrapNote:
    """Tells every design for this wearer that its straps are to be shorter or longer than reckoned.

    A design that gives its straps a length keeps that length.

    Attributes:
        uid: permanent name.
        way: `shorter` or `longer`.
        amount: mm, above 0.

    Raises:
        InputError: if it cannot be; one sentence.
    """

    uid: str
    way: Way
    amount: float

    def __post_init__(self) -> None:
        if self.way not in WAYS:
            raise InputError(f"a strap is made shorter or longer, not {self.way!r}", "way")
        checked(self.uid, f"strap {self.way}", amount=(self.amount, MOST))

    @property
    def signed(self) -> float:
        """What it adds to the strap, mm."""
        return self.amount if self.way == "longer" else -self.amount

    @property
    def kind(self) -> str:
        """What a fitting file calls it."""
        return f"strap-{self.way}"

    @property
    def label(self) -> str:
        """`Straps 1 cm shorter`."""
        return f"Straps {given_words(self.amount)} {self.way}"

    def reshape(self, panels: Sequence[WorkedPanel], fitter: PanelFitter) -> None:
        """The block stays as it is."""
