"""The lays to cut by, the order of work and the sign-off page of a design of the workroom on one of its wearers."""

from panelwright.app.order_pack import OrderPack
from panelwright.app.paper import PaperChoice, PrintJob
from panelwright.app.sign_off import sign_off_pdf
from panelwright.app.workroom_garments import WorkroomGarments
from panelwright.app.workroom_lays import LayAsked, WorkroomLays
from panelwright.drawing.heading import Heading
from panelwright.drawing.lay_sheet import lay_sheets
from panelwright.errors import LayError
from panelwright.output.pdf import pdf_bytes


def workroom_lay_sheets(
    garments: WorkroomGarments, lays: WorkroomLays, design: str, wearer: str, choice: PaperChoice, named: bool = True
) -> bytes:
    """The lays to cut by, PDF: a page or more for each cloth.

    Args:
        named: whether they say whom they are for: not before an audience.

    Raises:
        LayError: if no cloth takes its pieces.
        Others as `workroom_sign_off`.
    """
    drawn = garments.complete(design, wearer, choice.unit, named).design
    own = lays.of(LayAsked(design, wearer, choice.unit))
    if not own.used:
        raise LayError(f"there is nothing to print: {own.unlaid}", "lay")
    heading = Heading.of(drawn.cutting.pattern, drawn.design.title, choice.made_on, choice.unit)
    pages = [sheet for lay in own.used for sheet in lay_sheets(lay, heading, choice.paper)]
    return pdf_bytes(pages, f"{drawn.design.title}, {wearer}, lays" if named else drawn.design.title, choice.made_on)


def workroom_sign_off(
    garments: WorkroomGarments, lays: WorkroomLays, design: str, wearer: str, choice: PaperChoice
) -> bytes:
    """The private sign-off page, PDF.

    Raises:
        NotThereError: if there is no such design or wearer.
        InputError, BlockError, DesignError: if it cannot be cut.
    """
    drawn = garments.complete(design, wearer, choice.unit).design
    own = lays.of(LayAsked(design, wearer, choice.unit))
    job = PrintJob(drawn.cutting, drawn.design.title, choice, drawn.block.pattern)
    return sign_off_pdf(drawn.design, drawn.block.wearer, drawn.findings, job, own.used, own.unlaid)


def workroom_order(
    garments: WorkroomGarments, design: str, wearer: str, choice: PaperChoice, named: bool = True
) -> bytes:
    """The order of work, PDF.

    Args:
        named: whether it says whom it is for: not before an audience.

    Raises:
        As `workroom_sign_off`.
    """
    drawn = garments.complete(design, wearer, choice.unit, named).design
    return OrderPack(drawn.cutting, drawn.design.finish, drawn.design.title, choice).pdf()
