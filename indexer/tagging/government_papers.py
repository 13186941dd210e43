"""Papers of an authority that have a form of their own: circulars, orders, rules, approval letters."""

import re
from collections.abc import Iterator, Sequence

from indexer.reading.page import Page
from indexer.tagging.flow import PrintedLine, one_line, plain
from indexer.tagging.title_block import TitleBlock
from indexer.trade.evidence import Tag
from indexer.trade.publication_types import PublicationType as Type

CIRCULAR_NUMBER = re.compile(
    r"(?<![\w-])AC\s*(?:No\s*)?[:.]?\s*(?:N[oO0]\s*[:.]?\s*)?(\d{2,3}(?:\.\d+)?-\d+(?:\.\d+)?[A-Z]?)(?![\w])"
)
# "AC 43-9C CHG 1" by itself, as in a circular's running head.
CIRCULAR_HEAD = re.compile(
    r"AC\s+\d{2,3}(?:\.\d+)?-\d+(?:\.\d+)?[A-Z]?(?:,?\s+(?:CHG|Chg|Change)\.?\s*\d+)?(?:\s+Appendix\s+\w+)?"
)
_CIRCULAR_LABEL = re.compile(r"(?<![\w-])AC\s+N[oO0]\s?[:.;]", re.IGNORECASE)
ORDER_NUMBER = re.compile(
    r"^(?:(?:FAA|National Policy|U\.S\.)\s+)*ORDER\s+(?:No\.?\s*)?(\d{4}\.\d+[A-Z]?)(?![\w.])", re.IGNORECASE
)
_AUTHORITY = re.compile(
    r"federal aviation administration|department of transportation|\bFAA\b", re.IGNORECASE
)
RULE_TITLE = re.compile(
    r"^(?:TITLE|Title) 14\s*[-:,]?\s*(?:of the )?(?:CODE OF FEDERAL REGULATIONS"
    r"|Code of Federal Regulations|Aeronautics and Space)"
    r"(?:,? (?:PART|Part) (?P<part>\d+))?"
    r"|^14 CFR (?:Part|PART) (?P<cfr>\d+)\b"
    r"|^(?:#+ )?Appendix [A-Z] to Part (?P<appendix>\d+)\b"
    r"|^(?:PART|Part) (?P<named>\d+)\s*-\s*[A-Z]"
)
_RULE_SECTION = re.compile(r"^\u00a7\s*\d+\.\d+\b", re.MULTILINE)
_MINISTRY_ORDER = re.compile(
    r"(?:\u6c11\u822a|\u6c11\u7528\u822a\u7a7a|\u4ea4\u901a\u8fd0\u8f93).{0,8}\u4ee4\s*(?:\u7b2c)?\s*\d+\s*\u53f7"
)
_AMOC_SUBJECT = re.compile(
    r"^(?:Subject|Re|RE)\s*:.{0,80}\bAlternative Methods? of Compliance\b", re.IGNORECASE
)


def government_paper(block: TitleBlock, pages: Sequence[Page]) -> Iterator[Tag[Type]]:
    """The types whose form the title block shows; none when no form fits whole."""
    circular = _circular(block)
    if circular:
        yield circular
    text = "\n".join(plain(line.text) for line in block.lines)
    for line in block.lines:
        words = plain(one_line(line.text))
        if ORDER_NUMBER.search(words) and _AUTHORITY.search(text):
            yield Tag(Type.ORDER_OR_HANDBOOK, line.evidence("number line of an order"))
        if _AMOC_SUBJECT.search(words) and _AUTHORITY.search(text):
            yield Tag(Type.AMOC_LETTER, line.evidence("subject line of an authority's letter"))
        if _MINISTRY_ORDER.search(words):
            yield Tag(Type.REGULATION, line.evidence("ministry's order number"))
    rule = _rule(block, pages)
    if rule:
        yield rule


def _circular(block: TitleBlock) -> Tag[Type] | None:
    """ "Advisory" above "Circular" in large print (other lines may stand between), or the label "AC No:"."""
    label = None
    advisory: PrintedLine | None = None
    for line in block.lines:
        words = plain(one_line(line.text))
        if _CIRCULAR_LABEL.search(words) and not re.match(r"^\W*(?:cancel|ref|see)", words, re.IGNORECASE):
            label = label or line
        if re.search(
            r"(?:^|[^\w ]|\b(?:Transportation|Administration|Department)\s+)advisory(?: circular)?$"
            r"|^advisory\b",
            words,
            re.IGNORECASE,
        ):
            if re.search(r"\badvisory\s+circular\b", words, re.IGNORECASE) and len(words.split()) <= 8:
                return Tag(Type.ADVISORY_CIRCULAR, line.evidence("title of an advisory circular"))
            advisory = advisory or line
        if advisory and re.search(r"(?:^|\s)circular$", words, re.IGNORECASE) and len(words.split()) <= 4:
            return Tag(Type.ADVISORY_CIRCULAR, advisory.evidence("title of an advisory circular"))
    return (
        Tag(Type.ADVISORY_CIRCULAR, label.evidence("number label of an advisory circular")) if label else None
    )


def _rule(block: TitleBlock, pages: Sequence[Page]) -> Tag[Type] | None:
    """The title of a part of Title 14 together with section signs in the text: one without the other is a
    mention."""
    for line in block.lines[:15]:
        words = plain(one_line(line.text))
        if RULE_TITLE.search(words) and len(words.split()) <= 25:
            lines = [each.text for page in pages[:3] for each in page.body]
            sections = _RULE_SECTION.search("\n".join(lines))
            if sections or words.lstrip("# ").startswith("Appendix"):
                return Tag(Type.REGULATION, line.evidence("title of a part of the rules"))
    return None
