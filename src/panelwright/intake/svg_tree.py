"""An SVG file as a light tree: elements with their attributes, read without entities and without looking elsewhere."""

from dataclasses import dataclass, field
from typing import Final
from xml.parsers import expat

from panelwright.errors import InputError

DEEPEST: Final = 60
MOST_ELEMENTS: Final = 120_000
MOST_TEXT: Final = 1_000_000
# Their content is never drawn, or drawn only where something else asks for it.
_SPACES: Final = ("http://www.w3.org/2000/svg", "")


@dataclass(eq=False)
class Element:
    """An element.

    Attributes:
        kind: its name without the namespace: `path`; with it in braces where it is not SVG's own.
        own: attributes, those of other namespaces by their bare name: `label`, `href`.
        children: elements inside it.
        text: what is written in it, its children left out.
    """

    kind: str
    own: dict[str, str]
    children: "list[Element]" = field(default_factory=list)
    text: str = ""


def read_tree(content: bytes) -> Element:
    """The root of an SVG document.

    Raises:
        InputError: if it is no well-formed XML, declares an entity, is nested too deep, or holds too much.
    """
    reader = _Reader()
    try:
        reader.parser.Parse(content, True)
    except expat.ExpatError as error:
        # The library counts columns from 0 and says what it met; a person needs the line.
        reason = expat.ErrorString(error.code).lower()
        raise InputError(
            f"the file is not usable SVG: {reason} in line {error.lineno}; save the drawing again"
        ) from error
    except (LookupError, UnicodeError, ValueError) as error:
        if isinstance(error, InputError):
            raise
        raise InputError("the file is not usable SVG: its letters are in an unknown code; save it in UTF-8") from error
    if reader.root is None or reader.root.kind != "svg":
        raise InputError("the file is XML, but no SVG drawing: save the drawing as SVG or DXF")
    return reader.root


class _Reader:
    """Builds the tree while the parser runs."""

    def __init__(self) -> None:
        self.root: Element | None = None
        self._open: list[Element] = []
        self._count = self._letters = 0
        self.parser = expat.ParserCreate(namespace_separator=" ")
        self.parser.buffer_text = True
        self.parser.SetParamEntityParsing(expat.XML_PARAM_ENTITY_PARSING_NEVER)
        self.parser.StartElementHandler = self._start
        self.parser.EndElementHandler = self._end
        self.parser.CharacterDataHandler = self._written
        self.parser.EntityDeclHandler = self._entity

    def _start(self, name: str, attributes: dict[str, str]) -> None:
        self._count += 1
        if len(self._open) >= DEEPEST:
            raise InputError(f"its groups lie more than {DEEPEST} deep in one another: save the pattern's pieces alone")
        if self._count > MOST_ELEMENTS:
            raise InputError(f"it has more than {MOST_ELEMENTS:,} elements: save the pattern's pieces alone")
        space, _, bare = name.rpartition(" ")
        kind = bare if space in _SPACES else f"{{{space[:40]}}}{bare}"
        element = Element(kind, {key.rpartition(" ")[2]: value for key, value in attributes.items()})
        if self._open:
            self._open[-1].children.append(element)
        else:
            self.root = element
        self._open.append(element)

    def _end(self, _name: str) -> None:
        self._open.pop()

    def _written(self, text: str) -> None:
        element = self._open[-1]
        if element.kind in ("text", "tspan", "title"):
            self._letters += len(text)
            if self._letters > MOST_TEXT:
                raise InputError("it holds far more text than a pattern: save the pattern's pieces alone")
            element.text += text[:500]

    def _entity(self, *_declared: object) -> None:
        raise InputError(
            "the file declares entities, which could make it grow without end: save the drawing as plain SVG"
        )
