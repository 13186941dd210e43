"""Which passages nobody is asked to number: front matter, and publications that no chapter fits. Pure."""

import re
from collections.abc import Sequence

from indexer.trade.publication_types import PublicationType as Type

_PAGES_OF_A_LETTER = 6
_TITLED_FROM = 3  # pages: from here on a manual's first page is its title page
# Types whose pages belong to no one system: nobody is asked for a chapter of theirs.
NO_CHAPTER_FITS = frozenset(
    {
        Type.ADVISORY_CIRCULAR,
        Type.REGULATION,
        Type.ORDER_OR_HANDBOOK,
        Type.CODE_TABLE,
        Type.ACCIDENT_REPORT,
        Type.RELEASE_CERTIFICATE,
        Type.REPAIR_ALTERATION_RECORD,
    }
)
_MANUALS = frozenset(
    {
        Type.MAINTENANCE_MANUAL,
        Type.SERVICE_MANUAL,
        Type.COMPONENT_MAINTENANCE_MANUAL,
        Type.ENGINE_MANUAL,
        Type.PROPELLER_MANUAL,
        Type.STRUCTURAL_REPAIR_MANUAL,
        Type.WIRING_DIAGRAM_MANUAL,
        Type.STANDARD_PRACTICES_MANUAL,
        Type.PARTS_CATALOG,
        Type.FLIGHT_MANUAL,
        Type.FLIGHT_MANUAL_SUPPLEMENT,
        Type.MINIMUM_EQUIPMENT_LIST,
    }
)
OF_NO_CHAPTER = "publications that belong to no chapter"
FRONT_MATTER = "title pages, contents, lists and other front matter"

# Headings begin with these: "Power distribution" and "Indexing of the magneto" are about the aircraft.
_NUMBERED = r"(?:[0-9]+(?:[-.][0-9]+)*\.?\s+)?"
_FRONT = re.compile(
    _NUMBERED + r"(?:(?:table of )?contents(?: \(?continued\)?)?\W*$"
    r"|list of (?:effective pages|illustrations|figures|tables|revisions|chapters|abbreviations)\b"
    r"|effective pages\b|(?:record|log) of (?:temporary )?revisions\b"
    r"|revision (?:record|summary|history)\b|highlights\b|foreword\b|preface\b"
    r"|(?:numerical |alphabetical |subject )?index(?: of .*)?\W*$|title page\b|approval page\b|copyright\b"
    r"|abbreviations\b|glossary\b|distribution(?: list)?\W*$|how to use\b"
    r"|(?:what|about) this (?:manual|catalog|book)\b)",
    re.IGNORECASE,
)
_INTRODUCTION = re.compile(_NUMBERED + r"introduction\W*$", re.IGNORECASE)
_SECTION = re.compile(r"(?:section|chapter|part|group)\s+[0-9ivxl]+\b|[0-9]+-[0-9]+\b", re.IGNORECASE)
_LETTERED_PAGE = re.compile(
    r"(?:[ivxl]+|(?:T|RR|RTR|HL|LEP|LOEP|TC|TOC|INTRO|INT|INDEX|NI|AP)[- ]?[0-9]*)", re.IGNORECASE
)


def left_out_as(
    kind: Type | None, pages: int, on_first: bool, headings: Sequence[str], printed_page: str, own: str = ""
) -> str:
    """Why nobody is asked about a passage without a number; "" = somebody is.

    pages     of its publication; on_first = it stands on the first of them
    headings  it stands under, outermost first
    own       its section in a manual's own order: it stands in the body, whatever heading is above that
    """
    if kind in NO_CHAPTER_FITS:
        return OF_NO_CHAPTER
    if not own and on_first and (is_book(pages) or (kind in _MANUALS and pages >= _TITLED_FROM)):
        return FRONT_MATTER
    # Headings are nested by their size: a section can seem to stand under the contents page before it.
    above = headings[-1:] if own else headings[_last_section(headings) :]
    front = any(_FRONT.match(each) or (is_book(pages) and _INTRODUCTION.match(each)) for each in above)
    lettered = not own and _LETTERED_PAGE.fullmatch(printed_page.strip())
    return FRONT_MATTER if front or lettered else ""


def is_book(pages: int) -> bool:
    """Whether a publication has a title page and parts, and is no letter about one thing."""
    return pages > _PAGES_OF_A_LETTER


def _last_section(headings: Sequence[str]) -> int:
    return max((place for place, each in enumerate(headings) if _SECTION.match(each)), default=0)
