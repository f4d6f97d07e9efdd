"""Makes the block of a skirt from measurements."""

from dataclasses import replace

from panelwright.blocks.block import Block
from panelwright.blocks.circle_skirt import circle_panels
from panelwright.blocks.gored_skirt import gored_panels
from panelwright.blocks.options import BlockOptions
from panelwright.blocks.skirt_body import SkirtBody
from panelwright.blocks.skirt_findings import skirt_findings
from panelwright.blocks.skirt_panel import SkirtPanel
from panelwright.blocks.skirt_pattern import skirt_pattern
from panelwright.blocks.skirt_plan import seam_names
from panelwright.body.measurements import Measurements
from panelwright.errors import BlockError, GeometryError


def make_skirt(wearer: Measurements, options: BlockOptions) -> Block:
    """The skirt of a wearer, from waist to hem, in closed form; no surface of the body is asked for.

    Raises:
        BlockError: if these measurements and options give no skirt; the message says why.
    """
    body = SkirtBody.of(wearer, options)
    panels, seams = _drawn(body, options)
    try:
        pattern = skirt_pattern(panels, seams, body, wearer, _as_cut(options))
    except GeometryError as error:
        raise BlockError(
            f"no skirt can be drawn for these measurements ({error}); choose less flare or another skirt"
        ) from error
    return Block(pattern, wearer, options, given=skirt_findings(pattern, body))


def _drawn(body: SkirtBody, options: BlockOptions) -> tuple[tuple[SkirtPanel, ...], tuple[tuple[str, str], ...]]:
    if options.type == "gored-skirt":
        return gored_panels(body, options)
    panels = circle_panels(body, options)
    return panels, seam_names(tuple(k / len(panels) for k in range(1, len(panels))))


def _as_cut(options: BlockOptions) -> BlockOptions:
    """The options with a seam at the centre front where the number of gores puts one there.

    Raises:
        BlockError: if the centre back is to lie on the fold and there is a seam.
    """
    if options.type != "gored-skirt" or options.skirt.gores % 4:
        return options
    if options.centre_back == "fold":
        raise BlockError(
            f"{options.skirt.gores} gores have a seam at the centre back, which cannot lie on the fold; choose 6 or 10 "
            "gores, or a seam or opening there"
        )
    return replace(options, skirt=replace(options.skirt, centre_front="seam"))
