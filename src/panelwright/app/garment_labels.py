"""The words for the fields of a design that belong to no step: the one place where they stand."""

from collections.abc import Mapping
from typing import Final

from panelwright.app.block_record import CM
from panelwright.app.field_words import FieldWords, GroupWords
from panelwright.blocks.options import (
    BUST_DARTS,
    LEAST_EASE,
    MOST_BUST_POINT_OFFSET,
    MOST_EASE,
    PANELS,
    PLANS,
    SEAM_DISTANCES,
)
from panelwright.blocks.skirt_options import CLOTH_WIDTHS, FLARES, GORES, SKIRT_LENGTHS, SKIRT_PANELS
from panelwright.finish.options import FACING_WIDTHS, MOST_ALLOWANCE, NOTCH_DISTANCES
from panelwright.pattern.level import LEVELS

# In the order of making. The last takes what no other does.
GROUPS: Final = (
    GroupWords(
        "ease",
        "Ease",
        "How much larger the garment is than the body, on the whole girth. A minus makes it smaller. A bodice that "
        "grips can make breath shallow: fit a toile standing, sitting and with a deep breath.",
        ("block.ease_cm",),
    ),
    GroupWords("panels", "Panels and seams", "The block that the steps are drawn on.", ("block",)),
    GroupWords("skirt", "Skirt", "The shape of a skirt, where the block is one.", ("block.skirt",)),
    GroupWords(
        "layers",
        "Facing, lining, interfacing",
        "The layers inside. They are made anew from the outer pieces whenever those change.",
        ("finish.facing", "finish.hem_facing", "finish.lining", "finish.interfacing", "finish.turn_of_cloth"),
    ),
    GroupWords(
        "allowances",
        "Allowances, corners, notches",
        "What is added outside the stitch line. The width for a line comes first, then that for its kind of edge, "
        "then the seam allowance.",
        ("finish",),
    ),
    GroupWords("cloth", "Cloth", "What it is cut from. How wide the cloths are is said on Lay.", ("finish.cloths", "")),
)

_EASE: Final = (LEAST_EASE / CM, MOST_EASE / CM)
_WIDTH: Final = (0.0, MOST_ALLOWANCE / CM)
_FACED: Final = (FACING_WIDTHS[0] / CM, FACING_WIDTHS[1] / CM)
_PRINCESS_ENDS: Final = {"shoulder": "the middle of the shoulder", "armhole": "the armhole"}
_CORNERS: Final = {"mitre": "mitred", "square": "square", "fold_back": "folded back"}
_BODICE: Final = {"block.type": ("princess", "darted")}
_PRINCESS: Final = {"block.type": ("princess",)}
_DARTED: Final = {"block.type": ("darted",)}
_SKIRT: Final = {"block.type": ("circle-skirt", "gored-skirt", "straight-skirt")}
_CIRCLE: Final = {"block.type": ("circle-skirt",)}
_GORED: Final = {"block.type": ("gored-skirt",)}
_EDGE_FACING: Final = {"finish.facing": ("edge",)}


def _cm(limits: tuple[float, float]) -> tuple[float, float]:
    return limits[0] / CM, limits[1] / CM


def _ease(level: str, about: str) -> FieldWords:
    return FieldWords(f"ease at the {level}", limits=_EASE, about=about)


def _by_kind(edges: str, about: str) -> FieldWords:
    words = f"{about}; else the seam allowance."
    return FieldWords(f"allowance of {edges}", limits=_WIDTH, about=words, like="finish.allowance_cm")


GARMENT_LABELS: Final[Mapping[str, FieldWords]] = {
    "block.ease_cm.upper-bust": _ease("upper bust", "Just under the arms, along the upper edge of a strapless bodice."),
    "block.ease_cm.bust": _ease("bust", "Over the fullest part of the bust."),
    "block.ease_cm.underbust": _ease("underbust", "Just below the bust, where a strapless bodice holds."),
    "block.ease_cm.waist": _ease("waist", "Room to sit, eat and breathe."),
    "block.ease_cm.lower-waist": _ease("lower waist", "Left empty, between those of waist and top hip."),
    "block.ease_cm.top-hip": _ease("top hip", "Over the hip bones; counts where the garment goes so far down."),
    "block.ease_cm.hip": _ease("hip", "Over the widest part; counts where the garment goes so far down."),
    "block.type": FieldWords(
        "block",
        {
            "princess": "princess bodice",
            "circle-skirt": "circle skirt",
            "gored-skirt": "gored skirt",
            "straight-skirt": "straight skirt with darts",
        },
        about="What the steps begin with.",
    ),
    "block.panels": FieldWords(
        "panels in a half", limits=PANELS, when=_PRINCESS, about="From centre front to centre back."
    ),
    "block.seams": FieldWords(
        "places of seams",
        when=_BODICE,
        about="Where a seam shall cross a level; all others lie where the rib cage puts them.",
    ),
    "block.bust_point_offset_cm": FieldWords(
        "princess seam beside the bust point",
        limits=(-MOST_BUST_POINT_OFFSET / CM, MOST_BUST_POINT_OFFSET / CM),
        when=_BODICE,
        about="How far it passes towards the side; a minus towards the centre.",
    ),
    "block.centre_back_shape": FieldWords(
        "line of the centre back",
        {"shaped": "follows the back", "straight": "one straight line"},
        when=_BODICE,
        about="A centre back on the fold must be straight.",
    ),
    "block.centre_back": FieldWords(
        "centre back",
        {"opening": "an opening", "seam": "a seam", "fold": "on the fold"},
        about="A closure among the steps comes before this.",
    ),
    "block.keep": FieldWords(
        "flat pieces keep",
        {"girth": "girths alone", "both": "girths, and lengths nearly", "length": "girths and lengths"},
        when=_BODICE,
        about="Girths at the levels are always exact. Holding lengths too strains the cloth a little more.",
    ),
    "block.top": FieldWords(
        "the block goes up to",
        {"upper-bust": "the upper bust", "shoulder": "the shoulder"},
        when=_BODICE,
        about="Steps that need the shoulder ask for it by themselves.",
    ),
    "block.front_princess_to": FieldWords(
        "front princess seam ends at", _PRINCESS_ENDS, when=_BODICE, about="On a block to the shoulder."
    ),
    "block.back_princess_to": FieldWords(
        "back princess seam ends at", _PRINCESS_ENDS, when=_BODICE, about="On a block to the shoulder."
    ),
    "block.bust_dart": FieldWords(
        "share of the front dart at the side",
        limits=(0.0, BUST_DARTS[1]),
        when=_DARTED,
        about="The bust dart; the rest opens at the waist. 0 for a waist dart alone.",
    ),
    "block.skirt.length_cm": FieldWords(
        "length",
        limits=_cm(SKIRT_LENGTHS),
        when=_SKIRT,
        about="From the waist down the front; the waistband not counted.",
    ),
    "block.skirt.circle": FieldWords(
        "how much of a circle",
        {"full": "a full circle", "three-quarter": "three quarters", "half": "a half circle", "quarter": "a quarter"},
        when=_CIRCLE,
        about="The larger, the wider the hem.",
    ),
    "block.skirt.panels": FieldWords(
        "panels in a half", limits=SKIRT_PANELS, when=_CIRCLE, about="Left empty, as few as the cloth can take."
    ),
    "block.skirt.cloth_width_cm": FieldWords(
        "width of the cloth", limits=_cm(CLOTH_WIDTHS), when=_CIRCLE, about="Decides into how many panels it is cut."
    ),
    "block.skirt.gores": FieldWords(
        "gores", limits=(GORES[0], GORES[-1]), when=_GORED, about="All round: 4, 6, 8, 10 or 12."
    ),
    "block.skirt.flare_cm": FieldWords(
        "flare", limits=_cm(FLARES), when=_GORED, about="On each side of each gore at the hem, beyond straight down."
    ),
    "block.skirt.centre_front": FieldWords(
        "centre front of the skirt",
        {"fold": "on the fold", "seam": "a seam"},
        when=_SKIRT,
        about="The centres lie in the middle of gores.",
    ),
    "finish.allowance_cm": FieldWords("seam allowance", limits=_WIDTH, about="All round, unless said otherwise below."),
    "finish.allowance_by_kind_cm.seam": _by_kind("seams", "Edges sewn together"),
    "finish.allowance_by_kind_cm.finished": _by_kind("finished edges", "Necklines, armholes and hems"),
    "finish.allowance_by_kind_cm.opening": _by_kind("openings", "Edges with a zip, lacing, hooks or buttons"),
    "finish.allowance_by_line_cm": FieldWords(
        "allowance of a line", limits=_WIDTH, about="The hem's, the centre back's: one edge that is to have its own."
    ),
    "finish.corners.turned_edge": FieldWords(
        "corner at a turned edge", _CORNERS, about="Usually folded back, so that the turning lies within its own piece."
    ),
    "finish.corners.seam_end": FieldWords(
        "corner at a faced edge", _CORNERS, about="Where a seam ends at an edge sewn to a facing; usually mitred."
    ),
    "finish.corners.other": FieldWords("other corners", _CORNERS, about="Usually mitred."),
    "finish.facing": FieldWords(
        "facing",
        {"none": "none", "full": "the whole shape again", "edge": "a band along the edges"},
        about="Finishes the edges from inside.",
    ),
    "finish.facing_width_cm": FieldWords(
        "width of the facing", limits=_FACED, when=_EDGE_FACING, about="Of the band along upper edges and openings."
    ),
    "finish.hem_facing_width_cm": FieldWords(
        "width of the hem facing",
        limits=(0.0, _FACED[1]),
        when=_EDGE_FACING,
        about="A shaped hem needs one, because it cannot be turned up; 0 for none.",
    ),
    "finish.lining": FieldWords(
        "lining",
        {"none": "none", "full": "the whole shape again", "to_facing": "what the facing leaves of it"},
        about="Up to the facing needs a facing that is a band.",
    ),
    "finish.interfacing": FieldWords(
        "interfacing",
        {"none": "none", "full": "every outer piece again", "facing": "the facing's pieces"},
        about="Without allowance and notches.",
        also={True: "full", False: "none"},
    ),
    "finish.turn_of_cloth_mm": FieldWords(
        "turn of cloth", about="By which facing and lining are smaller along turned edges; more for thick cloth."
    ),
    "finish.extra_notches": FieldWords(
        "extra notches at the bust",
        {"when_full": "for a full bust", "always": "always", "never": "never"},
        about="One above and one below the bust point, to hold the ease there.",
    ),
    "finish.notch_distance_cm": FieldWords(
        "from bust point to extra notch",
        limits=(NOTCH_DISTANCES[0] / CM, NOTCH_DISTANCES[1] / CM),
        when={"finish.extra_notches": ("when_full", "always")},
        about="Along the seam, up and down.",
    ),
    "finish.cloths.outer": FieldWords("cloth of the outer pieces", about="Its name on the cutting list and the lay."),
    "finish.cloths.facing": FieldWords(
        "cloth of the facing", about="Named like the outer cloth, it is cut and counted with it."
    ),
    "finish.cloths.interfacing": FieldWords("cloth of the interfacing", about="Its name on the cutting list."),
    "finish.cloths.lining": FieldWords("cloth of the lining", about="Its name on the cutting list and the lay."),
    "wearing.cloth": FieldWords(
        "kind of cloth",
        {"woven": "woven", "knit": "knitted"},
        about="A knit gives, so tightness and putting on are left to the fitting.",
    ),
    "wearing.boned": FieldWords("bones hold it up", about="Bones among the steps say so by themselves."),
}

# Of the place of a seam.
ENTRY_LABELS: Final[Mapping[str, FieldWords]] = {
    "line": FieldWords("seam", {id: label.lower() for plan in PLANS.values() for id, label in plan.lines}),
    "level": FieldWords("level", {level: level.replace("-", " ") for level in LEVELS}),
    "distance_cm": FieldWords(
        "distance", limits=(SEAM_DISTANCES[0] / CM, SEAM_DISTANCES[1] / CM), about="From the centre, on the half."
    ),
}
