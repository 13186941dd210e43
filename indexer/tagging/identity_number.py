"""The number a publication gives itself: bulletin number, document number, circular number ...

Order: beside the type's own words in the title block, a labelled number there, running heads and feet.
"""

import re
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import pairwise

from indexer.reading.page import Page, TextState
from indexer.tagging.directive_reading import DirectiveReading
from indexer.tagging.flow import PrintedLine, one_line, plain
from indexer.tagging.government_papers import CIRCULAR_NUMBER, ORDER_NUMBER, RULE_TITLE
from indexer.tagging.title_block import TitleBlock
from indexer.tagging.type_words import type_words
from indexer.trade.bulletin_numbers import FoundBulletin, find_bulletin_numbers
from indexer.trade.evidence import Basis, Evidence, Tag
from indexer.trade.publication_types import PublicationType as Type

_TOKEN = r"(?=[A-Z0-9./-]*\d)[A-Z0-9]+(?:[./-][A-Z0-9]+)*"
_LABELLED = re.compile(
    r"\b(?:(?:Publication|Document|Manual|Report|Catalog(?:ue)?|Bulletin|Letter|Instruction|Supplement|Pub|Doc|Part|Order|TCDS|STC"
    r"|Specification|Revision Manual)\s*(?:Part\s*)?(?:Identification\s*)?(?:No\b\.?|Number\b|P/N\b|#)"
    r"|P/N\b|\bID No\.?)\s*[:.]?\s*"
    rf"(?P<number>{_TOKEN})(?![\w])",
    re.IGNORECASE,
)
_BARE_LABEL = re.compile(
    rf"^(?:No\.?|Number|NO\.|Nr\.?)\s*[:.]?\s*(?P<number>(?:[A-Z]{{2,3}} )?{_TOKEN})$", re.IGNORECASE
)
_AFTER_TYPE = re.compile(
    rf"^\s*(?:No\b\.?|Number\b|Nr\b\.?|#|:|-)?\s*[:.]?\s*(?P<number>(?:(?:TR|SB|SL|SI|ASB|MSB"
    rf"|SIL)[ -])?{_TOKEN})(?![\w])",
    re.IGNORECASE,
)
_ALONE = re.compile(rf"(?:No\.?|Number)?\s*[:.]?\s*(?P<number>(?:[A-Z]{{2,3}}[ -])?{_TOKEN})")
_OTHERS_LINE = re.compile(r"\s*(?:ref|see|supersed|replac|cancel)", re.IGNORECASE)
_NOT_A_NUMBER = re.compile(r"(?:19|20)\d{2}|\d{1,2}/\d{1,2}/\d{2,4}|\d{1,3}", re.IGNORECASE)
_CASE_NUMBER = re.compile(
    r"\b(?:Accident|Incident|Report|Occurrence)\s+(?:Number|No\.?)\s*:\s*(?P<number>[A-Z0-9/-]*\d[A-Z0-9/-]*)"
)
_DOCKET = re.compile(
    r"\bDocket No\.?\s*(?P<number>FAA-\s?\d{4}-\s?\d{3,6}|(?:\d{2}|\d{4})-[A-Z]{2}-\d{1,4}-AD)"
)
_CALL_NUMBER = re.compile(r"\b(?P<number>FAA-H-\d{4}-\d+[A-Z]?)\b")
_HANDBOOK_NUMBER = re.compile(
    rf"(?:^|\bHandbook\s+|\s)(?P<number>(?=[A-Z]){_TOKEN}),\s+(?:Edition|Revision)\s+\w{{1,3}}\b"
)
_INFORMATION_NUMBER = re.compile(
    r"\bSAIB\s*(?:No\.?|Number)?\s*[:.]?\s*(?P<number>(?:[A-Z]{2,4}-\d{2}|\d{4})-\d{2}(?:R\d+)?)\b"
)
_FORM_NUMBER = re.compile(r"\b(?:FAA )?Form (?P<number>\d{3,4}-\d+|337)\b", re.IGNORECASE)
_NUMBERED_PAPERS = (
    Type.TEMPORARY_REVISION, Type.SERVICE_BULLETIN, Type.SERVICE_LETTER, Type.TYPE_CERTIFICATE_DATA_SHEET,
    Type.SUPPLEMENTAL_TYPE_CERTIFICATE,
)  # fmt: skip
_BULLETIN_KINDS = (Type.SERVICE_BULLETIN, Type.SERVICE_LETTER)
_MANUALS_WITH_RUNNING_NUMBER = 0.5


def publication_number(
    kind: Type | None,
    pages: Sequence[Page],
    block: TitleBlock,
    directive: DirectiveReading | None,
    properties: Mapping[str, str],
) -> Tag[str] | None:
    """The number as printed, with plain dashes; `others` holds numbers printed in a number's place that
    differ."""
    if kind is Type.AIRWORTHINESS_DIRECTIVE:
        return directive.facts.number if directive else None
    if kind is Type.PROPOSED_DIRECTIVE:
        return _docket(directive) if directive else None
    readings: list[Tag[str]] = []
    for reading in _readings(kind, pages, block):
        if all(_folded(reading.value) != _folded(other.value) for other in readings):
            readings.append(reading)
    if not readings:
        return _stored_number(kind, properties)
    return Tag(readings[0].value, readings[0].evidence, tuple(readings[1:]))


def _stored_number(kind: Type | None, properties: Mapping[str, str]) -> Tag[str] | None:
    """The number beside the type's words in the file's Title, for a paper that prints none, such as a
    scan."""
    title = plain(properties.get("Title", ""))
    for words in type_words(title):
        found = _AFTER_TYPE.match(title[words.end :]) if words.type is kind else None
        if found and not _NOT_A_NUMBER.fullmatch(found["number"]):
            evidence = Evidence(
                Basis.DOCUMENT_PROPERTIES, "number beside type in document properties", properties["Title"]
            )
            return Tag(found["number"], evidence)
    return None


def _docket(directive: DirectiveReading) -> Tag[str] | None:
    """A proposal has no directive number yet; its docket number names it."""
    flow = directive.flow
    found = _DOCKET.search(flow.plain, directive.start, directive.end) or _DOCKET.search(
        flow.plain, 0, directive.end
    )
    if not found:
        return None
    return Tag(
        found["number"].replace("- ", "-"),
        flow.evidence(found.start(), found.end(), "docket number of a proposal"),
    )


def printed_bulletin_number(found: FoundBulletin) -> str:
    """The number with its short word as printed ("SB 32-0012"), or written one way after the long words."""
    if " " not in found.kind:
        return f"{found.kind.upper()} {plain(found.text)}"
    if found.kind.endswith("bulletin") or re.match(r"[A-Z]{2,3}-", found.text):
        return plain(found.text)
    return found.number


def _readings(kind: Type | None, pages: Sequence[Page], block: TitleBlock) -> Iterator[Tag[str]]:
    if kind is None:
        return
    form = _FORMS.get(kind)
    if form:
        yield from form(block.lines, "title block")
        yield from _running(form, pages)
        return
    if kind in _BULLETIN_KINDS:
        yield from _bulletin(block.lines, "title block")
        yield from _beside_type(kind, block)
        yield from _below_type(kind, block)
        yield from _labelled(block.lines, "title block")
        yield from _running(_bulletin, pages)
        return
    beside, below = list(_beside_type(kind, block)), list(_below_type(kind, block))
    if kind is Type.TEMPORARY_REVISION:  # its labelled numbers are those of the manual it changes
        yield from (*beside, *below)
        return
    if kind is Type.COMPONENT_MAINTENANCE_MANUAL:
        yield from _chapter_alone(block)
    labelled = list(_labelled(block.lines, "title block", kind))
    yield from labelled
    yield from (tag for tag in beside if _surely_a_number(tag.value))
    yield from (tag for tag in below if not labelled)
    yield from _running(_labelled, pages)
    yield from beside  # "Supplement No. 4": a running number only where the paper gives itself no other


def _beside_type(kind: Type, block: TitleBlock) -> Iterator[Tag[str]]:
    """The number on the line of the type's words, after "No." or standing there as a number and no model."""
    for line in block.lines:
        text = plain(one_line(line.text))
        for words in type_words(text):
            after = text[words.end :]
            found = _AFTER_TYPE.match(after) if words.type is kind else None
            if found and _beside_gives_number(kind, after, found["number"]):
                yield Tag(found["number"], line.evidence("number beside type in title block"))


def _beside_gives_number(kind: Type, after: str, token: str) -> bool:
    """ "No. 17" always; else a token that is no date or small figure, and no model after a manual's name."""
    if _numbered(after):
        return True
    return (_surely_a_number(token) or kind in _NUMBERED_PAPERS) and not _NOT_A_NUMBER.fullmatch(token)


def _below_type(kind: Type, block: TitleBlock) -> Iterator[Tag[str]]:
    """The number that stands alone on the line below the type's words."""
    for line, below in pairwise(block.lines):
        text = plain(one_line(line.text))
        if not any(words.type is kind and words.end == len(text) for words in type_words(text)):
            continue
        alone = _ALONE.fullmatch(plain(one_line(below.text)))
        if alone and not _NOT_A_NUMBER.fullmatch(alone["number"]) and not alone["number"].startswith("STC"):
            yield Tag(alone["number"], below.evidence("number below type in title block"))


def _chapter_alone(block: TitleBlock) -> Iterator[Tag[str]]:
    """A component manual is named by its chapter-section-subject, alone on a line of its title page."""
    for line in block.lines:
        text = plain(one_line(line.text))
        if re.fullmatch(r"(?:ATA\s+)?\d{2}-\d{2}-\d{2}", text):
            yield Tag(text.removeprefix("ATA").strip(), line.evidence("number alone in title block"))


def _surely_a_number(token: str) -> bool:
    """Whether a token after a manual's name can hardly be a model: it has two joints at least."""
    return len(re.findall(r"[./-]", token)) >= 2


def _numbered(after: str) -> bool:
    """Whether "No." stands before the digits, so that a short running number ("No. 17") may be one."""
    return bool(re.match(r"\s*(?:No\b|Number\b|Nr\b|#)", after, re.IGNORECASE))


def _labelled(lines: Sequence[PrintedLine], where: str, kind: Type | None = None) -> Iterator[Tag[str]]:
    for line in lines:
        text = plain(one_line(line.text))
        found = _LABELLED.search(text) or _BARE_LABEL.search(text)
        if not found or _NOT_A_NUMBER.fullmatch(found["number"]) or _OTHERS_LINE.match(text):
            continue
        if kind is Type.COMPONENT_MAINTENANCE_MANUAL and re.match(r"(?i)P/N|Part", found[0]):
            continue  # the component's part number
        yield Tag(found["number"], line.evidence(f"labelled number in {where}"))


def _bulletin(lines: Sequence[PrintedLine], where: str) -> Iterator[Tag[str]]:
    for line in lines:
        text = plain(one_line(line.text))
        if re.match(
            r"(?i)\W*(?:ref(?:erences?|er)?\b|see|supersed\w*|replac\w*|cancel\w*|subject|title|re)\b", text
        ):
            continue
        for found in find_bulletin_numbers(text)[:1]:
            before = text[: found.start]
            if len(before.split()) <= 7 and not re.search(
                r"\b(?:to|see|with|by|of|per|supersedes|replaces)\b", before, re.IGNORECASE
            ):
                yield Tag(printed_bulletin_number(found), line.evidence(f"bulletin number in {where}"))


def _circular(lines: Sequence[PrintedLine], where: str) -> Iterator[Tag[str]]:
    for line in lines:
        text = plain(one_line(line.text))
        found = CIRCULAR_NUMBER.search(text)
        if not found or re.match(
            r"\s?[*^~'\"]", text[found.end() :]
        ):  # a mark that a scan read in place of a digit
            continue
        labelled = re.search(r"AC\s*N[oO]", found[0])
        if labelled or (
            len(text.split()) <= 7 and not re.match(r"(?i)\W*(?:ref|cancel|see|subject|\d+\.)", text)
        ):
            yield Tag(found.group(1), line.evidence(f"circular number in {where}"))


def _searched(pattern: re.Pattern, rule: str) -> Callable[[Sequence[PrintedLine], str], Iterator[Tag[str]]]:
    def search(lines: Sequence[PrintedLine], where: str) -> Iterator[Tag[str]]:
        for line in lines:
            found = pattern.search(plain(one_line(line.text)))
            if found:
                number = (
                    found.group("number")
                    if "number" in found.groupdict()
                    else found.group(found.lastindex or 0)
                )
                yield Tag(number, line.evidence(f"{rule} in {where}"))

    return search


def _rule(lines: Sequence[PrintedLine], where: str) -> Iterator[Tag[str]]:
    for line in lines:
        found = RULE_TITLE.search(plain(one_line(line.text)))
        part = next((part for part in found.groups() if part), None) if found else None
        if part:
            yield Tag(f"14 CFR part {part}", line.evidence(f"part of the rules in {where}"))


def _order(lines: Sequence[PrintedLine], where: str) -> Iterator[Tag[str]]:
    for line in lines:
        text = plain(one_line(line.text))
        found = ORDER_NUMBER.search(text)
        handbook = _CALL_NUMBER.search(text) or _HANDBOOK_NUMBER.search(text)
        if found or handbook:
            number = found.group(1) if found else handbook.group("number")
            yield Tag(number, line.evidence(f"order or handbook number in {where}"))


_FORMS: dict[Type, Callable[[Sequence[PrintedLine], str], Iterator[Tag[str]]]] = {
    Type.ADVISORY_CIRCULAR: _circular,
    Type.AIRWORTHINESS_BULLETIN: _searched(_INFORMATION_NUMBER, "information bulletin number"),
    Type.ACCIDENT_REPORT: _searched(_CASE_NUMBER, "case number"),
    Type.REGULATION: _rule,
    Type.ORDER_OR_HANDBOOK: _order,
    Type.RELEASE_CERTIFICATE: _searched(_FORM_NUMBER, "form number"),
    Type.REPAIR_ALTERATION_RECORD: _searched(_FORM_NUMBER, "form number"),
    Type.ENGINEERING_APPROVAL: _searched(_FORM_NUMBER, "form number"),
}


def _running(
    form: Callable[[Sequence[PrintedLine], str], Iterator[Tag[str]]], pages: Sequence[Page]
) -> Iterator[Tag[str]]:
    """A number in the head or foot of at least half the pages with text, two at least."""
    with_text = [page for page in pages if page.state is TextState.TEXT]
    count: Counter[str] = Counter()
    first: dict[str, tuple[str, Evidence]] = {}
    for page in with_text:
        lines = [PrintedLine(page.pdf_page, line, page.origin) for line in (*page.head, *page.foot)]
        tags = {_folded(tag.value): tag for tag in form(lines, "running head or foot")}
        for folded, tag in tags.items():
            first.setdefault(folded, (tag.value, tag.evidence))
        count.update(tags.keys())
    for folded, times in count.most_common():
        if times >= 2 and times >= _MANUALS_WITH_RUNNING_NUMBER * len(with_text):
            yield Tag(*first[folded])


def _folded(number: str) -> str:
    return re.sub(r"^(?:SB|NO)(?=\W)|[\W_]", "", number.upper())
