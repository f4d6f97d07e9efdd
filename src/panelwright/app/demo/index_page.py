"""The demo's first page: pictures of the garments, what was found, and links to the sheets.

It is one static file in plain paper and pencil colours and asks no other machine for anything.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from html import escape
from itertools import groupby
from typing import Final

from panelwright.app.demo.page_section import Figure, Section, links_html, links_to
from panelwright.checks.tally import counts_in_words
from panelwright.finding import Finding

LINKS: Final = {
    "findings.txt": "findings",
    "quarter": "quarter scale",
    "full": "full scale, to tape together",
    "large": "one large sheet",
    "sign-off": "sign-off page (private)",
    "pattern.json": "pattern file",
}
_BOUGHT: Final = {
    "shopping-list.pdf": "shopping list",
    "shopping-list.txt": "as text",
    "shopping-list.csv": "as a table (CSV)",
    "group-lays.pdf": "the lays",
    "group.json": "the group’s file",
}
_STYLE: Final = """
body { margin: 0 auto; box-sizing: border-box; max-width: 76rem; padding: 2rem 1.5rem 4rem; background: #f6f2e9;
  color: #2d2a26;
  font: 1rem/1.5 Georgia, 'Times New Roman', serif; }
h1 { font-weight: normal; font-size: 2rem; margin: 0 0 .5rem; }
h2 { font-weight: normal; font-size: 1.35rem; margin: 2.5rem 0 .75rem; border-bottom: 1px solid #b9ae9b; }
p { max-width: 46rem; margin: .4rem 0; }
.row { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 28rem), 1fr)); gap: 1.25rem;
  align-items: start; }
figure { margin: 0; background: #fff; border: 1px solid #d8cfbf; padding: .75rem; }
img { display: block; width: 100%; height: auto; }
h3 { font-size: 1.05rem; margin: .5rem 0 0; }
figcaption p { margin: .15rem 0; font-size: .9rem; }
a { color: #7a2e22; }
.error { font-weight: bold; }
"""


@dataclass(frozen=True)
class Entry:
    """One garment on the page.

    Attributes:
        wearer, role: of the dancer.
        title: of the design.
        findings: errors first.
        files: paths from the page, with `/`.
    """

    wearer: str
    role: str
    title: str
    findings: tuple[Finding, ...]
    files: tuple[str, ...]


def index_page(entries: Sequence[Entry], bought: Sequence[str] = (), further: Sequence[Section] = ()) -> str:
    """The page, grouped by dancer.

    Args:
        entries: the garments, those of one dancer together.
        bought: the files of what they buy together, as paths from the page.
        further: sections after the dancers'.
    """
    everything = [finding for entry in entries for finding in entry.findings]
    dancers = [_dancer(wearer, role, own) for (wearer, role), own in groupby(entries, key=lambda e: (e.wearer, e.role))]
    sections = "".join(section.html() for section in (*dancers, *further))
    return f"""<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>The lantern-festival troupe's first garments</title>
<style>{_STYLE}</style>
</head>
<body>
<h1>The lantern-festival troupe’s first garments</h1>
<p>{len(entries)} garments for the dance troupe of an invented village, from measurements to sheets that can be
printed: {escape(counts_in_words(everything))}. Every warning says in its findings file what to do about it.</p>
<p>Print at 100 %, without “fit to page”, and measure the square on the first page. Sew a toile before you cut good
cloth. The sign-off page has the wearer’s measurements on it: hand it to the wearer.</p>
{_shopping(bought)}{sections}
</body>
</html>
"""


def _shopping(bought: Sequence[str]) -> str:
    links = links_to(bought, _BOUGHT)
    return f"<p>All of it bought and laid together: {links_html(links)}</p>\n" if links else ""


def _dancer(wearer: str, role: str, entries: Iterable[Entry]) -> Section:
    return Section(f"{wearer}, {role}", tuple(garment_figure(entry) for entry in entries))


def garment_figure(entry: Entry) -> Figure:
    """The figure of a garment: its pieces, how many findings there are, and its files."""
    return Figure(
        picture=next(file for file in entry.files if file.endswith(".svg")),
        alt=f"The pieces of {entry.title} for {entry.wearer} at quarter scale",
        title=entry.title,
        words=counts_in_words(entry.findings),
        links=links_to(entry.files, LINKS),
        wrong=any(finding.severity == "error" for finding in entry.findings),
    )
