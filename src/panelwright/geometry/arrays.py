"""The one array type of the geometry and how it is frozen."""

from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]


def frozen(values: ArrayLike) -> Array:
    """A read-only float copy of `values`, safe to keep inside a frozen dataclass."""
    copy: Array = np.array(values, dtype=np.float64)
    copy.setflags(write=False)
    return copy


def cross(u: Array, v: Array) -> Any:
    """z of the cross product of plane vectors, shape (..., 2) each; positive when v lies anticlockwise of u."""
    return u[..., 0] * v[..., 1] - u[..., 1] * v[..., 0]


def unit(v: Array) -> Array:
    """`v`, shape (..., 2), scaled to length 1. A zero vector comes back as NaN."""
    scaled: Array = v / np.linalg.norm(v, axis=-1, keepdims=True)
    return scaled


def turn(u: Array, v: Array) -> float:
    """Signed angle from plane vector u to v, radians, anticlockwise positive, in (-pi, pi]."""
    return float(np.arctan2(cross(u, v), u @ v))


def direction(angle: float) -> Array:
    """The unit vector at an angle anticlockwise from the x axis, radians, shape (2,)."""
    return np.array([np.cos(angle), np.sin(angle)])
