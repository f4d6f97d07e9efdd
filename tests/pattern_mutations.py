"""Ways to spoil the plain cutting pattern, each breaking one thing; for the tests of checks.

A mutation takes a cutting pattern and gives the spoilt one. Where an outline changes, the cut lines are drawn
again, so that nothing but the outline is at fault.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from plain_cutting_pattern import cutting_pattern
from scipy.optimize import brentq

from panelwright.finish.cut_piece import Cut, CutPiece, CutSpan, CuttingPattern
from panelwright.geometry.arrays import unit
from panelwright.geometry.curve import Curve
from panelwright.geometry.placement import Placement
from panelwright.pattern.closure import Closure
from panelwright.pattern.edge import Edge
from panelwright.pattern.level import Level
from panelwright.pattern.mark import Grain, Mark
from panelwright.pattern.notion import Notion
from panelwright.pattern.pattern import Pattern, StepRecord
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Notch, Seam

ZIP = Closure("s", "centre-back", "zip", "", "centre", "centre-back", 0.0, 300.0)
Mutation = Callable[[CuttingPattern], CuttingPattern]


# What to change: one piece, its cutting side, a seam, a level, a notch.


def pattern_of(change: Callable[[Pattern], Pattern]) -> Mutation:
    return lambda cutting: replace(cutting, pattern=change(cutting.pattern))


def piece(id: str, change: Callable[[Piece], Piece], redraw: bool = True) -> Mutation:
    """Change a piece; with `redraw` the cutting side is made again."""

    def mutate(cutting: CuttingPattern) -> CuttingPattern:
        pattern = cutting.pattern.with_pieces(change(cutting.pattern.piece(id)))
        return cutting_pattern(pattern) if redraw else replace(cutting, pattern=pattern)

    return mutate


def field(id: str, /, **values: object) -> Mutation:
    """Set fields of a piece; the cutting side stays."""
    return piece(id, lambda own: replace(own, **values), redraw=False)


def edge(id: str, change: Callable[[Edge], Edge], redraw: bool = True) -> Mutation:
    owner = id.partition(".")[0]
    return piece(
        owner, lambda own: replace(own, edges=tuple(change(e) if e.id == id else e for e in own.edges)), redraw
    )


def cut(id: str, change: Callable[[CutPiece], CutPiece]) -> Mutation:
    return lambda cutting: replace(cutting, cut={**cutting.cut, id: change(cutting.cut[id])})


def cut_field(id: str, /, **values: object) -> Mutation:
    return cut(id, lambda own: replace(own, **values))


def seam(id: str, change: Callable[[Seam], Seam]) -> Mutation:
    return pattern_of(lambda p: replace(p, seams=tuple(change(s) if s.id == id else s for s in p.seams)))


def level(id: str, change: Callable[[Level], Level]) -> Mutation:
    return pattern_of(lambda p: replace(p, levels=tuple(change(v) if v.id == id else v for v in p.levels)))


def level_field(id: str, /, **values: object) -> Mutation:
    return level(id, lambda own: replace(own, **values))


def notch(id: str, change: Callable[[Notch], Notch]) -> Mutation:
    return lambda c: replace(c, notches=tuple(change(n) if n.id == id else n for n in c.notches))


def notch_field(id: str, /, **values: object) -> Mutation:
    return notch(id, lambda own: replace(own, **values))


def both(*mutations: Mutation) -> Mutation:
    def mutate(cutting: CuttingPattern) -> CuttingPattern:
        for mutation in mutations:
            cutting = mutation(cutting)
        return cutting

    return mutate


# How to change it.


def turned(vector: np.ndarray, degrees: float) -> np.ndarray:
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return np.array([c * vector[0] - s * vector[1], s * vector[0] + c * vector[1]])


def swing(id: str, at_end: bool, degrees: float) -> Mutation:
    """Turn an edge's end tangent about its corner."""

    def change(own: Edge) -> Edge:
        points = own.curve.points
        k, corner = (-2, points[-1]) if at_end else (1, points[0])
        points[k] = corner + turned(points[k] - corner, degrees)
        return replace(own, curve=Curve.from_points(points))

    return edge(id, change)


def lengthen(id: str, by: float) -> Mutation:
    """Bulge an edge softly until its arc is `by` mm longer; its end tangents stay."""

    def change(own: Edge) -> Edge:
        points = own.curve.points
        # A bulge sin² of the height; each handle moves with its knot's value and slope, so that no kink arises.
        knots = np.repeat(np.arange(0, len(points), 3), 3)[1:-1]
        y, y_knot = points[:, 1], points[knots, 1]
        u = math.pi * (y_knot - y[0]) / (y[-1] - y[0])
        swell = np.sin(u) ** 2 + np.sin(2 * u) * math.pi / (y[-1] - y[0]) * (y - y_knot)

        def swollen(amount: float) -> Curve:
            return Curve.from_points(points + np.column_stack([swell, 0 * swell]) * amount)

        way = max((40.0, -40.0), key=lambda amount: swollen(amount).length)
        amount = brentq(lambda share: swollen(share * way).length - own.curve.length - by, 0.0, 1.0, xtol=1e-12)
        return replace(own, curve=swollen(amount * way))

    return edge(id, change)


def bend(id: str, by: float) -> Mutation:
    """Push the middle of a straight edge `by` mm off its chord, into the piece; its end tangents stay."""

    def change(own: Edge) -> Edge:
        points = own.curve.points
        middle = len(points) // 2
        points[middle - 1 : middle + 2, 0] -= by
        return replace(own, curve=Curve.from_points(points))

    return edge(id, change)


def turn_grain(id: str, degrees: float) -> Mutation:
    def change(own: Piece) -> Piece:
        middle = np.add(own.grain.start, own.grain.end) / 2
        half = turned(own.grain.vector / 2, degrees)
        return replace(own, grain=Grain(tuple(middle - half), tuple(middle + half)))

    return piece(id, change, redraw=False)


def shorten_grain(id: str, share: float) -> Mutation:
    """Leave a share of the piece's height, from the grain line's lower end up."""

    def change(own: Piece) -> Piece:
        _, low, _, high = own.outline.bounds
        x, y = own.grain.start
        return replace(own, grain=Grain((x, y), (x, y + share * (high - low))))

    return piece(id, change, redraw=False)


def move_grain(id: str, dx: float) -> Mutation:
    def change(own: Piece) -> Piece:
        return replace(own, grain=own.grain.placed(Placement(x=dx)))

    return piece(id, change, redraw=False)


def tiny_edge(id: str, points: np.ndarray) -> Mutation:
    """Put one more edge, `points` from its start, at the start of the piece's top edge."""

    def change(own: Piece) -> Piece:
        top = own.on_line("top")[0]
        start = top.curve.start
        extra = replace(top, id=f"{id}.extra", curve=Curve.from_points(start + points))
        rest = replace(top, curve=top.curve.ending_at(start=start + points[-1]))
        k = own.index(top.id)
        return replace(own, edges=(*own.edges[:k], extra, rest, *own.edges[k + 1 :]))

    def mutate(cutting: CuttingPattern) -> CuttingPattern:
        spoilt = piece(id, change, redraw=False)(cutting)
        own = spoilt.cut[id]
        widths = {**own.allowances, f"{id}.extra": own.allowances[f"{id}.top"]}
        corners = {**own.corners, f"{id}.extra": own.corners[f"{id}.top"]}
        return cut_field(id, allowances=widths, corners=corners)(spoilt)

    return mutate


def pull_cut_line(id: str, by: float) -> Mutation:
    """Move the cut line towards the middle of an edge by `by` mm, over some 30 mm."""
    owner = id.partition(".")[0]

    def mutate(cutting: CuttingPattern) -> CuttingPattern:
        curve = cutting.pattern.piece(owner).edge(id).curve
        middle = curve.point(curve.length / 2)

        def change(own: CutPiece) -> CutPiece:
            line = own.cut_line.copy()
            reach = middle - line
            near = np.hypot(*reach.T) < 18
            line[near] += by * unit(reach[near])
            return replace(own, cut_line=line)

        return cut(owner, change)(cutting)

    return mutate


def cut_points(id: str, change: Callable[[np.ndarray], np.ndarray]) -> Mutation:
    return cut(id, lambda own: replace(own, cut_line=change(own.cut_line.copy())))


def swapped(line: np.ndarray) -> np.ndarray:
    line[[50, 150]] = line[[150, 50]]
    return line


def shrunk(line: np.ndarray) -> np.ndarray:
    middle = line.mean(axis=0)
    return middle + 0.8 * (line - middle)


def over_fold(by: float) -> Mutation:
    return cut_points("CF", lambda line: line + np.column_stack([np.where(line[:, 0] > -1, by, 0.0), 0 * line[:, 1]]))


def allow(id: str, width: float) -> Mutation:
    """State another allowance of an edge; the cut line stays."""
    owner = id.partition(".")[0]
    return cut(owner, lambda own: replace(own, allowances={**own.allowances, id: width}))


def turn_chain(own: Seam) -> Seam:
    return replace(own, b=tuple(replace(span, start=span.end, end=span.start) for span in own.b))


def cut_short(own: Seam) -> Seam:
    """Sew all but the last tenth."""
    a, b = own.a[0], own.b[0]
    return replace(own, a=(replace(a, end=0.1),), b=(replace(b, end=0.9),))


def without_seam(id: str) -> Mutation:
    def mutate(cutting: CuttingPattern) -> CuttingPattern:
        pattern = cutting.pattern
        pattern = replace(pattern, seams=tuple(s for s in pattern.seams if s.id != id))
        return replace(cutting, pattern=pattern, notches=tuple(n for n in cutting.notches if n.seam != id))

    return mutate


def with_steps(*steps: StepRecord) -> Mutation:
    return pattern_of(lambda p: replace(p, steps=steps))


def side_notch(place: float, at: str | None = None) -> Mutation:
    return notch_field("side/1", at_a=place, at_b=place, level=at)


def near_waist_notch(apart: float) -> Mutation:
    """The side seam's notch `apart` mm of seam above the notch of the front princess seam at the waist."""

    def mutate(cutting: CuttingPattern) -> CuttingPattern:
        other = next(n for n in cutting.notches if n.id == "front-princess/waist")
        return side_notch(other.at_a + apart)(cutting)

    return mutate


def eased(taken: float) -> Mutation:
    """The back princess seam with 4 mm more on the side back, `taken` mm of it up to the waist notch."""

    def mutate(cutting: CuttingPattern) -> CuttingPattern:
        longer = lengthen("CB.back-princess", 4.0)(cutting)
        stated = seam("back-princess", lambda own: replace(own, ease=4.0))(longer)
        stated = notch("back-princess/waist", lambda n: replace(n, at_b=n.at_a + taken))(stated)
        return notch("back-princess/underbust", lambda n: replace(n, at_b=n.at_a + 4.0))(stated)

    return mutate


@dataclass(frozen=True)
class Spoilt:
    """A mutation, the codes that it should give and the number of the rule that it breaks."""

    mutation: Mutation
    codes: frozenset[str]
    rule: int


def spoilt(rule: int, mutation: Mutation, *codes: str) -> Spoilt:
    return Spoilt(mutation, frozenset(codes), rule)


LOOP = np.array([(0, 0), (-0.085, 0.035), (0.065, 0.035), (-0.02, 0)])
HAIR = np.array([(0, 0), (0, 2e-6), (-2.5e-7, 2e-6), (-5e-7, 0)])
NAN = float("nan")

# In fields that are ours beyond the contract, which an outside checker passes over.
BESIDE = {
    "two closures of one step": spoilt(1, pattern_of(lambda p: replace(p, closures=(ZIP, ZIP))), "id-twice"),
    "closure of no seam": spoilt(
        1, pattern_of(lambda p: replace(p, closures=(replace(ZIP, seam="sleeve"),))), "unknown-reference"
    ),
    "notion of no step": spoilt(
        1, pattern_of(lambda p: replace(p, notions=(Notion("hook", "hook", 6, step="s9"),))), "unknown-reference"
    ),
    "notion of no working": spoilt(
        1, pattern_of(lambda p: replace(p, notions=(Notion("cord", "cord", 1, working="s9"),))), "unknown-reference"
    ),
}

MUTATIONS = {
    # 1: ids, references, numbers
    "two notches of one id": spoilt(1, notch_field("side/1", id="front-princess/bust"), "id-twice"),
    "two marks of one id": spoilt(1, field("CF", marks=(Mark("x", "drill", (-40, 0)),) * 2), "id-twice"),
    "two steps of one uid": spoilt(
        1, with_steps(StepRecord("s", "hem", "Hem"), StepRecord("s", "top", "Top")), "id-twice"
    ),
    "notch on no seam": spoilt(1, notch_field("side/1", seam="sleeve"), "unknown-reference"),
    "notch at no level": spoilt(1, notch_field("side/1", level="knee"), "unknown-reference"),
    "line of no step": spoilt(
        1, pattern_of(lambda p: replace(p, lines=(replace(p.lines[0], origin="s9"), *p.lines[1:]))), "unknown-reference"
    ),
    "piece derived from none": spoilt(1, field("SB", derived_from="SX"), "unknown-reference"),
    "cut span of another's edge": spoilt(
        1, cut("SB", lambda c: replace(c, spans=(CutSpan("SF.hem", 0, 3), *c.spans[1:]))), "unknown-reference"
    ),
    "cut span past the cut line": spoilt(
        1, cut("SB", lambda c: replace(c, spans=(replace(c.spans[0], last=9999), *c.spans[1:]))), "unknown-reference"
    ),
    "piece without a label": spoilt(1, field("SB", label=""), "text-missing"),
    "wearer without a reference": spoilt(1, pattern_of(lambda p: replace(p, wearer="")), "text-missing"),
    "cut line that is no number": spoilt(1, cut_points("SB", lambda line: np.vstack([line, [NAN, 0.0]])), "bad-number"),
    "grain that is no number": spoilt(1, field("SB", grain=Grain((NAN, 0.0), (50.0, 90.0))), "bad-number"),
    "mark at infinity": spoilt(1, field("SB", marks=(Mark("x", "drill", (math.inf, 0)),)), "bad-number"),
    "infinite girth": spoilt(1, level_field("waist", body_girth=math.inf), "bad-number"),
    "gap below 0": spoilt(1, level_field("waist", gap=-40.0, ease=-20.0), "bad-number"),
    # 2: outline
    "two corners in one place": spoilt(2, tiny_edge("SF", HAIR), "corner-twice"),
    "a loop too small for the piece to notice": spoilt(2, tiny_edge("SF", LOOP), "outline-crosses"),
    "centre front off x = 0": spoilt(2, piece("CF", lambda p: p.placed(Placement(x=-5.0))), "centre-front-place"),
    # 3: girths
    "body girth 2 mm off": spoilt(3, level("bust", lambda v: replace(v, body_girth=v.body_girth + 2)), "level-girth"),
    "panel missing in a level": spoilt(3, level("waist", lambda v: replace(v, path=v.path[:3])), "level-girth"),
    "gap not taken off": spoilt(3, level_field("waist", gap=40.0), "level-girth"),
    "overlap not drawn": spoilt(3, level_field("waist", overlap=30.0), "level-girth"),
    "piece counted once": spoilt(
        3, level("waist", lambda v: replace(v, path=(replace(v.path[0], times=1), *v.path[1:]))), "level-girth"
    ),
    # 4: seams
    "edge 0.2 mm longer": spoilt(4, lengthen("SB.side", 0.2), "seam-length"),
    "ease not drawn": spoilt(4, seam("side", lambda s: replace(s, ease=0.5)), "seam-length"),
    "ratio not drawn": spoilt(4, seam("side", lambda s: replace(s, ratio=1.01)), "seam-length", "notch-place"),
    "chain turned": spoilt(4, seam("side", turn_chain), "seam-ends"),
    "edge in no seam": spoilt(4, without_seam("side"), "unsewn-edge"),
    "edge sewn in part": spoilt(4, seam("side", cut_short), "unsewn-edge"),
    "edge joined twice": spoilt(
        4, pattern_of(lambda p: replace(p, seams=(*p.seams, replace(p.seams[0], id="front-again")))), "sewn-twice"
    ),
    # 5: notches
    "notch shifted on one side": spoilt(
        5, notch("front-princess/bust", lambda n: replace(n, at_b=n.at_b + 0.5)), "notch-place"
    ),
    "more ease taken up than there is": spoilt(5, eased(4.5), "notch-place"),
    "ease taken up and given back": spoilt(
        5, both(eased(3.0), notch("back-princess/underbust", lambda n: replace(n, at_b=n.at_a + 2.0))), "notch-place"
    ),
    "notch off the seam": spoilt(5, notch_field("back-princess/waist", at_a=500.0, at_b=500.0), "notch-off-seam"),
    "double notch in front": spoilt(5, notch_field("front-princess/bust", count=2), "notch-count"),
    "single notch at the back": spoilt(5, notch_field("back-princess/waist", count=1), "notch-count"),
    "side notch at another's level": spoilt(5, side_notch(240.0, "bust"), "side-notch"),
    "side notch at another's place": spoilt(5, near_waist_notch(1.0), "side-notch"),
    # 6: folds and centres
    "fold bent": spoilt(6, bend("CF.centre-front", 0.9), "fold-straight"),
    "a hair of allowance on the fold": spoilt(6, allow("CF.centre-front", 0.05), "fold-allowance"),
    "grain not along the fold": spoilt(6, turn_grain("CF", 2), "fold-grain"),
    "neckline off at the fold": spoilt(6, swing("CF.top", False, 3), "fold-angle"),
    "hem off at the fold": spoilt(6, swing("CF.hem", True, -3), "fold-angle"),
    "hem off at centre back": spoilt(6, swing("CB.hem", False, 3), "centre-angle"),
    "top off at centre back": spoilt(6, swing("CB.top", True, 3), "centre-angle"),
    # 7: blend
    "hem kinks at the side": spoilt(7, swing("SF.hem", False, 3), "blend"),
    "top kinks at the back princess seam": spoilt(7, swing("SB.top", True, 1.5), "blend"),
    # 8: cut line
    "cut line pulled in": spoilt(8, pull_cut_line("SF.front-princess", 0.5), "allowance"),
    "cut line pushed out": spoilt(8, pull_cut_line("SB.top", -0.3), "allowance"),
    "cut line shifted": spoilt(8, cut_points("SB", lambda line: line + np.array([3.0, 0.0])), "allowance"),
    "cut line inside the outline": spoilt(8, cut_points("SB", shrunk), "allowance", "cut-line-inside"),
    "cut line crossing itself": spoilt(8, cut_points("SF", swapped), "cut-line-crosses"),
    "cut line beyond the fold": spoilt(8, over_fold(2.0), "beyond-fold", "allowance"),
    "allowance stated wrong": spoilt(8, allow("SB.hem", 9.0), "allowance"),
    "allowance stated wrong, no spans": spoilt(8, both(allow("SB.hem", 9.0), cut_field("SB", spans=())), "allowance"),
    # 9: grain
    "grain off the waist's square": spoilt(9, turn_grain("SF", 3), "grain"),
    "grain short": spoilt(9, shorten_grain("SB", 0.3), "grain-short"),
    "grain outside": spoilt(9, move_grain("SB", 70.0), "grain-outside"),
    # 10: how it is cut
    "a pair of three": spoilt(10, cut_field("SF", cuts=(Cut("outer", "pair", 3),)), "cut-count"),
    "a pair of none": spoilt(10, cut_field("SF", cuts=(Cut("outer", "pair", 0),)), "cut-count"),
    "one on the fold of none": spoilt(10, cut_field("CF", cuts=(Cut("outer", "fold", 0),)), "cut-count"),
    "panel cut single": spoilt(10, cut_field("SF", cuts=(Cut("outer", "single", 2),)), "cut-mode"),
    "fold cut as a pair": spoilt(10, cut_field("CF", cuts=(Cut("outer", "pair", 2),)), "cut-mode"),
    "one hand cut as a pair": spoilt(10, field("SF", hand="left"), "cut-mode"),
    "fold edge on a side piece": spoilt(
        10, both(field("CF", extent="one_side"), cut_field("CF", cuts=(Cut("outer", "pair", 2),))), "fold-edge"
    ),
    "half without a fold": spoilt(
        10, both(edge("CF.centre-front", lambda e: replace(e, kind="opening"), redraw=False)), "fold-edge"
    ),
    "not cut at all": spoilt(10, cut_field("SB", cuts=()), "not-cut"),
}

# (what is changed by an amount; within the limit; beyond it; the code). Limits as docs/pattern-file.md states them.
LIMITS: dict[str, tuple[Callable[[float], Mutation], float, float, str]] = {
    "girth 1 mm": (
        lambda x: level("bust", lambda v: replace(v, body_girth=v.body_girth + x)),
        0.95,
        1.05,
        "level-girth",
    ),
    "seam 0.05 mm": (lambda x: lengthen("SB.side", x), 0.045, 0.055, "seam-length"),
    "unsewn 0.05 mm": (
        lambda x: (
            seam("centre-back", lambda s: s)
            if x == 0
            else seam(
                "side",
                lambda s: replace(s, a=(replace(s.a[0], end=x / 402.98),), b=(replace(s.b[0], end=1 - x / 402.98),)),
            )
        ),
        0.04,
        0.06,
        "unsewn-edge",
    ),
    "notch 0.05 mm": (
        lambda x: notch("front-princess/bust", lambda n: replace(n, at_b=n.at_b + x)),
        0.045,
        0.055,
        "notch-place",
    ),
    "side notch 2 mm": (near_waist_notch, 2.05, 1.95, "side-notch"),
    "straight 0.2 mm": (lambda x: bend("CF.centre-front", x), 0.19, 0.21, "fold-straight"),
    "fold to grain 0.1°": (lambda x: turn_grain("CF", x), 0.09, 0.11, "fold-grain"),
    "fold 90° ± 1°": (lambda x: swing("CF.top", False, x), 0.95, 1.05, "fold-angle"),
    "fold 90° ± 1°, the other way": (lambda x: swing("CF.top", False, x), -0.95, -1.05, "fold-angle"),
    "centre 90° ± 1°": (lambda x: swing("CB.hem", False, x), 0.95, 1.05, "centre-angle"),
    "blend 180° ± 1°": (lambda x: swing("SF.hem", False, x), 0.95, 1.05, "blend"),
    "allowance 0.1 mm": (lambda x: pull_cut_line("SF.side", x), 0.075, 0.125, "allowance"),
    "allowance 0.1 mm, outwards": (lambda x: pull_cut_line("SF.side", x), -0.075, -0.125, "allowance"),
    "grain 1°": (lambda x: turn_grain("SF", x), 0.95, 1.05, "grain"),
    "a third of the length": (lambda x: shorten_grain("SB", x), 0.34, 0.33, "grain-short"),
    "centre front at 0": (
        lambda x: piece("CF", lambda p: p.placed(Placement(x=x))),
        -0.19,
        -0.21,
        "centre-front-place",
    ),
    "cut line at the fold": (over_fold, 0.095, 0.105, "allowance"),
}
