"""A fitting: the notes of one wearer, in the order in which they are carried out."""

import re
from dataclasses import dataclass
from datetime import date
from typing import Final

from panelwright.errors import InputError
from panelwright.fitting.full_bust import FullBust
from panelwright.fitting.length_note import LengthNote
from panelwright.fitting.seam_note import SeamNote
from panelwright.fitting.shoulder_note import ShoulderNote
from panelwright.fitting.strap_note import StrapNote
from panelwright.fitting.sway_back import SwayBack
from panelwright.quotation import quoted

FittingNote = SeamNote | LengthNote | SwayBack | FullBust | ShoulderNote | StrapNote
MOST_NOTES: Final = 60
REF: Final = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,39}")


@dataclass(frozen=True)
class Fitting:
    """What one or several fittings of a wearer found.

    Attributes:
        wearer: neutral reference; never a name.
        notes: each with its own uid.
        off: uids of those that are kept and not carried out.
        made_on: when the toile was fitted, if it is known.

    Raises:
        InputError: if two notes share a uid, there are too many, or one is switched off that is not there.
    """

    wearer: str
    notes: tuple[FittingNote, ...] = ()
    off: frozenset[str] = frozenset()
    made_on: date | None = None

    def __post_init__(self) -> None:
        if not REF.fullmatch(self.wearer):
            raise InputError("wearer must be a neutral reference in quotes, like w-07", "wearer")
        if len(self.notes) > MOST_NOTES:
            raise InputError(
                f"there are {len(self.notes)} notes; more than {MOST_NOTES} call for a new block from new measurements",
                "notes",
            )
        uids = [note.uid for note in self.notes]
        for uid in uids:
            if uids.count(uid) > 1:
                raise InputError(f"two notes are called {uid}; give one of them another name", "notes")
        for uid in sorted(self.off - set(uids)):
            raise InputError(f"there is no note {quoted(uid)} to switch off", "notes")

    @property
    def working(self) -> tuple[FittingNote, ...]:
        """The notes that are carried out."""
        return tuple(note for note in self.notes if note.uid not in self.off)
