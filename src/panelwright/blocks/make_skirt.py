"""Makes the block of a skirt from measurements."""

from panelwright.blocks.block import Block
from panelwright.blocks.circle_skirt import circle_panels
from panelwright.blocks.gored_skirt import gored_panels
from panelwright.blocks.options import BlockOptions
from panelwright.blocks.skirt_body import SkirtBody
from panelwright.blocks.skirt_findings import skirt_findings
from panelwright.blocks.skirt_panel import SkirtPanel
from panelwright.blocks.skirt_pattern import skirt_pattern
from panelwright.blocks.skirt_plan import seam_names
from panelwright.blocks.straight_skirt import straight_panels
from panelwright.body.measurements import Measurements
from panelwright.errors import BlockError, GeometryError


def make_skirt(wearer: Measurements, options: BlockOptions) -> Block:
    """The skirt of a wearer, from waist to hem, in closed form; no surface of the body is asked for.

    Raises:
        BlockError: if these measurements and options give no skirt; the message says why.
    """
    body = SkirtBody.of(wearer, options)
    panels, seams = skirt_panels(body, options)
    try:
        pattern = skirt_pattern(panels, seams, body, wearer, options)
    except GeometryError as error:
        raise BlockError(
            f"no skirt can be drawn for these measurements ({error}); choose less flare or another skirt"
        ) from error
    return Block(pattern, wearer, options, given=skirt_findings(pattern, body))


def skirt_panels(body: SkirtBody, options: BlockOptions) -> tuple[tuple[SkirtPanel, ...], tuple[tuple[str, str], ...]]:
    """(the panels of the right half from centre front to centre back, (line, label) of the seams between them).

    Raises:
        BlockError: if the body and these options give none.
    """
    if options.type == "gored-skirt":
        return gored_panels(body, options)
    if options.type == "straight-skirt":
        return straight_panels(body, options), seam_names((0.5,))
    panels = circle_panels(body, options)
    return panels, seam_names(tuple(k / len(panels) for k in range(1, len(panels))))
