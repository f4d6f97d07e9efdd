"""Rules over a cutting pattern: each returns findings and changes nothing."""

from panelwright.checks.inspection import check, check_drafting, check_wearing
from panelwright.checks.wearing import Wearing

__all__ = ["Wearing", "check", "check_drafting", "check_wearing"]
