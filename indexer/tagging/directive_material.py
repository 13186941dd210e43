"""Incorporated material in other forms than a sentence: rows of a table, and papers without a number.

"(i) Tern Aircraft T-4 Airworthiness Limitations Section, Revision 06, dated February 27, 2028."
"""

import re
from collections.abc import Iterator
from dataclasses import replace

from indexer.tagging.cited_documents import CitedDocument
from indexer.tagging.flow import Flow, one_line
from indexer.tagging.tags import Claim, ClaimKind
from indexer.trade.dates import find_dates

_ITEM = re.compile(
    r"^\s*\((?:[ivx]+|[A-Z]|\d+)\)\s*(?P<name>[A-Z][^;]{6,240}?)"
    r"(?:,\s*(?:Revision|Rev\.|Issue)\s*(?:No\.\s*)?(?P<revision>[\w.-]{1,8}))?,?\s+dated\s+"
    r"(?P<date>[A-Z0-9][^;]{6,30})"
)
_NO_ITEM = re.compile(
    r"\bDirector of the Federal Register\b|\bYou (?:must|may)\b|\bcontact\b|\bapproved for IBR\b"
)


# "Service Bulletin 28-4123 | 1 | October 25, 2006" as the rows of a table come: blanks or leaders between.
_ROW_REST = re.compile(
    r"[\s.]*(?:(?P<revision>Original|\d{1,3}[A-Z]?|[A-Z]{1,2})[\s.]+)?(?P<date>[A-Z][a-z]{2,8}\.?\s+\d{1,2},\s+\d{4})"
)


def row_of_table(cited: CitedDocument, rest: str) -> CitedDocument:
    """A document of a table of material, with the revision and day that the row gives it in `rest`."""
    row = _ROW_REST.match(rest)
    dates = find_dates(row["date"]) if row else []
    if cited.date or cited.revision or not dates:
        return cited
    printed = row["revision"] or ""
    revision = "original" if printed.lower() == "original" else printed
    return replace(cited, revision=revision, date=dates[0].date)


def unnumbered_material(flow: Flow, start: int, end: int) -> Iterator[Claim]:
    """The document that the list's line flow.text[start:end] names by its title: that is its `document`."""
    words = flow.plain[start:end]
    found = _ITEM.match(words)
    if not found or _NO_ITEM.search(words):
        return
    dates = find_dates(found["date"])
    if not dates or dates[0].start != 0:
        return
    evidence = flow.evidence(start, end, "directive list of incorporated material")
    yield Claim(
        ClaimKind.INCORPORATES,
        one_line(found["name"]),
        evidence,
        revision=found["revision"] or "",
        date=dates[0].date,
    )
