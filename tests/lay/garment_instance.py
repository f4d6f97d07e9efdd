"""Garment lays in the form of the folder `shared`: read as pieces to cut, and written for its verifier."""

import importlib.util
import json
import math
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import shapely

from panelwright.geometry.placement import Placement
from panelwright.lay.cloth import Cloth
from panelwright.lay.lay import Lay
from panelwright.lay.piece_to_cut import PieceToCut

Instance = dict[str, Any]
# (instance, result) -> (length, density, violations)
Verify = Callable[[Instance, dict[str, Any]], tuple[float, float, list[str]]]


def lay_verifier(shared: Path) -> Verify:
    """The verifier of garment lays in the folder `shared`; the test that asks for it skips where there is none."""
    path = shared / "data" / "lays" / "verify.py"
    if not path.is_file():
        pytest.skip("needs data/lays/verify.py in the folder `shared`")
    spec = importlib.util.spec_from_file_location("lay_verifier", path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    found: Verify = module.verify
    return found


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
    """The lay's places for pieces whose coordinates are those of the instance."""
    return _result(lay, [laid.placement for laid in lay.laid])


def written(lay: Lay, wanted: list[PieceToCut]) -> tuple[Instance, dict[str, Any]]:
    """(instance, result) of a lay of any pieces: each turned so that its grain is +x, face down if it only lies so."""
    turns = {piece.id: piece.turn(piece.face_up == 0, half_turn=False) for piece in wanted}
    cloth = {"width_mm": lay.width, "mode": "folded" if lay.folded else "open", "napped": lay.cloth.one_way}
    pieces = [_written(piece, turns[piece.id]) for piece in wanted]
    own = {"name": lay.cloth.name, "cloth": cloth, "spacing_mm": lay.spacing, "pieces": pieces}
    return own, _result(lay, [laid.placement.after(turns[laid.piece.id].inverse) for laid in lay.laid])


def _written(piece: PieceToCut, turn: Placement) -> dict[str, Any]:
    ring = shapely.get_coordinates(shapely.simplify(shapely.Polygon(turn.points(piece.outline)), 1e-6))[:-1]
    edge = None
    if piece.fold is not None:
        on_fold = np.abs(ring[:, 1] - turn.points(piece.fold)[0, 1]) < 1e-6
        edge = int(np.flatnonzero(on_fold & np.roll(on_fold, -1))[0])
    pair = piece.fold is None and min(piece.face_up, piece.face_down) > 0
    return {
        "name": piece.id,
        "outline": ring.tolist(),
        "demand": max(piece.face_up, piece.face_down),
        "cut": "fold" if piece.fold is not None else "pair" if pair else "single",
        "fold_edge": edge,
        "mirror_allowed": False,
        "rotations": [0, 180],
    }


def _result(lay: Lay, placements: list[Placement]) -> dict[str, Any]:
    """Their poses mirror about the x axis first; ours about the y axis, which is that and half a turn."""
    found = []
    for laid, place in zip(lay.laid, placements, strict=True):
        turn = math.degrees(place.angle + (math.pi if place.mirrored else 0.0))
        found.append(
            {
                "piece": laid.piece.id,
                "copy": laid.copy,
                "x": place.x,
                "y": place.y,
                "rotation_deg": round(turn, 9) % 360.0,
                "mirrored": place.mirrored,
            }
        )
    return {"length_mm": lay.length, "placements": found}
