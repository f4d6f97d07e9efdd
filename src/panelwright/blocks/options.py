"""What a maker chooses about a block: ease, seams, how many panels, how it closes."""

import math
from dataclasses import MISSING, dataclass, field, fields
from typing import Final, Literal, get_args

from panelwright.blocks.skirt_options import SkirtOptions
from panelwright.body.worded_length import given_words, range_words
from panelwright.errors import InputError
from panelwright.file_words import in_file
from panelwright.pattern import level as levels
from panelwright.pattern import line as lines
from panelwright.quotation import quoted

CentreBackShape = Literal["shaped", "straight"]
CentreBackEdge = Literal["opening", "seam", "fold"]
Keep = Literal["girth", "both", "length"]
Top = Literal["upper-bust", "shoulder"]
BlockType = Literal["princess", "darted", "circle-skirt", "gored-skirt", "straight-skirt"]
PrincessTo = Literal["shoulder", "armhole"]

MOST_EASE = 300.0
LEAST_EASE = -150.0
SEAM_DISTANCES = (10.0, 1000.0)
MOST_BUST_POINT_OFFSET = 40.0
PANELS = (3, 6)
BUST_DARTS = (0.1, 0.9)
# What changes nothing on a skirt.
_OF_A_BODICE: Final = (
    "panels",
    "seams",
    "bust_point_offset",
    "centre_back_shape",
    "keep",
    "top",
    "front_princess_to",
    "back_princess_to",
)


@dataclass(frozen=True)
class Ease:
    """Ease on the whole girth at each level, mm; negative takes cloth off. `None`: between its neighbours.

    The defaults suit a strapless bodice in woven cloth (from memory, unverified: upper edge 0 to -2 cm, underbust 0
    to -2, bust 0 to +2, waist 0 to +2).
    """

    upper_bust: float = -10.0
    bust: float = 10.0
    underbust: float = -5.0
    waist: float = 10.0
    lower_waist: float | None = None
    top_hip: float = 20.0
    hip: float = 20.0

    def __post_init__(self) -> None:
        for entry in fields(self):
            value = getattr(self, entry.name)
            if value is not None and not (math.isfinite(value) and LEAST_EASE <= value <= MOST_EASE):
                raise InputError(
                    f"ease at the {entry.name.replace('_', ' ')} is {given_words(value)}; "
                    f"give between {range_words(LEAST_EASE, MOST_EASE, 'and')} on the whole girth",
                    f"ease.{entry.name}",
                )

    @classmethod
    def even(cls, ease: float) -> "Ease":
        """The same ease at every level, mm."""
        return cls(*(ease for _ in fields(cls)))

    def at(self, level: str) -> float | None:
        """Ease at a level id (`"upper-bust"`), mm."""
        value: float | None = getattr(self, level.replace("-", "_"))
        return value


@dataclass(frozen=True)
class SeamPlace:
    """Where a seam crosses a level: `distance` mm along the level, on the finished half.

    It is measured from centre back for a seam with `back` in its name, from centre front for every other, the side
    seam too.
    """

    line: str
    level: str
    distance: float

    def __post_init__(self) -> None:
        if self.level not in levels.LEVELS:
            raise InputError(
                f"seam place names the level {self.level!r}; use one of {', '.join(levels.LEVELS)}", "seams"
            )
        least, most = SEAM_DISTANCES
        if not least <= self.distance <= most:
            raise InputError(
                f"{self.line} is placed {given_words(self.distance)} from the centre; "
                f"give between {range_words(least, most, 'and')}",
                "seams",
            )


@dataclass(frozen=True)
class BlockOptions:
    """Everything about a block that is not the wearer.

    Attributes:
        type: which block it is. The darted bodice is the princess bodice of four panels whose halves are laid together
            with darts. Skirts take ease at waist and hip, `centre_back` and `skirt`; the princess bodice
            takes all but `skirt`.
        skirt: of a skirt, its shape.
        bust_dart: of a darted bodice, the share of the front dart that opens at the side instead of the waist.
        ease: on the whole girth, by level.
        panels: panels a half, 3 to 6.
        seams: places of seams that the maker chose; the rest lie where the rib cage puts them.
        bust_point_offset: how far the front princess seam passes from the bust point at its level, mm;
            positive towards the side.
        centre_back_shape: `shaped` follows the back, `straight` is drawn as one straight line.
        centre_back: the centre back is an `opening` (closed by a zip, lacing, …), a `seam`, or on the `fold`.
        keep: what the flat pieces keep of the body. Girths at levels are always exact; `girth` lets seams come out
            as they fall, `both` holds every seam within 3 mm of the body between levels, `length` holds it exactly.
        top: the block ends at the upper-bust level, or runs on to neck, shoulder and armhole (which needs a side seam:
            four or six panels).
        front_princess_to, back_princess_to: where those seams end on a block to the shoulder: in the middle of the
            shoulder, or in the armhole.
    """

    ease: Ease = field(default_factory=Ease)
    panels: int = 4
    seams: tuple[SeamPlace, ...] = ()
    bust_point_offset: float = 0.0
    centre_back_shape: CentreBackShape = "shaped"
    centre_back: CentreBackEdge = "opening"
    keep: Keep = "both"
    top: Top = "upper-bust"
    front_princess_to: PrincessTo = "shoulder"
    back_princess_to: PrincessTo = "shoulder"
    type: BlockType = "princess"
    skirt: SkirtOptions = field(default_factory=SkirtOptions)
    bust_dart: float = 0.5

    def __post_init__(self) -> None:
        if self.type not in get_args(BlockType):
            known = ", ".join(get_args(BlockType))
            raise InputError(f"there is no block {quoted(self.type)}; choose {known}", "type")
        if self.is_skirt:
            self._refuse_foreign((*_OF_A_BODICE, "bust_dart"), "a skirt")
            return
        self._refuse_foreign(("skirt",), "a bodice")
        self._check_darts()
        if self.panels not in PLANS:
            raise InputError(f"a half has {self.panels} panels; choose 3, 4, 5 or 6", "panels")
        if not abs(self.bust_point_offset) <= MOST_BUST_POINT_OFFSET:
            raise InputError(
                f"the front princess seam passes {given_words(self.bust_point_offset)} beside the bust point; "
                f"keep it within {given_words(MOST_BUST_POINT_OFFSET)}",
                "bust_point_offset",
            )
        if self.centre_back == "fold" and self.centre_back_shape != "straight":
            raise InputError(
                "a centre back on the fold must be straight; make its line one straight line too"
                f"{in_file('block.centre_back_shape, straight')}",
                "centre_back",
            )
        if self.top == "shoulder" and lines.SIDE not in (line for line, _ in PLANS[self.panels].lines):
            raise InputError(
                f"a block to the shoulder needs a side seam, which {self.panels} panels a half do not have; "
                "choose 4 or 6",
                "panels",
            )
        crossings = [(place.line, place.level) for place in self.seams]
        for line, level in crossings:
            if crossings.count((line, level)) > 1:
                raise InputError(f"{line} is placed twice at the {level} level; keep one of the two places", "seams")
        for place in self.seams:
            if place.line not in (line for line, _ in PLANS[self.panels].lines):
                known = ", ".join(line for line, _ in PLANS[self.panels].lines)
                raise InputError(
                    f"there is no seam {place.line!r} with {self.panels} panels a half; its seams are {known}", "seams"
                )

    @property
    def is_skirt(self) -> bool:
        """Whether it is a block for a skirt, without a body above the waist."""
        return self.type.endswith("-skirt")

    def _check_darts(self) -> None:
        if self.type != "darted":
            self._refuse_foreign(("bust_dart",), "a princess bodice")
            return
        if self.panels != 4:
            raise InputError(f"a darted bodice is made of 4 panels a half, not {self.panels}; write 4", "panels")
        least, most = BUST_DARTS
        if self.bust_dart and not least <= self.bust_dart <= most:
            raise InputError(
                f"{self.bust_dart:g} of the front dart cannot open at the side; give 0 or {least:g} to {most:g}",
                "bust_dart",
            )

    def _refuse_foreign(self, names: tuple[str, ...], garment: str) -> None:
        """Refuse what belongs to another block and would change nothing."""
        usual = {entry.name: entry for entry in fields(self)}
        for name in names:
            entry = usual[name]
            known = entry.default if entry.default_factory is MISSING else entry.default_factory()
            if getattr(self, name) != known:
                words = name.replace("_", " ")
                raise InputError(
                    f"the block is {garment}, for which {words} changes nothing; leave it out, or choose another block",
                    name,
                )


@dataclass(frozen=True)
class PanelPlan:
    """The panels of a half and the seams between them, from centre front to centre back.

    Attributes:
        panels: (id, label) of each.
        lines: (id, label) of each seam between them; one fewer than panels.
    """

    panels: tuple[tuple[str, str], ...]
    lines: tuple[tuple[str, str], ...]


FRONT_UNDERARM, BACK_UNDERARM = "front-underarm", "back-underarm"

_CF, _SF = ("CF", "Centre front"), ("SF", "Side front")
_SB, _CB = ("SB", "Side back"), ("CB", "Centre back")
_FP, _BP = (lines.FRONT_PRINCESS, "Front princess seam"), (lines.BACK_PRINCESS, "Back princess seam")
_SIDE = (lines.SIDE, "Side seam")
_FU, _BU = (FRONT_UNDERARM, "Front underarm seam"), (BACK_UNDERARM, "Back underarm seam")

PLANS = {
    3: PanelPlan((_CF, ("SP", "Side panel"), _CB), (_FP, _BP)),
    4: PanelPlan((_CF, _SF, _SB, _CB), (_FP, _SIDE, _BP)),
    5: PanelPlan((_CF, _SF, ("UA", "Underarm"), _SB, _CB), (_FP, _FU, _BU, _BP)),
    6: PanelPlan((_CF, _SF, ("UF", "Underarm front"), ("UB", "Underarm back"), _SB, _CB), (_FP, _FU, _SIDE, _BU, _BP)),
}
