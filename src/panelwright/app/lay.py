"""The lays of a garment: how its pieces lie on each cloth, and the sheets that show it."""

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Final

from panelwright.app.paper import PaperChoice
from panelwright.body.units import Unit
from panelwright.drawing.heading import Heading
from panelwright.drawing.lay_sheet import lay_picture, lay_sheets
from panelwright.errors import LayError
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.lay.cloth import Cloth
from panelwright.lay.fitting import is_folded
from panelwright.lay.lay import Lay
from panelwright.lay.lay_garment import lay_garment
from panelwright.lay.piece_to_cut import cloths_of, pieces_to_cut
from panelwright.output.pdf import write_pdf
from panelwright.output.svg import write_svg

LAY_FILE: Final = "lay.pdf"
LAY_PICTURE: Final = "lay.svg"
# Interfacing is sold narrower than cloth (common practice).
INTERFACING_WIDTH: Final = 900.0


def lays_of(cutting: CuttingPattern, cloths: Iterable[Cloth] = (), unit: Unit = Unit.CM) -> tuple[Lay, ...]:
    """One lay for each cloth; one that nothing is said about is assumed to be of a usual width, and says so.

    Args:
        cutting: pieces ready to cut.
        cloths: what is known of the cloths; those that no piece is cut from are passed over.
        unit: of the lengths in a refusal.

    Raises:
        LayError: if a piece is too wide for its cloth; the message gives the remedies.
    """
    return lay_garment(cutting, cloths_for(cutting, cloths), unit=unit)


def cloths_for(cutting: CuttingPattern, cloths: Iterable[Cloth] = ()) -> dict[str, Cloth]:
    """Name -> cloth, for every cloth that pieces are cut from: as it was given, or of a usual width."""
    given = {cloth.name: cloth for cloth in cloths}
    return {name: given.get(name) or _assumed(cutting, name) for name in cloths_of(cutting)}


def wide_enough(
    cutting: CuttingPattern, cloths: Iterable[Cloth] = (), unit: Unit = Unit.CM
) -> tuple[tuple[Cloth, ...], tuple[Finding, ...]]:
    """(every cloth that takes its pieces, a finding for every cloth that does not); no place is looked for yet.

    `cannot-be-laid`, an error: the pattern may be right, but the garment cannot be cut from that cloth.
    """
    wide, refused = [], []
    for name, cloth in cloths_for(cutting, cloths).items():
        try:
            is_folded(cloth, pieces_to_cut(cutting, name), unit)
            wide.append(cloth)
        except LayError as error:
            reason, remedy = str(error).removesuffix(f": {error.remedy}"), error.remedy
            told = f"{reason}.", f"{remedy[:1].upper()}{remedy[1:]}."
            refused.append(Finding("cannot-be-laid", "error", name, error.across, error.room, *told))
    return tuple(wide), tuple(refused)


def write_lays(
    lays: Sequence[Lay], cutting: CuttingPattern, title: str, folder: Path, choice: PaperChoice | None = None
) -> tuple[Path, Path]:
    """Write `lay.pdf`, a page or more for each cloth, and `lay.svg`, all of them in one picture.

    Args:
        lays: at least one.
        cutting: whose lays they are.
        title: of the garment.
        folder: an open folder; files of the same names are replaced.
        choice: paper, units and date.

    Raises:
        OutputError: if a file cannot be written.
    """
    choice = choice or PaperChoice()
    heading = Heading.of(cutting.pattern, title, choice.made_on, choice.unit)
    sheets, picture = folder / LAY_FILE, folder / LAY_PICTURE
    pages = [sheet for lay in lays for sheet in lay_sheets(lay, heading, choice.paper)]
    write_pdf(pages, sheets, f"{title}, {cutting.pattern.wearer}, lays", choice.made_on)
    write_svg(lay_picture(lays, heading), picture)
    return sheets, picture


def _assumed(cutting: CuttingPattern, name: str) -> Cloth:
    layers = {piece.layer for piece in pieces_to_cut(cutting, name)}
    if layers == {"interfacing"}:
        return Cloth(name, INTERFACING_WIDTH, assumed=True)
    return Cloth(name, assumed=True)
