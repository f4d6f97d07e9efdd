"""What the commands take, in words; a fault in them is one sentence, as everywhere."""

import argparse
import difflib
import re
from collections.abc import Sequence
from typing import NoReturn

from panelwright.errors import InputError

COMMANDS = {
    "open": "open the workroom: wearers and designs on a page in your browser",
    "demo": "make the lantern-festival troupe's first garments into a folder",
    "chart": "print a blank measuring chart: every measurement with its picture",
    "block": "measurements to a fitted block",
    "make": "measurements and a design to a checked cutting pattern, with its sheets",
    "sizes": "a design in a range of sizes: every size's pattern, a nested drawing, a grade report",
    "toile": "measurements and a design to a toile: one layer to try on, and a sheet for the fitting notes",
    "sheet": "print the reference sheet that lies beside paper pieces on a photo",
    "read": "photos or drawings (DXF, SVG) of paper pieces to a table of points for `own`",
    "own": "your own block, from points on paper, to a checked pattern with its sheets",
    "check": "check a pattern, or what measurements and a design would give",
    "paper": "print a pattern: quarter scale, full scale on tiles, or one large sheet",
    "hand": "print how to draw a design by hand at quarter scale, for one learner or a class",
    "order": "print the order of work of a design: what to sew after what, with pictures, stitches and thread",
    "review": "hold a learner's drawn pattern against the design, with a feedback sheet",
    "lay": "plan a short lay for a garment, or for pieces given as outlines, and draw it",
    "widths": "how much cloth a garment needs from narrow and from wide cloth, as table and plot",
    "buy": "a group's garments to one shopping list: lays, metres, notions, cost",
    "write": "write a pattern as a drawing that other programs open: DXF or SVG, full scale",
}
_EXAMPLES = {
    "open": "panelwright open --workroom festival.sqlite",
    "demo": "panelwright demo festival",
    "chart": "panelwright chart --units inches --out measuring-chart.pdf",
    "block": "panelwright block w-07.json --options lantern-01.json --out w-07-block",
    "make": "panelwright make w-07.json lantern-01.json --out w-07-lantern --paper letter --units inches",
    "sizes": "panelwright sizes lantern-01.json --busts 80,84,88,92 --at waist --out lantern-sizes",
    "toile": "panelwright toile w-07.json lantern-01.json --out w-07-toile",
    "sheet": "panelwright sheet --paper letter",
    "read": "panelwright read front.jpg back.jpg --scale quarter --allowance 0 --out my-block.json",
    "own": "panelwright own my-block.json --wearer w-07.json --true --out my-block",
    "check": "panelwright check w-07-lantern/pattern.json",
    "paper": "panelwright paper w-07-lantern/pattern.json --scale full --paper a3",
    "hand": "panelwright hand lantern-01.json --size 88 --learners 25 --spares 2 --out class.pdf",
    "order": "panelwright order w-07.json lantern-01.json --out lantern-order.pdf",
    "review": "panelwright review w-07.json lantern-01.json learner-04.json --out learner-04-feedback.pdf",
    "lay": "panelwright lay w-07.json lantern-01.json --seconds 60 --draw lantern-lay.pdf",
    "widths": "panelwright widths w-07.json lantern-01.json --widths 90,115,140,150 --out lantern-widths.pdf",
    "buy": "panelwright buy festival.json --lay-seconds 20 --out festival-shopping",
    "write": "panelwright write w-07-lantern/pattern.json --to dxf --out lantern.dxf",
}
_WEARER = "measurements file (or give --size instead)"
_DESCRIPTION = """\
From body measurements to a checked, printed cutting pattern for a fitted bodice.
Lengths are in centimetres unless you ask for inches."""
_ENDING = """\
exit status: 0 fine, 1 a check found errors, 2 something given cannot be used, 3 a fault of ours, 130 Ctrl-C
`panelwright COMMAND --help` tells what a command takes. Begin with `panelwright demo`."""


class _Parser(argparse.ArgumentParser):
    """Raises instead of leaving, so that every fault takes one way out."""

    def error(self, message: str) -> NoReturn:
        option = re.match(r"argument (--[a-z]+): expected one argument", message)
        fault = f"{option[1]} needs a value after it" if option else message
        raise InputError(f"{fault}; `{self.prog} --help` tells what it takes", "command line")


def parse(argv: Sequence[str]) -> argparse.Namespace:
    """The command and what it was given; leaves by SystemExit for --help and --version.

    Raises:
        InputError: if the words make no command.
    """
    parser = command_parser()
    if argv and not argv[0].startswith("-") and argv[0] not in COMMANDS:
        raise InputError(f"{argv[0]!r} is not a command; {_nearest(argv[0], list(COMMANDS))}", "command line")
    arguments, unknown = parser.parse_known_args(argv)
    if unknown:
        known = [word for word in _words(parser, argv) if word.startswith("--")]
        raise InputError(f"{unknown[0]!r} is not known here; {_nearest(unknown[0], known)}", "command line")
    if arguments.command is None:
        raise InputError(
            f"a command is missing; those known are {', '.join(COMMANDS)}, and `panelwright --help` tells more",
            "command line",
        )
    return arguments


def command_parser() -> argparse.ArgumentParser:
    """The parser of all commands."""
    parser = _Parser(
        prog="panelwright",
        description=_DESCRIPTION,
        epilog=_ENDING,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="store_true", help="say which version this is, and leave")
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", title="commands")
    made = {name: _command(commands, name, does) for name, does in COMMANDS.items()}

    made["open"].add_argument("--workroom", metavar="FILE", help="where the work is saved; made if it is not there")
    made["open"].add_argument("--port", metavar="PORT", help="of the address on this computer; default: 8460")
    made["open"].add_argument("--no-browser", action="store_true", help="print the address and open no browser")

    made["demo"].add_argument("folder", nargs="?", metavar="FOLDER", help="default: panelwright-demo")

    made["chart"].add_argument("--out", metavar="FILE", help="write here; default: measuring-chart.pdf")
    made["chart"].add_argument("--paper", metavar="PAPER", default="a4", help="a4 or letter; default: a4")

    made["block"].add_argument("files", nargs="*", metavar="MEASUREMENTS.json", help=_WEARER)
    made["block"].add_argument(
        "--options", metavar="DESIGN.json", help="take ease, panels and seams from a design file"
    )

    for name in ("make", "check"):
        of = "[MEASUREMENTS.json] DESIGN.json" if name == "make" else "PATTERN.json | [MEASUREMENTS.json] DESIGN.json"
        made[name].add_argument("files", nargs="*", metavar="FILE", help=of)
    made["sizes"].add_argument("files", nargs="*", metavar="DESIGN.json", help="a design file")
    made["sizes"].add_argument("--busts", metavar="CM,CM,…", help="sizes of our table, by bust girth in cm")
    made["sizes"].add_argument(
        "--table", metavar="SIZES.json", help="a table of sizes of your own; without --busts all of them are made"
    )
    made["sizes"].add_argument(
        "--at", metavar="PLACE", default="waist", help="nest at waist, bottom or top; default: waist"
    )
    made["sizes"].add_argument("--sheets", action="store_true", help="write every size's sheets, lays and sign-off too")
    made["toile"].add_argument("files", nargs="*", metavar="FILE", help="[MEASUREMENTS.json] DESIGN.json")
    made["make"].add_argument("--lay-seconds", metavar="N", help="look so long for a short lay on each cloth")
    for name, does in (("make", "lay it"), ("order", "with the cost: lay it")):
        made[name].add_argument("--lays", metavar="LAYS.json", help=f"{does} as it is kept on the board")
    made["hand"].add_argument("files", nargs="*", metavar="FILE", help="[MEASUREMENTS.json ...] DESIGN.json")
    made["hand"].add_argument("--learners", metavar="N", help="a pack for each of so many learners, with an index")
    made["hand"].add_argument("--spares", metavar="K", help="so many further packs; default: none")
    made["hand"].add_argument("--out", metavar="FILE", help="write here; default: a file named after the work")
    made["hand"].add_argument("--paper", metavar="PAPER", default="a4", help="a4 or letter; default: a4")
    made["order"].add_argument("files", nargs="*", metavar="FILE", help="[MEASUREMENTS.json] DESIGN.json")
    made["order"].add_argument("--out", metavar="FILE", help="write here; default: a file named after the work")
    made["order"].add_argument("--paper", metavar="PAPER", default="a4", help="a4 or letter; default: a4")
    made["order"].add_argument(
        "--prices", metavar="GROUP.json", help="what it costs, at the prices of a group file as `buy` takes it"
    )
    made["review"].add_argument(
        "files", nargs="*", metavar="FILE", help="[MEASUREMENTS.json] DESIGN.json LEARNERS.json"
    )
    made["review"].add_argument("--out", metavar="FILE", help="write here; default: a file named after the pieces")
    made["review"].add_argument("--paper", metavar="PAPER", default="a4", help="a4 or letter; default: a4")
    for name in ("block", "make", "toile", "check", "order", "lay", "widths", "review"):
        made[name].add_argument(
            "--fitting", metavar="FITTING.json", help="the wearer's fitting notes, carried out on the block first"
        )
    for name in ("hand", "buy"):
        made[name].add_argument(
            "--fitting", metavar="FITTING.json", action="append", help="a wearer's fitting notes; once for each wearer"
        )
    for name in ("block", "make", "toile", "check", "hand", "order", "review", "lay", "widths"):
        made[name].add_argument("--size", metavar="BUST_CM", help="a size of our table, by bust girth in cm, say 88")

    made["sheet"].add_argument("--out", metavar="FILE", help="write here; default: reference-sheet.pdf")
    made["sheet"].add_argument("--paper", metavar="PAPER", default="a4", help="a4 or letter; default: a4")

    made["read"].add_argument("files", nargs="*", metavar="FILE", help="JPEG, PNG or WebP photos; DXF or SVG drawings")
    made["read"].add_argument("--scale", metavar="SCALE", help="of the paper: quarter or full; default: a guess")
    made["read"].add_argument("--allowance", metavar="CM", help="that the outlines include; 0: they are stitch lines")
    made["read"].add_argument(
        "--centimetre", metavar="OF", help="what a centimetre of allowance was on the paper: garment or paper"
    )
    made["read"].add_argument("--drawing-unit", metavar="UNIT", help="of a drawing: millimetres, inches, …")
    made["read"].add_argument("--square", metavar="MM", help="what the square on the sheet measures, if not true")
    made["read"].add_argument("--out", metavar="FILE", help="write here; default: own-block.json")

    made["own"].add_argument("files", nargs="*", metavar="FILE.json", help="your pieces as tables of points")
    made["own"].add_argument("--wearer", metavar="MEASUREMENTS.json", help="whom it is for")
    made["own"].add_argument("--design", metavar="DESIGN.json", help="steps and finish to carry out on it")
    made["own"].add_argument("--true", action="store_true", help="even the seams, and smooth upper edge and hem")
    made["own"].add_argument("--scale", metavar="SCALE", help="quarter, full or sheet; default: quarter and full")

    made["paper"].add_argument("files", nargs="*", metavar="PATTERN.json", help="a pattern file")
    made["paper"].add_argument("--scale", metavar="SCALE", help="quarter, full or sheet; default: all three")

    made["lay"].add_argument(
        "files", nargs="*", metavar="FILE", help="[MEASUREMENTS.json] DESIGN.json | INSTANCE.json (cloth and outlines)"
    )
    made["lay"].add_argument("--draw", metavar="FILE", help="draw it, as .svg, .pdf or .png")
    made["lay"].add_argument(
        "--scale", metavar="SCALE", help="of the drawing: tenth or quarter; default: what suits it"
    )
    made["lay"].add_argument("--sold-by", metavar="LENGTH", help="the shop cuts multiples of this; default: 10 cm")
    made["lay"].add_argument("--result", metavar="FILE", help="draw this lay of the outlines; nothing is searched")
    made["lay"].add_argument("--paper", metavar="PAPER", default="a4", help="of a PDF: a4, a3 or letter; default: a4")
    made["lay"].add_argument(
        "--seconds", metavar="N", help="computing time for each cloth's search, of all cores together; default: 10"
    )
    made["lay"].add_argument("--quick", action="store_true", help="less than half a second of each core")
    made["lay"].add_argument("--cores", metavar="C", help="searches at once; default: 2, and 1 with --moves")
    made["lay"].add_argument("--moves", metavar="M", help="so many moves instead, which gives the same lay every time")
    made["lay"].add_argument("--seed", metavar="S", default="1", help="another number, another search; default: 1")
    made["lay"].add_argument(
        "--out", metavar="FILE", help="where outlines lie, or a garment's drawing; default: a file named after it"
    )

    made["widths"].add_argument("files", nargs="*", metavar="FILE", help="[MEASUREMENTS.json] DESIGN.json")
    made["widths"].add_argument("--widths", metavar="LIST", help="of the cloth, say 90,115,140; default: usual ones")
    made["widths"].add_argument("--cloth", metavar="NAME", help="of the garment; default: its first")
    made["widths"].add_argument("--sold-by", metavar="LENGTH", help="the shop cuts multiples of this; default: 10 cm")
    made["widths"].add_argument("--lay-seconds", metavar="N", help="look so long for a short lay on each width")
    made["widths"].add_argument("--out", metavar="FILE", help="a .pdf, .svg or .png; default: named after the work")
    made["widths"].add_argument("--paper", metavar="PAPER", default="a4", help="a4, a3 or letter; default: a4")

    made["buy"].add_argument("files", nargs="*", metavar="GROUP.json", help="garments, cloths and prices")
    made["buy"].add_argument("--lay-seconds", metavar="N", help="look so long for a short lay, each time one is laid")
    made["buy"].add_argument("--out", metavar="FOLDER", help="write here; default: a folder named after the group")
    made["buy"].add_argument("--paper", metavar="PAPER", default="a4", help="a4, a3 or letter; default: a4")
    made["buy"].add_argument("--units", metavar="UNIT", default="cm", help="cm or inches; default: cm")

    made["write"].add_argument(
        "files", nargs="*", metavar="PATTERN", help="a pattern file, or the folder that it is in"
    )
    made["write"].add_argument("--to", metavar="FORM", help="dxf or svg; default: what --out ends in, else dxf")
    made["write"].add_argument(
        "--out", metavar="FILE", help="write here; default: pattern.dxf, as the pattern is named"
    )

    for name in ("block", "make", "sizes", "toile", "own", "paper"):
        made[name].add_argument("--out", metavar="FOLDER", help="write here; default: a folder named after the work")
        made[name].add_argument("--paper", metavar="PAPER", default="a4", help="a4, a3 or letter; default: a4")
    for name in (
        "chart",
        "block",
        "make",
        "toile",
        "own",
        "check",
        "paper",
        "hand",
        "order",
        "review",
        "lay",
        "widths",
        "sizes",
    ):
        made[name].add_argument("--units", metavar="UNIT", default="cm", help="cm or inches; default: cm")
    return parser


def _command(commands: "argparse._SubParsersAction[_Parser]", name: str, does: str) -> argparse.ArgumentParser:
    command = commands.add_parser(
        name,
        help=does,
        description=f"{does[0].upper()}{does[1:]}.",
        epilog=f"example: {_EXAMPLES[name]}",
        allow_abbrev=False,
    )
    command.add_argument("--json", action="store_true", help="answer with one JSON object on standard output")
    return command


def _words(parser: argparse.ArgumentParser, argv: Sequence[str]) -> list[str]:
    """Every option of the command that was asked for."""
    found = list(parser._option_string_actions)
    for action in parser._actions:
        if isinstance(action, argparse._SubParsersAction) and argv[0] in action.choices:
            found = list(action.choices[argv[0]]._option_string_actions)
    return found


def _nearest(word: str, known: list[str]) -> str:
    near = difflib.get_close_matches(word.lower(), known, n=1, cutoff=0.5)
    return f"did you mean {near[0]}?" if near else f"those known are {', '.join(known)}"
