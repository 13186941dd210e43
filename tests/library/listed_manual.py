"""Manuals with a list of effective pages, made without a PDF: invented maker, numbers and dates."""

import datetime
from dataclasses import dataclass, replace
from pathlib import Path

from making import Made, Text, evidence, tag

from indexer.library.catalogue import Catalogue
from indexer.tagging.effective_pages import LISTED
from indexer.tagging.tags import ListedPage, PageMark, TaggedPublication
from indexer.trade.chapters import parse_number
from indexer.trade.evidence import Origin, Tag
from indexer.trade.publication_types import PublicationType as Type

MAKER = "Corvane Aircraft Company"
NUMBER = "32-41-00"


def day(text: str) -> datetime.date | None:
    return datetime.date.fromisoformat(text) if text else None


def line(
    printed: str,
    date: str = "",
    number: str = NUMBER,
    rule: str = LISTED,
    revision: str = "",
    quote: str = "",
) -> ListedPage:
    words = replace(evidence(quote or f"{number} {printed} {date}", 1), rule=rule)
    return ListedPage(number, printed, day(date), revision, words)


def mark(
    pdf_page: int,
    printed: str,
    date: str = "",
    number: str = NUMBER,
    revision: str = "",
    origin: Origin = Origin.DIGITAL,
) -> PageMark:
    def said(value):
        return Tag(value, replace(evidence(str(value), pdf_page), origin=origin))

    return PageMark(
        pdf_page,
        number,
        printed,
        said(day(date)) if date else None,
        said(revision) if revision else None,
    )


@dataclass
class Manual:
    """A revision of manual D4410-1: its list stands on its first page, its text on the others.

    pages   (number, printed page, date) of PDF pages 2 and on
    listed  (number, printed page, date); None = no list
    """

    revision: str
    date: str
    pages: list[tuple[str, str, str]]
    listed: list[tuple[str, str, str]] | None = None
    list_date: str = ""
    file: str = ""
    number: str = "D4410-1"
    origin: Origin = Origin.DIGITAL
    content: bytes | None = None

    @property
    def made(self) -> Made:
        texts = [Text("LIST OF EFFECTIVE PAGES", ("List",), 1)]
        texts += [
            Text(f"Words of page {printed}.", (f"Page {printed}",), place, parse_number(number))
            for place, (number, printed, _) in enumerate(self.pages, 2)
        ]
        return Made(
            self.file or f"manual-{self.revision or self.date}.pdf",
            Type.MAINTENANCE_MANUAL,
            self.number,
            self.revision or None,
            day(self.date),
            MAKER,
            "Maintenance Manual",
            texts=texts,
            pages=len(self.pages) + 1,
            printed={place: printed for place, (_, printed, _) in enumerate(self.pages, 2)},
            content=self.content,
        )

    def publication(self) -> TaggedPublication:
        (made,) = self.made.publications()
        marks = [mark(1, "LEP-1", self.list_date or self.date, "")]
        marks += [
            mark(place, printed, date, number) for place, (number, printed, date) in enumerate(self.pages, 2)
        ]
        lines = [line(printed, date, number) for number, printed, date in self.listed or ()]
        identity = made.identity
        if self.origin is not Origin.DIGITAL:
            read = replace(tag(self.revision), evidence=replace(evidence(self.revision), origin=self.origin))
            identity = replace(identity, revision=read)
        return replace(made, page_marks=tuple(marks), listed_pages=tuple(lines), identity=identity)


def take_manual(catalogue: Catalogue, folder: Path, manual: Manual, name: str = "") -> str:
    """Take it; the publication's id. `name`: another place than its own."""
    made = manual.made
    path = made.write(folder)
    return catalogue.take(
        folder / name if name else path, made.document(), [manual.publication()], path
    ).publications[0]
