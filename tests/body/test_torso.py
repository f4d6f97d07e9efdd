"""The torso surface: its tape girths, its sections against closed forms, its tape against shapely's hull."""

from itertools import pairwise

import numpy as np
import pytest
import shapely
from plausible_bodies import plausible_bodies
from scipy.special import ellipe

from panelwright.body.measurements import Measurements
from panelwright.body.section import ANGLES, SectionShape, girths, plane, taped
from panelwright.body.torso import Torso
from panelwright.body.torso_shape import GIRTHS, TorsoShape
from panelwright.errors import BlockError

BODIES = list(plausible_bodies(8, seed=3))


@pytest.fixture(scope="module", params=BODIES, ids=[body.ref for body in BODIES])
def torso(request: pytest.FixtureRequest) -> Torso:
    return Torso(TorsoShape.of(request.param))


def one(value: float) -> np.ndarray:
    return np.array([value])


def test_an_ellipse_has_the_girth_that_the_elliptic_integral_gives() -> None:
    radii = SectionShape(one(0.7), one(0.5), one(2.0), one(2.0)).radii()  # half width 1, half depth 0.7
    assert girths(radii)[0] == pytest.approx(4 * ellipe(1 - 0.7**2), rel=2e-5)


def test_a_boxy_section_lies_between_the_ellipse_and_the_rectangle() -> None:
    girth = girths(SectionShape(one(0.7), one(0.5), one(3.0), one(3.0)).radii())[0]
    assert 4 * ellipe(1 - 0.7**2) < girth < 4 * (1 + 0.7)


def test_the_tape_is_the_convex_hull_that_shapely_finds(torso: Torso) -> None:
    z = np.linspace(torso.shape.heights["underbust"], torso.shape.heights["upper-bust"], 7)
    for bare, tape in zip(torso.bare(z), torso.taped(z), strict=True):
        half = plane(bare[None])[0]
        hull = shapely.MultiPoint(np.concatenate([half, half * [-1, 1]])).convex_hull
        assert girths(tape[None])[0] == pytest.approx(hull.length, rel=1e-4)


def test_a_section_without_hollows_is_its_own_tape() -> None:
    radii = SectionShape(one(0.76), one(0.6), one(2.0), one(2.3)).radii()
    assert np.array_equal(taped(radii), radii)


def test_the_tape_measures_what_was_measured(torso: Torso) -> None:
    for level, girth in torso.shape.girths.items():
        assert torso.girth(torso.shape.heights[level]) == pytest.approx(girth, abs=0.01)
    assert set(torso.shape.girths) == set(GIRTHS)


def test_the_girth_is_smooth_and_does_not_swing_past_its_neighbours(torso: Torso) -> None:
    heights = sorted(torso.shape.heights.values())
    for low, high in pairwise(heights):
        between = [torso.girth(z) for z in np.linspace(low, high, 9)]
        span = max(between[0], between[-1]) - min(between[0], between[-1])
        assert min(between) > min(between[0], between[-1]) - 0.12 * span - 12
        assert (
            max(between) < max(between[0], between[-1]) + 0.12 * span + 12
        )  # the breast stands out above its own level too


def test_bust_points_are_as_far_apart_as_measured(torso: Torso) -> None:
    bare = torso.bare(one(torso.shape.heights["bust"]))[0]
    reach = np.interp(torso.bust_angle, ANGLES, bare)
    assert 2 * reach * np.sin(torso.bust_angle) == pytest.approx(torso.shape.bust_point_span, rel=0.03)


def test_the_body_itself_dips_between_the_breasts_where_the_tape_does_not() -> None:
    torso = Torso(TorsoShape.of(full_bust()))
    bust = one(torso.shape.heights["bust"])
    bare, tape = torso.bare(bust)[0], torso.taped(bust)[0]
    assert tape[0] > bare[0] + 5.0
    assert np.all(tape >= bare - 1e-9)


def full_bust(**more: float) -> Measurements:
    girths = {"bust_girth": 1000.0, "underbust_girth": 780.0, "waist_girth": 720.0, "hip_girth": 1040.0}
    return Measurements.of("w-1", girths | {"back_neck_to_waist": 400.0} | more)


def test_levels_too_near_each_other_are_refused() -> None:
    shape = TorsoShape.of(full_bust())
    heights = dict(shape.heights) | {"top-hip": -195.0}
    with pytest.raises(BlockError, match=r"the top-hip level lies 0\.\d cm above the hip level; a block needs 1\.2 cm"):
        TorsoShape(heights, shape.girths, shape.bust_point_span, shape.back_length)


def test_a_bust_that_no_breast_form_can_give_is_refused() -> None:
    shape = TorsoShape.of(full_bust())
    girths = dict(shape.girths) | {"bust": 4000.0}
    with pytest.raises(BlockError, match=r"no breast form gives a bust girth of 400\.0 cm"):
        Torso(TorsoShape(shape.heights, girths, shape.bust_point_span, shape.back_length))
