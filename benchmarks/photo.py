"""Surveys reading photos: `uv run python benchmarks/photo.py --photos 72 [--start N] [--table walnut] [--paper kraft]`.

Prints how far outlines are off, how many pieces have every corner, what is read of what is drawn on them, and how many
photos are refused, by table and by paper; then each photo that was read wrong without a word.
"""

import argparse
import sys
import time
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

from intake.photo_outcome import Outcome, outcome_of
from intake.photo_survey import survey_scene
from intake.rendered_photo import jpeg, render


def outcomes(numbers: range, table: str | None, colour: str | None) -> Iterator[Outcome]:
    """Of each photo by its number, on one kind of table and paper where they are given."""
    for number in numbers:
        what = survey_scene(number, table, colour)
        photo, _ = render(what)
        yield outcome_of(number, what, jpeg(photo, what.quality))


def told(name: str, group: list[Outcome]) -> str:
    """A line of the table of figures."""
    read = [each for each in group if not each.refusal]
    if not read:
        return f"{name:14} {len(group):4}  all refused"
    off = np.concatenate([each.errors for each in read])
    whole = np.concatenate([each.corners for each in read])
    silent = sum(each.wrong and not each.doubted for each in read)
    drawn = [f"{sum(e.drawn[k][0] for e in read)}/{sum(e.drawn[k][1] for e in read)}" for k in read[0].drawn]
    extra = sum(each.extra for each in read)
    return (
        f"{name:14} {len(group):4} {len(group) - len(read):4} {silent:5} {np.median(off):7.3f} "
        f"{np.percentile(off, 95):7.3f} {100 * whole.mean():7.1f} {extra / len(whole):6.2f}  {'  '.join(drawn)}"
    )


def main() -> None:
    """Print the figures."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--photos", type=int, default=36)
    parser.add_argument("--start", type=int, default=0)
    parser.add_argument("--table")
    parser.add_argument("--paper")
    chosen = parser.parse_args()
    start = time.perf_counter()
    every = list(outcomes(range(chosen.start, chosen.start + chosen.photos), chosen.table, chosen.paper))
    tables: dict[str, list[Outcome]] = defaultdict(list)
    for each in every:
        tables[f"on {each.table}"].append(each)
        tables[f"of {each.paper}"].append(each)
        tables["all"].append(each)
    print("kind         photos refused silent median  p95 mm corners%  false  grain levels notches folds")
    for name in sorted(tables):
        print(told(name, tables[name]))
    for each in every:
        if each.refusal or each.wrong:
            print(f"{each.number:4} {each.table}, {each.paper}: {each.refusal or each.told}")
    print(f"{(time.perf_counter() - start) / max(len(every), 1):.1f} s a photo with its rendering")


if __name__ == "__main__":
    main()
