"""Panelwright: from body measurements to a checked, printed cutting pattern for a fitted bodice.

Work with the packages below this one; `docs/architecture.md` says which does what. Inside, every length is
in millimetres and every angle in radians, y points up and outlines run anticlockwise.
"""

from importlib.metadata import version

__version__ = version("panelwright")
