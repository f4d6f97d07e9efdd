"""What a maker chooses about making a pattern ready to cut."""

from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from types import MappingProxyType
from typing import Final, Literal, get_args

from panelwright.body.units import Unit
from panelwright.body.worded_length import given_words, range_words
from panelwright.errors import InputError
from panelwright.finish.cut_piece import Corner
from panelwright.pattern.edge import EdgeKind
from panelwright.pattern.piece import Layer
from panelwright.quotation import quoted

Facing = Literal["none", "full", "edge"]
Lining = Literal["none", "full", "to_facing"]
Interfacing = Literal["none", "full", "facing"]
ExtraNotches = Literal["when_full", "always", "never"]
CornerKind = Literal["turned_edge", "seam_end", "other"]

MOST_ALLOWANCE: Final = 100.0
NOTCH_DISTANCES: Final = (15.0, 150.0)
# A facing narrower than this rolls out, one wider than this is a lining, mm (own limits).
FACING_WIDTHS: Final = (20.0, 200.0)
MOST_TURN: Final = 5.0
_KINDS: Final[tuple[EdgeKind, ...]] = ("seam", "finished", "opening")


@dataclass(frozen=True)
class Cloths:
    """What each layer is cut from. A facing in the outer cloth is cut with the outer piece, twice as often."""

    outer: str = "outer"
    facing: str = "facing"
    interfacing: str = "interfacing"
    lining: str = "lining"

    def __post_init__(self) -> None:
        for entry in fields(self):
            if not getattr(self, entry.name).strip():
                raise InputError(f"the cloth of the {entry.name} has no name; give it one", f"cloths.{entry.name}")

    def of(self, layer: Layer) -> str:
        """The cloth of a layer."""
        name: str = getattr(self, layer)
        return name


@dataclass(frozen=True)
class Finish:
    """Allowances, corners, layers and notches.

    Attributes:
        allowance: seam allowance, mm (10 is common practice).
        kinds: other widths by kind of edge: `seam`, `finished`, `opening`. A fold takes none.
        lines: other widths by line; before `kinds`. A key is a line's id, what follows the slash in it, or its label:
            `hem` is the block's hem and the hem that a step drew.
        corners: how corners are finished, by kind of corner.
            `turned_edge`: a finished edge that is turned up meets a seam or opening; folded back unless told
            otherwise, so that the turning lies within the cut line of its own piece once it is pressed up.
            `seam_end`: a seam or opening ends at an edge that is sewn to a facing; mitred.
            `other`: mitred. At a fold there is no choice: allowances end on the fold's own line.
        facing: `full` cuts the whole shape again; `edge` a band along the finished edges and along edges that button
            or lace, bounded inside by a line parallel to them.
        facing_width: of that band, mm.
        hem_facing_width: of a band along the hem, mm, which a shaped hem needs because it cannot be turned up; 0: none.
        lining: `full` cuts the whole shape again, `to_facing` what the facing leaves of it, sewn to the facing.
        interfacing: `full` cuts every outer shape in interfacing too, `facing` the facing's shapes, without
            allowance or notches. True and False stand for `full` and `none`.
        turn_of_cloth: by which the layers inside are smaller along edges that are turned, mm; 0: not at all.
        cloths: what each layer is cut from.
        extra_notches: notches `notch_distance` above and below the bust point, which hold the ease of a full bust
            (bust 20 cm or more over underbust).
        notch_distance: mm.
        unit: of the lengths that are written on the pieces.

    With a full facing every finished edge is sewn to it, so hem and upper edge take a seam allowance on both
    layers unless `kinds` or `lines` say otherwise.

    Raises:
        InputError: if an option cannot be, in one sentence.
    """

    allowance: float = 10.0
    kinds: Mapping[EdgeKind, float] = field(default_factory=dict)
    lines: Mapping[str, float] = field(default_factory=dict)
    corners: Mapping[CornerKind, Corner] = field(default_factory=dict)
    facing: Facing = "none"
    facing_width: float = 50.0
    hem_facing_width: float = 0.0
    lining: Lining = "none"
    interfacing: Interfacing | bool = "none"
    turn_of_cloth: float = 0.0
    cloths: Cloths = Cloths()
    extra_notches: ExtraNotches = "when_full"
    notch_distance: float = 45.0
    unit: Unit = Unit.CM

    def __reduce__(self) -> tuple[type["Finish"], tuple[object, ...]]:
        """What another process needs to have the same: views that cannot be changed do not travel."""
        values = (getattr(self, each.name) for each in fields(self))
        return type(self), tuple(dict(value) if isinstance(value, MappingProxyType) else value for value in values)

    def __post_init__(self) -> None:
        for name in ("kinds", "lines", "corners"):
            object.__setattr__(self, name, MappingProxyType(dict(getattr(self, name))))
        if isinstance(self.interfacing, bool):
            object.__setattr__(self, "interfacing", "full" if self.interfacing else "none")
        _width("the seam allowance", self.allowance, "allowance")
        for kind, width in self.kinds.items():
            _choice("a kind of edge with its own allowance", kind, _KINDS, "kinds")
            _width(f"the allowance of {kind} edges", width, f"kinds.{kind}")
        for line, width in self.lines.items():
            _width(f"the allowance of {quoted(line)}", width, f"lines.{line}")
        for corner, style in self.corners.items():
            _choice("a kind of corner", corner, get_args(CornerKind), "corners")
            _choice(f"the {corner} corner", style, get_args(Corner), f"corners.{corner}")
        _choice("the facing", self.facing, get_args(Facing), "facing")
        _choice("the lining", self.lining, get_args(Lining), "lining")
        _choice("the interfacing", str(self.interfacing), get_args(Interfacing), "interfacing")
        _between("the facing", self.facing_width, FACING_WIDTHS, "facing_width")
        if self.hem_facing_width:
            _between("the hem facing", self.hem_facing_width, FACING_WIDTHS, "hem_facing_width")
        _between("the turn of cloth", self.turn_of_cloth, (0.0, MOST_TURN), "turn_of_cloth")
        self._refuse_layers_without_facing()
        _choice("extra notches", self.extra_notches, get_args(ExtraNotches), "extra_notches")
        least, most = NOTCH_DISTANCES
        if not least <= self.notch_distance <= most:
            raise InputError(
                f"extra notches are {given_words(self.notch_distance)} from the bust point; "
                f"give between {range_words(least, most, 'and')}",
                "notch_distance",
            )

    def __hash__(self) -> int:
        bands = (self.facing, self.facing_width, self.hem_facing_width, self.turn_of_cloth)
        layers = (self.lining, self.interfacing, self.cloths)
        plain = (self.allowance, self.extra_notches, self.notch_distance, self.unit)
        return hash((plain, bands, layers, *(frozenset(m.items()) for m in (self.kinds, self.lines, self.corners))))

    @property
    def combined(self) -> bool:
        """Whether outer and facing are one piece, cut twice as often."""
        same_cloth = self.cloths.facing == self.cloths.outer
        return self.facing == "full" and same_cloth and not self.turn_of_cloth

    def _refuse_layers_without_facing(self) -> None:
        """Refuse what rests on a facing that is not there."""
        if self.lining == "to_facing" and self.facing != "edge":
            raise InputError(
                'a lining that ends at the facing needs a facing of a width; choose the facing "edge", or the lining '
                '"full"',
                "lining",
            )
        if self.hem_facing_width and self.facing != "edge":
            raise InputError(
                'a hem facing goes with the facing "edge"; choose that one, or leave out the width of the hem facing',
                "hem_facing_width",
            )
        if self.interfacing == "facing" and self.facing == "none":
            raise InputError(
                "the interfacing is to have the shape of the facing, and there is no facing; choose a facing, or the "
                'interfacing "full"',
                "interfacing",
            )
        if self.turn_of_cloth and self.facing == "none" and self.lining == "none":
            raise InputError(
                "turn of cloth makes facing or lining smaller, and there is neither; choose one, or leave it out",
                "turn_of_cloth",
            )


def _width(what: str, width: float, where: str) -> None:
    if not 0.0 <= width <= MOST_ALLOWANCE:
        raise InputError(
            f"{what} is {given_words(width)}; give between {range_words(0.0, MOST_ALLOWANCE, 'and')}", where
        )


def _between(what: str, width: float, limits: tuple[float, float], where: str) -> None:
    low, high = limits
    if not low <= width <= high:
        raise InputError(f"{what} is {given_words(width)}; give between {range_words(low, high, 'and')}", where)


def _choice(what: str, given: str, known: tuple[str, ...], where: str) -> None:
    if given not in known:
        raise InputError(f"{what} is {quoted(str(given))}; choose {', '.join(known[:-1])} or {known[-1]}", where)
