"""A pattern as it was read off paper, and what a person has said about that paper."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from panelwright.errors import InputError
from panelwright.intake.drawn_edge import DrawnEdge
from panelwright.intake.drawn_piece import DrawnPiece
from panelwright.intake.drawn_seam import DrawnSeam
from panelwright.intake.edge_ref import EdgeRef
from panelwright.intake.shared_edge import SharedEdge

SCALES = (1.0, 4.0)
Centimetre = Literal["garment", "paper"]


@dataclass(frozen=True)
class DrawnPattern:
    """Pieces on paper, whatever they came from: a photo, a drawing file, a table, tracing on the board.

    Attributes:
        pieces: in mm of the paper.
        scale: how many mm of the garment one mm of the paper is: 1, or 4 at quarter scale. It multiplies the shape.
        allowance: width on the garment, mm, of the allowance that the outlines include; 0: they are the stitch lines;
            None: nobody has said.
        seams: confirmed partners; suggestions are made apart.
        shared: confirmed partners of which one was drawn in one, and the other divided.
        centimetre: what a centimetre of that allowance was on paper: one of the `garment` (2.5 mm at quarter scale), or
            a real one on the `paper`.
        ref: neutral reference of the pattern.
        title: what its maker calls it; may be empty.

    Raises:
        InputError: if two pieces share an id, a seam names what is not there or one edge twice, or a number is out of
            range.
    """

    pieces: tuple[DrawnPiece, ...]
    scale: float = 1.0
    allowance: float | None = None
    seams: tuple[DrawnSeam, ...] = ()
    centimetre: Centimetre = "garment"
    ref: str = "own-block"
    title: str = ""
    shared: tuple[SharedEdge, ...] = ()

    def __post_init__(self) -> None:
        edges = {piece.id: len(piece.edges) for piece in self.pieces}
        if len(edges) < len(self.pieces):
            raise InputError("two pieces have one name; give each its own", "pieces")
        if self.scale not in SCALES:
            raise InputError(f"scale must be 1 (full) or 4 (quarter scale), not {self.scale:g}", "scale")
        if self.allowance is not None and not 0.0 <= self.allowance <= 60.0:
            raise InputError(f"the allowance must be 0 to 6 cm, not {self.allowance / 10:g} cm", "allowance")
        for seam in self.confirmed:
            for side in seam.edges:
                if not 0 <= side.number < edges.get(side.piece, 0):
                    raise InputError(f"seam {seam.line}: piece {side.piece} has no edge {side.number + 1}", "seams")
            twice = next((side for side in seam.edges if seam.edges.count(side) > 1), None)
            if twice is not None:
                raise InputError(
                    f"seam {seam.line}: piece {self.edge_name(twice)} is in it twice; name it once", "seams"
                )

    @property
    def confirmed(self) -> tuple[DrawnSeam | SharedEdge, ...]:
        """The seams, then the shared edges."""
        return (*self.seams, *self.shared)

    @cached_property
    def sewn(self) -> Mapping[EdgeRef, str]:
        """Edge -> the name of its confirmed seam.

        Raises:
            InputError: if one edge is in two seams.
        """
        found: dict[EdgeRef, str] = {}
        for seam in self.confirmed:
            for side in seam.edges:
                if side in found:
                    raise InputError(
                        f"piece {self.edge_name(side)} is in two seams, {found[side]} and {seam.line}: give it to one "
                        "of them",
                        "seams",
                    )
                found[side] = seam.line
        return found

    @property
    def allowance_on_paper(self) -> float:
        """Width of the allowance as it is drawn, mm of the paper; 0 where nobody has said that there is one."""
        return (self.allowance or 0.0) / (self.scale if self.centimetre == "garment" else 1.0)

    def piece(self, id: str) -> DrawnPiece:
        """The piece with this id; KeyError if there is none."""
        found = {piece.id: piece for piece in self.pieces}
        return found[id]

    def edge(self, ref: EdgeRef) -> DrawnEdge:
        """The edge of a piece; KeyError or IndexError if there is none."""
        return self.piece(ref.piece).edges[ref.number]

    def edge_name(self, ref: EdgeRef) -> str:
        """`SF, edge 2`, as whoever drew the piece counts its edges."""
        return f"{ref.piece}, edge {self.piece(ref.piece).drawn_number(ref.number)}"
