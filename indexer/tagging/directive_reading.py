"""What an airworthiness directive says of itself."""

import datetime
import re
from collections.abc import Sequence
from dataclasses import dataclass

from indexer.reading.page import Page
from indexer.tagging.directive_days import effective_date, issued_date, published_date
from indexer.tagging.directive_layout import (
    Paragraph,
    first_directive,
    has_register_title,
    lettered_paragraphs,
    paragraph_named,
)
from indexer.tagging.directive_old_form import old_paragraphs
from indexer.tagging.directive_replaced import replaced_directives
from indexer.tagging.flow import Flow, PrintedLine, body_flow, one_line
from indexer.tagging.tags import DirectiveFacts
from indexer.trade.chapters import ChapterNumber, find_numbers
from indexer.trade.dates import find_dates
from indexer.trade.evidence import Evidence, Tag

_NUMBER = r"(?P<number>(?:19|20)?\d{2}-\s?\d{2}-\s?\d{2}(?:[\s-]?R\d{1,2})?)(?![\d-])"
_NUMBER_LINE = re.compile(
    rf"(?<![\d-]){_NUMBER}\s+(?P<maker>[A-Z][^:]{{1,250}}?):\s*"
    r"(?:\([^()]{1,90}\)\s*)?(?:(?:Amendment|Amdt\.?)\s+(?:No\.\s*)?(?P<amendment>39-\s?\d{1,6}|\d{2,4}"
    r"(?=,?\s*Part\s+(?:39|507)))"
    r"(?:,?\s+as\s+(?:amended|revised)\s+by\s+Amendments?\s+(?:39-\d+,?\s*(?:and\s+)?)*(?P<amended>39-\d+))?"
    r"|(?:Docket|Project|Product|Directorate)\b|(?=Appli(?:es|cability)\b))"
)
_PROPOSAL_LINE = re.compile(
    r"(?:airworthiness directive(?: \(AD\))?|new AD|\b2\."
    r"|The Proposed Amendment):?\s+(?P<maker>[A-Z][^:]{1,250}?):\s+Docket No"
)
# Alone on its line: in running text such words speak of another directive.
_LABELLED_NUMBER = re.compile(
    rf"^[^\w\n]*(?:A\.?D\.?\s*(?:#|No\.?|Number)\s*[:.]?\s*{_NUMBER}|"
    rf"(?:EMERGENCY\s+)?AIRWORTHINESS DIRECTIVE\s+"
    rf"(?:No\.?\s+)?{_NUMBER.replace('number', 'titled')})(?=(?-i:[^a-z\n]*)$)",
    re.IGNORECASE | re.MULTILINE,
)
_BRACKETED_NUMBER = re.compile(rf"\[Docket\b[^\[\]]{{0,300}};\s*AD\s+{_NUMBER}\s*\]")
_AMENDMENT = re.compile(r"\bAmendment\s+(?:No\.?\s*)?(39-\s?\d{4,6})(?!\d)")
_ACTION_LINE = re.compile(r"\bACTION:\s*(?P<action>[A-Z][^.:]{3,90}\.)")
_PROPOSAL = re.compile(
    r"\bACTION:\s*(?:Supplemental\s+)?(?:Notice of proposed rulemaking|Proposed rule)"
    r"|The Proposed Amendment|proposes to amend 14 CFR part 39|\(a\)\s+Comments Due Date",
    re.IGNORECASE,
)
# Taken back, put off or corrected: a rule whose effective date is delayed is not known to bind, and a
# correction may print only the words that change.
_TAKEN_BACK = re.compile(
    r"\bACTION:\s*Final rule;\s*(?:(?:partial|administrative|further|temporary)\s+)?"
    r"(?:removal|withdrawal|rescission|delay|stay|suspension|postponement|correct)",
    re.IGNORECASE,
)
_FINAL = re.compile(r"\bACTION:\s*Final rule[^.]{0,60}\.")
_EMERGENCY = re.compile(r"\bEmergency Airworthiness Directive\b", re.IGNORECASE)
_CORRECTION = re.compile(r"\bACTION:\s*(?:Final rule|Rule)?;?\s*(?:technical\s+)?correct", re.IGNORECASE)
_PUTS_OFF = re.compile(
    r"\bACTION:\s*Final rule;\s*(?:(?:partial|administrative|further|temporary)\s+)?"
    r"(?:delay|stay|suspension|postponement)",
    re.IGNORECASE,
)
_RESCINDS = re.compile(
    r"\bACTION:\s*Final rule;\s*(?:removal|withdrawal|rescission|rescinding)", re.IGNORECASE
)
_ON_RECEIPT = re.compile(r"[^.]*\beffective\s+(?:immediately\s+)?(?:up)?on\s+receipt\b[^.]*", re.IGNORECASE)
# The names of a directive, and the opening of one of the old form.
_NAME = re.compile(
    r"\bairworthiness\s+directives?\b|\bAmendment\s+39\W"
    r"|^\d{2}.\d{2}.\d{2}(?:.?R\d)?\s+[A-Z][^:]{1,120}:\s*(?:\(|Appli|Am)",
    re.IGNORECASE,
)
_NAME_PAGES = 3
_LINE_START = re.compile(r"\n(?:[^\w\n]{0,4}2\.[ \n]*|AD )?$")
_ADOPTING = re.compile(
    r"\b(?:Adoption of the Amendment|The Amendment)\b"
    r"|\bAccordingly, (?:under|pursuant to) the authority delegated"
)
_ADOPTION_LENGTH = 1500
_AUTHORITY = re.compile(r"Federal Aviation Administration|\bFAA\b|14 CFR")


@dataclass(frozen=True, slots=True)
class DirectiveReading:
    """A directive taken apart. Offsets are places in `flow`.

    maker       as printed before the amendment number, None when there is no such line
    action      the register's ACTION line: "Final rule; request for comments."
    proposal    the printed words that make it a proposal, None when there are none
    adopted     the printed words that make it a final rule of this authority; None for all else
    rule_start  where the rule itself begins, after the preamble
    lettered    its paragraphs are lettered and headed; False for the older forms, told by their words
    """

    facts: DirectiveFacts
    flow: Flow
    start: int
    end: int
    rule_start: int
    paragraphs: tuple[Paragraph, ...]
    lettered: bool
    maker: Tag[str] | None
    action: Tag[str] | None
    proposal: Evidence | None
    adopted: Evidence | None


def may_be_directive(pages: Sequence[Page]) -> bool:
    """Whether the first pages hold the words that every directive and proposal has; a cheap look before
    reading."""
    return any(_NAME.search(line.text) for page in pages[:_NAME_PAGES] for line in (*page.head, *page.body))


def read_directive_pages(pages: Sequence[Page]) -> DirectiveReading:
    """The first directive printed on these pages. What is not found is None or empty, never guessed."""
    return read_directive_flow(body_flow(pages))


def read_directive_flow(flow: Flow) -> DirectiveReading:
    """The same from a flow of lines."""
    start, end = first_directive(flow)
    paragraphs = lettered_paragraphs(flow, start, end)
    lettered = bool(paragraphs)
    opening = paragraphs[0].opening if lettered else end
    line = _number_line(flow, start, opening, lettered)
    if line and not lettered:
        paragraphs = old_paragraphs(flow, line.end(), end)
    # A rule of another part of the regulations has an ACTION line too: without these signs it is none.
    is_directive = bool(line or paragraphs or has_register_title(flow))
    proposed = _PROPOSAL.search(flow.plain, start, end) if is_directive else None
    adopted = None if proposed else _adopted(flow, start, end, line, bool(paragraphs) and not lettered)
    named = line or _PROPOSAL_LINE.search(flow.plain, start, opening)
    number = None if proposed else _number(flow, start, opening, line)
    rule_start = _rule_start(flow, start, line.start() if line else opening)
    own = number.value if number else ""
    replaced = replaced_directives(flow, start, end, rule_start, paragraphs, lettered, own)
    rescinds = not proposed and bool(_RESCINDS.search(flow.plain, start, end))
    effective = None if proposed else effective_date(flow, start, end, rule_start, paragraphs, lettered)
    facts = DirectiveFacts(
        number=number,
        amendment=None if proposed else _amendment(flow, start, opening, line),
        effective=effective,
        subjects=_subjects(flow, paragraphs) if lettered else (),
        applicability=_applicability(flow, paragraphs),
        is_rule=adopted is not None,
        on_receipt=None if proposed or effective else _on_receipt(flow, start, end),
        issued=issued_date(flow, start, end),
        emergency=not proposed and _is_emergency(flow, start, number),
        proposal=proposed is not None,
        correction=is_directive and bool(_CORRECTION.search(flow.plain, start, end)),
        put_off=is_directive and bool(_PUTS_OFF.search(flow.plain, start, end)),
        replaces=() if rescinds else replaced,
        withdraws=replaced if rescinds else (),
        alternative=_alternative(flow, paragraphs),
    )
    maker = _tag(flow, named.span("maker"), "directive number line") if named else None
    action = _ACTION_LINE.search(flow.plain, start, end) if is_directive else None
    return DirectiveReading(
        facts=facts,
        flow=flow,
        start=start,
        end=end,
        rule_start=rule_start,
        paragraphs=paragraphs,
        lettered=lettered,
        maker=maker,
        action=_tag(flow, action.span("action"), "register action line") if action else None,
        proposal=flow.evidence(*proposed.span(), "words of a proposed directive") if proposed else None,
        adopted=adopted,
    )


def _number_line(flow: Flow, start: int, end: int, lettered: bool) -> re.Match | None:
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


def _rule_start(flow: Flow, start: int, number_line: int) -> int:
    """Where the rule begins: at the words that adopt it, just before its number line; else at that line."""
    adopting = list(_ADOPTING.finditer(flow.plain, max(start, number_line - _ADOPTION_LENGTH), number_line))
    return adopting[-1].start() if adopting else number_line


def publication_date(reading: DirectiveReading, pages: Sequence[Page]) -> Tag[datetime.date] | None:
    """The day a proposal was published: by its own words, by the register's running head, else the day it
    was issued."""
    said = published_date(reading.flow, reading.start, reading.end)
    if said:
        return said
    for page in pages:
        for line in page.head:
            dates = find_dates(line.text) if "Federal Register" in line.text else []
            if dates and dates[0].date:
                printed = PrintedLine(page.pdf_page, line, page.origin)
                return Tag(dates[0].date, printed.evidence("date in the register's running head"))
    return reading.facts.issued


def _adopted(flow: Flow, start: int, end: int, line: re.Match | None, old_form: bool) -> Evidence | None:
    if _TAKEN_BACK.search(flow.plain, start, end) or _CORRECTION.search(flow.plain, start, end):
        return None
    if line and old_form:
        # The list of directives prints each from its number line on, without the authority's name.
        return flow.evidence(line.start(), line.end(), "directive number line of the older form")
    if not _AUTHORITY.search(flow.plain, start, end):
        return None
    if line and line["amendment"]:
        return flow.evidence(line.start(), line.end(), "directive amendment line")
    final = _FINAL.search(flow.plain, start, end)
    if final and line:
        return flow.evidence(final.start(), final.end(), "register action line")
    emergency = _EMERGENCY.search(flow.plain, start, end)
    if emergency and (line or _LABELLED_NUMBER.search(flow.plain_lines, start, end)):
        return flow.evidence(emergency.start(), emergency.end(), "emergency directive title")
    return None


def _number(flow: Flow, start: int, end: int, line: re.Match | None) -> Tag[str] | None:
    readings = []
    if line:
        readings.append((line.span("number"), "directive number line"))
    for found in _LABELLED_NUMBER.finditer(flow.plain_lines, start, end):
        name = "number" if found["number"] else "titled"
        readings.append((found.span(name), "directive number label"))
    heading = _BRACKETED_NUMBER.search(flow.plain, start, end)
    if heading:
        readings.append((heading.span("number"), "directive number in the register's heading"))
    tags = [_tag(flow, span, rule, compact=True) for span, rule in readings]
    if not tags:
        return None
    others = tuple(tag for tag in tags[1:] if tag.value != tags[0].value)
    return Tag(tags[0].value, tags[0].evidence, others)


def _amendment(flow: Flow, start: int, end: int, line: re.Match | None) -> Tag[str] | None:
    if line and line["amendment"]:
        last = "amended" if line["amended"] else "amendment"
        return _tag(flow, line.span(last), "directive number line", compact=True)
    found = list(_AMENDMENT.finditer(flow.plain, start, end))
    # Without a number line the preamble's amendments are those of other directives.
    if len(found) == 1 and not re.search(
        r"\b(?:AD|superse|replac)", flow.plain[found[0].start() - 60 : found[0].start()]
    ):
        return _tag(flow, found[0].span(1), "directive amendment label", compact=True)
    return None


def _on_receipt(flow: Flow, start: int, end: int) -> Tag[str] | None:
    found = _ON_RECEIPT.search(flow.plain, start, end)
    return _tag(flow, found.span(), "directive effective upon receipt") if found else None


def _is_emergency(flow: Flow, start: int, number: Tag[str] | None) -> bool:
    """By its series, of which the last group is 51 or more, or by its title."""
    last = re.search(r"-(\d{2})(?:[\s-]?R\d+)?$", number.value) if number else None
    titled = _EMERGENCY.search(flow.plain, start, start + 400)
    return bool(last and int(last[1]) >= 51 or titled)


def _alternative(flow: Flow, paragraphs: tuple[Paragraph, ...]) -> Tag[str] | None:
    """The paragraph that says who may approve another method, where it stands by itself or among others."""
    for each in paragraphs:
        heading = each.heading.casefold()
        if heading.startswith(
            ("alternative", "other faa ad prov", "additional ad prov", "additional faa ad prov")
        ):
            evidence = flow.evidence(each.start, each.end, "directive alternative methods paragraph")
            return Tag(evidence.quote, evidence) if evidence.quote else None
    return None


def _subjects(flow: Flow, paragraphs: tuple[Paragraph, ...]) -> tuple[Tag[ChapterNumber], ...]:
    """The ATA or JASC codes of the Subject paragraph, in printed order."""
    paragraph = paragraph_named(paragraphs, "subject")
    if not paragraph:
        return ()
    text = flow.plain[paragraph.start : paragraph.end]
    evidence = flow.evidence(paragraph.start, paragraph.end, "directive subject paragraph")
    numbers = [
        found.number for found in find_numbers(text) if found.form in ("ata code words", "jasc code words")
    ]
    return tuple(Tag(number, evidence) for number in dict.fromkeys(numbers))


def _applicability(flow: Flow, paragraphs: tuple[Paragraph, ...]) -> Tag[str] | None:
    paragraph = paragraph_named(paragraphs, "applicability")
    if not paragraph:
        return None
    evidence = flow.evidence(paragraph.start, paragraph.end, "directive applicability paragraph")
    return Tag(evidence.quote, evidence) if evidence.quote else None


def _tag(flow: Flow, span: tuple[int, int], rule: str, compact: bool = False) -> Tag[str]:
    """The printed words as a value with plain dashes; compact drops blanks that a line end left in a
    number."""
    value = one_line(flow.plain[slice(*span)])
    return Tag(value.replace("- ", "-") if compact else value, flow.evidence(*span, rule))
