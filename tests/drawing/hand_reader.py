"""A learner who has nothing but the words of a hand sheet, ruler, pencil and a steady hand.

It reads sentences, keeps what it drew in mm on paper from the cross of each piece, and knows no code of the program.
"""

import re
from copy import deepcopy
from dataclasses import dataclass, field

import numpy as np
import shapely
import shapely.ops
from scipy.interpolate import Akima1DInterpolator

LETTER = r"[A-Z]\d*"
LENGTH = r"([\d.]+) mm"
FRESH = re.compile(r"Take fresh paper for (\S+) and draw a cross")
TRACE = re.compile(r"Trace (\S+) with its cross, letters, marks and lines; the tracing becomes (\S+)\.(?:\s|$)")
SAME = re.compile(r"Trace (\S+) with its letters and marks; (\S+) has the same outline\.")
ALIKE = re.compile(r"Trace (\S+) with its letters and marks for ([^:]*): \d+ alike\.")
HEAD = re.compile(r"On ((?:\S+ \([^)]*\)(?:, | and )?)+):")
POINT = re.compile(rf"(?:^|\s)({LETTER}): ((?:from O|on the|where the|at O).*?)(?: \([^)]*\))?\.(?=\s|$)")
MARK = re.compile(r"(?:Mark|Draw a) ([^:.]*?): ((?:from O|on the|where the|at O).*?)(?: \([^)]*\))?\.(?=\s|$)")
STRAIGHT = re.compile(rf"([A-Z][^:.]*?): draw a straight line from ({LETTER}) to ({LETTER}) \({LENGTH} long;")
CURVE = re.compile(
    rf"([A-Z][^:.]*?): lay the ruler from ({LETTER}) to ({LETTER})\. Square to it, looking from \2 to \3, mark "
    rf"points: (.*?)\. Draw one smooth curve from \2 to \3 through them \({LENGTH} long;"
)
OFFSET = re.compile(rf"at {LENGTH}, {LENGTH}(?: (left|right))?")
LEVELS = re.compile(
    rf"On the (.*?) mark the levels, measuring up along the line from ({LETTER}): (.*?)\.(?=\s[A-Z0-9]|$)"
)
ROUND = re.compile(r"Now go round (\S+): (.*?)\.(?=\s[A-Z0-9]|$)")
STRETCH = re.compile(rf"({LETTER}) to ({LETTER}) along the ([^;]+)")
ALONG = re.compile(
    rf"on the (.*?) measure {LENGTH} (up |down |)from (?:the )?(.*?)(?: towards ({LETTER}))? along the line"
)
KINDS = {
    "fresh": FRESH,
    "trace": TRACE,
    "same": SAME,
    "alike": ALIKE,
    "head": HEAD,
    "point": POINT,
    "mark": MARK,
    "straight": STRAIGHT,
    "curve": CURVE,
    "levels": LEVELS,
    "round": ROUND,
}


@dataclass
class Line:
    name: str
    start: str
    end: str
    run: np.ndarray
    said: float

    @property
    def string(self):
        return shapely.LineString(self.run)


@dataclass
class Paper:
    """One piece on paper, origin at its cross, y up the upright line."""

    letters: dict = field(default_factory=dict)
    lines: list = field(default_factory=list)
    levels: dict = field(default_factory=dict)  # (level, line name) -> point
    marks: dict = field(default_factory=dict)
    outline: np.ndarray | None = None
    corners: list = field(default_factory=list)


def read(text):
    """piece id -> Paper, from the words alone. A sentence that cannot be done is an error."""
    text = " ".join(text.split())
    found = [(hit.start(), kind, hit) for kind, pattern in KINDS.items() for hit in pattern.finditer(text)]
    papers, current = {}, []
    for _, kind, hit in sorted(found, key=lambda entry: entry[0]):
        if kind == "head":
            current = re.findall(r"(\S+) \(", hit[1])
        elif kind == "fresh":
            papers[hit[1]] = Paper()
        elif kind in ("trace", "same"):
            papers[hit[2]] = deepcopy(papers[hit[1]])
        elif kind == "alike":
            for piece in re.split(r", | and ", hit[2]):
                papers[piece] = deepcopy(papers[hit[1]])
        elif kind == "round":
            assert [hit[1]] == current
            go_round(papers[hit[1]], hit[2])
        else:
            for piece in current:
                DO[kind](papers[piece], hit)
    return papers


def point(paper, hit):
    assert hit[1] not in paper.letters
    paper.letters[hit[1]] = place(paper, hit[2])


def mark(paper, hit):
    paper.marks.setdefault(hit[1], []).append(place(paper, hit[2]))


def place(paper, words):
    if words == "at O":
        return np.zeros(2)
    if words.startswith("from O"):
        at = np.zeros(2)
        for far, way in re.findall(rf"{LENGTH} (up|down|left|right)", words):
            at += float(far) * np.array({"up": (0, 1), "down": (0, -1), "left": (-1, 0), "right": (1, 0)}[way])
        return at
    if words.startswith("where"):
        line, level = re.fullmatch(r"where the (.*) meets the (.*)", words).groups()
        return level_on(paper, line_named(paper, line), level)
    name, far, way, start, towards = ALONG.fullmatch(words).groups()
    line = line_named(paper, name)
    begin = paper.letters[start] if start in paper.letters else level_on(paper, line, start)
    arc = line.string.project(shapely.Point(begin))
    ends = [reached(line, arc + float(far)), reached(line, arc - float(far))]
    if way.strip():
        return (max if way.strip() == "up" else min)(ends, key=lambda at: at[1])
    forwards = towards == line.end
    assert towards in (line.start, line.end)
    return ends[0] if forwards else ends[1]


def reached(line, arc):
    return np.array(line.string.interpolate(min(max(arc, 0.0), line.string.length)).coords[0])


def level_on(paper, line, level):
    """Where a level was marked on this line or on another that runs through the same place."""
    near = [at for (name, _), at in paper.levels.items() if name == level]
    best = min(near, key=lambda at: line.string.distance(shapely.Point(at)))
    assert line.string.distance(shapely.Point(best)) < 0.6
    return best


def line_named(paper, words):
    """The line that is meant: by name, and by its ends where they are said; the last one drawn of equal ones."""
    ends = re.fullmatch(rf"(.*) ({LETTER})–({LETTER})", words)
    name, start, end = ends.groups() if ends else (words, None, None)
    hits = [
        line for line in paper.lines if line.name == name and start in (None, line.start) and end in (None, line.end)
    ]
    assert hits, f"no line {words}"
    assert ends or len(hits) == 1, f"which {words}?"
    return hits[-1]


def straight(paper, hit):
    name, start, end, said = hit.groups()
    run = np.array([paper.letters[start], paper.letters[end]])
    paper.lines.append(Line(plain(name), start, end, run, float(said)))


def curve(paper, hit):
    name, start, end, offsets, said = hit.groups()
    a, b = paper.letters[start], paper.letters[end]
    along = (b - a) / np.hypot(*(b - a))
    left = np.array([-along[1], along[0]])
    points = [a]
    for far, off, side in OFFSET.findall(offsets):
        points.append(a + float(far) * along + float(off) * (1 if side == "left" else -1) * left)
    paper.lines.append(Line(plain(name), start, end, by_hand([*points, b]), float(said)))


def by_hand(points):
    """A smooth curve through points, by another rule than the program's own: locally even slopes (Akima 1970)."""
    points = np.array(points)
    steps = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))])
    return Akima1DInterpolator(steps, points)(np.linspace(0.0, steps[-1], 60 * len(points)))


def levels(paper, hit):
    line, start, listed = line_named(paper, hit[1]), paper.letters[hit[2]], hit[3]
    arc = line.string.project(shapely.Point(start))
    way = 1 if arc < line.string.length / 2 else -1
    for entry in listed.split(", "):
        level, far = re.fullmatch(rf"(.*) {LENGTH}", entry).groups()
        paper.levels[level, hit[1]] = reached(line, arc + way * float(far))


def go_round(paper, words):
    stretches = STRETCH.findall(words)
    assert [b for _, b, _ in stretches] == [a for a, _, _ in stretches[1:] + stretches[:1]]
    runs = []
    for a, b, name in stretches:
        string = line_named(paper, name.strip()).string
        low, high = (string.project(shapely.Point(paper.letters[end])) for end in (a, b))
        run = np.array(shapely.ops.substring(string, low, high).coords)
        runs.append(np.concatenate([[paper.letters[a]], run[1:-1]]))
    paper.outline = np.concatenate(runs)
    paper.corners = [a for a, _, _ in stretches]


def plain(name):
    return name[0].lower() + name[1:]


DO = {"point": point, "mark": mark, "straight": straight, "curve": curve, "levels": levels}
