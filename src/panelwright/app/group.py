"""A group: garments that are bought and cut together, and what is known of their cloths and prices."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from panelwright.app.block_record import CM
from panelwright.app.design_file import load_design
from panelwright.app.fitting_file import load_fitting
from panelwright.app.fittings import fittings_of
from panelwright.app.garment_design import LONGEST_TITLE, REF_PATTERN, GarmentDesign
from panelwright.app.group_record import FORMAT, GarmentRecord, GroupRecord
from panelwright.app.record_text import record_in
from panelwright.body.measurement_file import load_measurements
from panelwright.body.measurements import Measurements
from panelwright.body.size_table import size
from panelwright.errors import InputError
from panelwright.fitting.fitting import Fitting
from panelwright.json_text import read_text
from panelwright.lay.cloth import Cloth
from panelwright.lay.group_lay import LONGEST
from panelwright.quotation import quoted


@dataclass(frozen=True, eq=False, repr=False)
class GroupGarment:
    """One garment of a group.

    Attributes:
        wearer: for whom, or a size.
        design: which.
        count: how many alike.
        cloths: the design's name of a cloth -> the group's, where they differ.
    """

    wearer: Measurements
    design: GarmentDesign
    count: int = 1
    cloths: Mapping[str, str] = field(default_factory=dict)

    @property
    def name(self) -> str:
        """`Lantern bodice for w-01`."""
        return f"{self.design.title} for {self.wearer.ref}"


@dataclass(frozen=True, eq=False, repr=False)
class Group:
    """What a group file holds.

    Attributes:
        ref: neutral reference, as a design has one.
        title: stands at the head of the list.
        garments: at least one.
        cloths: what is known of them; it goes before what the designs say.
        prices: name of a notion -> price of one, or of a metre of what is sold so.
        money: stands after every price, `EUR`.
        cloth_spare, notion_spare: shares that are bought more.
        longest: lay, mm.
        fittings: notes of those wearers who have some; they go with all garments of theirs.

    Raises:
        InputError: if the reference or title cannot be, there is no garment, or it cannot be told whose notes some are.
    """

    ref: str
    title: str
    garments: tuple[GroupGarment, ...]
    cloths: tuple[Cloth, ...] = ()
    prices: Mapping[str, float] = field(default_factory=dict)
    money: str = ""
    cloth_spare: float = 0.0
    notion_spare: float = 0.0
    longest: float = LONGEST
    fittings: tuple[Fitting, ...] = ()

    def __post_init__(self) -> None:
        refuse_ref(self.ref)
        refuse_title(self.title)
        if not self.garments:
            raise InputError("the group has no garment: give at least one", "garments")
        fittings_of((own.wearer for own in self.garments), self.fittings)


def refuse_ref(ref: str) -> None:
    """Refuse what no group can be known by.

    Raises:
        InputError: unless it is a reference as a design has one.
    """
    if not re.fullmatch(REF_PATTERN, ref):
        raise InputError(
            f"ref {quoted(ref)} cannot be used: give up to 40 small letters, digits and hyphens, "
            "a letter first, like festival-1",
            "ref",
        )


def refuse_title(title: str) -> None:
    """Refuse what cannot stand at the head of a list.

    Raises:
        InputError: unless it is one line of a length that fits there.
    """
    if not (title.strip() and len(title) <= LONGEST_TITLE and title.isprintable()):
        raise InputError(f"title must be one line of 1 to {LONGEST_TITLE} characters", "title")


def load_group(path: Path) -> Group:
    """The group in a file, with its wearers and designs, whose files are named from the group's own folder.

    Raises:
        InputError: if one of the files cannot be read or used; the message begins with its name.
    """
    text = read_text(path, "that is more than a group needs")
    try:
        record = record_in(text, GroupRecord, FORMAT, "give a group of garments")
        cloths = tuple(cloth.cloth(name) for name, cloth in record.cloths.items())
        return Group(
            ref=record.ref,
            title=record.title,
            garments=_garments(record, path.parent),
            fittings=tuple(load_fitting(path.parent / name) for name in record.fittings),
            cloths=cloths,
            prices=dict(record.notion_prices),
            money=record.money,
            cloth_spare=record.spare.cloth_percent / 100.0,
            notion_spare=record.spare.notions_percent / 100.0,
            longest=record.longest_lay_cm * CM,
        )
    except InputError as error:
        raise InputError(f"{quoted(path.name)}: {error}", error.where) from error


def _garments(record: GroupRecord, folder: Path) -> tuple[GroupGarment, ...]:
    """The garments; a file that several of them name is read once."""
    wearers: dict[str | int, Measurements] = {}
    designs: dict[str, GarmentDesign] = {}
    found = []
    for number, garment in enumerate(record.garments, 1):
        who = _who(garment, number)
        if who not in wearers:
            wearers[who] = size(who) if isinstance(who, int) else load_measurements(folder / who)
        if garment.design not in designs:
            designs[garment.design] = load_design(folder / garment.design)
        found.append(GroupGarment(wearers[who], designs[garment.design], garment.count, dict(garment.cloths)))
    return tuple(found)


def _who(garment: GarmentRecord, number: int) -> str | int:
    if garment.wearer is not None and garment.size is None:
        return garment.wearer
    if garment.size is not None and garment.wearer is None:
        return garment.size
    raise InputError(
        f"garments[{number}] needs either a wearer, a measurements file, or a size like 88", f"garments[{number}]"
    )
