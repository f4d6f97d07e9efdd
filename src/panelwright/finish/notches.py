"""Where notches go: pairs of places that meet when a seam is sewn."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from panelwright.finish.layer_seams import LayerSeam
from panelwright.finish.layers import derived_seam
from panelwright.finish.options import Finish
from panelwright.finish.seam_walk import SeamWalk
from panelwright.pattern.level import BUST, UNDERBUST, WAIST
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Layer
from panelwright.pattern.seam import Notch, Seam

# mm of seam: from its ends, and between two notches of one seam.
FROM_END: Final = 15.0
APART: Final = 15.0
# Between the side seam's notch and every other seam's, mm: well apart if there is room, else just apart.
SIDE_APART: Final = (25.0, 8.0)
# The middle notch of a back seam goes above the waist unless that stretch is shorter than this share of the one below.
_UPPER_SHARE: Final = 0.7
_SIDE_NOTCH: Final = "side"
# A bust this much over the underbust is full (a rule of the cutting table, common practice).
FULL_BUST: Final = 200.0


@dataclass(frozen=True)
class _Place:
    """A place on side a of a seam that may get a notch."""

    name: str
    at: float
    level: str | None = None


def place_notches(pattern: Pattern, options: Finish) -> tuple[Notch, ...]:
    """The notches of the shell's seams, in the order of the seams.

    Front seams take single notches at the bust point and the waist, back seams double ones at the waist and in the
    middle of the stretch above it; a seam that no level crosses, one in its middle. Where something is
    attached there is one at each seam that it crosses. The side seam takes a single notch as near its middle as
    stays clear of every place where another seam has one. Closures and darts take none, nor does a seam of less
    than 3 cm. A level that a neckline cut open still marks its place, but is not named.
    """
    extra = _extra_notches(pattern, options)
    seams = [seam for seam in pattern.seams if seam.kind in ("join", "attach")]
    walks = {seam.id: SeamWalk.of(pattern, seam, (BUST, WAIST)) for seam in seams}
    known = {level.id for level in pattern.levels}
    sides = [seam for seam in seams if seam.region == "side" and seam.kind == "join"]
    found = {
        seam.id: _notches(walks[seam.id], _places(walks[seam.id], extra), known) for seam in seams if seam not in sides
    }
    others = [notch for notches in found.values() for notch in notches]
    for seam in sides:
        found[seam.id] = _notches(walks[seam.id], _side_place(walks[seam.id], others), known)
    return tuple(notch for seam in seams for notch in found[seam.id])


def derived_notches(notches: Iterable[Notch], layer: Layer) -> tuple[Notch, ...]:
    """The same notches on the seams of a derived layer."""
    return tuple(
        replace(notch, id=derived_seam(notch.id, layer), seam=derived_seam(notch.seam, layer)) for notch in notches
    )


def cut_notches(notches: Sequence[Notch], seams: Iterable[LayerSeam]) -> tuple[Notch, ...]:
    """The same notches on seams of layers with shapes of their own.

    A short stretch of a seam takes those that are clear of its ends, and of every place where a side seam has one; a
    stretch of a side seam takes none.
    """
    sides = [notch.at_a for notch in notches if notch.id == f"{notch.seam}/{_SIDE_NOTCH}"]
    found = []
    for one in seams:
        for notch in notches:
            if notch.seam != one.source.id:
                continue
            moved = replace(
                notch,
                id=f"{one.seam.id}{notch.id.removeprefix(notch.seam)}",
                seam=one.seam.id,
                at_a=notch.at_a - one.low,
                at_b=notch.at_b - one.low_on_b,
            )
            if one.whole or _has_room(moved, one, sides):
                found.append(moved)
    return tuple(found)


def _has_room(notch: Notch, one: LayerSeam, sides: Sequence[float]) -> bool:
    clear = all(abs(notch.at_a - place) >= SIDE_APART[-1] for place in sides)
    return one.seam.region != "side" and FROM_END <= notch.at_a <= one.high - one.low - FROM_END and clear


def _extra_notches(pattern: Pattern, options: Finish) -> float | None:
    """How far above and below the bust point extra notches go, or None."""
    wanted = options.extra_notches == "always"
    if options.extra_notches == "when_full" and pattern.has_level(BUST) and pattern.has_level(UNDERBUST):
        wanted = pattern.level(BUST).body_girth - pattern.level(UNDERBUST).body_girth >= FULL_BUST
    return options.notch_distance if wanted else None


def _places(walk: SeamWalk, extra: float | None) -> tuple[_Place, ...]:
    """Those wanted that are clear of the seam's ends and of more important ones, or else the middle; in seam order."""
    kept: list[_Place] = []
    for place in _wanted(walk, extra):
        if _inside(walk, place) and all(abs(place.at - other.at) >= APART for other in kept):
            kept.append(place)
    middle = _Place("middle", walk.length / 2)
    if not kept and _inside(walk, middle):
        kept.append(middle)
    return tuple(sorted(kept, key=lambda place: place.at))


def _inside(walk: SeamWalk, place: _Place) -> bool:
    return FROM_END <= place.at <= walk.length - FROM_END


def _wanted(walk: SeamWalk, extra: float | None) -> Iterator[_Place]:
    """Places in order of importance."""
    bust, waist = walk.levels.get(BUST, walk.bust_point), walk.levels.get(WAIST)
    if walk.seam.kind == "attach":
        yield from (_Place(f"seam-{k}", at) for k, at in enumerate(walk.joints, 1))
        return
    if walk.seam.region == "front" and bust is not None:
        yield _Place(BUST, bust, BUST if BUST in walk.levels else None)
    if waist is not None:
        yield _Place(WAIST, waist, WAIST)
    if walk.seam.region == "front" and bust is not None and extra is not None:
        yield from (_Place(f"{name}-{BUST}", bust + way * extra) for name, way in (("above", 1), ("below", -1)))
    if walk.seam.region == "back" and waist is not None:
        above = walk.length - waist
        yield _Place("middle", waist + above / 2 if above >= _UPPER_SHARE * waist else waist / 2)


def _side_place(walk: SeamWalk, others: list[Notch]) -> tuple[_Place, ...]:
    """As near the middle as is clear of other seams' notches, by distance from the hem and by level."""
    taken = [other.at_a for other in others]
    taken += [walk.levels[other.level] for other in others if other.level in walk.levels]
    tries = np.arange(FROM_END, walk.length - FROM_END + 1e-9, 1.0)
    if not len(tries):
        return ()
    clear = np.abs(tries[:, None] - np.array([taken or [-np.inf]])).min(axis=1)
    free = next((tries[clear >= apart] for apart in SIDE_APART if (clear >= apart).any()), tries[clear == clear.max()])
    best = free[np.abs(free - walk.length / 2).argmin()]
    return (_Place(_SIDE_NOTCH, float(best)),)


def _notches(walk: SeamWalk, places: Iterable[_Place], known: set[str]) -> tuple[Notch, ...]:
    seam: Seam = walk.seam
    return tuple(
        Notch(
            f"{seam.id}/{place.name}",
            seam.id,
            place.at,
            walk.partner(place.at),
            2 if seam.region == "back" else 1,
            place.level if place.level in known else None,
        )
        for place in places
    )
