"""A length in a field of a file whose name ends in `_cm`: a number of centimetres, or a text that names its unit."""

import re
from typing import Annotated

from pydantic import BeforeValidator

from panelwright.body.units import LENGTH_PATTERN, parse_length
from panelwright.errors import InputError
from panelwright.quotation import quoted

_CM = 10.0  # mm


def centimetres(value: object) -> object:
    """A text as the number of centimetres that it says (`"5/8 in"`: 1.5875, `"-5 mm"`: -0.5); all else as it is.

    Raises:
        InputError: if a text is no length, or names no unit: `"5/8"` was hardly meant as centimetres.
    """
    if not isinstance(value, str):
        return value
    sign, amount = (value[0], value[1:]) if value[:1] in ("-", "−", "+") else ("", value)
    try:
        length = parse_length(amount)
    except InputError as error:
        message = (
            f'{quoted(value)} is not a length: write it like "5/8 in" or "15 mm", or as a plain number of centimetres'
        )
        raise InputError(message, quoted(value)) from error
    match = re.match(LENGTH_PATTERN, amount)
    if match is None or match[4] is None:
        raise InputError(
            f'{quoted(value)} names no unit: write it like "5/8 in" or "15 mm", or as a plain number of centimetres',
            quoted(value),
        )
    return round(length / _CM, 9) * (-1.0 if sign in ("-", "−") else 1.0)


Centimetres = Annotated[float, BeforeValidator(centimetres)]
