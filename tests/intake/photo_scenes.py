"""Scenes of every kind by number, so that a long proof over many of them can be repeated."""

import numpy as np
from intake.photo_truth import garments, laid_out, outer_pieces
from intake.rendered_photo import Scene

TABLES = ("dark", "walnut", "birch", "grey cloth", "gingham", "stripes", "flowers", "granite")
COLOURS = ("white", "white", "cream", "white", "white", "kraft", "white", "blue")
SIZES = ((3000, 2250), (2400, 1800), (4000, 3000), (2250, 3000))


def scene(number: int) -> Scene:
    """Garment, table, paper, sheet, camera, light and noise from one number."""
    rng = np.random.default_rng(number)
    every = garments()
    design, wearer = every[number % len(every)]
    pieces = laid_out(outer_pieces(design, wearer), rng, 10.0, float(rng.choice([170.0, 220.0])))
    return Scene(
        tuple(pieces),
        table=TABLES[(number * 3 + number // 8) % 8],
        paper=("A4", "Letter")[number % 2],
        cut=bool(number // 2 % 2),
        colour=COLOURS[number % 8],
        tilt=rng.uniform(0, 35),
        turned=rng.uniform(-180, 180) if number % 3 else rng.uniform(-40, 40),
        roll=rng.uniform(-20, 20),
        lens=rng.uniform(-0.15, 0.1),
        model=("division", "polynomial")[number % 2],
        size=SIZES[number % 4],
        focal=rng.uniform(0.7, 1.1),
        shade=rng.uniform(0, 0.5),
        hand=rng.uniform(0, 0.5),
        noise=rng.uniform(0.002, 0.012),
        blur=rng.uniform(0.5, 1.3),
        curl=rng.uniform(0, 0.4),
        quality=int(rng.integers(75, 96)),
        fill=0.85,
        seed=number,
    )
