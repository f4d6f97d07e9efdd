"""What a design says of the whole garment, for a page that asks for it: the fields of the parts that are no steps.

It is made from the records that read a design file, as `step_words` is from the forms of the steps: a field that is
added to one of them appears by itself, with its name for a label until it has words.
"""

from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import Final

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from panelwright.app.block_record import BlockRecord
from panelwright.app.design_file import DesignRecord
from panelwright.app.field_words import FieldWords, GroupWords
from panelwright.app.finish_record import FinishRecord
from panelwright.app.garment_labels import ENTRY_LABELS, GARMENT_LABELS, GROUPS
from panelwright.app.told_field import UNITS, Document, core_type, plain_name, told_field
from panelwright.blocks.options import BlockOptions
from panelwright.finish.options import Finish

# What is settled when a design is begun, and no field afterwards.
_SETTLED: Final = frozenset({"traced"})
# Where a record leaves to the options what is usual, they say it here.
_USUAL: Final[Mapping[str, BaseModel]] = {
    "block": BlockRecord.of(BlockOptions()),
    "finish": FinishRecord.of(Finish()),
}


def garment_vocabulary() -> list[Document]:
    """`name`, `label`, `about` and `fields` of each group of fields, in the order of making.

    A field is told as those of the steps are, with `about` besides, one line of explanation; its name is the way to
    it in the design file (`block.ease_cm.bust`), also in `when`. `widths` is a type more: lengths by line.
    """
    held: dict[str, list[Document]] = {group.name: [] for group in GROUPS}
    for part, info in DesignRecord.model_fields.items():
        if part not in _SETTLED and (record := _record(info)):
            usual = _USUAL[part].model_dump(by_alias=True) if part in _USUAL else {}
            for field in _fields(record, part, usual):
                held[_group(field["name"]).name].append(field)
    return [
        {"name": group.name, "label": group.label, "about": group.about, "fields": held[group.name]} for group in GROUPS
    ]


@lru_cache(maxsize=1)
def garment_fields() -> Mapping[str, Document]:
    """All those fields by their ways in the design file."""
    return {field["name"]: field for group in garment_vocabulary() for field in group["fields"]}


def _fields(
    record: type[BaseModel], way: str, usual: Mapping[str, object], unit: str | None = None
) -> Iterator[Document]:
    """The fields of a record and of the records in it.

    Args:
        way: to the record.
        usual: name -> what holds if the file says nothing.
        unit: of lengths whose names do not tell it.
    """
    for attribute, info in record.model_fields.items():
        name = info.alias or attribute
        path, known = f"{way}.{name}", usual.get(name)
        if inner := _record(info):
            own = known if isinstance(known, Mapping) else {}
            yield from _fields(inner, path, own, UNITS.get(name[-3:]))
        else:
            words = GARMENT_LABELS.get(path) or FieldWords(plain_name(name))
            told = told_field(path, info, words, ENTRY_LABELS, unit)
            yield told | ({"default": known} if isinstance(known, bool | int | float | str) else {})


def _record(info: FieldInfo) -> type[BaseModel] | None:
    """The record that a field holds, if it holds one."""
    core, _ = core_type(info.annotation)
    return core if isinstance(core, type) and issubclass(core, BaseModel) else None


def _group(path: str) -> GroupWords:
    fitting = [(len(start), group) for group in GROUPS for start in group.holds if path.startswith(start)]
    return max(fitting, key=lambda each: each[0])[1]
