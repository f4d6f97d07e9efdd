"""The cloth of a design file: what is written comes back equal, what cannot be is refused by its field."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelwright.app.design_file import design_document, read_design
from panelwright.app.garment_design import GarmentDesign
from panelwright.errors import InputError
from panelwright.lay.cloth import Cloth

PLAIN = {"format": "panelwright-design/1", "ref": "lantern-09", "title": "Lantern bodice"}


def with_cloth(**cloth: object) -> str:
    return json.dumps({**PLAIN, "cloth_to_buy": {"outer": cloth}})


cloths = st.builds(
    Cloth,
    st.just("outer"),
    width=st.integers(100, 4000).map(float),
    folded=st.sampled_from([True, False, None]),
    one_way=st.booleans(),
    shrinkage=st.integers(0, 30).map(lambda percent: percent / 100),
    sold_by=st.integers(1, 1000).map(float),
    price=st.none() | st.floats(0, 500),
)


@given(cloths)
def test_what_is_written_comes_back_equal(cloth: Cloth) -> None:
    design = GarmentDesign("lantern-09", "Lantern bodice", cloths=(cloth,))
    assert read_design(json.dumps(design_document(design))) == design


def test_an_assumed_width_stays_assumed() -> None:
    design = read_design(with_cloth(one_way=True))
    assert design.cloths == (Cloth("outer", one_way=True, assumed=True),)
    assert read_design(json.dumps(design_document(design))) == design


def test_units_of_the_file() -> None:
    """An inch is 25.4 mm, a yard 36 inches (ISO 80000-3)."""
    text = with_cloth(width_cm="45 in", folded=True, shrinkage_percent=5, sold_by_cm="36 in", price_per_metre=12.5)
    (cloth,) = read_design(text).cloths
    assert cloth == Cloth("outer", 1143.0, True, False, 0.05, 914.4, 12.5)


@pytest.mark.parametrize(
    ("cloth", "where", "words"),
    [
        ({"width_cm": 5}, "cloth_to_buy.outer.width_cm", "the width is 5 cm; give between 10 and 400 cm"),
        ({"width_cm": "wide"}, "cloth_to_buy.outer.width_cm", "is not a length"),
        ({"shrinkage_percent": 40}, "cloth_to_buy.outer.shrinkage_percent", "give between 0 and 30"),
        ({"sold_by_cm": 0}, "cloth_to_buy.outer.sold_by_cm", "give between 0.1 and 1000 cm"),
        ({"price_per_metre": -1}, "cloth_to_buy.outer.price_per_metre", "give 0 or more"),
        ({"folded": "yes"}, "cloth_to_buy.outer.folded", "must be true or false"),
        ({"widht_cm": 140}, "cloth_to_buy.outer", "width_cm"),
    ],
)
def test_cloth_that_cannot_be(cloth: dict[str, object], where: str, words: str) -> None:
    with pytest.raises(InputError) as caught:
        read_design(with_cloth(**cloth))
    assert where in str(caught.value)
    assert words in str(caught.value)


def test_cloth_that_no_layer_is_cut_from() -> None:
    with pytest.raises(InputError, match='no layer is cut from "velvet"; choose among outer, facing') as caught:
        read_design(json.dumps({**PLAIN, "cloth_to_buy": {"velvet": {"width_cm": 140}}}))
    assert caught.value.where == "cloth_to_buy.velvet"
    named = {**PLAIN, "finish": {"cloths": {"outer": "velvet"}}, "cloth_to_buy": {"velvet": {"width_cm": 140}}}
    assert read_design(json.dumps(named)).cloths == (Cloth("velvet", 1400.0),)
