"""Numbers in addresses, `{number:count}`: of versions, sheets and lays."""

from typing import Final

from starlette.convertors import Convertor, register_url_convertor


class Count(Convertor[int]):
    """A whole number of at most 15 figures; an address with a longer one leads nowhere."""

    regex = "[0-9]{1,15}"

    def convert(self, value: str) -> int:
        """The number."""
        return int(value)

    def to_string(self, value: int) -> str:
        """Its figures."""
        return str(value)


COUNT: Final = "count"
register_url_convertor(COUNT, Count())
