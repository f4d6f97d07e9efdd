"""Which fields of a strap belong to which type: one that would change nothing is refused, not passed over."""

from collections.abc import Iterable
from types import MappingProxyType
from typing import Final

_EVERY: Final = {
    "width_cm": "width",
    "width_at_foot_cm": "foot_width",
    "at_front_cm": "at_front",
    "length_cm": "length",
}
_ON_SHOULDER: Final = {"at_shoulder_cm": "at_shoulder", "share_of_shoulder": "share", "at_back_cm": "at_back"}
TIED: Final = MappingProxyType({"knot": "knot", "tail_cm": "tail", "loop_cm": "loop"})
# Type -> field of the design file -> what the step calls it.
FIELDS: Final = MappingProxyType(
    {
        "grown": {**_EVERY, **_ON_SHOULDER, "rounding_cm": "rounding", "corner": "corner"},
        "separate": {**_EVERY, **_ON_SHOULDER, "crossed": "crossed"},
        "halter": {**_EVERY, "nape": "nape", **TIED},
    }
)
ALL: Final = MappingProxyType({field: name for own in FIELDS.values() for field, name in own.items()})


def own_fields(type: str, nape: str) -> dict[str, str]:
    """The fields that act on a strap: field of the design file -> what the step calls it."""
    own = FIELDS[type]
    return {field: name for field, name in own.items() if field not in TIED or nape == "tie"}


def foreign_fault(type: str, nape: str, given: Iterable[str]) -> str:
    """A sentence about the first given field that does not belong to the strap's type, else empty."""
    own = own_fields(type, nape)
    foreign = next((field for field in given if field not in own), None)
    if foreign is None:
        return ""
    if foreign in FIELDS[type]:
        return f'{foreign} belongs to a halter that is tied; leave it out, or write "nape": "tie" too'
    kinds = " or ".join(other for other, fields in FIELDS.items() if foreign in fields)
    return f"{foreign} does not belong to the type {type} but to {kinds}; it takes {', '.join(own)}"
