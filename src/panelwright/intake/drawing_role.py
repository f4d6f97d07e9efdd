"""What a layer or a class holds, guessed from its name."""

import re
from collections.abc import Iterable, Mapping
from typing import Final, Literal, get_args

Role = Literal["cut", "stitch", "fold", "grain", "notch", "inside", "mark", "text", "leave", "any"]
ROLES: Final[tuple[Role, ...]] = get_args(Role)

# What layers with the numbers of ASTM D6673 hold, from memory, as we write them; `80` to `83` are kinds of notches,
# `84` to `87` lines for checking a conversion.
NUMBERED: Final[dict[str, Role]] = {
    "1": "cut",
    "2": "leave",
    "3": "leave",
    "4": "notch",
    "5": "leave",
    "6": "fold",
    "7": "grain",
    "8": "inside",
    "9": "leave",
    "10": "leave",
    "11": "inside",
    "13": "mark",
    "14": "stitch",
    "15": "text",
    **dict.fromkeys(("80", "81", "82", "83"), "notch"),
    **dict.fromkeys(("84", "85", "86", "87"), "leave"),
}
# The first that has one of a name's words wins: the line of a seam allowance is cut, a fold is no cut line.
_WORDS: Final[tuple[tuple[Role, str], ...]] = (
    ("leave", "sign frame border dim dims dimension construction grid defpoints legend ruler page background measure"),
    ("notch", "notch notches tick"),
    ("grain", "grain grainline"),
    ("fold", "fold mirror"),
    ("mark", "mark marks drill button eyelet hole buttonhole"),
    ("inside", "inside internal inner level balance dart pleat cutout guide"),
    ("text", "text label annotation note"),
    ("cut", "cut cutting cutline outline boundary contour allowance perimeter"),
    ("stitch", "stitch stitching stitchline sew sewing sewline seam seamline"),
)
_ROLE_OF: Final = {word: role for role, words in reversed(_WORDS) for word in words.split()}
_RANK: Final = {role: k for k, (role, _) in enumerate(_WORDS)}


def role_in_words(name: str) -> Role | None:
    """The role that a name says in words, `cut` for `Cut_lines`; None where it says none."""
    words = (word.removesuffix("s") if len(word) > 4 else word for word in re.findall(r"[a-z]+", name[:200].lower()))
    found = {role for word in words for role in (_ROLE_OF.get(word), _ROLE_OF.get(f"{word}s")) if role}
    return min(found, key=lambda role: _RANK[role], default=None)


def is_numbered(names: Iterable[str]) -> bool:
    """Whether layers are numbered as in ASTM D6673: most names are such numbers, and a cut or a sew line is there."""
    known = set(names)
    numbers = known & NUMBERED.keys()
    return bool(known & {"1", "14"}) and 2 * len(numbers) >= len(known - {"0"})


def roles_of(names: Iterable[str], told: Mapping[str, Role], numbered: bool) -> dict[str, Role]:
    """Name -> role, for those names that have one; what a person has told comes first."""
    found: dict[str, Role] = {}
    for name in names:
        role = told.get(name) or (NUMBERED.get(name) if numbered else None) or role_in_words(name)
        if role:
            found[name] = role
    return found


def role_of(names: tuple[str, ...], roles: Mapping[str, Role]) -> Role:
    """The role of what bears several names, the nearest first; `any` where none has one."""
    return next((roles[name] for name in names if name in roles), "any")
