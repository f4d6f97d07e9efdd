import shapely
from hypothesis import given
from hypothesis import strategies as st

from panelwright.drawing.shelf import shelved

SIZES = st.lists(st.tuples(st.floats(1.0, 300.0), st.floats(1.0, 800.0)), min_size=1, max_size=12)


@given(SIZES, st.floats(300.0, 1500.0), st.floats(0.0, 20.0))
def test_boxes_stay_apart_and_within_the_width(sizes: list[tuple[float, float]], width: float, gap: float) -> None:
    places = shelved(sizes, width, gap)
    boxes = [shapely.box(x, y - tall, x + wide, y) for (x, y), (wide, tall) in zip(places, sizes, strict=True)]
    assert all(box.bounds[0] >= 0 and box.bounds[2] <= width + 1e-6 and box.bounds[3] <= 0 for box in boxes)
    for i, a in enumerate(boxes):
        for b in boxes[i + 1 :]:
            assert a.distance(b) >= gap - 1e-6
            assert a.intersection(b).area < 1e-6


def test_a_smaller_box_fills_a_shelf_that_was_begun() -> None:
    assert shelved([(100, 50), (150, 200), (80, 60)], 250, 10) == [(0.0, -210.0), (0.0, 0.0), (160.0, 0.0)]
