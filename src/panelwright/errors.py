"""Every error that Panelwright raises on purpose, below everything else.

A message is one sentence that says what is wrong, where, the limit and the remedy. The command line
prints it and leaves with status 2; the board shows it. Anything else that escapes is our own fault.
"""


class PanelwrightError(Exception):
    """The root: catch this to catch every error raised on purpose."""


class InputError(PanelwrightError, ValueError):
    """Something that a person gave cannot be used.

    Attributes:
        where: the thing at fault, in the words of the input (`"waist girth"`, `"design.json, step 2"`).
    """

    def __init__(self, message: str, where: str = "") -> None:
        super().__init__(message)
        self.where = where


class MeasurementError(InputError):
    """A measurement, or a set of them, that no wearer can have."""


class GeometryError(PanelwrightError, ValueError):
    """A curve, edge or piece that cannot exist: open outline, empty curve, crossing edges."""


class BlockError(PanelwrightError, ValueError):
    """No block can be made for these measurements and options; the message gives the reason."""


class DesignError(InputError):
    """A design step that cannot be carried out on this wearer's block; `where` names the step."""


class LayError(InputError):
    """Pieces that do not fit on their cloth; `where` names the cloth.

    Attributes:
        across, room: of the widest piece, and of the cloth as it is laid, mm; 0 where it is not a matter of width.
        remedy: what helps, as the end of the message has it; may be empty.
    """

    def __init__(self, message: str, where: str = "", across: float = 0.0, room: float = 0.0, remedy: str = "") -> None:
        super().__init__(message, where)
        self.across, self.room, self.remedy = across, room, remedy


class StoreError(InputError):
    """Saved work that cannot be opened, found or changed; `where` names the file or the item."""


class OutputError(PanelwrightError, OSError):
    """A result could not be written: no space, no permission, a folder in the way."""


class CancelledError(PanelwrightError):
    """A person stopped long work; nothing is wrong."""
