"""The patterns of the reference sheet cannot be taken for each other, however the sheet lies."""

from itertools import combinations

import numpy as np

from panelwright.drawing.reference_markers import DIFFERING, PER_SHEET, markers, patterns


def turned(pattern: np.ndarray) -> list[np.ndarray]:
    return [np.rot90(pattern, quarter) for quarter in range(4)]


def test_every_two_patterns_differ_in_many_fields_however_they_are_turned() -> None:
    every = patterns()
    assert every.shape == (2 * PER_SHEET, 5, 5)
    assert min((one != other).sum() for a, one in combinations(every, 2) for other in turned(a)) >= DIFFERING
    assert min((one != other).sum() for one in every for other in turned(one)[1:]) >= DIFFERING


def test_a_marker_shows_its_pattern() -> None:
    for marker in markers("A4")[:5]:
        pattern = patterns()[marker.number]
        assert {(column, row) for row, column in np.argwhere(pattern == 1)} == set(marker.white)
