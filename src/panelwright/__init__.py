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
    from panelwright.app.fitting_file import load_fitting, save_fitting
    from panelwright.app.garment import Garment, make_garment
    from panelwright.app.garment_design import GarmentDesign
    from panelwright.app.garment_folder import write_garment
    from panelwright.app.output_folder import open_folder
    from panelwright.app.paper import PaperChoice, PrintJob
    from panelwright.app.size_range import make_range, write_range
    from panelwright.app.toile import Toile
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
    from panelwright.fitting.fitted_block import fitted
    from panelwright.fitting.fitting import Fitting
    from panelwright.fitting.full_bust import FullBust
    from panelwright.fitting.length_note import LengthNote
    from panelwright.fitting.seam_note import SeamNote
    from panelwright.fitting.shoulder_note import ShoulderNote
    from panelwright.fitting.strap_note import StrapNote
    from panelwright.fitting.sway_back import SwayBack
    from panelwright.output.pattern_file import read_pattern, write_pattern

__version__ = version("panelwright")
__all__ = [
    "BlockOptions",
    "Ease",
    "Finish",
    "Fitting",
    "FullBust",
    "Garment",
    "GarmentDesign",
    "Height",
    "Hem",
    "LengthNote",
    "Measurements",
    "PanelwrightError",
    "PaperChoice",
    "PrintJob",
    "SeamNote",
    "ShoulderNote",
    "StrapNote",
    "SwayBack",
    "Toile",
    "TopEdge",
    "check",
    "findings_text",
    "fitted",
    "load_design",
    "load_fitting",
    "load_measurements",
    "make_block",
    "make_garment",
    "make_range",
    "open_folder",
    "read_pattern",
    "save_design",
    "save_fitting",
    "save_measurements",
    "size",
    "write_garment",
    "write_pattern",
    "write_range",
]

_HOMES = {
    "BlockOptions": "blocks.options",
    "Ease": "blocks.options",
    "Finish": "finish.options",
    "Fitting": "fitting.fitting",
    "FullBust": "fitting.full_bust",
    "Garment": "app.garment",
    "GarmentDesign": "app.garment_design",
    "Height": "design.position",
    "Hem": "design.hem",
    "LengthNote": "fitting.length_note",
    "Measurements": "body.measurements",
    "PanelwrightError": "errors",
    "PaperChoice": "app.paper",
    "PrintJob": "app.paper",
    "SeamNote": "fitting.seam_note",
    "ShoulderNote": "fitting.shoulder_note",
    "StrapNote": "fitting.strap_note",
    "SwayBack": "fitting.sway_back",
    "Toile": "app.toile",
    "TopEdge": "design.top_edge",
    "check": "checks.inspection",
    "findings_text": "app.findings_text",
    "fitted": "fitting.fitted_block",
    "load_design": "app.design_file",
    "load_fitting": "app.fitting_file",
    "load_measurements": "body.measurement_file",
    "make_block": "blocks.make_block",
    "make_garment": "app.garment",
    "make_range": "app.size_range",
    "open_folder": "app.output_folder",
    "read_pattern": "output.pattern_file",
    "save_design": "app.design_file",
    "save_fitting": "app.fitting_file",
    "save_measurements": "body.measurement_file",
    "size": "body.size_table",
    "write_garment": "app.garment_folder",
    "write_pattern": "output.pattern_file",
    "write_range": "app.size_range",
}


def __getattr__(name: str) -> object:
    """A name of the front door, imported when it is first asked for, so that `panelwright --help` is quick."""
    if name not in _HOMES:
        raise AttributeError(f"module 'panelwright' has no attribute {name!r}")
    return getattr(import_module(f"panelwright.{_HOMES[name]}"), name)


def __dir__() -> list[str]:
    return sorted([*globals(), *_HOMES])
