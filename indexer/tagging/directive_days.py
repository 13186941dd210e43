"""The days a directive prints of itself: when it takes effect, when it was issued, when it was published."""

import datetime
import re
from collections.abc import Iterable, Iterator

from indexer.tagging.directive_layout import Paragraph, paragraph_named
from indexer.tagging.flow import Flow
from indexer.trade.dates import find_dates
from indexer.trade.evidence import Tag

_OWN_WORDS = re.compile(
    r"\bThis\s+(?:amendment|directive|airworthiness\s+directive|AD|rule)\b\s*(?:\(AD\)\s*)?(?:[(,]?\s*"
    r"(?:Amendment\s+)?39-\d+[^()]{0,40}\)?,?\s*)?"
    r"(?:(?:becomes|is|shall\s+(?:be|become))\s+)?effective\s+(?:on\s+|as\s+of\s+)?",
    re.IGNORECASE,
)
_DATES_LABEL = re.compile(
    r"\b(?:DATES?|EFFECTIVE\s+DATES?|Effective\s+Dates?)\s*:\s*"
    r"(?:This\s+(?:AD|airworthiness\s+directive|rule|amendment|final\s+rule)\s+(?:\(AD\)\s+)?(?:is"
    r"|becomes)\s+)?(?:effective\s+)?(?:on\s+)?",
    re.IGNORECASE,
)
_PUBLISHED = re.compile(
    r"\bThis\s+(?:notice|document|proposed\s+AD|NPRM)\s+(?:was|is)\s+published\s+(?:on\s+)?"
)
_ISSUED = re.compile(r"\bIssued\s+(?:in\s+[A-Z][^.]{3,40}?,?\s+)?on\s+")
_EMERGENCY_DATE = re.compile(r"\bDATE:\s*")


def effective_date(
    flow: Flow, start: int, end: int, rule_start: int, paragraphs: tuple[Paragraph, ...], lettered: bool
) -> Tag[datetime.date] | None:
    """By the paragraph of that name; in the older forms by the rule's own last words, else by the DATES line.

    "Effective upon receipt" gives no day.
    """
    paragraph = paragraph_named(paragraphs, "effective date")
    if lettered and paragraph:
        return _of_paragraph(flow, paragraph)
    said = list(
        _after(flow, _OWN_WORDS.finditer(flow.plain, rule_start, end), "directive effective date words")
    )
    if said:
        return said[-1]
    labels = _DATES_LABEL.finditer(flow.plain, start, rule_start)
    return next(_after(flow, labels, "directive dates line"), None)


def issued_date(flow: Flow, start: int, end: int) -> Tag[datetime.date] | None:
    """The day below the signature, else that at the head of an emergency directive."""
    said = list(_after(flow, _ISSUED.finditer(flow.plain, start, end), "directive issued on"))
    if said:
        return said[-1]
    head = _EMERGENCY_DATE.finditer(flow.plain, start, min(end, start + 600))
    return next(_after(flow, head, "directive date line"), None)


def published_date(flow: Flow, start: int, end: int) -> Tag[datetime.date] | None:
    """The day on which a proposal says it was published."""
    return next(_after(flow, _PUBLISHED.finditer(flow.plain, start, end), "directive published on"), None)


def _of_paragraph(flow: Flow, paragraph: Paragraph) -> Tag[datetime.date] | None:
    text = flow.plain[paragraph.start : paragraph.end]
    for found in find_dates(text):
        if found.date and re.search(r"\beffective\b", text[: found.start], re.IGNORECASE):
            sentence = text.rfind(". ", 0, found.start) + 1
            evidence = flow.evidence(
                paragraph.start + sentence, paragraph.start + found.end, "directive effective date paragraph"
            )
            return Tag(found.date, evidence)
    return None


def _after(flow: Flow, labels: Iterable[re.Match], rule: str) -> Iterator[Tag[datetime.date]]:
    """The days that stand right after words."""
    for label in labels:
        dates = find_dates(flow.plain[label.end() : label.end() + 30])
        if dates and dates[0].start == 0 and dates[0].date:
            evidence = flow.evidence(label.start(), label.end() + dates[0].end, rule)
            yield Tag(dates[0].date, evidence)
