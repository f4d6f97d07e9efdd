"""How well two drawn edges go together as the two sides of a seam, and why."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from panelwright.body.units import Unit, format_length
from panelwright.intake.edge_trait import EdgeTrait
from panelwright.intake.level_name import is_numbered

# The panels of a half from centre front to centre back, as they are usually called.
ROW: Final = ("CF", "SF", "SP", "UF", "UA", "UB", "SB", "CB")
# Weights of what is looked at, and how far two edges may differ before it counts against them (own trials).
NAMED, LEVELS, LENGTH, NOTCHES, CORNERS, BEND, BESIDE = 6.0, 4.0, 3.0, 3.0, 2.0, 2.0, 2.0
LENGTH_OFF: Final = 3.0  # mm, and a hundredth of the length
PLACE_OFF: Final = 4.0  # mm
CORNER_OFF: Final = math.radians(12.0)
BEND_OFF: Final = 0.02
LONELY: Final = 0.5  # what a level without a name counts that crosses one of the two, of one that crosses both


@dataclass(frozen=True)
class SeamScore:
    """A pair weighed.

    Attributes:
        value: from 0, cannot be, to 1, all agrees.
        weight: of all that was looked at: how much is known of the pair.
        reason: in words, the weightiest first.
    """

    value: float
    weight: float
    reason: str


@dataclass(frozen=True)
class _Sign:
    weight: float
    agrees: float
    words: str


def score(a: EdgeTrait, b: EdgeTrait, unit: Unit = Unit.CM) -> SeamScore:
    """Two edges of different pieces, both outer face up: their outlines run against each other along a seam."""
    signs = [sign for sign in (*_drawn(a, b, unit), _named(a, b), _beside(a, b)) if sign is not None]
    weight = sum(sign.weight for sign in signs)
    value = sum(sign.weight * sign.agrees for sign in signs) / weight
    speaking = sorted((s for s in signs if s.agrees > 0.5 and s.words), key=lambda s: -s.weight * s.agrees)
    words = "; ".join(sign.words for sign in speaking[:4])
    return SeamScore(value, weight, words or "little speaks for it")


def _drawn(a: EdgeTrait, b: EdgeTrait, unit: Unit) -> list[_Sign | None]:
    return [_length(a, b, unit), _levels(a, b, unit), _notches(a, b), _corners(a, b), _bend(a, b)]


def _near(off: float, scale: float) -> float:
    return math.exp(-0.5 * (off / scale) ** 2)


def _length(a: EdgeTrait, b: EdgeTrait, unit: Unit) -> _Sign:
    """Both as drawn; ease makes a difference, so that a little is forgiven."""
    mine, other = a.curve.length, b.curve.length
    off = abs(mine - other)
    agrees = _near(off, LENGTH_OFF + 0.01 * min(mine, other))
    words = f"{format_length(mine, unit)} and {format_length(other, unit)} long"
    return _Sign(LENGTH, agrees, words)


def _levels(a: EdgeTrait, b: EdgeTrait, unit: Unit) -> _Sign | None:
    """Levels cross both at the same places, measured from the ends that meet."""
    if any(map(is_numbered, a.levels.keys() | b.levels.keys())):
        return _unnamed_levels(a, b, unit)
    shared = a.levels.keys() & b.levels.keys()
    known = _crossing(a) & _crossing(b)
    if not known or not (a.levels or b.levels):
        return None
    lonely = len((a.levels.keys() ^ b.levels.keys()) & known)
    if not shared:
        return _Sign(LEVELS, 0.0, "")
    offs = [abs(a.levels[id] - (b.curve.length - b.levels[id])) for id in shared]
    agrees = _near(float(np.mean(offs)), PLACE_OFF) * 0.6**lonely
    names = ", ".join(level.replace("-", " ") for level in sorted(shared))
    return _Sign(LEVELS, agrees, _crossed(names, offs, unit))


def _unnamed_levels(a: EdgeTrait, b: EdgeTrait, unit: Unit) -> _Sign | None:
    """The same of levels that nobody has named, of which some may not be drawn or not be read on one piece."""
    mine = np.sort(list(a.levels.values()))
    other = np.sort([b.curve.length - arc for arc in b.levels.values()])
    if not len(mine) or not len(other):
        return None
    apart = np.abs(mine[:, None] - other)
    nearest = apart.argmin(axis=1)
    offs = [
        float(apart[k, j]) for k, j in enumerate(nearest) if apart[:, j].argmin() == k and apart[k, j] < 3 * PLACE_OFF
    ]
    lonely = len(mine) + len(other) - 2 * len(offs)
    agrees = sum(_near(off, PLACE_OFF) for off in offs) / (len(offs) + LONELY * lonely)
    several = "a level" if len(offs) == 1 else f"{len(offs)} levels"
    return _Sign(LEVELS, agrees, _crossed(several, offs, unit) if offs else "")


def _crossed(levels: str, offs: Sequence[float], unit: Unit) -> str:
    """`bust, waist cross both, 0.1 cm apart at most`, `a level crosses both, 0.1 cm apart`."""
    apart = f"{format_length(max(offs), unit)} apart"
    return f"{levels} crosses both, {apart}" if len(offs) == 1 else f"{levels} cross both, {apart} at most"


def _crossing(a: EdgeTrait) -> set[str]:
    return {line.id for line in a.piece.inside if line.kind == "level"}


def _notches(a: EdgeTrait, b: EdgeTrait) -> _Sign | None:
    if not a.notches and not b.notches:
        return None
    if len(a.notches) != len(b.notches):
        return _Sign(NOTCHES, 0.2 if a.notches and b.notches else 0.0, "")
    pairs = list(zip(a.notches, reversed(b.notches), strict=True))
    off = float(np.mean([abs(here - (b.curve.length - there)) for (here, _), (there, _) in pairs]))
    same = all(one == other for (_, one), (_, other) in pairs)
    return _Sign(NOTCHES, _near(off, PLACE_OFF) * (1.0 if same else 0.3), "their notches meet")


def _corners(a: EdgeTrait, b: EdgeTrait) -> _Sign:
    """Sewn together, what bounds the pieces at both ends of the seam runs on."""
    offs = [a.corners[0] + b.corners[1] - math.pi, a.corners[1] + b.corners[0] - math.pi]
    agrees = float(np.mean([_near(off, CORNER_OFF) for off in offs]))
    return _Sign(CORNERS, agrees, "the edges beside it run on across it")


def _bend(a: EdgeTrait, b: EdgeTrait) -> _Sign:
    """One bulges where the other is hollow, so that both lie flat; or both shape the body at the same height."""
    mine, other = a.bulge, b.bulge[::-1]
    flat, shaped = (float(np.sqrt(np.mean((mine + sign * other) ** 2))) for sign in (1.0, -1.0))
    strong = float(max(np.abs(mine).max(), np.abs(other).max()))
    if strong < BEND_OFF / 2:
        return _Sign(BEND, 1.0, "both are straight")
    words = "one bulges where the other is hollow" if flat < shaped else "both bulge and hollow at the same heights"
    return _Sign(BEND, _near(min(flat, shaped), BEND_OFF), words)


def _named(a: EdgeTrait, b: EdgeTrait) -> _Sign | None:
    if not a.edge.line or not b.edge.line:
        return None
    same = a.edge.line == b.edge.line
    return _Sign(NAMED, float(same), f"both are called {a.edge.line}")


def _beside(a: EdgeTrait, b: EdgeTrait) -> _Sign | None:
    """Their places in the row of panels, where the pieces have their usual short names."""
    if a.piece.id not in ROW or b.piece.id not in ROW:
        return None
    if not (a.upright and b.upright):
        return _shoulder(a, b)
    apart = abs(ROW.index(a.piece.id) - ROW.index(b.piece.id))
    between = apart - 1
    behind = ROW.index(a.piece.id) > ROW.index(b.piece.id)
    wrong = [on_right(a) is (not behind), on_right(b) is behind]
    agrees = 0.2 ** sum(wrong) * 0.6**between
    return _Sign(BESIDE, agrees, f"{a.piece.id} and {b.piece.id} lie side by side")


def _shoulder(a: EdgeTrait, b: EdgeTrait) -> _Sign:
    """A front shoulder is sewn to a back one, both as far from their centre."""
    mine, other = ROW.index(a.piece.id), ROW.index(b.piece.id)
    off = abs(mine - (len(ROW) - 1 - other))
    return _Sign(BESIDE, 0.3**off, f"{a.piece.id} and {b.piece.id} meet on the shoulder")


def on_right(a: EdgeTrait) -> bool | None:
    """Whether the edge is the right one of its piece as it is worn: there the outline runs up. None: nobody knows."""
    return None if a.up is None else float(a.curve.chord @ a.up) > 0
