"""A lay that was planned for outlines, as a lay that can be drawn."""

from collections import Counter
from math import pi, radians
from typing import Final

import numpy as np
import shapely

from panelwright.app.lay_instance import LayInstance, PieceRecord
from panelwright.errors import InputError
from panelwright.geometry.arrays import Array
from panelwright.geometry.placement import Placement
from panelwright.lay.cloth import USUAL_SALE, Cloth
from panelwright.lay.lay import LaidPiece, Lay
from panelwright.lay.piece_to_cut import PieceToCut
from panelwright.lay.search.task import Found, Place

CLOTH: Final = "cloth"
# An outline has no grain line of its own: one is drawn along x where the outline is longest, over this share of it.
_GRAIN_SHARE: Final = 0.6
_GRAIN_PLACES: Final = np.linspace(0.2, 0.8, 13)


def instance_lay(instance: LayInstance, found: Found, sold_by: float = USUAL_SALE) -> Lay:
    """The lay of outlines, with its cloth and grain lines.

    Args:
        instance: what was to be laid.
        found: where it lies.
        sold_by: the shop cuts multiples of this length, mm.

    Raises:
        InputError: if the cloth is wider or narrower than cloth can be.
    """
    cloth, folded = instance_cloth(instance, sold_by), _is_double(instance)
    pieces = _pieces(instance, found)
    spare = [folded and record.cut == "single" for record in instance.pieces]
    laid = tuple(
        LaidPiece(pieces[thing.shape], copy, _placement(place), spare[thing.shape])
        for thing, (_, copy), place in zip(instance.task.pieces, instance.copies, found.places, strict=True)
    )
    return Lay(cloth, folded, laid, instance.task.spacing, instance.task.tubular)


def instance_cloth(instance: LayInstance, sold_by: float = USUAL_SALE) -> Cloth:
    """The cloth, whole.

    Raises:
        InputError: if it is wider or narrower than cloth can be.
    """
    folded = _is_double(instance)
    width = instance.cloth.width_mm * (2 if folded else 1)
    try:
        return Cloth(CLOTH, width, folded, instance.cloth.napped, sold_by=sold_by)
    except InputError as error:
        raise InputError(f"the lay cannot be drawn: {error}", error.where) from error


def _is_double(instance: LayInstance) -> bool:
    """Whether the cloth lies double: folded, or a tube laid flat."""
    return instance.cloth.mode != "open"


def _placement(place: Place) -> Placement:
    """A file's pose mirrors about the x axis; a placement about the y axis, which is that and half a turn."""
    mirrored = place.turn.mirrored
    return Placement(radians(place.turn.degrees) + (pi if mirrored else 0.0), place.x, place.y, mirrored)


def _pieces(instance: LayInstance, found: Found) -> list[PieceToCut]:
    """The outlines as pieces, each with how many of it lie face up and face down."""
    folded = _is_double(instance)
    task = instance.task
    count: Counter[tuple[int, bool]] = Counter()
    for thing, place in zip(task.pieces, found.places, strict=True):
        both = folded and thing.fold is None
        count.update((thing.shape, hand) for hand in ((False, True) if both else (place.turn.mirrored,)))
    return [
        _piece(record, outline, folded, (count[shape, False], count[shape, True]))
        for shape, (record, outline) in enumerate(zip(instance.pieces, task.outlines, strict=True))
    ]


def _piece(record: PieceRecord, outline: Array, folded: bool, hands: tuple[int, int]) -> PieceToCut:
    line = None
    if record.cut == "fold" and record.fold_edge is not None:
        corners = np.array(record.outline, float)
        line = corners[[record.fold_edge, (record.fold_edge + 1) % len(corners)]]
    return PieceToCut(
        record.name,
        record.name,
        "outer",
        np.concatenate([outline, outline[:1]]),
        _grain(outline),
        line if folded else None,
        face_up=hands[0],
        face_down=hands[1],
        opened=None if folded else line,
    )


def _grain(outline: Array) -> Array:
    """A line along x inside an outline, shape (2, 2), where it is longest."""
    shape, (left, low), (right, high) = shapely.Polygon(outline), outline.min(axis=0), outline.max(axis=0)
    across = [shapely.LineString([(left - 1.0, y), (right + 1.0, y)]) for y in low + _GRAIN_PLACES * (high - low)]
    inside = [part for part in shapely.get_parts(shapely.intersection(across, shape)) if part.length > 0.0]
    longest = max(inside, key=lambda part: float(part.length))
    middle = np.array(longest.coords).mean(axis=0)
    half = np.array([_GRAIN_SHARE / 2 * longest.length, 0.0])
    return np.array([middle - half, middle + half])
