"""The lays that are kept with a garment, format `panelwright-lays/1`; docs/lay-file.md describes every field.

{"format": "panelwright-lays/1", "design": "lantern-01", "wearer": "w-01", "lays": [
  {"cloth": "outer", "width_mm": 1400.0, "folded": true, "pieces": "5d41402abc4b2a76", "length_mm": 934.2,
   "searches": 1, "found": [{"piece": "CF", "number": 0, "x": 12.5, "y": 0.0, "rotation_deg": -90.0}]}]}
"""

import json
from pathlib import Path
from typing import Annotated, Final, Literal

from pydantic import Field

from panelwright.app.block_record import Record
from panelwright.app.finish_record import ClothName
from panelwright.app.hand_record import HandRecord
from panelwright.app.laid_for import LaidFor
from panelwright.app.place_record import MOST_LAID, PlaceRecord
from panelwright.app.record_text import record_in
from panelwright.errors import InputError
from panelwright.json_text import read_text
from panelwright.quotation import quoted

FORMAT: Final = "panelwright-lays/1"
MOST_LAYS: Final = 120
_LONGEST: Final = 1e6

Ref = Annotated[str, Field(min_length=1, max_length=40)]


class LayRecord(Record):
    """One lay.

    Attributes:
        cloth, width_mm, folded, one_way, pieces: what it is for, see `LaidFor`.
        length_mm: how long it was when it was kept.
        searches: how many searches have looked for a shorter one.
        found: where the last of them that found a shorter one laid the pieces; empty for the planner's first lay.
        hand: what a hand has moved since.
    """

    cloth: ClothName
    width_mm: Annotated[float, Field(gt=0, le=_LONGEST)]
    folded: bool
    one_way: bool = False
    pieces: Annotated[str, Field(pattern="^[0-9a-f]{16,64}$")]
    length_mm: Annotated[float, Field(ge=0, le=_LONGEST)]
    searches: Annotated[int, Field(ge=0, le=1_000_000)] = 0
    found: Annotated[tuple[PlaceRecord, ...], Field(max_length=MOST_LAID, strict=False)] = ()
    hand: HandRecord | None = None

    @property
    def laid_for(self) -> LaidFor:
        """What it is for."""
        return LaidFor(self.cloth, self.width_mm, self.folded, self.one_way, self.pieces)

    @property
    def is_by_hand(self) -> bool:
        """Whether a hand has moved pieces in it."""
        return self.hand is not None and bool(self.hand.moves)


class LaysRecord(Record):
    """The file: one garment's lays, the newest first."""

    format: Literal["panelwright-lays/1"] = FORMAT
    design: Ref
    wearer: Ref
    lays: Annotated[tuple[LayRecord, ...], Field(max_length=MOST_LAYS, strict=False)] = ()


def read_lays(text: str) -> LaysRecord:
    """The lays in the text of a file.

    Raises:
        InputError: if the text is not of this format; the message names the field.
    """
    return record_in(text, LaysRecord, FORMAT, "give the lays of a garment")


def load_lays(path: Path) -> LaysRecord:
    """The lays in a file.

    Raises:
        InputError: if it cannot be read or is not of this format; the message begins with its name.
    """
    text = read_text(path, "that is more than the lays of a garment need")
    try:
        return read_lays(text)
    except InputError as error:
        raise InputError(f"{quoted(path.name)}: {error}", error.where) from error


def readable_lays(text: str) -> LaysRecord | None:
    """The lays in a text that the workroom keeps; None where it cannot be read, as from a later program."""
    try:
        return read_lays(text)
    except InputError:
        return None


def together(first: LaysRecord, others: LaysRecord) -> LaysRecord:
    """The lays of the first, then those of the others that are for something else."""
    there = {lay.laid_for for lay in first.lays}
    lays = (*first.lays, *(lay for lay in others.lays if lay.laid_for not in there))
    return first.model_copy(update={"lays": lays[:MOST_LAYS]})


def lays_text(record: LaysRecord) -> str:
    """The text of a file."""
    return json.dumps(record.model_dump(mode="json", exclude_none=True), ensure_ascii=False)
