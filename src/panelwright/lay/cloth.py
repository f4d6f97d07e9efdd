"""A cloth to cut from: how wide, how it is laid, which way it runs, how it is sold."""

import math
from dataclasses import dataclass
from typing import Final

from panelwright.errors import InputError

USUAL_WIDTH: Final = 1400.0
USUAL_SALE: Final = 100.0
NARROWEST: Final = 100.0
WIDEST: Final = 4000.0
MOST_SHRINKAGE: Final = 0.3
LONGEST_SALE: Final = 10_000.0
# A length that is over a sold one by less than this is not worth another, mm: rounding in the last digits.
_NOTHING: Final = 1e-6


@dataclass(frozen=True)
class Cloth:
    """A cloth as it lies on the table: washed, if it will be washed, and squared at its ends.

    Attributes:
        name: as the pieces' cuts name it, `outer`, `festival silk`.
        width: between the selvages, without them, mm.
        folded: laid double, folded lengthwise, right sides together (True), spread out single, right side up (False),
            or folded if that suits the pieces and spread out otherwise (None).
        one_way: pile, sheen or print runs one way, so that the tops of all pieces must lie the same way.
        shrinkage: share of its length that it loses in the first wash, 0 … 0.3: so much more is bought.
        sold_by: the shop cuts multiples of this length, mm.
        price: of a metre, in whatever money, or None.
        assumed: nobody said how wide it is; what is reckoned from it says so.

    Raises:
        InputError: if a cloth cannot be so, in one sentence; `where` is the name of the attribute.
    """

    name: str
    width: float = USUAL_WIDTH
    folded: bool | None = None
    one_way: bool = False
    shrinkage: float = 0.0
    sold_by: float = USUAL_SALE
    price: float | None = None
    assumed: bool = False

    def __post_init__(self) -> None:
        if not self.name.strip():
            raise InputError("a cloth has no name; give it one", "name")
        if not NARROWEST <= self.width <= WIDEST:
            raise InputError(
                f"the width is {self.width / 10:g} cm; give between {NARROWEST / 10:g} and {WIDEST / 10:g} cm", "width"
            )
        if not 0.0 <= self.shrinkage <= MOST_SHRINKAGE:
            raise InputError(
                f"the shrinkage is {100 * self.shrinkage:g} percent; give between 0 and {100 * MOST_SHRINKAGE:g}",
                "shrinkage",
            )
        if not 1.0 <= self.sold_by <= LONGEST_SALE:
            raise InputError(
                f"it is sold by {self.sold_by / 10:g} cm; give between 0.1 and {LONGEST_SALE / 10:g} cm", "sold_by"
            )
        if self.price is not None and not 0.0 <= self.price < math.inf:
            raise InputError(f"the price of a metre is {self.price:g}; give 0 or more", "price")

    @property
    def half(self) -> float:
        """Width of the double layer when it is folded, mm."""
        return self.width / 2

    def to_buy(self, length: float) -> float:
        """What to buy for a lay of `length` mm: more by what it shrinks, rounded up to what the shop cuts, mm."""
        before_washing = length / (1.0 - self.shrinkage)
        return math.ceil((before_washing - _NOTHING) / self.sold_by) * self.sold_by

    def cost(self, bought: float) -> float | None:
        """What `bought` mm of it cost, or None where no price is given."""
        return None if self.price is None else self.price * bought / 1000.0
