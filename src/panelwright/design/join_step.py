"""The step that lays two pieces together along a seam."""

from dataclasses import dataclass
from typing import ClassVar, Final, Literal, get_args

from panelwright.design.body_chart import closest
from panelwright.design.joined_panels import joined_with_dart, joined_with_ease
from panelwright.design.outline_point import named_piece
from panelwright.design.position import Height
from panelwright.design.sound_outline import refuse_crossed
from panelwright.design.squared_grain import squared
from panelwright.design.step import blamed, checked_uid
from panelwright.errors import DesignError
from panelwright.pattern.level import BUST
from panelwright.pattern.line import Line
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Seam

SPOKEN = "join"
JoinMisfit = Literal["ease", "dart"]
Opens = Literal["down", "up"]
JoinGrain = Literal["square", "first"]
JOIN_MISFITS: Final[tuple[str, ...]] = get_args(JoinMisfit)
DART_POINT: Final = Height(BUST)


@dataclass(frozen=True)
class Join:
    """Makes two pieces one along the seam between them.

    Slots: `dart`, if the misfit becomes one.

    Attributes:
        uid: permanent name in the design.
        seam: the line that is sewn, `front-princess`.
        first: code of the piece that stays and gives its name; None: the one on the fold, else the one before the
            other from the centre front.
        misfit: what becomes of it where the two edges are not of one shape: `ease` (the edges are laid end on end), or
            a `dart` (they are laid together on one side of its point and gape on the other).
        point: of the dart, on the seam; None: at the bust.
        opens: of the dart: `down` or `up`.
        grain: `square` to the waist line of the new piece, or as the `first` had it.

    Raises:
        DesignError: if a choice is unknown, or a dart's field is given without a dart.
    """

    kind: ClassVar[str] = "join"
    needs_shoulder: ClassVar[bool] = False

    uid: str
    seam: str
    first: str | None = None
    misfit: JoinMisfit = "ease"
    point: Height | None = None
    opens: Opens = "down"
    grain: JoinGrain = "square"

    def __post_init__(self) -> None:
        checked_uid(self.uid)
        for name, value, known in (
            ("leaves", self.misfit, JOIN_MISFITS),
            ("has a dart that opens", self.opens, get_args(Opens)),
            ("has a grain that is", self.grain, get_args(JoinGrain)),
        ):
            if value not in known:
                raise DesignError(f"{SPOKEN}: a join {name} {', '.join(known)}, not {value!r}", f"step {self.uid}")
        if self.misfit == "ease" and (self.point is not None or self.opens != "down"):
            raise DesignError(
                f"{SPOKEN}: only a dart has a point and opens to one side; choose a dart or leave them out",
                f"step {self.uid}",
            )

    @property
    def label(self) -> str:
        """`Join: front princess, with a dart`."""
        return f"Join: {self.seam.replace('-', ' ')}{', with a dart' if self.misfit == 'dart' else ''}"

    @property
    def slots(self) -> tuple[str, ...]:
        """The dart, if there is one."""
        return ("dart",) if self.misfit == "dart" else ()

    @property
    def uses(self) -> frozenset[str]:
        """No earlier step by name; a seam that a step made is looked for when it is joined."""
        return frozenset()

    @property
    def recorded_kind(self) -> str:
        """What the pattern's record calls it: it says so where a grain is kept that is square to no waist line."""
        return "join-keeping-grain" if self.grain == "first" else self.kind

    def apply(self, pattern: Pattern, block: Pattern) -> Pattern:  # noqa: ARG002  # every step is given the block
        """The pattern with one piece instead of two, and what did not fit as a working.

        Raises:
            DesignError: if there is no such seam between two pieces, they lap over each other when laid together, or
                the one that would be moved is cut on the fold.
        """
        with blamed(self.uid, SPOKEN):
            seam = _seam(pattern, self.seam)
            first = self._first(pattern, seam)
            if self.misfit == "dart":
                line = Line(f"{self.uid}/dart", "Dart", self.uid)
                after = joined_with_dart(pattern, seam, first, self.point or DART_POINT, self.opens, line)
            else:
                after = joined_with_ease(pattern, seam, first, self.uid)
            refuse_crossed(after, (first,), "the two edges are too unlike to be laid together; leave them apart")
            return squared(after, (first,)) if self.grain == "square" else after

    def _first(self, pattern: Pattern, seam: Seam) -> str:
        sides = list(dict.fromkeys(span.piece for span in seam.a + seam.b))
        if self.first is not None:
            if named_piece(pattern, self.first).id not in sides:
                raise DesignError(f"{self.first} is not at that seam, which joins {' and '.join(sides)}", self.first)
            return self.first
        on_fold = [id for id in sides if any(edge.kind == "fold" for edge in pattern.piece(id).edges)]
        return (on_fold or sides)[0]


def _seam(pattern: Pattern, id: str) -> Seam:
    known = {seam.id: seam for seam in pattern.seams if seam.kind == "join" and not seam.is_centre}
    if id not in known:
        raise DesignError(f"no two pieces are sewn together along {id!r}{closest(id, list(known))}", id)
    return known[id]
