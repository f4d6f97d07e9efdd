"""What makes a photo of paper pieces unfit to be read, and what to do about it."""

from collections.abc import Sequence
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from panelwright.drawing.reference_markers import PER_SHEET
from panelwright.errors import InputError
from panelwright.geometry.arrays import Array
from panelwright.intake.paper_outline import STEP, PaperOutline
from panelwright.intake.paper_region import LEAST_WIDTH, PaperRegion
from panelwright.intake.photo_markers import SeenMarker

LEAST_MARKERS: Final = 4
# Of curled paper on rendered photos the worst misses by 0.13 mm.
MOST_MISS: Final = 0.5  # mm
LEAST_RESOLUTION: Final = 2.0  # pixels per mm
MOST_SOFTNESS: Final = 0.5  # mm
LEAST_CLEAR: Final = 0.75  # share of an outline
MOST_UNCLEAR: Final = 12.0  # mm of it in one
# An edge whose faintest twentieth is this faint (standard deviations of the paper), and this rough, mm, is off by more.
FAINT: Final = 15.0
ROUGH: Final = 0.038
# An outline that runs so far over what is as bright as the paper, mm, cuts through it.
LEAST_STEP: Final = 0.06  # share of the paper's light
MOST_STEPLESS: Final = 5.0
MOST_ALIKE: Final = 0.03  # share of the table close round a piece that may look like paper
MOST_ALIKE_EVEN: Final = 0.35  # the same round one that ends in a step all round
ALIKE_PATCHES: Final = 6  # patches of one shape and size that are no pieces but the table's pattern
MOST_PIECES: Final = 60
_CLEAR: Final = 4.0
_TOUCHING: Final = 1.0  # mm
MOST_JUMP: Final = 0.15  # logarithm of light
_JUMP_WITHIN: Final = 6.0  # mm of an outline
# Half of how narrow a bump or bay is, mm, and the largest that corners make, mm².
_BUMP: Final = 4.0
_BAY: Final = 7.0
MOST_BUMP: Final = 20.0
MOST_BAY: Final = 16.0
AGAIN: Final = "and take the photo again"
_HARDLY: Final = (
    "the edge of a piece can hardly be told from the table: lay the pieces on a plain cloth that is much darker than "
    f"the paper {AGAIN}"
)


def refuse_few(seen: Sequence[SeenMarker]) -> None:
    """Refuse a photo in which too little of the sheet is read."""
    if len(seen) >= LEAST_MARKERS:
        return
    found = f"only {len(seen)} of the {PER_SHEET} black squares" if seen else "no black square"
    raise InputError(
        f"{found} of the reference sheet can be read, and at least {LEAST_MARKERS} are needed: lay the printed sheet "
        "flat beside the pieces, uncovered, in even light without glare, and take a sharp photo with all of it in it",
        "photo",
    )


def refuse_unfitting(miss: float) -> None:
    """Refuse a photo whose squares cannot lie on one flat table; `miss` is the spread of their corners, mm."""
    if not miss <= MOST_MISS:
        raise InputError(
            f"the black squares of the reference sheet are about {miss:.1f} mm from where they were printed: lay one "
            f"sheet, or its four strips, flat on the table, let no other sheet be in the picture, {AGAIN}",
            "photo",
        )


def refuse_unsharp(resolution: float, softness: float) -> None:
    """Refuse a photo that shows a millimetre too small or too soft."""
    if resolution < LEAST_RESOLUTION:
        raise InputError(
            f"a millimetre of paper is only {resolution:.1f} pixels in this photo, and {LEAST_RESOLUTION:g} are "
            "needed: go closer, photograph fewer pieces at a time, and give the camera's own file, not a smaller copy",
            "photo",
        )
    if softness / resolution > MOST_SOFTNESS:
        raise InputError(
            f"this photo is blurred (edges are {2 * softness / resolution:.1f} mm wide on the paper): hold the camera "
            f"still or lean it on something, tap on the pieces to focus, {AGAIN}",
            "photo",
        )


def refuse_regions(regions: Sequence[PaperRegion]) -> None:
    """Refuse a table that looks like paper, and pieces that touch, are cut off or too many."""
    if not regions:
        raise InputError(
            "no paper pieces are found beside the reference sheet: lay them on a plain table or cloth that is darker "
            f"than the paper, {AGAIN}",
            "photo",
        )
    if len(regions) > MOST_PIECES:
        raise InputError(
            f"more than {MOST_PIECES} pieces of paper seem to lie on this table: lay them on a plain cloth without a "
            f"pattern {AGAIN}",
            "photo",
        )
    like = next((region for region in regions if region.alike > (MOST_ALIKE_EVEN if region.even else MOST_ALIKE)), None)
    if like is not None or _patterned(regions):
        where = f"round the piece at the {_where(like, regions)}" if like is not None else "here"
        raise InputError(
            f"parts of the table {where} cannot be told from paper: lay the pieces and the sheet on a plain cloth "
            f"that is much darker than the paper {AGAIN}",
            "photo",
        )
    for region in regions:
        if region.joined:
            raise InputError(
                f"two pieces touch each other, or one is narrower than {LEAST_WIDTH:g} mm somewhere: lay pieces a "
                f"finger's breadth apart {AGAIN}",
                "photo",
            )
        if region.cut_off:
            raise InputError(
                f"the piece at the {_where(region, regions)} is cut off by the edge of the photo: get all pieces into "
                f"the picture with some table round them {AGAIN}",
                "photo",
            )


def _patterned(regions: Sequence[PaperRegion]) -> bool:
    """Whether many of the regions are squares or stripes of one pattern: alike in size, and filling their boxes."""
    boxes = [shapely.Polygon(region.contour).minimum_rotated_rectangle for region in regions]
    full = [
        float(shapely.Polygon(region.contour).area) for region, box in zip(regions, boxes, strict=True)
        if shapely.Polygon(region.contour).area > 0.88 * box.area
    ]  # fmt: skip
    return any(sum(abs(other - area) < 0.12 * area for other in full) >= ALIKE_PATCHES for area in full)


def _where(region: PaperRegion, regions: Sequence[PaperRegion]) -> str:
    """Left, right, top or bottom, as the photo shows it."""
    middle = np.mean([each.contour.mean(axis=0) for each in regions], axis=0)
    x, y = region.contour.mean(axis=0) - middle
    if abs(x) >= abs(y):
        return "left" if x < 0 else "right"
    return "bottom" if y < 0 else "top"


def refuse_covered(outlines: Sequence[PaperOutline], strips: Sequence[Array]) -> None:
    """Refuse pieces that touch the sheet: their edge there is not to be seen."""
    sheet = shapely.union_all([shapely.Polygon(strip) for strip in strips]).buffer(_TOUCHING)
    shapely.prepare(sheet)
    for outline in outlines:
        if shapely.contains_xy(sheet, outline.points).any():
            raise InputError(f"a piece touches the reference sheet: lay them a finger's breadth apart {AGAIN}", "photo")


def _longest(flags: NDArray[np.bool_]) -> int:
    """The longest run of true values in a closed row."""
    if flags.all():
        return len(flags)
    run = best = 0
    for flag in np.roll(flags, -int(np.flatnonzero(~flags)[0])):
        run = run + 1 if flag else 0
        best = max(best, run)
    return best


def refuse_hanging(outlines: Sequence[PaperOutline]) -> None:
    """Refuse pieces on whose edge something else seems to hang, or from which something seems to be bitten.

    There the paper changes its light at once, or the outline makes a short narrow bump or bay.
    """
    ahead = round(_JUMP_WITHIN / STEP)
    for outline in outlines:
        light = np.log(outline.light)
        jump = float(np.abs(light - np.roll(light, ahead)).max())
        piece = shapely.Polygon(outline.points).buffer(0)
        bumps = shapely.get_parts(piece.difference(piece.buffer(-_BUMP).buffer(1.01 * _BUMP)))
        bays = shapely.get_parts(piece.buffer(_BAY).buffer(-1.01 * _BAY).difference(piece))
        odd = any(bump.area > MOST_BUMP for bump in bumps) or any(bay.area > MOST_BAY for bay in bays)
        if jump > MOST_JUMP or odd:
            raise InputError(_HARDLY, "photo")


def refuse_outlines(outlines: Sequence[PaperOutline]) -> None:
    """Refuse pieces whose edge is hardly seen, and pieces that touch."""
    trees = [cKDTree(outline.points) for outline in outlines]
    for k, outline in enumerate(outlines):
        unclear = outline.clear <= _CLEAR
        hardly = float(unclear.mean()) > 1 - LEAST_CLEAR or _longest(unclear) * STEP > MOST_UNCLEAR
        hardly |= _longest(outline.step < LEAST_STEP) * STEP > MOST_STEPLESS
        if hardly or (outline.least_clear < FAINT and outline.rough > ROUGH):
            raise InputError(_HARDLY, "photo")
        for other in trees[:k]:
            if float(np.min(other.query(outline.points)[0])) < _TOUCHING:
                raise InputError(f"two pieces touch each other: lay them a finger's breadth apart {AGAIN}", "photo")
