"""Developable bodies must come out as geometry says: a cylinder as rectangles, a cone as annular sectors."""

import numpy as np
import pytest
from blocks.round_torso import HEIGHTS, RoundTorso

from panelwright.blocks.fit_panels import PanelFitter
from panelwright.blocks.options import BlockOptions, Ease
from panelwright.blocks.panel_fit import PanelFit

LIMIT = 0.05  # mm


def fitted(torso: RoundTorso, keep: str = "girth") -> tuple[PanelFit, ...]:
    options = BlockOptions(ease=Ease.even(0.0), keep=keep)
    return PanelFitter(torso, options).fit()[0]  # type: ignore[arg-type]  # it has the parts of a Torso that a fit needs


def grid(fit: PanelFit) -> tuple[np.ndarray, np.ndarray]:
    """Matching points of a panel on the body, shape (n, 3), and on paper, shape (n, 2)."""
    z, u = fit.body.rows.z[::2], np.linspace(0.0, 1.0, 9)
    return fit.on_body(z, u).reshape(-1, 3), fit.flat.points(z, u).reshape(-1, 2)


def aligned(points: np.ndarray, to: np.ndarray) -> np.ndarray:
    """Points moved rigidly, without turning over, as near to `to` as they go (Kabsch)."""
    a, b = points - points.mean(axis=0), to - to.mean(axis=0)
    u, _, vt = np.linalg.svd(a.T @ b)
    turn = u @ np.diag([1.0, np.sign(np.linalg.det(u @ vt))]) @ vt
    return a @ turn + to.mean(axis=0)


@pytest.mark.parametrize("keep", ["girth", "both", "length"])
def test_a_cylinder_unrolls_into_rectangles(keep: str) -> None:
    radius = 130.0
    for fit in fitted(RoundTorso(lambda z: np.full(np.shape(z), radius)), keep):
        body, paper = grid(fit)
        angle = np.arctan2(body[:, 0], body[:, 1])
        truth = np.column_stack([-radius * angle, body[:, 2]])  # from outside, the wearer's right lies to the left
        assert np.linalg.norm(aligned(paper, truth) - truth, axis=1).max() < LIMIT


@pytest.mark.parametrize("keep", ["girth", "both", "length"])
@pytest.mark.parametrize(("top", "bottom"), [(100.0, 170.0), (165.0, 95.0)])
def test_a_cone_unrolls_into_annular_sectors(keep: str, top: float, bottom: float) -> None:
    low, high = HEIGHTS["hip"], HEIGHTS["upper-bust"]
    slope = (top - bottom) / (high - low)

    def radius(z: np.ndarray) -> np.ndarray:
        return bottom + slope * (z - low)

    half_angle = np.arctan(slope)
    for fit in fitted(RoundTorso(radius), keep):
        body, paper = grid(fit)
        angle, slant = np.arctan2(body[:, 0], body[:, 1]), radius(body[:, 2]) / np.sin(half_angle)
        turned = angle * np.sin(half_angle)  # the sector's angle shrinks by the sine of the half angle at the tip
        truth = np.column_stack([-slant * np.sin(turned), slant * np.cos(turned)])
        assert np.linalg.norm(aligned(paper, truth) - truth, axis=1).max() < LIMIT


def test_nothing_is_strained_on_a_cone_and_something_is_on_a_barrel() -> None:
    cone = fitted(RoundTorso(lambda z: 130.0 + 0.1 * z))
    barrel = fitted(RoundTorso(lambda z: 130.0 - 0.0008 * z**2))
    assert max(fit.strain_p95 for fit in cone) < 5e-4
    assert 0.001 < max(fit.strain_p95 for fit in barrel) < 0.05
