"""One task of the order of work, and what is sewn in it."""

from dataclasses import dataclass, field

from panelwright.sewing.stitch import LOCK, SeamClass, Stitch


@dataclass(frozen=True)
class Sewn:
    """Something that is sewn in one go.

    Attributes:
        what: `front princess seam`.
        edges: ids of the edges that it takes, on the pieces as they are drawn.
        length: of the seam in the whole garment, mm, both sides of the wearer together.
        seam: id of the pattern's seam, or empty for an edge.
        stitch: with what.
        kind: class of the seam; None where the standard's classes leave the maker the choice.
    """

    what: str
    edges: frozenset[str]
    length: float
    seam: str = ""
    stitch: Stitch = LOCK
    kind: SeamClass | None = SeamClass.SUPERIMPOSED


@dataclass(frozen=True)
class Task:
    """What is done before the next thing.

    Attributes:
        title: in a few words.
        words: sentences, in the order in which they are done.
        sewn: what is sewn; empty where nothing is.
        pieces: ids of pieces to show although nothing is sewn on them.
        caution: what may hurt, or empty.
    """

    title: str
    words: tuple[str, ...]
    sewn: tuple[Sewn, ...] = ()
    pieces: frozenset[str] = field(default_factory=frozenset)
    caution: str = ""

    @property
    def edges(self) -> frozenset[str]:
        """All edges that are sewn in it."""
        return frozenset(edge for each in self.sewn for edge in each.edges)
