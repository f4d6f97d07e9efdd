"""The bare block on paper: the fitted pieces before any design, without allowances, to keep and trace."""

from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

from panelwright.app.cut_off import first_fault
from panelwright.app.darted_bodice import darted_steps
from panelwright.app.findings_text import FINDINGS_FILE, findings_text
from panelwright.app.paper import OVERVIEW, PaperChoice, PrintJob
from panelwright.app.progress import Progress, part_of, unheard
from panelwright.blocks.block import Block
from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions
from panelwright.body.measurements import Measurements
from panelwright.body.plausibility import questions
from panelwright.body.units import Unit
from panelwright.body.worded_length import worded_in
from panelwright.checks.inspection import check_drafting
from panelwright.checks.wearer_estimates import check_estimates
from panelwright.checks.wearer_strain import check_strain
from panelwright.checks.wearing import Wearing
from panelwright.design.replay import Design, replay
from panelwright.errors import DesignError
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.finish.finishing import finish
from panelwright.finish.options import Finish
from panelwright.fitting.fitted_block import fitted
from panelwright.fitting.fitting import Fitting
from panelwright.output.pattern_file import write_pattern
from panelwright.pattern.line import CENTRE_BACK, CENTRE_FRONT
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.saved_file import save

BLOCK_FILE: Final = "block.json"
TITLE: Final = "Block"
_CENTRES: Final = (CENTRE_FRONT, CENTRE_BACK)


@dataclass(frozen=True, eq=False)
class BareBlock:
    """A block made ready for paper.

    Attributes:
        block: the fitted block.
        cutting: its pieces with no allowance, since a block is traced and not cut in cloth.
        findings: what a maker should know about it, errors first.
    """

    block: Block
    cutting: CuttingPattern
    findings: tuple[Finding, ...]


def make_bare_block(
    wearer: Measurements,
    options: BlockOptions | None = None,
    progress: Progress = unheard,
    unit: Unit = Unit.CM,
    fitting: Fitting | None = None,
) -> BareBlock:
    """The block of a wearer, checked by the drafting rules and for strain and estimates.

    Raises:
        BlockError: if these measurements and options give no block.
        InputError: if a fitting note cannot be carried out on it.
        DesignError: if the halves of a darted block cannot be laid together.
    """
    progress(0, 2, "block")
    if options is not None and options.type == "darted":
        options = replace(options, top="shoulder")
    block = make_block(wearer, options, lambda _: progress(0, 2, "block"))
    if fitting is not None:
        with worded_in(unit):
            block = fitted(block, fitting)
    progress(1, 2, "checks")
    pattern = _darted(block) if block.options.type == "darted" else _ending_at_levels(block.pattern)
    cutting = finish(pattern, Finish(allowance=0.0, unit=unit))
    found = (
        *check_drafting(cutting, unit),
        *questions(wearer, unit),
        *block.findings,
        *check_strain(block.pattern, block.strain_p95, Wearing(unit=unit)),
        *check_estimates(block.pattern),
    )
    return BareBlock(block, cutting, found)


def write_block(bare: BareBlock, folder: Path, choice: PaperChoice, progress: Progress = unheard) -> tuple[Path, ...]:
    """Write `block.json`, findings, a picture and the sheets into an open folder; each file whole or not at all.

    Raises:
        InputError: if a piece is larger than the chosen paper can show.
        OutputError: if a file cannot be written.
    """
    whole = 3 + len(choice.scales)
    block_file, findings_file = folder / BLOCK_FILE, folder / FINDINGS_FILE
    progress(0, whole, block_file.name)
    write_pattern(bare.cutting, bare.findings, block_file)
    progress(1, whole, findings_file.name)
    save(findings_file, findings_text(TITLE, bare.block.wearer.ref, bare.findings).encode())
    progress(2, whole, OVERVIEW)
    job = PrintJob(bare.cutting, TITLE, choice)
    overview = job.write_overview(folder)
    sheets = job.write_sheets(folder, part_of(progress, 3, whole))
    return block_file, findings_file, overview, *sheets


def _darted(block: Block) -> Pattern:
    """The block with its halves laid together: neck, armholes and waist are edges of its own.

    Raises:
        DesignError: if they cannot be, in one sentence.
    """
    made = replay(Design("block", TITLE, darted_steps(block.options, (), ())), block.pattern)
    fault = first_fault(made.outcomes)
    if fault is not None:
        raise DesignError(f"the darted block: {fault[1]}", f"step {fault[0]}")
    return replace(made.pattern, title=TITLE)


def _ending_at_levels(pattern: Pattern) -> Pattern:
    """The block under its title. Its upper and lower ends are levels, not finished edges.

    A level runs square neither to the centre nor across a seam once its panel is flat; only a design's edges do.
    """
    return replace(
        pattern,
        title=TITLE,
        pieces=tuple(_free_at_the_centre(piece) for piece in pattern.pieces),
        seams=tuple(replace(seam, blend=False) for seam in pattern.seams),
    )


def _free_at_the_centre(piece: Piece) -> Piece:
    """The piece, with its ends allowed to meet a centre at any angle."""
    edges = []
    for edge in piece.edges:
        corner = (edge, piece.after(edge))
        at_end = any(part.kind == "finished" for part in corner) and any(part.line in _CENTRES for part in corner)
        edges.append(replace(edge, pointed_end=True) if at_end else edge)
    return replace(piece, edges=tuple(edges))
