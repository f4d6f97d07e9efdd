"""The dance troupe of the village lantern festival: invented wearers and the designs that they dance in."""

from collections.abc import Iterator
from dataclasses import dataclass
from importlib.resources import files
from typing import Final

from panelwright.app.design_file import read_design
from panelwright.app.garment_design import GarmentDesign
from panelwright.body.measurement_file import read_measurements
from panelwright.body.measurements import Measurements

ROLES: Final = {
    "w-01": "lantern bearer",
    "w-02": "drummer",
    "w-03": "ribbon dancer",
    "w-04": "leader of the round",
}
# Design -> who dances in it.
DANCED: Final = {
    "lantern-01": ("w-01", "w-02"),
    "ribbon-02": ("w-01", "w-03"),
    "drum-03": ("w-02", "w-04"),
    "round-04": ("w-03", "w-04"),
    "moon-05": ("w-01", "w-02"),
    "river-06": ("w-03", "w-04"),
    "star-07": ("w-01", "w-03"),
    "ring-08": ("w-02", "w-04"),
}


@dataclass(frozen=True)
class Dancer:
    """One of the troupe: a neutral reference, a role, measurements; no name."""

    role: str
    wearer: Measurements
    text: str


@dataclass(frozen=True)
class DemoDesign:
    """A design of the troupe and the text of its file."""

    design: GarmentDesign
    text: str


def troupe() -> Iterator[Dancer]:
    """The dancers, in the order of their references."""
    for ref, role in ROLES.items():
        text = _data(f"wearer-{ref}.json")
        yield Dancer(role, read_measurements(text), text)


def designs() -> Iterator[DemoDesign]:
    """The designs, in the order in which they are sewn."""
    for ref in DANCED:
        text = _data(f"design-{ref}.json")
        yield DemoDesign(read_design(text), text)


def group_text() -> str:
    """The file of what the troupe buys together; it names its wearers and designs from the demo's folder."""
    return _data("group-festival.json")


def fitting_text(ref: str) -> str:
    """The file of what was pinned on a dancer's toile."""
    return _data(f"fitting-{ref}.json")


def _data(name: str) -> str:
    return files(__package__).joinpath("data", name).read_text(encoding="utf-8")
