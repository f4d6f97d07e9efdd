"""What a maker chooses about making a pattern ready to cut."""

from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from types import MappingProxyType
from typing import Final, Literal, get_args

from panelwright.body.units import Unit
from panelwright.errors import InputError
from panelwright.finish.cut_piece import Corner
from panelwright.pattern.edge import EdgeKind
from panelwright.pattern.piece import Layer
from panelwright.quotation import quoted

Facing = Literal["none", "full"]
ExtraNotches = Literal["when_full", "always", "never"]
CornerKind = Literal["turned_edge", "seam_end", "other"]

MOST_ALLOWANCE: Final = 100.0
MOST_NOTCH_DISTANCE: Final = 150.0
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
        facing: `full` cuts the whole shape again.
        interfacing: cuts every outer shape in interfacing too, without allowance or notches.
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
    interfacing: bool = False
    cloths: Cloths = Cloths()
    extra_notches: ExtraNotches = "when_full"
    notch_distance: float = 45.0
    unit: Unit = Unit.CM

    def __post_init__(self) -> None:
        for name in ("kinds", "lines", "corners"):
            object.__setattr__(self, name, MappingProxyType(dict(getattr(self, name))))
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
        _choice("extra notches", self.extra_notches, get_args(ExtraNotches), "extra_notches")
        if not 15.0 <= self.notch_distance <= MOST_NOTCH_DISTANCE:
            raise InputError(
                f"extra notches are {self.notch_distance / 10:g} cm from the bust point; give between 1.5 and "
                f"{MOST_NOTCH_DISTANCE / 10:g} cm",
                "notch_distance",
            )

    def __hash__(self) -> int:
        plain = (self.allowance, self.facing, self.interfacing, self.cloths, self.extra_notches, self.notch_distance)
        return hash((plain, self.unit, *(frozenset(m.items()) for m in (self.kinds, self.lines, self.corners))))

    @property
    def combined(self) -> bool:
        """Whether outer and facing are one piece, cut twice as often."""
        return self.facing == "full" and self.cloths.facing == self.cloths.outer


def _width(what: str, width: float, where: str) -> None:
    if not 0.0 <= width <= MOST_ALLOWANCE:
        raise InputError(f"{what} is {width / 10:g} cm; give between 0 and {MOST_ALLOWANCE / 10:g} cm", where)


def _choice(what: str, given: str, known: tuple[str, ...], where: str) -> None:
    if given not in known:
        raise InputError(f"{what} is {quoted(str(given))}; choose {', '.join(known[:-1])} or {known[-1]}", where)
