"""How often each piece is cut, and in which cloth."""

from typing import Final

from panelwright.finish.cut_piece import Cut, CutMode
from panelwright.finish.options import Finish
from panelwright.pattern.piece import Piece

_WORDS: Final[dict[CutMode, tuple[str, str]]] = {
    "fold": ("on fold", "on fold"),
    "pair": ("pair", "pairs"),
    "single": ("", ""),
}


def cuts(piece: Piece, options: Finish) -> tuple[Cut, ...]:
    """One on the fold, a pair, or a single piece; outer and facing together where they share a cloth.

    A whole piece that is cut for both layers in one cloth is a pair: the facing lies the other way round.
    """
    cloth = options.cloths.of(piece.layer)
    twice = 2 if options.combined and piece.layer == "outer" else 1
    if piece.extent == "half_on_fold":
        return (Cut(cloth, "fold", twice),)
    if piece.extent == "one_side" and piece.hand == "both":
        return (Cut(cloth, "pair", 2 * twice),)
    if piece.extent == "whole" and twice == 2:
        return (Cut(cloth, "pair", 2),)
    return (Cut(cloth, "single", twice),)


def cut_words(piece: Piece, cut: Cut, options: Finish) -> str:
    """`Cut 1 on fold in outer cloth`, `Cut 2 pairs in festival silk: 1 outer, 1 facing`.

    A single facing is the outer piece turned over, which matters where left and right differ.
    """
    number = cut.count // 2 if cut.mode == "pair" else cut.count
    way = _WORDS[cut.mode][number != 1]
    if cut.mode == "single" and piece.layer == "facing":
        way = "face down"
    words = " ".join(filter(None, (f"Cut {number}", way, "in", cloth_words(cut.cloth))))
    return words + (_layers(piece, cut) if options.combined and piece.layer == "outer" else "")


def cloth_words(cloth: str) -> str:
    """The cloth's own name; one that is named after its layer is called `outer cloth`, `facing cloth`."""
    return f"{cloth} cloth" if cloth in ("outer", "facing") else cloth


def _layers(piece: Piece, cut: Cut) -> str:
    """Which of the pieces that are cut together go where; a whole piece's pair is one of each."""
    turned = " face down" if cut.mode == "single" else ""
    each = cut.count // 4 if piece.extent == "one_side" and cut.mode == "pair" else cut.count // 2
    return f": {each} outer, {each} facing{turned}"
