"""Words that only someone who writes files needs, marked so that a page, which has fields, can leave them away.

Give more ease at the waist (in a file: block.ease_cm, "waist"), or sew a toile.
"""

import re
from typing import Final

_START: Final = " (in a file: "
_MARKED: Final = re.compile(r" \(in a file: ([^()]*)\)")


def in_file(words: str) -> str:
    """Words for a file, to be put right behind what they say in plain words; they have no brackets of their own."""
    return f"{_START}{words})"


def file_words(sentence: str) -> tuple[str, ...]:
    """What a sentence says for files, as `in_file` was given it."""
    return tuple(_MARKED.findall(sentence))


def without_file_words(sentence: str) -> str:
    """The sentence as a page says it."""
    return _MARKED.sub("", sentence)
