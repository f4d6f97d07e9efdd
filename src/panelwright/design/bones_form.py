"""Bones in a design file."""

from typing import Any, ClassVar, Literal, Self

from pydantic import Field

from panelwright.design.bone_channel import Channel
from panelwright.design.bone_list import BoneKind
from panelwright.design.bones import MOST_CHANNELS, Bones
from panelwright.design.step_form import FormRecord, Fraction, HeightForm, Length, StepForm, Text, cm, mm

MOST_LINES = 40


class ChannelForm(FormRecord):
    """A channel between two lines."""

    line: Text
    towards: Text
    fraction: Fraction = 0.5
    fraction_above: Fraction | None = None
    over_bust_point: bool = False

    def channel(self) -> Channel:
        """The channel."""
        return Channel(self.line, self.towards, self.fraction, self.fraction_above, self.over_bust_point)

    @classmethod
    def of_channel(cls, channel: Channel) -> "ChannelForm":
        """The form of a channel."""
        return ChannelForm(
            line=channel.line,
            towards=channel.towards,
            fraction=channel.fraction,
            fraction_above=channel.fraction_above,
            over_bust_point=channel.over_bust_point,
        )


class BonesForm(StepForm):
    """Bones: what kind, along which lines and in which channels."""

    makes: ClassVar[type[Any]] = Bones

    kind: Literal["bones"]
    bone: BoneKind = "spiral"
    width_cm: Length = 0.6
    clearance_cm: Length = 0.5
    seams: list[Text] | None = Field(default=None, max_length=MOST_LINES)
    channels: list[ChannelForm] = Field(default=[], max_length=MOST_CHANNELS)
    up_to: HeightForm | None = None

    def step(self) -> Bones:
        """The step."""
        return Bones(
            self.uid,
            self.bone,
            mm(self.width_cm),
            mm(self.clearance_cm),
            None if self.seams is None else tuple(self.seams),
            tuple(form.channel() for form in self.channels),
            self.up_to.height() if self.up_to else None,
        )

    @classmethod
    def of(cls, step: Bones) -> Self:
        """The form of the step."""
        return cls(
            kind="bones",
            uid=step.uid,
            bone=step.bone,
            width_cm=cm(step.width),
            clearance_cm=cm(step.clearance),
            seams=None if step.seams is None else list(step.seams),
            channels=[ChannelForm.of_channel(channel) for channel in step.channels],
            up_to=HeightForm.of_height(step.up_to) if step.up_to else None,
        )

    def heights(self) -> list[tuple[str, HeightForm]]:
        """`up_to`."""
        return [("up_to", self.up_to)] if self.up_to else []
