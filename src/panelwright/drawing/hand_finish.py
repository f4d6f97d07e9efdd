"""The last steps of a hand sheet: allowances and notches, then what is cut and how often."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from typing import Final

import numpy as np

from panelwright.body.units import Unit
from panelwright.drawing.hand_names import line_name
from panelwright.drawing.hand_piece import HandPiece
from panelwright.drawing.hand_step import HandStep, Known, Passage
from panelwright.drawing.hand_told import FromCross
from panelwright.drawing.hand_words import TIMES, on_garment, on_paper, place_words
from panelwright.drawing.scale import QUARTER
from panelwright.finish.cut_piece import CutPiece, CuttingPattern
from panelwright.geometry.arrays import Array
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

ALLOWANCES: Final = "Allowances and notches"
CUTTING: Final = "Cutting"
_ALLOWANCES_ABOUT: Final = (
    "The lines so far are stitch lines. Draw the cut line outside them, at the same distance all along: slide the "
    "ruler along the stitch line and join the marks. A notch is a short line from the stitch line square to the cut "
    "line.",
    "A seam allowance is the same on both edges that are sewn together.",
)
_KEY: Final = "Bold: the cut line and the notches. Thin: the stitch line. Short dashes: levels."
_CUTTING_ABOUT: Final = (
    "Write on each piece its name, how often it is cut and in what, and the grain. Then cut the paper pieces out along "
    "the cut line and lay them on the blank cloth: grain lines along the selvage, fold edges on the fold.",
    "A quarter-scale drawing teaches and shows; nobody can wear it. Before good cloth is cut at full scale, measure "
    "again, make a toile and fit it standing, sitting and breathing deeply. Carry blades closed.",
)
_CORNERS: Final = {
    "fold_back": "fold the paper along the {line}, cut the side allowance through both layers, and open it again",
    "square": "end the allowance square to the {line}",
}


def allowance_step(cutting: CuttingPattern, known: Known, unit: Unit) -> HandStep:
    """Allowances, corners and notches, for each piece once; pieces that are alike share their words."""
    words: dict[tuple[str, ...], list[Piece]] = defaultdict(list)
    for piece, cut_piece in cutting.pieces:
        hand = known[piece.id][0]
        said = (
            *_allowances(piece, cut_piece, cutting.pattern, unit),
            *_corners(piece, cut_piece, cutting.pattern, hand),
        )
        words[*said, *_notches(cut_piece, hand, unit)].append(piece)
    passages = tuple(Passage(_head(pieces), said) for said, pieces in words.items())
    return HandStep(ALLOWANCES, _ALLOWANCES_ABOUT, passages, key=_KEY)


def cutting_step(cutting: CuttingPattern, known: Known, unit: Unit) -> HandStep:
    """How often each piece is cut, and its grain."""
    words: dict[tuple[str, ...], list[Piece]] = defaultdict(list)
    for piece, cut_piece in cutting.pieces:
        cuts = [f"{line}." for line in cut_piece.text if line.startswith("Cut ")]
        words[*cuts, _grain(piece, known[piece.id][0], unit)].append(piece)
    return HandStep(CUTTING, _CUTTING_ABOUT, tuple(Passage(_head(pieces), said) for said, pieces in words.items()))


def _head(pieces: Iterable[Piece]) -> str:
    *others, last = (f"{piece.id} ({piece.label[0].lower()}{piece.label[1:]})" for piece in pieces)
    return f"On {', '.join(others)} and {last}:" if others else f"On {last}:"


def _allowances(piece: Piece, cut_piece: CutPiece, pattern: Pattern, unit: Unit) -> Iterable[str]:
    lines: dict[float, dict[str, None]] = defaultdict(dict)
    for edge in piece.edges:
        lines[cut_piece.allowances[edge.id]][line_name(pattern.line(edge.line))] = None
    wide = {width: names for width, names in lines.items() if width > 0}
    if not wide:
        yield "No allowance: cut along the stitch line."
        return
    for width, names in wide.items():
        far = f"{on_paper(width / TIMES)} outside ({on_garment(width / TIMES, unit)} on the garment)"
        yield f"Draw the cut line {far} along the {_listed(names)}."
    if 0.0 in lines:
        yield f"No allowance along the {_listed(lines[0.0])}."


def _corners(piece: Piece, cut_piece: CutPiece, pattern: Pattern, hand: HandPiece) -> Iterable[str]:
    found: dict[str, dict[str, None]] = defaultdict(dict)
    for edge in piece.edges:
        style = cut_piece.corners.get(edge.id, "")
        letter = hand.letter_at(QUARTER.factor * edge.curve.end)
        sides = (edge, piece.after(edge))
        turned = next((side for side in sides if side.kind == "finished"), edge)
        if style in _CORNERS and letter and all(cut_piece.allowances[side.id] > 0 for side in sides):
            found[_CORNERS[style].format(line=line_name(pattern.line(turned.line)))][letter] = None
    for what, letters in found.items():
        yield f"At {'corners' if len(letters) > 1 else 'corner'} {_listed(letters)} {what}."


def _notches(cut_piece: CutPiece, hand: HandPiece, unit: Unit) -> Iterable[str]:
    for notch in cut_piece.notches:
        at = QUARTER.factor * np.array(notch.at)
        name = "single notch" if notch.count == 1 else "double notch"
        yield f"Draw a {name}: {place_words(hand.place(at), unit)}."


def _grain(piece: Piece, hand: HandPiece, unit: Unit) -> str:
    along = np.array(piece.grain.end) - np.array(piece.grain.start)
    along = along / np.hypot(*along)
    if abs(float(along @ hand.upright)) > np.cos(np.radians(0.5)):
        return "The grain runs along the upright line of the cross."
    ends = [_from_cross(QUARTER.factor * np.array(end), hand, unit) for end in (piece.grain.start, piece.grain.end)]
    return f"The grain line runs between two points: {ends[0]}; and {ends[1]}."


def _from_cross(point: Array, hand: HandPiece, unit: Unit) -> str:
    return place_words(FromCross(*hand.from_cross(point)), unit)


def _listed(names: Mapping[str, None]) -> str:
    *others, last = names
    return f"{', '.join(others)} and {last}" if others else last
