"""How an amount that is pinned at one height runs out to nothing above and below it."""

from dataclasses import dataclass

import numpy as np

from panelwright.blocks.tensor_spline import Breaks
from panelwright.geometry.arrays import Array

SAMPLES_AN_INTERVAL = 8
PARTS = 4  # at least so many intervals between the pin and where it has run out: fewer draw a lumpy curve


@dataclass(frozen=True)
class RunOut:
    """A share of the height: 1 at the pin, 0 where it has run out and beyond.

    Attributes:
        pin: height, mm above the waist.
        low, high: where it has run out below and above; None where it stays whole to the end of the panel.
    """

    pin: float
    low: float | None
    high: float | None

    def joints(self, at: Array) -> Array:
        """The joints of a spline with those added that the run-out needs."""
        found = np.union1d(at, [z for z in (self.low, self.pin, self.high) if z is not None])
        found = found[(found >= at[0]) & (found <= at[-1])]
        for start, end in ((self.low, self.pin), (self.pin, self.high)):
            if start is None or end is None:
                continue
            inside = found[(found >= start) & (found <= end)]
            parts = int(np.ceil(PARTS / (len(inside) - 1)))
            found = np.union1d(
                found, np.interp(np.arange((len(inside) - 1) * parts + 1) / parts, np.arange(len(inside)), inside)
            )
        return found

    def target(self, z: Array) -> Array:
        """The ideal share at heights z: smooth steps that start and end flat."""
        share = np.ones(len(z))
        for end in (self.low, self.high):
            if end is not None:
                t = np.clip((z - end) / (self.pin - end), 0.0, 1.0)
                beside = (z - self.pin) * (end - self.pin) > 0
                share = np.where(beside, t**3 * (10 - 15 * t + 6 * t**2), share)
        return share

    def coefficients(self, breaks: Breaks) -> Array:
        """Coefficients of the share as a spline, shape (breaks.count,): exactly 1 at the pin and 0 beyond its ends."""
        starts, ends = breaks.knots[: breaks.count], breaks.knots[4:]
        low = -np.inf if self.low is None else self.low - 1e-9
        high = np.inf if self.high is None else self.high + 1e-9
        index = np.arange(breaks.count)
        # The outermost two coefficients carry the value and the slope at the panel's own end.
        flat_low = (index > 1) | (self.low is None) | (low > breaks.at[0])
        flat_high = (index < breaks.count - 2) | (self.high is None) | (high < breaks.at[-1])
        free = np.flatnonzero((starts >= low) & (ends <= high) & flat_low & flat_high)
        first, last = max(low, breaks.at[0]), min(high, breaks.at[-1])
        z = np.linspace(first, last, SAMPLES_AN_INTERVAL * len(breaks.at))
        basis, pinned = breaks.basis(z)[:, free], breaks.basis(np.array([self.pin]))[:, free]
        size = len(free)
        system = np.zeros((size + 1, size + 1))
        system[:size, :size], system[:size, size:], system[size:, :size] = basis.T @ basis, pinned.T, pinned
        right = np.concatenate([basis.T @ self.target(z), [1.0]])
        found = np.zeros(breaks.count)
        found[free] = np.linalg.lstsq(system, right, rcond=None)[0][:size]
        return found
