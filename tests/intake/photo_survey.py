"""Photos of many kinds by number, each of a named table and paper, so that a survey can tell which go wrong."""

import numpy as np
from intake.photo_scenes import TABLES
from intake.photo_shapes import SHAPES, shaped
from intake.photo_tables import MORE
from intake.photo_truth import PaperPiece, garments, laid_out, outer_pieces
from intake.rendered_photo import PAPER_COLOURS, Scene

EVERY_TABLE = (*TABLES, *MORE)
SIZES = ((1900, 1425), (2400, 1800), (3000, 2250), (4000, 3000), (2250, 3000))
LIGHTS = ((1.0, 0.97, 0.9), (0.86, 0.94, 1.0), (1.0, 0.78, 0.5), (1.0, 1.0, 1.0))
PAPERS = ("white", "white", "white", *PAPER_COLOURS)


def survey_scene(number: int, table: str | None = None, colour: str | None = None) -> Scene:
    """Pieces of the demo or of plain make, table, paper, light, lens and camera, drawn from one number."""
    rng = np.random.default_rng(7000 + number)
    size = SIZES[int(rng.integers(len(SIZES)))]
    many = min(size) > 2000
    table = table or EVERY_TABLE[number % len(EVERY_TABLE)]
    colour = colour or str(rng.choice(PAPERS))
    return Scene(
        tuple(laid_out(some_pieces(rng, many), rng, 10.0, float(rng.choice([170.0, 220.0])) if many else 130.0)),
        table=table,
        paper=("A4", "Letter")[int(rng.integers(2))],
        cut=bool(rng.integers(2)),
        colour=colour,
        tilt=rng.uniform(0, 32),
        turned=rng.uniform(-180, 180) if rng.integers(2) else rng.uniform(-40, 40),
        roll=rng.uniform(-20, 20),
        lens=rng.uniform(-0.15, 0.1),
        model=("division", "polynomial")[int(rng.integers(2))],
        size=size,
        focal=rng.uniform(0.7, 1.1),
        shade=rng.uniform(0, 0.55),
        hand=rng.uniform(0, 0.5),
        noise=rng.uniform(0.002, 0.012),
        blur=rng.uniform(0.5, 1.3),
        curl=rng.uniform(0, 0.4),
        quality=int(rng.integers(70, 96)),
        warm=LIGHTS[int(rng.integers(4))],
        fill=0.88,
        seed=number,
        pen=(float(rng.uniform(0.3, 0.7)), float(rng.uniform(0.15, 0.55))),
    )


def some_pieces(rng: np.random.Generator, many: bool) -> list[PaperPiece]:
    """Of a garment of the demo, or two to six plain shapes."""
    if rng.integers(2):
        every = garments()
        pieces = outer_pieces(*every[int(rng.integers(len(every)))])
        return pieces if many else pieces[:4]
    names = rng.choice(list(SHAPES), int(rng.integers(3, 7)) if many else 2, replace=False)
    scale = 1.0 if many else 0.7
    return [shaped(str(name), scale * rng.uniform(0.8, 1.15), bool(rng.integers(3))) for name in names]
