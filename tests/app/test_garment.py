"""Making a garment: the stages told, stopped, shared; half a design refused."""

import json
import re
from dataclasses import replace
from pathlib import Path

import pytest

from panelwright.app.garment import STAGES, Garment, make_garment
from panelwright.app.garment_design import GarmentDesign
from panelwright.app.garment_folder import files_in_all, write_garment
from panelwright.app.paper import PaperChoice
from panelwright.blocks.options import BlockOptions, Ease
from panelwright.body.size_table import size
from panelwright.body.units import Unit
from panelwright.design.hem import Hem
from panelwright.design.position import Height
from panelwright.design.top_edge import TopEdge
from panelwright.errors import CancelledError, DesignError, InputError
from panelwright.finish.options import Finish
from panelwright.lay.cloth import Cloth

PLAIN = GarmentDesign("plain-01", "Plain bodice", finish=Finish(facing="full"))


@pytest.fixture(scope="module")
def garment() -> Garment:
    return make_garment(size(88), PLAIN)


def test_the_default_steps_give_a_garment_without_errors(garment: Garment) -> None:
    assert garment.without_errors
    assert garment.pattern.wearer == "size-88"
    assert [step.uid for step in garment.pattern.steps] == ["top", "hem"]
    assert {piece.layer for piece in garment.cutting.pattern.pieces} == {"outer", "facing"}


SCOOPED = TopEdge("neck", "scooped", Height("upper-bust", offset=-40.0), Height("upper-bust", offset=-15.0))
SHAPED = Hem("lower", "shaped", Height("top-hip", offset=10.0), Height("lower-waist"))


@pytest.mark.parametrize(
    ("steps", "carried_out"),
    [
        ((), [("top", "top-edge"), ("hem", "hem")]),
        ((SCOOPED,), [("hem", "hem"), ("neck", "top-edge")]),
        ((SHAPED,), [("top", "top-edge"), ("lower", "hem")]),
        ((replace(SCOOPED, uid="hem"),), [("default-hem", "hem"), ("hem", "top-edge")]),
        ((SHAPED, SCOOPED), [("lower", "hem"), ("neck", "top-edge")]),
    ],
    ids=["no step", "only a neckline", "only a hem", "a neckline that is called hem", "both, in the maker's order"],
)
def test_an_edge_that_no_step_makes_is_the_default_one(
    garment: Garment, steps: tuple[TopEdge | Hem, ...], carried_out: list[tuple[str, str]]
) -> None:
    """Both ends become finished edges whose sewn line runs true: no error is found."""
    made = make_garment(size(88), replace(PLAIN, steps=steps), block=garment.block)
    assert [(step.uid, step.kind) for step in made.pattern.steps] == carried_out
    assert made.without_errors
    finished = {edge.line for piece in made.pattern.pieces for edge in piece.edges if edge.kind == "finished"}
    assert finished == {f"{uid}/line" for uid, _ in carried_out}
    assert made.design.steps == steps


def test_findings_come_gravest_first(garment: Garment) -> None:
    order = ["error", "warning", "advice"]
    ranks = [order.index(finding.severity) for finding in garment.findings]
    assert ranks == sorted(ranks)
    assert {"unboned-strapless", "estimated"} <= {finding.code for finding in garment.findings}


def test_progress_names_each_stage_once_it_begins() -> None:
    told: list[tuple[int, int, str]] = []
    make_garment(size(88), PLAIN, lambda *now: told.append(now))
    assert list(dict.fromkeys(told)) == [
        (0, STAGES, "block"),
        (1, STAGES, "design"),
        (2, STAGES, "ready to cut"),
        (3, STAGES, "checks"),
    ]
    assert told.count((0, STAGES, "block")) > 1, "the solver gives a chance to stop at each of its steps"


@pytest.mark.parametrize("stage", range(STAGES))
def test_a_person_can_stop_it(stage: int, garment: Garment) -> None:
    def stop(done: int, _total: int, _what: str) -> None:
        if done == stage:
            raise CancelledError

    with pytest.raises(CancelledError):
        make_garment(size(88), PLAIN, stop, block=garment.block)


def test_stopping_while_writing_leaves_whole_files(garment: Garment, tmp_path: Path) -> None:
    def stop(done: int, total: int, _what: str) -> None:
        assert total == files_in_all(PaperChoice())
        if done == 4:
            raise CancelledError

    with pytest.raises(CancelledError):
        write_garment(garment, tmp_path, PaperChoice(), stop)
    left = {path.name for path in tmp_path.iterdir()}
    assert left == {"pattern.json", "findings.txt", "overview.svg", "quarter-scale-a4.pdf"}
    json.loads((tmp_path / "pattern.json").read_text())


def test_a_block_made_before_gives_the_same_garment(garment: Garment) -> None:
    again = make_garment(size(88), PLAIN, block=garment.block)
    assert again.block is garment.block
    assert again.pattern == garment.pattern


def test_lengths_are_worded_in_the_asked_unit(garment: Garment) -> None:
    """10 mm of allowance is 3/8 in to the nearest eighth (closed form: 10 / 25.4 · 8 = 3.15)."""
    inches = make_garment(size(88), PLAIN, unit=Unit.INCH, block=garment.block)
    assert any("3/8 in" in line for line in inches.cutting.cut["SF"].text)
    assert any("1.0 cm" in line for line in garment.cutting.cut["SF"].text)


def test_half_a_design_is_refused(garment: Garment) -> None:
    high = Height("upper-bust", offset=80.0)
    design = replace(PLAIN, steps=(TopEdge("neck", "straight", high, high), *PLAIN.steps[1:]))
    with pytest.raises(DesignError, match=r"^plain-01: top edge: .* above the block") as caught:
        make_garment(size(88), design, block=garment.block)
    assert caught.value.where == "step neck"


def test_an_allowance_for_no_line_is_refused(garment: Garment) -> None:
    with pytest.raises(InputError, match=r'^plain-01: finish: an allowance is given for "armhole"'):
        make_garment(size(88), replace(PLAIN, finish=Finish(lines={"armhole": 5.0})), block=garment.block)


def test_a_low_neckline_is_found(garment: Garment) -> None:
    """Where the top edge crosses the princess seam below the bust point it is an error (geometry, check-values)."""
    low = Height("bust", offset=-15.0)
    hem = Height("hip")
    design = replace(PLAIN, steps=(TopEdge("neck", "straight", low, low), Hem("hem", "straight", hem, hem)))
    made = make_garment(size(88), design, block=garment.block)
    assert [finding.code for finding in made.findings if finding.severity == "error"] == ["neckline-bust-point"]
    assert not made.without_errors


def test_closed_all_round_cannot_be_put_on() -> None:
    """Common practice (check-values): closed all round in woven cloth with no opening wide enough is an error."""
    tight = BlockOptions(ease=Ease(waist=-40.0), centre_back="seam")
    made = make_garment(size(88), replace(PLAIN, block=tight))
    assert "cannot-be-put-on" in {finding.code for finding in made.findings if finding.severity == "error"}


def test_what_ends_up_in_logs_holds_no_measurement() -> None:
    garment = make_garment(size(88), GarmentDesign("quiet-1", "Quiet"))
    girth = round(size(88)["waist_girth"])
    for thing in (garment, garment.block, garment.pattern, garment.pattern.levels, garment.block.torso.shape):
        said = re.sub("0x[0-9a-f]+", "", repr(thing))  # an address in memory may hold the same digits
        assert str(girth) not in said
        assert len(said) < 4000


def test_a_cloth_that_is_too_narrow_is_told_with_the_remedy_and_the_others_are_laid(
    garment: Garment, tmp_path: Path
) -> None:
    narrow = replace(PLAIN, cloths=(Cloth("outer", 120.0), Cloth("facing", 1400.0)))
    made = make_garment(size(88), narrow, block=garment.block)
    (told,) = [finding for finding in made.findings if finding.code == "cannot-be-laid"]
    assert (told.severity, told.subject) == ("error", "outer")
    assert told.value > told.limit
    assert told.remedy.startswith("Take cloth at least")
    assert [lay.cloth.name for lay in made.lays] == ["facing"]
    assert not made.without_errors
    assert tmp_path / "lay.pdf" in write_garment(made, tmp_path)


def test_every_cloth_has_its_lay_and_its_length_to_buy(garment: Garment) -> None:
    assert [lay.cloth.name for lay in garment.lays] == ["outer", "facing"]
    assert all(lay.to_buy >= lay.length for lay in garment.lays)
