"""The step that sets bones: on seams, beside an opening, and in channels between seams."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import isfinite
from typing import ClassVar, Final, get_args

from panelwright.body.worded_length import given_words, range_words
from panelwright.design.bone import CHANNEL_ROOM, Bone, LaidBone
from panelwright.design.bone_channel import Channel
from panelwright.design.bone_clash import refuse_clashes
from panelwright.design.bone_line import bones_along, usual_lines
from panelwright.design.bone_list import BoneKind, bone_notions, bone_workings
from panelwright.design.position import Height
from panelwright.design.step import blamed, checked_uid
from panelwright.errors import DesignError
from panelwright.pattern import line as lines
from panelwright.pattern.mark import BONE_GUIDE, InsideLine
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

SPOKEN = "bones"
WIDTHS: Final = (3.0, 20.0)  # mm
CLEARANCES: Final = (3.0, 30.0)  # mm
MOST_CHANNELS = 20


@dataclass(frozen=True)
class Bones:
    """Lays bones on the pattern as it stands, draws their channels and lists what to buy. It comes last in a design.

    A bone on a seam lies over the seam's allowances: a guide on both pieces shows how far it reaches, and nothing is
    stitched there. Beside an edge that opens, on a fold and
    between seams the stitch lines of the channel are drawn, as long as the bone may be.

    Attributes:
        uid: permanent name in the design.
        bone: `spiral` (bends both ways), `flat` (steel, bends one way) or `plastic`.
        width: of a bone, mm.
        clearance: how far every part of a bone stays from the stitched edges at its ends, mm (CP: about 5).
        seams: lines that bones lie along. None: every upright seam, and a centre where it opens.
        channels: channels between seams.
        up_to: where bones end at most; None: at the block's upper edge, under the arm.

    Numbers are kept to a millionth, so that what is saved and read again is the same.

    Raises:
        DesignError: if a number is out of range, the kind is unknown or a line is named twice.
    """

    kind: ClassVar[str] = "bones"
    needs_shoulder: ClassVar[bool] = False

    uid: str
    bone: BoneKind = "spiral"
    width: float = 6.0
    clearance: float = 5.0
    seams: tuple[str, ...] | None = None
    channels: tuple[Channel, ...] = ()
    up_to: Height | None = None

    def __post_init__(self) -> None:
        checked_uid(self.uid)
        where = f"step {self.uid}"
        if self.bone not in get_args(BoneKind):
            raise DesignError(f"a bone is {', '.join(get_args(BoneKind))}, not {self.bone!r}", where)
        for name, value, (least, most) in (
            ("is", self.width, WIDTHS), ("stays", self.clearance, CLEARANCES)
        ):  # fmt: skip
            if not (isfinite(value) and least <= value <= most):
                what = "wide" if name == "is" else "short of a stitched edge"
                raise DesignError(f"a bone {name} {range_words(least, most)} {what}, not {given_words(value)}", where)
        object.__setattr__(self, "width", round(float(self.width), 6))
        object.__setattr__(self, "clearance", round(float(self.clearance), 6))
        if self.seams is not None and len(set(self.seams)) < len(self.seams):
            raise DesignError(f"{SPOKEN}: a line is named twice for bones; name it once", where)
        if self.seams == () and not self.channels:
            raise DesignError(f"{SPOKEN}: name a line for bones to lie along, or a channel", where)
        if len(self.channels) > MOST_CHANNELS:
            raise DesignError(f"{SPOKEN}: at most {MOST_CHANNELS} channels fit a half", where)

    @property
    def label(self) -> str:
        """`Bones: spiral`."""
        return f"Bones: {self.bone}"

    @property
    def slots(self) -> tuple[str, ...]:
        """Nothing that a later step could use."""
        return ()

    @property
    def uses(self) -> frozenset[str]:
        """No earlier step by name."""
        return frozenset()

    def apply(self, pattern: Pattern, block: Pattern) -> Pattern:
        """The pattern with channels drawn, and its notions and workings.

        Raises:
            DesignError: if top edge or hem are still to be cut, a named line or panel is not there, or a bone has no
                room, is too short, or lies on another bone, an eyelet, a button or (unasked) the bust point.
        """
        with blamed(self.uid, SPOKEN):
            bare = self._taken_off(pattern)
            _refuse_uncut(bare)
            bones = self.laid(bare, block)
            refuse_clashes(bones, bare)
            return replace(
                bare.with_pieces(*(self._with_channels(piece, bones) for piece in bare.pieces)),
                notions=(*bare.notions, *bone_notions(self.uid, bones, self.bone)),
                workings=(*bare.workings, *bone_workings(self.uid, bones, self.bone, self.width)),
            )

    def laid(self, pattern: Pattern, block: Pattern) -> tuple[Bone, ...]:
        """The bones on a pattern.

        Raises:
            DesignError: as `apply`.
        """
        room = (self.width + CHANNEL_ROOM) / 2, self.clearance, self.up_to
        names = usual_lines(pattern, block) if self.seams is None else self.seams
        found = [bone for name in names for bone in bones_along(name, pattern, block, *room)]
        for number, channel in enumerate(self.channels, 1):
            found += channel.bones(f"channel-{number}", pattern, block, *room)
        if not found:
            raise DesignError("no upright seam is left to lay bones on; name a channel in channels", self.uid)
        return tuple(found)

    def _taken_off(self, pattern: Pattern) -> Pattern:
        """The pattern without what this step laid on it before."""
        mine = f"{self.uid}/"
        pieces = tuple(
            replace(piece, inside=tuple(line for line in piece.inside if not line.id.startswith(mine)))
            for piece in pattern.pieces
        )
        return replace(
            pattern,
            pieces=pieces,
            notions=tuple(notion for notion in pattern.notions if notion.step != self.uid),
            workings=tuple(working for working in pattern.workings if not working.id.startswith(mine)),
        )

    def _with_channels(self, piece: Piece, bones: Sequence[Bone]) -> Piece:
        mine = [[part for part in bone.laid if part.bed.piece.id == piece.id] for bone in bones]
        drawn = tuple(line for bone, parts in zip(bones, mine, strict=True) for line in self._lines(bone, parts))
        return replace(piece, inside=(*piece.inside, *drawn)) if drawn else piece

    def _lines(self, bone: Bone, parts: Sequence[LaidBone]) -> Iterator[InsideLine]:
        """Of the beds of a bone on one piece; a seam may join two edges of it."""
        for number, part in enumerate((part for part in parts if not part.walls and part.long), 1):
            name = bone.name if number == 1 else f"{bone.name}-{number}"
            yield InsideLine(f"{self.uid}/{name}{BONE_GUIDE}", "guide", part.outline)
        for part in parts:
            for number, wall in enumerate(part.walls, 1):
                yield InsideLine(f"{self.uid}/{bone.name}-{number}", "stitch", part.bed.parallel(*part.stretch, wall))


def _refuse_uncut(pattern: Pattern) -> None:
    """A piece that still ends at the block's own upper edge or hem would be cut after its bones were measured."""
    for line, step in ((lines.TOP, "top edge"), (lines.HEM, "hem")):
        if pattern.pieces_on_line(line):
            raise DesignError(f"the {step} is still to be cut; put this step last, after top edge and hem", line)
