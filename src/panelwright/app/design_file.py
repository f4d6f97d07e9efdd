"""Reading and writing a design file, format `panelwright-design/1`: block, steps and finish of one garment.

    {"format": "panelwright-design/1", "ref": "lantern-01", "title": "Lantern bearer's bodice",
     "block": {"ease_cm": {"waist": 2}, "panels": 4, ...}, "steps": [...], "finish": {"allowance_cm": 1, ...},
     "wearing": {"cloth": "woven", "boned": false}, "cloth_to_buy": {"outer": {"width_cm": 140, ...}, ...}}

Lengths are in centimetres; a text may name its own unit ("5/8 in"). What is left out is as the program has it;
without `steps` the default steps apply. Every step may have `"off": true`, which keeps it in the list
and does not carry it out, and a `"note"`.
docs/user-guide.md describes every field.
"""

import json
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import astuple
from pathlib import Path
from typing import Annotated, Any, Final, Literal

from pydantic import Field

from panelwright.app.block_record import BlockRecord, Record
from panelwright.app.cloth_record import ClothRecord, ClothRecords, cloths_from
from panelwright.app.finish_record import FinishRecord
from panelwright.app.garment_design import DEFAULT_STEPS, REF_PATTERN, GarmentDesign, Traced
from panelwright.app.record_text import record_in
from panelwright.checks.wearing import Wearing
from panelwright.design.step_file import step_list_from_json, steps_to_json
from panelwright.design.step_list import StepList
from panelwright.errors import InputError
from panelwright.json_text import read_text
from panelwright.quotation import quoted
from panelwright.saved_file import save

FORMAT: Final = "panelwright-design/1"
MOST_STEPS: Final = 200


class WearingRecord(Record):
    """How the garment is worn."""

    cloth: Literal["woven", "knit"] = "woven"
    boned: bool = False


class TracedRecord(Record):
    """The traced block of the workroom that the design lies on."""

    ref: Annotated[str, Field(pattern=f"^{REF_PATTERN}$")]
    true: bool = True


class DesignRecord(Record):
    """A design file. Steps are read by `step_file`."""

    format: Literal["panelwright-design/1"]
    ref: str
    title: str
    block: BlockRecord = BlockRecord()
    steps: Annotated[list[Any], Field(max_length=MOST_STEPS)] | None = None
    finish: FinishRecord = FinishRecord()
    wearing: WearingRecord = WearingRecord()
    cloth_to_buy: ClothRecords = Field(default={})
    traced: TracedRecord | None = None


def load_design(path: Path) -> GarmentDesign:
    """The design in a file.

    Raises:
        InputError: if it cannot be read, is larger than 1 MB, is not of this format, or holds what cannot be
            used; the message begins with the file's name and says which field.
    """
    text = read_text(path, "that is more than a design needs")
    try:
        return read_design(text)
    except InputError as error:
        raise InputError(f"{quoted(path.name)}: {error}", error.where) from error


def read_design(text: str) -> GarmentDesign:
    """The design in the text of a file.

    Raises:
        InputError: if the text is not of this format; the message names the field.
    """
    record = record_in(text, DesignRecord, FORMAT, "the measurements go first, the design after them")
    with _in_field("block"):
        block = record.block.options()
    with _in_field("finish"):
        finish = record.finish.finish()
    usual = StepList(DEFAULT_STEPS if block.type == "princess" else ())
    listed = usual if record.steps is None else step_list_from_json(record.steps)
    wearing = Wearing(record.wearing.cloth, record.wearing.boned)
    cloths = cloths_from(record.cloth_to_buy, tuple(dict.fromkeys(astuple(finish.cloths))))
    traced = None if record.traced is None else Traced(record.traced.ref, record.traced.true)
    return GarmentDesign(
        record.ref, record.title, block, listed.steps, finish, wearing, cloths, listed.off, listed.notes, traced
    )


def design_document(design: GarmentDesign) -> dict[str, object]:
    """The design, ready for JSON."""
    record = DesignRecord(
        format=FORMAT,
        ref=design.ref,
        title=design.title,
        block=BlockRecord.of(design.block),
        steps=steps_to_json(design.steps, design.off, design.notes),
        finish=FinishRecord.of(design.finish),
        wearing=WearingRecord(cloth=design.wearing.cloth, boned=design.wearing.boned),
        cloth_to_buy={cloth.name: ClothRecord.of(cloth) for cloth in design.cloths},
        traced=None if design.traced is None else TracedRecord(ref=design.traced.ref, true=design.traced.true),
    )
    return record.model_dump(mode="json", by_alias=True, exclude_none=True)


def save_design(design: GarmentDesign, path: Path) -> None:
    """Write a design to a file; it is there whole or not at all.

    Raises:
        OutputError: if it cannot be written.
    """
    save(path, (json.dumps(design_document(design), ensure_ascii=False, indent=2) + "\n").encode())


@contextmanager
def _in_field(name: str) -> Iterator[None]:
    """Puts the part of the file before the sentence of an option that cannot be."""
    try:
        yield
    except InputError as error:
        raise InputError(f"{name}: {error}", f"{name}.{error.where}" if error.where else name) from error
