"""Garments of the workroom bought and cut together: lays, metres, notions, cost."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from panelwright.app.block_record import CM
from panelwright.app.cloth_record import ClothRecord
from panelwright.app.design_file import read_design
from panelwright.app.drawn_design import DrawnDesign
from panelwright.app.group import Group, GroupGarment
from panelwright.app.group_asked import GarmentAsked, GroupAsked
from panelwright.app.lay import cloths_for
from panelwright.app.one_of_several import making
from panelwright.app.progress import Progress
from panelwright.app.shopping import Shopping, shopping_for
from panelwright.app.workroom_garments import WorkroomGarments
from panelwright.app.workroom_item import found_item
from panelwright.body.measurement_file import read_measurements
from panelwright.body.units import Unit
from panelwright.lay.cloth import Cloth
from panelwright.lay.planned_lay import Planning
from panelwright.lay.search.budget import Budget
from panelwright.lay.search.task import Found
from panelwright.store.workroom import Workroom

REF: Final = "group"


def workroom_group(
    room: Workroom, garments: WorkroomGarments, asked: GroupAsked, unit: Unit, progress: Progress
) -> Shopping:
    """What the garments need. Each is drawn on its wearer's block with the fitting notes, as on the board.

    Args:
        room: whose wearers and designs.
        garments: draws them.
        asked: which.
        unit: of the lengths in refusals.
        progress: told before each garment and lay, and while a lay is looked for; may raise to stop.

    Raises:
        NotThereError: if there is no such design or wearer.
        InputError, BlockError, DesignError: if a garment cannot be cut; the message names it.
        LayError: if a piece is too wide for its cloth.
    """
    own = [_garment(room, each) for each in asked.garments]
    made: list[DrawnDesign] = []
    for each, garment in zip(asked.garments, own, strict=True):
        progress(len(made), 2 * len(own), garment.name)
        with making(garment.name):
            made.append(garments.complete(each.design, each.wearer, unit).design)
    heed = _Heed(progress, len(own))
    planning = Planning(Budget(asked.seconds), told=heed.found) if asked.seconds else None
    return shopping_for(_group(asked, own, made), made, unit, planning, heed.lay)


class _Heed:
    """Tells of each lay, and again while it is looked for, so that a person can stop the work there too."""

    def __init__(self, progress: Progress, garments: int) -> None:
        """The garments are half of all steps."""
        self._progress, self._garments = progress, garments
        self._last = (garments, 2 * garments, "")

    def lay(self, done: int, whole: int, what: str) -> None:
        """Before a lay."""
        self._last = (self._garments + self._garments * done // max(whole, 1), 2 * self._garments, what)
        self._progress(*self._last)

    def found(self, _share: float, _found: Found) -> None:
        """While it is looked for."""
        self._progress(*self._last)


def _garment(room: Workroom, asked: GarmentAsked) -> GroupGarment:
    design = read_design(found_item(room, "design", asked.design).text)
    wearer = read_measurements(found_item(room, "wearer", asked.wearer).text)
    renamed = {design.finish.cloths.outer: asked.outer} if asked.outer else {}
    return GroupGarment(wearer, design, asked.count, renamed)


def _group(asked: GroupAsked, own: Sequence[GroupGarment], made: Sequence[DrawnDesign]) -> Group:
    """The group; what a page still knows of cloths and notions that no garment needs any more is passed over."""
    said = {
        garment.cloths.get(name, name): cloth
        for garment, each in zip(own, made, strict=True)
        for name, cloth in cloths_for(each.cutting, each.design.cloths).items()
    }
    notions = {notion.name for each in made for notion in each.cutting.pattern.notions}
    return Group(
        ref=REF,
        title=asked.title,
        garments=tuple(own),
        cloths=tuple(_cloth(name, record, said[name]) for name, record in asked.cloths.items() if name in said),
        prices={name: price for name, price in asked.notion_prices.items() if name in notions},
        money=asked.money,
        cloth_spare=asked.spare.cloth_percent / 100.0,
        notion_spare=asked.spare.notions_percent / 100.0,
        longest=asked.longest_lay_cm * CM,
    )


def _cloth(name: str, record: ClothRecord, said: Cloth) -> Cloth:
    """A cloth as the group knows it; where it does not say how wide it is, as wide as a design has it."""
    cloth = record.cloth(name)
    return replace(cloth, width=said.width, assumed=said.assumed) if cloth.assumed else cloth
