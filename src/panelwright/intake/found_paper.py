"""The outlines of the paper pieces in a photo, by the first way of finding them that leaves nothing to refuse."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np

from panelwright.errors import InputError
from panelwright.geometry.arrays import Array
from panelwright.intake.paper_outline import PaperOutline, paper_outline
from panelwright.intake.paper_region import PaperRegion
from panelwright.intake.photo_image import Image
from panelwright.intake.photo_paper import paper_again, paper_attempts
from panelwright.intake.photo_refusals import refuse_covered, refuse_hanging, refuse_outlines, refuse_regions
from panelwright.intake.photo_solve import SolvedView
from panelwright.intake.rectified import Rectified, rectified, useful_area

_PICTURE_PIXELS: Final = 2.0e6
_PICTURE_PER_MM: Final = 4.0
_MARGIN: Final = 15.0  # mm round pieces and sheet


@dataclass(frozen=True, eq=False)
class FoundPaper:
    """Outlines of the pieces in a photo, and the table from above."""

    picture: Rectified
    outlines: list[PaperOutline]


def found_paper(pixels: Image, solved: SolvedView, resolution: float) -> FoundPaper:
    """The pieces of paper that lie beside the reference sheet.

    Args:
        pixels: the photo.
        solved: how it looks at the table, and where the sheet lies.
        resolution: of the photo at the sheet, pixels per mm.

    Raises:
        InputError: where no way of finding them is to be trusted: what the first one met.
    """
    first: InputError | None = None
    for picture, regions in _attempts(pixels, solved, resolution):
        try:
            return FoundPaper(picture, _outlines(pixels, solved, regions))
        except InputError as error:
            first = first or error
    raise first or AssertionError("no attempt was made")


def _outlines(pixels: Image, solved: SolvedView, regions: list[PaperRegion]) -> list[PaperOutline]:
    refuse_regions(regions)
    outlines = [paper_outline(pixels, solved.view, region.contour) for region in regions]
    refuse_outlines(outlines)
    refuse_covered(outlines, solved.strips)
    if any(region.even for region in regions):
        refuse_hanging(outlines)
    return outlines


def _attempts(pixels: Image, solved: SolvedView, resolution: float) -> Iterator[tuple[Rectified, list[PaperRegion]]]:
    """Each first on all that is shown, then once more on what matters, larger."""
    low, high = useful_area(solved.view, resolution)
    most = min(_PICTURE_PER_MM, resolution)
    whole = rectified(pixels, solved.view, low, high, min(most, _per_mm(low, high)))
    for number, regions in enumerate(paper_attempts(whole, solved.strips)):
        if not regions or (number > 0 and _refused(regions)):
            yield whole, regions
            continue
        everything = np.concatenate([*(region.contour for region in regions), *solved.strips])
        near = np.maximum(low, everything.min(axis=0) - _MARGIN)
        far = np.minimum(high, everything.max(axis=0) + _MARGIN)
        larger = min(most, _per_mm(near, far))
        if larger < 1.15 * whole.per_mm:
            yield whole, regions
            continue
        picture = rectified(pixels, solved.view, near, far, larger)
        yield picture, paper_again(picture, solved.strips, regions)


def _refused(regions: list[PaperRegion]) -> bool:
    try:
        refuse_regions(regions)
    except InputError:
        return True
    return False


def _per_mm(low: Array, high: Array) -> float:
    return float(np.sqrt(_PICTURE_PIXELS / np.prod(high - low)))
