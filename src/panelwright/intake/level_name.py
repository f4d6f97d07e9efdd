"""What levels that are read from paper are called: they are numbered until somebody names them."""

import re

_NUMBERED = re.compile(r"level-\d+")


def numbered(number: int) -> str:
    """The name of a level that nobody has named, counted on its own piece from the top down, from 1."""
    return f"level-{number}"


def is_numbered(id: str) -> bool:
    """Whether it is such a name: the same one on two pieces need not be the same level."""
    return _NUMBERED.fullmatch(id) is not None
