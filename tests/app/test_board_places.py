"""Pieces beside each other on the board: none on another, and as large as their number allows."""

from functools import cache
from itertools import combinations

import pytest

from panelwright.app.board_places import VIEW, Box, board_places, cut_box
from panelwright.app.demo.troupe import DANCED, designs, troupe
from panelwright.app.drawn_design import draw_design
from panelwright.blocks.make_block import make_block
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.pattern.mark import Point

REFS = tuple(DANCED)
FREE = 20.0  # mm between two pieces, on which nothing else stands


@cache
def _cutting(ref: str) -> CuttingPattern:
    """A design of the troupe on the first who dances in it."""
    design = next(each.design for each in designs() if each.design.ref == ref)
    wearer = next(each.wearer for each in troupe() if each.wearer.ref == DANCED[ref][0])
    return draw_design(design, make_block(wearer, design.block_options)).cutting


def _laid(cutting: CuttingPattern, layers: tuple[str, ...]) -> dict[str, Box]:
    places = board_places(cutting, {})
    found = {}
    for piece, cut in cutting.pieces:
        if piece.layer in layers:
            (left, bottom, right, top), (x, y) = cut_box(cut), places[piece.id]
            found[piece.id] = (left + x, bottom + y, right + x, top + y)
    return found


def _needs(boxes: list[Box]) -> float:
    """The height of a view in which they are all seen, mm."""
    sides = list(zip(*boxes, strict=True))
    left, bottom, right, top = min(sides[0]), min(sides[1]), max(sides[2]), max(sides[3])
    return max((right - left) / VIEW, top - bottom)


@pytest.mark.parametrize("ref", REFS)
def test_no_piece_lies_on_another(ref: str) -> None:
    boxes = _laid(_cutting(ref), ("outer", "facing", "lining", "interfacing"))
    for (_, a), (_, b) in combinations(boxes.items(), 2):
        apart = max(a[0] - b[2], b[0] - a[2], a[1] - b[3], b[1] - a[3])
        assert apart >= FREE


@pytest.mark.parametrize(("ref", "strap"), [("river-06", "STRAP"), ("star-07", "HALTER")])
def test_a_long_strap_stands_beside_the_panels_and_all_are_seen_larger(ref: str, strap: str) -> None:
    boxes = _laid(_cutting(ref), ("outer",))
    front = boxes["CF"]
    assert boxes[strap][0] > front[2]
    assert boxes[strap][3] == pytest.approx(max(box[3] for box in boxes.values()))
    below = {**boxes}
    height = boxes[strap][3] - boxes[strap][1]
    bottom = min(box[1] for name, box in boxes.items() if name != strap) - FREE
    below[strap] = (front[0], bottom - height, front[0] + boxes[strap][2] - boxes[strap][0], bottom)
    assert _needs([*boxes.values()]) < 0.9 * _needs([*below.values()])


@pytest.mark.parametrize("ref", REFS)
def test_panels_lie_in_a_row_that_ends_at_the_centre_front(ref: str) -> None:
    cutting = _cutting(ref)
    boxes = _laid(cutting, ("outer",))
    panels = [piece.id for piece, _ in cutting.pieces if piece.layer == "outer" and piece.inside_line("waist")]
    if panels:
        assert max(boxes[each][2] for each in panels) == pytest.approx(0.0)
        places = board_places(cutting, {})
        assert all(places[each][1] == 0.0 for each in panels)  # their waists at one height, and their own


def test_known_places_are_kept() -> None:
    cutting = _cutting("river-06")
    known = {piece.id: (float(k), 2.0) for k, (piece, _) in enumerate(cutting.pieces)}
    assert board_places(cutting, known) == known
    assert board_places(cutting, {**known, "more": (0.0, 0.0)}) == known
    assert board_places(cutting, dict(list(known.items())[1:])) != known


def _beside(cutting: CuttingPattern, places: dict[str, Point]) -> set[str]:
    """The outer pieces that stand beside the panels."""
    outer = [(piece, cut_box(cut)) for piece, cut in cutting.pieces if piece.layer == "outer"]
    loose = [(piece.id, box) for piece, box in outer if not piece.inside_line("waist")]
    return {id for id, box in loose if places[id][0] + box[0] > 0}


def test_what_stands_beside_the_panels_goes_on_standing_there_unless_all_is_seen_much_larger_otherwise() -> None:
    """A strap of nearly the length at which it would lie below as well does not jump at every change."""
    kept = moved = 0
    for ref in REFS:
        cutting = _cutting(ref)
        chosen = board_places(cutting, {})
        assert board_places(cutting, {}, chosen) == chosen
        outer = {piece.id: cut_box(cut) for piece, cut in cutting.pieces if piece.layer == "outer"}
        upright = sorted(
            (id for id in outer if id in _beside(cutting, chosen)), key=lambda id: outer[id][1] - outer[id][3]
        )
        for number in range(len(upright)):
            stood = set(upright[:number])
            before = {id: (1.0e4 if id in stood else -1.0e4, 0.0) for id in chosen}
            again = board_places(cutting, {}, before)
            needs = [
                _needs(
                    [(x + box[0], y + box[1], x + box[2], y + box[3]) for id, box in outer.items() for x, y in [at[id]]]
                )
                for at in (chosen, again)
            ]
            assert needs[1] <= 1.1 * needs[0]
            assert _beside(cutting, again) in (stood, set(upright))
            kept, moved = kept + (_beside(cutting, again) == stood), moved + (again == chosen)
    assert kept > 0
    assert moved > 0
