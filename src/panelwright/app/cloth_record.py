"""The cloth of a design file: how wide each one is, how it is laid, how it is sold."""

from collections.abc import Mapping
from typing import Annotated, Final, Self

from pydantic import Field

from panelwright.app.block_record import CM, Record
from panelwright.app.finish_record import ClothName
from panelwright.body.length_field import Centimetres
from panelwright.errors import InputError
from panelwright.lay.cloth import USUAL_SALE, USUAL_WIDTH, Cloth
from panelwright.quotation import quoted

FIELD: Final = "cloth_to_buy"
_PERCENT: Final = 100.0
# What the attributes of a cloth are called in the file.
_FIELDS: Final = {
    "width": "width_cm",
    "shrinkage": "shrinkage_percent",
    "sold_by": "sold_by_cm",
    "price": "price_per_metre",
}


class ClothRecord(Record):
    """One cloth; what is left out is as `Cloth` has it."""

    width_cm: Centimetres | None = None
    folded: bool | None = None
    one_way: bool = False
    shrinkage_percent: float = 0.0
    sold_by_cm: Centimetres = USUAL_SALE / CM
    price_per_metre: float | None = None

    def cloth(self, name: str) -> Cloth:
        """The cloth, mm; without its width it is assumed.

        Raises:
            InputError: if there can be no such cloth.
        """
        try:
            return Cloth(
                name,
                width=USUAL_WIDTH if self.width_cm is None else self.width_cm * CM,
                folded=self.folded,
                one_way=self.one_way,
                shrinkage=self.shrinkage_percent / _PERCENT,
                sold_by=self.sold_by_cm * CM,
                price=self.price_per_metre,
                assumed=self.width_cm is None,
            )
        except InputError as error:
            where = f"{FIELD}.{name}.{_FIELDS.get(error.where, error.where)}"
            raise InputError(f"{where}: {error}", where) from error

    @classmethod
    def of(cls, cloth: Cloth) -> Self:
        """The record of a cloth in mm; an assumed width stays out of it."""
        return cls(
            width_cm=None if cloth.assumed else round(cloth.width / CM, 9),
            folded=cloth.folded,
            one_way=cloth.one_way,
            shrinkage_percent=round(cloth.shrinkage * _PERCENT, 9),
            sold_by_cm=round(cloth.sold_by / CM, 9),
            price_per_metre=cloth.price,
        )


ClothRecords = Annotated[dict[ClothName, ClothRecord], Field(max_length=20)]


def cloths_from(records: Mapping[str, ClothRecord], known: tuple[str, ...]) -> tuple[Cloth, ...]:
    """The cloths of a file, in its order.

    Args:
        records: name -> what is said about it.
        known: the cloths that the design cuts its layers from.

    Raises:
        InputError: if there can be no such cloth, or the design cuts nothing from it.
    """
    for name in records:
        if name not in known:
            raise InputError(
                f"{FIELD}: no layer is cut from {quoted(name)}; choose among {', '.join(known)}, or name it in "
                "finish.cloths",
                f"{FIELD}.{name}",
            )
    return tuple(record.cloth(name) for name, record in records.items())
