"""Which step of a design a line drawn by hand takes the place of."""

from collections.abc import Iterable

from panelwright.design.fitted_line import EdgeKind, EdgeStep
from panelwright.design.hem import Hem
from panelwright.design.step import Step
from panelwright.design.top_edge import TopEdge
from panelwright.errors import DesignError


def drawn_over(kind: EdgeKind, steps: Iterable[Step]) -> EdgeStep:
    """The step whose line is drawn anew: the last of its kind.

    Raises:
        DesignError: if the design has none, as its top is made by a step with shoulders and armholes.
    """
    edge = TopEdge if kind == "top-edge" else Hem
    found = [step for step in steps if isinstance(step, edge)]
    if found:
        return found[-1]
    spoken = kind.replace("-", " ")
    raise DesignError(
        f"this design has no {spoken} to draw anew, because another step makes it; move that step's handles instead, "
        f"or switch it off so that a plain {spoken} takes its place",
        "kind",
    )
