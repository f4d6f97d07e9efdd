import math
import pickle

import pytest

from panelwright.errors import InputError
from panelwright.finish.options import Cloths, Finish


def test_the_usual_finish_is_ten_millimetres_all_round() -> None:
    """10 mm all round: common practice (CP)."""
    usual = Finish()
    assert usual.allowance == 10.0
    assert (usual.facing, usual.interfacing, usual.combined) == ("none", "none", False)


def test_a_facing_is_cut_with_the_outer_piece_only_if_both_share_a_cloth() -> None:
    assert Finish(facing="full", cloths=Cloths(facing="outer")).combined
    assert not Finish(facing="full").combined
    assert not Finish(cloths=Cloths(facing="outer")).combined


def test_options_are_values() -> None:
    one, other = Finish(lines={"hem": 25, "top": 8}), Finish(lines={"top": 8, "hem": 25})
    assert one == other
    assert hash(one) == hash(other)
    assert one != Finish(lines={"hem": 25})
    with pytest.raises(TypeError):
        one.lines["hem"] = 3.0  # type: ignore[index]


def test_options_travel_to_another_process() -> None:
    one = Finish(lines={"hem": 25}, kinds={"seam": 15.0}, facing="edge", facing_width=40.0)
    assert pickle.loads(pickle.dumps(one)) == one


def test_changing_the_given_mapping_does_not_change_the_options() -> None:
    given = {"hem": 25.0}
    options = Finish(lines=given)
    given["hem"] = 0.0
    assert options.lines["hem"] == 25.0


@pytest.mark.parametrize("width", [0.0, 0.1, 100.0])
def test_the_limits_themselves_are_taken(width: float) -> None:
    assert Finish(allowance=width, lines={"hem": width}, kinds={"opening": width}).allowance == width


REFUSED = [
    ({"allowance": -1.0}, "the seam allowance is -0.1 cm; give between 0 and 10 cm", "allowance"),
    ({"allowance": 100.1}, "the seam allowance is 10.01 cm; give", "allowance"),
    ({"allowance": 250.0}, "the seam allowance is 25 cm; give", "allowance"),
    ({"allowance": math.nan}, "the seam allowance is nan cm; give", "allowance"),
    ({"allowance": math.inf}, "the seam allowance is inf cm; give", "allowance"),
    ({"lines": {"hem": -5.0}}, 'the allowance of "hem" is -0.5 cm; give', "lines.hem"),
    ({"lines": {"hem": 25.0, "top": 900.0}}, 'the allowance of "top" is 90 cm; give', "lines.top"),
    ({"kinds": {"opening": 101.0}}, "the allowance of opening edges is 10.1 cm; give", "kinds.opening"),
    ({"kinds": {"fold": 10.0}}, '"fold"; choose seam, finished or opening', "kinds"),
    ({"corners": {"hem": "mitre"}}, '"hem"; choose turned_edge, seam_end or other', "corners"),
    ({"corners": {"other": "round"}}, '"round"; choose mitre, square or fold_back', "corners.other"),
    ({"facing": "half"}, 'the facing is "half"; choose none, full or edge', "facing"),
    ({"facing": "edge", "facing_width": 10.0}, "the facing is 1 cm; give between 2 and 20 cm", "facing_width"),
    ({"lining": "to_facing"}, 'needs a facing of a width; choose the facing "edge"', "lining"),
    ({"lining": "to_facing", "facing": "full"}, 'or the lining "full"', "lining"),
    ({"hem_facing_width": 40.0}, 'a hem facing goes with the facing "edge"', "hem_facing_width"),
    ({"facing": "edge", "hem_facing_width": 300.0}, "the hem facing is 30 cm; give between", "hem_facing_width"),
    ({"interfacing": "facing"}, "there is no facing; choose a facing", "interfacing"),
    ({"interfacing": "half"}, 'the interfacing is "half"; choose none, full or facing', "interfacing"),
    ({"turn_of_cloth": 1.0}, "there is neither; choose one, or leave it out", "turn_of_cloth"),
    (
        {"facing": "full", "turn_of_cloth": 9.0},
        "the turn of cloth is 0.9 cm; give between 0 and 0.5 cm",
        "turn_of_cloth",
    ),
    ({"extra_notches": "often"}, '"often"; choose when_full, always or never', "extra_notches"),
    ({"notch_distance": 10.0}, "1 cm from the bust point; give between 1.5 and 15 cm", "notch_distance"),
    ({"notch_distance": math.nan}, "nan cm from the bust point; give", "notch_distance"),
]


@pytest.mark.parametrize(("fields", "sentence", "where"), REFUSED)
def test_an_option_that_cannot_be_is_refused_in_one_sentence(fields: dict, sentence: str, where: str) -> None:
    with pytest.raises(InputError) as refusal:
        Finish(**fields)
    assert sentence in str(refusal.value)
    assert refusal.value.where == where
    assert "\n" not in str(refusal.value)


@pytest.mark.parametrize("layer", ["outer", "facing", "interfacing", "lining"])
def test_a_cloth_needs_a_name(layer: str) -> None:
    with pytest.raises(InputError, match=f"the cloth of the {layer} has no name"):
        Cloths(**{layer: "  "})


def test_true_and_false_stand_for_full_and_no_interfacing() -> None:
    assert Finish(interfacing=True) == Finish(interfacing="full")
    assert hash(Finish(interfacing=False)) == hash(Finish(interfacing="none"))


def test_turn_of_cloth_makes_a_self_facing_a_piece_of_its_own() -> None:
    """It is smaller than the outer piece, so the two cannot be cut as one."""
    same = Cloths(facing="outer")
    assert Finish(facing="full", cloths=same).combined
    assert not Finish(facing="full", cloths=same, turn_of_cloth=1.0).combined
