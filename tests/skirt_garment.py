"""Skirts as a design file has them, and lengths measured on dense points instead of by the curves' own arithmetic."""

import json
from functools import lru_cache
from typing import Any

import numpy as np
from shapely import LineString

from panelwright.app.design_file import read_design
from panelwright.app.garment import Garment, make_garment
from panelwright.body.measurements import Measurements
from panelwright.geometry.curve import Curve

BODY = {"bust_girth": 880, "underbust_girth": 750, "waist_girth": 720, "hip_girth": 960, "back_neck_to_waist": 400}
ZIP = {
    "kind": "closure",
    "uid": "back",
    "place": "centre-back",
    "type": "zip",
    "down_to": {"level": "hip", "offset_cm": 1},
}
BAND = {"kind": "waistband", "uid": "band"}


def skirt(kind: str, steps: list[dict[str, Any]] | None = None, **block: Any) -> Garment:
    """The garment of a skirt for a wearer of 72 cm waist and 96 cm hip, with the block's options."""
    return _made(json.dumps(document(kind, steps or [], **block)))


def document(kind: str, steps: list[dict[str, Any]], **block: Any) -> dict[str, Any]:
    """A design file."""
    head = {"format": "panelwright-design/1", "ref": "skirt-01", "title": "Skirt"}
    return {**head, "block": {"type": kind, **block}, "steps": steps}


@lru_cache(maxsize=64)
def _made(text: str) -> Garment:
    return make_garment(Measurements.of("w-01", BODY), read_design(text))


def length(curve: Curve) -> float:
    """Of the chords between 4,000 places a cubic; short of the arc by less than a millionth."""
    t = np.linspace(0, 1, 4001)[:, None]
    weights = np.hstack([(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t**2 * (1 - t), t**3])
    return float(sum(LineString(weights @ cubic).length for cubic in curve.cubics))


def chord_radius(curve: Curve) -> float:
    """Radius of the circle through start, middle and end of an arc: a·b·c / (4 · area)."""
    a, b, c = curve.start, curve.point(curve.length / 2), curve.end
    sides = [float(np.linalg.norm(p - q)) for p, q in ((a, b), (b, c), (a, c))]
    area = abs((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])) / 2
    return sides[0] * sides[1] * sides[2] / (4 * area)
