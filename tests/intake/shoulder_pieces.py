"""A front whose shoulder was drawn in one, and a back whose princess seam divides it: points off a ruler, mm."""

from typing import Any

Document = dict[str, Any]

FRONT_SHOULDER = ((-70.0, 400.0), (-190.0, 365.0))
CENTRE_BACK_SHOULDER = ((115.0, 385.0), (65.0, 400.0))
SIDE_BACK_SHOULDER = ((75.0, 365.0), (0.0, 388.0))


def shoulder_table(parts: tuple[str, ...] = ("CB", "SB"), named: bool = True, ease: float = 0.0) -> Document:
    """The table for `panelwright own`, full scale.

    Args:
        parts: the pieces whose shoulders the front's is sewn to, in the order in which they are written.
        named: whether neckline, armhole and the princess seam are named.
        ease: how much longer the back shoulders are meant to be.
    """

    def piece(id: str, label: str, level: list[list[float]], *edges: tuple[str, str, list[Any]]) -> Document:
        told = [
            {"points": points, "kind": kind, "line": line if named or kind in ("fold", "opening") else ""}
            for line, kind, points in edges
        ]
        return {"id": id, "label": label, "edges": told, "levels": [{"id": "waist", "points": level}]}

    front = piece(
        "F", "Front", [[-230, 100], [0, 100]],
        ("hem", "finished", [[-230, 0], [0, 0]]),
        ("centre-front", "fold", [[0, 0], [0, 330]]),
        ("neckline", "finished", [[0, 330], [-48, 350], [-70, 400]]),
        ("", "seam", [*map(list, FRONT_SHOULDER)]),
        ("armhole", "finished", [[-190, 365], [-170, 270], [-230, 200]]),
        ("side", "seam", [[-230, 200], [-230, 0]]),
    )  # fmt: skip
    centre_back = piece(
        "CB", "Centre back", [[0, 100], [111, 100]],
        ("hem", "finished", [[0, 0], [110, 0]]),
        ("back-princess", "seam", [[110, 0], [115, 385]]),
        ("", "seam", [*map(list, CENTRE_BACK_SHOULDER)]),
        ("neckline", "finished", [[65, 400], [50, 385], [0, 380]]),
        ("centre-back", "opening", [[0, 380], [0, 0]]),
    )  # fmt: skip
    side_back = piece(
        "SB", "Side back", [[0, 100], [120, 100]],
        ("hem", "finished", [[0, 0], [120, 0]]),
        ("side", "seam", [[120, 0], [120, 200]]),
        ("armhole", "finished", [[120, 200], [70, 260], [75, 365]]),
        ("", "seam", [*map(list, SIDE_BACK_SHOULDER)]),
        ("back-princess", "seam", [[0, 388], [0, 0]]),
    )  # fmt: skip
    shoulders = {"CB": {"piece": "CB", "edge": 3}, "SB": {"piece": "SB", "edge": 4}}
    seams: list[Document] = [
        {"line": "side", "a": {"piece": "F", "edge": 6}, "b": {"piece": "SB", "edge": 2}},
        {"line": "shoulder", "a": {"piece": "F", "edge": 4}, "b": [shoulders[id] for id in parts], "ease": ease},
    ]
    if named:
        seams.append({"line": "back-princess", "a": {"piece": "CB", "edge": 2}, "b": {"piece": "SB", "edge": 5}})
    return {
        "format": "panelwright-drawn/1",
        "unit": "mm",
        "scale": 1,
        "allowance": 0,
        "pieces": [front, centre_back, side_back],
        "seams": seams,
    }
