"""Paper pieces read from a photo in which the reference sheet lies beside them."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from panelwright.drawing.reference_markers import PER_SHEET
from panelwright.drawing.ruler import FOUR_INCHES, HUNDRED
from panelwright.errors import InputError
from panelwright.geometry.arrays import Array
from panelwright.intake.corner_finding import corner_places
from panelwright.intake.cut_notch import without_gaps
from panelwright.intake.drawn_edge import DrawnEdge
from panelwright.intake.drawn_piece import DrawnPiece
from panelwright.intake.paper_outline import STEP, PaperOutline, paper_outline
from panelwright.intake.paper_signs import paper_signs
from panelwright.intake.paper_strokes import paper_strokes
from panelwright.intake.photo_edges import drawn_edges
from panelwright.intake.photo_image import Image, photo_pixels
from panelwright.intake.photo_markers import SeenMarker, seen_markers, spread_of
from panelwright.intake.photo_paper import LEAST_WIDTH, PaperRegion, paper_regions
from panelwright.intake.photo_solve import SolvedView, solved_view
from panelwright.intake.rectified import Rectified, rectified, useful_area

LEAST_MARKERS: Final = 4
LEAST_RESOLUTION: Final = 2.0  # pixels per mm
MOST_SOFTNESS: Final = 0.5  # mm
MOST_UNSURE: Final = 0.5  # mm
LEAST_CLEAR: Final = 0.75  # share of an outline
MOST_UNCLEAR: Final = 12.0  # mm of it in one
# An edge whose faintest twentieth is this faint (standard deviations of the paper), and this rough, mm, is off by more.
FAINT: Final = 15.0
ROUGH: Final = 0.038
# An outline that runs so far over what is as bright as the paper, mm, cuts through it.
LEAST_STEP: Final = 0.06  # share of the paper's light
MOST_STEPLESS: Final = 5.0
MOST_ALIKE: Final = 0.03  # share of the table close round a piece that may look like paper
ALIKE_PATCHES: Final = 6  # patches of one shape and size that are no pieces but the table's pattern
MOST_PIECES: Final = 60
MOST_OFF_PRINT: Final = 0.1  # share
USUAL_CORNERS: Final = 8
_CLEAR: Final = 4.0
_TOUCHING: Final = 1.0  # mm
_PICTURE_PIXELS: Final = 2.0e6
_PICTURE_PER_MM: Final = 4.0
_MARGIN: Final = 15.0  # mm round pieces and sheet
_AGAIN: Final = "and take the photo again"


@dataclass(frozen=True, eq=False)
class PhotoPieces:
    """What a photo says.

    Attributes:
        pieces: `piece-1` … from left to right as the photo shows them, mm of the paper, y up; their edges have no kind.
        picture: the table from above, to draw the pieces over: `picture.to_pixels` takes their points to it.
        paper: of the sheet, `A4` or `Letter`.
        uncut: whether the sheet lies there whole; strips of it lie round the pieces otherwise.
        squares: how many of its black squares were read.
        resolution: of the photo at the sheet, pixels per mm.
        unsure: for each piece, expected error from the sheet's squares alone, mm (standard deviation).
        doubts: sentences on pieces that a person should look at again.
    """

    pieces: tuple[DrawnPiece, ...]
    picture: Rectified
    paper: str
    uncut: bool
    squares: int
    resolution: float
    unsure: tuple[float, ...]
    doubts: tuple[str, ...]


def read_photo(photo: bytes | Image, square_mm: float | None = None) -> PhotoPieces:
    """The paper pieces in a photo.

    Args:
        photo: the bytes of a JPEG, PNG or WebP file, or pixels (height, width, 3): blue, green, red.
        square_mm: what the square on the printed sheet measures, where it is not true (100 mm; on Letter 4 inches).

    Raises:
        InputError: one sentence that says what is wrong with the photo and what to do.
    """
    pixels = photo_pixels(photo)
    height, width = pixels.shape[:2]
    paper, seen = seen_markers(pixels)
    _refuse_few(seen)
    solved = solved_view(paper, seen, width, height)
    solved = solved if square_mm is None else solved.enlarged(_print_factor(paper, square_mm))
    resolution = float(np.median(solved.view.resolution(np.concatenate(solved.strips))))
    _refuse_unsharp(resolution, spread_of(seen))
    picture, regions = _found(pixels, solved, resolution)
    _refuse_regions(regions)
    outlines = [paper_outline(pixels, solved.view, region.contour) for region in regions]
    _refuse_outlines(outlines)
    _refuse_covered(outlines, solved.strips)
    outlines.sort(key=lambda outline: float(outline.points[:, 0].mean()))
    unsure = tuple(solved.uncertainty(outline.points[::5]) for outline in outlines)
    if max(unsure) > MOST_UNSURE:
        raise InputError(
            f"the pieces lie too far from the reference sheet to be measured (± {max(unsure):.1f} mm): cut the "
            f"sheet into its four strips, lay them round the pieces {_AGAIN}",
            "photo",
        )
    read = [_piece(pixels, solved, outline, f"piece-{k}") for k, outline in enumerate(outlines, 1)]
    pieces = tuple(piece for piece, _ in read)
    doubtful = tuple(
        f"{piece.id} seems to have {len(piece.edges)} corners: if the paper has not, the table looks like paper there; "
        "lay it on a plain dark cloth"
        for piece in pieces
        if len(piece.edges) > USUAL_CORNERS
    )
    doubts = (*doubtful, *(doubt for _, some in read for doubt in some))
    return PhotoPieces(pieces, picture, paper, solved.uncut, len(seen), resolution, unsure, doubts)


def _piece(pixels: Image, solved: SolvedView, outline: PaperOutline, id: str) -> tuple[DrawnPiece, list[str]]:
    """A piece with what is drawn on it, and what is doubtful about that."""
    whole, cuts = without_gaps(outline.points)
    edges = drawn_edges(whole, corner_places(whole))
    signs = paper_signs(paper_strokes(pixels, solved.view, whole), whole, edges, cuts)
    told = tuple(DrawnEdge(edge.curve, "fold") if number in signs.folds else edge for number, edge in enumerate(edges))
    piece = DrawnPiece(id, "", told, signs.grain, signs.lines, signs.notches)
    return piece, [f"{id}: {doubt}" for doubt in signs.doubts]


def _print_factor(paper: str, square: float) -> float:
    true = FOUR_INCHES if paper == "Letter" else HUNDRED
    if abs(square / true - 1) > MOST_OFF_PRINT:
        raise InputError(
            f"the square on the reference sheet should measure {true:g} mm, not {square:g} mm: print the sheet again "
            "at 100 %",
            "square_mm",
        )
    return square / true


def _refuse_few(seen: Sequence[SeenMarker]) -> None:
    if len(seen) >= LEAST_MARKERS:
        return
    found = f"only {len(seen)} of the {PER_SHEET} black squares" if seen else "no black square"
    raise InputError(
        f"{found} of the reference sheet can be read, and at least {LEAST_MARKERS} are needed: lay the printed sheet "
        "flat beside the pieces, uncovered, in even light without glare, and take a sharp photo with all of it in it",
        "photo",
    )


def _refuse_unsharp(resolution: float, softness: float) -> None:
    if resolution < LEAST_RESOLUTION:
        raise InputError(
            f"a millimetre of paper is only {resolution:.1f} pixels in this photo, and {LEAST_RESOLUTION:g} are "
            "needed: go closer, photograph fewer pieces at a time, or give the camera's own file",
            "photo",
        )
    if softness / resolution > MOST_SOFTNESS:
        raise InputError(
            f"this photo is blurred (edges are {2 * softness / resolution:.1f} mm wide on the paper): hold the camera "
            f"still or lean it on something, tap on the pieces to focus, {_AGAIN}",
            "photo",
        )


def _found(pixels: Image, solved: SolvedView, resolution: float) -> tuple[Rectified, list[PaperRegion]]:
    """The table from above and the paper on it: first all that is shown, then once more what matters, larger."""
    low, high = useful_area(solved.view, resolution)
    most = min(_PICTURE_PER_MM, resolution)
    picture = rectified(pixels, solved.view, low, high, min(most, _per_mm(low, high)))
    regions = paper_regions(picture, solved.strips)
    if not regions:
        return picture, regions
    everything = np.concatenate([*(region.contour for region in regions), *solved.strips])
    near, far = np.maximum(low, everything.min(axis=0) - _MARGIN), np.minimum(high, everything.max(axis=0) + _MARGIN)
    larger = min(most, _per_mm(near, far))
    if larger < 1.15 * picture.per_mm:
        return picture, regions
    picture = rectified(pixels, solved.view, near, far, larger)
    return picture, paper_regions(picture, solved.strips, regions)


def _per_mm(low: Array, high: Array) -> float:
    return float(np.sqrt(_PICTURE_PIXELS / np.prod(high - low)))


def _refuse_regions(regions: Sequence[PaperRegion]) -> None:
    if not regions:
        raise InputError(
            "no paper pieces are found beside the reference sheet: lay them on a plain table or cloth that is darker "
            f"than the paper, {_AGAIN}",
            "photo",
        )
    if len(regions) > MOST_PIECES:
        raise InputError(
            f"more than {MOST_PIECES} pieces of paper seem to lie on this table: lay them on a plain cloth without a "
            f"pattern {_AGAIN}",
            "photo",
        )
    like = next((region for region in regions if region.alike > MOST_ALIKE), None)
    if like is not None or _patterned(regions):
        where = f"round the piece at the {_where(like, regions)}" if like is not None else "here"
        raise InputError(
            f"parts of the table {where} cannot be told from paper: lay the pieces and the sheet on a plain cloth "
            f"that is much darker than the paper {_AGAIN}",
            "photo",
        )
    for region in regions:
        if region.joined:
            raise InputError(
                f"two pieces touch each other, or one is narrower than {LEAST_WIDTH:g} mm somewhere: lay pieces a "
                f"finger's breadth apart {_AGAIN}",
                "photo",
            )
        if region.cut_off:
            raise InputError(
                f"the piece at the {_where(region, regions)} is cut off by the edge of the photo: get all pieces into "
                f"the picture with some table round them {_AGAIN}",
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


def _refuse_covered(outlines: Sequence[PaperOutline], strips: Sequence[Array]) -> None:
    """Refuse pieces that touch the sheet: their edge there is not to be seen."""
    sheet = shapely.union_all([shapely.Polygon(strip) for strip in strips]).buffer(_TOUCHING)
    shapely.prepare(sheet)
    for outline in outlines:
        if shapely.contains_xy(sheet, outline.points).any():
            raise InputError(
                f"a piece touches the reference sheet: lay them a finger's breadth apart {_AGAIN}", "photo"
            )


def _longest(flags: NDArray[np.bool_]) -> int:
    """The longest run of true values in a closed row."""
    if flags.all():
        return len(flags)
    run = best = 0
    for flag in np.roll(flags, -int(np.flatnonzero(~flags)[0])):
        run = run + 1 if flag else 0
        best = max(best, run)
    return best


def _refuse_outlines(outlines: Sequence[PaperOutline]) -> None:
    trees = [cKDTree(outline.points) for outline in outlines]
    for k, outline in enumerate(outlines):
        unclear = outline.clear <= _CLEAR
        hardly = float(unclear.mean()) > 1 - LEAST_CLEAR or _longest(unclear) * STEP > MOST_UNCLEAR
        hardly |= _longest(outline.step < LEAST_STEP) * STEP > MOST_STEPLESS
        if hardly or (outline.least_clear < FAINT and outline.rough > ROUGH):
            raise InputError(
                "the edge of a piece can hardly be told from the table: lay the pieces on a plain cloth that is much "
                f"darker than the paper {_AGAIN}",
                "photo",
            )
        for other in trees[:k]:
            if float(np.min(other.query(outline.points)[0])) < _TOUCHING:
                raise InputError(f"two pieces touch each other: lay them a finger's breadth apart {_AGAIN}", "photo")
