from itertools import pairwise

import pytest

from panelwright.body.measurements import Measurements
from panelwright.body.size_table import SIZES, size
from panelwright.body.terms import REQUIRED
from panelwright.errors import InputError


def test_a_size_is_measurements_like_any_other() -> None:
    assert isinstance(size(88), Measurements)
    assert size(88).ref == "size-88"
    assert size(88).taken == REQUIRED
    assert size(88)["bust_girth"] == 880.0


def test_every_measurement_grows_with_the_size() -> None:
    for smaller, larger in pairwise(SIZES):
        for term in REQUIRED:
            assert size(smaller)[term] < size(larger)[term]


def test_an_unknown_size_is_refused_with_the_nearest() -> None:
    with pytest.raises(InputError, match="there is no size 87: sizes run from 76 to 128 cm of bust, the nearest is 88"):
        size(87)
