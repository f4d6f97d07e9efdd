"""Invented bodies over a plausible domain, repeatable by seed: what the long proofs run on."""

from collections.abc import Iterator

import numpy as np

from panelwright.body.measurements import Measurements


def plausible_measurements(count: int, seed: int = 2026) -> Iterator[tuple[str, dict[str, float]]]:
    """(reference, taken measurements in mm): cups 60-240 mm, waists 120 mm under to 60 mm over the underbust,
    varied hips, back lengths and, for every third body, heights taken rather than estimated."""
    chance = np.random.default_rng(seed)
    for k in range(count):
        underbust = chance.uniform(620.0, 1150.0)
        waist = underbust + chance.uniform(-120.0, 60.0)
        back = chance.uniform(350.0, 460.0)
        taken = {
            "bust_girth": underbust + chance.uniform(60.0, 240.0),
            "underbust_girth": underbust,
            "waist_girth": waist,
            "hip_girth": max(waist, underbust) + chance.uniform(20.0, 300.0),
            "back_neck_to_waist": back,
        }
        if k % 3 == 0:
            taken["waist_to_hip"] = back * chance.uniform(0.42, 0.58)
            taken["bust_height"] = back * chance.uniform(0.35, 0.40)
        yield f"body-{k}", taken


def plausible_bodies(count: int, seed: int = 2026) -> Iterator[Measurements]:
    """The same, as completed measurements."""
    for ref, taken in plausible_measurements(count, seed):
        yield Measurements.of(ref, taken)
