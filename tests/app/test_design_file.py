"""The design file: what is written comes back equal, what is left out is the program's default."""

import json
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelwright.app.demo.troupe import designs
from panelwright.app.design_file import design_document, load_design, read_design, save_design
from panelwright.app.garment_design import DEFAULT_STEPS, GarmentDesign
from panelwright.blocks.options import PLANS, BlockOptions, Ease, SeamPlace
from panelwright.checks.wearing import Wearing
from panelwright.design.top_edge import TopEdge
from panelwright.errors import InputError
from panelwright.finish.options import Cloths, Finish
from panelwright.pattern.level import LEVELS

PLAIN = {"format": "panelwright-design/1", "ref": "lantern-09", "title": "Lantern bodice"}

# Tapes are read to a millimetre at the finest.
millimetres = st.integers


@st.composite
def block_options(draw: st.DrawFn) -> BlockOptions:
    panels = draw(st.sampled_from([3, 4, 5, 6]))
    lines = [line for line, _ in PLANS[panels].lines]
    place = st.builds(SeamPlace, st.sampled_from(lines), st.sampled_from(LEVELS), millimetres(10, 1000).map(float))
    shape = draw(st.sampled_from(["shaped", "straight"]))
    return BlockOptions(
        ease=Ease(*(float(draw(millimetres(-150, 300))) for _ in range(7))),
        panels=panels,
        seams=tuple(draw(st.lists(place, max_size=4, unique_by=lambda place: (place.line, place.level)))),
        bust_point_offset=float(draw(millimetres(-40, 40))),
        centre_back_shape=shape,
        centre_back=draw(st.sampled_from(["opening", "seam", "fold"] if shape == "straight" else ["opening", "seam"])),
        keep=draw(st.sampled_from(["girth", "both", "length"])),
    )


widths = millimetres(0, 100).map(float)


@st.composite
def layers(draw: st.DrawFn) -> dict[str, object]:
    """Facing, lining, interfacing and turn of cloth that go together."""
    facing = draw(st.sampled_from(["none", "full", "edge"]))
    lining = draw(st.sampled_from(["none", "full", "to_facing"] if facing == "edge" else ["none", "full"]))
    return {
        "facing": facing,
        "facing_width": float(draw(millimetres(20, 200))),
        "hem_facing_width": float(draw(millimetres(20, 200))) if facing == "edge" and draw(st.booleans()) else 0.0,
        "lining": lining,
        "interfacing": draw(st.sampled_from([True, False] if facing == "none" else [True, False, "facing"])),
        "turn_of_cloth": draw(millimetres(0, 50)) / 10 if facing != "none" or lining != "none" else 0.0,
    }


finishes = st.builds(
    lambda inside, **others: Finish(**inside, **others),
    layers(),
    allowance=widths,
    kinds=st.dictionaries(st.sampled_from(["seam", "finished", "opening"]), widths),
    lines=st.dictionaries(st.sampled_from(["hem", "centre-back", "side"]), widths),
    corners=st.dictionaries(
        st.sampled_from(["turned_edge", "seam_end", "other"]), st.sampled_from(["mitre", "square", "fold_back"])
    ),
    cloths=st.builds(Cloths, *(st.sampled_from(["outer", "festival silk", "cotton"]) for _ in range(4))),
    extra_notches=st.sampled_from(["when_full", "always", "never"]),
    notch_distance=millimetres(15, 150).map(float),
)


@given(block_options(), finishes, st.builds(Wearing, st.sampled_from(["woven", "knit"]), st.booleans()))
def test_what_is_written_comes_back_equal(block: BlockOptions, finish: Finish, wearing: Wearing) -> None:
    design = GarmentDesign("lantern-09", "Lantern bodice", block, DEFAULT_STEPS, finish, wearing)
    assert read_design(json.dumps(design_document(design))) == design


@pytest.mark.parametrize("design", [cut.design for cut in designs()], ids=lambda design: str(design.ref))
def test_the_designs_of_the_troupe_come_back_equal(design: GarmentDesign, tmp_path: Path) -> None:
    save_design(design, tmp_path / "d.json")
    assert load_design(tmp_path / "d.json") == design


def test_what_is_left_out_is_the_default() -> None:
    assert read_design(json.dumps(PLAIN)) == GarmentDesign("lantern-09", "Lantern bodice")
    assert read_design(json.dumps({**PLAIN, "steps": []})).steps == ()


def test_centimetres_are_ten_millimetres() -> None:
    document = {
        **PLAIN,
        "block": {"ease_cm": {"upper-bust": -1.5}, "bust_point_offset_cm": 0.5},
        "finish": {"allowance_cm": 1.2, "allowance_by_line_cm": {"hem": 2.5}},
    }
    design = read_design(json.dumps(document))
    assert design.block.ease.upper_bust == -15
    assert design.block.bust_point_offset == 5
    assert design.finish.allowance == 12
    assert design.finish.lines == {"hem": 25}


def test_a_text_may_name_its_own_unit() -> None:
    """An inch is 25.4 mm exactly (ISO 80000-3)."""
    steps = [
        {
            "kind": "top-edge",
            "uid": "neckline",
            "shape": "scooped",
            "centre": {"level": "upper-bust", "offset_cm": "-1 1/2 in"},
            "side": {"level": "upper-bust", "offset_cm": "-5 mm"},
        }
    ]
    document = {
        **PLAIN,
        "block": {
            "ease_cm": {"upper-bust": "−1/2 in", "waist": "2,5 cm", "hip": "+1 in"},
            "seams": [{"line": "side", "level": "waist", "distance_cm": "4 in"}],
            "bust_point_offset_cm": "-1/8 in",
        },
        "steps": steps,
        "finish": {
            "allowance_cm": "5/8 in",
            "allowance_by_kind_cm": {"opening": "15 mm"},
            "allowance_by_line_cm": {"hem": "1¼ in"},
            "notch_distance_cm": "2 inches",
        },
    }
    design = read_design(json.dumps(document))
    ease = design.block.ease
    assert (ease.upper_bust, ease.waist, ease.hip) == (-12.7, 25, 25.4)
    assert design.block.seams[0].distance == pytest.approx(101.6, abs=1e-9)
    assert design.block.bust_point_offset == -3.175
    (neckline,) = design.steps
    assert isinstance(neckline, TopEdge)
    assert (neckline.centre.offset, neckline.side.offset) == (-38.1, -5)
    assert (design.finish.allowance, design.finish.notch_distance) == (15.875, 50.8)
    assert (design.finish.kinds, design.finish.lines) == ({"opening": 15}, {"hem": 31.75})
    assert read_design(json.dumps(design_document(design))) == design


def test_a_file_with_a_mark_of_byte_order_is_read(tmp_path: Path) -> None:
    """Some editors begin UTF-8 with one (Unicode 15, section 23.8)."""
    (tmp_path / "d.json").write_bytes(b"\xef\xbb\xbf" + json.dumps(PLAIN).encode())
    assert load_design(tmp_path / "d.json").ref == "lantern-09"


def test_what_is_off_and_what_is_noted_come_back() -> None:
    hem = {"kind": "hem", "uid": "hem", "shape": "straight", "centre": {"level": "waist"}, "side": {"level": "waist"}}
    zip = {"kind": "closure", "uid": "zip", "place": "centre-back", "type": "zip"}
    written = {**PLAIN, "steps": [{**hem, "off": True}, {**zip, "note": "from the old drum coat"}]}
    design = read_design(json.dumps(written))
    assert design_document(design)["steps"] == written["steps"]
    assert read_design(json.dumps(design_document(design))) == design
    assert design != read_design(json.dumps({**PLAIN, "steps": [hem, zip]}))


def test_a_design_without_the_steps_that_are_off_is_the_same_garment() -> None:
    hem = {"kind": "hem", "uid": "hem", "shape": "straight", "centre": {"level": "waist"}, "side": {"level": "waist"}}
    strap = {"kind": "strap", "uid": "straps"}
    listed = read_design(json.dumps({**PLAIN, "steps": [{**hem, "off": True}, {**strap, "off": True}]}))
    without = read_design(json.dumps({**PLAIN, "steps": []}))
    assert listed.block_options == without.block_options
    assert [step for step in listed.design.steps if step.uid not in listed.off] == [
        replace(step, uid=f"default-{step.uid}") if step.uid == "hem" else step for step in without.design.steps
    ]
    on = read_design(json.dumps({**PLAIN, "steps": [hem, strap]}))
    assert on.block_options.top == "shoulder" != listed.block_options.top


def test_what_is_said_of_a_step_that_is_not_there_is_refused() -> None:
    with pytest.raises(InputError, match='no step "hemm" to switch off'):
        GarmentDesign("lantern-09", "Lantern bodice", off=frozenset({"hemm"}))


@pytest.mark.parametrize(
    ("changes", "where"),
    [
        ({"block": {"panels": "4"}}, "block.panels"),
        ({"block": {"seams": [{"line": "side", "level": "waist"}]}}, "block.seams[1].distance_cm"),
        ({"block": {"ease_cm": {"waist": 99}}}, "block.ease.waist"),
        ({"finish": {"allowance_cm": 99}}, "finish.allowance"),
        ({"finish": None}, "finish"),
        ({"title": ""}, "title"),
        ({"ref": "-"}, "ref"),
        ({"format": None}, "format"),
    ],
)
def test_an_error_says_where(changes: dict[str, object], where: str) -> None:
    with pytest.raises(InputError) as caught:
        read_design(json.dumps({**PLAIN, **changes}))
    assert caught.value.where == where
