"""Lays of garments: what is laid, what is refused and with which remedy."""

from dataclasses import replace

import pytest
from lay.boxes import box
from plain_cutting_pattern import plain_cutting_pattern

from panelwright.body.units import Unit
from panelwright.errors import InputError, LayError
from panelwright.finish.cut_piece import Cut, CuttingPattern
from panelwright.lay.cloth import Cloth
from panelwright.lay.fault import lay_faults
from panelwright.lay.lay_garment import lay_garment, lay_pieces
from panelwright.lay.piece_to_cut import PieceToCut, cloths_of, pieces_to_cut
from panelwright.pattern.piece import Layer


def cloths(**given: object) -> dict[str, Cloth]:
    return {name: Cloth(name, **given) for name in ("outer", "facing")}  # type: ignore[arg-type]


def recut(cutting: CuttingPattern, piece: str, cut: Cut, **change: object) -> CuttingPattern:
    """The pattern with one piece cut otherwise, and drawn otherwise."""
    cut_piece = replace(cutting.cut[piece], cuts=(cut,))
    pattern = cutting.pattern.with_pieces(replace(cutting.pattern.piece(piece), **change))  # type: ignore[arg-type]
    return replace(cutting, pattern=pattern, cut={**cutting.cut, piece: cut_piece})


@pytest.mark.parametrize("folded", [True, False, None])
@pytest.mark.parametrize("one_way", [True, False])
def test_one_lay_for_each_cloth_with_every_piece_straight(folded: bool | None, one_way: bool) -> None:
    """The rule of the cutting table (common practice): the two distances from selvage to grain are equal."""
    cutting = plain_cutting_pattern()
    lays = lay_garment(cutting, cloths(folded=folded, one_way=one_way))
    assert [lay.cloth.name for lay in lays] == ["outer", "facing"]
    for lay in lays:
        assert lay.folded == (folded is not False)
        copies = [laid.piece.id.split("/")[0] for laid in lay.laid]
        assert sorted(copies) == sorted(["CF", *(3 - lay.folded - 1) * ["SF", "SB", "CB"]])
        for laid in lay.laid:
            near, far = lay.grain_distances(laid)
            assert near == pytest.approx(far, abs=1e-9)
            assert near > 0
        assert lay_faults(lay, [laid.piece for laid in lay.laid if laid.copy == 0]) == ()


def test_both_hands_come_out_of_cloth_that_is_spread_out() -> None:
    (lay, _) = lay_garment(plain_cutting_pattern(), cloths(folded=False))
    hands = sorted(laid.placement.mirrored for laid in lay.laid if laid.piece.id == "SF")
    assert hands == [False, True]
    (front,) = (laid for laid in lay.laid if laid.piece.id == "CF")
    assert front.piece.opened is not None


def test_twice_as_many_for_a_facing_of_the_same_cloth() -> None:
    """Common practice: CF 2 on the fold, other panels 2 pairs; combined it is never longer than two sets."""
    cutting = plain_cutting_pattern(faced=False)
    (once,) = lay_garment(cutting, cloths())
    twice = cutting
    for piece, cut_piece in cutting.pieces:
        (cut,) = cut_piece.cuts
        twice = recut(twice, piece.id, replace(cut, count=2 * cut.count))
    (both,) = lay_garment(twice, cloths())
    assert len(both.laid) == 2 * len(once.laid)
    assert once.length < both.length <= 2 * once.length + 10.0


@pytest.mark.parametrize(
    ("layer", "cut", "hands"),
    [
        ("outer", Cut("outer", "single", 1), (1, 0)),
        ("outer", Cut("outer", "single", 2), (1, 1)),  # one is its facing, face down
        ("outer", Cut("outer", "pair", 2), (1, 1)),
        ("outer", Cut("outer", "pair", 4), (2, 2)),
        ("facing", Cut("outer", "single", 1), (0, 1)),
        ("lining", Cut("outer", "single", 1), (0, 1)),
    ],
)
def test_how_many_lie_face_up_and_face_down(layer: Layer, cut: Cut, hands: tuple[int, int]) -> None:
    cutting = recut(plain_cutting_pattern(faced=False), "SF", cut, layer=layer)
    (piece,) = (piece for piece in pieces_to_cut(cutting, "outer") if piece.id == "SF")
    assert (piece.face_up, piece.face_down) == hands


def test_a_single_piece_opens_cloth_that_may_be_laid_either_way() -> None:
    cutting = recut(plain_cutting_pattern(faced=False), "SF", Cut("outer", "single", 1), hand="right")
    (lay,) = lay_garment(cutting, cloths())
    assert not lay.folded
    assert lay.spares == ()
    (told,) = lay_garment(cutting, cloths(folded=True))
    assert [laid.piece.id for laid in told.spares] == ["SF"]


def test_the_cloths_of_a_garment_are_those_of_its_pieces() -> None:
    assert cloths_of(plain_cutting_pattern()) == ("outer", "facing")


LONG_TIE = box("TIE", 900.0, 120.0, 1, 1)


@pytest.mark.parametrize(
    ("piece", "cloth", "words"),
    [
        (
            LONG_TIE,
            Cloth("silk", 1400.0, True),
            'Box TIE (TIE) is 90.0 cm across the grain and the cloth "silk", folded, is 70.0 cm wide: spread it out '
            "(in a file: folded, false), lay it lengthwise (in a file: of a tie, grain_along, true), take cloth at "
            "least 180.0 cm wide or put a seam across the piece",
        ),
        (
            box("CF", 400.0, 1500.0, fold=True),
            Cloth("silk", 700.0, None),
            'Box CF (CF) is 80.0 cm across the grain and the cloth "silk", spread out, is 70.0 cm wide: '
            "take cloth at least 80.0 cm wide or put a seam across the piece",
        ),
        (
            box("TIE", 5000.0, 1200.0),
            Cloth("silk", 1100.0, assumed=True),
            'Box TIE (TIE) is 500.0 cm across the grain and the cloth "silk", spread out, is 110.0 cm wide, as is '
            "assumed: put a seam across the piece",
        ),
    ],
)
def test_a_piece_too_wide_for_its_cloth_is_refused_with_remedies(piece: PieceToCut, cloth: Cloth, words: str) -> None:
    with pytest.raises(LayError) as caught:
        lay_pieces(cloth, [piece])
    assert str(caught.value) == words
    assert caught.value.where == "silk"


@pytest.mark.parametrize("remedied", [Cloth("silk", 1400.0, False), Cloth("silk", 1400.0), Cloth("silk", 1800.0, True)])
def test_each_remedy_helps(remedied: Cloth) -> None:
    assert lay_pieces(remedied, [LONG_TIE]).length >= 120.0


def test_a_refusal_speaks_in_inches_where_asked() -> None:
    with pytest.raises(LayError, match="is 35 3/8 in across the grain"):
        lay_pieces(Cloth("silk", 1400.0, True), [LONG_TIE], unit=Unit.INCH)


def test_every_cloth_must_be_known_and_is_looked_at_first() -> None:
    with pytest.raises(LayError, match='nothing is said about the cloth "facing": give its width') as caught:
        lay_garment(plain_cutting_pattern(), {"outer": Cloth("outer")})
    assert caught.value.where == "facing"


@pytest.mark.parametrize("spacing", [-0.1, 51.0, float("nan")])
def test_a_spacing_that_cannot_be(spacing: float) -> None:
    with pytest.raises(InputError, match="spacing"):
        lay_garment(plain_cutting_pattern(), cloths(), spacing)


def test_a_piece_too_wide_by_a_hair_is_told_in_millimetres() -> None:
    with pytest.raises(LayError, match=r"is 350\.02 mm across the grain .* is 350 mm wide"):
        lay_pieces(Cloth("silk", 700.0, True), [box("a", 350.02, 100.0)])


def test_of_several_the_widest_is_named() -> None:
    pieces = [box("a", 400.0, 100.0), box("b", 450.0, 100.0), box("c", 420.0, 100.0)]
    with pytest.raises(LayError, match=r"^Box b .* at least 90\.0 cm wide"):
        lay_pieces(Cloth("silk", 700.0, True), pieces)
