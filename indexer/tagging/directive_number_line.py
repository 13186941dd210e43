"""The line that opens a directive, and the number and amendment it gives itself."""

import re

from indexer.tagging.flow import Flow, one_line
from indexer.trade.evidence import Tag

_NUMBER = r"(?P<number>(?:19|20)?\d{2}-\s?\d{2}-\s?\d{2}(?:[\s-]?R\d{1,2})?)(?![\d-])"
_NUMBER_LINE = re.compile(
    rf"(?<![\d-]){_NUMBER}\s+(?P<maker>[A-Z][^:]{{1,250}}?):\s*"
    r"(?:\([^()]{1,90}\)\s*)?(?:(?:Amendment|Amdt\.?)\s+(?:No\.\s*)?(?P<amendment>39-\s?\d{1,6}|\d{2,4}"
    r"(?=,?\s*Part\s+(?:39|507)))"
    r"(?:,?\s+as\s+(?:amended|revised)\s+by\s+Amendments?\s+(?:39-\d+,?\s*(?:and\s+)?)*(?P<amended>39-\d+))?"
    r"|(?:Docket|Project|Product|Directorate)\b|(?=Appli(?:es|cability)\b))"
)
# Alone on its line: in running text such words speak of another directive.
LABELLED_NUMBER = re.compile(
    rf"^[^\w\n]*(?:A\.?D\.?\s*(?:#|No\.?|Number)\s*[:.]?\s*{_NUMBER}|"
    rf"(?:EMERGENCY\s+)?AIRWORTHINESS DIRECTIVE\s+"
    rf"(?:No\.?\s+)?{_NUMBER.replace('number', 'titled')})(?=(?-i:[^a-z\n]*)$)",
    re.IGNORECASE | re.MULTILINE,
)
# Another authority's number, in its label's place: it binds nothing here, and others name it by this number.
_FOREIGN_NUMBER = re.compile(
    r"^[^\w\n]*(?:EASA\s+)?A\.?D\.?\s*(?:#|No\.?|Number)\s*[:.]?\s*"
    r"(?P<number>20\d{2}-\d{4}(?:-E)?(?:\s?R\d{1,2})?(?:-E)?|CF-20\d{2}-\d{1,3}(?:\s?R\d{1,2})?)"
    r"(?=(?-i:[^a-z\n]*)$)",
    re.IGNORECASE | re.MULTILINE,
)
_BRACKETED_NUMBER = re.compile(rf"\[Docket\b[^\[\]]{{0,300}};\s*AD\s+{_NUMBER}\s*\]")
_AMENDMENT = re.compile(r"\bAmendment\s+(?:No\.?\s*)?(39-\s?\d{4,6})(?!\d)")
_LINE_START = re.compile(r"\n(?:[^\w\n]{0,4}2\.[ \n]*|AD )?$")


def number_line(flow: Flow, start: int, end: int, lettered: bool) -> re.Match | None:
    """The line that opens a directive: "2018-03-08 Airbus: Amendment 39-19181". It begins a printed line.

    Before lettered paragraphs the last one counts. Without them several lines are a list of directives.
    """
    found = [
        match
        for match in _NUMBER_LINE.finditer(flow.plain, start, end)
        if _LINE_START.search(flow.plain_lines, max(start, match.start() - 12), match.start())
        or match.start() == start
    ]
    if lettered:
        return found[-1] if found else None
    return found[0] if len({match["number"] for match in found}) == 1 else None


def own_number(flow: Flow, start: int, end: int, line: re.Match | None) -> Tag[str] | None:
    """The number by its line, its label or the register's heading; `others` holds those that differ."""
    readings = []
    if line:
        readings.append((line.span("number"), "directive number line"))
    for found in LABELLED_NUMBER.finditer(flow.plain_lines, start, end):
        name = "number" if found["number"] else "titled"
        readings.append((found.span(name), "directive number label"))
    heading = _BRACKETED_NUMBER.search(flow.plain, start, end)
    if heading:
        readings.append((heading.span("number"), "directive number in the register's heading"))
    foreign = _FOREIGN_NUMBER.search(flow.plain_lines, start, end)
    if foreign and not readings:
        readings.append((foreign.span("number"), "directive number label of another authority"))
    tags = [printed(flow, span, rule, compact=True) for span, rule in readings]
    if not tags:
        return None
    others = tuple(tag for tag in tags[1:] if tag.value != tags[0].value)
    return Tag(tags[0].value, tags[0].evidence, others)


def own_amendment(flow: Flow, start: int, end: int, line: re.Match | None) -> Tag[str] | None:
    """The amendment of its line, the last where it was amended; else the only one that names no other's."""
    if line and line["amendment"]:
        last = "amended" if line["amended"] else "amendment"
        return printed(flow, line.span(last), "directive number line", compact=True)
    found = list(_AMENDMENT.finditer(flow.plain, start, end))
    # Without a number line the preamble's amendments are those of other directives.
    if len(found) == 1 and not re.search(
        r"\b(?:AD|superse|replac)", flow.plain[found[0].start() - 60 : found[0].start()]
    ):
        return printed(flow, found[0].span(1), "directive amendment label", compact=True)
    return None


def printed(flow: Flow, span: tuple[int, int], rule: str, compact: bool = False) -> Tag[str]:
    """The printed words as a value with plain dashes; compact drops blanks that a line end left in a
    number."""
    value = one_line(flow.plain[slice(*span)])
    return Tag(value.replace("- ", "-") if compact else value, flow.evidence(*span, rule))
