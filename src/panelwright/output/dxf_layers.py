"""The layers of a pattern in DXF: which kind of line goes where.

The numbers are those of the open standard ASTM D6673, written down from memory. We have no copy of it to check them
against, and claim no conformance: whoever needs it compares a file with the standard first.
"""

from typing import Final

CUT: Final = "1"
NOTCH: Final = "4"
FOLD: Final = "6"
GRAIN: Final = "7"
INSIDE: Final = "8"
DRILL: Final = "13"
SEW: Final = "14"
TEXT: Final = "15"

# Layer -> what is told of it in the file's own table.
MEANING: Final = {
    CUT: "piece boundary: cut line",
    NOTCH: "notches",
    FOLD: "mirror line: fold",
    GRAIN: "grain line",
    INSIDE: "internal lines: levels, darts, guides",
    DRILL: "drill holes and other points",
    SEW: "sew line",
    TEXT: "annotation text",
}
# Layer -> colour number of DXF (7 is black on white paper).
COLOUR: Final = {CUT: 7, NOTCH: 7, FOLD: 3, GRAIN: 5, INSIDE: 8, DRILL: 6, SEW: 1, TEXT: 7}
