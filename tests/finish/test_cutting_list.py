"""Cutting lists against the rules of the cutting table (common practice, CP)."""

from dataclasses import replace

from plain_cutting_pattern import shell
from worn_garment import HEM, TOP, Record, garment

from panelwright.finish.cutting_list import ClothList, cutting_lists
from panelwright.finish.finishing import finish
from panelwright.finish.options import Cloths, Finish

TIE: Record = {"kind": "tie", "uid": "tie", "from": "side"}
TWICE = Finish(facing="full", cloths=Cloths(facing="outer"))


def words(cloth: ClothList) -> dict[str, str]:
    return {row.piece: row.words for row in cloth.rows}


def test_a_three_piece_design_with_a_tie_and_full_self_facing_is_ten_pieces() -> None:
    """CF 2 on fold, SF 2 pairs, tie 2 pairs = 10 pieces (CP)."""
    (outer,) = cutting_lists(finish(garment([TOP, TIE]), TWICE))
    assert words(outer) == {"CF": "2 on fold", "SF": "2 pairs", "TIE": "2 pairs"}
    assert outer.total == 10
    assert [row.sets for row in outer.rows] == [2, 2, 2]


def test_a_facing_in_other_cloth_is_one_on_fold_and_one_pair_of_each_in_each_cloth() -> None:
    """(CP)"""
    cloths = Cloths(outer="brocade", facing="cotton")
    lists = cutting_lists(finish(garment([TOP, TIE]), Finish(facing="full", cloths=cloths)))
    assert [one.cloth for one in lists] == ["brocade", "cotton"]
    for one in lists:
        assert list(words(one).values()) == ["1 on fold", "1 pair", "1 pair"]
        assert (one.total, one.two_ways, one.one_set) == (5, "", ())


def test_the_same_cloth_twice_offers_one_set_cut_twice_or_one_combined_lay() -> None:
    """(CP)"""
    (outer,) = cutting_lists(finish(garment([TOP, TIE]), TWICE))
    assert [row.words for row in outer.one_set] == ["1 on fold", "1 pair", "1 pair"]
    assert 2 * sum(row.cut.count for row in outer.one_set) == outer.total
    assert "pin one set of 5 pieces and cut it twice, or lay all 10 together" in outer.two_ways


def test_a_cloth_that_is_cut_twice_in_part_only_has_no_set_to_cut_twice() -> None:
    (outer, _) = cutting_lists(finish(shell(), replace(TWICE, facing="none", interfacing=True)))
    assert (outer.one_set, outer.two_ways) == ((), "")


def test_a_whole_piece_and_a_piece_of_one_hand_halve_to_a_single() -> None:
    pattern = shell()
    left = replace(pattern.piece("SF"), hand="left")
    whole = replace(pattern.piece("SB"), extent="whole")
    (outer,) = cutting_lists(finish(pattern.with_pieces(left, whole), TWICE))
    assert {row.piece: row.words for row in outer.one_set}["SF"] == "1 single"
    assert {row.piece: row.words for row in outer.one_set}["SB"] == "1 single"


def test_every_piece_is_listed_once_a_cloth() -> None:
    cutting = finish(garment([TOP, HEM][:1]), Finish(facing="full", interfacing=True))
    listed = [row.piece for one in cutting_lists(cutting) for row in one.rows]
    assert sorted(listed) == sorted(cutting.cut)
    assert sum(one.total for one in cutting_lists(cutting)) == sum(
        cut.count for side in cutting.cut.values() for cut in side.cuts
    )
