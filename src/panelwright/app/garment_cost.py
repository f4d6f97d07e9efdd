"""What one garment costs: the cloth of its lays and its notions, at the prices of a group or of its design."""

from collections.abc import Iterable, Mapping, Sequence

from panelwright.app.bought_as_kept import bought_as_kept
from panelwright.app.garment import Garment
from panelwright.app.group import Group, GroupGarment
from panelwright.app.shopping import Shopping, shopping_for
from panelwright.app.shopping_rows import ASSUMED, CLOTH_HEADS, NOTION_HEADS, cloth_rows, notion_rows, total_words
from panelwright.body.units import Unit
from panelwright.drawing.bill import CLOTH, NOTION, Bill
from panelwright.drawing.paragraph import Column
from panelwright.lay.piece_to_cut import cloths_of


def garment_cost(garment: Garment, prices: Group | None = None, unit: Unit = Unit.CM) -> Shopping:
    """What the garment alone needs, as a group of one.

    Args:
        garment: as it was made; the lays that are kept of it hold.
        prices: the group whose cloths and prices hold, and what it calls the design's cloths. None: what the design
            says of its cloths.
        unit: of the lengths in a refusal.

    Raises:
        LayError: if a piece is too wide for its cloth.
        InputError: if a kept lay is not one of the group's cloth.
    """
    names = {} if prices is None else _names(garment, prices)
    shopping = _laid_for(garment, prices, names, unit)
    return bought_as_kept(shopping, garment.kept, cloths_of(garment.cutting), names, unit)


def _laid_for(garment: Garment, prices: Group | None, names: Mapping[str, str], unit: Unit) -> Shopping:
    design = garment.design
    own = GroupGarment(garment.wearer, design, 1, names)
    if prices is None:
        return shopping_for(Group(design.ref, design.title, (own,)), [garment], unit)
    cloths = {names.get(name, name) for name in cloths_of(garment.cutting)}
    notions = {notion.name for notion in garment.cutting.pattern.notions}
    alone = Group(
        design.ref,
        design.title,
        (own,),
        tuple(cloth for cloth in prices.cloths if cloth.name in cloths),
        {name: price for name, price in prices.prices.items() if name in notions},
        prices.money,
    )
    return shopping_for(alone, [garment], unit)


def bill_of(shopping: Shopping, unit: Unit = Unit.CM) -> Bill:
    """The cost of one garment in words."""
    assumed = any(bought.cloth.assumed for bought in shopping.cloths)
    return Bill(
        tuple(_cells(row, CLOTH_HEADS, CLOTH) for row in cloth_rows(shopping, unit)),
        tuple(_cells(row, NOTION_HEADS, NOTION) for row in notion_rows(shopping, unit)),
        total_words(shopping),
        (f"{ASSUMED} Nobody said how wide this cloth is: a usual width is assumed.",) if assumed else (),
    )


def cost_facts(shopping: Shopping) -> dict[str, object]:
    """The cost ready for JSON; lengths in mm."""
    return {
        "money": shopping.group.money,
        "cost": shopping.cost,
        "without_price": list(shopping.without_price),
        "cloths": [
            {"cloth": bought.cloth.name, "to_buy_mm": bought.to_buy, "cost": bought.cost} for bought in shopping.cloths
        ],
        "notions": [
            {"name": notion.name, "count": notion.count, "length_mm": notion.length, "cost": notion.cost}
            for notion in shopping.notions
        ],
    }


def _cells(row: Sequence[str], heads: Sequence[str], columns: Iterable[Column]) -> tuple[str, ...]:
    """Those cells of a shopping list that a bill has; a garment's lays and whom it is for stand elsewhere."""
    told = dict(zip(heads, row, strict=True))
    return tuple(told[column.title] for column in columns)


def _names(garment: Garment, group: Group) -> dict[str, str]:
    """What the group calls the design's cloths: in its entry for this wearer, else in its first for the design."""
    same = [own for own in group.garments if own.design.ref == garment.design.ref]
    chosen = next((own for own in same if own.wearer.ref == garment.wearer.ref), same[0] if same else None)
    used = cloths_of(garment.cutting)
    return {} if chosen is None else {name: called for name, called in chosen.cloths.items() if name in used}
