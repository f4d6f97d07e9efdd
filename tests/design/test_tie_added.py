"""Ties that are strips of their own: at an opening, or caught in the side seam."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from plain_block import plain_block

from panelwright.design.hem import Hem
from panelwright.design.position import Height
from panelwright.design.step import Step
from panelwright.design.tie import Tie
from panelwright.design.tie_knot import gathered_diameter, half_knot
from panelwright.design.top_edge import TopEdge
from panelwright.errors import DesignError
from panelwright.finish.finishing import finish
from panelwright.finish.options import Cloths, Finish
from panelwright.pattern.closure import Closure
from panelwright.pattern.pattern import Pattern

PLAIN = plain_block()
TOP = TopEdge("top", "straight", Height("upper-bust", -5.0), Height("upper-bust", -5.0))
HEM = Hem("hem", "straight", Height("top-hip"), Height("top-hip"))
BACK = Tie("back", "centre-back")
SASH = Tie("sash", "caught-in-side")


def made(*steps: Step, on: Pattern = PLAIN) -> Pattern:
    pattern = on
    for step in (TOP, HEM, *steps):
        pattern = step.apply(pattern, on)
    return pattern


def opened_in_front() -> Pattern:
    """The plain block opened at the centre front: its fold becomes an opening that is closed on its mirror image."""
    front, seam = PLAIN.piece("CF"), PLAIN.seam("centre-back")
    edges = tuple(replace(edge, kind="opening") if edge.kind == "fold" else edge for edge in front.edges)
    spans = [replace(span, piece="CF", edge="CF.centre-front") for span in (*seam.a, *seam.b)]
    closure = replace(seam, id="centre-front", a=(spans[0],), b=(spans[1],), region="front")
    opened = PLAIN.with_pieces(replace(front, edges=edges, extent="one_side"))
    return replace(opened, seams=(*PLAIN.seams, closure))


def test_a_pair_is_sewn_to_the_opening_at_the_waist() -> None:
    pattern = made(BACK)
    tie, seam = pattern.piece("TIE"), pattern.seam("TIE.centre-back")
    assert [piece.id for piece in pattern.pieces] == ["CF", "SF", "SB", "CB", "TIE"]
    assert (seam.kind, seam.region, seam.blend) == ("attach", "back", False)
    assert pattern.chain_length(seam.a) == pytest.approx(pattern.chain_length(seam.b), abs=1e-6)
    _, middle, outward = pattern.along_chain(seam.a, 15.0)
    assert middle == pytest.approx([0.0, 0.0], abs=1e-6)  # the plain block's centre back stands at x = 0
    assert outward == pytest.approx([-1.0, 0.0])
    assert [level.id for level in pattern.levels] == [level.id for level in made().levels]
    assert tie.outline.area == pytest.approx(30.0 * pattern.workings[0].length)


def test_its_length_is_knot_and_tail_where_the_edges_meet() -> None:
    """Closed form of the model: two half knots of a cord from 3 cm of doubled cloth, and 10 cm of tail."""
    working = made(BACK).workings[0]
    knots = 2 * half_knot(gathered_diameter(30.0, 0.4, 2))
    assert working.length == pytest.approx(knots + 100.0)
    assert [part.label for part in working.parts] == ["double knot", "tail"]
    assert (working.rule_of_thumb, working.rule_length) == ("", None)


def test_it_reaches_over_half_of_a_gap() -> None:
    held = Closure("open", "centre-back", "tie", "", "centre", "centre-back", 0.0, 295.0, gap=40.0)
    pattern = BACK.apply(replace(made(), closures=(held,)), PLAIN)
    first = pattern.workings[0].parts[0]
    assert (first.label, first.length) == ("half the gap of the edges", 20.0)
    assert pattern.closures == (held,)


def test_three_pairs_are_spread_evenly_from_the_top_down() -> None:
    pattern = made(replace(BACK, count=3))
    edge = pattern.piece("CB").edge("CB.centre-back")
    middles = []
    for number in (1, 2, 3):
        seam = pattern.seam(f"TIE-{number}.centre-back")
        middles.append(float(pattern.along_chain(seam.a, 15.0)[1][1]))
        marks = [m.at for m in pattern.piece("CB").marks if m.id.startswith(f"back-{number}-")]
        assert [edge.curve.nearest(at)[1] for at in marks] == pytest.approx([0.0, 0.0], abs=1e-6)
        assert abs(marks[0][1] - marks[1][1]) == pytest.approx(30.0)
    assert np.diff(middles) == pytest.approx([np.diff(middles)[0]] * 2)
    assert middles[0] == pytest.approx(edge.curve.start[1] - 25.0)
    assert middles[2] == pytest.approx(edge.curve.end[1] + 25.0)
    assert [pattern.piece(f"TIE-{k}").label for k in (1, 2, 3)] == ["Tie 1", "Tie 2", "Tie 3"]


def test_two_steps_have_strips_of_their_own() -> None:
    pattern = made(BACK, replace(BACK, uid="lower", height=Height("lower-waist")))
    assert [piece.id for piece in pattern.pieces][-2:] == ["TIE", "TIE-1"]
    assert [closure.id for closure in pattern.closures] == ["back"]
    assert {working.id for working in pattern.workings} == {"back/length", "lower/length"}


def test_a_sash_reaches_half_the_back_from_the_side_seam() -> None:
    """G: on the plain block the waist lines of SB and CB are as wide as they are drawn."""
    pattern = made(SASH)
    widths = [PLAIN.piece(id).inside_line("waist").curve.length for id in ("SB", "CB")]
    assert pattern.workings[0].parts[0].length == pytest.approx(sum(widths), abs=0.1)
    # R (a home-sewing page): waist and 60 cm for a whole sash, so 30 cm beyond the back for each end.
    assert pattern.workings[0].rule_length == pytest.approx(sum(widths) + 300.0, abs=0.1)
    assert pattern.closures == ()
    seam = pattern.seam("TIE.front-side")
    assert [span.piece for span in seam.a] == ["SF"]
    _, middle, _ = pattern.along_chain(seam.a, 15.0)
    assert middle[1] == pytest.approx(0.0, abs=0.5)


def test_ties_in_front_lie_on_the_opened_centre_front() -> None:
    on = opened_in_front()
    pattern = made(Tie("front", "centre-front", width=40.0, height=Height("bust")), on=on)
    seam = pattern.seam("TIE.centre-front")
    assert seam.region == "front"
    _, middle, outward = pattern.along_chain(seam.a, 20.0)
    assert middle == pytest.approx([0.0, 150.0], abs=1e-6)
    assert outward == pytest.approx([1.0, 0.0])
    assert np.ptp(pattern.piece("TIE").vertices, axis=0)[1] == pytest.approx(40.0)
    assert [(closure.place, closure.seam) for closure in pattern.closures] == [("centre-front", "centre-front")]


def test_each_pair_is_cut_twice_when_it_is_faced() -> None:
    cutting = finish(made(replace(BACK, count=2)), Finish(facing="full", cloths=Cloths("silk", "silk")))
    cuts = [(piece.id, cut.mode, cut.count) for piece, side in cutting.pieces for cut in side.cuts]
    assert cuts[-2:] == [("TIE-1", "pair", 4), ("TIE-2", "pair", 4)]


WIDE = replace(BACK, width=80.0, count=4)
REFUSED: list[tuple[Callable[[], Pattern], str]] = [
    (lambda: BACK.apply(PLAIN, PLAIN), "still ends at the block's own"),
    (lambda: made(Tie("front", "centre-front")), "the centre front is cut on the fold and ties have nothing to close"),
    (lambda: made(WIDE), "4 ties of 8.0 cm have no room on an edge of 29.5 cm; make them narrower or fewer"),
    (lambda: made(replace(BACK, height=Height("top-hip", 5.0))), "it reaches 1.0 cm past the end of the centre back"),
    (lambda: made(replace(BACK, length=29.0)), "give 5 to 300 cm"),
    (
        lambda: BACK.apply(
            replace(made(), closures=(Closure("z", "centre-back", "zip", "", "centre", "", 0.0, 1.0),)), PLAIN
        ),
        "the centre back is closed already, by the step “z”; take it out",
    ),
]


@pytest.mark.parametrize(("attempt", "sentence"), REFUSED)
def test_what_cannot_be_sewn_on_is_refused_in_one_sentence(attempt: Callable[[], Pattern], sentence: str) -> None:
    with pytest.raises(DesignError) as caught:
        attempt()
    assert sentence in str(caught.value)
    assert "\n" not in str(caught.value)
