"""The words for every kind of step and every field of a design file: the one place where they stand."""

from collections.abc import Mapping
from typing import Final

from panelwright.app.block_step_labels import BLOCK_STEP_LABELS
from panelwright.app.field_words import FieldWords, StepWords
from panelwright.app.surgery_labels import SURGERY_LABELS

# Of every step.
COMMON: Final[Mapping[str, FieldWords]] = {
    "uid": FieldWords("name in the design"),
    "off": FieldWords("switched off"),
    "note": FieldWords("note"),
}
_ENDS: Final[Mapping[str, FieldWords]] = {
    "centre": FieldWords("height at centre front"),
    "side": FieldWords("height at side"),
    "back": FieldWords("height at centre back (else the side's level runs on)"),
    "points": FieldWords("points that the line shall pass"),
    "point_at_centre": FieldWords("a point at centre front instead of a right angle"),
}
_KNOTS: Final = {"double": "double knot", "bow": "bow"}
_OPENS: Final = ("zip", "hooks", "tie")
_STRIP_KNOT: Final = {"type": ("halter",), "nape": ("tie",)}
_ON_SHOULDER: Final = {"type": ("grown", "separate")}

STEP_LABELS: Final[Mapping[str, StepWords]] = {
    "top-edge": StepWords(
        "Top edge",
        "Cuts a strapless upper edge all round.",
        {
            "shape": FieldWords(
                "shape",
                {
                    "straight": "straight",
                    "scooped": "scooped",
                    "sweetheart": "sweetheart",
                    "v": "V",
                    "square": "square",
                },
            ),
            **_ENDS,
        },
    ),
    "hem": StepWords(
        "Hem",
        "Cuts the lower edge all round.",
        {
            "shape": FieldWords("shape", {"straight": "straight", "shaped": "shaped", "pointed": "pointed (a basque)"}),
            **_ENDS,
        },
    ),
    "bones": StepWords(
        "Bones",
        "Lays bones on seams and in channels, and lists what to buy; a boned bodice must let its wearer breathe, so "
        "fit a toile first.",
        {
            "bone": FieldWords("kind of bone", {"spiral": "spiral steel", "flat": "flat steel", "plastic": "plastic"}),
            "width_cm": FieldWords("width of a bone", limits=(0.3, 2.0)),
            "clearance_cm": FieldWords("distance from the stitched edges at its ends", limits=(0.3, 3.0)),
            "seams": FieldWords("lines that bones lie along (else every upright seam)"),
            "channels": FieldWords("channels between seams"),
            "up_to": FieldWords("height that bones reach up to"),
            "line": FieldWords("from the line"),
            "towards": FieldWords("towards the line"),
            "fraction": FieldWords("share of the way at the waist"),
            "fraction_above": FieldWords("share of the way at the upper edge (else along the grain)"),
            "over_bust_point": FieldWords("may lie on the bust point"),
        },
    ),
    "closure": StepWords(
        "Closure",
        "Says how the centre front, the centre back or a side is shut.",
        {
            "place": FieldWords(
                "where", {"centre-front": "centre front", "centre-back": "centre back", "side": "side"}
            ),
            "type": FieldWords(
                "how",
                {
                    "fold": "cut on the fold",
                    "seam": "sewn shut",
                    "zip": "zip",
                    "lacing": "lacing",
                    "hooks": "hooks and eyes",
                    "buttons": "buttons",
                    "tie": "ties",
                },
            ),
            "down_to": FieldWords("lower end of the opening", when={"type": _OPENS}, usual="down to the hem"),
            "opening_cm": FieldWords("length of the opening", limits=(3.0, 200.0), when={"type": _OPENS}),
            "hand": FieldWords("the wearer's side", {"left": "left", "right": "right"}, when={"place": ("side",)}),
            "style": FieldWords(
                "how the zip is set in",
                {"centred": "centred", "lapped": "lapped", "invisible": "invisible", "exposed": "exposed"},
                when={"type": ("zip",)},
            ),
            "teeth_width_cm": FieldWords(
                "width of the teeth", limits=(0.2, 4.0), when={"type": ("zip",), "style": ("exposed",)}
            ),
            "zip_cm": FieldWords("length of the zip (else reckoned)", limits=(3.0, 200.0), when={"type": ("zip",)}),
            "gap_cm": FieldWords("gap between the edges as worn", limits=(0.0, 20.0), when={"type": ("lacing",)}),
            "pitch_cm": FieldWords("from eyelet to eyelet", limits=(0.8, 8.0), when={"type": ("lacing",)}),
            "eyelet_inset_cm": FieldWords("eyelets from the edge", limits=(0.5, 3.0), when={"type": ("lacing",)}),
            "cord_cm": FieldWords(
                "length of the cord (else reckoned)", limits=(30.0, 10_000.0), when={"type": ("lacing",)}
            ),
            "modesty_overlap_cm": FieldWords(
                "modesty panel under each edge (else none)", limits=(1.0, 10.0), when={"type": ("lacing",)}
            ),
            "spacing_cm": FieldWords("from one to the next", limits=(0.8, 20.0), when={"type": ("hooks", "buttons")}),
            "underlap_cm": FieldWords("underlap behind the hooks", limits=(0.8, 8.0), when={"type": ("hooks",)}),
            "stand_cm": FieldWords("width of the button stand", limits=(0.8, 6.0), when={"type": ("buttons",)}),
        },
    ),
    "tie": StepWords(
        "Tie",
        "Lets the back run on as a tie, or sews ties to an opening or into the side seams.",
        {
            "from": FieldWords(
                "where it starts",
                {
                    "side": "the back runs on from the side",
                    "centre-front": "sewn to the centre front",
                    "centre-back": "sewn to the centre back",
                    "caught-in-side": "caught in the side seam",
                },
            ),
            "knot": FieldWords("knot", _KNOTS),
            "width_cm": FieldWords("width where it is knotted", limits=(1.0, 30.0)),
            "end_width_cm": FieldWords("width at its end (else as wide as at the knot)", limits=(1.0, 50.0)),
            "end": FieldWords("end", {"square": "square", "pointed": "pointed"}),
            "tail_cm": FieldWords("what hangs from the knot", limits=(2.0, 150.0)),
            "loop_cm": FieldWords("loop of the bow, from knot to tip", limits=(3.0, 50.0), when={"knot": ("bow",)}),
            "length_cm": FieldWords("length along its middle (else reckoned)", limits=(5.0, 300.0)),
            "height": FieldWords("height of its middle (else near the waist)"),
            "count": FieldWords("pairs of ties", when={"from": ("centre-front", "centre-back")}),
            "misfit": FieldWords(
                "fullness where back panels are joined",
                {"eased": "eased into the knot", "dart": "sewn as a dart"},
                when={"from": ("side",)},
            ),
            "grain_along": FieldWords("grain along the tie", when={"from": ("side",)}),
            "cloth_thickness_mm": FieldWords("thickness of the cloth, one layer"),
            "layers": FieldWords("layers of cloth in the tie"),
        },
    ),
    "bodice-top": StepWords(
        "Bodice to the shoulder",
        "Carries the bodice up to neck, shoulder and armhole, instead of a top edge.",
        {
            "shape": FieldWords("shape of the front neckline", {"round": "round", "v": "V", "square": "square"}),
            "front_depth_cm": FieldWords("depth at centre front, below the neck base", limits=(0.0, 30.0)),
            "back_depth_cm": FieldWords("depth at centre back, below the neck base", limits=(0.0, 30.0)),
            "width_cm": FieldWords("width along the shoulder from the neck base", limits=(0.0, 12.0)),
            "armhole_lower_cm": FieldWords("depth of the armhole below the underarm", limits=(0.0, 6.0)),
            "shoulder_in_cm": FieldWords("how much shorter the shoulder is at its outer end", limits=(0.0, 12.0)),
        },
    ),
    "strap": StepWords(
        "Straps",
        "Lets straps grow out of a strapless bodice, or sews them on.",
        {
            "type": FieldWords(
                "kind of strap",
                {
                    "grown": "grown out of the panels",
                    "separate": "sewn on before and behind",
                    "halter": "round the neck",
                },
            ),
            "at_shoulder_cm": FieldWords(
                "distance from the neck along the shoulder", limits=(0.0, 20.0), when=_ON_SHOULDER
            ),
            "share_of_shoulder": FieldWords(
                "or share of the shoulder, 0 at the neck to 1 at the shoulder point", when=_ON_SHOULDER
            ),
            "width_cm": FieldWords("width", limits=(0.8, 12.0)),
            "width_at_foot_cm": FieldWords("width at the foot (else as wide)", limits=(0.8, 20.0)),
            "at_front_cm": FieldWords("from centre front to the middle of the foot", limits=(0.5, 40.0)),
            "at_back_cm": FieldWords(
                "from centre back to the middle of the foot", limits=(0.5, 40.0), when=_ON_SHOULDER
            ),
            "rounding_cm": FieldWords(
                "how far before the corner the neckline runs up", limits=(0.5, 10.0), when={"type": ("grown",)}
            ),
            "corner": FieldWords("corners instead of rounding", when={"type": ("grown",)}),
            "length_cm": FieldWords("length (else reckoned)", limits=(5.0, 150.0)),
            "crossed": FieldWords("crossed behind", when={"type": ("separate",)}),
            "nape": FieldWords(
                "at the nape",
                {"seam": "a seam", "one": "one strip without a seam", "tie": "two ends that tie"},
                when={"type": ("halter",)},
            ),
            "knot": FieldWords("knot", _KNOTS, when=_STRIP_KNOT),
            "tail_cm": FieldWords("what hangs from the knot", limits=(2.0, 100.0), when=_STRIP_KNOT),
            "loop_cm": FieldWords("loop of the bow, from knot to tip", limits=(3.0, 50.0), when=_STRIP_KNOT),
        },
    ),
    **SURGERY_LABELS,
    **BLOCK_STEP_LABELS,
}
# Of a point that a line shall pass, and of a height.
POINT_LABELS: Final[Mapping[str, FieldWords]] = {
    "level": FieldWords("level"),
    "offset_cm": FieldWords("above the level (below: negative)"),
    "share_to_next_level": FieldWords("or share of the way to the next level"),
    "line": FieldWords("line"),
    "towards": FieldWords("towards the line"),
    "fraction": FieldWords("share of the way there"),
    "corner": FieldWords("a sharp turn"),
}
# Of a place on the outline of a piece.
PLACE_LABELS: Final[Mapping[str, FieldWords]] = {
    "line": FieldWords("on the line"),
    "level": FieldWords("at the level (or give a distance or a share)"),
    "offset_cm": FieldWords("above the level (below: negative)"),
    "distance_cm": FieldWords("or distance along the line", limits=(0.0, 100.0)),
    "fraction": FieldWords("or share of the line"),
    "from": FieldWords("measured from", {"start": "its lower or centre-front end", "end": "its other end"}),
    "side": FieldWords("on a piece drawn entire, the wearer's side", {"right": "right", "left": "left"}),
}
