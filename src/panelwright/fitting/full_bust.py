"""Full bust: more length over the bust, and more width at it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from panelwright.blocks.fit_panels import PanelFitter
from panelwright.body.worded_length import given_words
from panelwright.fitting.note import checked, level_height
from panelwright.fitting.reshape import Reshape, line_number
from panelwright.fitting.seam_note import SeamNote
from panelwright.fitting.tapered import raised, tapering
from panelwright.fitting.worked_panel import WorkedPanel
from panelwright.geometry.arrays import Array
from panelwright.pattern import level as levels
from panelwright.pattern import line as lines

MOST_WIDTH, MOST_LENGTH = 30.0, 40.0  # mm


@dataclass(frozen=True)
class FullBust:
    """Lets out the front princess seams at the bust, and lengthens the front from the underbust up to it.

    Attributes:
        uid: permanent name.
        width: on each side of each front princess seam, mm: the girth at the bust grows by four times that.
        length: at the centre front between underbust and bust, mm, to nothing at the side.

    Raises:
        InputError: if it cannot be; one sentence.
    """

    uid: str
    width: float
    length: float

    def __post_init__(self) -> None:
        checked(self.uid, "full bust", width=(self.width, MOST_WIDTH), length=(self.length, MOST_LENGTH))

    @property
    def kind(self) -> str:
        """What a fitting file calls it."""
        return "full-bust"

    @property
    def label(self) -> str:
        """`Full bust: 0.8 cm wider on each side of the front princess seams, 1 cm longer`."""
        wider = f"{given_words(self.width)} wider on each side of the front princess seams"
        return f"Full bust: {wider}, {given_words(self.length)} longer"

    def reshape(self, panels: Sequence[WorkedPanel], fitter: PanelFitter) -> Reshape:
        """The width by letting out, running out at underbust and upper bust; the length with it."""
        let_out = self._let_out.reshape(panels, fitter)
        low, high = level_height(fitter, levels.UNDERBUST), level_height(fitter, levels.BUST)
        princess = line_number(fitter, lines.FRONT_PRINCESS) or 1
        shares = tapering(panels, fitter, high, princess)
        span = fitter.levels.index(levels.UNDERBUST)

        def wanted(k: int, panel: WorkedPanel) -> Array:
            return let_out.wanted(k, panel) + raised(panel, self.length, low, high, (shares[k], shares[k + 1]))

        lengths = {(line, span): self.length * share for line, share in enumerate(shares)}
        return replace(let_out, wanted=wanted, lengths=lengths)

    @property
    def _let_out(self) -> SeamNote:
        seam = lines.FRONT_PRINCESS
        return SeamNote(self.uid, "let-out", seam, levels.BUST, self.width, 0.0, levels.UPPER_BUST, levels.UNDERBUST)
