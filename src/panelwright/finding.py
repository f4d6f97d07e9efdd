"""A finding: one result of checking, with its number, limit, place and remedy."""

from dataclasses import dataclass
from typing import Literal

Severity = Literal["error", "warning", "advice"]


@dataclass(frozen=True)
class Finding:
    """One thing a maker should know before cutting.

    Attributes:
        code: stable name of the rule, `"seam-length"`.
        severity: `error` stops a sign-off, `warning` asks for a decision, `advice` informs.
        subject: what it is about: the id of a piece, seam, level or measurement.
        value: the measured number, in `unit`.
        limit: the number it is held against, in `unit`.
        message: one plain sentence with the number in it.
        remedy: what to do about it, one plain sentence.
        piece: id of the piece that `at` lies on, or None.
        at: the place on that piece, mm, or None when it has no single place.
        unit: unit of `value` and `limit`.
    """

    code: str
    severity: Severity
    subject: str
    value: float
    limit: float
    message: str
    remedy: str
    piece: str | None = None
    at: tuple[float, float] | None = None
    unit: str = "mm"
