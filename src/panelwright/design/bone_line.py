"""Bones along a line of the pattern: over a seam, beside an edge that opens, on a fold or a line inside a piece."""

from dataclasses import replace
from typing import Final

from panelwright.body.worded_length import given_words, length_words
from panelwright.design.body_chart import half_chart
from panelwright.design.bone import SHORTEST, Bone, LaidBone, is_half
from panelwright.design.bone_bed import Bed
from panelwright.design.bone_clash import MARK_ROOM
from panelwright.design.position import Height, arc_on, spoken
from panelwright.errors import DesignError
from panelwright.pattern.edge import Edge
from panelwright.pattern.line import CENTRE_BACK, CENTRE_FRONT, SIDE
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, Span

CENTRES = (CENTRE_FRONT, CENTRE_BACK)


# How far from an edge that opens a bone starts, mm (MEM): half the tape of a zip, the reach of a hook.
STARTS: Final = {"zip": 12.0, "hooks": 10.0}
BEYOND_EYELETS: Final = 6.0  # mm from the middle of the eyelets to a bone on their inner side (own choice)


def usual_lines(pattern: Pattern, block: Pattern) -> tuple[str, ...]:
    """The lines that bones usually lie on: every upright seam of the block, and a centre where it opens, unless
    buttonholes would lie across the bone."""
    sewn = {edge.line for seam in pattern.seams if seam.kind == "join" for edge in _edges(pattern, seam)}
    buttoned = {closure.place for closure in pattern.closures if closure.kind == "buttons"}
    uprights = [upright.line for upright in half_chart(block).uprights]
    return tuple(
        line
        for line in uprights
        if (_opens(pattern, line) and line not in buttoned if line in CENTRES else line in sewn)
    )


def bones_along(
    line: str, pattern: Pattern, block: Pattern, half_width: float, clearance: float, up_to: Height | None
) -> list[Bone]:
    """The bones of one line.

    Args:
        line: id of a line of the pattern.
        half_width: half of a channel, mm.
        clearance: how far a bone stays from stitched edges, mm.
        up_to: where bones end at most; None: at the block's upper edge, under the arm.

    Raises:
        DesignError: if nothing lies on the line, or a bone would be too short.
    """
    share = _limit(line, block, up_to)
    found = _over_seams(line, pattern, half_width, clearance, share)
    found += _at_edges(line, pattern, half_width, clearance, share)
    if not found:
        found = _at_guides(line, pattern, half_width, clearance)
    if not found:
        known = ", ".join(dict.fromkeys(edge.line for piece in pattern.pieces for edge in piece.edges))
        raise DesignError(f"no seam or edge lies on a line {line!r}; name other lines for bones, of {known}", line)
    for bone in found:
        if bone.room < SHORTEST:
            raise DesignError(
                f"{bone.place} there is room for a bone of {length_words(max(bone.room, 0.0))}, and the shortest is "
                f"{given_words(SHORTEST)}; name only the other lines for bones",
                line,
            )
    return [replace(bone, name=f"{bone.name}-{k}" if k > 1 else bone.name) for k, bone in enumerate(found, 1)]


def _over_seams(line: str, pattern: Pattern, half_width: float, clearance: float, share: float) -> list[Bone]:
    if _opens(pattern, line):
        return []
    opening = {closure.hand for closure in pattern.closures if closure.place == SIDE} if line == SIDE else set()
    place = f"along the {_words(pattern, line)}" + (" that stays shut" if opening else "")
    found: list[Bone] = []
    seen: set[str] = set()
    for seam in pattern.seams:
        edges = _edges(pattern, seam)
        if seam.kind != "join" or all(edge.line != line for edge in edges) or seen & {edge.id for edge in edges}:
            continue
        seen |= {edge.id for edge in edges}
        sides = [_side(pattern, chain, half_width, share, clearance) for chain in (seam.a, seam.b)]
        if not all(sides):
            continue
        wholes = [sum(_top(part.bed) for part in side) for side in sides]
        lows = [side[0].stretch[0] for side in sides]
        highs = [_top(side[-1].bed) - side[-1].stretch[1] for side in sides]
        laid = tuple(part for side in sides for part in side)
        halves = any(is_half(part.bed.piece) for part in laid) and not seam.is_centre
        if not halves and opening & {part.bed.piece.hand for part in laid}:
            continue
        found.append(Bone(line, place, 2 if halves and not opening else 1, min(wholes), max(lows), max(highs), laid))
    return found


def _side(
    pattern: Pattern, chain: tuple[Span, ...], half_width: float, share: float, clearance: float
) -> list[LaidBone]:
    """The beds on one side of a seam, from the lowest up, each edge once; what lies above the limit has none."""
    first = pattern.edge(chain[0])
    upwards = chain if (chain[0].end > chain[0].start) == first.along_line else chain[::-1]
    pieces = {span.edge: pattern.piece(span.piece) for span in upwards}
    beds = [_edge_bed(piece, piece.edge(edge), half_width, share) for edge, piece in pieces.items()]
    return [_laid(bed, clearance) for bed in beds if _top(bed) > 0]


def _edge_bed(piece: Piece, edge: Edge, width: float, share: float, start: float = 0.0) -> Bed:
    """The strip of a width inside an edge, from `start` mm beside it, up to a share of the block's line."""
    low, high = edge.interval
    limit = edge.curve.length * (share - low) / (high - low) if share < high else None
    left, right = (start + width, -start) if edge.along_line else (-start, start + width)
    return Bed(piece, edge.line_curve, left, right, edge.line, limit)


def _at_edges(line: str, pattern: Pattern, half_width: float, clearance: float, share: float) -> list[Bone]:
    """Beside edges that open, and on folds: there half of the channel lies on the piece as it is drawn."""
    found = []
    opens = _opens(pattern, line)
    for piece, edge in pattern.pieces_on_line(line):
        if piece.layer != "outer" or (edge.kind == "seam" and not opens):
            continue
        folded, words = edge.kind == "fold", _words(pattern, line)
        start, beyond = (0.0, "") if folded else _start(pattern, piece, edge, 2 * half_width)
        bed = _edge_bed(piece, edge, half_width if folded else 2 * half_width, share, start)
        top, inner = _top(bed), bed.right if abs(bed.right) > abs(bed.left) else -bed.left
        walls = (inner,) if not start else (-bed.left, bed.right)
        if top > 0:
            part = _laid(bed, clearance, walls)
            place = f"on the {words} fold" if folded else f"beside the {words}{beyond}"
            count = 2 if is_half(piece) and not folded else 1
            found.append(Bone(line, place, count, top, part.stretch[0], top - part.stretch[1], (part,)))
    return found


def _start(pattern: Pattern, piece: Piece, edge: Edge, width: float) -> tuple[float, str]:
    """(how far from an edge a bone starts, mm; ` beyond the eyelets` where it finds no room before them, or empty)."""
    kinds = {closure.kind for closure in pattern.closures if closure.place == edge.line}
    start = max((STARTS.get(kind, 0.0) for kind in kinds), default=0.0)
    eyelets = [edge.curve.nearest(mark.at)[1] for mark in piece.marks if mark.kind == "eyelet"]
    if eyelets and min(eyelets) < start + width + MARK_ROOM:
        return max(eyelets) + BEYOND_EYELETS, " beyond the eyelets"
    return start, ""


def _at_guides(line: str, pattern: Pattern, half_width: float, clearance: float) -> list[Bone]:
    """On a centre line that is drawn inside a whole piece."""
    found = []
    for piece in pattern.pieces:
        inside = piece.inside_line(line)
        if inside is None or inside.kind != "guide" or piece.layer != "outer":
            continue
        curve = inside.curve if inside.curve.chord[1] > 0 else inside.curve.reversed()
        part = _laid(Bed(piece, curve, half_width, half_width), clearance, (-half_width, half_width))
        ends = part.stretch[0], curve.length - part.stretch[1]
        count = 2 if is_half(piece) else 1
        found.append(Bone(line, f"on the {_words(pattern, line)}", count, curve.length, *ends, (part,)))
    return found


def _laid(bed: Bed, clearance: float, walls: tuple[float, ...] = ()) -> LaidBone:
    return LaidBone(bed, bed.stretch(clearance) or (0.0, 0.0), walls)


def _top(bed: Bed) -> float:
    return bed.path.length if bed.limit is None else bed.limit


def _limit(line: str, block: Pattern, up_to: Height | None) -> float:
    """The share of the block's line where bones end at most; a line that is not the block's has no limit."""
    chart = half_chart(block)
    if line not in (upright.line for upright in chart.uprights):
        return float("inf")
    if up_to is None:
        return 1.0
    number = chart.index(line)
    return arc_on(chart, number, up_to) / chart.uprights[number].length


def _opens(pattern: Pattern, line: str) -> bool:
    """Whether an edge on the line opens, or a part of it does."""
    closed = {span.edge for seam in pattern.seams if seam.kind == "closure" for span in seam.a + seam.b}
    return any(edge.kind == "opening" or edge.id in closed for _, edge in pattern.pieces_on_line(line))


def _edges(pattern: Pattern, seam: Seam) -> list[Edge]:
    return [pattern.edge(span) for span in seam.a + seam.b]


def _words(pattern: Pattern, line: str) -> str:
    return next((known.label.lower() for known in pattern.lines if known.id == line), spoken(line))
