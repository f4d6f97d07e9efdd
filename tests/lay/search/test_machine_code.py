"""Machine code where it cannot be kept: neither beside the package nor in the user's cache."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import panelwright

SCRIPT = """
import numpy as np
from panelwright.lay.search import fewer_corners
assert "lay_copy" in fewer_corners.__file__
print(fewer_corners.distance(3.0, 4.0, np.zeros(2), np.zeros(2)))
"""


def test_without_any_place_to_keep_it_it_is_made_anew(tmp_path: Path) -> None:
    package = tmp_path / "lay_copy" / "panelwright"
    shutil.copytree(Path(panelwright.__file__).parent, package, ignore=lambda folder, names: _left_out(folder, names))
    in_the_way = package / "lay" / "search" / "__pycache__"
    in_the_way.write_text("a file, so that no folder can be made here", encoding="utf-8")
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("NUMBA", "XDG", "HOME"))}
    places = {"PYTHONPATH": str(package.parent), "HOME": str(in_the_way), "XDG_CACHE_HOME": str(in_the_way / "cache")}
    done = subprocess.run(
        [sys.executable, "-B", "-c", SCRIPT],
        env=kept | places,
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    assert done.stderr == ""
    assert float(done.stdout) == 5.0


def _left_out(folder: str, names: list[str]) -> list[str]:
    """All that the search does not need."""
    if Path(folder) != Path(panelwright.__file__).parent:
        return [name for name in names if name == "__pycache__"]
    return [name for name in names if name not in ("__init__.py", "errors.py", "geometry", "lay", "quotation.py")]
