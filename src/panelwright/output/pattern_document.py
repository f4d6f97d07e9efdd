"""A cutting pattern as the plain document of a pattern file."""

from collections.abc import Iterable, Iterator
from typing import Any

from panelwright.finding import Finding
from panelwright.finish.cut_piece import CutPiece, CuttingPattern
from panelwright.output.pattern_record import FORMAT
from panelwright.pattern.closure import SPREAD_OPEN, Closure
from panelwright.pattern.edge import Edge
from panelwright.pattern.level import Level
from panelwright.pattern.material import Region
from panelwright.pattern.notion import Notion
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, Span
from panelwright.pattern.working import Working

Document = dict[str, Any]


def pattern_to_json(cutting: CuttingPattern, findings: Iterable[Finding] = ()) -> Document:
    """The contract of docs/pattern-file.md, version 1, as dictionaries, lists, texts and unrounded numbers.

    Corner k of a piece is where its edge k starts. A number that is not finite is put in as it is.
    """
    pattern = cutting.pattern
    return {
        "format": FORMAT,
        "unit": "mm",
        "wearer": {"ref": pattern.wearer, "estimated": list(pattern.estimated)},
        "design": {
            "ref": pattern.design,
            "title": pattern.title,
            "steps": [{"uid": step.uid, "kind": step.kind, "label": step.label} for step in pattern.steps],
        },
        "lines": [{"id": line.id, "origin": line.origin, "label": line.label} for line in pattern.lines],
        "levels": [_level(level) for level in pattern.levels],
        "pieces": [_piece(piece, cut) for piece, cut in cutting.pieces],
        "seams": [_seam(seam, pattern) for seam in pattern.seams],
        "notches": [
            {
                "id": notch.id,
                "seam": notch.seam,
                "at_a": float(notch.at_a),
                "at_b": float(notch.at_b),
                "count": notch.count,
                "level": notch.level,
            }
            for notch in cutting.notches
        ],
        "pointed": [pointed for piece in pattern.pieces for pointed in _pointed(piece)],
        "closures": [_closure(closure) for closure in pattern.closures],
        "notions": [_notion(notion) for notion in pattern.notions],
        "workings": [_working(working) for working in pattern.workings],
        "fitting": [{"uid": note.uid, "kind": note.kind, "label": note.label} for note in pattern.fitting],
        "findings": [_finding(finding) for finding in findings],
    }


def _level(level: Level) -> Document:
    return {
        "id": level.id,
        "label": level.label,
        "height": float(level.height),
        "body_girth": float(level.body_girth),
        "ease": float(level.ease),
        "gap": float(level.gap),
        "overlap": float(level.overlap),
        "fitted": float(level.fitted),
        "finished_girth": float(level.finished_girth),
        "path": [{"piece": step.piece, "inside": step.inside, "times": step.times} for step in level.path],
    }


def _piece(piece: Piece, cut: CutPiece) -> Document:
    return {
        "id": piece.id,
        "label": piece.label,
        "layer": piece.layer,
        "derived_from": piece.derived_from,
        "extent": piece.extent,
        "hand": piece.hand,
        "cut": [{"cloth": entry.cloth, "mode": entry.mode, "count": entry.count} for entry in cut.cuts],
        "vertices": piece.vertices.tolist(),
        "edges": [_edge(edge, k, len(piece.edges), cut) for k, edge in enumerate(piece.edges)],
        "cut_line": cut.cut_line.tolist(),
        "cut_spans": [{"edge": span.edge, "from": span.first, "to": span.last} for span in cut.spans],
        "inside": [{"id": line.id, "kind": line.kind, "bezier": line.curve.points.tolist()} for line in piece.inside],
        "grain": [list(map(float, piece.grain.start)), list(map(float, piece.grain.end))],
        "marks": [{"id": mark.id, "kind": mark.kind, "at": list(map(float, mark.at))} for mark in piece.marks],
        "material": [_region(region) for region in piece.material],
        "notch_marks": [
            {
                "notch": mark.notch,
                "edge": mark.edge,
                "at": list(map(float, mark.at)),
                "to": list(map(float, mark.to)),
                "count": mark.count,
            }
            for mark in cut.notches
        ],
        "text": list(cut.text),
        "text_at": list(map(float, cut.text_at)),
    }


def _edge(edge: Edge, index: int, count: int, cut: CutPiece) -> Document:
    return {
        "id": edge.id,
        "line": edge.line,
        "side": edge.side,
        "interval": list(map(float, edge.interval)),
        "kind": edge.kind,
        "v": [index, (index + 1) % count],
        "controls": edge.curve.points[1:-1].tolist(),
        "allowance": float(cut.allowances[edge.id]),
        "corner_at_end": cut.corners[edge.id],
    }


def _region(region: Region) -> Document:
    placement = region.placement
    return {
        "panel": region.panel,
        "placement": {
            "angle_rad": float(placement.angle),
            "x": float(placement.x),
            "y": float(placement.y),
            "mirrored": placement.mirrored,
        },
        "boundary": [list(map(float, point)) for point in region.boundary],
    }


def _seam(seam: Seam, pattern: Pattern) -> Document:
    return {
        "id": seam.id,
        "kind": seam.kind,
        "region": seam.region,
        "a": [_span(span, pattern) for span in seam.a],
        "b": [_span(span, pattern) for span in seam.b],
        "ratio": float(seam.ratio),
        "ease": float(seam.ease),
        "blend": seam.blend,
        "master": seam.master,
    }


def _span(span: Span, pattern: Pattern) -> Document:
    """Arc positions for whoever checks the file; shares as well, so that reading gives the same span again."""
    length = pattern.edge(span).curve.length
    return {
        "piece": span.piece,
        "edge": span.edge,
        "from": float(span.start * length),
        "to": float(span.end * length),
        "shares": [float(span.start), float(span.end)],
        "hand": span.hand,
    }


def _pointed(piece: Piece) -> Iterator[Document]:
    for k, edge in enumerate(piece.edges):
        if edge.pointed_end:
            yield {"piece": piece.id, "vertex": (k + 1) % len(piece.edges)}


def _closure(closure: Closure) -> Document:
    """JSON has no infinity: `spreads` is null where the edges come apart."""
    return {
        "id": closure.id,
        "place": closure.place,
        "kind": closure.kind,
        "style": closure.style,
        "hand": closure.hand,
        "seam": closure.seam,
        "from": float(closure.low),
        "to": float(closure.high),
        "to_top": closure.to_top,
        "to_hem": closure.to_hem,
        "gap": float(closure.gap),
        "overlap": float(closure.overlap),
        "spreads": None if closure.spreads == SPREAD_OPEN else float(closure.spreads),
    }


def _notion(notion: Notion) -> Document:
    return {
        "kind": notion.kind,
        "name": notion.name,
        "count": notion.count,
        "length": None if notion.length is None else float(notion.length),
        "step": notion.step,
        "detail": notion.detail,
        "working": notion.working,
    }


def _working(working: Working) -> Document:
    return {
        "id": working.id,
        "what": working.what,
        "parts": [{"label": part.label, "length": float(part.length)} for part in working.parts],
        "given": None if working.given is None else float(working.given),
        "short": float(working.short),
        "long": float(working.long),
        "note": working.note,
        "rule_of_thumb": working.rule_of_thumb,
        "rule_length": None if working.rule_length is None else float(working.rule_length),
    }


def _finding(finding: Finding) -> Document:
    return {
        "code": finding.code,
        "severity": finding.severity,
        "subject": finding.subject,
        "value": float(finding.value),
        "limit": float(finding.limit),
        "unit": finding.unit,
        "message": finding.message,
        "remedy": finding.remedy,
        "piece": finding.piece,
        "at": None if finding.at is None else list(map(float, finding.at)),
    }
