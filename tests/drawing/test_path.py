import numpy as np
import pytest

from panelwright.drawing.path import Path
from panelwright.errors import GeometryError
from panelwright.geometry.curve import Curve

QUARTER_TURN = Curve.from_points([(0, 0), (10, 0), (20, 5), (20, 15), (20, 25), (25, 30), (35, 30)])


def test_a_circle_keeps_its_radius() -> None:
    """Closed form: four cubics with handles 4/3 (√2 − 1) stray by less than 0.028 % of the radius."""
    (ring,) = Path.circle((5.0, -3.0), 10.0).polylines
    radii = np.linalg.norm(ring - (5.0, -3.0), axis=1)
    assert radii.min() > 9.9999
    assert radii.max() == pytest.approx(10.0027, abs=0.0003)


def test_a_curve_keeps_its_cubics() -> None:
    path = Path.curve(QUARTER_TURN)
    assert path.codes == "MCC"
    assert np.array_equal(path.points, QUARTER_TURN.points)
    (run,) = path.polylines
    assert max(QUARTER_TURN.nearest(point)[1] for point in run) < 1e-9


def test_a_closed_run_ends_where_it_starts() -> None:
    (ring,) = Path.box(1, 2, 30, 40).polylines
    assert ring.tolist() == [[1, 2], [31, 2], [31, 42], [1, 42], [1, 2]]


def test_paths_together_stay_apart() -> None:
    both = Path.together([Path.box(0, 0, 1, 1), Path.polyline([(5, 5), (6, 6)])])
    assert [len(run) for run in both.polylines] == [5, 2]
    assert both.bounds == (0, 0, 6, 6)


def test_moving_and_scaling() -> None:
    path = Path.polyline([(1, 2), (3, 4)])
    assert path.moved((10, 20)).points.tolist() == [[11, 22], [13, 24]]
    assert path.scaled(0.25).points.tolist() == [[0.25, 0.5], [0.75, 1.0]]


@pytest.mark.parametrize(("codes", "points"), [("ML", [(0, 0)]), ("LL", [(0, 0), (1, 1)]), ("MC", [(0, 0), (1, 1)])])
def test_moves_and_points_must_fit(codes: str, points: list[tuple[float, float]]) -> None:
    with pytest.raises(GeometryError, match="takes"):
        Path(codes, np.array(points, float))
