"""Chapters of a book's own: "Chapter 10" of a handbook or an order is not ATA chapter 10."""

import re

from indexer.trade.chapter_tables import chapter_rows, jasc_rows

_OF_ANOTHER_BOOK = re.compile(
    r"(?:\b(?:vol(?:ume)?\.?\s*[0-9IVX]+|order\s+[0-9.]+[A-Z]?|title\s+[0-9]+|AC\s*[0-9]+[.-][0-9A-Z.-]+|U\.?S\.?C\.?)"
    r"[^.;\n]{0,20}|\b(?:this|the)\s+(?:AC|order|handbook|guide)[\s,'s]*)$",
    re.IGNORECASE,
)
_OF_ANOTHER_BOOK_AFTER = re.compile(
    r",?\s+(?:(?:section|paragraph|page)\s+[0-9-]+,?\s+)?of\s+(?:(?:the|this|that|FAA)\s+)*"
    r"(?:AC\b|order|handbook|guide|title|act|code|advisory)",
    re.IGNORECASE,
)
_TITLE_AFTER = re.compile(r"[ ]*[.:-]*[ ]*\n?[ ]*\n?[ ]*(?P<title>[A-Z][A-Za-z][^\n.;:]{0,70})")
_NOT_A_TITLE = re.compile(
    r"(?:table\s+of\s+contents|contents|list\s+of|page|effectiv|highlights|record|revision|rev\b|temporary"
    r"|continued|cont'd|section|subject|introduction|tab\b)",
    re.IGNORECASE,
)
_COMMON_WORDS = frozenset({"syst", "airc", "airp", "gene"})


def is_own_chapter(text: str, start: int, end: int, chapter: str) -> bool:
    """Whether the words "Chapter NN" at text[start:end] name a chapter of some book and not of ATA Spec 100.

    They do where the words beside them name the other book, or where they head a page and the title that
    follows shares no word with the chapter's title in ATA Spec 100 or the JASC table.
    """
    if _OF_ANOTHER_BOOK.search(text[max(0, start - 60) : start]) or _OF_ANOTHER_BOOK_AFTER.match(text, end):
        return True
    heads_line = not text[text.rfind("\n", 0, start) + 1 : start].strip()
    title = _TITLE_AFTER.match(text, end) if heads_line else None
    if title is None or _NOT_A_TITLE.match(title["title"]):
        return False
    return not _stems(title["title"]) & _known_stems(chapter)


def _stems(title: str) -> set[str]:
    return {word[:4].lower() for word in re.findall(r"[A-Za-z]{4,}", title)} - _COMMON_WORDS


def _known_stems(chapter: str) -> set[str]:
    row = chapter_rows().get(chapter)
    titles = [row.title] if row else []
    titles += [code.title for code in jasc_rows().values() if code.code.startswith(chapter)]
    return _stems(" ".join(titles))
