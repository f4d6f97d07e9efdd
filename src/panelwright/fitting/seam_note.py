"""Take in or let out at a seam: so much on each side at one height, running out to nothing above and below."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal, get_args

import numpy as np

from panelwright.blocks.fit_panels import PanelFitter
from panelwright.body.worded_length import given_words, length_words
from panelwright.errors import InputError
from panelwright.fitting.note import checked, known_level, level_height, spoken
from panelwright.fitting.reshape import Reshape, line_number
from panelwright.fitting.run_out import RunOut
from panelwright.fitting.worked_panel import WorkedPanel
from panelwright.geometry.arrays import Array
from panelwright.pattern import line as lines

Way = Literal["take-in", "let-out"]
WAYS: Final[tuple[str, ...]] = get_args(Way)
MOST: Final = 40.0  # mm on each side
MOST_ABOVE: Final = 150.0  # mm from the level
SHORTEST_RUN: Final = 35.0  # mm in which an amount may run out
STEEPEST: Final = 0.5  # mm of amount for each mm of seam
SAME_PLACE: Final = 1.5  # mm: a pin so near to a joint of the panels is set on it
LEFT_OF_PANEL: Final = 15.0  # mm


@dataclass(frozen=True)
class SeamNote:
    """Takes in (or lets out) a seam.

    Attributes:
        uid: permanent name.
        way: `take-in` or `let-out`.
        seam: line of the block: a princess, side or underarm seam, or the centre back.
        level: where the amount was pinned.
        amount: on each side of the seam, mm, above 0.
        above: how far above the level the pin is, along the seam, mm (below: negative).
        nothing_above, nothing_below: levels where it has run out; None: at the next level at least 6 cm away, or not
            at all where the block ends before.

    The garment's girth changes by four times the amount at a seam that is there on both sides of the body, by twice
    the amount at the centre back.

    Raises:
        InputError: if it cannot be; one sentence.
    """

    uid: str
    way: Way
    seam: str
    level: str
    amount: float
    above: float = 0.0
    nothing_above: str | None = None
    nothing_below: str | None = None

    def __post_init__(self) -> None:
        if self.way not in WAYS:
            raise InputError(f"a seam is taken in or let out: write take-in or let-out, not {self.way!r}", "kind")
        checked(self.uid, self.way.replace("-", " "), amount=(self.amount, MOST))
        for field in ("level", "nothing_above", "nothing_below"):
            if (level := getattr(self, field)) is not None:
                known_level(level, field)
        if not abs(self.above) <= MOST_ABOVE:
            raise InputError(
                f"the pin is {given_words(self.above)} from the {spoken(self.level)} level; name a nearer level",
                "above",
            )

    @property
    def signed(self) -> float:
        """What the note adds on each side, mm: below 0 where it takes in."""
        return self.amount if self.way == "let-out" else -self.amount

    @property
    def kind(self) -> str:
        """What a fitting file calls it."""
        return self.way

    @property
    def label(self) -> str:
        """`Take in the back princess seam at the waist by 0.8 cm on each side`."""
        seam = "centre back" if self.seam == lines.CENTRE_BACK else f"{spoken(self.seam)} seam"
        way = self.way.replace("-", " ").capitalize()
        beside = f"{length_words(abs(self.above))} {'above' if self.above > 0 else 'below'} " if self.above else ""
        return f"{way} the {seam} {beside or 'at '}the {spoken(self.level)} by {given_words(self.amount)} on each side"

    def reshape(self, panels: Sequence[WorkedPanel], fitter: PanelFitter) -> Reshape:
        """Both panels lose (or gain) the amount along their level lines."""
        line = self._line(fitter)
        out = self._run_out(panels, fitter, line)
        sides = {line - 1: 1.0, line: 0.0}  # panel -> which of its ends the seam is

        def wanted(k: int, panel: WorkedPanel) -> Array:
            flat = panel.flat
            movement = np.zeros_like(flat.coefficients)
            if k in sides:
                outward = (1.0 if sides[k] else -1.0) * panel.across(flat.heights.places, sides[k])
                places = flat.across.places
                near = (places if sides[k] else 1 - places) ** 2
                share = out.coefficients(flat.heights)
                movement = self.signed * share[:, None, None] * near[None, :, None] * outward[:, None]
            return movement

        def widths(k: int, panel: WorkedPanel, z: float) -> float:
            if k not in sides:
                return 0.0
            heights = panel.flat.heights
            change = self.signed * float(heights.basis(np.array([z]))[0] @ out.coefficients(heights))
            self._refuse_narrow(panel.width(z) + change)
            return change

        return Reshape(out.joints, wanted, widths, free=frozenset({line}))

    def _refuse_narrow(self, left: float) -> None:
        if left < LEFT_OF_PANEL:
            raise InputError(
                f"it would leave a panel {length_words(left)} wide; a panel needs {given_words(LEFT_OF_PANEL)}: "
                "take in at several seams",
                "amount",
            )

    def _line(self, fitter: PanelFitter) -> int:
        line = line_number(fitter, self.seam)
        if line is None:
            known = ", ".join((*fitter.seams, lines.CENTRE_BACK))
            raise InputError(f"this block has no {spoken(self.seam)} seam; its seams are {known}", "seam")
        if line == 0:
            raise InputError("the centre front is cut on the fold; take in or let out at the princess seams", "seam")
        if line == len(fitter.bounds) and fitter.options.centre_back_shape == "straight":
            raise InputError(
                "this block's centre back is one straight line; take in or let out at the back princess seams, or "
                "choose a shaped centre back",
                "seam",
            )
        return line

    def _run_out(self, panels: Sequence[WorkedPanel], fitter: PanelFitter, line: int) -> RunOut:
        pin = self._pin(panels[line - 1], fitter)
        low = self._end(fitter, pin, self.nothing_below, -1)
        high = self._end(fitter, pin, self.nothing_above, 1)
        if high is None and fitter.upper is not None and self.seam not in (lines.SIDE, lines.CENTRE_BACK):
            high = fitter.upper.line_end(self.seam)
        for end in (low, high):
            if end is not None and abs(end - pin) * STEEPEST < self.amount:
                raise InputError(
                    f"{given_words(self.amount)} cannot run out within {length_words(abs(end - pin))} of seam without "
                    f"a corner; let it run out over {length_words(self.amount / STEEPEST)} or more",
                    "nothing_above" if end > pin else "nothing_below",
                )
        return RunOut(pin, low, high)

    def _pin(self, panel: WorkedPanel, fitter: PanelFitter) -> float:
        """Height of the pin, mm."""
        z = level_height(fitter, self.level)
        if self.above:
            line = panel.flat.line(True)
            heights = np.linspace(panel.flat.heights.at[0], fitter.z[-1], 401)
            points = panel.flat.points(heights, np.array([1.0]))[:, 0]
            arcs = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))])
            wanted = float(np.interp(z, heights, arcs)) + self.above
            if not 0 <= wanted <= min(arcs[-1], line.length) + 1e-6:
                raise InputError(f"the pin would lie {length_words(abs(self.above))} beyond the block", "above")
            z = float(np.interp(wanted, arcs, heights))
            near = panel.flat.heights.at[int(np.abs(panel.flat.heights.at - z).argmin())]
            z = float(near) if abs(near - z) < SAME_PLACE else z
        return z

    def _end(self, fitter: PanelFitter, pin: float, level: str | None, way: int) -> float | None:
        """Height where the amount has run out; None where it runs to the end of the block."""
        field = "nothing_above" if way > 0 else "nothing_below"
        if level is not None:
            z = level_height(fitter, level)
            if (z - pin) * way < SHORTEST_RUN:
                raise InputError(
                    f"it is to run out at the {spoken(level)}, which is not at least {given_words(SHORTEST_RUN)} "
                    f"{'above' if way > 0 else 'below'} the pin",
                    field,
                )
            return z
        beyond = [float(z) for z in fitter.z[::way] if (float(z) - pin) * way >= 60.0]
        if beyond:
            return beyond[0]
        end = float(fitter.z[-1] if way > 0 else fitter.z[0])
        return end if abs(end - pin) >= SHORTEST_RUN and fitter.upper is None else None
