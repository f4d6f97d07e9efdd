"""A DXF file taken apart: its header, its blocks, and the entities of its model space."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from panelwright.errors import InputError
from panelwright.intake.dxf_tags import Entity, Tag, decoded, read_tags
from panelwright.quotation import quoted

_ENCODINGS: Final = {"ANSI_932": "cp932", "ANSI_936": "gbk", "ANSI_949": "cp949", "ANSI_950": "big5"}
MOST_BLOCKS: Final = 5_000
MOST_ENTITIES: Final = 120_000


@dataclass(frozen=True)
class Block:
    """A block: a named group of entities with a point of its own that is laid where it is inserted."""

    name: str
    base: tuple[float, float]
    entities: tuple[Entity, ...]


@dataclass(frozen=True)
class Document:
    """What a DXF file holds.

    Attributes:
        header: `$INSUNITS` -> its first value.
        blocks: name in capitals -> block.
        entities: of the model space, those of paper space left out.
    """

    header: Mapping[str, str]
    blocks: Mapping[str, Block]
    entities: tuple[Entity, ...]


def read_document(content: bytes) -> Document:
    """Take a DXF file in ASCII apart.

    Raises:
        InputError: if it is malformed, broken off, or holds too much.
    """
    header: dict[str, str] = {}
    blocks: dict[str, Block] = {}
    entities: list[Entity] = []
    encoding = "utf-8"
    tags = read_tags(content)
    for line, code, value in tags:
        if code == 0 and value.strip() == b"SECTION":
            _, name_code, name = next(tags, (0, 0, b""))
            section = name.strip() if name_code == 2 else b""
            if section == b"HEADER":
                header = _header(tags)
                encoding = _encoding(header)
            elif section == b"BLOCKS":
                blocks = _blocks(_entities(tags, encoding))
            elif section == b"ENTITIES":
                entities = [each for each in _entities(tags, encoding) if each.whole(67) == 0]
        elif line == 1 and code not in (0, 999):
            raise InputError("the file does not begin as a DXF file does: save the drawing as DXF or SVG")
    return Document(header, blocks, tuple(entities))


def _header(tags: Iterator[tuple[int, int, bytes]]) -> dict[str, str]:
    found: dict[str, str] = {}
    name = ""
    for _, code, value in tags:
        if code == 0:
            break
        if code == 9:
            name = decoded(value, "ascii")
        elif name and len(found) < 2000:
            found.setdefault(name, decoded(value, "ascii"))
    return found


def _encoding(header: Mapping[str, str]) -> str:
    """UTF-8 since the version of 2007, else the code page that the header names."""
    if header.get("$ACADVER", "") >= "AC1021":
        return "utf-8"
    page = header.get("$DWGCODEPAGE", "ANSI_1252").upper()
    wanted = _ENCODINGS.get(page, page.replace("ANSI_", "cp"))
    try:
        b"".decode(wanted)
    except (LookupError, ValueError):
        return "cp1252"
    return wanted if wanted.startswith("cp") or wanted in _ENCODINGS.values() else "cp1252"


def _entities(tags: Iterator[tuple[int, int, bytes]], encoding: str) -> Iterator[Entity]:
    """The entities up to the end of the section."""
    kind, begun, own = "", 0, list[Tag]()
    count = 0
    for line, code, value in tags:
        if code != 0:
            if kind:
                own.append((code, value))
            continue
        if kind:
            yield Entity(kind, tuple(own), begun, encoding)
        kind, begun, own = decoded(value[:40], "ascii").upper(), line, []
        count += 1
        if count > MOST_ENTITIES:
            raise InputError("the drawing holds far more than a pattern: save the pattern's pieces alone")
        if kind in ("ENDSEC", "EOF"):
            return


def _blocks(entities: Iterator[Entity]) -> dict[str, Block]:
    found: dict[str, Block] = {}
    head: Entity | None = None
    own: list[Entity] = []
    for entity in entities:
        if entity.kind == "BLOCK":
            head, own = entity, []
        elif entity.kind == "ENDBLK" and head is not None:
            name = head.text(2)
            found[name.upper()] = Block(name, (head.number(10, 0.0), head.number(20, 0.0)), tuple(own))
            head = None
            if len(found) > MOST_BLOCKS:
                raise InputError(f"the drawing has more than {MOST_BLOCKS:,} blocks: save the pattern's pieces alone")
        elif head is not None:
            own.append(entity)
    if head is not None:
        raise InputError(f"the block {quoted(head.text(2))} has no end: save the drawing again")
    return found
