"""Photos and drawing files read into one pattern off paper, with what was guessed, for a person to complete."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

import numpy as np

from panelwright.errors import InputError
from panelwright.intake.drawing_file import read_drawing
from panelwright.intake.drawing_limits import MOST_BYTES
from panelwright.intake.drawing_reading import Guess
from panelwright.intake.drawn_pattern import Centimetre, DrawnPattern
from panelwright.intake.drawn_piece import DrawnPiece
from panelwright.intake.level_name import is_numbered
from panelwright.intake.photo import read_photo
from panelwright.intake.signs_told import signs_told
from panelwright.json_text import read_content
from panelwright.quotation import quoted

MOST_FILES: Final = 20
# Pieces of a bodice at quarter scale are shorter than this on paper, and at full scale longer, mm.
BETWEEN_SCALES: Final = 180.0
_LAYERS: Final = ("facing", "lining", "interfacing")
_PHOTOS: Final = (b"\xff\xd8\xff", b"\x89PNG", b"RIFF")
# On a table with a grain a piece can be cut short, and nothing but its look tells.
COMPARE: Final = (
    "Compare the picture with the paper: where a piece is cut short or has edges that the paper has not, photograph it "
    "again on a plain dark cloth."
)
PENCIL: Final = 0.5  # width of a sharp pencil's line, mm (common practice)


@dataclass(frozen=True)
class PaperAnswers:
    """What only a person knows; None: not said.

    Attributes:
        scale: 1 (full) or 4 (quarter).
        allowance: width on the garment that the outlines include, mm; 0: they are the stitch lines.
        centimetre: what a centimetre of the allowance was on paper.
        unit: of a drawing, `inches`.
        square: what the square on the reference sheet of a photo measures, mm.
    """

    scale: float | None = None
    allowance: float | None = None
    centimetre: Centimetre | None = None
    unit: str | None = None
    square: float | None = None


@dataclass(frozen=True)
class PaperReading:
    """What was read.

    Attributes:
        drawn: the pattern, as far as it is known.
        told: what was read and guessed, a sentence each.
        asked: what a person has still to fill in, a sentence each.
    """

    drawn: DrawnPattern
    told: tuple[str, ...]
    asked: tuple[str, ...]


def read_paper(paths: Sequence[Path], answers: PaperAnswers, ref: str = "own-block") -> PaperReading:
    """The pieces of all files, in the order of the files; see `read_contents`.

    Raises:
        InputError: if a file cannot be read; others as `read_contents`.
    """
    if not 1 <= len(paths) <= MOST_FILES:
        raise InputError(f"{len(paths) or 'no'} files are given; give 1 to {MOST_FILES} photos or drawings", "files")
    most = "save the pattern's pieces alone, or a smaller photo"
    return read_contents([(path.name, read_content(path, MOST_BYTES, most)) for path in paths], answers, ref)


def read_contents(files: Sequence[tuple[str, bytes]], answers: PaperAnswers, ref: str = "own-block") -> PaperReading:
    """The pieces of all files, each a name and its content, in their order.

    Raises:
        InputError: if a file cannot be read or shows no pieces, or an answer cannot be; one sentence.

    Where nobody says otherwise drawings are full scale, as drawing programs have it; photos alone are guessed by size.
    """
    pieces: list[DrawnPiece] = []
    told: list[str] = []
    allowances: list[float | None] = []
    scales: list[float] = []
    photos = 0
    for name, content in files:
        if is_photo(content):
            photos += 1
            found, sentences = _photo(content, name, answers)
            allowances.append(None)
        else:
            reading = read_drawing(content, name, answers.unit)
            found, sentences = reading.drawn.pieces, tuple(_sentence(guess) for guess in reading.guesses)
            allowances.append(reading.drawn.allowance)
            scales.append(reading.drawn.scale)
        names = ", ".join(f"{piece.id} ({len(piece.edges)} edges)" for piece in found)
        told += [f"{name}: {len(found)} {'piece' if len(found) == 1 else 'pieces'}: {names}", *sentences]
        pieces += found
    named = tuple(_with_own_names(pieces))
    scale = answers.scale or (scales[0] if scales else _likely_scale(named))
    if answers.scale is None and not scales:
        told.append(f"Scale: {'quarter' if scale > 1 else 'full'} is guessed from the size of the largest piece.")
    if scale > 1:
        told.append(f"A pencil line {PENCIL:g} mm wide is {PENCIL * scale:g} mm at full scale: so sure are the edges.")
    known = allowances[0] if len(set(allowances)) == 1 else None
    allowance = known if answers.allowance is None else answers.allowance
    drawn = DrawnPattern(named, scale, allowance, (), answers.centimetre or "garment", ref)
    asked = (*([COMPARE] if photos else ()), *_asked(drawn, answers))
    return PaperReading(drawn, tuple(told), asked)


def is_photo(content: bytes) -> bool:
    """Whether a file is a photo, by how it begins."""
    return content.startswith(_PHOTOS)


def _photo(content: bytes, name: str, answers: PaperAnswers) -> tuple[tuple[DrawnPiece, ...], tuple[str, ...]]:
    try:
        found = read_photo(content, answers.square)
    except InputError as error:
        raise InputError(f"{quoted(name)}: {error}", error.where or "photo") from error
    unsure = max(found.unsure)
    sheet = f"{found.squares} squares of the reference sheet ({found.paper}) were read"
    sure = f"by them alone a place is sure to about {unsure:.2f} mm; how clearly the paper's edge shows is not in that"
    return found.pieces, (f"{sheet}; {sure}", *(signs_told(piece) for piece in found.pieces), *found.doubts)


def _sentence(guess: Guess) -> str:
    taken = f"{guess.about}: {guess.taken}{'' if guess.sure else ' (a guess)'}, because {guess.why}"
    return f"{taken[0].upper()}{taken[1:]}"


def _with_own_names(pieces: Sequence[DrawnPiece]) -> Iterator[DrawnPiece]:
    """Pieces of several files under names that are each used once; photos go on counting."""
    taken: set[str] = set()
    for piece in pieces:
        stem = "piece" if piece.id.startswith("piece-") else piece.id
        name, number = piece.id, 1
        while name in taken:
            number += 1
            name = f"{stem}-{number}"
        taken.add(name)
        yield replace(piece, id=name)


def _likely_scale(pieces: Sequence[DrawnPiece]) -> float:
    tall = max(float(np.ptp(np.concatenate([e.curve.points for e in piece.edges]), axis=0).max()) for piece in pieces)
    return 4.0 if tall < BETWEEN_SCALES else 1.0


def _asked(drawn: DrawnPattern, answers: PaperAnswers) -> Iterator[str]:
    if drawn.allowance is None:
        yield "Say with --allowance how many cm of allowance the outlines include; 0 if they are the stitch lines."
    elif drawn.allowance and drawn.scale > 1 and answers.centimetre is None:
        yield (
            "Say with --centimetre what a centimetre of allowance was on the paper: garment (drawn 2.5 mm wide, which "
            "is taken now) or paper (drawn 10 mm wide)."
        )
    unnamed = [piece.id for piece in drawn.pieces if piece.id.startswith("piece-")]
    if unnamed:
        yield f"Name {', '.join(unnamed)} in the file: CF, SF, SB, CB, or as you call them."
    layers = [piece.id for piece in drawn.pieces if piece.id.replace("_", "-").rpartition("-")[2].lower() in _LAYERS]
    if layers and len(layers) < len(drawn.pieces):
        yield (
            f"Take {', '.join(layers)} out of the file: by their names they are second layers, and a block is of its "
            "outer pieces alone."
        )
    if not any(edge.kind == "fold" for piece in drawn.pieces for edge in piece.edges):
        yield 'Say which edges lie on the fold: "kind": "fold"; the picture shows their numbers.'
    levels = [line.id for piece in drawn.pieces for line in piece.inside if line.kind == "level"]
    if any(is_numbered(id) for id in levels):
        yield (
            "Name the levels in the file (bust, waist, hip): level-1 is the topmost of its piece as it lies in the "
            "photo, and a level has one name on all pieces."
        )
    if not levels:
        yield "Add levels (waist, bust) where they are drawn: partners of seams are found more surely with them."
