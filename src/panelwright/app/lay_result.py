"""Reading where the pieces of a lay lie, as `panelwright lay` or a person wrote it, and proving it."""

import re
from collections import Counter
from pathlib import Path
from typing import Annotated, Final

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from panelwright.app.field_fault import sentence
from panelwright.app.lay_instance import FARTHEST, MOST_PIECES, Coordinate, LayInstance
from panelwright.errors import InputError, LayError
from panelwright.json_text import kind_of, parse_object, read_text
from panelwright.lay.search.proof import flaws
from panelwright.lay.search.task import Found, Place, Turn
from panelwright.quotation import quoted

_SAME_TURN: Final = 1e-6  # degrees


class _Record(BaseModel):
    model_config = ConfigDict(strict=True, frozen=True, extra="ignore", allow_inf_nan=False)


class _PlaceRecord(_Record):
    piece: Annotated[str, Field(min_length=1, max_length=200)]
    copy_: Annotated[int, Field(ge=0, lt=MOST_PIECES, alias="copy")]
    x: Coordinate
    y: Coordinate
    rotation_deg: Annotated[float, Field(ge=-FARTHEST, le=FARTHEST)] = 0.0
    mirrored: bool = False


class _ResultRecord(_Record):
    placements: Annotated[list[_PlaceRecord], Field(max_length=MOST_PIECES)]


def load_lay_result(path: Path, instance: LayInstance) -> Found:
    """Where everything lies, in the order of the task.

    Raises:
        InputError: if the file cannot be read or does not hold every piece once.
        LayError: if the pieces cannot be cut as they lie.
    """
    text = read_text(path, "that is more than a lay needs")
    try:
        return read_lay_result(text, instance)
    except InputError as error:
        error.args = (f"{quoted(path.name)}: {error}",)
        raise


def read_lay_result(text: str, instance: LayInstance) -> Found:
    """The same from a text.

    Raises:
        InputError, LayError: as `load_lay_result`.
    """
    document = parse_object(text)
    kind = kind_of(document)
    if kind is not None:
        raise InputError(f"the file holds {kind}, not where pieces lie: give what `panelwright lay` wrote", "format")
    try:
        record = _ResultRecord.model_validate(document)
    except ValidationError as error:
        raise InputError(*sentence(error, _ResultRecord)) from error
    _refuse_other_pieces(record, instance)
    by_name = {(place.piece, place.copy_): place for place in record.placements}
    places = tuple(_place(by_name[copy], instance, k) for k, copy in enumerate(instance.copies))
    task = instance.task
    ends = [
        place.points(task.outlines[piece.shape])[:, 0].max() for piece, place in zip(task.pieces, places, strict=True)
    ]
    found = Found(float(max(ends)), places)
    wrong = flaws(task, found)
    if wrong:
        raise LayError(f"the lay cannot be cut: {_named(wrong[0], instance)}; lay it anew or move the piece", "lay")
    return found


def _refuse_other_pieces(record: _ResultRecord, instance: LayInstance) -> None:
    given, wanted = Counter((place.piece, place.copy_) for place in record.placements), Counter(instance.copies)
    for missing in wanted - given:
        raise InputError(
            f"copy {missing[1]} of {quoted(missing[0])} lies nowhere: give every copy a place", "placements"
        )
    for extra in given - wanted:
        raise InputError(
            f"copy {extra[1]} of {quoted(extra[0])} is not wanted, or stands there twice: take it out", "placements"
        )


def _place(record: _PlaceRecord, instance: LayInstance, number: int) -> Place:
    """A place in one of the turns that the piece may have."""
    for turn in instance.task.pieces[number].turns:
        off = (record.rotation_deg - turn.degrees + 180.0) % 360.0 - 180.0
        if turn.mirrored == record.mirrored and abs(off) < _SAME_TURN:
            return Place(turn, record.x, record.y)
    return Place(Turn(record.rotation_deg % 360.0, record.mirrored), record.x, record.y)


def _named(flaw: str, instance: LayInstance) -> str:
    """A flaw with the pieces' names for their numbers, which stand at its head."""
    numbers = re.match(r"\d+(?: and \d+)?(?= )", flaw)
    head = numbers[0] if numbers else ""
    return re.sub(r"\d+", lambda number: quoted(instance.copies[int(number[0])][0]), head) + flaw[len(head) :]
