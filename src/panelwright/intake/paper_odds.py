"""How likely the colour of a pixel makes it paper, against the colours that the table has."""

from itertools import pairwise
from typing import Final

import numpy as np
from numpy.typing import NDArray

from panelwright.geometry.arrays import Array
from panelwright.intake.pixel_mask import Colours, Mask

# Bins of the table's colours: brightness and two tints.
_LOW: Final = np.array([-3.2, -1.2, -1.2])
_HIGH: Final = np.array([0.8, 1.2, 1.2])
_BINS: Final = (64, 32, 32)
# Share of colours that no table was seen to have, and most that one pixel may say (logarithm of odds).
_UNSEEN: Final = 0.02
_MOST_ODDS: Final = 5.0


def paper_odds(apart: Colours, table: Mask, spread: Array) -> NDArray[np.float32]:
    """Logarithm of the odds of paper for each pixel, from its colour relative to paper's."""
    like = np.full(apart.shape[:2], -np.log(spread * np.sqrt(2 * np.pi)).sum(), np.float32)
    for k in range(3):
        like -= np.square(apart[..., k] * np.float32(np.sqrt(0.5) / spread[k]))
    flat = _cells(apart)
    like -= _rarity(_counted(flat, table))[flat]
    return np.clip(like, -_MOST_ODDS, _MOST_ODDS, out=like)


def unlike_odds(apart: Colours, table: Mask) -> NDArray[np.float32]:
    """The same for paper of any colour, where the table's colours are those that most of its parts have."""
    flat = _cells(apart)
    parts = [_counted(flat, part) for part in _parts(table)]
    counts = np.sort(parts, axis=0)[: max(1, int(0.7 * len(parts)))].mean(axis=0)
    odds = np.float32(-np.log(np.prod(_HIGH - _LOW))) - _rarity(counts)[flat]
    return np.clip(odds, -_MOST_ODDS, _MOST_ODDS, out=odds)


def _cells(apart: Colours) -> NDArray[np.int32]:
    """Number of each colour's bin, channel by channel: pixels are many."""
    flat = np.zeros(apart.shape[:2], np.int32)
    for k, bins in enumerate(_BINS):
        scale = bins / (_HIGH[k] - _LOW[k])
        place = apart[..., k] * np.float32(scale) - np.float32(_LOW[k] * scale)
        flat *= bins
        flat += np.clip(place, 0, bins - 1, out=place).astype(np.int32)
    return flat


def _rarity(counts: Array) -> NDArray[np.float32]:
    """Logarithm of the density of each colour on the table, by the number of its bin."""
    cell = float(np.prod((_HIGH - _LOW) / _BINS))
    share = counts / max(float(counts.sum()), 1e-9)
    density: Array = (1 - _UNSEEN) * share / cell + _UNSEEN / float(np.prod(_HIGH - _LOW))
    return np.log(density).astype(np.float32).ravel()


def _counted(flat: NDArray[np.int32], where: Mask) -> Array:
    """Shares of the colours, shape `_BINS`, a little smoothed."""
    counts = np.bincount(flat[where], minlength=int(np.prod(_BINS))).astype(float).reshape(_BINS)
    for axis in range(3):
        counts = _smoothed(counts, axis)
    share: Array = counts / max(float(counts.sum()), 1.0)
    return share


def _parts(mask: Mask) -> list[Mask]:
    """A mask in up to 36 parts, by place; parts that are nearly empty are left out."""
    rows, columns = (np.linspace(0, n, 7).astype(int) for n in mask.shape)
    found = []
    for top, bottom in pairwise(rows):
        for left, right in pairwise(columns):
            part = np.zeros_like(mask)
            part[top:bottom, left:right] = mask[top:bottom, left:right]
            if part.sum() > 0.001 * mask.sum():
                found.append(part)
    return found


def _smoothed(counts: Array, axis: int) -> Array:
    moved = np.moveaxis(counts, axis, 0)
    padded = np.pad(moved, ((1, 1), (0, 0), (0, 0)), mode="edge")
    return np.moveaxis(0.25 * padded[:-2] + 0.5 * padded[1:-1] + 0.25 * padded[2:], 0, axis)
