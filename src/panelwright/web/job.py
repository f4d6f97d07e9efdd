"""Work that takes long: how far it is, what it made, and a way to stop it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from threading import Event, Lock
from typing import Literal

from panelwright.app.board_piece import Document
from panelwright.app.progress import Progress
from panelwright.errors import CancelledError

State = Literal["waiting", "working", "ready", "refused", "stopped"]


@dataclass(frozen=True, eq=False, repr=False)
class Made:
    """What a job made.

    Attributes:
        facts: told with its state.
        files: name -> (content, media type).
    """

    facts: Document
    files: Mapping[str, tuple[bytes, str]]


Work = Callable[[Progress], Made]


@dataclass(eq=False, repr=False)
class Job:
    """One piece of long work, as a page is told of it."""

    id: str
    work: Work
    state: State = "waiting"
    done: int = 0
    total: int = 0
    what: str = ""
    message: str = ""
    where: str = ""
    made: Made | None = None
    _stopped: Event = field(default_factory=Event)
    _changing: Lock = field(default_factory=Lock)

    @property
    def ended(self) -> bool:
        """Whether nothing more comes of it."""
        return self.state in ("ready", "refused", "stopped")

    def stop(self) -> None:
        """End it at the next step; what it made is let go."""
        with self._changing:
            self._stopped.set()
            self.made = None
            if not self.ended or self.state == "ready":
                self.state = "stopped"

    def carry_out(self) -> None:
        """Do the work in this thread.

        Raises:
            CancelledError: if it was stopped.
        """
        with self._changing:
            self._heed()
            self.state = "working"
        made = self.work(self._progress)
        with self._changing:
            self._heed()
            self.made, self.state = made, "ready"

    def facts(self) -> Document:
        """The *job* answer of docs/board.md."""
        told: Document = {"id": self.id, "state": self.state, "done": self.done, "total": self.total, "what": self.what}
        if self.made is not None:
            told |= {"files": list(self.made.files), "facts": self.made.facts}
        if self.state == "refused":
            told |= {"message": self.message, "where": self.where}
        return told

    def _progress(self, done: int, total: int, what: str) -> None:
        self._heed()
        self.done, self.total, self.what = done, total, what

    def _heed(self) -> None:
        if self._stopped.is_set():
            raise CancelledError("stopped")
