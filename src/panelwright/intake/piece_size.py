"""Pieces read off paper that are so large or small that their scale is questioned."""

from collections.abc import Iterator
from typing import Final

from panelwright.body.worded_length import given_words, length_words
from panelwright.file_words import in_file
from panelwright.finding import Finding
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.spoken_piece import spoken_piece

# The longer side of a piece, upright as it lies, mm: a long skirt's panel is shorter, a collar or cuff longer (own
# choice).
LONGEST: Final = 1300.0
SHORTEST: Final = 50.0


def odd_sizes(pattern: Pattern) -> Iterator[Finding]:
    """`piece-size` warnings; lengths are in the unit of the words (`worded_in`)."""
    for piece in pattern.pieces:
        left, bottom, right, top = piece.outline.bounds
        size = max(right - left, top - bottom)
        if SHORTEST <= size <= LONGEST:
            continue
        limit = LONGEST if size > LONGEST else SHORTEST
        spoken = spoken_piece(piece)
        message = (
            f"{spoken[0].upper()}{spoken[1:]} is {length_words(size)} {'long' if top - bottom == size else 'wide'} at "
            f"full scale, {'more' if size > LONGEST else 'less'} than {given_words(limit)}."
        )
        remedy = (
            "Look whether the scale is right: the known distance and quarter or full scale"
            f"{in_file('unit, scale')}; go on if the piece is as large as that."
        )
        at = piece.outline.representative_point()
        yield Finding("piece-size", "warning", piece.id, size, limit, message, remedy, piece.id, (at.x, at.y))
