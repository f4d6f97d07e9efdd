"""Lengths by cloth width beside the conversion table of home-sewing pages.

R: yards of the same garment on 35–36, 39, 44–45, 50, 52–54 and 58–60 in cloth, from two home-sewing pages that agree;
the original extension sheet was not found.
"""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from panelwright.app.demo.troupe import DANCED, designs, troupe
from panelwright.app.garment import make_garment
from panelwright.app.lay import cloths_for
from panelwright.geometry.arrays import Array
from panelwright.lay.length_by_width import length_by_width
from panelwright.lay.piece_to_cut import cloths_of, pieces_to_cut

WIDTHS_IN = (36, 39, 45, 50, 54, 60)
AT_45 = 2
YARDS = np.array(
    [
        (1.75, 1.5, 1.375, 1.25, 1.125, 1.0),
        (2.0, 1.75, 1.625, 1.5, 1.375, 1.25),
        (2.5, 2.25, 2.125, 1.75, 1.75, 1.625),
        (3.125, 2.75, 2.5, 2.25, 2.0, 1.875),
        (4.25, 3.5, 3.125, 2.75, 2.625, 2.375),
        (5.0, 4.25, 3.875, 3.375, 3.125, 2.875),
    ]
)
FACTORS = YARDS / YARDS[:, [AT_45]]
BODICES = tuple(cut.design.ref for cut in designs() if not cut.design.block_options.is_skirt)


@cache
def factors(ref: str, alike: int, widths_in: tuple[int, ...] = WIDTHS_IN) -> Array:
    """Lengths of the outer cloth of so many garments alike, as shares of that at 45 in."""
    design = next(cut.design for cut in designs() if cut.design.ref == ref)
    wearer = next(dancer.wearer for dancer in troupe() if dancer.wearer.ref == DANCED[ref][0])
    garment = make_garment(wearer, design)
    name = cloths_of(garment.cutting)[0]
    own = pieces_to_cut(garment.cutting, name)
    pieces = [replace(piece, face_up=alike * piece.face_up, face_down=alike * piece.face_down) for piece in own]
    cloth = cloths_for(garment.cutting, design.cloths)[name]
    found = length_by_width(cloth, pieces, [25.4 * width for width in widths_in])
    lengths = np.array([one.best.length for one in found if one.best is not None])
    shares: Array = lengths / lengths[widths_in.index(45)]
    return shares


def test_one_short_bodice_needs_no_less_from_wider_cloth_and_jumps_on_narrower() -> None:
    """What docs/cloth-widths.md explains: the lay is as long as its longest piece from 45 in on."""
    narrow, _, wide = factors("lantern-01", 1, (36, 45, 60))
    assert wide == pytest.approx(1.0)
    assert narrow > FACTORS[:, 0].max()


def test_four_alike_follow_the_table() -> None:
    narrow, _, wide = factors("round-04", 4, (36, 45, 60))
    assert narrow == pytest.approx(FACTORS[:, 0].mean(), rel=0.1)
    assert wide == pytest.approx(FACTORS[:, -1].mean(), rel=0.1)


@pytest.mark.soak
def test_the_demos_bodices_laid_by_four_follow_the_table_at_every_width() -> None:
    """In the mean within 8 % of the table's mean, and none farther from its rows than a fifth."""
    found = np.array([factors(ref, 4) for ref in BODICES])
    assert found.mean(axis=0) == pytest.approx(FACTORS.mean(axis=0), rel=0.08)
    assert (found <= FACTORS.max(axis=0) * 1.2).all()
    assert (found >= FACTORS.min(axis=0) / 1.2).all()
    one = np.array([factors(ref, 1) for ref in BODICES])
    assert (
        np.abs(one.mean(axis=0) - FACTORS.mean(axis=0)).max() > np.abs(found.mean(axis=0) - FACTORS.mean(axis=0)).max()
    )
