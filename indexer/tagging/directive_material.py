"""Incorporated material without a number of its own: a line of the list, with a revision or a date.

"(i) Tern Aircraft T-4 Airworthiness Limitations Section, Revision 06, dated February 27, 2028."
"""

import re
from collections.abc import Iterator

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
