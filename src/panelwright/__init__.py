"""Panelwright: from body measurements to a checked, printed cutting pattern for a fitted bodice.

The names below are the front door; the packages behind them have more, and `docs/architecture.md` says which does
what. Inside, every length is in millimetres and every angle in radians, y points up and outlines run anticlockwise.

>>> from panelwright import GarmentDesign, make_garment, size
>>> garment = make_garment(size(88), GarmentDesign("plain-01", "Plain bodice"))
>>> garment.without_errors
True
"""

from importlib import import_module
from importlib.metadata import version
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from panelwright.app.design_file import load_design, save_design
    from panelwright.app.findings_text import findings_text
    from panelwright.app.garment import Garment, make_garment
    from panelwright.app.garment_design import GarmentDesign
    from panelwright.app.garment_folder import write_garment
    from panelwright.app.output_folder import open_folder
    from panelwright.app.paper import PaperChoice, PrintJob
    from panelwright.blocks.make_block import make_block
    from panelwright.blocks.options import BlockOptions, Ease
    from panelwright.body.measurement_file import load_measurements, save_measurements
    from panelwright.body.measurements import Measurements
    from panelwright.body.size_table import size
    from panelwright.checks.inspection import check
    from panelwright.design.hem import Hem
    from panelwright.design.position import Height
    from panelwright.design.top_edge import TopEdge
    from panelwright.errors import PanelwrightError
    from panelwright.finish.options import Finish
    from panelwright.output.pattern_file import read_pattern, write_pattern

__version__ = version("panelwright")
__all__ = [
    "BlockOptions",
    "Ease",
    "Finish",
    "Garment",
    "GarmentDesign",
    "Height",
    "Hem",
    "Measurements",
    "PanelwrightError",
    "PaperChoice",
    "PrintJob",
    "TopEdge",
    "check",
    "findings_text",
    "load_design",
    "load_measurements",
    "make_block",
    "make_garment",
    "open_folder",
    "read_pattern",
    "save_design",
    "save_measurements",
    "size",
    "write_garment",
    "write_pattern",
]

_HOMES = {
    "BlockOptions": "blocks.options",
    "Ease": "blocks.options",
    "Finish": "finish.options",
    "Garment": "app.garment",
    "GarmentDesign": "app.garment_design",
    "Height": "design.position",
    "Hem": "design.hem",
    "Measurements": "body.measurements",
    "PanelwrightError": "errors",
    "PaperChoice": "app.paper",
    "PrintJob": "app.paper",
    "TopEdge": "design.top_edge",
    "check": "checks.inspection",
    "findings_text": "app.findings_text",
    "load_design": "app.design_file",
    "load_measurements": "body.measurement_file",
    "make_block": "blocks.make_block",
    "make_garment": "app.garment",
    "open_folder": "app.output_folder",
    "read_pattern": "output.pattern_file",
    "save_design": "app.design_file",
    "save_measurements": "body.measurement_file",
    "size": "body.size_table",
    "write_garment": "app.garment_folder",
    "write_pattern": "output.pattern_file",
}


def __getattr__(name: str) -> object:
    """A name of the front door, imported when it is first asked for, so that `panelwright --help` is quick."""
    if name not in _HOMES:
        raise AttributeError(f"module 'panelwright' has no attribute {name!r}")
    return getattr(import_module(f"panelwright.{_HOMES[name]}"), name)


def __dir__() -> list[str]:
    return sorted([*globals(), *_HOMES])
