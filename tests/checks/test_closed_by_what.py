"""Findings about what closes a garment: ties that are there, zips that can be bought. Real garments, both sides."""

from pathlib import Path
from typing import Any

import numpy as np
import pytest
from verifier import violations
from worn_garment import HIGH, TOP, closure, garment

from panelwright.body.units import Unit
from panelwright.checks import Wearing, check, check_drafting
from panelwright.checks.tied_closure import check_tied_closures
from panelwright.checks.zip_sold import check_zips_sold
from panelwright.design.zip_length import SOLD_CM, is_sold, nearest_sold
from panelwright.finish.finishing import finish
from panelwright.output.pattern_document import pattern_to_json

TIED = closure("centre-back", "tie")
FRONT = closure("centre-front", "tie")


def ties(start: str, **more: object) -> dict[str, Any]:
    return {"kind": "tie", "uid": "ties", "from": start, **more}


@pytest.mark.parametrize(
    ("closures", "missing"),
    [
        ([], []),
        ([TIED], ["centre-back-closure"]),
        ([TIED, ties("centre-back")], []),
        ([TIED, ties("centre-back", count=3)], []),
        ([TIED, FRONT, ties("centre-front")], ["centre-back-closure"]),
        ([{**TIED, "opening_cm": 15}], ["centre-back-closure"]),
        ([{**TIED, "opening_cm": 15}, ties("centre-back", count=2)], []),
        ([ties("centre-back")], []),
        ([ties("side")], []),
        ([TIED, ties("side")], []),
        ([TIED, ties("caught-in-side")], ["centre-back-closure"]),
        ([closure("centre-back", "zip"), closure("side", "tie")], ["side-closure"]),
        ([closure("centre-back", "zip"), closure("side", "tie"), ties("caught-in-side")], ["side-closure"]),
        ([closure("centre-back", "hooks")], []),
    ],
)
def test_edges_that_ties_are_to_hold_need_ties(closures: list[dict[str, Any]], missing: list[str]) -> None:
    """CP: what nothing holds together stands open."""
    found = check_tied_closures(garment([TOP], closures))
    assert [(finding.code, finding.subject) for finding in found] == [("ties-missing", subject) for subject in missing]
    for finding in found:
        assert (finding.severity, finding.value, finding.limit) == ("warning", 0, 1)
        place = finding.subject.removesuffix("-closure")
        assert f"The {place.replace('-', ' ')} is to be held by ties" in finding.message
        assert ("a zip or hooks" if place == "side" else f"a step of kind tie, from {place})") in finding.remedy


def test_it_is_told_with_the_others() -> None:
    cutting = finish(garment([TOP], [TIED]))
    assert "ties-missing" in {finding.code for finding in check(cutting)}


@pytest.mark.parametrize("place", ["centre-back", "centre-front"])
@pytest.mark.parametrize("top", [TOP, HIGH])
@pytest.mark.parametrize("count", [1, 3])
def test_ties_are_spread_over_the_part_that_opens(place: str, top: dict[str, Any], count: int, shared: Path) -> None:
    """G: every strip lies on the 15 cm that open, counted from the upper edge down along the edge."""
    pattern = garment([top], [closure(place, "tie", opening_cm=15), ties(place, count=count)])
    (closing,) = [one for one in pattern.closures if one.place == place]
    assert closing.opening == pytest.approx(150.0)
    middles = []
    for seam in pattern.seams:
        if seam.kind == "attach":
            edge = pattern.edge(seam.a[0])
            ends = [edge.line_curve.nearest(pattern.along_chain(seam.a, arc)[1])[0] for arc in (0.0, 30.0)]
            assert closing.low - 1e-6 <= min(ends)
            assert max(ends) <= closing.high + 1e-6
            middles.append(np.mean(ends))
    assert len(middles) == count
    if count > 1:
        assert np.diff(middles) == pytest.approx([np.diff(middles)[0]] * (count - 1), abs=1e-3)
        assert (middles[0], middles[-1]) == pytest.approx((closing.high - 25.0, closing.low + 25.0), abs=1e-3)
    cutting = finish(pattern)
    assert check_drafting(cutting) == ()
    assert violations(shared, pattern_to_json(cutting)) == []


@pytest.mark.parametrize(
    ("more", "sentence"),
    [
        ({"count": 5}, "5 ties of 3.0 cm have no room on an edge of 15.0 cm"),
        ({"height": {"level": "top-hip"}}, "past the end of the centre back opening; raise it by that much"),
    ],
)
def test_ties_beside_the_opening_are_refused(more: dict[str, Any], sentence: str) -> None:
    with pytest.raises(AssertionError) as caught:
        garment([TOP], [closure("centre-back", "tie", opening_cm=15), ties("centre-back", **more)])
    assert sentence in str(caught.value)


def test_a_part_closed_otherwise_says_how_it_is_closed() -> None:
    with pytest.raises(AssertionError, match="is closed already, by the step “Closure: centre back, centred zip”"):
        garment([TOP], [closure("centre-back", "zip", opening_cm=15), ties("centre-back")])


@pytest.mark.parametrize(
    ("zip_cm", "nearest", "advised"),
    [
        (None, None, None),
        (51, None, None),
        ("20 in", None, None),  # 50.8 cm: sold as 51
        (50, "46.0 cm and 51.0 cm", "51.0 cm"),
        (47, "46.0 cm and 51.0 cm", "51.0 cm"),
        (51.4, "51.0 cm and 53.0 cm", "53.0 cm"),
        (80, "is 76.0 cm", "76.0 cm"),
    ],
)
def test_a_zip_that_is_not_sold_is_told_with_the_nearest(
    zip_cm: float | str | None, nearest: str | None, advised: str | None
) -> None:
    """R: a stockist's list; whole inches were rounded to its cm."""
    more = {} if zip_cm is None else {"zip_cm": zip_cm}
    found = check_zips_sold(garment([TOP], [closure("side", "zip", down_to={"level": "hip"}, **more)]), Wearing())
    assert [finding.code for finding in found] == ([] if nearest is None else ["zip-not-sold"])
    for finding in found:
        assert finding.severity == "advice"
        assert str(nearest) in finding.message
        assert finding.limit / 10 in SOLD_CM
        assert advised is None or advised in finding.message


def test_the_nearest_that_closes_the_opening_is_advised() -> None:
    (short,) = check_zips_sold(garment([TOP], [closure("centre-back", "zip", opening_cm=19, zip_cm=19)]), Wearing())
    assert "18.0 cm and 20.0 cm" in short.message
    assert "Give the step “Closure: centre back, centred zip” 20.0 cm" in short.remedy
    (far,) = check_zips_sold(garment([TOP], [closure("centre-back", "zip", opening_cm=19, zip_cm=12)]), Wearing())
    assert "Leave the length out of the step “Closure: centre back, centred zip”" in far.remedy
    pattern = garment([TOP], [closure("centre-back", "zip", opening_cm=19, zip_cm=19)])
    (inches,) = check_zips_sold(pattern, Wearing(unit=Unit.INCH))
    assert " in is not among the 23 lengths sold" in inches.message


def test_every_length_of_the_list_and_its_inches_are_sold() -> None:
    """R: the list's cm are whole inches, rounded: 4 in and 10 cm up to 30 in and 76 cm."""
    assert all(is_sold(cm * 10.0) for cm in SOLD_CM)
    assert [inches for inches in range(1, 40) if is_sold(inches * 25.4)] == [
        *range(4, 19),
        20,
        21,
        22,
        24,
        26,
        27,
        28,
        30,
    ]
    assert not is_sold(115.0)
    assert (nearest_sold(50.0), nearest_sold(480.0), nearest_sold(900.0)) == ((100.0,), (460.0, 510.0), (760.0,))


@pytest.mark.parametrize("start", ["centre-back", "caught-in-side"])
def test_a_bodice_to_the_neck_base_takes_ties(start: str, shared: Path) -> None:
    """Its neckline and armholes are the block's own, and finished edges all the same."""
    cutting = finish(garment([HIGH], [TIED, ties("centre-back")] if start == "centre-back" else [ties(start)]))
    assert violations(shared, pattern_to_json(cutting)) == []
