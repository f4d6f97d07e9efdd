"""Tables and floors that paper may lie on, in linear light."""

from collections.abc import Callable

import cv2
import numpy as np

from panelwright.geometry.arrays import Array

FINE = 5.0  # texture, pixels per mm
# Those of a second kind draw their own measures and colours: no two of a name are alike.
MORE = ("planks", "pine", "checks", "white checks", "linen", "terrazzo", "mat", "tiles", "tartan", "carpet")
Noise = Callable[..., Array]


def table_top(kind: str, width: int, height: int, rng: np.random.Generator) -> Array:
    """The bare table, linear RGB, shape (height, width, 3)."""
    y, x = np.mgrid[0:height, 0:width].astype(np.float32) / FINE
    top = np.ones((height, width, 3), np.float32)

    def noise(size: float, stretch: float = 1.0) -> Array:
        rows, columns = max(2, int(height / FINE / size)), max(2, int(width / FINE / size / stretch))
        small = rng.normal(0, 1, (rows, columns)).astype(np.float32)
        return cv2.resize(small, (width, height), interpolation=cv2.INTER_CUBIC)

    if kind == "dark":
        top *= np.array([0.035, 0.03, 0.03])
        top *= (1 + 0.15 * noise(0.6))[..., None]
    elif kind == "walnut":
        grain = noise(1.2, 40) * 0.5 + 0.5 * np.sin(y * 0.9 + 2 * noise(30, 3)) + 0.4 * noise(0.5, 30)
        top *= np.array([0.16, 0.085, 0.045]) * np.exp(0.28 * grain)[..., None]
    elif kind == "birch":
        grain = noise(1.5, 50) * 0.5 + 0.5 * np.sin(y * 0.5 + 2 * noise(40, 3))
        top *= np.array([0.55, 0.40, 0.24]) * np.exp(0.10 * grain)[..., None]
    elif kind == "grey cloth":
        weave = np.sin(x * 2 * np.pi / 0.7) + np.sin(y * 2 * np.pi / 0.7)
        top *= np.array([0.33, 0.34, 0.35]) * (1 + 0.05 * weave + 0.06 * noise(0.6))[..., None]
    elif kind == "gingham":
        steps = ((x % 20) < 10).astype(np.float32) + ((y % 20) < 10).astype(np.float32)
        top = 0.62 - steps[..., None] * 0.5 * np.array([0.62 - 0.06, 0.62 - 0.10, 0.62 - 0.35])
        top = top * (1 + 0.05 * noise(0.5))[..., None]
    elif kind == "stripes":
        band = (((x * 0.8 + y * 0.6) % 24) < 9)[..., None]
        top = np.where(band, np.array([0.50, 0.10, 0.08]), np.array([0.06, 0.10, 0.22]))
        top = top * (1 + 0.06 * noise(0.6))[..., None]
    elif kind == "flowers":
        blobs, other = noise(9) + 0.5 * noise(4), noise(12)
        top = np.where((blobs > 0.9)[..., None], np.array([0.60, 0.25, 0.30]), np.array([0.05, 0.14, 0.08]))
        top = np.where(((other > 1.0) & (blobs <= 0.9))[..., None], np.array([0.55, 0.50, 0.12]), top)
    elif kind == "granite":
        top *= np.array([0.20, 0.19, 0.18]) * np.exp(0.5 * noise(0.8) + 0.3 * noise(2.0))[..., None]
    elif kind == "white":
        top *= np.array([0.74, 0.74, 0.73])
    else:
        top = more_table(kind, x, y, noise, rng)
    return np.clip(top, 0.004, 0.95).astype(np.float32)


def more_table(kind: str, x: Array, y: Array, noise: Noise, rng: np.random.Generator) -> Array:
    """A table whose measures, colours and direction are drawn anew each time."""
    angle = rng.uniform(0, np.pi)
    u, v = (x * np.cos(angle) + y * np.sin(angle)).astype(np.float32), (y * np.cos(angle) - x * np.sin(angle))
    if kind == "planks":
        return planks(u, v, np.array([0.16, 0.085, 0.045]) * rng.uniform(0.6, 1.5), rng.uniform(0.2, 0.4), noise, rng)
    if kind == "pine":
        return planks(u, v, np.array([0.58, 0.40, 0.20]) * rng.uniform(0.75, 1.1), rng.uniform(0.08, 0.2), noise, rng)
    if kind in ("checks", "white checks"):
        return checks(u, v, kind == "white checks", noise, rng)
    if kind == "linen":
        return linen(u, v, noise, rng)
    if kind == "terrazzo":
        return terrazzo(noise, rng)
    if kind == "mat":
        return mat(u, v, noise, rng)
    if kind == "tiles":
        size, joint = rng.uniform(60, 150), rng.uniform(2, 5)
        gap = (((u % size) < joint) | ((v % size) < joint))[..., None]
        tile = np.array([0.25, 0.22, 0.20]) * rng.uniform(0.4, 1.4) * np.exp(0.12 * noise(8))[..., None]
        return np.where(gap, np.array([0.55, 0.54, 0.52]), tile) * (1 + 0.05 * noise(0.5))[..., None]
    if kind == "tartan":
        return tartan(u, v, noise, rng)
    if kind == "carpet":
        colour = rng.uniform(0.05, 0.35, 3)
        return colour * np.exp(0.35 * noise(0.7) + 0.2 * noise(3))[..., None]
    raise ValueError(kind)


def planks(u: Array, v: Array, colour: Array, depth: float, noise: Noise, rng: np.random.Generator) -> Array:
    """Boards of wood side by side, each of its own shade, its rings drawn out along it."""
    wide = rng.uniform(60, 160)
    board = np.floor(v / wide).astype(int)
    shades = rng.uniform(0.75, 1.3, board.max() - board.min() + 1)[board - board.min()]
    bend = 4 * noise(60) + 1.5 * noise(25)
    period = rng.uniform(3.0, 9.0)
    rings = np.sin((v + bend + 0.02 * u + 40 * (board % 3)) * 2 * np.pi / period)
    pores = np.sin(v * 7.0 + 3 * noise(6)) * (noise(1.0) > 0.2)
    gap = (v % wide) < 0.8
    top = colour * (shades * np.exp(depth * (0.7 * rings + 0.4 * pores + 0.3 * noise(12))))[..., None]
    return np.where(gap[..., None], 0.25 * top, top)


def checks(u: Array, v: Array, white: bool, noise: Noise, rng: np.random.Generator) -> Array:
    """A tablecloth; of white checks the light squares are as white as paper, or nearly."""
    cell = rng.uniform(5, 25)
    light = np.array([0.80, 0.80, 0.79]) * rng.uniform(0.85, 1.02) if white else np.array([0.62, 0.60, 0.56])
    dark = rng.uniform(0.02, 0.25, 3)
    steps = ((u % (2 * cell)) < cell).astype(np.float32) + ((v % (2 * cell)) < cell).astype(np.float32)
    top = light + (dark - light) * (steps / 2)[..., None]
    return top * (1 + 0.04 * noise(0.5) + 0.02 * np.sin(u * 9) + 0.02 * np.sin(v * 9))[..., None]


def linen(u: Array, v: Array, noise: Noise, rng: np.random.Generator) -> Array:
    """A coarse weave whose threads differ."""
    thread = rng.uniform(0.8, 1.6)
    colour = np.array([0.40, 0.34, 0.26]) * rng.uniform(0.3, 1.4) * rng.uniform(0.85, 1.15, 3)
    a, b = np.floor(u / thread).astype(int), np.floor(v / thread).astype(int)
    over = (a + b) % 2 == 0
    first, second = (rng.normal(0, 0.12, 4000)[k % 4000] for k in (a, b))
    hump = np.where(over, np.sin(np.pi * (u / thread % 1)), np.sin(np.pi * (v / thread % 1)))
    return colour * (np.exp(np.where(over, first, second) + 0.1 * noise(0.5)) * (0.55 + 0.45 * hump))[..., None]


def terrazzo(noise: Noise, rng: np.random.Generator) -> Array:
    """Chips of several colours in a ground, some of them as light as paper."""
    ground = np.array([0.30, 0.29, 0.27]) * rng.uniform(0.3, 1.5)
    top = ground * np.exp(0.1 * noise(0.5))[..., None]
    for size in rng.uniform(1.2, 6.0, 4):
        colour = rng.uniform(0.05, 0.6) * rng.uniform(0.8, 1.2, 3)
        top = np.where((noise(size) > 1.1)[..., None], np.clip(colour, 0.02, 0.75), top)
    return top


def mat(u: Array, v: Array, noise: Noise, rng: np.random.Generator) -> Array:
    """A cutting mat: light lines on green, blue or grey."""
    colour = np.array([(0.02, 0.11, 0.08), (0.03, 0.06, 0.16), (0.10, 0.10, 0.11)][rng.integers(3)])
    fine = ((u % 10) < 0.3) | ((v % 10) < 0.3)
    bold = ((u % 50) < 0.7) | ((v % 50) < 0.7)
    top = colour * np.exp(0.06 * noise(0.4))[..., None]
    return np.where(bold[..., None], 0.5, np.where(fine[..., None], 0.3, top))


def tartan(u: Array, v: Array, noise: Noise, rng: np.random.Generator) -> Array:
    """Stripes of four widths both ways, woven through each other."""
    colours = rng.uniform(0.02, 0.45, (4, 3))
    widths = rng.uniform(2, 22, 4)
    ends = np.cumsum(widths)
    across = colours[np.searchsorted(ends, u % ends[-1]).clip(0, 3)]
    along = colours[np.searchsorted(ends, v % ends[-1]).clip(0, 3)]
    twill = ((u + v) % 1.0 < 0.5)[..., None]
    return np.where(twill, across, along) * (1 + 0.05 * noise(0.5))[..., None]
