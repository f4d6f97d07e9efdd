"""A drawn design as the board is told of it; docs/board.md is the contract."""

from collections.abc import Callable, Iterable, Iterator, Mapping

from panelwright.app.board_piece import Document, board_piece, pair
from panelwright.app.drawn_design import DrawnDesign
from panelwright.app.paper_block import PaperBlock
from panelwright.app.seam_places import seam_places
from panelwright.app.steps_possible import steps_not_possible
from panelwright.app.usual_values import usual_values
from panelwright.design.handle import Handle
from panelwright.design.step import Step
from panelwright.errors import PanelwrightError
from panelwright.file_words import without_file_words
from panelwright.finding import Finding
from panelwright.finish.piece_allowances import line_key
from panelwright.pattern.level import Level
from panelwright.pattern.mark import Point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Seam, Span


def board_pattern(
    drawn: DrawnDesign,
    places: Mapping[str, Point],
    held: str | None = None,
    offered: Callable[[Finding], str | None] = lambda _: None,
    led: Callable[[Finding], Document | None] = lambda _: None,
) -> Document:
    """What of a `pattern` message the geometry says.

    Args:
        places: piece id -> shift on the board, mm.
        held: uid of the step that is dragged, whose handles alone are told then, and not what they run along; None
            tells all.
        offered: what a button beside a finding would do about it, in words; None where nothing is certain.
        led: the field that a finding leads to; None where there is no one place.
    """
    labels = {step.uid: step for step in drawn.steps.steps}
    return {
        "outcomes": [
            {
                "step": outcome.step,
                "kind": labels[outcome.step].kind,
                "label": labels[outcome.step].label,
                "state": outcome.state,
                "reason": without_file_words(outcome.reason),
                **(_usual(labels[outcome.step], drawn) if outcome.state == "done" and drawn.checked else {}),
                **({"cuts_off": outcome.cuts_off, "field": outcome.field} if outcome.cuts_off else {}),
            }
            for outcome in drawn.outcomes
        ],
        "pieces": [board_piece(piece, cut, places[piece.id], drawn.checked) for piece, cut in drawn.cutting.pieces],
        "handles": [_handle(handle, held is None) for handle in _handles(drawn, held)],
        "seams": [_seam(seam, drawn.cutting.pattern) for seam in drawn.cutting.pattern.seams],
        "lines": _lines(drawn.pattern),
        "not_possible": {} if held else steps_not_possible(drawn.block.pattern),
        "levels": [level_facts(level) for level in drawn.cutting.pattern.levels],
        **({"seam_places": _seam_places(drawn), "line_names": _line_names(drawn)} if drawn.checked else {}),
        "findings": (
            [board_finding(finding, offered(finding), led(finding)) for finding in drawn.findings]
            if drawn.checked
            else None
        ),
    }


def board_finding(finding: Finding, apply: str | None = None, lead: Document | None = None) -> Document:
    """A finding ready for JSON; `value` and `limit` are in `unit`, `apply` are the words of its remedy's button, `lead`
    tells the field to go to.
    """
    told: Document = {
        "code": finding.code,
        "severity": finding.severity,
        "subject": finding.subject,
        "message": without_file_words(finding.message),
        "remedy": without_file_words(finding.remedy),
        "value": float(finding.value),
        "limit": float(finding.limit),
        "unit": finding.unit,
    }
    if finding.piece is not None:
        told["piece"] = finding.piece
    if finding.at is not None:
        told["at"] = pair(finding.at)
    if apply is not None:
        told["apply"] = apply
    if lead is not None:
        told["lead"] = lead
    return told


def _handles(drawn: DrawnDesign, held: str | None) -> Iterator[Handle]:
    done = {outcome.step for outcome in drawn.outcomes if outcome.state == "done"}
    for step in drawn.steps.steps:
        if step.uid in done and held in (None, step.uid):
            yield from _handles_of(step, drawn)


def _handles_of(step: Step, drawn: DrawnDesign) -> Iterable[Handle]:
    """The step's handles; one that a later step has cut away is none."""
    try:
        return drawn.handles(step)
    except PanelwrightError:
        return ()


def _handle(handle: Handle, with_way: bool) -> Document:
    told: Document = {
        "step": handle.step,
        "name": handle.name,
        "label": handle.label,
        "piece": handle.piece,
        "at": pair(handle.at),
        "anywhere": handle.anywhere,
    }
    if with_way:
        told["way"] = [pair(end) for end in handle.way]
    return told


def _seam(seam: Seam, pattern: Pattern) -> Document:
    return {
        "id": seam.id,
        "kind": seam.kind,
        "a": [_span(span) for span in seam.a],
        "b": [_span(span) for span in seam.b],
        "lengths": [round(pattern.chain_length(seam.a), 3), round(pattern.chain_length(seam.b), 3)],
        "ease": seam.ease,
    }


def _span(span: Span) -> Document:
    return {"piece": span.piece, "edge": span.edge, "start": span.start, "end": span.end, "hand": span.hand}


def _lines(pattern: Pattern) -> list[Document]:
    """The lines that outer edges with an allowance lie on, and what a design may call them; one of each name."""
    used = {
        edge.line for piece in pattern.pieces if piece.layer == "outer" for edge in piece.edges if edge.kind != "fold"
    }
    labels = {line_key(line.label): line.label for line in pattern.lines if line.id in used}
    return [{"key": key, "label": label} for key, label in labels.items()]


def _line_names(drawn: DrawnDesign) -> dict[str, str]:
    """Line id -> what the maker calls it, of the lines that edges lie on."""
    pattern = drawn.cutting.pattern
    used = {edge.line for piece in pattern.pieces for edge in piece.edges}
    return {line.id: line.label for line in pattern.lines if line.id in used}


def _usual(step: Step, drawn: DrawnDesign) -> Document:
    """What its fields come to where they are left out, to whole mm; it is told while nothing is dragged."""
    usual = usual_values(step, drawn.pattern)
    return {"usual": {field: round(length) for field, length in usual.items()}} if usual else {}


def _seam_places(drawn: DrawnDesign) -> list[Document]:
    if drawn.design.traced is not None:
        return []  # its seams lie where they were traced
    if isinstance(drawn.block, PaperBlock):
        return []
    places = seam_places(drawn.block, drawn.design.block_options.panels)
    return [{"line": line, "level": level, "distance": round(distance, 2)} for line, level, distance in places]


def level_facts(level: Level) -> Document:
    """A level by its id, its name and its height above the waist, mm; of a closed garment also what its edges stand
    apart there, or lap."""
    apart = {"gap": level.gap, "overlap": level.overlap}
    return {
        "id": level.id,
        "label": level.label,
        "height": round(level.height, 3),
        **{name: round(length, 3) for name, length in apart.items() if length},
    }
