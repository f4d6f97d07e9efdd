"""A group as its file holds it, format `panelwright-group/1`: docs/group-file.md tells every field."""

from typing import Annotated, Final, Literal

from pydantic import Field

from panelwright.app.block_record import CM, Record
from panelwright.app.cloth_record import ClothRecord
from panelwright.app.finish_record import ClothName
from panelwright.body.length_field import Centimetres
from panelwright.lay.group_lay import LONGEST

FORMAT: Final = "panelwright-group/1"
MOST_GARMENTS: Final = 200
MOST_ALIKE: Final = 200
MOST_PRICE: Final = 1e6

Price = Annotated[float, Field(ge=0.0, le=MOST_PRICE)]
Name = Annotated[str, Field(min_length=1, max_length=200)]


class GarmentRecord(Record):
    """One garment, or several alike."""

    wearer: Name | None = None
    size: int | None = None
    design: Name
    count: Annotated[int, Field(ge=1, le=MOST_ALIKE)] = 1
    cloths: dict[ClothName, ClothName] = Field(default={})


class SpareRecord(Record):
    """What is bought more than is needed, percent."""

    cloth_percent: Annotated[float, Field(ge=0.0, le=50.0)] = 0.0
    notions_percent: Annotated[float, Field(ge=0.0, le=100.0)] = 0.0


class GroupRecord(Record):
    """The file."""

    format: Literal["panelwright-group/1"]
    ref: str
    title: str
    money: Annotated[str, Field(max_length=8)] = ""
    garments: Annotated[list[GarmentRecord], Field(min_length=1, max_length=MOST_GARMENTS)]
    fittings: Annotated[list[Name], Field(max_length=MOST_GARMENTS)] = Field(default=[])
    cloths: Annotated[dict[ClothName, ClothRecord], Field(max_length=40)] = Field(default={})
    notion_prices: Annotated[dict[Name, Price], Field(max_length=100)] = Field(default={})
    spare: SpareRecord = SpareRecord()
    longest_lay_cm: Centimetres = LONGEST / CM
