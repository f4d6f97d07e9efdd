"""Several garments on one cloth: every piece of each is cut, soundly, in lays that the table has room for."""

from collections import Counter
from pathlib import Path

import pytest
from lay.boxes import box
from lay.garment_instance import lay_verifier, written
from plain_cutting_pattern import plain_cutting_pattern

from panelwright.errors import InputError, LayError
from panelwright.lay.cloth import Cloth
from panelwright.lay.garment_pieces import GarmentPieces, marks
from panelwright.lay.group_lay import ClothToBuy, group_cloth
from panelwright.lay.laid_ways import shortest_way
from panelwright.lay.lay import Lay
from panelwright.lay.piece_to_cut import PieceToCut, pieces_to_cut
from panelwright.lay.planned_lay import Planning
from panelwright.lay.search.budget import Budget

PLAIN = pieces_to_cut(plain_cutting_pattern(), "outer")


def garments(*counts: int) -> list[GarmentPieces]:
    return [
        GarmentPieces(mark, f"Bodice {mark}", PLAIN, count)
        for mark, count in zip(marks(len(counts)), counts, strict=True)
    ]


def pieces_on(lay: Lay) -> list[PieceToCut]:
    return list({laid.piece.id: laid.piece for laid in lay.laid}.values())


def given(bought: ClothToBuy) -> Counter[str]:
    """How many pieces of each kind all lays give: on folded cloth a place beside the fold gives two."""
    count: Counter[str] = Counter()
    for lay in bought.lays:
        for laid in lay.laid:
            count[laid.piece.id] += 2 if lay.folded and laid.piece.fold is None else 1
    return count


@pytest.mark.parametrize("folded", [True, False, None])
@pytest.mark.parametrize(("longest", "one_way"), [(600.0, True), (4000.0, False)])
def test_every_piece_of_every_garment_is_cut_soundly(
    folded: bool | None, longest: float, one_way: bool, shared: Path
) -> None:
    """On one-way cloth the verifier lets no piece be turned round."""
    verify = lay_verifier(shared)
    bought = group_cloth(Cloth("outer", 1400.0, folded, one_way), garments(1, 2), longest=longest)
    wanted = {f"{mark}/{piece.id}": count * piece.count for mark, count in (("A", 1), ("B", 2)) for piece in PLAIN}
    assert given(bought) == wanted
    for lay in bought.lays:
        assert lay.folded in ((True, False) if folded is None else (folded,))
        assert lay.length <= longest
        length, _, bad = verify(*written(lay, pieces_on(lay)))
        assert bad == []
        assert length == pytest.approx(lay.length, abs=0.01)


def test_together_they_need_no_more_than_one_after_another() -> None:
    cloth = Cloth("outer", 1400.0, folded=True)
    bought = group_cloth(cloth, garments(1, 1, 1))
    assert len(bought.lays) == 1
    assert bought.length < 3 * shortest_way(cloth, PLAIN).length
    assert bought.use > shortest_way(cloth, PLAIN).use


def test_what_to_buy_is_rounded_once_over_all_lays_with_spare_and_shrinkage() -> None:
    """Four bands of 400 mm, two to a lay of at most 900 mm: by hand 2 · (2 · 400 + 2) + 2 = 1606 mm, and so on."""
    band = [GarmentPieces("A", "Band", (box("A", 500.0, 400.0),), 4)]
    cloth = Cloth("outer", 600.0, folded=False, shrinkage=0.05, sold_by=100.0, price=8.0)
    bought = group_cloth(cloth, band, spare=0.1, longest=900.0)
    assert [len(lay.laid) for lay in bought.lays] == [2, 2]
    assert bought.length == pytest.approx(1606.0, abs=1.0)
    assert bought.to_buy == 1900.0  # 1606 · 1.1 / 0.95 = 1860
    assert bought.cost == pytest.approx(15.2)
    assert bought.use == pytest.approx(4 * 500 * 400 / (600 * (bought.length - 2)), rel=1e-3)


def test_one_garment_longer_than_the_table_lies_alone() -> None:
    long = [GarmentPieces("A", "Sash", (box("A", 100.0, 1500.0),), 2)]
    bought = group_cloth(Cloth("outer", 150.0, folded=False), long, longest=1000.0)
    assert [round(lay.length) for lay in bought.lays] == [1500, 1500]


def test_a_search_never_makes_it_longer() -> None:
    own = [
        GarmentPieces("A", "One", (box("A", 230.0, 410.0, fold=True), box("B", 190.0, 300.0, 1, 1))),
        GarmentPieces("B", "Two", (box("A", 210.0, 380.0, fold=True), box("B", 150.0, 320.0, 2, 2))),
    ]
    cloth = Cloth("outer", 900.0, folded=True)
    quick, long = (group_cloth(cloth, own, planning=plan) for plan in (None, Planning(Budget(moves=400))))
    assert long.length <= quick.length + 1e-6
    assert given(long) == given(quick)


def test_marks_are_letters_and_never_twice() -> None:
    assert marks(3) == ["A", "B", "C"]
    assert marks(30)[24:30] == ["Y", "Z", "AA", "AB", "AC", "AD"]
    assert len(set(marks(300))) == 300


def test_what_cannot_be_laid_is_refused_with_the_garments_name() -> None:
    cloth = Cloth("outer", 400.0)
    wide = [*garments(1), GarmentPieces("B", "Cape for w-09", (box("CAPE", 450.0, 300.0),))]
    with pytest.raises(LayError, match=r"Cape for w-09: Box CAPE \(CAPE\) is 45.0 cm across the grain"):
        group_cloth(cloth, wide)
    for fault, sentence in (
        ({"garments": []}, "no garment has pieces"),
        ({"garments": garments(1), "spare": 0.6}, "60 percent are spare; give between 0 and 50"),
        ({"garments": garments(1), "longest": 100.0}, "the longest lay is 10 cm; give between 50 and 3000 cm"),
    ):
        with pytest.raises(InputError, match=sentence):
            group_cloth(Cloth("outer"), **fault)  # type: ignore[arg-type]
    with pytest.raises(InputError, match="Band is wanted 0 times"):
        GarmentPieces("A", "Band", PLAIN, 0)
