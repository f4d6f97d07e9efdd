"""Codes of pieces: one for each shape, in plain words where they are names."""

import pytest
from drawn_garment import garment

from panelwright.finish.finishing import finish
from panelwright.finish.options import Finish
from panelwright.finish.piece_code import code_words, shape_of


@pytest.mark.parametrize(
    ("id", "words"),
    [
        ("SF", "SF"),
        ("TIE-2", "TIE-2"),
        ("SF/hem-facing", "SF/hem-facing"),
        ("back-modesty-panel", "back modesty panel"),
        ("hooks-underlap/facing", "hooks underlap/facing"),
    ],
)
def test_names_lose_their_hyphens_and_codes_keep_them(id: str, words: str) -> None:
    assert code_words(id) == words


def test_the_text_of_a_piece_gives_the_code_of_its_shape() -> None:
    """An interfacing has its facing's outline, and a facing of the full depth has the panel's."""
    cutting = finish(garment().pattern, Finish(facing="edge", interfacing="facing"))
    own = {piece.id: piece for piece in cutting.pattern.pieces}
    assert {cut.code for _, cut in cutting.pieces} >= {"CF", "SF", "SF/facing"}
    assert cutting.cut["SF/facing/interfacing"].code == "SF/facing"
    assert finish(garment().pattern, Finish(facing="full")).cut["SF/facing"].code == "SF"
    for piece, cut in cutting.pieces:
        assert cut.code == code_words(shape_of(piece, own).id)
