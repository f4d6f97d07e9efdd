"""A short lay of a garment's pieces: what the search finds, as places on the cloth."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from panelwright.geometry.arrays import Array
from panelwright.lay.first_lay import Job, Pose, jobs
from panelwright.lay.lay import LaidPiece
from panelwright.lay.piece_to_cut import PieceToCut
from panelwright.lay.search.budget import Budget
from panelwright.lay.search.search import Told, shortest_lay, unheard
from panelwright.lay.search.task import Found, LayTask, ToLay, Turn

TURNS = tuple(Turn(degrees, mirrored) for mirrored in (False, True) for degrees in (0.0, 180.0))
_ON_LINE = 1e-6  # mm


@dataclass(frozen=True)
class Planning:
    """How hard to look for a short lay.

    Attributes:
        budget: of each cloth's search.
        seed: another one gives another search.
        told: hears of every better lay, and may raise `EndSearch` to stop.
        cores: searches at once, which share the budget.
    """

    budget: Budget
    seed: int = 1
    told: Told = unheard
    cores: int = 1


@dataclass(frozen=True, eq=False)
class LayPlan:
    """Pieces made ready for the search, and what it finds as places of pieces.

    Attributes:
        task: for the search; it may have nothing to lay.
        jobs: what each thing of the task is.
    """

    task: LayTask
    jobs: tuple[Job, ...]

    @classmethod
    def of(cls, pieces: Sequence[PieceToCut], width: float, folded: bool, one_way: bool, spacing: float) -> "LayPlan":
        """The plan of pieces on a cloth `width` mm across; see `first_lay` for the rest.

        Raises:
            LayError: if a piece is too wide for the cloth.
        """
        to_lay = jobs(pieces, folded, one_way, 0.0)
        shapes = list({id(job.poses[0].piece): job.poses[0].piece for job in to_lay}.values())
        number = {id(piece): k for k, piece in enumerate(shapes)}
        outlines = tuple(_along_the_grain(piece) for piece in shapes)
        things = tuple(_thing(job, number[id(job.poses[0].piece)], outlines) for job in to_lay)
        names = tuple(piece.label for piece in shapes)
        return cls(LayTask(width, outlines, things, spacing, names), tuple(to_lay))

    def laid(self, found: Found) -> tuple[LaidPiece, ...]:
        """What was found, as places of the pieces in their order."""
        laid = []
        for job, place in zip(self.jobs, found.places, strict=True):
            pose = next(pose for pose in job.poses if _turn(pose) == place.turn)
            placement = replace(pose.turn, x=place.x, y=place.y)
            laid.append(LaidPiece(pose.piece, job.copy, placement, job.spare))
        return tuple(laid)


def planned_lay(
    pieces: Sequence[PieceToCut], width: float, folded: bool, one_way: bool, spacing: float, planning: Planning
) -> tuple[LaidPiece, ...]:
    """Places for all pieces, in their order, on a cloth `width` mm across; see `first_lay` for the rest.

    Raises:
        LayError: if a piece is too wide for the cloth.
    """
    plan = LayPlan.of(pieces, width, folded, one_way, spacing)
    if not plan.jobs:
        return ()
    return plan.laid(shortest_lay(plan.task, planning.budget, planning.seed, planning.told, planning.cores))


def _along_the_grain(piece: PieceToCut) -> Array:
    """Its outline with the grain along +x, open."""
    outline = piece.turn(False, False).points(piece.outline)
    return outline[:-1] if np.array_equal(outline[0], outline[-1]) else outline


def _thing(job: Job, shape: int, outlines: Sequence[Array]) -> ToLay:
    pose = job.poses[0]
    fold = _fold_edge(pose.piece, outlines[shape]) if pose.on_fold else None
    return ToLay(shape, tuple(_turn(pose) for pose in job.poses), fold)


def _turn(pose: Pose) -> Turn:
    """How it lies against the outline along the grain."""
    back = pose.piece.turn(False, False).inverse
    matrix = pose.turn.vectors(back.vectors(np.eye(2))).T
    return min(TURNS, key=lambda turn: float(np.abs(turn.matrix - matrix).max()))


def _fold_edge(piece: PieceToCut, outline: Array) -> int:
    """The number of an edge that lies on the fold."""
    assert piece.fold is not None
    line = piece.turn(False, False).points(piece.fold)[0, 1]
    on = np.abs(outline[:, 1] - line) < _ON_LINE
    both = np.flatnonzero(on & np.roll(on, -1))
    lengths = np.abs(np.roll(outline, -1, axis=0) - outline)[both, 0]
    return int(both[lengths.argmax()])
