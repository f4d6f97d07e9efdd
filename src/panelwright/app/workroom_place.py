"""Where a workroom is kept when nobody says otherwise: with the data of the person's other programs."""

import os
import sys
from pathlib import Path
from typing import Final

from panelwright.app.output_folder import open_folder

FILE: Final = "workroom.sqlite"


def usual_workroom() -> Path:
    """The file of this computer's workroom; its folder is made.

    Raises:
        OutputError: if the folder cannot be made.
    """
    return open_folder(_data_folder() / "panelwright") / FILE


def _data_folder() -> Path:
    home = Path.home()
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA") or home / "AppData" / "Local")
    if sys.platform == "darwin":
        return home / "Library" / "Application Support"
    return Path(os.environ.get("XDG_DATA_HOME") or home / ".local" / "share")
