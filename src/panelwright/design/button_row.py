"""Where buttons sit on a centre line."""

from panelwright.design.spaced import evenly


def button_row(low: float, high: float, apart: float, bust: float | None) -> tuple[float, ...]:
    """Places of buttons between `low` and `high`, mm, from the lowest up, at one even pitch near `apart`.

    One sits at the bust where that lies between, because there the edges pull apart first. The row then hangs from
    the top, or from the bust where no other button fits above it, and ends where the next would pass `low`.
    """
    if bust is None or not low <= bust <= high:
        return evenly(low, high, apart)
    above = round((high - bust) / apart)
    if above == 0:
        below = max(1, round((bust - low) / apart)) if bust > low else 0
        return evenly(low, bust, (bust - low) / below) if below else (bust,)
    pitch = (high - bust) / above
    count = int((high - low) / pitch + 1e-9)
    return tuple(high - k * pitch for k in range(count, -1, -1))
