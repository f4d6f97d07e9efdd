"""An edge that lies so high or low that other steps have no room: who is told what, once, and at which field."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Final

from panelwright.app.garment_design import DEFAULT_HEM, DEFAULT_TOP, TOP_STEP
from panelwright.body.worded_length import length_words
from panelwright.design.bodice_top import BodiceTop
from panelwright.design.finished_edge import FreePoint
from panelwright.design.hem import Hem
from panelwright.design.position import Height
from panelwright.design.replay import Design, Outcome, Replay, replay
from panelwright.design.top_edge import TopEdge
from panelwright.errors import DesignError
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.step_name import named_step

CutEdge = TopEdge | Hem
ROUND: Final = 5.0  # mm to which the way out is told
FARTHEST: Final = 300.0  # mm that an edge is moved at most to find one
# Attribute of an edge -> field of the page that says it.
_FIELDS: Final = ("centre", "side", "back")


@dataclass(frozen=True)
class CutOff:
    """What an edge leaves no room for.

    Attributes:
        step: uid of the top edge or hem.
        others: uids of the steps that fail for it and would be carried out if it lay where it usually does.
        field: the height that is at fault: `centre`, `side` or `back`; empty where the edge says itself what is wrong.
        message: what is cut off and what to do, one or two sentences.
    """

    step: str
    others: tuple[str, ...]
    field: str
    message: str


def cut_off(design: Design, block: Pattern, outcomes: tuple[Outcome, ...]) -> tuple[CutOff, ...]:
    """The edges of a design that leave steps behind them no room, with those steps; each step is named once.

    Nothing is asked of a design whose every step was carried out: else it is replayed with edges in other places.

    Args:
        outcomes: of the design on this block.
    """
    wanting = [outcome.step for outcome in outcomes if outcome.wanting]
    # A place where a step that was carried out no longer is, such as a skirt that needs its hem at the waist, is no way
    # out.
    kept = {outcome.step for outcome in outcomes if outcome.state == "done"}
    edges = [
        step
        for step in design.steps
        if isinstance(step, CutEdge) or (isinstance(step, BodiceTop) and step.uid in wanting)
        if step.uid not in design.off
    ]
    # One that itself could not be drawn is asked first: what needs it waits for it whatever its height.
    edges.sort(key=lambda step: (step.uid not in wanting, -design.steps.index(step)))
    found = []
    for edge in edges:
        others = tuple(uid for uid in wanting if uid != edge.uid and not _is_edge(design, uid))
        freed = _done(design, block, _usual(edge))
        mine = tuple(uid for uid in others if uid in freed) if kept | {edge.uid} <= freed else ()
        if mine:
            if isinstance(edge, BodiceTop) or edge.uid in wanting:
                found.append(_waiting(design, edge, mine))
            else:
                found.append(_told(design, block, edge, mine))
            wanting = [uid for uid in wanting if uid not in mine]
    return tuple(found)


def told_outcomes(design: Design, block: Pattern, made: Replay) -> tuple[Outcome, ...]:
    """The outcomes of a replay, where an edge that leaves others no room says so, and they that they wait for it."""
    found = () if made.complete else cut_off(design, block, made.outcomes)
    names = [(step.uid, step.label) for step in design.steps]
    waits = {uid: each for each in found for uid in each.others}
    told = {each.step: each for each in found}

    def tell(outcome: Outcome) -> Outcome:
        if outcome.step in waits:
            edge = waits[outcome.step]
            reason = f"it waits for {named_step(names, edge.step)}{' to leave it room' if edge.field else ''}"
            return replace(outcome, state="waiting", reason=reason)
        each = told.get(outcome.step)
        return replace(outcome, cuts_off=each.message, field=each.field) if each else outcome

    return tuple(tell(outcome) for outcome in made.outcomes)


def first_fault(outcomes: tuple[Outcome, ...]) -> tuple[str, str] | None:
    """(uid of the first step that stands in the way of a whole garment, why); None where none does."""
    for outcome in outcomes:
        if outcome.wanting or outcome.cuts_off:
            return outcome.step, (outcome.reason or outcome.cuts_off).rstrip(".")
    return None


def _is_edge(design: Design, uid: str) -> bool:
    return any(isinstance(step, CutEdge) and step.uid == uid for step in design.steps)


def _usual(edge: CutEdge | BodiceTop) -> CutEdge:
    """A straight edge in its place, where one lies that nobody has designed."""
    if isinstance(edge, BodiceTop):
        return replace(TOP_STEP, uid=edge.uid)
    height = DEFAULT_TOP if isinstance(edge, TopEdge) else DEFAULT_HEM
    return replace(edge, shape="straight", centre=height, side=height, back=height, points=(), point_at_centre=None)


def _done(design: Design, block: Pattern, edge: CutEdge) -> set[str]:
    """Uids of the steps that are carried out with another edge in place of the design's own."""
    steps = tuple(edge if step.uid == edge.uid else step for step in design.steps)
    made = replay(replace(design, steps=steps), block)
    return {outcome.step for outcome in made.outcomes if outcome.state == "done"}


def _waiting(design: Design, edge: CutEdge | BodiceTop, others: tuple[str, ...]) -> CutOff:
    """Of an edge that could not be drawn, and says itself why."""
    verb = "wait" if len(others) > 1 else "waits"
    return CutOff(edge.uid, others, "", f"{_spoken(design, others)} {verb} for it")


def _told(design: Design, block: Pattern, edge: CutEdge, others: tuple[str, ...]) -> CutOff:
    """Of an edge that is drawn and leaves no room."""

    def frees(changed: CutEdge) -> bool:
        return {*others, edge.uid} <= _done(design, block, changed)

    change, what = ("raise", "the top edge") if isinstance(edge, TopEdge) else ("lower", "the hem")
    by = _least_move(edge, frees)
    far = f" by about {length_words(by)}" if by else ""
    message = (
        f"at this height {what} leaves no room for {_spoken(design, others)}; {change} it{far}, or change or leave out "
        "what has no room."
    )
    return CutOff(edge.uid, others, _field(edge, frees), message)


def _least_move(edge: CutEdge, frees: Callable[[CutEdge], bool]) -> float | None:
    """How far the edge must be moved so that the others have room, mm; None where moving it alone does not help."""
    way = 1.0 if isinstance(edge, TopEdge) else -1.0
    low, high = 0, round(FARTHEST / ROUND)
    while low + 1 < high:
        middle = (low + high) // 2
        moved = _moved(edge, way * middle * ROUND)
        low, high = (low, middle) if moved is not None and frees(moved) else (middle, high)
    moved = _moved(edge, way * high * ROUND)
    return high * ROUND if moved is not None and frees(moved) else None


def _moved(edge: CutEdge, up: float) -> CutEdge | None:
    """The whole edge moved up, mm; None where a height is told in proportion."""

    def moved(height: Height) -> Height:
        return replace(height, offset=height.offset + up)

    def point(free: FreePoint) -> FreePoint:
        return replace(free, at=replace(free.at, height=moved(free.at.height)))

    heights = [edge.centre, edge.side, *([edge.back] if edge.back else []), *(free.at.height for free in edge.points)]
    if any(height.share for height in heights):
        return None
    try:
        return replace(
            edge,
            centre=moved(edge.centre),
            side=moved(edge.side),
            back=moved(edge.back) if edge.back else None,
            points=tuple(map(point, edge.points)),
        )
    except DesignError:
        return None


def _field(edge: CutEdge, frees: Callable[[CutEdge], bool]) -> str:
    """The one height that is at fault, or that at the centre front where several are."""
    usual = DEFAULT_TOP if isinstance(edge, TopEdge) else DEFAULT_HEM
    return next((name for name, changed in _one_changed(edge, usual) if frees(changed)), _FIELDS[0])


def _one_changed(edge: CutEdge, usual: Height) -> Iterator[tuple[str, CutEdge]]:
    for name in _FIELDS:
        try:
            yield name, _with_height(edge, name, usual)
        except DesignError:  # a straight edge has one height
            continue


def _with_height(edge: CutEdge, field: str, height: Height) -> CutEdge:
    if field == "centre":
        return replace(edge, centre=height)
    return replace(edge, side=height) if field == "side" else replace(edge, back=height)


def _spoken(design: Design, uids: tuple[str, ...]) -> str:
    names = [(step.uid, step.label) for step in design.steps]
    *first, last = [named_step(names, uid).rstrip(",") for uid in uids]
    return f"{', '.join(first)} and {last}" if first else last
