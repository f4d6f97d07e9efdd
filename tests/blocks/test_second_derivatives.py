"""Second derivatives that the solver falls back on, held against differences of the first."""

import numpy as np
import pytest

from panelwright.blocks.arc_constraint import ArcTerm
from panelwright.blocks.strain_energy import StrainEnergy
from panelwright.blocks.tensor_spline import Breaks

HEIGHTS, ACROSS = Breaks(np.array([0.0, 60.0, 130.0])), Breaks(np.array([0.0, 0.5, 1.0]))
CHANCE = np.random.default_rng(5)
COUNT = HEIGHTS.count * ACROSS.count
STEP = 1e-4


def coefficients() -> np.ndarray:
    """A crumpled rectangle, 80 by 130 mm."""
    u, z = np.meshgrid(np.linspace(0, 80, ACROSS.count), np.linspace(0, 130, HEIGHTS.count))
    return np.stack([u.ravel(), z.ravel()]) + CHANCE.normal(0, 3, (2, COUNT))


def differences(gradient, at: np.ndarray) -> np.ndarray:  # type: ignore[no-untyped-def]  # a thunk
    columns = []
    for k in range(at.size):
        shift = np.zeros(at.size)
        shift[k] = STEP
        shift = shift.reshape(at.shape)
        columns.append((gradient(at + shift) - gradient(at - shift)) / (2 * STEP))
    return np.array(columns)


@pytest.mark.parametrize(
    "term",
    [
        ArcTerm.level(0, HEIGHTS, ACROSS, 60.0),
        ArcTerm.line(0, HEIGHTS, ACROSS, True, (0.0, 60.0)),
    ],
    ids=["level", "line"],
)
def test_an_arc_bends_as_its_gradient_changes(term: ArcTerm) -> None:
    at = coefficients()
    assert np.allclose(term.second_derivatives(at), differences(term.gradient, at), atol=1e-7)
    assert np.abs(term.second_derivatives(at)).max() > 1e-4


def test_the_energy_bends_as_its_gradient_changes() -> None:
    nodes = 12
    weights = CHANCE.uniform(1, 3, nodes)
    operators = (CHANCE.normal(0, 0.02, (nodes, COUNT)) for _ in range(3))
    energy = StrainEnergy(*operators, weights)
    at = coefficients()

    def gradient(c: np.ndarray) -> np.ndarray:
        residuals, jacobian = energy.residuals(c)
        return residuals @ jacobian

    residuals, jacobian = energy.residuals(at)
    whole = jacobian.T @ jacobian + energy.second_derivatives(residuals)
    assert np.allclose(whole, differences(gradient, at), rtol=1e-5, atol=1e-6)
