"""Places in an even row."""

import numpy as np


def evenly(low: float, high: float, apart: float, least: int = 2) -> tuple[float, ...]:
    """Places from `low` to `high`, both among them, as near `apart` from each other as comes out even, mm.

    Args:
        least: how many there are at least.
    """
    count = max(least, round((high - low) / apart) + 1)
    return tuple(float(place) for place in np.linspace(low, high, count))
