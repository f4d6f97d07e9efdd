"""The block of a design file: ease, panels and seams in centimetres, as people write them."""

from typing import Annotated, Self

from pydantic import BaseModel, ConfigDict, Field

from panelwright.blocks.options import (
    BlockOptions,
    BlockType,
    CentreBackEdge,
    CentreBackShape,
    Ease,
    Keep,
    PrincessTo,
    SeamPlace,
    Top,
)
from panelwright.blocks.skirt_options import CentreFrontEdge, CircleShare, SkirtOptions
from panelwright.body.length_field import Centimetres

CM = 10.0  # mm


class Record(BaseModel):
    """Strict: no text for a number unless it is a length with its unit, no NaN, no field that is not known."""

    model_config = ConfigDict(
        hide_input_in_errors=True, strict=True, frozen=True, extra="forbid", allow_inf_nan=False, populate_by_name=True
    )


class EaseRecord(Record):
    """Ease on the whole girth at each level, cm; what is left out is as `Ease` has it."""

    upper_bust: Centimetres | None = Field(default=None, alias="upper-bust")
    bust: Centimetres | None = None
    underbust: Centimetres | None = None
    waist: Centimetres | None = None
    lower_waist: Centimetres | None = Field(default=None, alias="lower-waist")
    top_hip: Centimetres | None = Field(default=None, alias="top-hip")
    hip: Centimetres | None = None

    def ease(self) -> Ease:
        """The ease, mm."""
        given = self.model_dump(exclude_none=True)
        return Ease(**{level: length_cm * CM for level, length_cm in given.items()})

    @classmethod
    def of(cls, ease: Ease) -> Self:
        """The record of an ease in mm."""
        levels = {level: getattr(ease, level) for level in cls.model_fields}
        return cls(**{level: round(value / CM, 9) for level, value in levels.items() if value is not None})


class SeamRecord(Record):
    """Where a seam crosses a level, on the finished half: back seams from centre back, others from centre front."""

    line: str
    level: str
    distance_cm: Centimetres


class SkirtRecord(Record):
    """The shape of a skirt; what is left out is as `SkirtOptions` has it."""

    length_cm: Centimetres = SkirtOptions.length / CM
    circle: CircleShare = SkirtOptions.circle
    panels: int | None = None
    cloth_width_cm: Centimetres = SkirtOptions.cloth_width / CM
    gores: int = SkirtOptions.gores
    flare_cm: Centimetres = SkirtOptions.flare / CM
    centre_front: CentreFrontEdge = SkirtOptions.centre_front

    def skirt(self) -> SkirtOptions:
        """The shape, mm.

        Raises:
            InputError: if no skirt can be made so.
        """
        return SkirtOptions(
            length=self.length_cm * CM,
            circle=self.circle,
            panels=self.panels,
            cloth_width=self.cloth_width_cm * CM,
            gores=self.gores,
            flare=self.flare_cm * CM,
            centre_front=self.centre_front,
        )

    @classmethod
    def of(cls, skirt: SkirtOptions) -> Self:
        """The record of a shape in mm."""
        return cls(
            length_cm=round(skirt.length / CM, 9),
            circle=skirt.circle,
            panels=skirt.panels,
            cloth_width_cm=round(skirt.cloth_width / CM, 9),
            gores=skirt.gores,
            flare_cm=round(skirt.flare / CM, 9),
            centre_front=skirt.centre_front,
        )


class BlockRecord(Record):
    """All that is chosen about a block; what is left out is as `BlockOptions` has it."""

    type: BlockType = "princess"
    ease_cm: EaseRecord = EaseRecord()
    panels: int = 4
    seams: Annotated[list[SeamRecord], Field(max_length=20)] = []
    bust_point_offset_cm: Centimetres = 0.0
    centre_back_shape: CentreBackShape = "shaped"
    centre_back: CentreBackEdge = "opening"
    keep: Keep = "both"
    top: Top = "upper-bust"
    front_princess_to: PrincessTo = "shoulder"
    back_princess_to: PrincessTo = "shoulder"
    skirt: SkirtRecord = SkirtRecord()
    bust_dart: float = BlockOptions.bust_dart

    def options(self) -> BlockOptions:
        """The options, mm.

        Raises:
            InputError: if no block can be made so.
        """
        return BlockOptions(
            ease=self.ease_cm.ease(),
            panels=self.panels,
            seams=tuple(SeamPlace(seam.line, seam.level, seam.distance_cm * CM) for seam in self.seams),
            bust_point_offset=self.bust_point_offset_cm * CM,
            centre_back_shape=self.centre_back_shape,
            centre_back=self.centre_back,
            keep=self.keep,
            top=self.top,
            front_princess_to=self.front_princess_to,
            back_princess_to=self.back_princess_to,
            type=self.type,
            skirt=self.skirt.skirt(),
            bust_dart=self.bust_dart,
        )

    @classmethod
    def of(cls, options: BlockOptions) -> Self:
        """The record of options in mm."""
        return cls(
            ease_cm=EaseRecord.of(options.ease),
            panels=options.panels,
            seams=[
                SeamRecord(line=place.line, level=place.level, distance_cm=round(place.distance / CM, 9))
                for place in options.seams
            ],
            bust_point_offset_cm=round(options.bust_point_offset / CM, 9),
            centre_back_shape=options.centre_back_shape,
            centre_back=options.centre_back,
            keep=options.keep,
            top=options.top,
            front_princess_to=options.front_princess_to,
            back_princess_to=options.back_princess_to,
            type=options.type,
            skirt=SkirtRecord.of(options.skirt),
            bust_dart=options.bust_dart,
        )
