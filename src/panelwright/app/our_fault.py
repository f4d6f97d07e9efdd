"""What is said when a fault is our own."""

import traceback
from pathlib import Path


def our_fault(error: Exception) -> str:
    """A sentence without the error's own words, which may hold measurements."""
    place = traceback.extract_tb(error.__traceback__)[-1]
    return (
        f"something went wrong inside Panelwright ({type(error).__name__} in {Path(place.filename).name}, "
        f"line {place.lineno}): nothing that you gave is at fault, please report it with this line"
    )
