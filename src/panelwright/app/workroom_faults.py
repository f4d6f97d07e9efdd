"""What can go wrong with one item of the workroom, told apart for whoever answers a request."""

from panelwright.errors import StoreError


class NotThereError(StoreError):
    """There is no such wearer or design, or it was removed."""


class ChangedElsewhereError(StoreError):
    """Another page has changed the item since this one read it; nothing was saved."""
