"""Pieces read from rendered photos are the pieces that were laid on the table."""

import numpy as np
import pytest
from intake.photo_compare import Compared, compared
from intake.photo_scenes import scene
from intake.photo_truth import laid_out, outer_pieces
from intake.rendered_photo import Scene, jpeg, render

from panelwright.errors import InputError
from panelwright.intake import photo_image
from panelwright.intake.photo import read_photo
from panelwright.intake.photo_pieces import PhotoPieces


def read(what: Scene) -> tuple[PhotoPieces, list[Compared]]:
    photo, _ = render(what)
    found = read_photo(jpeg(photo, what.quality))
    return found, compared(found.pieces, what.pieces)


def lantern(**settings: object) -> Scene:
    rng = np.random.default_rng(7)
    pieces = laid_out(outer_pieces("lantern-01", "w-01"), rng, 10.0, 130.0)
    return Scene(tuple(pieces), size=(2000, 1500), **settings)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "what",
    [
        lantern(table="walnut", tilt=20.0, turned=50.0),
        lantern(table="birch", cut=True, paper="Letter", tilt=30.0, lens=0.08, model="polynomial"),
        lantern(table="flowers", tilt=10.0, roll=160.0, lens=-0.12),
    ],
    ids=["dark wood", "light wood, strips", "flowers, upside down"],
)
def test_pieces_are_read_to_a_fraction_of_a_millimetre(what: Scene) -> None:
    found, results = read(what)
    assert found.paper == what.paper
    assert found.uncut is not what.cut
    assert [piece.id for piece in found.pieces] == ["piece-1", "piece-2", "piece-3", "piece-4"]
    assert sorted(result.truth for result in results) == [0, 1, 2, 3]
    errors = np.concatenate([result.errors for result in results])
    assert np.median(errors) < 0.15
    assert np.percentile(errors, 95) < 0.4
    assert all(result.corners.all() for result in results)
    assert all(edge.kind is None for piece in found.pieces for edge in piece.edges)


def test_a_sheet_that_was_printed_small_is_put_right_by_its_square() -> None:
    what = lantern(table="dark", printed=0.97)
    photo, _ = render(what)
    found = read_photo(jpeg(photo, 90), square_mm=97.0)
    errors = np.concatenate([result.errors for result in compared(found.pieces, what.pieces)])
    assert np.percentile(errors, 95) < 0.4


def test_a_very_large_photo_is_made_smaller_and_read_as_well(monkeypatch: pytest.MonkeyPatch) -> None:
    large = photo_image.photo_pixels(np.zeros((5000, 8000, 3), np.uint8))
    assert large.shape[0] * large.shape[1] == pytest.approx(photo_image.ENOUGH_PIXELS, rel=1e-3)
    assert large.shape[1] / large.shape[0] == pytest.approx(1.6, rel=1e-3)
    monkeypatch.setattr(photo_image, "ENOUGH_PIXELS", 2_200_000)
    found, results = read(lantern(table="walnut", tilt=10.0))
    assert len(found.pieces) == 4
    assert np.percentile(np.concatenate([result.errors for result in results]), 95) < 0.4


@pytest.mark.soak
def test_photos_of_all_kinds_are_read() -> None:
    """32 photos of every table, paper, lens and light that the renderer has; white paper on white checks among them."""
    refused, errors, corners = [], [], []
    for number in range(32):
        what = scene(number)
        try:
            found, results = read(what)
        except InputError:
            refused.append(number)
            continue
        assert len(found.pieces) == len(what.pieces), number
        own = np.concatenate([result.errors for result in results])
        assert np.median(own) < 0.3, number
        assert np.percentile(own, 95) < 0.8 or found.doubts, number
        errors.append(own)
        corners += [bool(result.corners.all()) for result in results]
    assert len(refused) <= 1
    assert np.median(np.concatenate(errors)) < 0.05
    assert np.percentile(np.concatenate(errors), 95) < 0.3
    assert np.mean(corners) > 0.85
