"""Zips, lacings, hooks and buttons. R: read in the named source. MEM: from memory, unverified. G: derivable."""

import math
import re
from itertools import pairwise
from typing import Any

import pytest
from design.closed_garment import EDGES, LEVEL_TOP, TOP, Entry, block, closing, made, refusal
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Point

from panelwright.design.button_row import button_row
from panelwright.design.buttons import Buttons
from panelwright.design.hooks import Hooks
from panelwright.design.lacing import Lacing
from panelwright.design.lacing_cord import TO_TIE, LacingCord
from panelwright.design.spaced import evenly
from panelwright.design.zip import Zip
from panelwright.design.zip_length import sold_length
from panelwright.errors import DesignError
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.working import Working

# R: zip lengths sold, cm, a stockist's list.
STOCKIST = (10, 13, 15, 18, 20, 23, 25, 28, 30, 33, 36, 38, 41, 43, 46, 51, 53, 56, 61, 66, 69, 71, 76)


def working(pattern: Pattern) -> Working:
    (only,) = pattern.workings
    return only


def eyelets(pattern: Pattern, piece: str) -> list[tuple[float, float]]:
    return [mark.at for mark in pattern.piece(piece).marks if mark.kind == "eyelet"]


# Zips


@given(st.floats(20.0, 900.0))
def test_a_zip_is_the_shortest_one_sold_that_closes_the_opening(opening: float) -> None:
    """R: a stockist's list."""
    enough = [10.0 * cm for cm in STOCKIST if 10 * cm >= opening]
    assert sold_length(opening) == (enough[0] if enough else None)


@pytest.mark.parametrize(("opening", "sold"), [(100.0, 100.0), (200.0, 200.0), (200.5, 230.0), (760.0, 760.0)])
def test_an_opening_of_a_length_that_is_sold_takes_that(opening: float, sold: float) -> None:
    assert sold_length(opening) == sold


@pytest.mark.parametrize("body", range(3))
def test_the_working_of_a_zip_adds_up(body: int) -> None:
    pattern = made(block(body), closing("centre-back", "zip", style="invisible"))
    edge = pattern.piece("CB").edge("CB.centre-back").curve
    reckoned = working(pattern)
    assert reckoned.parts[0].length == pytest.approx(edge.length)
    assert round(reckoned.reckoned / 10, 6) in STOCKIST
    assert 0 <= reckoned.reckoned - edge.length < 51.0  # the widest step of the list but one
    (zip,) = pattern.notions
    assert (zip.name, zip.length, zip.working) == ("separating invisible zip", reckoned.reckoned, reckoned.id)


def test_a_zip_that_is_given_is_judged() -> None:
    own = block(0)
    length = made(own, closing("centre-back", "zip")).closures[0].opening
    reckoned = sold_length(length)
    assert reckoned is not None
    for bought, off in ((length - 20.0, length - 20.0 - reckoned), (length + 0.1, 0.0), (length + 300.0, 0.0)):
        judged = working(made(own, closing("centre-back", "zip", zip_cm=round(bought / 10, 3))))
        assert judged.length == pytest.approx(bought, abs=0.01)
        assert judged.off == pytest.approx(off, abs=0.01)


def test_a_longer_opening_than_any_zip_is_cut_from_the_roll() -> None:
    assert sold_length(761.0) is None


# Lacings


@pytest.mark.parametrize(("pairs", "gap", "pitch"), [(10, 60.0, 25.0), (14, 0.0, 20.0), (2, 100.0, 40.0)])
def test_a_cord_runs_slanting_from_eyelet_to_eyelet(pairs: int, gap: float, pitch: float) -> None:
    """MEM: cord ≈ 2 · pairs · √(gap² + pitch²) + 60 to 100 cm; G: the slanting way is a hypotenuse."""
    cord = LacingCord(pairs, pitch, inset=0.0)
    by_rule = 2 * pairs * math.sqrt(gap**2 + pitch**2)
    assert cord.zigzag(gap) == pytest.approx(by_rule)
    length = cord.working("w", gap, None, None).reckoned
    assert by_rule + 600.0 <= length <= by_rule + 1000.0
    # A cord is bought by full 10 cm, and rather longer than shorter.
    assert by_rule + 800.0 - 1e-6 <= length < by_rule + 900.0
    assert length % 100.0 == pytest.approx(0.0, abs=1e-6) or length % 100.0 == pytest.approx(100.0, abs=1e-6)
    assert LacingCord(pairs, pitch, 12.0).zigzag(gap) == pytest.approx(cord.zigzag(gap + 24.0))


@given(st.integers(2, 25), st.floats(8.0, 50.0), st.floats(5.0, 30.0), st.floats(0.0, 500.0))
def test_a_cord_lets_the_edges_as_far_apart_as_it_was_reckoned_for(
    pairs: int, pitch: float, inset: float, spread: float
) -> None:
    cord = LacingCord(pairs, pitch, inset)
    assert cord.spread(cord.zigzag(spread) + TO_TIE) == pytest.approx(spread, abs=1e-6)


def test_a_cord_is_measured_opened_where_the_lacing_is_the_only_opening() -> None:
    """Rules of the cutting table: opened wide enough to get in, if lacing is the only opening."""
    own = block(0)
    only = made(own, closing("centre-back", "lacing"))
    beside = made(own, closing("centre-front", "hooks", "front"), closing("centre-back", "lacing"))
    assert [part.label for part in working(only).parts] == [
        "through the eyelets, as worn",
        "more through them, opened to get in",
        "ends to tie and to hold",
        "more, up to full 10 cm",
    ]
    assert len(working(beside).parts) == 3
    assert working(only).reckoned > working(beside).reckoned
    hips = own.pattern.level("hip").body_girth
    waist = only.level("waist").finished_girth
    # What a cord is longer than it need be stays in the hands.
    assert only.closures[0].spreads == pytest.approx(hips - waist + 50.0, abs=1.0)
    assert working(only).reckoned == only.notions[1].length


def test_a_short_cord_spreads_less_and_is_judged() -> None:
    own = block(0)
    long, short = (made(own, closing("centre-back", "lacing", **fields)) for fields in ({}, {"cord_cm": 300.0}))
    assert working(short).off < -100.0
    assert short.closures[0].spreads < long.closures[0].spreads
    assert short.notions[1].length == 3000.0


@pytest.mark.parametrize("piece", ["CF", "CB"])
@pytest.mark.parametrize("shape", ["straight", "shaped"])
def test_eyelets_stand_in_an_even_row_beside_the_edge(piece: str, shape: Any) -> None:
    place = {"CF": "centre-front", "CB": "centre-back"}[piece]
    pattern = made(block(2, shape), closing(place, "lacing", pitch_cm=2, eyelet_inset_cm=1))
    edge = pattern.piece(piece).edge(f"{piece}.{place}").line_curve
    found = [edge.nearest(at) for at in eyelets(pattern, piece)]
    assert [gap for _, gap in found] == pytest.approx([10.0] * len(found), abs=0.01)
    steps = [b - a for (a, _), (b, _) in pairwise(found)]
    assert steps == pytest.approx([steps[0]] * len(steps), abs=0.01)
    assert steps[0] == pytest.approx(20.0, abs=2.0)
    outline = pattern.piece(piece).outline
    assert all(outline.contains(Point(at)) for at in eyelets(pattern, piece))
    assert {notion.name: notion.count for notion in pattern.notions}["eyelet"] == 2 * len(found)


def test_eyelets_keep_clear_of_a_slanting_upper_edge_and_hem() -> None:
    pattern = made(block(1), closing("centre-front", "lacing"), edges=(TOP, {**EDGES[1], "shape": "pointed"}))
    piece = pattern.piece("CF")
    finished = [edge for edge in piece.edges if edge.kind == "finished"]
    for at in eyelets(pattern, "CF"):
        assert min(edge.curve.nearest(at)[1] for edge in finished) >= 14.9


def test_eyelets_that_would_come_near_the_next_seam_are_refused() -> None:
    piece = made(block(0), closing("centre-back", "zip")).piece("CB")
    centre, seam = (LineString(piece.edge(f"CB.{line}").curve.polyline()) for line in ("centre-back", "back-princess"))
    gap = round((centre.distance(seam) - 20.0) / 5, 2)  # cm, so that the piece is 20 mm wide at its narrowest
    reason = refusal(block(0), *EDGES, closing("centre-back", "lacing", eyelet_inset_cm=1.6, gap_cm=gap))
    assert re.search(
        r"would come within 0\.[345] cm of another seam of the centre back piece; keep 0\.6 cm by a smaller", reason
    )


# Hooks, buttons, rows


@given(st.floats(0.0, 50.0), st.floats(30.0, 600.0), st.floats(8.0, 80.0))
def test_a_row_comes_out_even(low: float, length: float, apart: float) -> None:
    row = evenly(low, low + length, apart)
    steps = [b - a for a, b in pairwise(row)]
    assert (row[0], row[-1]) == pytest.approx((low, low + length))
    assert steps == pytest.approx([steps[0]] * len(steps))
    assert steps[0] <= max(2 * apart, length)
    assert len(row) == 2 or 0.6 * apart < steps[0] < 1.5 * apart


def test_hooks_are_counted_from_their_spacing() -> None:
    (notion,) = made(block(0), closing("centre-back", "hooks", spacing_cm=2)).notions
    opening = made(block(0), closing("centre-back", "hooks", spacing_cm=2)).closures[0].opening
    assert notion.count == round((opening - 12.0) / 20.0) + 1


@given(st.floats(200.0, 500.0), st.floats(0.0, 1.0), st.floats(30.0, 90.0))
def test_a_button_sits_at_the_bust_in_an_even_row(length: float, share: float, apart: float) -> None:
    low, high = 15.0, length - 15.0
    bust = low + share * (high - low)
    row = button_row(low, high, apart, bust)
    assert min(abs(place - bust) for place in row) < 1e-6
    steps = [b - a for a, b in pairwise(row)]
    assert steps == pytest.approx([steps[0]] * len(steps) if steps else [])
    assert low - 1e-6 <= row[0]
    assert row[-1] <= high + 1e-6
    assert high - row[-1] <= apart / 2 + 1e-6


def test_without_a_bust_in_reach_buttons_run_from_end_to_end() -> None:
    assert button_row(10.0, 100.0, 30.0, None) == pytest.approx((10.0, 40.0, 70.0, 100.0))
    assert button_row(10.0, 100.0, 30.0, 130.0) == pytest.approx((10.0, 40.0, 70.0, 100.0))


@pytest.mark.parametrize("neckline", [TOP, LEVEL_TOP])
def test_buttons_sit_on_the_centre_line_one_at_the_bust(neckline: Entry) -> None:
    pattern = made(block(0), closing("centre-front", "buttons", spacing_cm=5), edges=(neckline, EDGES[1]))
    piece = pattern.piece("CF")
    bust, centre = piece.inside_line("bust"), piece.inside_line("centre-front")
    assert bust is not None
    assert centre is not None
    buttons = [mark.at for mark in piece.marks if mark.kind == "button"]
    assert max(centre.curve.nearest(at)[1] for at in buttons) < 1e-6
    assert min(bust.curve.nearest(at)[1] for at in buttons) < 0.05
    (notion,) = pattern.notions
    assert (notion.kind, notion.count) == ("button", len(buttons))


@pytest.mark.parametrize(
    ("make", "sentence"),
    [
        (lambda: Zip("hidden"), "a zip is centred, lapped, exposed, invisible, not 'hidden'"),  # type: ignore[arg-type]
        (lambda: Zip("lapped", 5.0), "a lapped zip shows no teeth; leave their width out (in a file: teeth_width_cm)"),
        (lambda: Zip("exposed", 60.0), "the width of an exposed zip's teeth is 6 cm; give between 0.2 and 4 cm"),
        (lambda: Zip(given=10.0), "the length of a zip is 1 cm; give between 3 and 200 cm"),
        (lambda: Lacing(gap=300.0), "the gap of a lacing is 30 cm; give between 0 and 20 cm"),
        (lambda: Lacing(pitch=3.0), "the pitch of eyelets is 0.3 cm; give between 0.8 and 8 cm"),
        (lambda: Lacing(inset=1.0), "the distance of eyelets from the edge is 0.1 cm"),
        (lambda: Lacing(given=10.0), "the length of a lacing cord is 1 cm"),
        (lambda: Lacing(behind=1.0), "the modesty panel's reach under an edge is 0.1 cm"),
        (lambda: Hooks(spacing=1.0), "the spacing of hooks is 0.1 cm"),
        (lambda: Hooks(underlap=1.0), "the underlap behind hooks is 0.1 cm"),
        (lambda: Buttons(stand=2.0), "a button stand is 0.2 cm; give between 0.8 and 6 cm"),
        (lambda: Buttons(spacing=900.0), "the spacing of buttons is 90 cm; give between 1.5 and 20 cm"),
        (lambda: Lacing(gap=math.nan), "the gap of a lacing is nan cm"),
    ],
)
def test_numbers_out_of_range_are_refused(make: Any, sentence: str) -> None:
    with pytest.raises(DesignError) as caught:
        make()
    assert sentence in str(caught.value)


@pytest.mark.parametrize(
    ("type", "sentence"),
    [("lacing", "no room for two pairs of eyelets"), ("buttons", "no room for two buttons")],
)
def test_a_band_is_too_narrow_for_two(type: str, sentence: str) -> None:
    high, low = {"level": "bust", "offset_cm": 2}, {"level": "bust", "offset_cm": -1.3}
    band: tuple[Entry, ...] = (
        {**TOP, "shape": "straight", "centre": high, "side": high},
        {**EDGES[1], "shape": "straight", "centre": low, "side": low, "back": low},
    )
    assert sentence in refusal(block(0), *band, closing("centre-back", type))
