"""The steps that sew a strip to an edge: a frill, and a peplum."""

from dataclasses import dataclass, replace
from typing import ClassVar, Final, Literal, get_args

from panelwright.body.worded_length import given_words, range_words
from panelwright.design.attach import row_on
from panelwright.design.body_chart import closest
from panelwright.design.flared_band import Band
from panelwright.design.position import spoken
from panelwright.design.step import blamed, checked_uid
from panelwright.errors import DesignError
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.working import Part, Working

FrillShape = Literal["straight", "circular"]
WIDTH: Final = (10.0, 1500.0)  # mm
RATIO: Final = (1.0, 4.0)


@dataclass(frozen=True)
class Frill:
    """Sews a strip to a finished edge, or sets it in a seam.

    Slots: `top`, its sewn edge, `edge`, its free one, and `ends` of one that is set in a seam.

    Attributes:
        uid: permanent name in the design.
        line: of the finished edge, or of the seam.
        shape: `straight`, gathered; or `circular`: cut in a curve, with a free edge that is longer than the sewn one.
        width: mm.
        ratio: of a straight frill how often its length is what it is sewn to; of a circular one how often its free
            edge is its sewn one.

    Raises:
        DesignError: if the shape is unknown or a number is out of range.
    """

    kind: ClassVar[str] = "frill"
    needs_shoulder: ClassVar[bool] = False

    uid: str
    line: str
    shape: FrillShape = "straight"
    width: float = 50.0
    ratio: float = 1.5

    def __post_init__(self) -> None:
        checked_uid(self.uid)
        if self.shape not in get_args(FrillShape):
            raise DesignError(f"frill: it is straight or circular, not {self.shape!r}", f"step {self.uid}")
        _check("frill", self.uid, self.width, self.ratio)

    @property
    def label(self) -> str:
        """`Frill: on the hem`."""
        return f"Frill: {self.shape}, {spoken(self.line).removesuffix('/line')}"

    @property
    def slots(self) -> tuple[str, ...]:
        """Its edges."""
        return ("top", "edge", "ends")

    @property
    def uses(self) -> frozenset[str]:
        """The step that made the edge, if one did."""
        return _maker(self.line)

    def apply(self, pattern: Pattern, block: Pattern) -> Pattern:  # noqa: ARG002  # every step is given the block
        """The pattern with the frill as a piece of its own, and its length as a working.

        Raises:
            DesignError: if there is no such edge or seam, or something is sewn to it already.
        """
        with blamed(self.uid, "frill"):
            straight = self.shape == "straight"
            gathering, flare = (self.ratio, 1.0) if straight else (1.0, self.ratio)
            band = Band(_free("FRILL", pattern), self.uid, "Frill", self.width, gathering, flare)
            return _sewn(pattern, band, self.line)


@dataclass(frozen=True)
class Peplum:
    """Sews a flared piece to a lower edge: a peplum at the waist, a longer hem below it.

    Slots: `top`, its sewn edge, and `edge`, its hem.

    Attributes:
        uid: permanent name in the design.
        line: of the lower edge.
        length: from the edge to its own hem, mm.
        flare: how often its hem is the edge that it is sewn to; 1 is straight.

    Raises:
        DesignError: if a number is out of range.
    """

    kind: ClassVar[str] = "peplum"
    needs_shoulder: ClassVar[bool] = False

    uid: str
    line: str
    length: float = 150.0
    flare: float = 1.5

    def __post_init__(self) -> None:
        checked_uid(self.uid)
        _check("peplum", self.uid, self.length, self.flare)

    @property
    def label(self) -> str:
        """`Peplum: hem`."""
        return f"Peplum: {spoken(self.line).removesuffix('/line')}"

    @property
    def slots(self) -> tuple[str, ...]:
        """Its edges."""
        return ("top", "edge")

    @property
    def uses(self) -> frozenset[str]:
        """The step that made the edge, if one did."""
        return _maker(self.line)

    def apply(self, pattern: Pattern, block: Pattern) -> Pattern:  # noqa: ARG002  # every step is given the block
        """The pattern with the peplum as a piece of its own, and its hem's length as a working.

        Raises:
            DesignError: if there is no such finished edge, or one piece cannot flare so much.
        """
        with blamed(self.uid, "peplum"):
            band = Band(_free("PEPLUM", pattern), self.uid, "Peplum", self.length, 1.0, self.flare)
            return _sewn(pattern, band, self.line, only_edges=True)


def _check(what: str, uid: str, width: float, ratio: float) -> None:
    if not WIDTH[0] <= width <= WIDTH[1]:
        raise DesignError(
            f"{what}: a width of {given_words(width)} cannot be; give {range_words(*WIDTH)}", f"step {uid}"
        )
    if not RATIO[0] <= ratio <= RATIO[1]:
        raise DesignError(f"{what}: a ratio of {ratio:g} is not {RATIO[0]:g} to {RATIO[1]:g}", f"step {uid}")


def _maker(line: str) -> frozenset[str]:
    maker, slash, _ = line.partition("/")
    return frozenset({maker}) if slash and maker.islower() else frozenset()


def _free(code: str, pattern: Pattern) -> str:
    names = (code, *(f"{code}-{number}" for number in range(2, 99)))
    return next(name for name in names if not pattern.has_piece(name))


def _sewn(pattern: Pattern, band: Band, line: str, only_edges: bool = False) -> Pattern:
    """The pattern with the strip on a finished edge, or in a seam where the line is one."""
    kinds = {edge.kind for _, edge in pattern.pieces_on_line(line)}
    seam = next(
        (each for each in pattern.seams if each.id == line and each.kind == "join" and not each.is_centre), None
    )
    if kinds == {"finished"}:
        sewn_to = row_on(pattern, line).length
        after = band.on_edges(pattern, line)
    elif seam is not None and not only_edges:
        sewn_to = pattern.chain_length(seam.a)
        after = band.in_seam(pattern, seam)
    elif not kinds:
        known = sorted({edge.line for piece in pattern.pieces for edge in piece.edges if edge.kind == "finished"})
        raise DesignError(f"there is no edge on {line!r}{closest(line, known)}", line)
    else:
        what = "sewn already, to a facing or to another piece" if "seam" in kinds else "no finished edge"
        raise DesignError(f"the {spoken(line)} edge is {what}; name a finished edge or a seam between two pieces", line)
    free = sewn_to * band.gathering * band.flare
    part = Part(f"its free edge, {band.gathering * band.flare:.2f} times the edge that it is sewn to", free)
    what = band.label if after.piece(band.id).extent == "whole" else f"{band.label}, one side"
    return replace(after, workings=(*after.workings, Working(f"{band.uid}/length", what, (part,))))
