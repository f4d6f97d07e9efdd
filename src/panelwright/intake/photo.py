"""The door to reading photos: what it needs is an extra, and without it the rest of the program works."""

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from panelwright.errors import InputError

if TYPE_CHECKING:
    from panelwright.intake.photo_pieces import PhotoPieces


def read_photo(photo: "bytes | NDArray[np.uint8]", square_mm: float | None = None) -> "PhotoPieces":
    """The paper pieces in a photo; see `photo_pieces.read_photo`.

    Raises:
        InputError: if the extra is not installed, or one sentence on what is wrong with the photo and what to do.
    """
    try:
        from panelwright.intake import photo_pieces
    except ImportError as error:
        raise InputError(
            "reading photos needs the extra `photo`: install panelwright[photo], or uv sync --extra photo", "photo"
        ) from error
    return photo_pieces.read_photo(photo, square_mm)
