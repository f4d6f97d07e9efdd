"""A notion: what is bought beside the cloth, as a step of the design asks for it."""

from dataclasses import dataclass
from typing import Literal

from panelwright.errors import GeometryError

NotionKind = Literal["zip", "cord", "eyelet", "hook", "button", "bone", "casing"]


@dataclass(frozen=True)
class Notion:
    """So many of one thing.

    Attributes:
        kind: what it is.
        name: what it is called in a shop, without numbers: `invisible zip`, `lacing cord`, `spiral bone`.
        count: how many a garment.
        length: of each, mm, or None where it has none.
        step: uid of the step that asks for it, empty for the block's own.
        detail: where it goes or how it was reckoned, one short sentence without lengths; may be empty.
        working: id of the working that gave its length, or empty.

    Raises:
        GeometryError: if there is less than one.
    """

    kind: NotionKind
    name: str
    count: int
    length: float | None = None
    step: str = ""
    detail: str = ""
    working: str = ""

    def __post_init__(self) -> None:
        if self.count < 1 or (self.length is not None and not self.length > 0):
            raise GeometryError(f"notion {self.name}: {self.count} of length {self.length} cannot be bought")
