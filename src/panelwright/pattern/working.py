"""A working: a length that was reckoned for this wearer, and how."""

from dataclasses import dataclass
from typing import Final

from panelwright.errors import GeometryError

# `long` of a working whose given length is right however long it is, mm: what is over is cut off or tucked away.
OR_LONGER: Final = 1000.0


@dataclass(frozen=True)
class Part:
    """One term of a working.

    Attributes:
        label: what it is, without a number: `over the shoulder, from front edge to back edge`.
        length: mm; below 0 where it is taken off.
    """

    label: str
    length: float


@dataclass(frozen=True)
class Working:
    """A length that nobody has to guess: its parts, and a given length held against their sum.

    Attributes:
        id: unique in the pattern, `<step uid>/length`.
        what: what is that long, `Strap`.
        parts: what it is made of, in the order in which a maker adds them up.
        given: the length that the maker asked for instead, mm, or None.
        short, long: how far below and above the reckoned length a given one is still right, mm.
        note: how sure the reckoning is, and what settles it (one sentence, may be empty).
        rule_of_thumb: the trade's own rule beside it (one sentence without a number, may be empty).
        rule_length: what that rule comes to for this wearer, mm; None where it says no length.

    Raises:
        GeometryError: if there is nothing to add up.
    """

    id: str
    what: str
    parts: tuple[Part, ...]
    given: float | None = None
    short: float = 20.0
    long: float = 20.0
    note: str = ""
    rule_of_thumb: str = ""
    rule_length: float | None = None

    def __post_init__(self) -> None:
        if not self.parts:
            raise GeometryError(f"working {self.id} has no parts to add up")

    @property
    def reckoned(self) -> float:
        """The sum of the parts, mm."""
        return sum(part.length for part in self.parts)

    @property
    def length(self) -> float:
        """What is drawn, mm: the given length, else the reckoned one."""
        return self.reckoned if self.given is None else self.given

    @property
    def off(self) -> float:
        """given - reckoned where that is more than is right, else 0: below 0 too short, above 0 too long, mm."""
        apart = self.length - self.reckoned
        return apart if apart < -self.short or apart > self.long else 0.0
