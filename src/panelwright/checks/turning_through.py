"""Bagging out: two whole layers are sewn round their edges and turned right side out through an opening."""

from panelwright.checks.layered import has_sewn_shoulders, is_faced_whole, opens_at_a_centre
from panelwright.file_words import in_file
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern


def check_turning_through(cutting: CuttingPattern) -> tuple[Finding, ...]:
    """`cannot-be-bagged-out`, a warning: neckline and armholes are sewn between two layers that are closed all round.

    With the shoulders sewn and both centres closed every strap is a tunnel between two bodies: nothing can be turned.
    """
    pattern = cutting.pattern
    if not has_sewn_shoulders(pattern) or opens_at_a_centre(pattern) or not is_faced_whole(cutting):
        return ()
    message = (
        "It is faced whole, sewn at the shoulders and closed at both centres: neckline and armholes cannot be sewn and "
        "turned right side out."
    )
    remedy = (
        "Leave the shoulder seams, or the centre back seam, open until it is turned and close them last by hand; or "
        f"open a centre with a closure{in_file('a step of kind closure')}."
    )
    return (Finding("cannot-be-bagged-out", "warning", pattern.design, 0, 1, message, remedy, unit="openings"),)
