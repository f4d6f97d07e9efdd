"""One row of the table of bad input: what is given, and the sentence that comes back."""

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

Content = str | bytes | None

WEARER = {
    "format": "panelwright-measurements/1",
    "ref": "w-07",
    "unit": "cm",
    "measurements": {
        "bust_girth": 88,
        "underbust_girth": 75,
        "waist_girth": 72,
        "hip_girth": 96,
        "back_neck_to_waist": 40,
    },
}
TOP = {
    "kind": "top-edge",
    "uid": "neckline",
    "shape": "scooped",
    "centre": {"level": "upper-bust", "offset_cm": -3},
    "side": {"level": "upper-bust", "offset_cm": -1},
}
HEM = {"kind": "hem", "uid": "hem", "shape": "straight", "centre": {"level": "top-hip"}, "side": {"level": "top-hip"}}
DESIGN = {"format": "panelwright-design/1", "ref": "lantern-09", "title": "Lantern bodice", "steps": [TOP, HEM]}


def wearer(**changes: object) -> str:
    """A measurements file, with some measurements other than usual; None leaves one out."""
    taken = {**WEARER["measurements"], **changes}  # type: ignore[dict-item]  # the measurements are a mapping
    return json.dumps(
        {**WEARER, "measurements": {name: amount for name, amount in taken.items() if amount is not None}}
    )


def wearer_file(**changes: object) -> str:
    """A measurements file with other fields than usual; None leaves one out."""
    return json.dumps({name: value for name, value in {**WEARER, **changes}.items() if value is not None})


def design(**changes: object) -> str:
    """A design file with other fields than usual; None leaves one out."""
    return json.dumps({name: value for name, value in {**DESIGN, **changes}.items() if value is not None})


def top(**changes: object) -> str:
    """A design file whose top edge is changed."""
    return design(steps=[{**TOP, **changes}, HEM])


def hem(**changes: object) -> str:
    """A design file whose hem is changed."""
    return design(steps=[TOP, {**HEM, **changes}])


@dataclass(frozen=True)
class Case:
    """A command with something wrong.

    Attributes:
        name: what is wrong.
        sentence: what the command line says, without the leading `panelwright: ` and the full stop.
        argv: the command; measurements, design and pattern lie in `w.json`, `d.json` and `p.json`.
        files: contents of these files where they are not the usual ones; None: the file is not there.
    """

    name: str
    sentence: str
    argv: tuple[str, ...] = ("make", "w.json", "d.json", "--out", "out")
    files: Mapping[str, Content] = field(default_factory=dict)

    def lay_out(self, folder: Path) -> None:
        """Write the files that the command is given."""
        for name, content in {"w.json": wearer(), "d.json": design(), **self.files}.items():
            if isinstance(content, str):
                (folder / name).write_text(content, encoding="utf-8")
            elif content is not None:
                (folder / name).write_bytes(content)
