"""Names of marks: both ends of a tie share one, between them."""

import numpy as np
import pytest

from panelwright.drawing.mark_names import mark_names
from panelwright.pattern.mark import Mark


def named(*ids: str) -> list[tuple[str, float]]:
    marks = tuple(Mark(id, "point", (0.0, 10.0 * k)) for k, id in enumerate(ids))
    return [(name.text, float(name.at[1])) for name in mark_names(marks)]


def test_each_pair_of_ends_has_one_name_in_the_middle() -> None:
    found = named("bust-point", "front-ties-1-upper", "front-ties-1-lower", "front-ties-2-upper", "front-ties-2-lower")
    assert found == [("bust point", 0.0), ("tie 1", 15.0), ("tie 2", 35.0)]


def test_a_tie_that_is_the_only_one_has_no_number() -> None:
    assert named("sash-1-upper", "sash-1-lower") == [("tie", 5.0)]


@pytest.mark.parametrize("id", ["front-ties-1-upper", "halter-front-inner"])
def test_an_end_on_its_own_keeps_its_name(id: str) -> None:
    assert named(id) == [(id.replace("-", " "), 0.0)]


def test_only_points_are_named() -> None:
    drill = Mark("back/eyelet-1", "eyelet", tuple(np.zeros(2).tolist()))
    assert mark_names([drill]) == []
