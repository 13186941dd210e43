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
from indexer.tagging.directive_number_line import (
    LABELLED_NUMBER,
    number_line,
    own_amendment,
    own_number,
    printed,
)
from indexer.tagging.directive_old_form import old_paragraphs
from indexer.tagging.directive_replaced import replaced_directives
from indexer.tagging.flow import Flow, PrintedLine, body_flow
from indexer.tagging.tags import DirectiveFacts
from indexer.trade.chapters import ChapterNumber, find_numbers
from indexer.trade.dates import find_dates
from indexer.trade.evidence import Evidence, Tag

_PROPOSAL_LINE = re.compile(
    r"(?:airworthiness directive(?: \(AD\))?|new AD|\b2\."
    r"|The Proposed Amendment):?\s+(?P<maker>[A-Z][^:]{1,250}?):\s+Docket No"
)
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
    line = number_line(flow, start, opening, lettered)
    if line and not lettered:
        paragraphs = old_paragraphs(flow, line.end(), end)
    # A rule of another part of the regulations has an ACTION line too: without these signs it is none.
    is_directive = bool(line or paragraphs or has_register_title(flow))
    proposed = _PROPOSAL.search(flow.plain, start, end) if is_directive else None
    adopted = None if proposed else _adopted(flow, start, end, line, bool(paragraphs) and not lettered)
    named = line or _PROPOSAL_LINE.search(flow.plain, start, opening)
    number = None if proposed else own_number(flow, start, opening, line)
    rule_start = _rule_start(flow, start, line.start() if line else opening)
    own = number.value if number else ""
    replaced = replaced_directives(flow, start, end, rule_start, paragraphs, lettered, own)
    rescinds = not proposed and bool(_RESCINDS.search(flow.plain, start, end))
    effective = None if proposed else effective_date(flow, start, end, rule_start, paragraphs, lettered)
    facts = DirectiveFacts(
        number=number,
        amendment=None if proposed else own_amendment(flow, start, opening, line),
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
    maker = printed(flow, named.span("maker"), "directive number line") if named else None
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
        action=printed(flow, action.span("action"), "register action line") if action else None,
        proposal=flow.evidence(*proposed.span(), "words of a proposed directive") if proposed else None,
        adopted=adopted,
    )


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
    if emergency and (line or LABELLED_NUMBER.search(flow.plain_lines, start, end)):
        return flow.evidence(emergency.start(), emergency.end(), "emergency directive title")
    return None


def _on_receipt(flow: Flow, start: int, end: int) -> Tag[str] | None:
    found = _ON_RECEIPT.search(flow.plain, start, end)
    return printed(flow, found.span(), "directive effective upon receipt") if found else None


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
