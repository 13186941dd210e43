"""Revision and date of a publication, as its title block and running lines print them.

A page older than the manual's revision is normal in a partial revision, so a foot's older date is
no disagreement; a newer one is kept beside the title page's.
"""

import datetime
import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from indexer.reading.page import Page, TextState
from indexer.tagging.flow import PrintedLine, one_line, plain
from indexer.tagging.page_edges import page_end
from indexer.tagging.title_block import TitleBlock
from indexer.trade.dates import find_dates
from indexer.trade.evidence import Answer, Tag
from indexer.trade.publication_types import PublicationType as Type
from indexer.trade.revisions import FoundRevision, find_revisions, later_revision, same_revision

_OF_ANOTHER = re.compile(
    r"^\W*(?:ref(?:erences?|er)?\b|see\b|cancel\w*|cancell\w*|this\b)|\bsupersed\w*|\breplac\w*"
    r"|\bremove pages\b|\bto the\b"
    r"|\b(?:is|are|been) (?:FAA|approved)\b"
    r"|\bin accordance\b|\bapplicable\b|\bbased on\b|\bmanual,? (?:at )?rev",
    re.IGNORECASE,
)
_DATE_LABEL = re.compile(
    r"\b(?:dated?|issued?|issue date|revised|revision date|date of (?:issue|revision)|effective"
    r"|published)\b[^A-Za-z0-9]*$",
    re.IGNORECASE,
)
_US_NUMERIC = re.compile(r"(?<![\w/])(\d{1,2})/(\d{1,2})/(\d{2}|\d{4})(?![\w/])")
_DIRECTIVE_SHAPE = re.compile(
    r"(?<!\d)\d{4}-\d{2}-\d{2}(?!\d)"
)  # without a label more often a directive than a date
_FEDERAL = (Type.ADVISORY_CIRCULAR, Type.ORDER_OR_HANDBOOK)
_SHARE_OF_PAGES = 0.5


@dataclass(frozen=True, slots=True)
class _Mark:
    mark: str
    date: datetime.date | None
    line: PrintedLine


def revision_and_date(
    kind: Type | None, pages: Sequence[Page], block: TitleBlock
) -> tuple[Tag[str] | None, Tag[datetime.date] | None]:
    """The revision mark without its word ("3", "B", "original") and its date; each None when not printed."""
    marks = list(_marks(kind, block.lines))
    newest = _newest(marks)
    running = _running_mark(kind, pages)
    revision: Tag[str] | None = None
    if newest:
        revision = Tag(newest.mark, newest.line.evidence("revision in title block"))
        if running and same_revision(newest.mark, running.mark) is not Answer.YES:
            other = Tag(running.mark, running.line.evidence("revision in running head or foot"))
            revision = Tag(revision.value, revision.evidence, (other,))
    elif running:
        revision = Tag(running.mark, running.line.evidence("revision in running head or foot"))
    return revision, _date(kind, block, newest, pages)


def read_date(kind: Type | None, text: str) -> datetime.date | None:
    """The first date in the text that can be read one way; month first where a federal paper prints
    figures."""
    found = find_dates(text)
    if found and found[0].date is None and kind in _FEDERAL:
        figures = _US_NUMERIC.fullmatch(plain(found[0].text))
        if figures:
            month, day, year = (int(part) for part in figures.groups())
            return datetime.date(year + (0 if year > 99 else 2000 if year < 40 else 1900), month, day)
    return next((each.date for each in found if each.date), None)


def _marks(kind: Type | None, lines: Sequence[PrintedLine]) -> Iterator[_Mark]:
    for place, line in enumerate(lines):
        text = plain(one_line(line.text))
        if _OF_ANOTHER.search(text) or (
            kind is Type.TEMPORARY_REVISION and re.search(r"manual", text, re.IGNORECASE)
        ):
            continue
        for found in _editions(text) if kind is Type.ORDER_OR_HANDBOOK else find_revisions(text):
            after = text[found.end :]
            date = read_date(kind, after) if find_dates(after) else None
            if date is None and not after.strip(" .:-") and place + 1 < len(lines):
                below = plain(one_line(lines[place + 1].text))
                date = (
                    read_date(kind, below) if len(below.split()) <= 6 and not find_revisions(below) else None
                )
            if date is None and len(find_revisions(text)) == 1:
                date = read_date(kind, text[: found.start])
            yield _Mark(found.mark, date, line)


def _editions(text: str) -> list[FoundRevision]:
    """A handbook's editions count as its revisions."""
    found = [
        FoundRevision(match.group(1), match.start(), match.end(), match[0])
        for match in re.finditer(r"\b(?:Edition|EDITION)\s+(\d{1,3})(?!\w)", text)
    ]
    return found or find_revisions(text)


def _newest(marks: list[_Mark]) -> _Mark | None:
    """Of a revision history the last: by dates where all have one, else by the marks, else the first
    printed."""
    if not marks:
        return None
    dated = [mark for mark in marks if mark.date]
    if len(dated) == len(marks):
        return max(marks, key=lambda mark: mark.date or datetime.date.min)
    best = marks[0]
    for mark in marks[1:]:
        same = same_revision(mark.mark, best.mark) is Answer.YES
        dated = mark.date is not None and best.date is None
        if later_revision(mark.mark, best.mark) is Answer.YES or (same and dated):
            best = mark
    return best


def _running_mark(kind: Type | None, pages: Sequence[Page]) -> _Mark | None:
    with_text = [page for page in pages if page.state is TextState.TEXT]
    count: Counter[str] = Counter()
    first: dict[str, _Mark] = {}
    for page in with_text:
        lines = [PrintedLine(page.pdf_page, line, page.origin) for line in (*page.head, *page.foot)]
        marks = {mark.mark: mark for mark in _marks(kind, lines)}
        for name, mark in marks.items():
            first.setdefault(name, mark)
        count.update(marks.keys())
    for name, times in count.most_common(1):
        if times >= 2 and times >= _SHARE_OF_PAGES * len(with_text):
            return first[name]
    return None


def _date(
    kind: Type | None, block: TitleBlock, newest: _Mark | None, pages: Sequence[Page]
) -> Tag[datetime.date] | None:
    chosen: Tag[datetime.date] | None = None
    if newest and newest.date:
        chosen = Tag(newest.date, newest.line.evidence("date beside revision in title block"))
    elif labelled := _labelled_date(kind, block.lines):
        chosen = labelled
    else:
        dates = [(date, line) for line in block.lines if (date := _own_date(kind, line))]
        if len({date for date, _ in dates}) == 1:
            chosen = Tag(dates[0][0], dates[0][1].evidence("only date in title block"))
    running = _newest_running_date(kind, pages)
    if chosen is None:
        return running if running and _on_most_pages(kind, running, pages) else None
    if running and running.value > chosen.value:
        return Tag(chosen.value, chosen.evidence, (running,))
    return chosen


def _own_date(kind: Type | None, line: PrintedLine) -> datetime.date | None:
    text = plain(one_line(line.text))
    if _OF_ANOTHER.search(text) or _DIRECTIVE_SHAPE.search(text) or len(text.split()) > 12:
        return None
    return read_date(kind, text)


def _labelled_date(kind: Type | None, lines: Sequence[PrintedLine]) -> Tag[datetime.date] | None:
    """The latest of the dates with a label: "Issued March 1, 1954", "Revised November 1, 1958"."""
    newest: Tag[datetime.date] | None = None
    for line in lines:
        text = plain(one_line(line.text))
        if _OF_ANOTHER.search(text):
            continue
        for found in find_dates(text):
            date = (
                read_date(kind, text[found.start : found.end])
                if _DATE_LABEL.search(text[: found.start])
                else None
            )
            if date and (newest is None or date > newest.value):
                newest = Tag(date, line.evidence("labelled date in title block"))
    return newest


def _newest_running_date(kind: Type | None, pages: Sequence[Page]) -> Tag[datetime.date] | None:
    newest: Tag[datetime.date] | None = None
    for page in pages:
        for line in (*page.head, *(page.foot or page_end(page))):
            date = read_date(kind, plain(one_line(line.text)))
            if date and (newest is None or date > newest.value):
                printed = PrintedLine(page.pdf_page, line, page.origin)
                newest = Tag(date, printed.evidence("date in running head or foot"))
    return newest


def _on_most_pages(kind: Type | None, tag: Tag[datetime.date], pages: Sequence[Page]) -> bool:
    with_text = [page for page in pages if page.state is TextState.TEXT]
    having = [
        page
        for page in with_text
        if any(
            read_date(kind, plain(one_line(line.text))) == tag.value
            for line in (*page.head, *(page.foot or page_end(page)))
        )
    ]
    return len(having) >= min(2, len(with_text)) and len(having) >= _SHARE_OF_PAGES * len(with_text)
