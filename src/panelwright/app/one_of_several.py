"""Several garments made in a row: a fault of one says which."""

from collections.abc import Iterator
from contextlib import contextmanager

from panelwright.errors import BlockError, InputError


@contextmanager
def making(name: str) -> Iterator[None]:
    """Put the name of a garment in front of what is wrong with it.

    Raises:
        BlockError, InputError: as they came, the message with `name: ` in front.
    """
    try:
        yield
    except BlockError as error:
        raise BlockError(f"{name}: {error}") from error
    except InputError as error:
        raise InputError(f"{name}: {error}", error.where) from error
