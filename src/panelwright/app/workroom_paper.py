"""Lays, the order of work and the sign-off page of a design of the workroom on one of its wearers."""

from panelwright.app.cloth_lays import ClothLays, cloth_lays
from panelwright.app.lay_search import LaySearches
from panelwright.app.order_pack import OrderPack
from panelwright.app.paper import PaperChoice, PrintJob
from panelwright.app.sign_off import sign_off_pdf
from panelwright.app.workroom_garments import WorkroomGarments
from panelwright.body.units import Unit


def workroom_lays(garments: WorkroomGarments, searches: LaySearches, design: str, wearer: str, unit: Unit) -> ClothLays:
    """The lays of every cloth, the shortest that searches have found.

    Raises:
        NotThereError: if there is no such design or wearer.
        InputError, BlockError, DesignError: if it cannot be cut.
    """
    return cloth_lays(garments.complete(design, wearer, unit).design, unit).searched(searches)


def workroom_sign_off(
    garments: WorkroomGarments, searches: LaySearches, design: str, wearer: str, choice: PaperChoice
) -> bytes:
    """The private sign-off page, PDF; raises as `workroom_lays` does."""
    drawn = garments.complete(design, wearer, choice.unit).design
    lays = cloth_lays(drawn, choice.unit).searched(searches)
    job = PrintJob(drawn.cutting, drawn.design.title, choice, drawn.block.pattern)
    return sign_off_pdf(drawn.design, drawn.block.wearer, drawn.findings, job, lays.lays, lays.unlaid)


def workroom_order(
    garments: WorkroomGarments, design: str, wearer: str, choice: PaperChoice, named: bool = True
) -> bytes:
    """The order of work, PDF.

    Args:
        named: whether it says whom it is for: not before an audience.

    Raises:
        As `workroom_lays`.
    """
    drawn = garments.complete(design, wearer, choice.unit, named).design
    return OrderPack(drawn.cutting, drawn.design.finish, drawn.design.title, choice).pdf()
