"""One version of one wearer, design, traced block, of a wearer's fitting notes, of a garment's lays, or of a group."""

from dataclasses import dataclass
from typing import Literal

Kind = Literal["wearer", "design", "trace", "fitting", "lay", "group"]


@dataclass(frozen=True)
class Version:
    """What was saved, and where it stands among the versions of its item.

    Attributes:
        number: counts up over the whole workroom; a later change has a greater one.
        kind, ref: of the item.
        document: the text of its file; None where the change was to remove it.
        what: the change in a person's words, `neckline lowered`.
        made_at: UTC, ISO 8601.
        before: number of the version that it was made from, or None for the first.
        can_undo, can_redo: whether a version before or after it is known.
    """

    number: int
    kind: Kind
    ref: str
    document: str | None
    what: str
    made_at: str
    can_undo: bool
    can_redo: bool
    before: int | None = None
