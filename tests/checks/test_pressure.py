"""Pressure of a tight waist, and the cautions. Values marked R are outside values, with their source beside them."""

import math
import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from plain_cutting_pattern import plain_cutting_pattern, shell

from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions, Ease
from panelwright.body.measurements import Measurements
from panelwright.body.units import Unit
from panelwright.checks import Wearing, check_wearing
from panelwright.checks.bones_order import check_bones_order
from panelwright.checks.cautions import cautions
from panelwright.checks.wearer_pressure import (
    DISCOMFORT,
    MMHG_PER_KPA,
    band_pressure,
    check_pressure,
    waist_pressure,
)
from panelwright.pattern.closure import Closure
from panelwright.pattern.level import Level
from panelwright.pattern.notion import Notion
from panelwright.pattern.pattern import Pattern, StepRecord

WOVEN = Wearing()
BONED = Wearing(boned=True)


def under(share: float, level: str = "waist") -> Pattern:
    """The plain shell on a body whose girth at a level is so much larger that the shell is a share under it."""

    def fitted(found: Level) -> Level:
        body = found.finished_girth / (1 - share) if found.id == level else found.body_girth
        return replace(found, body_girth=body, ease=found.finished_girth - body)

    return replace(shell(), levels=tuple(map(fitted, shell().levels)))


def laced(pattern: Pattern) -> Pattern:
    closure = Closure("back", "centre-back", "lacing", "", "centre", "centre-back", 0.0, 300.0, gap=50.0)
    return replace(pattern, closures=(closure,))


@pytest.mark.parametrize(("tension", "pressure"), [(200.0, 1.67), (500.0, 4.17)])
def test_a_band_presses_with_tension_by_radius(tension: float, pressure: float) -> None:
    """R: compression-bandage literature, P = T / r on a radius of 120 mm."""
    assert band_pressure(tension, 120.0) == pytest.approx(pressure, abs=0.005)


def test_kilopascals_and_millimetres_of_mercury_are_one_limit() -> None:
    """R: discomfort at a waistband above about 35 mmHg (4.7 kPa), Fiber 47(6) 282; standard gravity, 13.5951 g/cm³."""
    assert pytest.approx(35.0, abs=0.5) == DISCOMFORT * MMHG_PER_KPA
    assert pytest.approx(1.0 / (13.5951 * 9.80665 / 1000), rel=1e-5) == MMHG_PER_KPA


@given(st.floats(400.0, 1500.0), st.floats(0.06, 0.3))
def test_a_waist_is_taken_for_a_cylinder_of_its_own_girth(body: float, share: float) -> None:
    """G: 2πr = girth, so P · girth / 2π is the tension again; a smaller waist is pressed harder."""
    waist = Level("waist", "Waist", 0.0, body, -share * body, ())
    found = waist_pressure(replace(shell(), levels=(waist,)), WOVEN)
    assert found is not None
    for pressure, tension in ((found.low, 200.0), (found.high, 500.0)):
        assert pressure * body / (2 * math.pi) == pytest.approx(tension, rel=1e-9)
    assert found.reduction == pytest.approx(share)


@pytest.mark.parametrize(("share", "told"), [(-0.02, False), (0.049, False), (0.051, True), (0.15, True)])
def test_a_waist_is_tight_from_five_percent_under_the_body(share: float, told: bool) -> None:
    assert [finding.code for finding in check_pressure(under(share), WOVEN)] == ["tight-bodice"] * told
    assert check_pressure(under(share), Wearing(cloth="knit")) == ()


def test_bones_and_lacing_make_it_a_warning() -> None:
    tight = under(0.1)
    with_bones = replace(tight, notions=(Notion("bone", "spiral steel bone", 8, 250.0),))
    for pattern, wearing in ((tight, BONED), (with_bones, WOVEN), (laced(tight), WOVEN)):
        (finding,) = check_pressure(pattern, wearing)
        assert (finding.code, finding.severity, finding.unit) == ("tight-lacing", "warning", "%")
        assert finding.value == pytest.approx(10.0)
        assert finding.limit == 5.0
        assert "is 10% under the body's" in finding.message
        assert "about 7 kPa" in finding.message
        assert "order of magnitude" in finding.remedy
        assert "loosen it at once" in finding.remedy
    (finding,) = check_pressure(tight, WOVEN)
    assert (finding.code, finding.severity) == ("tight-bodice", "advice")


def test_the_numbers_are_those_of_this_wearer() -> None:
    """200 and 500 N/m on 2π · 120 mm of waist are 1.7 and 4.2 kPa, 13 and 31 mmHg (R, as above)."""
    body = 2 * math.pi * 120.0
    waist = Level("waist", "Waist", 0.0, body, -60.0, ())
    pattern = replace(shell(), levels=(waist,))
    (finding,) = check_pressure(pattern, WOVEN)
    assert "1.7 to 4.2 kPa (13 to 31 mmHg)" in finding.message
    assert f"Waist: {(body - 60) / 10:.1f} cm finished" in finding.message
    (finding,) = check_pressure(pattern, Wearing(unit=Unit.INCH))
    assert "27 3/8 in finished" in finding.message  # 694.0 mm is 27.32 in, to the nearest eighth


def test_a_made_block_with_a_drawn_in_waist_is_told_and_one_with_ease_is_not() -> None:
    wearer = Measurements.of(
        "w-1",
        {
            "bust_girth": 900.0,
            "underbust_girth": 780.0,
            "waist_girth": 720.0,
            "hip_girth": 980.0,
            "back_neck_to_waist": 400.0,
        },
    )
    tight = make_block(wearer, BlockOptions(ease=Ease(waist=-50.0))).pattern
    assert [finding.code for finding in check_pressure(tight, BONED)] == ["tight-lacing"]
    assert check_pressure(make_block(wearer, BlockOptions()).pattern, BONED) == ()


def test_no_finding_and_no_caution_calls_anything_safe() -> None:
    texts = [*cautions(laced(under(0.2)), BONED), *cautions(shell(), WOVEN)]
    for wearing in (WOVEN, BONED):
        texts += [text for f in check_pressure(under(0.2), wearing) for text in (f.message, f.remedy)]
    said = [text.replace("never says what is safe", "") for text in texts]
    assert [text for text in said if re.search(r"\b(safe|safely|harmless)\b", text)] == []
    assert len(said) > 12


def test_a_tight_garment_has_every_usual_caution() -> None:
    """R (press pages on tight bodices): breath, fainting, reflux, numbness, bruises, exercise, pain means loosen.
    MEM: pregnancy, surgery. Own: skin, blades, irons, needles, who decides."""
    told = " ".join(cautions(laced(under(0.1)), BONED)).lower()
    words = "breath fainting heartburn numb bruises exercise pain pregnancy operation skin blades irons needles fitter"
    for word in (*words.split(), "teacher", "medical", "dancing", "loosen"):
        assert word in told, word
    assert "drawn in by 10%" in told
    assert "order of magnitude" in told


def test_cautions_fit_the_garment() -> None:
    loose = replace(
        shell(),
        levels=tuple(replace(level, body_girth=level.finished_girth - 40, ease=40.0) for level in shell().levels),
        lines=shell().lines,
    )
    plain, boned, tied = cautions(loose, WOVEN), cautions(loose, BONED), cautions(laced(loose), WOVEN)
    assert any("strapless" in text for text in plain)
    assert not any("every bone" in text or "Lace up" in text or "drawn in by" in text for text in plain)
    assert any("every bone" in text for text in boned)
    assert any("Lace up" in text for text in tied)
    assert plain[0].startswith("Pain")
    for texts in (plain, boned, tied):
        assert len(set(texts)) == len(texts)
        assert all(text.endswith(".") for text in texts)


def test_bones_come_last() -> None:
    bones, hem = StepRecord("stays", "bones", "Bones: spiral"), StepRecord("hem", "hem", "Hem: straight")
    (finding,) = check_bones_order(replace(shell(), steps=(bones, hem)))
    assert (finding.code, finding.severity, finding.subject) == ("bones-not-last", "warning", "stays")
    assert "“Hem: straight” changes it afterwards" in finding.message
    for steps in ((), (hem,), (hem, bones), (hem, bones, replace(bones, uid="more"))):
        assert check_bones_order(replace(shell(), steps=steps)) == ()


def test_checking_a_garment_tells_both() -> None:
    cutting = plain_cutting_pattern()
    steps = (StepRecord("stays", "bones", "Bones: spiral"), StepRecord("hem", "hem", "Hem: straight"))
    pattern = replace(cutting.pattern, levels=under(0.1).levels, steps=steps)
    codes = {finding.code for finding in check_wearing(replace(cutting, pattern=pattern))}
    assert {"tight", "tight-bodice", "bones-not-last"} <= codes
