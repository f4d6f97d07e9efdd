"""A traced block as the board shows it: its pieces checked, partners of its edges, what truing changes."""

import json
from collections.abc import Mapping

from panelwright.app.board_pattern import board_finding
from panelwright.app.board_piece import Document, board_piece, curve_path, pair
from panelwright.app.board_places import board_places
from panelwright.app.own_block import OwnBlock, make_own_block
from panelwright.app.own_block_picture import as_seen, times_as_large
from panelwright.app.paper import PaperChoice, PrintJob
from panelwright.app.trace_file import is_clockwise, read_trace, traced_pattern, traced_table
from panelwright.app.trace_record import TraceRecord
from panelwright.body.measurement_file import read_measurements
from panelwright.body.units import Unit
from panelwright.geometry.arrays import Array
from panelwright.intake.drawn_seam import DrawnSeam
from panelwright.intake.edge_ref import EdgeRef
from panelwright.intake.truing import TruingChange
from panelwright.output.pdf import pdf_bytes


def table_text(trace: str) -> str:
    """The table of points of a traced block, a file for `panelwright own`.

    Raises:
        InputError: if the block is not ready for it, with what to do next.
    """
    return json.dumps(traced_table(read_trace(trace)), ensure_ascii=False, indent=1) + "\n"


def own_block_of(trace: TraceRecord, wearer: str | None, true: bool, unit: Unit) -> OwnBlock:
    """The pattern that was traced.

    Args:
        wearer: the text of a wearer's measurements, or None.
        true: whether it is trued.

    Raises:
        InputError: if the block is not ready, or its pieces make no pattern.
    """
    return make_own_block(
        traced_pattern(trace), None if wearer is None else read_measurements(wearer), None, true, unit
    )


def traced_facts(trace: TraceRecord, own: OwnBlock) -> Document:
    """The *own block* answer of docs/board.md."""
    places = board_places(own.cutting, {})
    larger = times_as_large(own.truing.changes)
    numbers = {piece.id: len(piece.edges) for piece in trace.pieces if is_clockwise(piece)}
    return {
        "trued": own.is_trued,
        "pieces": [board_piece(piece, cut, places[piece.id]) for piece, cut in own.cutting.pieces],
        "findings": [board_finding(finding) for finding in own.findings],
        "partners": [
            {**_seam(each.seam, numbers), "score": round(each.score, 3), "reason": each.reason}
            for each in own.suggestions
        ],
        "larger": larger,
        "changes": [
            {**_change(change, _ref(own.paper.drawn_at[change.edge], numbers)), "taken": taken, "other": other}
            for change, taken, other in (
                *((each, True, _other(each, own.is_trued, larger)) for each in own.truing.changes),
                *((each, False, None) for each in own.paper.turned_down),
            )
        ],
    }


def traced_pdf(own: OwnBlock, scale: str, choice: PaperChoice) -> bytes:
    """Its sheets at one of the scales of paper, PDF.

    Raises:
        InputError: if a piece is larger than the paper can show.
    """
    job = PrintJob(own.cutting, own.title, choice, own.block)
    return pdf_bytes(job.sheets(scale), own.title, choice.made_on)


def _change(change: TruingChange, drawn_at: Document) -> Document:
    return {
        "piece": change.piece,
        "edge": change.edge,
        "number": drawn_at["edge"],
        "most_mm": round(change.most, 3),
        "at": pair(change.at),
    }


def _other(change: TruingChange, trued: bool, larger: int) -> str:
    """The line that is not drawn as the piece's edge, as far off as it is, times `larger`."""
    shown, other = (change.new, change.old) if trued else (change.old, change.new)
    return curve_path(other) if larger == 1 else _polyline(as_seen(shown, other, larger))


def _polyline(points: Array) -> str:
    return "M" + "L".join(f"{x:.3f} {y:.3f}" for x, y in points.tolist())


def _seam(seam: DrawnSeam, turned: Mapping[str, int]) -> Document:
    return {"line": seam.line, "a": _ref(seam.a, turned), "b": _ref(seam.b, turned)}


def _ref(ref: EdgeRef, turned: Mapping[str, int]) -> Document:
    """The edge by its number as traced: in a piece that was traced clockwise they run the other way."""
    number = turned[ref.piece] - ref.number if ref.piece in turned else ref.number + 1
    return {"piece": ref.piece, "edge": number}
