"""What a hand sheet tells a learner to do, one value for each kind of sentence; lengths in mm on paper."""

from dataclasses import dataclass

from panelwright.drawing.hand_guide import Guide
from panelwright.pattern.edge import EdgeKind
from panelwright.pattern.mark import Point


@dataclass(frozen=True)
class FromCross:
    """A place by its distances from the cross: `up` it (below 0: down) and `right` of it (below 0: left)."""

    up: float
    right: float


@dataclass(frozen=True)
class OnLine:
    """A place on a line that is drawn already.

    Attributes:
        line: as it is spoken of.
        start: from where it is measured: a letter, or the name of a level.
        distance: along the line.
        way: `up`, `down`, or the letter towards which it is measured.
    """

    line: str
    start: str
    distance: float
    way: str


@dataclass(frozen=True)
class AtLevel:
    """Where a line meets a level."""

    line: str
    level: str


Place = FromCross | OnLine | AtLevel


@dataclass(frozen=True)
class Cross:
    """Draw a new cross."""

    piece: str


@dataclass(frozen=True)
class Trace:
    """Trace what is drawn of another piece; the tracing becomes this one."""

    piece: str
    source: str


@dataclass(frozen=True)
class Lettered:
    """A new point with its letter."""

    letter: str
    place: Place
    at: Point


@dataclass(frozen=True)
class Marked:
    """A mark without a letter: a bust point, a button, a notch."""

    name: str
    place: Place
    at: Point


@dataclass(frozen=True)
class Drawn:
    """A new line from letter to letter."""

    name: str
    start: str
    end: str
    guide: Guide


@dataclass(frozen=True)
class Levels:
    """Marks of levels on a line: (level, distance from a letter along the line, going up)."""

    line: str
    start: str
    marks: tuple[tuple[str, float], ...]


@dataclass(frozen=True)
class LevelLines:
    """How level lines join their marks: (level, how far its middle lies above a straight line)."""

    bows: tuple[tuple[str, float], ...]


@dataclass(frozen=True)
class Round:
    """The outline: (letter, letter, line between them as it is spoken of), all round."""

    piece: str
    stretches: tuple[tuple[str, str, str], ...]


@dataclass(frozen=True)
class Same:
    """A tracing to which nothing is added."""

    piece: str
    source: str


@dataclass(frozen=True)
class Becomes:
    """What becomes of a line from now on: it lies on the fold, opens, is sewn.

    Attributes:
        name: of the line.
        kind: of its edges now.
        edges: their ids.
    """

    name: str
    kind: EdgeKind
    edges: tuple[str, ...]


Told = Cross | Trace | Lettered | Marked | Drawn | Levels | LevelLines | Round | Same | Becomes
