"""Revisions of a manual with lists of effective pages, and its temporary revisions: our own fiction.

A page is (number, printed page, date); the list stands on PDF page 1, the pages follow in order.
"""

import datetime
from dataclasses import dataclass, replace
from pathlib import Path

from small_library import passage, tag
from small_library import take as take_tagged

from indexer.library.catalogue import Catalogue
from indexer.tagging.effective_pages import LISTED
from indexer.tagging.tags import (
    Claim,
    ClaimKind,
    Identity,
    ListedPage,
    PageMark,
    TaggedPublication,
)
from indexer.trade.evidence import Basis, Box, Evidence, Origin, Tag
from indexer.trade.publication_types import PublicationType as Type

WHEELS = "32-41-00"


def day(text: str) -> datetime.date:
    return datetime.date.fromisoformat(text)


@dataclass
class Manual:
    """listed  pages of its list, None = the pages it has, () = no list"""

    revision: str
    date: str
    pages: list[tuple[str, str, str]]
    listed: list[tuple[str, str, str]] | None = None
    list_date: str = ""
    number: str = "D4410-1"
    name: str = ""
    origin: Origin = Origin.DIGITAL
    date_origin: Origin = Origin.DIGITAL
    others: tuple[str, ...] = ()
    other_dates: tuple[str, ...] = ()

    def publication(self) -> TaggedPublication:
        listed = self.pages if self.listed is None else self.listed
        marks = [
            PageMark(
                1, "", "LEP-1", _date(self.list_date or self.date, 1) if self.date or self.list_date else None
            )
        ]
        marks += [
            PageMark(place, number, printed, _date(date, place) if date else None)
            for place, (number, printed, date) in enumerate(self.pages, 2)
        ]
        lines = [
            ListedPage(
                number,
                printed,
                day(date),
                "",
                Evidence(Basis.PRINTED, LISTED, f"{number} {printed} {date}", 1),
            )
            for number, printed, date in listed
        ]
        revision = tag(
            self.revision, f"Revision {self.revision}", others=[tag(each, each) for each in self.others]
        )
        revision = replace(revision, evidence=replace(revision.evidence, origin=self.origin))
        identity = Identity(
            tag(Type.MAINTENANCE_MANUAL, "MAINTENANCE MANUAL"),
            tag(self.number, self.number),
            tag("Ousel Maintenance Manual", "Ousel Maintenance Manual"),
            tag("Corvane Aircraft", "Corvane Aircraft"),
            (),
            revision if self.revision else None,
            self._dated() if self.date else None,
        )
        texts = [
            passage(place - 2, place, f"Words of page {printed} about the wheel nut.", numbers=[number])
            for place, (number, printed, _) in enumerate(self.pages, 2)
        ]
        return TaggedPublication(
            1,
            len(self.pages) + 1,
            identity,
            tuple(texts),
            (),
            page_marks=tuple(marks),
            listed_pages=tuple(lines),
        )

    def _dated(self) -> Tag:
        others = tuple(_date(each, 1) for each in self.other_dates)
        return replace(_date(self.date, 1, self.date_origin), others=others)

    def take(self, catalogue: Catalogue, folder: Path) -> str:
        return take_tagged(
            catalogue, folder, self.name or f"manual-{self.revision}-{self.date}", self.publication()
        )


def temporary_revision(
    number: str, date: str, pages: list[tuple[str, str]], manual: str = "D4410-1"
) -> TaggedPublication:
    claim = Claim(
        ClaimKind.CHANGES_PAGE,
        manual,
        Evidence(Basis.PRINTED, "test", f"Insert facing page {pages[0][1]}", 1, Box(1, 1, 9, 9)),
        Type.MAINTENANCE_MANUAL,
        pages=tuple(pages),
    )
    identity = Identity(
        tag(Type.TEMPORARY_REVISION, "TEMPORARY REVISION"),
        tag(number, number),
        None,
        tag("Corvane Aircraft", "Corvane Aircraft"),
        (),
        None,
        tag(day(date), date) if date else None,
    )
    return TaggedPublication(1, 1, identity, (passage(0, 1, "New words.", numbers=[WHEELS]),), (claim,))


def take_temporary(
    catalogue: Catalogue, folder: Path, number: str, date: str, *pages: tuple[str, str]
) -> str:
    return take_tagged(catalogue, folder, f"tr-{number}", temporary_revision(number, date, list(pages)))


def _date(text: str, pdf_page: int, origin: Origin = Origin.DIGITAL) -> Tag:
    read = tag(day(text), text, pdf_page)
    return replace(read, evidence=replace(read.evidence, origin=origin))
