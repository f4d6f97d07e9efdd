"""What every design step has in common."""

import re
from collections.abc import Hashable, Iterator
from contextlib import contextmanager
from typing import ClassVar, Protocol, runtime_checkable

from panelwright.errors import DesignError, GeometryError
from panelwright.pattern.pattern import Pattern

UID = re.compile(r"[a-z0-9][a-z0-9-]{0,39}")


class Step(Hashable, Protocol):
    """One parametric change of a pattern: a frozen, hashable value.

    Attributes:
        kind: what the step file calls it, `top-edge`.
        needs_shoulder: whether it needs a block to the shoulder.
    """

    kind: ClassVar[str]
    needs_shoulder: ClassVar[bool]

    @property
    def uid(self) -> str:
        """Its permanent name in the design; lines that it makes are called `<uid>/<slot>`."""

    @property
    def label(self) -> str:
        """What the maker reads in the list of steps."""

    @property
    def slots(self) -> tuple[str, ...]:
        """Names of its results that later steps may use."""

    @property
    def uses(self) -> frozenset[str]:
        """Uids of earlier steps whose results it names."""

    def apply(self, pattern: Pattern, block: Pattern) -> Pattern:
        """The changed pattern; `block` is the unmodified block on which body points are resolved.

        Raises:
            DesignError: if it cannot be carried out; the message names the step and says why.
        """


@runtime_checkable
class Settling(Protocol):
    """A step of which something depends on steps before and after it alike."""

    def settled(self, pattern: Pattern, block: Pattern) -> Pattern:
        """The pattern after every step, with that settled. Two steps come to the same in either order."""


def recorded_kind(step: Step) -> str:
    """What a pattern's record calls a step: its kind, unless the step says something more of itself."""
    return str(getattr(step, "recorded_kind", step.kind))


class OneEdge:
    """What steps have in common that need no earlier step and leave one new edge, the slot `line`."""

    needs_shoulder: ClassVar[bool] = False

    @property
    def slots(self) -> tuple[str, ...]:
        """The new edge."""
        return ("line",)

    @property
    def uses(self) -> frozenset[str]:
        """No earlier step."""
        return frozenset()


def checked_uid(uid: str) -> None:
    """Refuse a uid that could not stand in a file or a line's id.

    Raises:
        DesignError: unless it is 1 to 40 small letters, digits and hyphens.
    """
    if not UID.fullmatch(uid):
        raise DesignError(
            f"a step cannot be called {uid[:60]!r}; use up to 40 small letters, digits and hyphens", "steps"
        )


@contextmanager
def blamed(uid: str, spoken_kind: str) -> Iterator[None]:
    """Puts what the step is before every error that is raised inside, and its name where the error says where."""
    try:
        yield
    except (DesignError, GeometryError) as error:
        raise DesignError(f"{spoken_kind}: {error}", f"step {uid}") from error
