"""Garment lays of the folder `shared`, read as pieces to cut, and a lay written as their verifier reads it."""

import json
import math
from pathlib import Path
from typing import Any

import numpy as np

from panelwright.lay.cloth import Cloth
from panelwright.lay.lay import Lay
from panelwright.lay.piece_to_cut import PieceToCut

Instance = dict[str, Any]


def load(path: Path) -> Instance:
    instance: Instance = json.loads(path.read_text(encoding="utf-8"))
    return instance


def cloth_of(instance: Instance) -> Cloth:
    folded = instance["cloth"]["mode"] == "folded"
    width = instance["cloth"]["width_mm"] * (2 if folded else 1)
    return Cloth(instance["name"], width, folded, instance["cloth"]["napped"])


def pieces_of(instance: Instance) -> list[PieceToCut]:
    """A `single` is laid as it is drawn. The grain is +x, so the fold edge runs along it."""
    return [_piece(piece) for piece in instance["pieces"]]


def _piece(piece: dict[str, Any]) -> PieceToCut:
    outline = np.array(piece["outline"], float)
    fold = None
    if piece["cut"] == "fold":
        start = piece["fold_edge"]
        fold = outline[[start, (start + 1) % len(outline)]]
    middle = outline.mean(axis=0)
    grain = np.array([middle, middle + np.array([100.0, 0.0])])
    down = piece["demand"] if piece["cut"] == "pair" else 0
    return PieceToCut(piece["name"], piece["name"], "outer", outline, grain, fold, piece["demand"], down)


def result_of(lay: Lay) -> dict[str, Any]:
    """Their poses mirror about the x axis first; ours about the y axis, which is that and half a turn."""
    placements = []
    for laid in lay.laid:
        place = laid.placement
        turn = math.degrees(place.angle + (math.pi if place.mirrored else 0.0)) % 360.0
        placements.append(
            {
                "piece": laid.piece.id,
                "copy": laid.copy,
                "x": place.x,
                "y": place.y,
                "rotation_deg": round(turn, 6) % 360.0,
                "mirrored": place.mirrored,
            }
        )
    return {"length_mm": lay.length, "placements": placements}
