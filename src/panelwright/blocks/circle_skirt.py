"""A circle skirt, or a part of one: rings cut in equal panels, all in closed form.

The waist is an arc of radius waist / (2π · share), the hem one with the length of the skirt added (closed form).
"""

from math import ceil, pi, sin

import numpy as np

from panelwright.blocks.options import BlockOptions
from panelwright.blocks.skirt_body import SkirtBody
from panelwright.blocks.skirt_options import SHARES, SKIRT_PANELS
from panelwright.blocks.skirt_panel import SkirtPanel
from panelwright.blocks.skirt_plan import panel_names
from panelwright.body.worded_length import length_words
from panelwright.errors import BlockError
from panelwright.geometry.arc import arc_from
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve

BESIDE = 40.0  # mm of allowance and selvage that a panel needs beside it on the cloth
DOWN = -pi / 2


def waist_radius(waist: float, share: float) -> float:
    """Radius of the waist of a circle skirt, mm: waist / (2π · share).

    >>> round(waist_radius(720.0, 1.0), 1), round(waist_radius(720.0, 0.5), 1)
    (114.6, 229.2)
    """
    return waist / (2 * pi * share)


def circle_panels(body: SkirtBody, options: BlockOptions) -> tuple[SkirtPanel, ...]:
    """The panels of the right half, from centre front to centre back, each about the middle of its circle.

    Raises:
        BlockError: if the cloth is too narrow for it in any number of panels, or one panel is to lie on two folds.
    """
    skirt, share = options.skirt, SHARES[options.skirt.circle]
    radius = waist_radius(body.waist, share)
    count = skirt.panels or _fewest(radius + skirt.length, pi * share, options)
    if count == 1 and _folds(options) == 2:
        raise BlockError(
            "half a skirt in one panel cannot lie on two folds; choose 2 panels, or a seam or opening at one centre"
        )
    angle = pi * share / count
    depths = {level: depth for level, depth in body.depths.items() if depth < skirt.length}
    return tuple(
        _panel(name, angle, _turned(k, count, angle, options), radius, skirt.length, depths)
        for k, name in enumerate(panel_names(count))
    )


def _turned(number: int, count: int, angle: float, options: BlockOptions) -> float:
    """How far a panel's front line lies beside its grain, anticlockwise: the grain runs along a centre
    front and a fold, else in the middle."""
    if number == 0:
        return 0.0
    return angle if number == count - 1 and options.centre_back == "fold" else angle / 2


def _panel(
    name: tuple[str, str], angle: float, turned: float, radius: float, length: float, depths: dict[str, float]
) -> SkirtPanel:
    front = DOWN + turned
    back = front - angle

    def arc(at: float, backwards: bool = False) -> Curve:
        start, way = (front, -1.0) if backwards else (back, 1.0)
        return arc_from(at * _way(start), start + way * pi / 2, way * angle, at * angle)

    return SkirtPanel(
        *name,
        front=Curve.straight((radius + length) * _way(front), radius * _way(front)),
        back=Curve.straight((radius + length) * _way(back), radius * _way(back)),
        waist=(arc(radius, backwards=True),),
        hem=arc(radius + length),
        levels={level: (arc(radius + depth),) for level, depth in depths.items()},
    )


def _way(angle: float) -> Array:
    return np.array([np.cos(angle), np.sin(angle)])


def _fewest(reach: float, half: float, options: BlockOptions) -> int:
    """The least number of panels a half whose widest, opened out, lies within the cloth.

    Raises:
        BlockError: if no number does.
    """
    wide = options.skirt.cloth_width - BESIDE
    for count in range(max(SKIRT_PANELS[0], _folds(options)), SKIRT_PANELS[1] + 1):
        if _widest(reach, half / count, count, options) <= wide:
            return count
    needed = ceil(_widest(reach, half / SKIRT_PANELS[1], SKIRT_PANELS[1], options) + BESIDE)
    raise BlockError(
        f"no panel of this circle skirt fits on cloth {length_words(options.skirt.cloth_width)} wide; it needs "
        f"{length_words(needed)}: choose wider cloth, a shorter skirt, a smaller part of a circle or seams at the "
        "centres"
    )


def _widest(reach: float, angle: float, count: int, options: BlockOptions) -> float:
    """Across the grain, of the widest panel opened out, mm."""
    folds = _folds(options)
    half = reach * sin(min(angle, pi / 2))
    widths = [2 * half if folds else half]
    if count > max(folds, 1):
        widths.append(2 * reach * sin(min(angle / 2, pi / 2)))
    return max(widths)


def _folds(options: BlockOptions) -> int:
    return [options.skirt.centre_front, options.centre_back].count("fold")
