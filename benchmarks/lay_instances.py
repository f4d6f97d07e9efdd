"""The lay instances of the folder `shared` beside the repository."""

from collections.abc import Iterator
from pathlib import Path

LAYS = Path(__file__).resolve().parents[2] / "shared" / "data" / "lays"


def paths(names: list[str]) -> Iterator[Path]:
    """The instances asked for, by their names or paths; all where none is named."""
    for path in sorted(LAYS.glob("*/*.json")):
        if path.stem != "baselines" and (not names or path.stem in names):
            yield path
    yield from (Path(name) for name in names if Path(name).is_file())
