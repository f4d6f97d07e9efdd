"""The mouth of a narrow notch, as of a dart: the allowances at its two corners share the room between them.

Points and directions are complex numbers, x + iy, as in `corner`.
"""

from collections.abc import Sequence

import numpy as np

from panelwright.geometry.corner import Run, dot, trimmed


def shared(lines: Sequence[Run], runs: list[Run], k: int) -> list[Run]:
    """The runs with what crosses the middle line of a notch, seen from its point, cut off there.

    A notch that leaves its edge aslant has a blunt corner and a sharp one. The sharp one's allowance runs on beside the
    mouth, and the blunt one's would lie across its way.

    Args:
        lines: points on each edge of the outline.
        runs: offset points of each edge, with the corners that they run to.
        k: the edge that ends at the notch's point; the next one leads out of it.
    """
    count = len(lines)
    before, first, second, after = ((k + step) % count for step in (-1, 0, 1, 2))
    point, mouth = complex(lines[first][-1]), (complex(lines[first][0]), complex(lines[second][-1]))
    along = sum(mouth) / 2 - point
    across = 1j * along / abs(along)
    across *= 1.0 if dot(across, mouth[1] - mouth[0]) > 0 else -1.0
    found = list(runs)
    found[before], found[first] = _parted(runs[before], runs[first], point, across)
    beyond, leg = _parted(runs[after][::-1], runs[second][::-1], point, -across)
    found[after], found[second] = beyond[::-1], leg[::-1]
    return found


def _parted(edge: Run, leg: Run, point: complex, across: complex) -> tuple[Run, Run]:
    """An edge's run and a leg's that meet at a corner of the mouth, without what crosses the middle line.

    Args:
        edge: leads to the corner.
        leg: leads from there to the notch's point.
        across: unit direction from their side of the middle line to the other.
    """
    ends = complex(edge[-1]), complex(leg[0])
    over = [float(dot(across, end - point)) for end in ends]
    kept, rest = trimmed(edge, point, across), trimmed(leg[::-1], point, across)[::-1]
    if over[0] <= 0 or len(kept) < 2 or len(rest) < 2:
        return edge, leg
    if over[1] <= 0:
        return np.append(kept, ends[0] + over[0] / (over[0] - over[1]) * (ends[1] - ends[0])), leg
    return kept, rest
