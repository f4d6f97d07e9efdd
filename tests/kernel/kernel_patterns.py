"""Garments that the four kernel operations make from the plain block, each with a trace of its steps."""

from dataclasses import replace

from plain_block import plain_block

from panelwright.design.attach import attach_waistband
from panelwright.design.body_chart import half_chart, whole_chart
from panelwright.design.divided_piece import PartName
from panelwright.design.edge_cut import cut_edge
from panelwright.design.finished_edge import EdgeDesign
from panelwright.design.hem import Hem
from panelwright.design.join import join_pieces
from panelwright.design.position import Height, height_at
from panelwright.design.profile import Node, Profile, laid_out, shaped
from panelwright.design.smooth_curve import SmoothCurve
from panelwright.design.split import split_piece
from panelwright.design.step import Step
from panelwright.design.style_line import style_line
from panelwright.design.top_edge import TopEdge
from panelwright.design.unfold import unfold
from panelwright.pattern.line import Line
from panelwright.pattern.pattern import Pattern, StepRecord

BLOCK = plain_block()
TOP = TopEdge("neck", "scooped", Height("bust", 25.0), Height("upper-bust", -10.0))
HEM = Hem("low", "shaped", Height("top-hip", -30.0), Height("lower-waist"))
OVER_THE_BUST = Height("bust", 15.0)
WAIST = Hem("low", "straight", Height("waist"), Height("waist"))


def recorded(pattern: Pattern, uid: str, kind: str) -> Pattern:
    return replace(pattern, steps=(*pattern.steps, StepRecord(uid, kind, kind)))


def cut(*steps: Step) -> Pattern:
    pattern = BLOCK
    for step in steps:
        pattern = recorded(step.apply(pattern, BLOCK), step.uid, step.kind)
    return pattern


def yoke_line(height: Height = OVER_THE_BUST) -> tuple[Line, tuple]:
    """A style line at one height; its part in SF."""
    style = EdgeDesign("straight", height, height).line(half_chart(BLOCK))
    return Line("yoke/line", "Yoke seam", "yoke"), style.panels[1].curves


def with_yoke(pattern: Pattern, height: Height = OVER_THE_BUST) -> Pattern:
    """SF above the bust is a piece of its own. The style line runs towards the back: SF lies on its left, below."""
    line, curves = yoke_line(height)
    parts = PartName("SF", "Side front"), PartName("SF-yoke", "Side front yoke")
    return recorded(split_piece(pattern, "SF", curves, line, parts, "front"), "yoke", "split")


def joined_back(pattern: Pattern) -> Pattern:
    """SB and CB in one; its grain is SB's, which the step's kind says."""
    return recorded(join_pieces(pattern, "back-princess", "SB", "Back"), "back", "join-keeping-grain")


def unfolded(pattern: Pattern) -> Pattern:
    return recorded(unfold(pattern), "both", "unfold")


def lopsided_profile() -> Profile:
    """From the waist at the wearer's left side down across the front to the top hip at the right; level behind."""
    chart = whole_chart(BLOCK)
    levels = [height_at(chart, float(k), Height("waist")) for k in range(len(chart.uprights))]
    drop = height_at(chart, 6.0, Height("top-hip")) - levels[6]

    def build(seams: tuple[float, ...]) -> Profile:
        nodes = Node(0.0, -10.0), Node(seams[2], -10.0), Node(seams[6], drop), Node(seams[8], drop)
        return shaped(seams, SmoothCurve.monotone(seams, levels), nodes)

    return laid_out(chart, 0.0, build)


def lopsided(pattern: Pattern) -> Pattern:
    """A hem that differs from side to side, drawn over both halves of an unfolded pattern as one line."""
    style = style_line(whole_chart(BLOCK), lopsided_profile())
    return recorded(cut_edge(pattern, style, Line("low/line", "Hem", "low"), "above"), "low", "lopsided-hem")


def banded(pattern: Pattern) -> Pattern:
    return recorded(attach_waistband(pattern, "low/line", 40.0, "band"), "band", "waistband")


GARMENTS = {
    "yoke": lambda: with_yoke(cut(TOP, HEM)),
    "yoke before the edges are cut": lambda: cut_after_yoke(),
    "joined back": lambda: joined_back(cut(TOP, HEM)),
    "split and joined again, then cut": lambda: edges_after_rejoining(),
    "unfolded": lambda: unfolded(cut(TOP, HEM)),
    "unfolded yoke": lambda: unfolded(with_yoke(cut(TOP, HEM))),
    "symmetric hem after unfolding": lambda: hem_after_unfold(),
    "lopsided hem": lambda: lopsided(unfolded(cut(TOP))),
    "waistband": lambda: banded(cut(TOP, WAIST)),
    "waistband, unfolded": lambda: unfolded(banded(cut(TOP, WAIST))),
    "waistband after unfolding": lambda: banded(unfolded(cut(TOP, WAIST))),
    "waistband on a joined back": lambda: banded(joined_back(cut(TOP, WAIST))),
    "waistband on a lopsided hem": lambda: banded(lopsided(unfolded(cut(TOP)))),
}


def cut_after_yoke() -> Pattern:
    pattern = with_yoke(BLOCK)
    for step in (TOP, HEM):
        pattern = recorded(step.apply(pattern, BLOCK), step.uid, step.kind)
    return pattern


def edges_after_rejoining() -> Pattern:
    """SF split and joined again has two regions of one panel; it is cut like one that was never split."""
    pattern = join_pieces(with_yoke(BLOCK), "yoke/line", "SF", "Side front")
    for step in (TOP, HEM):
        pattern = recorded(step.apply(pattern, BLOCK), step.uid, step.kind)
    return pattern


def hem_after_unfold() -> Pattern:
    return recorded(HEM.apply(unfolded(cut(TOP)), BLOCK), "low", "hem")
