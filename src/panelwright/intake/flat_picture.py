"""A picture of the table from above as a file."""

from panelwright.errors import InputError
from panelwright.intake.rectified import Rectified


def flat_picture(table: Rectified) -> bytes:
    """The picture as PNG.

    Raises:
        InputError: if it cannot be made.
    """
    import cv2  # an extra: who has a `Rectified` has it

    made, content = cv2.imencode(".png", table.picture)
    if not made:
        raise InputError("the picture of the table could not be made; take the photo again", "photo")
    return bytes(content.tobytes())
