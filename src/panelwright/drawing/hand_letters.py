"""The letters that a learner writes beside points: A, B, C … without I and O, which look like figures."""

from collections.abc import Iterator
from itertools import count

ALPHABET = "ABCDEFGHJKLMNPQRSTUVWXYZ"
CROSS = "O"


def letter(number: int) -> str:
    """The letter of point `number`, from 0: A … Z, then A1, B1 … Z1, A2 …

    >>> letter(0), letter(24)
    ('A', 'A1')
    """
    turn, place = divmod(number, len(ALPHABET))
    return ALPHABET[place] + (str(turn) if turn else "")


def letters() -> Iterator[str]:
    """All letters in turn."""
    return map(letter, count())
