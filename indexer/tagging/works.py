"""A bound file that holds several works is cut into them; a file is left whole where that is not sure.

A cut needs, at the top of a page, a title with a type and a number of its own that differ from the work
before, and a sign that a new paper begins there: page 1, no printed page numbers at all, or a bookmark. A
manual's chapters are bookmarks too and begin at page 1 too, so neither is enough by itself.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from indexer.reading.page import Document, OutlineEntry, Page, TextState
from indexer.tagging.flow import PrintedLine, one_line, plain
from indexer.tagging.identity_number import printed_bulletin_number
from indexer.tagging.type_words import type_words
from indexer.trade.bulletin_numbers import find_bulletin_numbers
from indexer.trade.publication_types import PublicationType as Type

_TOP_LINES = 14
_DIRECTIVE_LINE = re.compile(
    r"^(?P<number>(?:19|20)?\d{2}-\d{2}-\d{2}(?:[\s-]?R\d{1,2})?)\s+[A-Z][^:]{1,150}?:\s*(?:Amendment\s+39-|Docket)"
)
_LABELLED_DIRECTIVE = re.compile(
    r"\b(?:airworthiness directive|AD)\s*(?:#|No\.?|Number)?\s*:?\s*(?P<number>(?:19"
    r"|20)\d{2}-\d{2}-\d{2}(?:[\s-]?R\d{1,2})?)(?![\d-])",
    re.IGNORECASE,
)
_NUMBER = re.compile(
    r"^\s*(?:No\b\.?|Number\b|#|:|-)?\s*[:.]?\s*(?P<number>(?=[A-Z0-9./-]*\d)[A-Z0-9]+(?:[./-][A-Z0-9]+)*)",
    re.IGNORECASE,
)
_NUMBER_LINE = re.compile(
    r"(?:(?:No\.?|Number|#)\s*[:.]?\s*(?P<number>[A-Z0-9]+(?:[./-][A-Z0-9]+)*)|(?=[A-Z0-9./-]*\d)[A-Z0-9]+(?:[./-][A-Z0-9]+)+)",
    re.IGNORECASE,
)
_SEPARATE_PAPERS = frozenset(
    {
        Type.SERVICE_BULLETIN,
        Type.SERVICE_LETTER,
        Type.AIRWORTHINESS_DIRECTIVE,
        Type.TEMPORARY_REVISION,
        Type.AIRWORTHINESS_BULLETIN,
    }
)


@dataclass(frozen=True, slots=True)
class Work:
    """Pages of one work, first and last included (1-based). `whole_file`: it is all the file holds."""

    first_page: int
    last_page: int
    whole_file: bool


@dataclass(frozen=True, slots=True)
class _Title:
    type: Type
    number: str


def cut_works(document: Document) -> tuple[Work, ...]:
    """The works of a file, in order, without gaps; one work where it is not surely a binder."""
    pages = document.pages
    if not pages:
        return ()
    starts = _starts(pages, document.outline)
    if len(starts) < 2:
        return (Work(pages[0].pdf_page, pages[-1].pdf_page, True),)
    firsts = [pages[place].pdf_page for place in starts]
    lasts = [*(first - 1 for first in firsts[1:]), pages[-1].pdf_page]
    return tuple(Work(first, last, False) for first, last in zip(firsts, lasts, strict=True))


def _starts(pages: Sequence[Page], outline: Sequence[OutlineEntry]) -> list[int]:
    """Places in `pages` at which a work begins; only the first when unsure."""
    bookmarked = {entry.pdf_page for entry in outline if entry.level == 1}
    titles = [_title(page) for page in pages]
    if titles[0] is None or sum(title is not None for title in titles) < 2:
        return [0]
    starts, current, seen = [0], titles[0], [titles[0]]
    for place, title in enumerate(titles[1:], 1):
        if title is None or title == current:
            continue
        if title in seen:
            return [0]  # an earlier paper's title comes back: these titles do not part works
        if not _begins(pages, place, bookmarked):
            return [0]
        starts.append(place)
        seen.append(title)
        current = title
    return starts


def _begins(pages: Sequence[Page], place: int, bookmarked: set[int | None]) -> bool:
    """Whether a sign beside the new title says that a paper begins on this page."""
    printed = pages[place].printed_page.strip().lower()
    if re.fullmatch(r"(?:page )?0*1(?: of \d+)?|i|1-1", printed) or pages[place].pdf_page in bookmarked:
        return True
    return not printed and not pages[place - 1].printed_page


def _title(page: Page) -> _Title | None:
    """The type and number a page's top prints as its own, for papers that are bound together; None for
    other pages."""
    if page.state is not TextState.TEXT:
        return None
    lines = [PrintedLine(page.pdf_page, line) for line in (*page.head, *page.body[:_TOP_LINES])]
    texts = [plain(one_line(line.text)) for line in lines]
    for place, text in enumerate(texts):
        for words in type_words(text):
            if words.type not in _SEPARATE_PAPERS:
                continue
            number = _number(words.type, text[words.end :], texts[place : place + 4])
            if number:
                return _Title(words.type, number)
        directive = _DIRECTIVE_LINE.match(text)
        if directive:
            return _Title(Type.AIRWORTHINESS_DIRECTIVE, directive["number"])
    return None


def _number(kind: Type, after: str, following: Sequence[str]) -> str | None:
    """The number beside the type's words, or labelled within the three lines below them."""
    if kind in (Type.SERVICE_BULLETIN, Type.SERVICE_LETTER):
        for text in following:
            for found in find_bulletin_numbers(text)[:1]:
                if len(text[: found.start].split()) <= 7:
                    return printed_bulletin_number(found).removeprefix("SB ")
    if kind is Type.AIRWORTHINESS_DIRECTIVE:
        for text in following:
            found = _LABELLED_DIRECTIVE.search(text) or _DIRECTIVE_LINE.match(text)
            if found:
                return found["number"]
        return None
    beside = _NUMBER.match(after)
    if beside:
        return beside["number"]
    below = _NUMBER_LINE.fullmatch(following[1].strip()) if len(following) > 1 else None
    return below["number"] or below[0] if below else None
