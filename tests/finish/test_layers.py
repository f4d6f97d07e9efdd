import pytest
from plain_cutting_pattern import shell

from panelwright.finish.finishing import finish
from panelwright.finish.layers import derived_layers, with_layers
from panelwright.finish.layers import shell as shell_of
from panelwright.finish.options import Cloths, Finish


@pytest.mark.parametrize(
    ("options", "layers"),
    [
        (Finish(), ()),
        (Finish(interfacing=True), ("interfacing",)),
        (Finish(facing="full"), ("facing",)),
        (Finish(facing="full", interfacing=True), ("facing", "interfacing")),
        (Finish(facing="full", cloths=Cloths(facing="outer")), ()),
        (Finish(facing="full", interfacing=True, cloths=Cloths(facing="outer")), ("interfacing",)),
    ],
)
def test_which_layers_get_pieces_of_their_own(options: Finish, layers: tuple[str, ...]) -> None:
    assert derived_layers(options) == layers


def test_a_facing_is_every_outer_piece_again_with_ids_of_its_own() -> None:
    pattern = with_layers(shell(), ("facing",))
    faced = pattern.piece("SF/facing")
    outer = pattern.piece("SF")
    assert (faced.layer, faced.derived_from, faced.label) == ("facing", "SF", "Side front facing")
    assert [edge.id for edge in faced.edges] == [e.id.replace("SF.", "SF/facing.") for e in outer.edges]
    assert [edge.curve for edge in faced.edges] == [edge.curve for edge in outer.edges]
    assert (faced.inside, faced.marks, faced.grain, faced.material) == (
        outer.inside,
        outer.marks,
        outer.grain,
        outer.material,
    )


def test_every_seam_edge_of_a_layer_is_sewn_within_its_layer() -> None:
    pattern = with_layers(shell(), ("facing", "interfacing"))
    for layer in ("facing", "interfacing"):
        ids = {piece.id for piece in pattern.pieces if piece.layer == layer}
        sewn = {span.edge for seam in pattern.seams for span in seam.a + seam.b if span.piece in ids}
        edges = {edge.id for id in ids for edge in pattern.piece(id).edges if edge.kind in ("seam", "opening")}
        assert sewn == edges
        for seam in pattern.seams:
            assert len({pattern.piece(span.piece).layer for span in seam.a + seam.b}) == 1


def test_a_seam_of_a_layer_keeps_its_kind_region_lengths_and_hands() -> None:
    pattern = with_layers(shell(), ("facing",))
    for seam in shell().seams:
        copy = pattern.seam(f"facing/{seam.id}")
        assert (copy.kind, copy.region, copy.ratio, copy.ease, copy.blend) == (
            seam.kind,
            seam.region,
            seam.ratio,
            seam.ease,
            seam.blend,
        )
        assert pattern.chain_length(copy.a) == pattern.chain_length(seam.a)
        assert [span.hand for span in copy.b] == [span.hand for span in seam.b]


def test_levels_stay_on_the_outer_pieces() -> None:
    pattern = with_layers(shell(), ("facing",))
    assert pattern.levels == shell().levels


def test_derived_layers_are_rebuilt_from_the_shell() -> None:
    everything = with_layers(shell(), ("facing", "interfacing"))
    assert shell_of(everything) == shell()
    assert shell_of(shell()) is not None


@pytest.mark.parametrize("options", [Finish(), Finish(facing="full", interfacing=True)])
def test_finishing_a_finished_pattern_changes_nothing(options: Finish) -> None:
    once = finish(shell(), options)
    again = finish(once.pattern, options)
    assert again.pattern == once.pattern
    assert again.notches == once.notches
    for id, cut in once.cut.items():
        assert (again.cut[id].cut_line == cut.cut_line).all()
        assert again.cut[id].notches == cut.notches


def test_another_finish_of_a_finished_pattern_leaves_no_old_layer() -> None:
    faced = finish(shell(), Finish(facing="full", interfacing=True))
    assert finish(faced.pattern, Finish()).pattern == shell()


def test_a_facing_reuses_the_cut_line_of_its_outer_piece() -> None:
    cutting = finish(shell(), Finish(facing="full"))
    for piece in shell().pieces:
        assert cutting.cut[f"{piece.id}/facing"].cut_line is not None
        assert (cutting.cut[f"{piece.id}/facing"].cut_line == cutting.cut[piece.id].cut_line).all()
