"""The effectivity that a page prints in head or foot or as its first or last line: "EFFECTIVITY: ALL".

In the box of a foot the words stand under the label, beside the number, page and date of another column.
Numbers without the word serial may be line or customer numbers: applicability.py says so when it reads them.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from indexer.reading.page import Line, Page, TextState
from indexer.tagging.flow import one_line, plain
from indexer.tagging.page_edges import page_end
from indexer.tagging.printed_evidence import printed_evidence
from indexer.tagging.zone_columns import Segment, zone_columns
from indexer.trade.chapters import find_numbers
from indexer.trade.dates import find_dates
from indexer.trade.evidence import Evidence, Tag
from indexer.trade.serial_words import begins_with_serials

_LABEL = re.compile(r"\(?\s*(?:EFFECTIVITY|EFFECTIVE ON|EFFECTIVITIES|Effectivity)\b", re.ASCII)
_PAGE = re.compile(r"^\s*(?:page|pg\.?|p\.)\s", re.IGNORECASE)
_FIRST_LINES = 2
_LAST_LINES = 3


def page_effectivity(page: Page) -> Tag[str] | None:
    """The words with their label, as printed; None where the page prints none. Of two that differ, both are
    given, one after the other."""
    if page.state is not TextState.TEXT:
        return None
    found = list(_stated(page))
    words = list(dict.fromkeys(text for text, _ in found))
    if not words:
        return None
    first = found[0][1]
    return Tag("\n".join(words), replace(first, quote=one_line(" ".join(words))))


def _stated(page: Page) -> Iterator[tuple[str, Evidence]]:
    for zone, lines in (("foot", page.foot or page_end(page)), ("head", page.head)):
        for column in zone_columns(lines):
            taken = _in_column(column)
            if taken:
                yield _words(taken), _evidence(page, taken, f"effectivity in the {zone}")
    for line in _outer_lines(page.body):
        text = plain(line.text)
        if _LABEL.match(text) or (begins_with_serials(text) and line in page.body[:_FIRST_LINES]):
            rule = "effectivity at the page's edge"
            yield one_line(text), printed_evidence(page, line.box, rule, one_line(text))


def _in_column(column: Sequence[Segment]) -> list[Segment]:
    """The label and what stands under it in its column, but for the page's own number and date."""
    start = next(
        (
            at
            for at, segment in enumerate(column)
            if _LABEL.match(segment.text) or begins_with_serials(segment.text)
        ),
        None,
    )
    if start is None:
        return []
    first, *others = column[start:]
    if begins_with_serials(first.text) and not _LABEL.match(first.text):
        return [first]
    told = _LABEL.sub("", first.text).strip(" :")
    under = [segment for segment in _close_under(first, others) if not _is_of_page(segment.text)]
    return [first] if told and not _runs_on(first.text) else [first, *under]


def _close_under(first: Segment, others: Sequence[Segment]) -> Iterator[Segment]:
    """The lines of one box: each close under the one before. A running line stands further off."""
    last = first
    for segment in others:
        if segment.box.top - last.box.bottom > segment.box.height:
            return
        yield segment
        last = segment


def _runs_on(text: str) -> bool:
    return text.rstrip().endswith((",", "&", "and", "AND", "thru", "THRU", "-"))


def _is_of_page(text: str) -> bool:
    dates = find_dates(text)
    whole_date = bool(dates) and dates[0].end - dates[0].start >= len(text.strip()) - 1
    numbers = find_numbers(text)
    whole_number = bool(numbers) and len(numbers[0].text) >= len(text.strip()) - 1
    return bool(_PAGE.match(text)) or whole_date or whole_number


def _words(taken: Sequence[Segment]) -> str:
    return one_line(" ".join(segment.text for segment in taken))


def _evidence(page: Page, taken: Sequence[Segment], rule: str) -> Evidence:
    box = taken[0].box
    for segment in taken[1:]:
        box = box.union(segment.box)
    return printed_evidence(page, box, rule, _words(taken))


def _outer_lines(body: Sequence[Line]) -> list[Line]:
    if len(body) <= _FIRST_LINES + _LAST_LINES:
        return list(body)
    return [*body[:_FIRST_LINES], *body[-_LAST_LINES:]]
