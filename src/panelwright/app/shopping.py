"""Shopping for a group: its garments made, their pieces laid together cloth by cloth, their notions added up."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from panelwright.app.fittings import fittings_of
from panelwright.app.garment import Garment, make_garment
from panelwright.app.group import Group, GroupGarment
from panelwright.app.lay import cloths_for
from panelwright.app.made_garment import MadeGarment
from panelwright.app.notion_list import NotionToBuy, notions_to_buy
from panelwright.app.one_of_several import making
from panelwright.app.progress import Progress, unheard
from panelwright.blocks.block import Block
from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions
from panelwright.body.measurements import Measurements
from panelwright.body.units import Unit
from panelwright.body.worded_length import worded_in
from panelwright.errors import InputError
from panelwright.fitting.fitted_block import LEFT_OUT, fitted_as_far
from panelwright.fitting.fitting import Fitting
from panelwright.lay.cloth import Cloth
from panelwright.lay.garment_pieces import GarmentPieces, marks
from panelwright.lay.group_lay import ClothToBuy, group_cloth
from panelwright.lay.piece_to_cut import cloths_of, pieces_to_cut
from panelwright.lay.planned_lay import Planning
from panelwright.quotation import quoted
from panelwright.sewing.order import order_of_work
from panelwright.sewing.stitch import Sewing
from panelwright.sewing.thread import reels, thread_needed


@dataclass(frozen=True, eq=False, repr=False)
class Shopping:
    """What a group needs.

    Attributes:
        group: who.
        garments: as they were made, in the group's order.
        marks: of the garments, in the same order.
        cloths: with their lays.
        notions: beside the cloth.
        thread: of all garments in one colour, waste included, mm.
    """

    group: Group
    garments: tuple[MadeGarment, ...]
    marks: tuple[str, ...]
    cloths: tuple[ClothToBuy, ...]
    notions: tuple[NotionToBuy, ...]
    thread: float

    @property
    def reels(self) -> int:
        """How many reels of thread, of 100 m."""
        return reels(self.thread)

    @cached_property
    def cost(self) -> float | None:
        """Of all that has a price; None where nothing has."""
        costs = [*(bought.cost for bought in self.cloths), *(bought.cost for bought in self.notions)]
        known = [cost for cost in costs if cost is not None]
        return sum(known) if known else None

    @property
    def without_price(self) -> tuple[str, ...]:
        """Names of what the cost leaves out, each once."""
        names = [bought.cloth.name for bought in self.cloths if bought.cost is None]
        return tuple(dict.fromkeys([*names, *(bought.name for bought in self.notions if bought.cost is None)]))

    @property
    def fitted(self) -> tuple[str, ...]:
        """Marks of the garments that are cut after fitting notes."""
        made = zip(self.marks, self.garments, strict=True)
        return tuple(mark for mark, garment in made if garment.block.pattern.fitting)

    @property
    def notes_left_out(self) -> tuple[str, ...]:
        """Marks of the garments whose block could not take every fitting note of the wearer."""
        made = zip(self.marks, self.garments, strict=True)
        return tuple(
            mark for mark, garment in made if any(finding.code in LEFT_OUT for finding in garment.block.findings)
        )

    @property
    def not_ready(self) -> tuple[tuple[str, str], ...]:
        """(mark, first error) of every garment that checks found an error in."""
        found = []
        for mark, garment in zip(self.marks, self.garments, strict=True):
            errors = [finding.message for finding in garment.findings if finding.severity == "error"]
            found += [(mark, errors[0])] if errors else []
        return tuple(found)


def make_group(group: Group, unit: Unit = Unit.CM, progress: Progress = unheard) -> tuple[Garment, ...]:
    """The garments of a group, in its order; one block serves all designs that ask for the same of one wearer.

    A wearer's fitting notes are carried out as far as each block can take them; what it cannot is a finding.

    Raises:
        BlockError, InputError: if one cannot be made; the message names it.
    """
    fittings = fittings_of((own.wearer for own in group.garments), group.fittings)
    blocks: dict[tuple[Measurements, BlockOptions], Block] = {}
    made = []
    for done, own in enumerate(group.garments):
        progress(done, len(group.garments), own.name)
        key = (own.wearer, own.design.block_options)  # not by reference: two files may both say w-01
        with making(own.name):
            if key not in blocks:
                blocks[key] = _block(*key, fittings.get(own.wearer), unit)
            garment = make_garment(own.wearer, own.design, unit=unit, block=blocks[key])
        made.append(garment)
    return tuple(made)


def _block(wearer: Measurements, options: BlockOptions, fitting: Fitting | None, unit: Unit) -> Block:
    block = make_block(wearer, options)
    if fitting is None:
        return block
    with worded_in(unit):
        return fitted_as_far(block, fitting)


def shopping_for(
    group: Group,
    garments: Sequence[MadeGarment],
    unit: Unit = Unit.CM,
    planning: Planning | None = None,
    progress: Progress = unheard,
) -> Shopping:
    """Lays, lengths and notions of a group.

    Args:
        group: who needs what.
        garments: as `make_group` or the workroom made them, in the group's order.
        unit: of the lengths in refusals.
        planning: how hard to look for each lay; None for first lays.
        progress: told before each lay.

    Raises:
        LayError: if a piece is too wide for its cloth.
        InputError: if designs disagree about a cloth that the group does not tell of, or something in the group does
            not fit its garments.
    """
    own_marks = tuple(marks(len(garments)))
    by_cloth, known = _by_cloth(group, garments, own_marks)
    for cloth in group.cloths:
        if cloth.name not in by_cloth:
            raise InputError(
                f"cloths: no garment is cut from {quoted(cloth.name)}; its cloths are {', '.join(by_cloth)}",
                f"cloths.{cloth.name}",
            )
    needed = [
        (mark, notion, own.count)
        for mark, own, garment in zip(own_marks, group.garments, garments, strict=True)
        for notion in garment.cutting.pattern.notions
    ]
    notions = notions_to_buy(needed, group.prices, group.notion_spare)

    def told(name: str, done: int, whole: int) -> None:
        progress(done, whole, f"lay of {name}")

    bought = tuple(
        group_cloth(_told_cloth(group, known[name], name), own, group.cloth_spare, group.longest, unit, planning, told)
        for name, own in by_cloth.items()
    )
    thread = sum(own.count * _thread(garment) for own, garment in zip(group.garments, garments, strict=True))
    return Shopping(group, tuple(garments), own_marks, bought, notions, thread)


def _thread(garment: MadeGarment) -> float:
    tasks = order_of_work(garment.cutting, garment.design.finish)
    return sum(each.needed for each in thread_needed(tasks, Sewing()))


def _by_cloth(
    group: Group, garments: Sequence[MadeGarment], own_marks: Sequence[str]
) -> tuple[dict[str, list[GarmentPieces]], dict[str, list[tuple[str, Cloth]]]]:
    """(the group's cloth -> who takes what of it, the same -> what each garment's design says of it)."""
    pieces: dict[str, list[GarmentPieces]] = {}
    known: dict[str, list[tuple[str, Cloth]]] = {}
    for number, (mark, own, garment) in enumerate(zip(own_marks, group.garments, garments, strict=True), 1):
        names = cloths_of(garment.cutting)
        _refuse_unknown(own, names, number)
        said = cloths_for(garment.cutting, garment.design.cloths)
        for name in names:
            shared = own.cloths.get(name, name)
            wanted = pieces_to_cut(garment.cutting, name)
            pieces.setdefault(shared, []).append(GarmentPieces(mark, own.name, wanted, own.count))
            known.setdefault(shared, []).append((own.design.ref, replace(said[name], name=shared)))
    return _merged(pieces), known


def _merged(pieces: Mapping[str, list[GarmentPieces]]) -> dict[str, list[GarmentPieces]]:
    """One entry for each garment, also where two of its cloths are one in the group."""
    merged: dict[str, list[GarmentPieces]] = {}
    for name, entries in pieces.items():
        by_mark: dict[str, GarmentPieces] = {}
        for entry in entries:
            before = by_mark.get(entry.mark)
            by_mark[entry.mark] = entry if before is None else replace(before, pieces=before.pieces + entry.pieces)
        merged[name] = list(by_mark.values())
    return merged


def _refuse_unknown(own: GroupGarment, names: Sequence[str], number: int) -> None:
    for name in own.cloths:
        if name not in names:
            raise InputError(
                f"garments[{number}].cloths: {own.design.ref} cuts nothing from {quoted(name)}; "
                f"its cloths are {', '.join(names)}",
                f"garments[{number}].cloths",
            )


def _told_cloth(group: Group, said: Sequence[tuple[str, Cloth]], name: str) -> Cloth:
    """What the group says of a cloth, else what its designs agree on, else a usual width."""
    given = next((cloth for cloth in group.cloths if cloth.name == name), None)
    if given is not None:
        return given
    told = [(ref, cloth) for ref, cloth in said if not cloth.assumed]
    other = next((ref for ref, cloth in told if cloth != told[0][1]), None)
    if other is not None:
        raise InputError(
            f"{told[0][0]} and {other} say different things of the cloth {quoted(name)}: say in the group's cloths "
            "which holds, or give one of them another name",
            f"cloths.{name}",
        )
    return told[0][1] if told else min((cloth for _, cloth in said), key=lambda cloth: cloth.width)
