"""Square, sloping and forward shoulders, on a block that runs up to the shoulder."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal, get_args

import numpy as np

from panelwright.blocks.fit_panels import PanelFitter
from panelwright.body.worded_length import given_words
from panelwright.errors import InputError
from panelwright.fitting.note import checked
from panelwright.fitting.reshape import Pinned, Reshape
from panelwright.fitting.worked_panel import WorkedPanel
from panelwright.geometry.arrays import Array

Shape = Literal["square", "sloping", "forward"]
SHAPES: Final[tuple[str, ...]] = get_args(Shape)
MOST: Final = 25.0  # mm at the shoulder point
WAYS: Final[dict[Shape, tuple[float, float]]] = {"square": (1, 1), "sloping": (-1, -1), "forward": (-1, 1)}


@dataclass(frozen=True)
class ShoulderNote:
    """Raises or lowers the shoulder seam at the shoulder point, by nothing at the neck; the seam keeps its length.

    Attributes:
        uid: permanent name.
        shape: `square` raises front and back, `sloping` lowers both, `forward` lowers the front and raises the back.
        amount: at the shoulder point on each of the two, mm.

    Raises:
        InputError: if it cannot be; one sentence.
    """

    uid: str
    shape: Shape
    amount: float

    def __post_init__(self) -> None:
        if self.shape not in SHAPES:
            raise InputError(f"a shoulder is {', '.join(SHAPES)}, not {self.shape!r}", "shape")
        checked(self.uid, f"{self.shape} shoulder", amount=(self.amount, MOST))

    @property
    def kind(self) -> str:
        """What a fitting file calls it."""
        return f"{self.shape}-shoulder"

    @property
    def label(self) -> str:
        """`Square shoulder: 1 cm up at the shoulder point`."""
        does = {"square": "up", "sloping": "down", "forward": "down in front and up behind"}[self.shape]
        return f"{self.shape.capitalize()} shoulder: {given_words(self.amount)} {does} at the shoulder point"

    def reshape(self, panels: Sequence[WorkedPanel], fitter: PanelFitter) -> Reshape | None:
        """The shoulder's ends are pinned, and the waist; what lies between gives way. None on a block without one."""
        upper = fitter.upper
        if upper is None:
            return None
        pins = [Pinned(k, 0.0, end, 0.0) for k in range(len(panels)) for end in (0.0, 1.0)]
        tips: dict[int, tuple[float, float]] = {}
        for k, bounds in enumerate(fitter.bounds):
            front = upper.panel_half(*bounds) == "front"
            sign = self.amount * WAYS[self.shape][0 if front else 1]
            for part in upper.parts(*bounds):
                if part.part != "shoulder":
                    continue
                z, across = upper.places(bounds, part.v[[0, -1]], part.u[[0, -1]])
                ups = [sign * share for share in upper.span_of(bounds, part)]
                pins += [Pinned(k, float(a), float(b), up) for a, b, up in zip(z, across, ups, strict=True)]
                tips[k] = ups[0], ups[1]
        bottom = float(fitter.z[-1])

        def wanted(k: int, panel: WorkedPanel) -> Array:
            movement = np.zeros_like(panel.flat.coefficients)
            top = panel.flat.heights.at[-1]
            up = np.clip((panel.flat.heights.places - bottom) / (top - bottom), 0.0, 1.0)
            low, high = tips.get(k, (0.0, 0.0))
            movement[..., 1] = up[:, None] * (low + (high - low) * panel.flat.across.places)[None]
            return movement

        return Reshape(lambda at: at, wanted, pinned=tuple(pins))
