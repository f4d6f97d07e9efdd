"""Two pieces laid together along a seam: what does not fit becomes ease, or a dart in the outline."""

from dataclasses import replace
from typing import Final, Literal

import numpy as np

from panelwright.body.worded_length import length_words
from panelwright.design.back_dart import JoinGap
from panelwright.design.dart import dart_on, dart_seam, leg_ids
from panelwright.design.join import join_pieces
from panelwright.design.level_bridge import TOUCHING, bridged, facing
from panelwright.design.outline_point import OutlinePoint
from panelwright.design.position import Height, spoken
from panelwright.errors import DesignError, GeometryError
from panelwright.geometry.curve import Curve
from panelwright.geometry.placement import Placement
from panelwright.pattern.edge import Edge
from panelwright.pattern.line import Line
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, Span
from panelwright.pattern.spoken_piece import spoken_piece
from panelwright.pattern.working import Part, Working

LEAST_LAID: Final = 15.0  # mm of seam that must lie together beside a dart
LEAST_DART: Final = 2.0  # mm that a dart is open at its mouth


def joined_with_ease(pattern: Pattern, seam: Seam, first: str, uid: str) -> Pattern:
    """The pattern with the seam's pieces joined end on end; levels run across and state the fullness as ease.

    The widest gap between the edges stands among the workings as `<uid>/misfit`.

    Raises:
        DesignError: as `join_pieces` says.
    """
    keeper, other = _sides(pattern, seam, first)
    label = _label(keeper, other)
    joined = join_pieces(pattern, seam.id, first, label)
    joined = _levels_across(joined, keeper, joined.piece(first))
    gap = _widest(pattern, seam, first)
    what = f"Where {_small(keeper)} and {_small(other)} are joined"
    way = "eased in, where their edges stand farthest apart" if gap >= 0 else "lost, where they lap farthest"
    part = Part(way, gap)
    return replace(joined, workings=(*joined.workings, Working(f"{uid}/misfit", what, (part,))))


def joined_with_dart(
    pattern: Pattern, seam: Seam, first: str, point: Height, opens: Literal["down", "up"], line: Line
) -> Pattern:
    """The pattern with the seam's pieces laid together on one side of a point, and a dart on the other.

    The legs of the dart are the two edges as they were.

    Args:
        pattern: any pattern.
        seam: of one edge on either side.
        first: code of the piece that stays.
        point: of the dart, where a level meets the seam.
        opens: which way from its point.
        line: of the dart.

    Raises:
        DesignError: if the point is not on the seam, less than 15 mm would be laid together, the panels lap over each
            other where the dart should open, or as `join_pieces` says.
    """
    keeper, other = _sides(pattern, seam, first)
    (ours,), (theirs,) = (_edges(pattern, seam, piece) for piece in (keeper, other))
    share = _share(keeper, ours, point)
    divided, laid = _divided(pattern, seam, (keeper, ours), (other, theirs), share, opens, line)
    label = _label(keeper, other)
    lapped = DesignError(
        f"{spoken_piece(keeper)} and {spoken_piece(other)} lap over each other where the dart should open; let it "
        "open the other way, move its point, or end the pieces before they lap (a hem at the waist)",
        first,
    )
    try:
        joined = join_pieces(divided, laid, first, label, anchor=_point_end(divided, laid, opens), guides=False)
    except DesignError as error:
        raise (lapped if isinstance(error.__cause__, GeometryError) else error) from error
    sewn = tuple(dart_seam(first, line.id, seam.region) if each.id == line.id else each for each in joined.seams)
    joined = replace(joined, seams=sewn)
    dart = dart_on(joined, line.id)
    if dart.value <= 0 or dart.width < LEAST_DART or not dart.piece.outline.is_valid:
        raise lapped
    ease = dart.second.curve.length - dart.first.curve.length
    if abs(ease) > TOUCHING:
        eased = tuple(replace(each, ease=ease) if each.id == line.id else each for each in joined.seams)
        joined = replace(joined, seams=eased)
    return _levels_across(joined, keeper, joined.piece(first), touching=point)


def _sides(pattern: Pattern, seam: Seam, first: str) -> tuple[Piece, Piece]:
    names = list(dict.fromkeys(span.piece for span in seam.a + seam.b))
    if len(names) != 2:
        raise DesignError(
            f"the {spoken(seam.id)} seam joins {len(names)} pieces; join those on one side of it first", seam.id
        )
    (second,) = [name for name in names if name != first]
    return pattern.piece(first), pattern.piece(second)


def _edges(pattern: Pattern, seam: Seam, piece: Piece) -> tuple[Edge, ...]:
    chain = seam.a if seam.a[0].piece == piece.id else seam.b
    others = [
        each for each in pattern.seams if each.id != seam.id and chain[0].edge in {s.edge for s in each.a + each.b}
    ]
    if len(chain) != 1 or chain[0].share < 1.0 or others:
        raise DesignError(
            f"the {spoken(seam.id)} seam is cut or something else is sewn to it, so no dart can be left in it; put "
            "this step before that",
            seam.id,
        )
    return (piece.edge(chain[0].edge),)


def _share(piece: Piece, edge: Edge, point: Height) -> float:
    """Share of an edge, up its line, at a height."""
    if point.share:
        raise DesignError("give the dart's point as a level and a length from it", point.level)
    side: Literal["left", "right"] = "left" if edge.id.endswith("/left") else "right"
    place = OutlinePoint(edge.line, level=point.level, offset=point.offset, side=side).on(piece)
    arc = place.arc if edge.along_line else edge.curve.length - place.arc
    return arc / edge.curve.length


def _divided(
    pattern: Pattern,
    seam: Seam,
    ours: tuple[Piece, Edge],
    theirs: tuple[Piece, Edge],
    share: float,
    opens: Literal["down", "up"],
    line: Line,
) -> tuple[Pattern, str]:
    """The pattern with both edges of the seam cut at the dart's point, and the id of the seam that is laid together."""
    piece, edge = ours
    open_first = edge.along_line == (opens == "down")
    ids = leg_ids(piece.id, line.id)
    mine, other = ids if open_first else ids[::-1]
    pieces = []
    for (each, old), leg, leads in ((ours, mine, open_first), (theirs, other, not open_first)):
        pieces.append(_with_leg(each, old, leg, share if opens == "down" else 1 - share, leads, line.id))
    closed_length = min(edge.curve.length, theirs[1].curve.length) * (1 - share if opens == "down" else share)
    if closed_length < LEAST_LAID:
        raise DesignError(
            f"only {length_words(max(closed_length, 0.0))} of the {spoken(seam.id)} seam would be laid together; "
            f"leave at least {length_words(LEAST_LAID)} beside the dart's point",
            seam.id,
        )
    owners = {mine: piece.id, other: theirs[0].id}
    legs = Seam(
        line.id, "join", (Span(owners[ids[0]], ids[0]),), (Span(owners[ids[1]], ids[1], 1.0, 0.0),), seam.region
    )
    divided = replace(pattern, seams=(), lines=(*pattern.lines, line)).with_pieces(*pieces)
    laid = _eased(divided, seam)
    return replace(divided, seams=(*(laid if each.id == seam.id else each for each in pattern.seams), legs)), seam.id


def _eased(divided: Pattern, seam: Seam) -> Seam:
    ease = divided.chain_length(seam.b) - divided.chain_length(seam.a) * seam.ratio
    return replace(seam, ease=ease if abs(ease) > TOUCHING else 0.0)


def _with_leg(piece: Piece, edge: Edge, leg: str, share: float, leads: bool, line: str) -> Piece:
    """The piece with `share` of an edge made a leg of the dart; it leads when the outline meets it first."""
    length = edge.curve.length
    if not LEAST_LAID / length < share:
        raise DesignError(
            f"the dart would be {length_words(max(share, 0.0) * length)} long; leave it at least "
            f"{length_words(LEAST_LAID)}",
            piece.id,
        )
    at = share * length if leads else (1 - share) * length
    low, high = edge.part(0.0, at), edge.part(at, length)
    cut = low if leads else high
    opened = Edge(leg, line, "left" if leads else "right", "seam", cut.curve, pointed_end=cut.pointed_end)
    both = (opened, high) if leads else (low, opened)
    k = piece.index(edge.id)
    return replace(piece, edges=(*piece.edges[:k], *both, *piece.edges[k + 1 :]))


def _point_end(pattern: Pattern, seam: str, opens: Literal["down", "up"]) -> Literal["start", "end"]:
    """At which end of the laid seam the dart's point lies."""
    span = pattern.seam(seam).a[0]
    upwards = (span.end > span.start) == pattern.edge(span).along_line
    return "start" if upwards == (opens == "down") else "end"


def _levels_across(joined: Pattern, keeper: Piece, piece: Piece, touching: Height | None = None) -> Pattern:
    """Level lines of both pieces drawn through, but for those that end on the legs of a dart."""
    own = {line.id for line in keeper.inside}
    ours = [line.id for line in piece.inside if line.id in own]
    theirs = [line.id for line in piece.inside if line.id not in own]
    bridges = facing(piece, ours, theirs)
    if touching is not None:
        legs = [edge.curve for edge in piece.edges if edge.line.endswith("/dart")]
        bridges = tuple(
            bridge
            for bridge in bridges
            if _apart(piece, bridge.left, bridge.right) < TOUCHING or not _on_legs(piece, bridge.left, legs)
        )
    return bridged(joined, piece.id, bridges)


def _apart(piece: Piece, left: str, right: str) -> float:
    one, other = piece.inside_line(left), piece.inside_line(right)
    return float(np.linalg.norm(other.curve.start - one.curve.end)) if one and other else np.inf


def _on_legs(piece: Piece, line: str, legs: list[Curve]) -> bool:
    found = piece.inside_line(line)
    return found is not None and any(leg.nearest(found.curve.end)[1] < TOUCHING for leg in legs)


def _widest(pattern: Pattern, seam: Seam, first: str) -> float:
    """Where the two edges stand farthest apart when they are laid end on end, mm; below 0 where they lap."""
    ours, theirs = (seam.a, seam.b) if seam.a[0].piece == first else (seam.b, seam.a)
    if len(ours) != 1 or len(theirs) != 1:
        return 0.0
    curves = [pattern.span_curve(chain[0]) for chain in (ours, theirs)]
    wanted, moved = curves[0].chord, curves[1]
    middle = (moved.start + moved.end) / 2
    placement = Placement.carrying(middle, moved.chord, (curves[0].start + curves[0].end) / 2, wanted)

    gap = JoinGap("", curves[0], moved.placed(placement)).widest
    inside_left = ours[0].end > ours[0].start

    return -gap if inside_left else gap


def _label(keeper: Piece, other: Piece) -> str:
    return f"{keeper.label} with {_small(other)}"


def _small(piece: Piece) -> str:
    return piece.label[:1].lower() + piece.label[1:]
