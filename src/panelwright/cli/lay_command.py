"""`panelwright lay`: a short lay for pieces given as outlines, or for a garment, and a drawing of it."""

from argparse import Namespace
from pathlib import Path

from panelwright.app.lay_file import lay_reduction
from panelwright.app.picture_file import picture_form
from panelwright.cli.console import Console
from panelwright.cli.garment_lay import lay_garment_given
from panelwright.cli.given import given_files, refuse_fitting
from panelwright.cli.instance_lay import lay_instance_given
from panelwright.errors import InputError


def run(arguments: Namespace, console: Console) -> int:
    """Plan the lay, write it, draw it; returns the exit status."""
    if arguments.draw is not None:
        picture_form(Path(arguments.draw))
    lay_reduction(arguments.scale)
    if arguments.size is not None or len(arguments.files) == 2:
        return lay_garment_given(arguments, console)
    given_files(arguments, "a lay to plan")
    if arguments.scale is not None and arguments.draw is None:
        raise InputError("--scale says how a lay is drawn: give --draw FILE too", "scale")
    refuse_fitting(arguments)
    return lay_instance_given(arguments, console)
