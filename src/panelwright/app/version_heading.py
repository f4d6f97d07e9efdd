"""The heading of a version in the history: what was done then, by the names that the steps have since."""

from collections.abc import Mapping
from typing import Any, Final

from panelwright.app.step_change import new_labels

_CHANGE: Final = "Change "  # as the page begins the words of a changed field


def retold(what: str, before: Mapping[str, Any], after: Mapping[str, Any]) -> str:
    """`Change Top edge: V` for `Change Top edge: sweetheart`, where that change made it a V.

    Words of a maker's own, and those of going back to a version, stay as they are.

    Args:
        what: as it was saved.
        before, after: the two documents of the design.
    """
    for old, new in new_labels(before.get("steps") or [], after.get("steps") or []).items():
        if what == f"{_CHANGE}{old}":
            return f"{_CHANGE}{new}"
        if what.startswith(f"{old}: "):
            return new + what.removeprefix(old)
    return what
