"""What the drawing knows of each page: the expected tags, kept beside the drawing that makes them true."""

import datetime
from dataclasses import dataclass, replace

FICTITIOUS_LINE = "FICTITIOUS SAMPLE OF AN INVENTED AIRCRAFT - NOT FOR FLIGHT"


@dataclass(frozen=True)
class PublicationFacts:
    """One publication as bound in one file. `type` is a PublicationType value."""

    file: str
    type: str
    number: str
    title: str
    maker: str
    models: tuple[str, ...]
    revision: str  # as printed without the word: "3", "B", "original"; "" when none is printed
    date: datetime.date | None  # of the revision


@dataclass(frozen=True)
class PageFacts:
    """One page. Numbers are as printed; "" means the page prints none.

    number           "32-42-00", or a chapter alone "32"; of a manual with its own order its section: "V", "5"
    filed_under      of a page that prints no chapter number: those a person would file it under, "12;05"
    data_standing    what the words of the publication alone make of the page's data
    final_standing   the same after directives and supersession across the library
    directive        how a directive reaches the page: "required by 2031-07-11", "" when none does
    """

    publication: PublicationFacts
    printed_page: str = ""
    number: str = ""
    scheme: str = ""
    filed_under: str = ""
    page_block: str = ""
    page_date: str = ""  # as printed in the foot
    title: str = ""  # running title of the topic
    effectivity: str = ""
    figure: str = ""  # parts catalog: "Figure 1"
    text_state: str = "text"
    data_standing: str = "undetermined"
    final_standing: str = ""  # "" = as data_standing
    directive: str = ""
    note: str = ""

    @property
    def number_parts(self) -> tuple[str, str, str]:
        """Chapter, section and subject; the missing ones are ""."""
        parts = self.number.split("-") if self.number else []
        return tuple((parts + ["", "", ""])[:3])

    def with_page(self, printed_page: str) -> "PageFacts":
        return replace(self, printed_page=printed_page)


def next_page(printed_page: str) -> str:
    """The page after this one: "401" -> "402", "LEP-1" -> "LEP-2"; "" stays ""."""
    stem = printed_page.rstrip("0123456789")
    digits = printed_page[len(stem) :]
    return f"{stem}{int(digits) + 1}" if digits else printed_page


def printed_date(date: datetime.date) -> str:
    """The foot's date: "Mar 14/2031"."""
    return f"{date:%b} {date.day:02d}/{date.year}"
