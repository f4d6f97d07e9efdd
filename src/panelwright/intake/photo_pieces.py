"""Paper pieces read from a photo in which the reference sheet lies beside them."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from panelwright.drawing.reference_markers import SIDE
from panelwright.drawing.ruler import FOUR_INCHES, HUNDRED
from panelwright.errors import InputError
from panelwright.intake.corner_finding import corner_places
from panelwright.intake.cut_notch import without_gaps
from panelwright.intake.drawn_edge import DrawnEdge
from panelwright.intake.drawn_piece import DrawnPiece
from panelwright.intake.found_paper import found_paper
from panelwright.intake.paper_outline import PaperOutline
from panelwright.intake.paper_signs import paper_signs
from panelwright.intake.paper_strokes import paper_strokes
from panelwright.intake.photo_edges import drawn_edges
from panelwright.intake.photo_image import Image, photo_pixels
from panelwright.intake.photo_markers import seen_markers, side_of, spread_of
from panelwright.intake.photo_refusals import AGAIN, refuse_few, refuse_unfitting, refuse_unsharp
from panelwright.intake.photo_solve import SolvedView, solved_view
from panelwright.intake.rectified import Rectified

MOST_UNSURE: Final = 0.5  # mm
MOST_OFF_PRINT: Final = 0.1  # share
USUAL_CORNERS: Final = 8


@dataclass(frozen=True, eq=False)
class PhotoPieces:
    """What a photo says.

    Attributes:
        pieces: `piece-1` … from left to right as the photo shows them, mm of the paper, y up; an edge has a kind only
            where a fold is marked.
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
    refuse_few(seen)
    solved = solved_view(paper, seen, width, height)
    refuse_unfitting(solved.miss * SIDE / side_of(seen))
    solved = solved if square_mm is None else solved.enlarged(_print_factor(paper, square_mm))
    resolution = float(np.median(solved.view.resolution(np.concatenate(solved.strips))))
    refuse_unsharp(resolution, spread_of(seen))
    found = found_paper(pixels, solved, resolution)
    outlines = sorted(found.outlines, key=lambda outline: float(outline.points[:, 0].mean()))
    unsure = tuple(solved.uncertainty(outline.points[::5]) for outline in outlines)
    if max(unsure) > MOST_UNSURE:
        raise InputError(
            f"the pieces lie too far from the reference sheet to be measured (± {max(unsure):.1f} mm): cut the "
            f"sheet into its four strips, lay them round the pieces {AGAIN}",
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
    return PhotoPieces(pieces, found.picture, paper, solved.uncut, len(seen), resolution, unsure, doubts)


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
