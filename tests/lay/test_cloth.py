"""Cloth: what is bought, and what is refused."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelwright.errors import InputError
from panelwright.lay.cloth import Cloth


@pytest.mark.parametrize(
    ("length", "shrinkage", "sold_by", "bought"),
    [
        (950.0, 0.0, 100.0, 1000.0),
        (1000.0, 0.0, 100.0, 1000.0),
        (1000.1, 0.0, 100.0, 1100.0),
        (950.0, 0.05, 100.0, 1000.0),  # 950 / 0.95 is 1000 exactly
        (951.0, 0.05, 100.0, 1100.0),
        (900.0, 0.1, 1000.0, 1000.0),
        (1.0, 0.0, 914.4, 914.4),  # a yard is 0.9144 m exactly (ISO 80000-3)
    ],
)
def test_what_is_bought(length: float, shrinkage: float, sold_by: float, bought: float) -> None:
    assert Cloth("outer", shrinkage=shrinkage, sold_by=sold_by).to_buy(length) == pytest.approx(bought, abs=1e-6)


@given(st.floats(1, 20_000), st.floats(0, 0.3), st.floats(1, 2000))
def test_after_washing_there_is_enough_and_one_step_less_would_not_do(
    length: float, shrinkage: float, sold_by: float
) -> None:
    bought = Cloth("outer", shrinkage=shrinkage, sold_by=sold_by).to_buy(length)
    assert bought * (1 - shrinkage) >= length - 1e-5
    assert (bought - sold_by) * (1 - shrinkage) < length
    assert bought / sold_by == pytest.approx(round(bought / sold_by), abs=1e-9)


def test_a_price_is_of_a_metre() -> None:
    assert Cloth("outer", price=12.5).cost(800.0) == pytest.approx(10.0)
    assert Cloth("outer").cost(800.0) is None


@pytest.mark.parametrize(
    ("given", "where"),
    [
        ({"name": " "}, "name"),
        ({"width": 99.0}, "width"),
        ({"width": math.nan}, "width"),
        ({"width": 4001.0}, "width"),
        ({"shrinkage": -0.01}, "shrinkage"),
        ({"shrinkage": 0.31}, "shrinkage"),
        ({"sold_by": 0.0}, "sold_by"),
        ({"sold_by": math.inf}, "sold_by"),
        ({"price": -1.0}, "price"),
        ({"price": math.nan}, "price"),
    ],
)
def test_cloth_that_cannot_be(given: dict[str, float], where: str) -> None:
    with pytest.raises(InputError) as caught:
        Cloth(**{"name": "outer", **given})
    assert caught.value.where == where
