"""Every page of a pack is tidy; templates keep room for allowances; curves have points enough."""

from functools import cache
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from lettering_room import crossings, letterings, overlaps
from scipy.interpolate import Akima1DInterpolator
from tidy_sheet import assert_sheet_is_tidy, recorded

from panelwright.app.demo.troupe import designs
from panelwright.app.garment import make_garment
from panelwright.app.hand_pack import hand_pack, numbered
from panelwright.app.hand_steps import hand_work
from panelwright.app.paper import PaperChoice
from panelwright.body.size_table import size
from panelwright.body.units import Unit
from panelwright.drawing.hand_guide import STRAIGHT, guides
from panelwright.drawing.hand_letters import letter
from panelwright.drawing.hand_picture import allowance_picture, step_picture
from panelwright.drawing.heading import Heading
from panelwright.drawing.paper import PAPERS
from panelwright.drawing.template_cloth import cloth_sheet, nearest_width, widths
from panelwright.drawing.template_sheets import template_drawings, template_sheets
from panelwright.geometry.curve import Curve

DESIGNS = {cut.design.ref: cut.design for cut in designs()}
PAGES = [("ribbon-02", "Letter", Unit.INCH), ("river-06", "A4", Unit.CM), ("star-07", "Letter", Unit.CM)]


@cache
def garment(ref):
    return make_garment(size(88), DESIGNS[ref])


@pytest.mark.parametrize(("ref", "paper", "unit"), PAGES)
def test_every_page_is_tidy_and_numbered(ref, paper, unit):
    sheets = numbered(hand_pack(garment(ref), PaperChoice(PAPERS[paper], unit)), "Lantern bodice", "learner 3")
    for number, sheet in enumerate(sheets, 1):
        assert_sheet_is_tidy(sheet)
        assert f"learner 3 · page {number} of {len(sheets)}" in [text.text for text in recorded(sheet).letterings]


@pytest.mark.parametrize("ref", ["ribbon-02", "river-06"])
def test_no_line_runs_through_a_letter(ref):
    made = garment(ref)
    work = hand_work(made)
    drawn = [step_picture(draft, shrunk) for step in work.steps for draft in step.drafts for shrunk in (1.0, 0.7)]
    drawn += [
        allowance_picture(piece, cut, work.known[piece.id][0])
        for piece, cut in made.cutting.pieces
        if piece.layer == "outer"
    ]
    assert len(drawn) > 20
    for picture in drawn:
        assert crossings(picture.drawing) == []
        assert overlaps(letterings(picture.drawing)) == []


def test_no_page_bears_a_measurement_of_the_body():
    """Girths and heights that were taken stand nowhere: the pages may be handed round."""
    made = garment("lantern-01")
    words = " ".join(text.text for sheet in hand_pack(made, PaperChoice()) for text in recorded(sheet).letterings)
    assert "bust girth 88" not in words.lower()
    assert "72.0 cm" not in words


@pytest.mark.parametrize("allowance", [10.0, 30.0])
def test_templates_keep_two_allowances_between_panels(allowance):
    """The least distance between any two outlines on a page, by shapely."""
    block = garment("lantern-01").block.pattern
    drawn = {drawing.drawing: drawing for drawing in template_drawings(block, Unit.CM, allowance)}
    for sheet in template_sheets(block, Heading("Lantern bodice", "size-88"), PAPERS["A4"], allowance):
        panels = [
            shapely.affinity.translate(drawing.area, *laid.shift)
            for laid in sheet.laid
            for drawing in drawn.values()
            if [sign.bounds for sign in laid.drawing] == [sign.bounds for sign in drawing.drawing]
        ]
        assert len(panels) > 1
        assert min(a.distance(b) for a in panels for b in panels if a is not b) >= 2 * allowance / 4


def test_templates_are_at_quarter_scale():
    block = garment("lantern-01").block.pattern
    for drawing in template_drawings(block, Unit.CM, 10.0):
        true = block.piece(drawing.piece).outline
        assert drawing.area.area == pytest.approx(true.area / 16, rel=1e-3)


@pytest.mark.parametrize("unit", [Unit.CM, Unit.INCH])
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_blank_cloth_is_half_its_width_at_quarter_scale(unit, paper):
    for width in widths(unit):
        sheet = cloth_sheet(width, Heading("x", "size-88", unit=unit), PAPERS[paper])
        assert_sheet_is_tidy(sheet)
        (fold,) = [stroke for stroke in recorded(sheet).strokes("grain and fold") if stroke.pen.dash]
        selvage = max(recorded(sheet).strokes("cut lines"), key=lambda stroke: stroke.bounds[2])
        assert selvage.bounds[2] - fold.bounds[0] == pytest.approx(width / 8)


def test_the_next_sheet_of_cloth_goes_on_where_the_first_ends():
    texts = [
        [text.text for text in recorded(cloth_sheet(1400.0, Heading("x", "w-01"), PAPERS["A4"], number)).letterings]
        for number in (1, 2)
    ]
    first, second = ([int(t.split()[0]) for t in page if t.endswith(" cm") and "cloth" not in t] for page in texts)
    assert second[0] - first[-1] == 20  # the line between them is the join


def test_cloth_of_another_width_is_laid_on_one_that_it_covers():
    assert nearest_width(1420.0, Unit.CM) == 1400.0
    assert nearest_width(600.0, Unit.CM) == 900.0


def test_letters_are_not_mistaken_for_figures():
    names = [letter(k) for k in range(60)]
    assert len(set(names)) == 60
    assert not any(name[0] in "IO" for name in names)


@settings(deadline=None, max_examples=40)
@given(
    st.floats(20, 160),
    st.floats(-1.1, 1.1),
    st.floats(-1.1, 1.1),
    st.floats(0.2, 0.5),
)
def test_a_smooth_line_through_the_points_stays_by_the_curve(length, first, last, reach):
    """Any gentle curve, drawn by a rule that the points were not chosen by (Akima 1970)."""
    handles = reach * length * np.array([(np.cos(first), np.sin(first)), (-np.cos(last), np.sin(last))])
    end = np.array([length, 0.0])
    curve = Curve(np.array([[(0.0, 0.0), handles[0], end + handles[1], end]]))
    for guide in guides(curve):
        points = np.concatenate([[guide.curve.start], guide.places, [guide.curve.end]])
        true = guide.curve.polyline(0.005)
        if len(points) == 2:
            drawn = points
        else:
            steps = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))])
            drawn = Akima1DInterpolator(steps, points)(np.linspace(0.0, steps[-1], 200))
        off = shapely.distance(shapely.LineString(drawn), shapely.points(true)).max()
        assert off < (0.45 if guide.points else STRAIGHT + 0.1)


def test_a_drawing_hangs_together():
    """The parts of a curve follow one another from its start to its end."""
    curve = Curve(np.array([[(0, 0), (0, 40), (30, 40), (30, 0)], [(30, 0), (30, -40), (60, -40), (60, 0)]], float))
    parts = guides(curve)
    assert len(parts) > 1
    assert all(np.allclose(a.curve.end, b.curve.start) for a, b in pairwise(parts))
    assert sum(part.curve.length for part in parts) == pytest.approx(curve.length, abs=1e-4)
