from dataclasses import replace

import pytest
from plain_cutting_pattern import shell

from panelwright.finish.cut_count import cut_words, cuts
from panelwright.finish.cut_piece import Cut
from panelwright.finish.finishing import finish
from panelwright.finish.options import Cloths, Finish
from panelwright.pattern.piece import Piece

BOTH = Finish(facing="full", cloths=Cloths(facing="outer"))


def piece(extent: str = "one_side", hand: str = "both", layer: str = "outer") -> Piece:
    return replace(shell().piece("SF"), extent=extent, hand=hand, layer=layer)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("extent", "hand", "once", "twice"),
    [
        ("half_on_fold", "both", Cut("outer", "fold", 1), Cut("outer", "fold", 2)),
        ("one_side", "both", Cut("outer", "pair", 2), Cut("outer", "pair", 4)),
        ("one_side", "right", Cut("outer", "single", 1), Cut("outer", "single", 2)),
        ("whole", "both", Cut("outer", "single", 1), Cut("outer", "pair", 2)),
    ],
)
def test_counts_by_extent_alone_and_with_a_facing_of_the_same_cloth(
    extent: str, hand: str, once: Cut, twice: Cut
) -> None:
    assert cuts(piece(extent, hand), Finish()) == (once,)
    assert cuts(piece(extent, hand), Finish(facing="full")) == (once,)
    assert cuts(piece(extent, hand), BOTH) == (twice,)


def test_full_facing_in_the_outer_cloth_counts_as_the_trade_does() -> None:
    """CF "cut 2 on fold", other panels "cut 2 pairs" = 4 pieces (common practice, CP)."""
    cutting = finish(shell(), BOTH)
    found = {piece.id: cut.cuts[0] for piece, cut in cutting.pieces}
    assert found == {
        "CF": Cut("outer", "fold", 2),
        **{id: Cut("outer", "pair", 4) for id in ("SF", "SB", "CB")},
    }
    assert cutting.cut["CF"].text[2] == "Cut 2 on fold in outer cloth: 1 outer, 1 facing"
    assert cutting.cut["SF"].text[2] == "Cut 2 pairs in outer cloth: 1 outer, 1 facing"


def test_full_facing_in_another_cloth_is_one_on_the_fold_and_one_pair_of_each_in_each_cloth() -> None:
    """Common practice (CP)."""
    cutting = finish(shell(), Finish(facing="full", cloths=Cloths(outer="brocade", facing="cotton")))
    found = [(cut.cloth, cut.mode, cut.count) for piece, side in cutting.pieces for cut in side.cuts]
    for cloth in ("brocade", "cotton"):
        assert [entry[1:] for entry in found if entry[0] == cloth] == [("fold", 1), *[("pair", 2)] * 3]
    assert cutting.cut["CF/facing"].text[2] == "Cut 1 on fold in cotton"


def test_interfacing_is_cut_once_for_each_outer_piece() -> None:
    cutting = finish(shell(), replace(BOTH, interfacing=True))
    found = {id: cut.cuts for id, cut in cutting.cut.items() if id.endswith("interfacing")}
    assert found["CF/interfacing"] == (Cut("interfacing", "fold", 1),)
    assert found["SF/interfacing"] == (Cut("interfacing", "pair", 2),)


@pytest.mark.parametrize(
    ("given", "cut", "options", "words"),
    [
        (piece("half_on_fold"), Cut("outer", "fold", 1), Finish(), "Cut 1 on fold in outer cloth"),
        (piece(), Cut("silk", "pair", 2), Finish(), "Cut 1 pair in silk"),
        (piece(), Cut("silk", "pair", 4), BOTH, "Cut 2 pairs in silk: 1 outer, 1 facing"),
        (piece(hand="left"), Cut("outer", "single", 1), Finish(), "Cut 1 in outer cloth"),
        (piece(hand="left", layer="facing"), Cut("facing", "single", 1), Finish(), "Cut 1 face down in facing cloth"),
        (piece(hand="left"), Cut("outer", "single", 2), BOTH, "Cut 2 in outer cloth: 1 outer, 1 facing face down"),
        (piece("whole"), Cut("silk", "pair", 2), BOTH, "Cut 1 pair in silk: 1 outer, 1 facing"),
        (piece(layer="interfacing"), Cut("interfacing", "pair", 2), BOTH, "Cut 1 pair in interfacing"),
    ],
)
def test_counts_in_words(given: Piece, cut: Cut, options: Finish, words: str) -> None:
    """A facing has its good side inwards: a single one is the outer piece turned over (geometry)."""
    assert cut_words(given, cut, options) == words
