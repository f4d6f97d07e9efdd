"""Fitting notes do to a block what a fitter pinned, and nothing else; measured on the pattern file with a ruler."""

from dataclasses import replace
from datetime import date
from functools import cache
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from measured_block import level_end, on_the_table, spans, upright, widths
from measured_pattern import length
from plausible_bodies import plausible_bodies

from panelwright.blocks.block import Block
from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import PLANS, BlockOptions
from panelwright.errors import InputError
from panelwright.fitting.fitted_block import fitted
from panelwright.fitting.fitting import Fitting, FittingNote
from panelwright.fitting.full_bust import FullBust
from panelwright.fitting.length_note import PLACES, LengthNote
from panelwright.fitting.seam_note import SeamNote
from panelwright.fitting.shoulder_note import ShoulderNote
from panelwright.fitting.strap_note import StrapNote
from panelwright.fitting.sway_back import SwayBack
from panelwright.pattern.level import LEVELS

BODIES = list(plausible_bodies(4, seed=17))
UP = LEVELS[::-1]
EXACT = 0.1  # mm: what the maker is promised
SIDES = {"front-princess": ("CF", "SF"), "side": ("SF", "SB"), "back-princess": ("SB", "CB")}


@cache
def block(body: int = 0, panels: int = 4, top: str = "upper-bust", shape: str = "shaped") -> Block:
    return make_block(BODIES[body], BlockOptions(panels=panels, top=top, centre_back_shape=shape))


def after(own: Block, *notes: FittingNote, off: tuple[str, ...] = ()) -> Block:
    return fitted(own, Fitting(own.wearer.ref, notes, frozenset(off)))


def changes(own: Block, *notes: FittingNote) -> dict[tuple[str, str], float]:
    """(panel, level) -> change of width that is more than nothing, mm."""
    now, was = widths(after(own, *notes)), widths(own)
    return {place: now[place] - was[place] for place in was if abs(now[place] - was[place]) > EXACT}


def seams_are_true(own: Block) -> None:
    """Both sides equal within 0.05 mm in all, and level lines meet at the seam within 0.1 mm."""
    for pattern in filter(None, (own.pattern, own.pattern.to_shoulder)):
        table = on_the_table(pattern)
        for seam in table.document["seams"]:
            if seam["id"] in ("shoulder", "centre-back"):
                continue
            (a, b), line = table.seam_sides(seam), seam["id"]
            assert a == pytest.approx(b, abs=0.05), line
            front, back = (
                spans(table, seam[side][0]["piece"], line, UP) for side in "ab"
            )  # fmt: skip
            for span, long in front.items():
                assert long == pytest.approx(back[span], abs=3 * EXACT), (line, span)  # read at 400 points a cubic


@pytest.mark.parametrize("top", ["upper-bust", "shoulder"])
@pytest.mark.parametrize("seam", SIDES)
@pytest.mark.parametrize("way", ["take-in", "let-out"])
def test_a_pinned_amount_is_there_on_both_sides_at_its_level_and_nowhere_beyond(seam: str, way: str, top: str) -> None:
    """8 mm each side at the waist, nothing at bust and top hip: a half loses twice that, the girth four times."""
    own = block(top=top)
    note = SeamNote("n", way, seam, "waist", 8.0, nothing_above="bust", nothing_below="top-hip")
    now = after(own, note)
    sign = -1.0 if way == "take-in" else 1.0
    found = changes(own, note)
    for panel in SIDES[seam]:
        assert found[panel, "waist"] == pytest.approx(sign * 8.0, abs=EXACT)
    inside = {"underbust", "waist", "lower-waist"}
    assert {panel for panel, _ in found} == set(SIDES[seam])
    assert {level for _, level in found} <= inside
    assert all(0 < sign * change <= 8.0 + EXACT for change in found.values())
    half = on_the_table(now.pattern).half("waist") - on_the_table(own.pattern).half("waist")
    assert 2 * half == pytest.approx(sign * 32.0, abs=EXACT)
    seams_are_true(now)


@pytest.mark.parametrize("seam", SIDES)
def test_the_shape_beyond_the_span_is_kept(seam: str) -> None:
    """Between levels beyond the span, pieces are as wide straight across as they were, and seams as long."""
    own = block()
    now = after(own, SeamNote("n", "take-in", seam, "waist", 10.0, nothing_above="underbust", nothing_below="top-hip"))
    tables = [on_the_table(each.pattern) for each in (own, now)]
    for panel in SIDES[seam]:
        for low, high in (("hip", "top-hip"), ("underbust", "bust"), ("bust", "upper-bust")):
            across = [
                np.linalg.norm(level_end(table, panel, a, True) - level_end(table, panel, b, False))
                for table in tables
                for a, b in ((low, high), (high, low))
            ]
            assert across[0] == pytest.approx(across[2], abs=1.5), "a diagonal: seams may slip a little to be true"
            assert across[1] == pytest.approx(across[3], abs=1.5)
    for line in ("front-princess", "side", "back-princess"):
        was, is_now = (spans(table, SIDES[line][0], line, UP) for table in tables)
        for span in was:
            if line != seam:
                assert is_now[span] == pytest.approx(was[span], abs=3 * EXACT)


def test_the_upper_edge_the_hem_and_the_centre_back_can_be_pinned() -> None:
    own = block()
    upper = changes(own, SeamNote("n", "take-in", "front-princess", "upper-bust", 6.0, nothing_below="bust"))
    assert upper == pytest.approx({("CF", "upper-bust"): -6.0, ("SF", "upper-bust"): -6.0}, abs=EXACT)
    hip = changes(own, SeamNote("n", "let-out", "side", "hip", 12.0, nothing_above="top-hip"))
    assert hip == pytest.approx({("SF", "hip"): 12.0, ("SB", "hip"): 12.0}, abs=EXACT)
    back = changes(own, SeamNote("n", "take-in", "centre-back", "waist", 5.0))
    assert back["CB", "waist"] == pytest.approx(-5.0, abs=EXACT)
    assert {panel for panel, _ in back} == {"CB"}


def test_a_pin_between_levels_is_in_the_width_at_its_place() -> None:
    """15 mm above the waist on the seam, measured straight across between equal places of both edges' spans."""
    own = block()
    now = after(own, SeamNote("n", "take-in", "side", "waist", 10.0, 15.0, "underbust", "top-hip"))
    seam_place = []
    for each in (own, now):
        table = on_the_table(each.pattern)
        side = upright(table, "SF.side")
        at = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(side, axis=0), axis=1))])
        waist = at[int(np.linalg.norm(side - level_end(table, "SF", "waist", False), axis=1).argmin())]
        pin = side[int(np.abs(at - waist - 15.0).argmin())]
        princess = upright(table, "SF.front-princess")
        seam_place.append(float(np.linalg.norm(princess - pin, axis=1).min()))
    assert seam_place[0] - seam_place[1] == pytest.approx(10.0, abs=0.6)


@pytest.mark.parametrize("top", ["upper-bust", "shoulder"])
def test_switching_a_note_off_restores_the_block(top: str) -> None:
    own = block(top=top)
    notes = SeamNote("a", "take-in", "side", "waist", 9.0), SwayBack("b", 10.0)
    before = own.pattern
    assert after(own, *notes).pattern != before
    assert after(own, *notes, off=("a", "b")).pattern == before
    assert make_block(own.wearer, own.options).pattern == before
    alone = after(own, notes[0])
    assert after(own, *notes, off=("b",)).pattern == alone.pattern


def test_taking_in_and_letting_out_again_leaves_the_girths_as_they_were() -> None:
    own = block(1)
    take = SeamNote("a", "take-in", "back-princess", "waist", 12.0)
    assert changes(own, take, replace(take, uid="b", way="let-out")) == {}


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("way", ["lengthen", "shorten"])
def test_every_line_up_the_body_is_longer_by_the_amount_between_its_levels_alone(place: str, way: str) -> None:
    own, amount = block(2), 12.0 if way == "lengthen" else -12.0
    now = after(own, LengthNote("n", way, place, 12.0))
    tables = [on_the_table(each.pattern) for each in (own, now)]
    low, high = (UP.index(level) for level in PLACES[place])
    for line, panels in {"centre-front": ("CF",), **SIDES, "centre-back": ("CB",)}.items():
        for panel in panels:
            was, is_now = (spans(table, panel, line, UP) for table in tables)
            inside = sum(is_now[span] - was[span] for span in list(pairwise(UP))[low:high])
            assert inside == pytest.approx(amount, abs=3 * EXACT), (line, panel)
            whole = [length(table.edge(f"{panel}.{line}")) for table in tables]
            assert whole[1] - whole[0] == pytest.approx(amount, abs=EXACT), (line, panel)
    assert changes(own, LengthNote("n", way, place, 12.0)) == {}
    seams_are_true(now)


@pytest.mark.parametrize("shape", ["shaped", "straight"])
@pytest.mark.parametrize("panels", [3, 4, 5, 6])
def test_a_sway_back_shortens_the_centre_back_and_nothing_at_the_side(panels: int, shape: str) -> None:
    own = block(0, panels, shape=shape)
    note = SwayBack("n", 12.0)
    now = after(own, note)
    was, is_now = (on_the_table(each.pattern) for each in (own, now))
    long = {
        edge["id"]: length(table.edge(edge["id"]))
        for table in (was,)
        for p in table.pieces.values()
        for edge in p["edges"]
    }
    new = {id: length(is_now.edge(id)) for id in long}
    assert new["CB.centre-back"] - long["CB.centre-back"] == pytest.approx(-12.0, abs=EXACT)
    assert new["CF.centre-front"] - long["CF.centre-front"] == pytest.approx(0.0, abs=EXACT)
    assert new["CF.front-princess"] - long["CF.front-princess"] == pytest.approx(0.0, abs=EXACT)
    back = new["CB.back-princess"] - long["CB.back-princess"]
    assert -12.0 < back < 0.0
    if "SB.side" in long:
        assert new["SB.side"] - long["SB.side"] == pytest.approx(0.0, abs=EXACT)
    assert changes(own, note) == {}
    seams_are_true(now)


@pytest.mark.parametrize("top", ["upper-bust", "shoulder"])
def test_a_full_bust_is_wider_at_the_bust_and_longer_over_it(top: str) -> None:
    own, note = block(3, top=top), FullBust("n", 9.0, 14.0)
    now = after(own, note)
    assert changes(own, note) == pytest.approx({("CF", "bust"): 9.0, ("SF", "bust"): 9.0}, abs=EXACT)
    was, is_now = (on_the_table(each.pattern) for each in (own, now))
    grown = {
        line: length(is_now.edge(line)) - length(was.edge(line))
        for line in ("CF.centre-front", "SF.side", "SF.front-princess")
    }
    assert grown["CF.centre-front"] == pytest.approx(14.0, abs=EXACT)
    assert grown["SF.side"] == pytest.approx(0.0, abs=EXACT)
    assert grown["SF.front-princess"] > 14.0 - 3.0
    seams_are_true(now)


@pytest.mark.parametrize("panels", [4, 6])
@pytest.mark.parametrize(("shape", "front", "back"), [("square", 12, 12), ("sloping", -12, -12), ("forward", -12, 12)])
def test_the_shoulder_point_moves_and_the_neck_point_stays(shape: str, front: float, back: float, panels: int) -> None:
    """How high both ends of the shoulder lie above the waist line of their pieces, front and back."""
    own = block(0, panels, "shoulder")
    now = after(own, ShoulderNote("n", shape, 12.0))
    ends = []
    for each in (own, now):
        table = on_the_table(each.pattern.to_shoulder)
        found = {}
        for id in ("CF", "CB", PLANS[panels].panels[1][0], PLANS[panels].panels[-2][0]):
            edge = table.edge(f"{id}.shoulder")
            waist = level_end(table, id, "waist", True)[1]
            leftmost, rightmost = (edge[0], edge[-1]) if edge[0][0] < edge[-1][0] else (edge[-1], edge[0])
            in_front = id in ("CF", PLANS[panels].panels[1][0])
            outer, inner = (leftmost, rightmost) if in_front else (rightmost, leftmost)
            found[id] = float(outer[1]) - waist, float(inner[1]) - waist, length(edge)
        ends.append(found)
    was, is_now = ends
    sf, sb = PLANS[panels].panels[1][0], PLANS[panels].panels[-2][0]
    assert is_now[sf][0] - was[sf][0] == pytest.approx(front, abs=EXACT)
    assert is_now[sb][0] - was[sb][0] == pytest.approx(back, abs=EXACT)
    for id in ("CF", "CB"):
        assert is_now[id][1] - was[id][1] == pytest.approx(0.0, abs=EXACT)
    for id in was:
        assert is_now[id][2] == pytest.approx(was[id][2], abs=EXACT), "the seam keeps its length"
    assert changes(own, ShoulderNote("n", shape, 12.0)) == {}
    seams_are_true(now)


def test_a_shoulder_note_waits_where_the_block_has_no_shoulder() -> None:
    own = block()
    now = after(own, ShoulderNote("n", "square", 10.0), SwayBack("b", 8.0))
    assert [note.uid for note in now.pattern.fitting] == ["b"]


def test_the_body_did_not_change_the_cloth_did() -> None:
    own = block()
    now = after(own, SeamNote("n", "take-in", "back-princess", "waist", 8.0), StrapNote("s", "shorter", 10.0))
    was, waist = own.pattern.level("waist"), now.pattern.level("waist")
    assert waist.body_girth == was.body_girth
    assert waist.ease == pytest.approx(was.ease - 32.0, abs=EXACT)
    assert waist.fitted == pytest.approx(-32.0, abs=EXACT)
    assert now.pattern.strap_change == -10.0


@given(data=st.data())
@settings(max_examples=12)
def test_notes_at_random_keep_every_promise(data: st.DataObject) -> None:
    """Two notes of any kind, on bodies and plans of any kind: amounts add up at every level, seams stay true."""
    body, panels = data.draw(st.integers(0, len(BODIES) - 1)), data.draw(st.sampled_from((3, 4, 5, 6)))
    own = block(body, panels)
    seams = st.sampled_from([line for line, _ in PLANS[panels].lines])
    amounts = st.floats(1.0, 9.0)
    seam = st.builds(
        SeamNote,
        st.just("a"),
        st.sampled_from(("take-in", "let-out")),
        seams,
        st.sampled_from(("waist", "bust", "hip")),
        amounts,
    )
    other = st.one_of(
        st.builds(
            LengthNote, st.just("b"), st.sampled_from(("lengthen", "shorten")), st.sampled_from(tuple(PLACES)), amounts
        ),
        st.builds(SwayBack, st.just("b"), amounts),
        st.builds(FullBust, st.just("b"), amounts, amounts),
    )
    first, second = data.draw(seam), data.draw(other)
    now = after(own, first, second)
    pinned = 4 * first.signed + (4 * second.width if isinstance(second, FullBust) and first.level == "bust" else 0.0)
    half = on_the_table(now.pattern).half(first.level) - on_the_table(own.pattern).half(first.level)
    assert 2 * half == pytest.approx(pinned, abs=EXACT)
    seams_are_true(now)


@pytest.mark.parametrize(
    ("note", "told"),
    [
        (lambda: SeamNote("n", "take-in", "side", "waist", 60.0), "give 0.1 to 4 cm"),
        (lambda: SeamNote("n", "take-in", "side", "knee", 6.0), "no level 'knee'"),
        (lambda: SeamNote("n", "take-in", "side", "waist", float("nan")), "give 0.1 to 4 cm"),
        (lambda: SeamNote("n", "take-in", "side", "waist", 6.0, 400.0), "name a nearer level"),
        (lambda: SwayBack("n", -4.0), "give 0.1 to 3 cm"),
        (lambda: LengthNote("n", "lengthen", "at-the-knee", 6.0), "above-waist"),
        (lambda: StrapNote("N!", "shorter", 6.0), "small letters"),
        (lambda: Fitting("w-1", (SwayBack("n", 4.0), SwayBack("n", 5.0))), "two notes are called n"),
        (lambda: Fitting("w-1", (), frozenset({"x"})), "no note"),
        (lambda: Fitting("Mrs Müller"), "neutral reference"),
    ],
)
def test_absurd_notes_are_refused_in_a_sentence(note: object, told: str) -> None:
    with pytest.raises(InputError, match=told.replace("(", r"\(")):
        note()


@pytest.mark.parametrize(
    ("note", "told"),
    [
        (SeamNote("n", "take-in", "front-underarm", "waist", 6.0), "its seams are front-princess, side"),
        (SeamNote("n", "take-in", "centre-front", "waist", 6.0), "cut on the fold"),
        (SeamNote("n", "take-in", "centre-back", "waist", 6.0), "one straight line"),
        (SeamNote("n", "take-in", "side", "waist", 40.0, nothing_below="lower-waist"), "without a corner"),
        (SeamNote("n", "take-in", "side", "waist", 6.0, nothing_above="hip"), "not at least 3.5 cm above the pin"),
        (LengthNote("n", "shorten", "above-bust", 55.0), "take out at most"),
    ],
)
def test_notes_that_a_block_cannot_take_name_the_note_and_the_way_out(note: FittingNote, told: str) -> None:
    with pytest.raises(InputError, match=told) as caught:
        after(block(shape="straight"), note)
    assert str(caught.value).startswith(note.label)
    assert caught.value.where == "note n"


def test_a_panel_is_not_taken_in_to_nothing() -> None:
    own = block(panels=6)
    notes = [SeamNote(f"n{k}", "take-in", "back-princess", "waist", 14.0 + k) for k in range(4)]
    with pytest.raises(InputError, match=r"it would leave a panel|the panels cannot be drawn so"):
        after(own, *notes)


def test_notes_of_another_wearer_are_refused() -> None:
    with pytest.raises(InputError, match="of one wearer"):
        fitted(block(), Fitting("w-99", (SwayBack("n", 5.0),), made_on=date(2026, 11, 20)))
