"""Passages that only list what stands elsewhere: contents, indexes, lists of figures. Pure.

They name a great many things and say nothing of any, so a search puts them after the pages they point to.
Common practice, no source: a line of such a list ends in a page number, mostly after a row of dots.
"""

import re

_LEADER = re.compile(r"(?:\.{3,}|(?:\. ){3,}|\u2026)\s*[\w.-]{0,12}$")
_PAGE_AT_END = re.compile(r"\s(?:[A-Z]?\d{1,4}|\d{1,2}-\d{1,3}|[ivxl]+)$")
_CALLED = re.compile(
    r"^(?:table of contents|contents|(?:alphabetical )?index"
    r"|list of (?:figures|illustrations|tables|sections))\b",
    re.IGNORECASE,
)
_FEWEST = 3  # lines with dots; without dots, so many more
_FEWEST_WITHOUT_DOTS = 5


def is_listing(heading: str, text: str) -> bool:
    """True when at least half of the lines end in dots and a place, or, under a heading that says so, in a
    page number.

    heading   as indexed, one part of the heading path a line
    """
    lines = [line.strip() for line in text.splitlines() if line.strip()]
    dotted = sum(bool(_LEADER.search(line)) for line in lines)
    if dotted >= _FEWEST and dotted * 2 >= len(lines):
        return True
    if not any(_CALLED.match(part) for part in heading.splitlines()):
        return False
    paged = sum(bool(_PAGE_AT_END.search(line)) for line in lines)
    return paged >= _FEWEST_WITHOUT_DOTS and paged * 2 >= len(lines)
