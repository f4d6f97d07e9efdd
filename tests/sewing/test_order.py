"""The order of work: every seam once, when it can be sewn, with the lengths of the pattern file.

That princess seams come first, side seams are tacked and tried on before they are sewn, and zip, facing and
understitching follow is common practice.
"""

import json
from collections import Counter
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
import shapely

from panelwright.app.demo.troupe import DANCED, designs, troupe
from panelwright.app.design_file import read_design
from panelwright.app.garment import Garment, make_garment
from panelwright.body.size_table import size
from panelwright.pattern.seam import Seam
from panelwright.sewing.order import order_of_work
from panelwright.sewing.task import Sewn, Task

REFS = tuple(each.design.ref for each in designs())


@cache
def garment(ref: str, **finish: object) -> Garment:
    design = next(each.design for each in designs() if each.design.ref == ref)
    wearer = next(each.wearer for each in troupe() if each.wearer.ref == DANCED[ref][0])
    return make_garment(wearer, replace(design, finish=replace(design.finish, **finish)))  # type: ignore[arg-type]


def order(ref: str, **finish: object) -> tuple[Task, ...]:
    made = garment(ref, **finish)
    return order_of_work(made.cutting, made.design.finish)


def sewn(ref: str) -> list[Sewn]:
    return [each for task in order(ref) for each in task.sewn]


def layers(ref: str, seam: Seam) -> set[str]:
    pattern = garment(ref).cutting.pattern
    return {pattern.piece(span.piece).layer for span in seam.a + seam.b}


@pytest.mark.parametrize("ref", REFS)
def test_every_seam_is_sewn_once(ref: str) -> None:
    pattern = garment(ref).cutting.pattern
    wanted: Counter[str] = Counter()
    for seam in pattern.seams:
        found = layers(ref, seam)
        if "interfacing" in found or (seam.kind == "attach" and found != {"outer"}) or seam.kind == "closure":
            continue  # it goes with its piece; it is sewn with the outer one; it is shut, not sewn
        wanted[seam.id] = 2 if garment(ref).design.finish.combined and found == {"outer"} else 1
    told = Counter(each.seam for each in sewn(ref) if each.seam)
    assert told == wanted


@pytest.mark.parametrize("ref", REFS)
def test_every_finished_edge_is_finished(ref: str) -> None:
    pattern = garment(ref).cutting.pattern
    finished = {edge.id for piece in pattern.pieces if piece.layer == "outer" for edge in piece.edges
                if edge.kind == "finished"}  # fmt: skip
    assert finished <= {edge for each in sewn(ref) for edge in each.edges}


@pytest.mark.parametrize("ref", REFS)
def test_every_closure_is_told(ref: str) -> None:
    titles = " / ".join(task.title.lower() for task in order(ref))
    for closure in garment(ref).cutting.pattern.closures:
        assert closure.place.replace("-", " ") in titles


def place(ref: str, start: str, **finish: object) -> int:
    found = [k for k, task in enumerate(order(ref, **finish)) if task.title.startswith(start)]
    assert len(found) == 1, (start, [task.title for task in order(ref, **finish)])
    return found[0]


def test_the_order_is_that_of_the_trade() -> None:
    names = ("Interfacing", "Panel seams of the front", "Panel seams of the back", "Tack the side seams", "Side seams",
             "Bone channels", "Zip", "Make the facing", "Sew the facing", "Put the bones in", "Press")  # fmt: skip
    places = [place("lantern-01", name) for name in names]
    assert places == sorted(places)
    facing = order("lantern-01")[place("lantern-01", "Sew the facing")]
    assert [each.what for each in facing.sewn] == ["faced edges", "understitching"]


def test_ties_are_basted_before_the_seam_that_catches_them_and_straps_before_the_facing() -> None:
    assert place("star-07", "Baste on") < place("star-07", "Side seams")
    assert place("river-06", "Sew on straps") < place("river-06", "Sew the facing")


def test_a_seam_is_as_long_as_both_sides_of_the_wearer() -> None:
    pattern = garment("lantern-01").cutting.pattern
    princess = next(each for each in sewn("lantern-01") if each.seam == "front-princess")
    curve = pattern.piece("CF").edge("CF.front-princess").curve.polyline()
    assert princess.length == pytest.approx(2 * shapely.LineString(curve).length, abs=0.5)
    centre = next(each for each in sewn("star-07") if each.seam == "centre-front")
    line = garment("star-07").cutting.pattern.piece("CF").edge("CF.centre-front").curve.polyline()
    assert centre.length == pytest.approx(float(np.linalg.norm(np.diff(line, axis=0), axis=1).sum()), abs=0.5)


def test_raw_edges_are_neatened_only_where_nothing_covers_them() -> None:
    assert any(each.stitch.number == 504 for each in sewn("drum-03"))
    assert not any(each.stitch.number == 504 for each in sewn("lantern-01"))


def test_shoulders_are_closed_last_where_the_layers_are_turned_through_them() -> None:
    assert place("moon-05", "Shoulder") < place("moon-05", "Side seams")
    whole = {"facing": "full", "hem_facing_width": 0.0}
    assert "cannot-be-bagged-out" in {finding.code for finding in garment("moon-05", **whole).findings}
    assert place("moon-05", "Shoulder", **whole) > place("moon-05", "Sew the facing", **whole)


def test_a_side_that_a_zip_opens_is_not_sewn_there() -> None:
    pattern = garment("moon-05").cutting.pattern
    side = next(each for each in sewn("moon-05") if each.seam == "side")
    (zip,) = (one for one in pattern.closures if one.place == "side")
    assert side.length == pytest.approx(2 * pattern.chain_length(pattern.seam("side").a) - zip.opening)
    words = " ".join(order("moon-05")[place("moon-05", "Side seams")].words)
    assert f"Leave {zip.opening / 10:.1f} cm of the wearer's {zip.hand} side open" in words


def test_one_more_length_of_a_side_is_eased_in_and_told() -> None:
    made = garment("lantern-01")
    seam = made.cutting.pattern.seam("front-princess")
    piece = made.cutting.pattern.piece("SF")
    longer = piece.edge("SF.front-princess")
    shorter = replace(seam, b=(replace(seam.b[0], end=seam.b[0].start + 0.97 * (seam.b[0].end - seam.b[0].start)),))
    pattern = replace(
        made.cutting.pattern,
        seams=tuple(shorter if each.id == seam.id else each for each in made.cutting.pattern.seams),
    )
    tasks = order_of_work(replace(made.cutting, pattern=pattern), made.design.finish)
    words = " ".join(next(task.words for task in tasks if task.title == "Panel seams of the front"))
    assert f"Ease {0.03 * longer.curve.length / 10:.1f} cm" in words


TOP = {"kind": "top-edge", "uid": "neck", "shape": "straight", "centre": {"level": "upper-bust"},
       "side": {"level": "upper-bust"}}  # fmt: skip
HEM = {"kind": "hem", "uid": "hem", "shape": "straight", "centre": {"level": "waist"}, "side": {"level": "waist"}}
HIGH = {"kind": "bodice-top", "uid": "top", "shape": "round"}
ZIP = {"kind": "closure", "uid": "back", "place": "centre-back", "type": "zip"}


@cache
def _work(*kinds: str) -> tuple[Task, ...]:
    """The order of work of a bodice with steps of these kinds."""
    steps: dict[str, object] = {
        "sleeve": {"kind": "sleeve", "uid": "arms", "length_cm": 25, "upper_arm_cm": 28, "wrist_cm": 27},
        "frill": {"kind": "frill", "uid": "fr", "line": "front-princess", "width_cm": 4, "ratio": 1.8},
        "peplum": {"kind": "peplum", "uid": "pep", "line": "hem/line", "length_cm": 15, "flare": 1.3},
    }
    first = HIGH if "sleeve" in kinds else TOP
    document = {
        "format": "panelwright-design/1", "ref": "try-01", "title": "Try", "block": {"panels": 4},
        "steps": [first, HEM, ZIP, *(steps[kind] for kind in kinds)],
    }  # fmt: skip
    made = make_garment(size(88), read_design(json.dumps(document)))
    return order_of_work(made.cutting, made.design.finish)


def _titles(*kinds: str) -> list[str]:
    return [task.title for task in _work(*kinds)]


def test_sleeves_are_closed_and_set_in_after_shoulders_and_sides() -> None:
    titles = _titles("sleeve")
    order = [
        titles.index(title) for title in ("Shoulder seams", "Side seams", "Make the sleeves", "Set the sleeves in")
    ]
    assert order == sorted(order)
    tasks = dict(zip(titles, _work("sleeve"), strict=True))
    assert {each.seam for each in tasks["Set the sleeves in"].sewn if each.seam} == {
        "arms/front-armhole",
        "arms/back-armhole",
    }
    assert "wrists" in {each.what for each in tasks["Make the sleeves"].sewn}
    assert not any(title.startswith("Sleeve:") for title in titles)


def test_a_peplum_is_sewn_on_when_the_shell_is_closed_and_a_frill_is_caught_in_its_seam() -> None:
    titles = _titles("frill", "peplum")
    assert titles.index("Make the frill") < titles.index("Baste on what is caught in")
    assert titles.index("Baste on what is caught in") < titles.index("Panel seams of the front")
    assert titles.index("Side seams") < titles.index("Sew on frill and peplum") < titles.index("Zip, centre back")
    on = _work("frill", "peplum")[titles.index("Sew on frill and peplum")]
    assert [each.what for each in on.sewn if each.seam] == ["peplum to the hem"]
    made = _work("frill", "peplum")[titles.index("Make the peplum")]
    assert all(each.length > 0 for each in made.sewn)


def test_a_waistband_is_sewn_to_the_waist_after_the_zip_and_its_hook_is_told() -> None:
    titles = [task.title for task in order("ring-08")]
    assert "Baste on what is caught in" not in titles
    assert titles.index("Zip, centre back") < titles.index("Waistband") < titles.index("Hem")
    band = order("ring-08")[titles.index("Waistband")]
    assert any("hook" in words for words in band.words)
    (seam,) = [each for each in band.sewn if each.seam]
    assert seam.what == "waistband to the waist edge"
    waist = garment("ring-08").cutting.pattern.level("waist").finished_girth
    assert seam.length == pytest.approx(waist, abs=2.0)
