"""A section of the demo's page: a heading, words, and figures with their links."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from html import escape
from pathlib import PurePosixPath

Link = tuple[str, str]


@dataclass(frozen=True)
class Figure:
    """A picture with what is said of it.

    Attributes:
        picture: path from the page, with `/`.
        alt: what it shows, for whoever does not see it.
        title: under it.
        words: a line under that; marked where it tells of an error.
        links: (path, words).
        wrong: whether something is an error.
    """

    picture: str
    alt: str
    title: str
    words: str
    links: tuple[Link, ...]
    wrong: bool = False

    def html(self) -> str:
        """The figure, everything escaped."""
        picture, mark = escape(self.picture), ' class="error"' if self.wrong else ""
        return f"""<figure>
<a href="{picture}"><img src="{picture}" alt="{escape(self.alt)}" loading="lazy"></a>
<figcaption>
<h3>{escape(self.title)}</h3>
<p{mark}>{escape(self.words)}</p>
<p>{links_html(self.links)}</p>
</figcaption>
</figure>
"""


@dataclass(frozen=True)
class Section:
    """Figures in rows under a heading.

    Attributes:
        title: of the section.
        figures: in order.
        words: paragraphs before them.
    """

    title: str
    figures: tuple[Figure, ...]
    words: tuple[str, ...] = ()

    def html(self) -> str:
        """The section, everything escaped."""
        words = "".join(f"<p>{escape(paragraph)}</p>\n" for paragraph in self.words)
        figures = "".join(figure.html() for figure in self.figures)
        return f'<h2>{escape(self.title)}</h2>\n{words}<div class="row">\n{figures}</div>\n'


def links_to(files: Iterable[str], names: Mapping[str, str]) -> tuple[Link, ...]:
    """Those of the files whose names begin as told, in the order of the names, each with its words.

    Args:
        files: paths from the page.
        names: beginning of a file's name -> words of the link.
    """
    known = tuple(files)
    return tuple(
        (file, words) for start, words in names.items() for file in known if PurePosixPath(file).name.startswith(start)
    )


def links_html(links: Iterable[Link]) -> str:
    """The links in one line."""
    return " · ".join(f'<a href="{escape(file)}">{escape(words)}</a>' for file, words in links)
