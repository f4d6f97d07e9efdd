"""The finish of a design file: allowances in centimetres, the layers inside, cloths and notches."""

from typing import Annotated, Self, cast

from pydantic import Field

from panelwright.app.block_record import CM, Record
from panelwright.body.length_field import Centimetres
from panelwright.finish.cut_piece import Corner
from panelwright.finish.options import MOST_TURN, Cloths, CornerKind, ExtraNotches, Facing, Finish, Interfacing, Lining
from panelwright.pattern.edge import EdgeKind

ClothName = Annotated[str, Field(max_length=40)]

Millimetres = Annotated[float, Field(ge=0, le=MOST_TURN, allow_inf_nan=False)]


class KindsRecord(Record):
    """Allowances by kind of edge, cm."""

    seam: Centimetres | None = None
    finished: Centimetres | None = None
    opening: Centimetres | None = None


class CornersRecord(Record):
    """How corners are finished, by kind of corner."""

    turned_edge: Corner | None = None
    seam_end: Corner | None = None
    other: Corner | None = None


class ClothsRecord(Record):
    """What each layer is cut from."""

    outer: ClothName = Cloths.outer
    facing: ClothName = Cloths.facing
    interfacing: ClothName = Cloths.interfacing
    lining: ClothName = Cloths.lining


class FinishRecord(Record):
    """All that is chosen about making a pattern ready to cut; what is left out is as `Finish` has it."""

    allowance_cm: Centimetres = Finish.allowance / CM
    allowance_by_kind_cm: KindsRecord = KindsRecord()
    allowance_by_line_cm: dict[str, Centimetres] = Field(default={}, max_length=50)
    corners: CornersRecord = CornersRecord()
    facing: Facing = Finish.facing
    facing_width_cm: Centimetres = Finish.facing_width / CM
    hem_facing_width_cm: Centimetres = Finish.hem_facing_width / CM
    lining: Lining = Finish.lining
    interfacing: bool | Interfacing = Finish.interfacing
    turn_of_cloth_mm: Millimetres = Finish.turn_of_cloth
    cloths: ClothsRecord = ClothsRecord()
    extra_notches: ExtraNotches = Finish.extra_notches
    notch_distance_cm: Centimetres = Finish.notch_distance / CM

    def finish(self) -> Finish:
        """The options, mm.

        Raises:
            InputError: if an allowance, corner or cloth cannot be.
        """
        kinds = cast(dict[EdgeKind, float], self.allowance_by_kind_cm.model_dump(exclude_none=True))
        corners = cast(dict[CornerKind, Corner], self.corners.model_dump(exclude_none=True))
        return Finish(
            allowance=self.allowance_cm * CM,
            kinds={kind: width_cm * CM for kind, width_cm in kinds.items()},
            lines={line: width_cm * CM for line, width_cm in self.allowance_by_line_cm.items()},
            corners=corners,
            facing=self.facing,
            facing_width=self.facing_width_cm * CM,
            hem_facing_width=self.hem_facing_width_cm * CM,
            lining=self.lining,
            interfacing=self.interfacing,
            turn_of_cloth=self.turn_of_cloth_mm,
            cloths=Cloths(**self.cloths.model_dump()),
            extra_notches=self.extra_notches,
            notch_distance=self.notch_distance_cm * CM,
        )

    @classmethod
    def of(cls, finish: Finish) -> Self:
        """The record of options in mm."""
        kinds_cm = {kind: round(width / CM, 9) for kind, width in finish.kinds.items()}
        return cls(
            allowance_cm=round(finish.allowance / CM, 9),
            allowance_by_kind_cm=KindsRecord.model_validate(kinds_cm),
            allowance_by_line_cm={line: round(width / CM, 9) for line, width in finish.lines.items()},
            corners=CornersRecord.model_validate(dict(finish.corners)),
            facing=finish.facing,
            facing_width_cm=round(finish.facing_width / CM, 9),
            hem_facing_width_cm=round(finish.hem_facing_width / CM, 9),
            lining=finish.lining,
            interfacing=finish.interfacing,
            turn_of_cloth_mm=finish.turn_of_cloth,
            cloths=ClothsRecord(
                outer=finish.cloths.outer,
                facing=finish.cloths.facing,
                interfacing=finish.cloths.interfacing,
                lining=finish.cloths.lining,
            ),
            extra_notches=finish.extra_notches,
            notch_distance_cm=round(finish.notch_distance / CM, 9),
        )
