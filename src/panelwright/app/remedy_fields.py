"""Remedies that change the block, the finish or the cloth of a design."""

import json
import math
from collections.abc import Mapping
from typing import Any, Final

from panelwright.app.block_record import CM
from panelwright.app.design_file import read_design
from panelwright.app.remedied import Document, Remedied, part_of
from panelwright.body.units import Unit, format_length
from panelwright.checks.practice import PRACTICE
from panelwright.finding import Finding
from panelwright.finish.narrow_strip import GROWN
from panelwright.finish.options import Finish
from panelwright.finish.piece_allowances import line_key
from panelwright.pattern.pattern import Pattern

EASE_STEP: Final = 5.0  # mm to which an ease is rounded, away from the limit
HEM_STEP: Final = 1.0  # mm to which a hem allowance is rounded down
LEAST_HEM: Final = 5.0  # mm: a narrower allowance is no hem to turn up (own choice)
BY_LINE: Final = "allowance_by_line_cm"
STRAP_EDGES: Final = frozenset({*GROWN, "strap-edge"})


def eased(finding: Finding, document: Document, _pattern: Pattern, unit: Unit) -> Remedied:
    """The level has as much ease as the limit; what is drawn there is the body's girth and the ease of the block."""
    round_ = math.ceil if finding.value < finding.limit else math.floor
    ease = round_(round(finding.limit / EASE_STEP, 6)) * EASE_STEP
    block = part_of(document, "block")
    eases = {**part_of(block, "ease_cm"), finding.subject: _cm(ease)}
    sign = "−" if ease < 0 else ""
    words = f"Set the ease at the {finding.subject.replace('-', ' ')} to {sign}{format_length(abs(ease), unit)}"
    return Remedied(words, {**document, "block": {**block, "ease_cm": eases}})


def lengths_kept(_finding: Finding, document: Document, _pattern: Pattern, _unit: Unit) -> Remedied | None:
    """Seams keep their length on the body, as far as girths let them, or else exactly."""
    block = part_of(document, "block")
    keep = {"girth": "both", "both": "length"}.get(str(block.get("keep", "both")))
    if keep is None:
        return None
    return Remedied("Let seams keep their length on the body", {**document, "block": {**block, "keep": keep}})


def seams_allowed(_finding: Finding, document: Document, pattern: Pattern, unit: Unit) -> Remedied:
    """Every seam of the outer pieces takes the usual allowance instead of none; other edges stay as they are."""
    finish, usual = part_of(document, "finish"), PRACTICE.usual_allowance
    own = _finish(document)
    if own.kinds.get("seam", own.allowance) < PRACTICE.least_allowance:
        finish["allowance_by_kind_cm"] = {**part_of(finish, "allowance_by_kind_cm"), "seam": _cm(usual)}
    names = _names_of_seams(pattern)
    bare = {
        name for name, width in own.lines.items() if width < PRACTICE.least_allowance and {name, line_key(name)} & names
    }
    finish = _without_lines(finish, bare)
    return Remedied(f"Give the seams an allowance of {format_length(usual, unit)}", {**document, "finish": finish})


def strap_trimmed(_finding: Finding, document: Document, _pattern: Pattern, _unit: Unit) -> Remedied | None:
    """Edges of straps have no widths of their own, and are trimmed to what fits."""
    finish = part_of(document, "finish")
    own = {name for name in part_of(finish, BY_LINE) if name.rpartition("/")[2] in STRAP_EDGES}
    if not own:
        return None
    return Remedied("Trim the strap's allowances to what fits", {**document, "finish": _without_lines(finish, own)})


def hem_narrowed(finding: Finding, document: Document, _pattern: Pattern, unit: Unit) -> Remedied | None:
    """The hem's allowance is so narrow that it can be eased: what is off grows with it."""
    own = _finish(document)
    if any("/" in name for name in own.lines):
        return None  # which of two names holds for the hem is not for a remedy to guess
    width = own.lines.get("hem", own.kinds.get("finished", own.allowance))
    narrow = math.floor(round(width * finding.limit / finding.value / HEM_STEP, 6)) * HEM_STEP
    if narrow < LEAST_HEM:
        return None
    finish = part_of(document, "finish")
    lines = {**part_of(finish, BY_LINE), "hem": _cm(narrow)}
    words = f"Give the hem an allowance of {format_length(narrow, unit)}"
    return Remedied(words, {**document, "finish": {**finish, BY_LINE: lines}})


def spread_out(finding: Finding, document: Document, _pattern: Pattern, _unit: Unit) -> Remedied | None:
    """Cloth that was to be folded is spread out, where the finding says that this is enough."""
    cloths = part_of(document, "cloth_to_buy")
    cloth = part_of(cloths, finding.subject)
    if not (cloth.get("folded") and "spread it out" in finding.remedy.lower()):
        return None
    cloths[finding.subject] = {**cloth, "folded": False}
    return Remedied("Spread the cloth out instead of folding it", {**document, "cloth_to_buy": cloths})


def _finish(document: Document) -> Finish:
    return read_design(json.dumps(document)).finish


def _names_of_seams(pattern: Pattern) -> set[str]:
    """All names by which a design may call a line that is sewn in a seam: id, what follows its slash, label."""
    sewn = {
        edge.line for piece in pattern.pieces if piece.layer == "outer" for edge in piece.edges if edge.kind == "seam"
    }
    return {
        name
        for line in pattern.lines
        if line.id in sewn
        for name in (line.id, line.id.rpartition("/")[2], line_key(line.label))
    }


def _without_lines(finish: Mapping[str, Any], names: set[str]) -> dict[str, Any]:
    """The finish without widths for some lines."""
    lines = {name: width for name, width in part_of(finish, BY_LINE).items() if name not in names}
    rest = {field: value for field, value in finish.items() if field != BY_LINE}
    return {**rest, BY_LINE: lines} if lines else rest


def _cm(length: float) -> float:
    return round(length / CM, 9)
