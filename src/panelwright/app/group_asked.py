"""What a page asks for where garments of the workroom are bought and cut together."""

from collections.abc import Mapping
from typing import Annotated, Final

from pydantic import Field, ValidationError

from panelwright.app.block_record import CM, Record
from panelwright.app.cloth_record import ClothRecord
from panelwright.app.field_fault import sentence
from panelwright.app.finish_record import ClothName
from panelwright.app.group import refuse_title
from panelwright.app.group_record import MOST_ALIKE, MOST_GARMENTS, Name, Price, SpareRecord
from panelwright.body.length_field import Centimetres
from panelwright.errors import InputError
from panelwright.lay.group_lay import LONGEST, refuse_longest

MOST_SECONDS: Final = 120.0


class GarmentAsked(Record):
    """One garment, or several alike.

    Attributes:
        design, wearer: refs.
        count: how many.
        outer: what its outer cloth is called in the group, where that is not what the design calls it.
    """

    design: Name
    wearer: Name
    count: Annotated[int, Field(ge=1, le=MOST_ALIKE)] = 1
    outer: ClothName = ""


class GroupAsked(Record):
    """What is asked for.

    Attributes:
        title: stands at the head of the list.
        garments: who gets what.
        cloths: what is known of the group's cloths; of one that no garment is cut from, nothing is made.
        notion_prices: name -> price of one, or of a metre.
        money: stands after every price.
        spare: what is bought more.
        longest_lay_cm: a longer lay is parted.
        seconds: of search for each lay, computing time; 0: first lays.
    """

    title: str
    garments: Annotated[list[GarmentAsked], Field(min_length=1, max_length=MOST_GARMENTS)]
    cloths: Annotated[dict[ClothName, ClothRecord], Field(max_length=80)] = Field(default={})
    notion_prices: Annotated[dict[Name, Price], Field(max_length=200)] = Field(default={})
    money: Annotated[str, Field(max_length=8)] = ""
    spare: SpareRecord = SpareRecord()
    longest_lay_cm: Centimetres = LONGEST / CM
    seconds: Annotated[float, Field(ge=0.0, le=MOST_SECONDS)] = 0.0


def group_asked(fields: Mapping[str, object]) -> GroupAsked:
    """What the fields of a request ask for; what can be refused before any garment is drawn is.

    Raises:
        InputError: if they ask for anything that cannot be; the message names the field.
    """
    try:
        asked = GroupAsked.model_validate(fields)
    except ValidationError as error:
        raise InputError(*sentence(error, GroupAsked)) from error
    refuse_impossible(asked)
    return asked


def refuse_impossible(asked: GroupAsked) -> None:
    """Refuse what can be told without drawing a garment.

    Raises:
        InputError: if title or longest lay cannot be, or a cloth has no name.
    """
    refuse_title(asked.title)
    refuse_longest(asked.longest_lay_cm * CM)
    if not all(name.strip() for name in (*asked.cloths, *(each.outer or "outer" for each in asked.garments))):
        raise InputError("a cloth has no name; give it one", "cloths")
