"""A group that the workroom keeps, format `panelwright-workroom-group/1`: docs/group-file.md tells every field.

{"format": "panelwright-workroom-group/1", "ref": "group-1", "title": "The lantern-festival troupe",
 "garments": [{"design": "lantern-01", "wearer": "w-01", "count": 2, "outer": "red silk"}],
 "cloths": {"red silk": {"width_cm": 114, "price_per_metre": 28}}, "notion_prices": {}, "money": "EUR",
 "spare": {"cloth_percent": 3, "notions_percent": 10}, "longest_lay_cm": 400, "seconds": 10}
"""

import json
from collections.abc import Mapping
from typing import Annotated, Any, Final, Literal

from pydantic import Field

from panelwright.app.group import refuse_ref
from panelwright.app.group_asked import GarmentAsked, GroupAsked, refuse_impossible
from panelwright.app.group_record import MOST_GARMENTS
from panelwright.app.record_text import record_in
from panelwright.errors import InputError
from panelwright.quotation import quoted

FORMAT: Final = "panelwright-workroom-group/1"

Document = dict[str, Any]


class KeptGroup(GroupAsked):
    """The document: what is asked for, under a reference. It may still be without a garment."""

    format: Literal["panelwright-workroom-group/1"]
    ref: str
    garments: Annotated[list[GarmentAsked], Field(max_length=MOST_GARMENTS)] = Field(default=[])


def read_group(text: str) -> KeptGroup:
    """The group in the text of a document.

    Raises:
        InputError: if the text is not of this format, or tells what cannot be; the message names the field.
    """
    group = record_in(text, KeptGroup, FORMAT, "give a group of a workroom")
    refuse_ref(group.ref)
    refuse_impossible(group)
    seen = set[tuple[str, str]]()
    for own in group.garments:
        if (own.design, own.wearer) in seen:
            raise InputError(
                f"{quoted(own.design)} for {quoted(own.wearer)} is in the group twice: give it once, with count",
                "garments",
            )
        seen.add((own.design, own.wearer))
    return group


def plain_group(document: Document) -> Document:
    """The document with every length as a number, which a file may give with its unit; what is left out stays so.

    Raises:
        InputError: as `read_group`.
    """
    return read_group(json.dumps(document)).model_dump(mode="json", exclude_unset=True)


def readable_group(text: str) -> KeptGroup | None:
    """The group in a text that the workroom keeps; None where it cannot be read, as from a later program."""
    try:
        return read_group(text)
    except InputError:
        return None


def for_wearers(document: Document, now: Mapping[str, str]) -> Document:
    """A group with other references of its wearers.

    Args:
        document: checked.
        now: reference in the document -> the one to be; the garments of those who are not in it are left out.
    """
    if "garments" not in document:
        return document
    garments = [own | {"wearer": now[own["wearer"]]} for own in document["garments"] if own["wearer"] in now]
    return document | {"garments": garments}


def without_wearer(document: Document, wearer: str) -> Document:
    """A group without the garments of a wearer."""
    own = document.get("garments")
    if not isinstance(own, list):  # as a later program could have written it
        return document
    return document | {
        "garments": [each for each in own if not (isinstance(each, dict) and each.get("wearer") == wearer)]
    }
