"""The lines of a shopping list as cells, for text and pages alike; it bears references and no measurements."""

from collections.abc import Iterator, Sequence
from typing import Final

from panelwright.app.notion_list import NotionToBuy
from panelwright.app.shopping import Shopping
from panelwright.body.units import Unit, format_length
from panelwright.finish.cut_count import cloth_words
from panelwright.lay.group_lay import ClothToBuy
from panelwright.sewing.thread import REEL

NOTHING: Final = "–"
CLOTH_HEADS: Final = ("Cloth", "Width", "Buy", "Lays", "Used", "Price", "Cost", "For")
NOTION_HEADS: Final = ("", "Notion", "Length", "Price", "Cost", "For")
GARMENT_HEADS: Final = ("", "Garment", "For", "How many")
ASSUMED: Final = "*"


def cloth_rows(shopping: Shopping, unit: Unit) -> list[list[str]]:
    """A row for each cloth, as `CLOTH_HEADS` has them."""
    return [_cloth(bought, shopping, unit) for bought in shopping.cloths]


def notion_rows(shopping: Shopping, unit: Unit) -> list[list[str]]:
    """A row for each notion and one for the thread, as `NOTION_HEADS` has them."""
    rows = [_notion(notion, shopping.marks, shopping.group.money, unit) for notion in shopping.notions]
    reels = f"of {REEL / 1000:.0f} m" if unit is not Unit.INCH else f"of {REEL / 914.4:.0f} yd"
    return [
        *rows,
        [f"{shopping.reels} ×", "reel of sewing thread, if all is sewn in one colour", reels, NOTHING, NOTHING, "all"],
    ]


def garment_rows(shopping: Shopping) -> list[list[str]]:
    """A row for each garment, as `GARMENT_HEADS` has them."""
    return [
        [mark, own.design.title, own.wearer.ref, f"{own.count} ×"]
        for mark, own in zip(shopping.marks, shopping.group.garments, strict=True)
    ]


def notes(shopping: Shopping, unit: Unit) -> list[str]:
    """What to mind, the important first."""
    return list(_notes(shopping, unit))


def total_words(shopping: Shopping) -> str:
    """`In all 184.20 EUR, without facing and eyelet.`"""
    if shopping.cost is None:
        return "No prices are given, so there is no cost."
    left_out = shopping.without_price
    without = f", without {_listed(left_out)}, whose price is not given" if left_out else ""
    return f"In all {money(shopping.cost, shopping.group.money)}{without}; thread is not counted."


def money(amount: float | None, name: str) -> str:
    """An amount with what the group calls its money, or nothing."""
    return NOTHING if amount is None else f"{amount:.2f} {name}".rstrip()


def _cloth(bought: ClothToBuy, shopping: Shopping, unit: Unit) -> list[str]:
    cloth, name = bought.cloth, shopping.group.money
    words = cloth_words(cloth.name)
    price = NOTHING if cloth.price is None else f"{money(cloth.price, name)} a metre"
    return [
        f"{words[:1].upper()}{words[1:]}",
        format_length(cloth.width, unit) + (ASSUMED if cloth.assumed else ""),
        long_length(bought.to_buy, unit),
        str(len(bought.lays)),
        f"{100 * bought.use:.0f} %",
        price,
        money(bought.cost, name),
        _marks([garment.mark for garment in bought.garments], shopping.marks),
    ]


def _notion(notion: NotionToBuy, every: Sequence[str], name: str, unit: Unit) -> list[str]:
    if notion.length is None:
        length = ""
    elif notion.by_length:
        length = f"{long_length(notion.length, unit)} in all"
    else:
        length = f"{format_length(notion.length, unit)}{' each' if notion.count > 1 else ''}"
    price = NOTHING if notion.price is None else money(notion.price, name) + (" a metre" if notion.by_length else "")
    count = f"for {notion.count}" if notion.by_length else f"{notion.count} ×"
    return [count, notion.name, length, price, money(notion.cost, name), _marks(notion.marks, every)]


def long_length(length: float, unit: Unit) -> str:
    """A length as a shop tells it: metres, or yards where people measure in inches."""
    return f"{length / 914.4:.2f} yd" if unit is Unit.INCH else f"{length / 1000:.2f} m"


def _marks(own: Sequence[str], every: Sequence[str]) -> str:
    """`all`, or the marks with runs of three and more as `A–D`."""
    if len(own) == len(every) > 1:
        return "all"
    runs: list[list[int]] = []
    for place in sorted(every.index(mark) for mark in own):
        if runs and place == runs[-1][-1] + 1:
            runs[-1].append(place)
        else:
            runs.append([place])
    return ", ".join(
        f"{every[run[0]]}–{every[run[-1]]}" if len(run) > 2 else ", ".join(every[place] for place in run)
        for run in runs
    )


def _notes(shopping: Shopping, unit: Unit) -> Iterator[str]:
    group = shopping.group
    for mark, error in shopping.not_ready:
        yield f"{mark} is not ready to cut: {error}"
    if shopping.fitted:
        yield f"Cut after the wearer's fitting notes: {_marks(shopping.fitted, shopping.marks)}."
    if shopping.notes_left_out:
        yield (
            f"Of the wearer's fitting notes some change nothing on {_marks(shopping.notes_left_out, shopping.marks)}: "
            "make the garment alone with its notes, and it says which and why."
        )
    if any(bought.cloth.assumed for bought in shopping.cloths):
        yield f"{ASSUMED} Nobody said how wide this cloth is: a usual width is assumed."
    for bought in shopping.cloths:
        if bought.cloth.shrinkage:
            yield (
                f"{bought.cloth.name}: wash it before cutting; what it loses, {100 * bought.cloth.shrinkage:g} %, is "
                "bought more."
            )
        if bought.cloth.one_way:
            yield f"{bought.cloth.name}: one-way cloth, the tops of all pieces lie the same way."
    if group.cloth_spare:
        yield f"{100 * group.cloth_spare:g} % of cloth is spare."
    if group.notion_spare:
        yield f"{100 * group.notion_spare:g} % of small notions, cord and casing are spare."
    yield (
        "Cloth is bought in one length for each name and rounded up once to what the shop cuts. A lay is at most "
        f"{long_length(group.longest, unit)} long, unless one garment needs more."
    )


def _listed(names: tuple[str, ...]) -> str:
    *others, last = names
    return f"{', '.join(others)} and {last}" if others else last
