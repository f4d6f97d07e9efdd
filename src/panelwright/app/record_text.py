"""A record in the text of a file, or one sentence on why it is none."""

from typing import TypeVar

from pydantic import BaseModel, ValidationError

from panelwright.app.field_fault import sentence
from panelwright.errors import InputError
from panelwright.json_text import parse_object, refuse_other_format

Record = TypeVar("Record", bound=BaseModel)


def record_in(text: str, record: type[Record], format: str, first: str) -> Record:
    """The record.

    Args:
        text: JSON.
        record: what it is to hold.
        format: its `format`.
        first: what to do when it is another file of ours.

    Raises:
        InputError: if the text is not of this format; the message names the field.
    """
    document = parse_object(text)
    refuse_other_format(document, format, first)
    try:
        return record.model_validate(document)
    except ValidationError as error:
        raise InputError(*sentence(error, record)) from error
