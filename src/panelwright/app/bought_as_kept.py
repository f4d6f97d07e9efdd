"""What is bought for a garment whose lays are kept: as much as those lays take."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from panelwright.app.shopping import Shopping
from panelwright.body.units import Unit, format_length
from panelwright.errors import InputError
from panelwright.finish.cut_count import cloth_words
from panelwright.lay.cloth import Cloth
from panelwright.lay.group_lay import ClothToBuy
from panelwright.lay.lay import Lay


def bought_as_kept(
    shopping: Shopping, kept: Sequence[Lay], own: Sequence[str], called: Mapping[str, str], unit: Unit = Unit.CM
) -> Shopping:
    """The shopping of one garment, with its kept lays in the place of those laid for it.

    Args:
        shopping: of the garment alone.
        kept: lays of some of its cloths.
        own: the names of its cloths.
        called: what the shopping calls them, where it has other names.
        unit: of the lengths in a refusal.

    Raises:
        InputError: if a kept lay is not one of a whole cloth of the shopping, as wide and laid in the same way.
    """
    of = {called.get(lay.cloth.name, lay.cloth.name): lay for lay in kept}
    for name, lay in of.items():
        if sum(called.get(each, each) == name for each in own) > 1:
            raise InputError(
                f"the kept lay of {cloth_words(lay.cloth.name)} is not all that is cut from {cloth_words(name)}: "
                "give the design's cloths names of their own in the group, or leave --lays away",
                f"lays, {lay.cloth.name}",
            )
    return replace(shopping, cloths=tuple(_bought(each, of.get(each.cloth.name), unit) for each in shopping.cloths))


def _bought(bought: ClothToBuy, kept: Lay | None, unit: Unit) -> ClothToBuy:
    if kept is None:
        return bought
    cloth = bought.cloth
    laid_so = cloth.folded is None or cloth.folded == kept.folded
    if not (cloth.width == kept.cloth.width and cloth.one_way == kept.cloth.one_way and laid_so):
        raise InputError(
            f"the lay of {cloth_words(kept.cloth.name)} is kept for {_told(kept.cloth, unit, kept.folded)}, but the "
            f"prices are of {_told(cloth, unit, cloth.folded)}: give the prices of that cloth, or leave --lays away",
            f"lays, {kept.cloth.name}",
        )
    return replace(bought, lays=(replace(kept, cloth=cloth),))


def _told(cloth: Cloth, unit: Unit, folded: bool | None) -> str:
    """`cloth 140.0 cm wide, folded, one-way`."""
    way = [] if folded is None else ["folded" if folded else "spread out"]
    return ", ".join([f"cloth {format_length(cloth.width, unit)} wide", *way, *(["one-way"] if cloth.one_way else [])])
