"""The cutting pattern that the records of a pattern file describe."""

import re

import numpy as np

from panelwright.errors import InputError
from panelwright.finish.cut_piece import Cut, CutPiece, CutSpan, CuttingPattern, NotchMark
from panelwright.geometry.curve import Curve
from panelwright.geometry.placement import Placement
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.output.pattern_record import (
    ClosureRecord,
    EdgeRecord,
    LevelRecord,
    NotionRecord,
    PatternRecord,
    PieceRecord,
    PlacementRecord,
    SeamRecord,
    SpanRecord,
    WorkingRecord,
)
from panelwright.pattern.closure import SPREAD_OPEN, Closure
from panelwright.pattern.edge import Edge, EdgeSide
from panelwright.pattern.level import WAIST, Level, LevelSpan
from panelwright.pattern.line import Line
from panelwright.pattern.mark import Grain, InsideLine, Mark, Point, as_point
from panelwright.pattern.material import Region
from panelwright.pattern.notion import Notion
from panelwright.pattern.pattern import Pattern, StepRecord
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Notch, Seam, SeamRegion, Span
from panelwright.pattern.working import Part, Working

Edges = dict[tuple[str, str], Edge]


def cutting_pattern(record: PatternRecord) -> CuttingPattern:
    """The pattern of a file, its cutting side and its notches.

    Raises:
        InputError: if something names what is not there, or two statements contradict each other.
        GeometryError: if a piece, an edge or a seam cannot exist.
    """
    pointed = {(entry.piece, entry.vertex) for entry in record.pointed}
    pieces = tuple(_piece(piece, pointed) for piece in record.pieces)
    edges = {(piece.id, edge.id): edge for piece in pieces for edge in piece.edges}
    pattern = Pattern(
        pieces=pieces,
        seams=tuple(_seam(seam, edges) for seam in record.seams),
        lines=tuple(Line(line.id, line.label, line.origin) for line in record.lines),
        levels=tuple(_level(level, pieces) for level in record.levels),
        wearer=record.wearer.ref,
        estimated=tuple(record.wearer.estimated),
        design=record.design.ref,
        steps=tuple(StepRecord(step.uid, step.kind, step.label) for step in record.design.steps),
        title=record.design.title,
        closures=tuple(map(_closure, record.closures)),
        notions=tuple(map(_notion, record.notions)),
        workings=tuple(map(_working, record.workings)),
        fitting=tuple(StepRecord(note.uid, note.kind, note.label) for note in record.fitting),
    )
    cut = {piece.id: _cut_piece(entry, piece) for entry, piece in zip(record.pieces, pieces, strict=True)}
    notches = tuple(Notch(n.id, n.seam, n.at_a, n.at_b, n.count, n.level) for n in record.notches)
    return CuttingPattern(pattern, cut, notches)


def _piece(record: PieceRecord, pointed: set[tuple[str, int]]) -> Piece:
    return Piece(
        id=record.id,
        label=record.label,
        edges=tuple(_edge(edge, record, pointed) for edge in record.edges),
        extent=record.extent,
        hand=record.hand,
        grain=Grain(*record.grain),
        inside=tuple(InsideLine(line.id, line.kind, Curve.from_points(line.bezier)) for line in record.inside),
        marks=tuple(Mark(mark.id, mark.kind, mark.at) for mark in record.marks),
        material=tuple(
            Region(region.panel, _placement(region.placement), tuple(region.boundary)) for region in record.material
        ),
        layer=record.layer,
        derived_from=record.derived_from,
    )


def _edge(record: EdgeRecord, piece: PieceRecord, pointed: set[tuple[str, int]]) -> Edge:
    start, end = (_vertex(piece, k, record.id) for k in record.v)
    curve = Curve.from_points([start, *record.controls, end])
    return Edge(
        id=record.id,
        line=record.line,
        side=record.side or _likely_side(curve),
        kind=record.kind,
        curve=curve,
        interval=record.interval,
        pointed_end=(piece.id, record.v[1]) in pointed,
    )


def _vertex(piece: PieceRecord, index: int, edge: str) -> Point:
    if index < len(piece.vertices):
        return piece.vertices[index]
    raise InputError(
        f"edge {edge} names vertex {index}, but piece {piece.id} has {len(piece.vertices)}: number them from 0", edge
    )


def _likely_side(curve: Curve) -> EdgeSide:
    """Lines run up, or round from centre front to centre back, which is leftwards on paper."""
    x, y = curve.chord
    return "left" if (y > 0 if abs(y) > abs(x) else x < 0) else "right"


def _placement(record: PlacementRecord) -> Placement:
    return Placement(record.angle_rad, record.x, record.y, record.mirrored)


def _level(record: LevelRecord, pieces: tuple[Piece, ...]) -> Level:
    path = tuple(LevelSpan(step.piece, step.inside, step.times) for step in record.path)
    height = _drawn_height(path, pieces) if record.height is None else record.height
    level = Level(
        id=record.id,
        label=record.label or record.id,
        height=height,
        body_girth=record.body_girth,
        ease=record.ease,
        path=path,
        gap=record.gap,
        overlap=record.overlap,
        fitted=record.fitted,
    )
    if abs(level.finished_girth - record.finished_girth) > TOLERANCES.level:
        raise InputError(
            f"level {record.id} is {record.finished_girth:g} mm finished, but body girth and ease make "
            f"{level.finished_girth:g} mm: state the same",
            record.id,
        )
    return level


def _drawn_height(path: tuple[LevelSpan, ...], pieces: tuple[Piece, ...]) -> float:
    """How far the level's first line starts above the waist line of its piece; 0 without a waist line."""
    for step in path[:1]:
        piece = next((piece for piece in pieces if piece.id == step.piece), None)
        line, waist = (piece.inside_line(id) if piece else None for id in (step.inside, WAIST))
        if line and waist:
            return float(line.curve.start[1] - waist.curve.start[1])
    return 0.0


def _seam(record: SeamRecord, edges: Edges) -> Seam:
    a, b = (tuple(_span(span, edges, record.id) for span in chain) for chain in (record.a, record.b))
    region = record.region or _region(record.id)
    return Seam(record.id, record.kind, a, b, region, record.ratio, record.ease, record.blend, record.master)


def _span(record: SpanRecord, edges: Edges, seam: str) -> Span:
    edge = edges.get((record.piece, record.edge))
    if edge is None:
        raise InputError(f"seam {seam} names edge {record.edge} of piece {record.piece}, which is not there", seam)
    length = edge.curve.length
    stated = (record.start, record.end)
    shares = record.shares or tuple(_share(place, length) for place in stated)
    if any(abs(share * length - place) > TOLERANCES.seam for share, place in zip(shares, stated, strict=True)):
        raise InputError(
            f"seam {seam} runs from {stated[0]:g} to {stated[1]:g} mm on edge {record.edge}, which is "
            f"{length:.3f} mm long or has other shares stated: stay on the edge",
            seam,
        )
    return Span(record.piece, record.edge, shares[0], shares[1], record.hand)


def _share(place: float, length: float) -> float:
    """A place on an edge as a share of it; one within the seam limit of an end means the end."""
    for share in (0.0, 1.0):
        if abs(place - share * length) <= TOLERANCES.seam:
            return share
    return min(max(place / length, 0.0), 1.0)


def _region(seam: str) -> SeamRegion:
    """Front, back or side by the words of the seam's id; a seam without one of them takes front's single notches."""
    words = re.split(r"[^a-z]+", seam.lower())
    regions: tuple[SeamRegion, ...] = ("front", "back", "side")
    return next((region for region in regions if region in words), "front")


def _closure(record: ClosureRecord) -> Closure:
    return Closure(
        id=record.id,
        place=record.place,
        kind=record.kind,
        style=record.style,
        hand=record.hand,
        seam=record.seam,
        low=record.low,
        high=record.high,
        to_top=record.to_top,
        to_hem=record.to_hem,
        gap=record.gap,
        overlap=record.overlap,
        spreads=SPREAD_OPEN if record.spreads is None else record.spreads,
    )


def _notion(record: NotionRecord) -> Notion:
    return Notion(record.kind, record.name, record.count, record.length, record.step, record.detail, record.working)


def _working(record: WorkingRecord) -> Working:
    return Working(
        id=record.id,
        what=record.what,
        parts=tuple(Part(part.label, part.length) for part in record.parts),
        given=record.given,
        short=record.short,
        long=record.long,
        note=record.note,
        rule_of_thumb=record.rule_of_thumb,
        rule_length=record.rule_length,
    )


def _cut_piece(record: PieceRecord, piece: Piece) -> CutPiece:
    known = {edge.id for edge in piece.edges}
    for span in record.cut_spans:
        if span.edge not in known:
            raise InputError(f"a cut span of piece {piece.id} names edge {span.edge}, which it has not", piece.id)
        if max(span.first, span.last) >= len(record.cut_line):
            raise InputError(
                f"the cut span of edge {span.edge} ends past the {len(record.cut_line)} points of the cut line: "
                "number them from 0",
                piece.id,
            )
    return CutPiece(
        piece=piece.id,
        allowances={edge.id: edge.allowance for edge in record.edges},
        corners={edge.id: edge.corner_at_end for edge in record.edges},
        cut_line=np.array(record.cut_line),
        spans=tuple(CutSpan(span.edge, span.first, span.last) for span in record.cut_spans),
        cuts=tuple(Cut(cut.cloth, cut.mode, cut.count) for cut in record.cut),
        notches=tuple(NotchMark(m.notch, m.edge, m.at, m.to, m.count) for m in record.notch_marks),
        text=tuple(record.text) or (record.label,),
        text_at=record.text_at or as_point(np.array(piece.outline.representative_point().coords[0])),
    )
