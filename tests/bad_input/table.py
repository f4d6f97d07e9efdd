"""The table of bad input: each row is something wrong, and the sentence that a person gets for it."""

import json

from bad_input.case import DESIGN, HEM, TOP, Case, Content, design, hem, top, wearer, wearer_file

CHECK_PATTERN = ("check", "p.json")


def measured(name: str, content: Content, sentence: str) -> Case:
    """Something wrong with the measurements file."""
    return Case(name, f'"w.json": {sentence}', files={"w.json": content})


def designed(name: str, content: Content, sentence: str) -> Case:
    """Something wrong with the design file."""
    return Case(name, f'"d.json": {sentence}', files={"d.json": content})


def replayed(name: str, content: Content, sentence: str) -> Case:
    """Something that only the wearer's block can show."""
    return Case(name, f"lantern-09: {sentence}", files={"d.json": content})


def asked(name: str, argv: str, sentence: str) -> Case:
    """Something wrong with the words of the command."""
    return Case(name, sentence, tuple(argv.split()))


def written(waist: str) -> str:
    """A measurements file as a person writes it, a line each; the waist is in line 8."""
    return json.dumps(json.loads(wearer(waist_girth=0)), indent=2).replace(
        '"waist_girth": 0', f'"waist_girth": {waist}'
    )


MEASUREMENTS = (
    measured(
        "one missing",
        wearer(waist_girth=None),
        "waist girth is missing; take it: round the waist, midway between the lowest rib and the top of the hip "
        "bone; take it first",
    ),
    measured(
        "two missing",
        wearer(waist_girth=None, hip_girth=None),
        "waist girth and hip girth are missing: a block cannot do without them",
    ),
    measured(
        "millimetres written as centimetres",
        wearer(bust_girth=880),
        "bust girth of 880.0 cm is above 200.0 cm, the most that is possible: it looks like millimetres; if so, "
        'write "unit": "mm"',
    ),
    measured(
        "inches written as centimetres",
        wearer(bust_girth=34.5),
        "bust girth of 34.5 cm is below 50.0 cm, the least that is possible: it looks like inches; if so, write "
        '"unit": "in"',
    ),
    measured(
        "centimetres in a file of inches",
        wearer_file(unit="in"),
        "bust girth of 88 in is above 78 3/4 in, the most that is possible: it looks like centimetres; if so, write "
        '"unit": "cm"',
    ),
    measured(
        "below nothing",
        wearer(waist_girth=-72),
        "waist girth of -72.0 cm cannot be: a girth is not negative; take the minus sign away",
    ),
    measured(
        "not a number",
        wearer().replace("72", "NaN"),
        "the file holds NaN, which is not a number: give a length in figures",
    ),
    measured("endless", wearer().replace("72", "1e999"), "waist girth is not a finite number: measure it again"),
    measured(
        "words for a length",
        wearer(waist_girth="about 72"),
        'waist_girth: "about 72" is not a length: write it like 88.5 cm, 885 mm or 34 3/4 in',
    ),
    measured(
        "a truth for a length", wearer(waist_girth=True), 'waist_girth must be a number, or a text like "34 3/4 in"'
    ),
    measured(
        "a list for a length", wearer(waist_girth=[72]), 'waist_girth must be a number, or a text like "34 3/4 in"'
    ),
    measured("misspelt", wearer(wast_girth=72), '"wast_girth" is not a known measurement; did you mean waist_girth?'),
    measured(
        "given twice",
        wearer().replace('"waist_girth": 72', '"waist_girth": 72, "waist_girth": 73'),
        '"waist_girth" stands twice in the file: keep one',
    ),
    measured("empty file", "", "the file is empty"),
    measured("decimal comma", written("71,5"), "line 8: write 71.5 with a point"),
    measured("comma of thousands", written("1,000"), "line 8: write 1,000 without its comma, or with a point for it"),
    measured("a unit without quotes", written("72 cm"), "line 8: write 72 without its unit, or in quotes with it"),
    measured("an inch sign without quotes", written('28"'), "line 8: write 28 without its unit, or in quotes with it"),
    measured("a word without quotes", written("wide"), 'line 8: put words in straight double quotes, like "wide"'),
    measured("curly quotes", written("“72 cm”"), 'line 8: use straight quotes "'),
    measured(
        "curly quotes round a name",
        written("72").replace('"waist_girth"', "“waist_girth”"),
        'line 8: use straight quotes "',
    ),
    measured("single quotes", written("'72 cm'"), "line 8: use double quotes instead of single ones"),
    measured("a quote left open", written('"72 cm'), "line 8: a closing quote is missing"),
    measured("a comma left out", written("72").replace("72,", "72"), "a comma is missing at the end of line 8"),
    measured(
        "a comma too many", written("72").replace("40", "40,"), "line 11: take out the comma before the closing bracket"
    ),
    measured(
        "a colon left out",
        written("72").replace('waist_girth":', 'waist_girth"'),
        "line 8: a colon is missing after the name",
    ),
    measured(
        "broken off",
        written("72")[:-4],
        "the file breaks off in line 11: its end is missing, at the least a closing bracket",
    ),
    measured("prose", "bust 88, waist 72", "the file is not JSON: expecting value in line 1, column 1"),
    measured(
        "a design for measurements",
        design(),
        "the file holds a design, not measurements: the measurements go first, the design after them",
    ),
    measured("a list", "[88, 72]", "the file must hold named values in braces { }"),
    measured(
        "nested without end",
        "[" * 100_000,
        "the file is not usable JSON: a number is too long or it is nested too deep",
    ),
    measured("other format", wearer_file(format="tape/1"), 'format must be "panelwright-measurements/1"'),
    measured("other unit", wearer_file(unit="furlong"), 'unit must be "mm", "cm" or "in"'),
    measured(
        "a person's name",
        wearer_file(ref="Anna"),
        '"Anna" is not a neutral reference: use small letters, digits and hyphens with at least one digit, like w-07, '
        "and no name",
    ),
    measured(
        "bust under the underbust",
        wearer(bust_girth=74),
        "bust girth of 74.0 cm is below 75.0 cm, the least that is possible with underbust girth 75.0 cm: measure bust "
        "girth and underbust girth again",
    ),
    measured(
        "bust above the neck",
        wearer(bust_height=30),
        "bust height of 30.0 cm is above 24.8 cm, the most that is possible with back neck point to waist 40.0 cm: "
        "measure bust height and back neck point to waist again",
    ),
    measured(
        "bust at the underarm",
        wearer(bust_height=20, underarm_to_waist=21),
        "bust height of 20.0 cm is above 17.5 cm, the most that is possible with underarm to waist 21.0 cm: measure "
        "bust height and underarm to waist again",
    ),
    Case(
        "huge file",
        '"w.json" is larger than 1 MB: give a file of one wearer\'s measurements',
        files={"w.json": " " * 1_000_001},
    ),
    Case("binary", '"w.json" is not text in UTF-8: save it as plain JSON', files={"w.json": bytes(range(256))}),
    Case(
        "not there",
        'there is no file "w.json" in this folder: check its name, or give its folder too',
        files={"w.json": None},
    ),
    Case(
        "not there in its folder",
        'there is no file "w-07.json" in the folder "out": check both names',
        ("make", "out/w-07.json", "d.json"),
    ),
)

DESIGNS = (
    designed(
        "unknown step",
        design(steps=[{**TOP, "kind": "top-edeg"}]),
        "step 1 is of kind 'top-edeg', which is no step; did you mean 'top-edge'?",
    ),
    designed(
        "unknown level",
        top(centre={"level": "upper-bsut"}),
        "step 1 (top-edge): centre names the level 'upper-bsut', which the block has not; did you mean 'upper-bust'?",
    ),
    designed(
        "unknown neckline",
        top(shape="heart"),
        "step 1 (top-edge): shape is 'heart'; did you mean 'sweetheart'?",
    ),
    designed(
        "a level for a height",
        top(centre="upper-bust"),
        'step 1 (top-edge): centre is \'upper-bust\'; write {"level": "upper-bust"}',
    ),
    designed(
        "an offset without its unit",
        hem(centre={"level": "top-hip", "offset": 1}),
        "step 2 (hem) has no field 'centre.offset'; did you mean 'offset_cm'?",
    ),
    designed(
        "words for an offset",
        top(side={"level": "upper-bust", "offset_cm": "2"}),
        'step 1 (top-edge): side.offset_cm: "2" names no unit: write it like "5/8 in" or "15 mm", or as a plain number '
        "of centimetres",
    ),
    designed(
        "a list for an offset",
        top(side={"level": "upper-bust", "offset_cm": [2]}),
        "step 1 (top-edge): side.offset_cm is a list; it should be a number",
    ),
    designed(
        "a V without its point",
        top(shape="v", point_at_centre=False),
        "step 1: top edge: a V has a point at the centre; choose scooped for a rounded one",
    ),
    designed(
        "a straight hem at two heights",
        hem(side={"level": "waist"}),
        "step 2: hem: a straight hem runs at one height all round; choose shaped for several",
    ),
    designed(
        "two steps of one name",
        design(steps=[TOP, {**HEM, "uid": "neckline"}]),
        "step 2 is called 'neckline' like step 1; give it another uid",
    ),
    designed(
        "a strap without width",
        design(steps=[TOP, HEM, {"kind": "strap", "uid": "straps", "width_cm": -3}]),
        "step 3: strap: its width is -3 cm; give 0.8 to 12 cm",
    ),
    designed(
        "a field of another strap",
        design(steps=[TOP, HEM, {"kind": "strap", "uid": "straps", "type": "separate", "rounding_cm": 3}]),
        "step 3: strap: rounding_cm does not belong to the type separate but to grown; it takes width_cm, "
        "width_at_foot_cm, at_front_cm, length_cm, at_shoulder_cm, share_of_shoulder, at_back_cm, crossed",
    ),
    Case(
        "straps on five panels",
        "the block has 5 panels (in a file: block.panels); step 3, Straps: grown out of the panels, needs a side seam: "
        "choose 4 or 6",
        files={"d.json": design(block={"panels": 5}, steps=[TOP, HEM, {"kind": "strap", "uid": "straps"}])},
    ),
    designed("too many steps", design(steps=[TOP] * 201), "steps has 201 entries; the most is 200"),
    designed("steps not a list", design(steps={}), "steps must be a list in brackets [ ], not named values"),
    designed("seven panels", design(block={"panels": 7}), "block: a half has 7 panels; choose 3, 4, 5 or 6"),
    designed("half a panel", design(block={"panels": 4.5}), "block.panels must be a whole number, not 4.5"),
    designed(
        "seam far from the bust point",
        design(block={"bust_point_offset_cm": 6}),
        "block: the front princess seam passes 6 cm beside the bust point; keep it within 4 cm",
    ),
    designed(
        "absurd ease",
        design(block={"ease_cm": {"waist": 80}}),
        "block: ease at the waist is 80 cm; give between -15 and 30 cm on the whole girth",
    ),
    designed(
        "ease at no level",
        design(block={"ease_cm": {"wasit": 1}}),
        '"wasit" is not a known field of block.ease_cm; did you mean waist?',
    ),
    designed(
        "unknown seam",
        design(block={"seams": [{"line": "front-princes", "level": "waist", "distance_cm": 9}]}),
        "block: there is no seam 'front-princes' with 4 panels a half; its seams are front-princess, side, "
        "back-princess",
    ),
    designed(
        "a curved centre back on the fold",
        design(block={"centre_back": "fold"}),
        "block: a centre back on the fold must be straight; make its line one straight line too (in a file: "
        "block.centre_back_shape, straight)",
    ),
    designed(
        "misspelt choice",
        design(block={"centre_back_shape": "strait"}),
        'block.centre_back_shape is "strait"; did you mean straight?',
    ),
    designed(
        "allowance below nothing",
        design(finish={"allowance_cm": -1}),
        "finish: the seam allowance is -1 cm; give between 0 and 10 cm",
    ),
    designed(
        "allowance too wide",
        design(finish={"allowance_by_kind_cm": {"opening": 15}}),
        "finish: the allowance of opening edges is 15 cm; give between 0 and 10 cm",
    ),
    designed(
        "a text for an allowance",
        design(finish={"allowance_cm": "1"}),
        'finish.allowance_cm: "1" names no unit: write it like "5/8 in" or "15 mm", or as a plain number of '
        "centimetres",
    ),
    designed(
        "an inch without its unit",
        design(finish={"allowance_by_line_cm": {"hem": "5/8"}}),
        'finish.allowance_by_line_cm.hem: "5/8" names no unit: write it like "5/8 in" or "15 mm", or as a plain number '
        "of centimetres",
    ),
    designed(
        "a text that is no length",
        design(block={"ease_cm": {"waist": "roomy"}}),
        'block.ease_cm.waist: "roomy" is not a length: write it like "5/8 in" or "15 mm", or as a plain number of '
        "centimetres",
    ),
    designed(
        "a truth for an allowance",
        design(finish={"allowance_cm": True}),
        "finish.allowance_cm must be a number, not true",
    ),
    designed(
        "unknown corner",
        design(finish={"corners": {"other": "round"}}),
        'finish.corners.other is "round"; those known are mitre, square, fold_back',
    ),
    designed(
        "nameless cloth",
        design(finish={"cloths": {"outer": " "}}),
        "finish: the cloth of the outer has no name; give it one",
    ),
    designed(
        "unknown cloth", design(wearing={"cloth": "jersey"}), 'wearing.cloth is "jersey"; those known are woven, knit'
    ),
    designed("misspelt part", design(finsh={}), '"finsh" is not a known field; did you mean finish?'),
    designed("no title", design(title=None), "title is missing"),
    designed("endless title", design(title="x" * 81), "title must be one line of 1 to 80 characters"),
    designed(
        "reference with spaces",
        design(ref="Lantern 9"),
        'ref "Lantern 9" cannot be used: give up to 40 small letters, digits and hyphens, a letter first, like '
        "lantern-01",
    ),
    designed(
        "a part twice",
        design().replace('"title"', '"title": "a", "title"'),
        '"title" stands twice in the file: keep one',
    ),
    designed(
        "not a number",
        design(finish={"allowance_cm": 1}).replace(": 1}", ": NaN}"),
        "the file holds NaN, which is not a number: give a length in figures",
    ),
    designed(
        "measurements for a design",
        wearer(),
        "the file holds measurements, not a design: the measurements go first, the design after them",
    ),
    designed("no format", design(format="sewing/1"), 'format must be "panelwright-design/1"'),
    designed("empty file", "", "the file is empty"),
    Case(
        "huge file",
        '"d.json" is larger than 1 MB: that is more than a design needs',
        files={"d.json": json.dumps({**DESIGN, "title": "x" * 1_000_001})},
    ),
    Case("binary", '"d.json" is not text in UTF-8: save it as plain JSON', files={"d.json": b"\xff\xfe\x00"}),
)

ON_THE_BLOCK = (
    replayed(
        "hem under the block",
        hem(centre={"level": "hip", "offset_cm": -5}, side={"level": "hip", "offset_cm": -5}),
        "hem: at the centre front line it would lie 5.0 cm below the block, which ends at hip; raise it by that "
        "much or choose another level",
    ),
    replayed(
        "neckline under the hem",
        top(centre={"level": "hip"}),
        "top edge: it leaves 0.0 cm of the centre front edge of the centre front piece; leave at least 1.5 cm",
    ),
    replayed(
        "allowance for a line that is not there",
        design(finish={"allowance_by_line_cm": {"armhole": 1}}),
        'finish: an allowance is given for "armhole", which is no line of this pattern; choose among '
        "back-princess-seam, centre-back, centre-front, front-princess-seam, hem, side-seam, top-edge",
    ),
)

WORDS = (
    asked(
        "nothing",
        "",
        "a command is missing; those known are open, demo, chart, block, make, sizes, toile, sheet, read, own, check, "
        "paper, hand, order, review, lay, widths, buy, write, and `panelwright --help` tells more",
    ),
    asked("unknown command", "mkae w.json d.json", "'mkae' is not a command; did you mean make?"),
    asked("unknown option", "make w.json d.json --papre a4", "'--papre' is not known here; did you mean --paper?"),
    asked(
        "option without its value",
        "make w.json d.json --paper",
        "--paper needs a value after it; `panelwright make --help` tells what it takes",
    ),
    asked(
        "unknown paper", "make w.json d.json --paper a5", 'the paper "a5" is not known; those known are a4, a3, letter'
    ),
    asked("unknown unit", "make w.json d.json --units inch", 'the unit "inch" is not known; did you mean inches?'),
    asked(
        "unknown scale",
        "paper p.json --scale half",
        'the scale "half" is not known; those known are quarter, full, sheet',
    ),
    asked("unknown form", "write p.json --to dwg", 'the form "dwg" is not known; those known are dxf, svg'),
    asked(
        "a form that its file does not end in",
        "write p.json --to dxf --out p.svg",
        '"p.svg" ends in .svg, but --to asks for dxf: change one of them',
    ),
    asked(
        "nothing to write",
        "write",
        "`panelwright write` takes one pattern file or its folder, but none was given",
    ),
    asked(
        "a folder to write into for a file",
        "write p.json --out out",
        '"out" is a folder: give a file like p.dxf',
    ),
    asked(
        "a folder without a pattern",
        "write .",
        'there is no pattern.json in the folder ".": give a pattern file',
    ),
    asked(
        "one file too few",
        "make w.json",
        "`panelwright make` takes a measurements file (or --size 88) and a design file, but 1 file was given",
    ),
    asked(
        "one file too many",
        "make --size 88 w.json d.json",
        "`panelwright make` takes a design file besides --size, but 2 files were given",
    ),
    asked(
        "no such size",
        "block --size 87",
        "there is no size 87: sizes run from 76 to 128 cm of bust, the nearest is 88",
    ),
    asked(
        "words for a size",
        "block --size small",
        '--size takes a bust girth in whole cm like 88, not "small"',
    ),
    asked(
        "a file that is not there",
        "block nix.json",
        'there is no file "nix.json" in this folder: check its name, or give its folder too',
    ),
    asked(
        "a pattern that is not there",
        "check nix/pattern.json",
        'there is no file "pattern.json" in the folder "nix": check both names',
    ),
    asked("a folder for a file", "block .", '"." is a folder: give a file'),
    asked(
        "learners in words", "hand w.json d.json --learners many", '--learners takes a whole number like 25, not "many"'
    ),
    asked("no learner", "hand w.json d.json --learners 0", "a class has 1 to 60 learners, not 0"),
    asked("too many spares", "hand w.json d.json --learners 5 --spares 21", "a class has 0 to 20 spare packs, not 21"),
    asked(
        "too few measurements for a class",
        "hand w.json w.json d.json --learners 5",
        "2 measurements files are given for 5 learners; give one for all, or one for each",
    ),
    asked(
        "no design to draw by hand",
        "hand w.json",
        "`panelwright hand` takes a measurements file (or --size 88) and a design file, but 1 file was given",
    ),
    asked(
        "a folder for the sheets to draw by hand",
        "hand w.json d.json --out out",
        '"out" is a folder: give a file like lantern-09-w-07-by-hand.pdf',
    ),
    asked(
        "a file for a folder", "make w.json d.json --out w.json", '"w.json" is a file: choose a folder to write into'
    ),
    asked(
        "a file in the way of a folder",
        "demo w.json/demo",
        '"w.json/demo" cannot be made, because a file is in its way: choose another folder',
    ),
)

PATTERNS = (
    Case(
        "measurements for a pattern",
        '"w.json" holds measurements: make a pattern first, with `panelwright make MEASUREMENTS.json DESIGN.json`',
        ("check", "w.json"),
    ),
    Case(
        "a design for a pattern",
        '"d.json" holds a design: make a pattern first, with `panelwright make MEASUREMENTS.json DESIGN.json`',
        ("paper", "d.json"),
    ),
    Case(
        "another format for a pattern",
        "\"p.json\": format should be 'panelwright-pattern/1'; docs/pattern-file.md says what the file holds",
        CHECK_PATTERN,
        {"p.json": '{"format": "sewing/1"}'},
    ),
    Case(
        "findings for a pattern",
        '"findings.txt" is not a pattern: give the pattern.json beside it',
        ("check", "findings.txt"),
        {"findings.txt": "Lantern bodice, for w-07"},
    ),
    Case(
        "a sheet for a pattern",
        '"large-sheet.pdf" is not a pattern: give the pattern.json beside it',
        ("paper", "large-sheet.pdf"),
        {"large-sheet.pdf": b"%PDF-1.7\xff"},
    ),
    Case(
        "half a pattern",
        '"p.json": unit is missing; docs/pattern-file.md says what the file holds',
        CHECK_PATTERN,
        {"p.json": '{"format": "panelwright-pattern/1"}'},
    ),
    Case(
        "broken off",
        '"p.json": the file breaks off in line 1: its end is missing, at the least a closing bracket',
        ("paper", "p.json", "--out", "out"),
        {"p.json": '{"format": '},
    ),
)

ALL = {
    "measurements": MEASUREMENTS,
    "design": DESIGNS,
    "block": ON_THE_BLOCK,
    "words": WORDS,
    "pattern": PATTERNS,
}
