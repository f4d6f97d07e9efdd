"""Allowances of tight armholes: offset by more than its radius a hollow runs into itself (geometry)."""

import pytest

from panelwright.finish.tight_hollow import in_hollow, tight_hollows
from panelwright.geometry.curve import Curve
from panelwright.pattern.edge import Edge
from panelwright.pattern.line import ARMHOLE, HEM, SIDE
from panelwright.pattern.mark import Grain
from panelwright.pattern.piece import Piece

HANDLE = 0.5522847498  # of the radius: a cubic's quarter circle (handbook value)


def scooped(radius: float, line: str = ARMHOLE, hollow: bool = True) -> Piece:
    """A 100 mm square whose upper right corner is a quarter circle, scooped out or rounded off."""
    low, far, k = 100.0 - radius, 100.0, HANDLE * radius
    handles = [[far - k, low], [low, far - k]] if hollow else [[far, low + k], [low + k, far]]
    arc = Curve.from_points([[far, low], *handles, [low, far]])
    runs = [
        (HEM, Curve.straight((0.0, 0.0), (100.0, 0.0))),
        (SIDE, Curve.straight((100.0, 0.0), (far, low))),
        (line, arc),
        ("top", Curve.straight((low, far), (0.0, 100.0))),
        ("centre-front", Curve.straight((0.0, 100.0), (0.0, 0.0))),
    ]
    edges = tuple(Edge(f"SF.{on}", on, "right", "finished", curve) for on, curve in runs)
    return Piece.closed(
        edges, id="SF", label="Side front", extent="whole", hand="right", grain=Grain((50.0, 10.0), (50.0, 80.0))
    )


@pytest.mark.parametrize("radius", [12.0, 25.0])
def test_the_radius_of_a_scooped_corner_is_found(radius: float) -> None:
    assert tight_hollows([scooped(radius)]) == {ARMHOLE: pytest.approx(radius, rel=0.03)}


def test_a_rounded_corner_is_no_hollow_and_other_lines_are_not_looked_at() -> None:
    assert tight_hollows([scooped(12.0, hollow=False)]) == {}
    assert tight_hollows([scooped(12.0, line="neckline")]) == {}


@pytest.mark.parametrize(
    ("radius", "width"), [(30.0, 15.0), (16.1, 15.0), (15.5, 14.0), (13.9, 12.0), (7.5, 6.0), (3.0, 6.0)]
)
def test_an_allowance_fits_into_its_hollow_but_is_six_millimetres_at_least(radius: float, width: float) -> None:
    assert in_hollow(15.0, ARMHOLE, {ARMHOLE: radius}) == width
    assert in_hollow(5.0, ARMHOLE, {ARMHOLE: radius}) == 5.0
    assert in_hollow(15.0, SIDE, {ARMHOLE: radius}) == 15.0
