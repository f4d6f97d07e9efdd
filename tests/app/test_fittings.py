"""Fitting notes of several wearers: whose they are, and what cannot be told."""

import pytest

from panelwright.app.fittings import fittings_of
from panelwright.body.measurements import Measurements
from panelwright.body.size_table import size
from panelwright.errors import InputError
from panelwright.fitting.fitting import Fitting
from panelwright.fitting.seam_note import SeamNote

NOTE = SeamNote("n", "let-out", "side", "waist", 6.0)
PEOPLE = tuple(Measurements(ref, size(bust).values) for ref, bust in (("w-01", 84), ("w-02", 92), ("w-02", 96)))


def test_each_wearer_has_their_own_notes_or_none() -> None:
    fitting = Fitting("w-01", (NOTE,))
    assert fittings_of((*PEOPLE, PEOPLE[0]), [fitting]) == {PEOPLE[0]: fitting}
    assert fittings_of(PEOPLE, []) == {}


@pytest.mark.parametrize(
    ("refs", "told"),
    [
        (("w-03",), 'fitting notes of "w-03", .* only for w-01, w-02;'),
        (("w-02",), 'two people have the reference "w-02"'),
        (("w-01", "w-01"), 'two files of fitting notes of "w-01"'),
    ],
)
def test_whose_notes_they_are_must_be_plain(refs: tuple[str, ...], told: str) -> None:
    with pytest.raises(InputError, match=told):
        fittings_of(PEOPLE, [Fitting(ref, (NOTE,)) for ref in refs])
