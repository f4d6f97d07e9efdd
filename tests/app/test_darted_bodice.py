"""The darted bodice against the princess bodice that it is made of: girths, edges, and the angles of its darts."""

import json
from functools import lru_cache
from typing import Any

import numpy as np
import pytest
from skirt_garment import BODY, length

from panelwright.app.block_folder import make_bare_block
from panelwright.app.design_file import design_document, read_design
from panelwright.app.garment import Garment, make_garment
from panelwright.blocks.block import Block
from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions
from panelwright.body.measurements import Measurements
from panelwright.errors import InputError
from panelwright.geometry.arrays import turn
from panelwright.pattern.pattern import Pattern

WAIST = {"level": "waist"}
EDGES = [
    {"kind": "bodice-top", "uid": "top"},
    {"kind": "hem", "uid": "hem", "shape": "straight", "centre": WAIST, "side": WAIST, "back": WAIST},
]
BODIES = {
    "middling": BODY,
    "full": {**BODY, "bust_girth": 1060, "underbust_girth": 840, "waist_girth": 800, "hip_girth": 1080},
    "slight": {**BODY, "bust_girth": 800, "underbust_girth": 720, "waist_girth": 640, "hip_girth": 880},
}


def made(body: str, block: dict[str, Any], steps: list[dict[str, Any]] | None = None) -> Garment:
    return _made(body, json.dumps({"block": block, "steps": EDGES if steps is None else steps}))


@lru_cache(maxsize=4)
def princess_block(body: str) -> Block:
    """To the shoulder; designs of both kinds start from it."""
    return make_block(Measurements.of("w-01", BODIES[body]), BlockOptions(top="shoulder"))


@lru_cache(maxsize=32)
def _made(body: str, rest: str) -> Garment:
    head = {"format": "panelwright-design/1", "ref": "d-01", "title": "Darted"}
    design = read_design(json.dumps({**head, **json.loads(rest)}))
    return make_garment(Measurements.of("w-01", BODIES[body]), design, block=princess_block(body))


def girth(pattern: Pattern, level: str) -> float:
    path = pattern.level(level).path
    return sum(span.times * length(pattern.piece(span.piece).inside_line(span.inside).curve) for span in path)


def value(pattern: Pattern, dart: str) -> float:
    """Angle of a dart at its pivot, between the ends of its mouth, radians."""
    seam = pattern.seam(dart)
    piece = pattern.piece(seam.a[0].piece)
    down, up = (pattern.edge(span).curve for span in (seam.a[0], seam.b[0]))
    pivot = next((mark.at for mark in piece.marks if mark.id == f"{dart}-pivot"), down.end)
    return abs(turn(down.start - pivot, up.end - pivot))


@pytest.mark.parametrize("body", BODIES)
def test_girths_and_edges_are_those_of_the_princess_bodice(body: str) -> None:
    """At bust, underbust and waist within 0.05 mm. Above the bust the halves are laid together, which takes up to 3 %
    of the upper bust; the level says what is left."""
    princess, darted = made(body, {}).pattern, made(body, {"type": "darted"}).pattern
    assert [piece.id for piece in darted.pieces] == ["CF", "SB"]
    for level in ("bust", "underbust", "waist"):
        assert girth(darted, level) == pytest.approx(girth(princess, level), abs=0.05)
    lost = girth(princess, "upper-bust") - girth(darted, "upper-bust")
    assert 0 <= lost < 0.03 * girth(princess, "upper-bust")
    assert darted.level("upper-bust").finished_girth == pytest.approx(girth(darted, "upper-bust"), abs=0.05)
    for line in ("top/neckline", "top/armhole", "top/shoulder", "side", "hem/line"):
        one, other = (
            sum(length(edge.curve) for _, edge in pattern.pieces_on_line(line)) for pattern in (princess, darted)
        )
        assert other == pytest.approx(one, abs=0.05)


@pytest.mark.parametrize("body", BODIES)
def test_no_rule_is_broken_and_every_dart_has_legs_alike(body: str) -> None:
    garment = made(body, {"type": "darted"})
    assert [finding.message for finding in garment.findings if finding.severity == "error"] == []
    darts = [seam for seam in garment.pattern.seams if seam.kind == "dart"]
    assert sorted(seam.id for seam in darts) == ["back/dart", "bust/dart", "front/dart"]
    for seam in darts:
        legs = [length(garment.pattern.span_curve(span)) for span in (seam.a[0], seam.b[0])]
        assert legs[1] - legs[0] == pytest.approx(seam.ease, abs=0.05)


def test_the_front_dart_is_shared_between_waist_and_side() -> None:
    whole = value(made("middling", {"type": "darted", "bust_dart": 0}).pattern, "front/dart")
    for share in (0.3, 0.5, 0.8):
        pattern = made("middling", {"type": "darted", "bust_dart": share}).pattern
        assert value(pattern, "bust/dart") == pytest.approx(share * whole, abs=1e-6)
        assert value(pattern, "front/dart") == pytest.approx((1 - share) * whole, abs=1e-6)


def test_a_fuller_bust_has_a_wider_front_dart() -> None:
    values = [value(made(body, {"type": "darted", "bust_dart": 0}).pattern, "front/dart") for body in BODIES]
    middling, full, slight = values
    assert slight < middling < full
    assert np.degrees(middling) > 10


def test_what_the_design_lacks_is_put_in_and_darts_come_after_the_edges() -> None:
    garment = made(
        "middling", {"type": "darted"}, [{"kind": "closure", "uid": "front", "place": "centre-back", "type": "zip"}]
    )
    kinds = [step.kind for step in garment.design.design.steps]
    assert kinds == ["bodice-top", "hem", "closure", "join", "join", "swing"]
    assert len({step.uid for step in garment.design.design.steps}) == 6
    assert garment.without_errors
    again = read_design(json.dumps(design_document(garment.design)))
    assert again == garment.design


def test_a_sleeve_goes_into_its_armhole() -> None:
    garment = made("middling", {"type": "darted"}, [*EDGES, {"kind": "sleeve", "uid": "arm"}])
    armhole = sum(length(edge.curve) for _, edge in garment.pattern.pieces_on_line("top/armhole"))
    caps = sum(length(edge.curve) for edge in garment.pattern.piece("arm").edges if "cap" in edge.line)
    assert caps == pytest.approx(armhole + 20, abs=1e-3)
    assert garment.without_errors


def test_the_bare_block_has_its_darts() -> None:
    bare = make_bare_block(Measurements.of("w-01", BODY), BlockOptions(type="darted"))
    assert {seam.id for seam in bare.cutting.pattern.seams if seam.kind == "dart"} == {
        "front/dart", "back/dart", "bust/dart",
    }  # fmt: skip
    assert [finding.message for finding in bare.findings if finding.severity == "error"] == []


def test_down_to_the_hip_its_girths_are_the_princess_bodices_too() -> None:
    low = {"level": "hip", "offset_cm": 2}
    steps = [EDGES[0], {"kind": "hem", "uid": "hem", "shape": "straight", "centre": low, "side": low, "back": low}]
    princess, darted = (made("middling", block, steps).pattern for block in ({}, {"type": "darted"}))
    for level in ("waist", "top-hip", "lower-waist"):
        assert girth(darted, level) == pytest.approx(girth(princess, level), abs=0.05)


@pytest.mark.parametrize(("block", "words"), [
    ({"type": "darted", "panels": 6}, "made of 4 panels"),
    ({"type": "darted", "bust_dart": 0.95}, "cannot open at the side"),
    ({"bust_dart": 0.3}, "a princess bodice, for which bust dart changes nothing"),
])  # fmt: skip
def test_what_cannot_be_is_refused(block: dict[str, Any], words: str) -> None:
    with pytest.raises(InputError, match=words):
        made("middling", block)
