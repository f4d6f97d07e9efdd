"""Pieces off paper from the outlines of a drawing and what lies in them."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely

from panelwright.errors import GeometryError, InputError
from panelwright.geometry.curve import Curve
from panelwright.intake.drawing_edges import outline_edges
from panelwright.intake.drawing_fit import CurveFitter
from panelwright.intake.drawing_inside import Content, Inside, inside_of
from panelwright.intake.drawing_limits import MOST_PIECES
from panelwright.intake.drawing_outline import Found, Outlines
from panelwright.intake.drawing_reading import Guess
from panelwright.intake.drawing_role import Role, role_of
from panelwright.intake.drawing_stroke import Dot, GroupName, LinesRead, Stroke, Written
from panelwright.intake.drawn_edge import DrawnEdge
from panelwright.intake.drawn_piece import DrawnPiece

# What lies no farther outside its piece still belongs to it, mm.
_BESIDE: Final = 15.0
_ON_FOLD: Final = 0.3
_CODE: Final = re.compile(r"\(([^()]{1,24})\)\s*$")
_PIECE_NAME: Final = re.compile(r"piece name\s*:\s*(.+)", re.IGNORECASE)


@dataclass(frozen=True, eq=False)
class Pieces:
    """The pieces, and what was guessed about each."""

    drawn: tuple[DrawnPiece, ...]
    guesses: tuple[Guess, ...]


def make_pieces(lines: LinesRead, outlines: Outlines, roles: Mapping[str, Role]) -> Pieces:
    """Every outlined piece with its edges, names and content.

    Raises:
        InputError: if there are too many, or one cannot be a piece.
    """
    if len(outlines.pieces) > MOST_PIECES:
        raise InputError(
            f"the drawing has {len(outlines.pieces)} pieces, more than {MOST_PIECES}: save a part of them at a time"
        )
    fitter = CurveFitter()
    contents = _contents(lines, outlines, roles)
    drawn: list[DrawnPiece] = []
    guesses: list[Guess] = []
    taken: set[str] = set()
    for found, content in zip(outlines.pieces, contents, strict=True):
        id, label, why = _named(found, content, lines.groups, taken, len(drawn) + 1)
        edges = _edges(found, id, content.strokes, roles, fitter)
        inside = inside_of(found, edges, content, roles, fitter)
        drawn.append(DrawnPiece(id, label, edges, inside.grain, inside.lines, inside.notches, inside.marks))
        guesses += _told(found, id, why, inside)
    guesses += _single_lines(outlines.pieces, drawn)
    return Pieces(tuple(drawn), tuple(guesses))


def _edges(
    found: Found, id: str, strokes: Sequence[Stroke], roles: Mapping[str, Role], fitter: CurveFitter
) -> tuple[DrawnEdge, ...]:
    try:
        curves = outline_edges(found.outline.line, fitter)
    except GeometryError as error:
        raise InputError(f"piece {id}: {error}; mend the drawing", id) from error
    if curves is None:
        raise InputError(f"piece {id} has too few corners: mend the drawing", id)
    corners = np.concatenate([curve.polyline(0.2)[:-1] for curve in curves])
    if len(corners) < 3:
        raise InputError(f"piece {id} is a line there and back, which encloses nothing: mend the drawing", id)
    ring = shapely.LinearRing(corners)
    if not ring.is_valid or not ring.is_simple:
        reason = re.search(r"\[(\S+) (\S+)\]", shapely.is_valid_reason(shapely.Polygon(ring)))
        where = f" near x {float(reason[1]):.0f}, y {float(reason[2]):.0f} mm" if reason else ""
        raise InputError(f"piece {id}: its outline crosses itself{where}; mend the drawing", id)
    folds = [stroke for stroke in strokes if stroke.is_straight and role_of(stroke.names, roles) == "fold"][:20]
    near = [shapely.LineString([stroke.start, stroke.end]) for stroke in folds]
    return tuple(DrawnEdge(curve, "fold" if _is_on(curve, near) else None) for curve in curves)


def _is_on(curve: Curve, folds: list[shapely.LineString]) -> bool:
    places = shapely.points(curve.polyline(0.2)[[0, -1]])
    middle = shapely.Point(curve.point(curve.length / 2))
    return any(
        bool((shapely.distance(fold, places) < _ON_FOLD).all()) and fold.distance(middle) < _ON_FOLD for fold in folds
    )


def _contents(lines: LinesRead, outlines: Outlines, roles: Mapping[str, Role]) -> list[Content]:
    """What belongs to each piece: by its group where that holds one piece, else by where it lies."""
    finder = _Finder(outlines.pieces)
    strokes = [
        stroke
        for stroke in (*outlines.open, *outlines.small, *outlines.holes)
        if role_of(stroke.names, roles) not in ("leave", "cut", "stitch")
    ]
    own_strokes: list[list[Stroke]] = [[] for _ in outlines.pieces]
    own_dots: list[list[Dot]] = [[] for _ in outlines.pieces]
    own_texts: list[list[Written]] = [[] for _ in outlines.pieces]
    middles = [tuple(stroke.middle.tolist()) for stroke in strokes]
    for k, owner in enumerate(finder.owners([stroke.group for stroke in strokes], middles)):
        if owner is not None:
            own_strokes[owner].append(strokes[k])
    for k, owner in enumerate(finder.owners([dot.group for dot in lines.dots], [dot.at for dot in lines.dots])):
        if owner is not None and role_of(lines.dots[k].names, roles) != "leave":
            own_dots[owner].append(lines.dots[k])
    for k, owner in enumerate(finder.owners([text.group for text in lines.texts], [text.at for text in lines.texts])):
        if owner is not None and role_of(lines.texts[k].names, roles) != "leave":
            own_texts[owner].append(lines.texts[k])
    return [Content(*each) for each in zip(own_strokes, own_dots, own_texts, strict=True)]


class _Finder:
    """Finds the piece that something belongs to."""

    def __init__(self, pieces: Sequence[Found]) -> None:
        self._sizes = [piece.outer.size for piece in pieces]
        self._tree = shapely.STRtree([piece.outer.area for piece in pieces])
        self._in_group: dict[str, list[int]] = {}
        for k, piece in enumerate(pieces):
            if piece.outer.line.group:
                self._in_group.setdefault(piece.outer.line.group, []).append(k)

    def owners(self, groups: Sequence[str], places: Sequence[tuple[float, ...]]) -> list[int | None]:
        """The piece of each thing, by its group and where it lies; None where it lies at none."""
        near: list[list[int]] = [[] for _ in groups]
        if places:
            points = shapely.points(np.array(places))
            for thing, piece in self._tree.query(points, predicate="dwithin", distance=_BESIDE).T.tolist():
                near[thing].append(piece)
        return [self._owner(group, at) for group, at in zip(groups, near, strict=True)]

    def _owner(self, group: str, near: list[int]) -> int | None:
        own = self._relatives(group)
        if len(own) == 1:
            return own[0]
        fitting = [k for k in near if k in own] if own else near
        return min(fitting, key=lambda k: self._sizes[k], default=None)

    def _relatives(self, group: str) -> list[int]:
        """The pieces of the group, or else of the nearest group round it that has any."""
        while group:
            if group in self._in_group:
                return self._in_group[group]
            group = group.rpartition("/")[0]
        return []


def _named(
    found: Found, content: Content, groups: Mapping[str, GroupName], taken: set[str], number: int
) -> tuple[str, str, str]:
    """(id, label, why) of a piece: from its block or group, else from what is written in it, else a number."""
    group = groups.get(found.outer.line.group, GroupName())
    told = next((match[1] for text in content.texts if (match := _PIECE_NAME.match(text.text))), "")
    words = [text.text for text in content.texts if _is_name(text.text)]
    label = told or group.words or (words[0] if words else "")
    code = _CODE.search(label)
    id = group.short or (code[1] if code else "") or _short(label)
    why = "so its block or group is called" if group.short else "so it is written in the piece"
    if not id:
        id, why = f"piece-{number}", "nothing in the drawing names it"
    id, own = id[:40], 1
    plain = id
    while id in taken:
        own += 1
        id = f"{plain}-{own}"
    taken.add(id)
    return id, (label or group.short)[:80], why


def _is_name(text: str) -> bool:
    """Whether a text may be a piece's name: words, and not those of the grain, a fold or a count."""
    plain = text.lower()
    return bool(re.search(r"[^\W\d]{2}", plain)) and not re.match(
        r"(grain|cut|quantity|size|material|waist|hip)\b", plain
    )


def _short(label: str) -> str:
    return re.sub(r"[^\w]+", "-", label).strip("-")[:24]


def _told(found: Found, id: str, why: str, inside: Inside) -> list[Guess]:
    """What a person should know of a piece."""
    about = f"piece {id}"
    guesses = []
    if why.startswith("nothing"):
        guesses.append(Guess(about, id, why, sure=False))
    if found.outline.gap > 0:
        guesses.append(Guess(about, "closed", f"its outline was open by {found.outline.gap:.1f} mm", sure=False))
    if len(found.widths):
        guesses.append(_allowance(found, about))
    if inside.guessed_grain:
        guesses.append(Guess(about, "grain line", "the word stands beside this line", sure=False))
    if inside.left_out:
        guesses.append(
            Guess(about, f"{inside.left_out} lines left out", "they are too many or too short to be a pattern's")
        )
    return guesses


def _single_lines(pieces: Sequence[Found], drawn: Sequence[DrawnPiece]) -> list[Guess]:
    """What is to be asked about pieces that have one outline only: one question for all of them."""
    asked = [piece.id for piece, found in zip(drawn, pieces, strict=True) if not len(found.widths)]
    if not asked:
        return []
    who = "every piece" if len(asked) == len(drawn) else f"pieces {', '.join(asked[:8])}{' …' * (len(asked) > 8)}"
    others = any(found.stitch is not None for found in pieces)
    taken = "stitch line" if others else "stitch line or cut line"
    named = {found.outline.role for found in pieces if not len(found.widths)}
    why = "one outline is drawn, and nothing says which line it is"
    if named == {"cut"}:
        why = "one outline is drawn, on a layer of cut lines: say how wide the allowance in it is"
    elif named == {"stitch"}:
        return []
    return [Guess(who, taken, why, ("stitch", "cut"), sure=False)]


def _allowance(found: Found, about: str) -> Guess:
    low, usual, high = (float(np.percentile(found.widths, share)) for share in (2, 50, 98))
    width = f"{usual:.1f} mm" if high - low < 1.0 else f"{usual:.1f} mm ({low:.1f} to {high:.1f} mm)"
    named = found.stitch is not None and found.stitch.role == "stitch"
    why = "its layer says that the inner line is the stitch line" if named else "its two outlines run beside each other"
    return Guess(about, f"allowance of {width}", why, sure=named)
