"""A design that was put right."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

Document = Mapping[str, object]


@dataclass(frozen=True)
class Remedied:
    """What a remedy makes.

    Attributes:
        words: what it does, as a button says it and as the history keeps it; no measurement of the body.
        document: the changed design; all else is as its maker wrote it.
    """

    words: str
    document: dict[str, object]


def steps_of(document: Document) -> list[dict[str, Any]]:
    """The steps that a document lists; none where it leaves them out."""
    written = document.get("steps")
    return list(written) if isinstance(written, list) else []


def part_of(document: Document, name: str) -> dict[str, Any]:
    """A part of a document that holds named values, `finish`; empty where it is left out."""
    written = document.get(name)
    return dict(written) if isinstance(written, dict) else {}
