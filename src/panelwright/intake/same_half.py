"""Which pieces were drawn for one half of the body: the two sides of a seam tell it of the pieces that they join."""

from panelwright.intake.drawn_pattern import DrawnPattern
from panelwright.intake.edge_trait import traits


def are_of_one_half(whole: DrawnPattern, one: str, other: str) -> bool:
    """Whether two pieces are known to be drawn for the same half of the body, right or left.

    Outlines of two such pieces run against each other along their seam, one up the body and one down. Seams that run
    across the body tell nothing, and pieces whose seams contradict each other are not known.

    Args:
        whole: at full scale.
        one: id of a piece.
        other: id of another.
    """
    rising = {trait.ref: trait.rising for trait in traits(whole)}
    told: list[tuple[str, str, bool]] = []
    for seam in whole.seams:
        a, b = rising[seam.a], rising[seam.b]
        if a is not None and b is not None:
            told += [(seam.a.piece, seam.b.piece, a == b), (seam.b.piece, seam.a.piece, a == b)]
    reached = [(one, False)]  # a piece, and whether it is drawn for the other half than the first is
    for here, across in reached:
        for piece, beyond, changes in told:
            found = beyond, across != changes
            if piece == here and found not in reached:
                reached.append(found)
    return (other, False) in reached and (other, True) not in reached
