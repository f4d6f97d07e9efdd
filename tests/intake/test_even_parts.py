"""Paper of any colour is found where it is even and ends in a step; an outline that something hangs on is refused."""

import numpy as np
import pytest
from intake.rendered_photo import Scene
from intake.test_photo_read import lantern, read

from panelwright.errors import InputError
from panelwright.geometry.arrays import Array
from panelwright.intake.even_parts import even_parts
from panelwright.intake.paper_outline import STEP, PaperOutline
from panelwright.intake.paper_region import regions_of
from panelwright.intake.photo_refusals import refuse_hanging
from panelwright.intake.rectified import Rectified


def seen(parts: dict[tuple[int, int, int, int], float], rough: float) -> tuple[bool, ...] | None:
    """Which boxes (x, y, x, y; brightness) on a table of 300 by 200 mm the parts that are found lie in."""
    rng = np.random.default_rng(5)
    colours = np.zeros((400, 600, 3), np.float32)
    colours[..., 0] = -1.2 + rough * np.kron(rng.normal(0, 1, (100, 150)), np.ones((4, 4)))
    for (left, top, right, bottom), bright in parts.items():
        colours[top:bottom, left:right] = (bright, 0.0, 0.0)
    rect = Rectified(np.zeros((400, 600, 3), np.uint8), np.ones((400, 600), np.bool_), 2.0, 0.0, 200.0)
    found = even_parts(rect, colours, np.zeros((400, 600), np.bool_))
    if not found:
        return None
    return tuple(bool(found[0].mask[top:bottom, left:right].mean() > 0.6) for left, top, right, bottom in parts)


def test_even_parts_of_a_rough_table_are_found_whatever_their_colour() -> None:
    boxes = {(100, 100, 180, 260): -1.0, (250, 100, 400, 160): -1.0}
    assert seen(boxes, rough=0.08) == (True, True)


def test_what_runs_out_of_the_picture_or_is_not_even_is_no_paper() -> None:
    assert seen({(0, 100, 180, 260): -0.5}, rough=0.08) is None
    assert seen({}, rough=0.3) is None


@pytest.mark.parametrize(("solid", "found"), [(False, 0), (True, 1)])
def test_lines_that_enclose_cells_are_no_piece(solid: bool, found: int) -> None:
    paper = np.zeros((400, 600), np.bool_)
    paper[100:281, 100:281] = True
    if not solid:
        for row in range(100, 280, 30):
            for column in range(100, 280, 30):
                paper[row + 1 : row + 30, column + 1 : column + 30] = False
    rect = Rectified(np.zeros((400, 600, 3), np.uint8), np.ones((400, 600), np.bool_), 2.0, 0.0, 200.0)
    assert len(regions_of(rect, paper, np.zeros_like(paper))) == found


def outline(corners: list[tuple[float, float]], dark_from: float = np.inf) -> PaperOutline:
    """Of a polygon, mm; its paper is a fifth darker above a height."""
    ring = np.array([*corners, corners[0]], float)
    lengths = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(ring, axis=0).T))])
    at = np.arange(0.0, lengths[-1], STEP)
    points: Array = np.column_stack([np.interp(at, lengths, ring[:, k]) for k in (0, 1)])
    light = np.where(points[:, 1] > dark_from, 0.4, 0.5)
    return PaperOutline(points, np.full(len(at), 50.0), np.full(len(at), 0.5), light)


PLAIN = [(0.0, 0.0), (60.0, 0.0), (60.0, 40.0), (0.0, 40.0)]


def test_plain_corners_and_hollows_hang_on_nothing() -> None:
    refuse_hanging([outline(PLAIN), outline([(0, 0), (80, 0), (80, 40), (50, 40), (50, 20), (0, 20)])])
    refuse_hanging([outline([(0, 0), (50, 0), (20, 50)])])


@pytest.mark.parametrize(
    "odd",
    [
        outline([(0, 0), (60, 0), (60, 40), (35, 40), (35, 46), (30, 46), (30, 40), (0, 40)]),
        outline([(0, 0), (60, 0), (60, 40), (35, 40), (35, 34), (30, 34), (30, 40), (0, 40)]),
        outline(PLAIN, dark_from=30.0),
    ],
    ids=["bump", "bay", "another light"],
)
def test_what_hangs_on_an_outline_is_refused(odd: PaperOutline) -> None:
    with pytest.raises(InputError, match="hardly be told"):
        refuse_hanging([odd])


@pytest.mark.parametrize(
    "what",
    [lantern(table="grey cloth", colour="grey card", seed=1), lantern(table="checks", colour="manila", seed=2)],
    ids=["grey on grey", "brown on checks"],
)
def test_paper_of_another_colour_is_read_on_a_table_nearly_as_light(what: Scene) -> None:
    found, results = read(what)
    assert len(found.pieces) == 4
    assert sorted(result.truth for result in results) == [0, 1, 2, 3]
    errors = np.concatenate([result.errors for result in results])
    assert np.median(errors) < 0.15
    assert np.percentile(errors, 95) < 0.4
