"""Words of approval in a text: which grant, which only speak of approval, which forbid use.

This file finds and names the words; how far they reach in a publication is decided where they are applied.
"""

import re
from dataclasses import dataclass
from enum import StrEnum

from indexer.trade import approval_vocabulary as words
from indexer.trade.approval_lead import APPROVAL_HEADING, at_start, quoted, said_elsewhere
from indexer.trade.approval_stamps import Stamp, find_stamps
from indexer.trade.closed_grants import (
    DOUBTS_PAPER,
    ends_whole,
    is_neutral,
    is_running_notice,
    is_section_content,
    is_subject_line,
    is_work,
    may_lead,
)
from indexer.trade.sentences import sentence_spans
from indexer.trade.squeezed_text import squeeze


class ApprovalKind(StrEnum):
    """What the words do. Only the first four grant FAA approval, each within its own scope."""

    GRANT = "grant"  # "FAA APPROVED" with name, office or date; "this manual is FAA approved"
    LIMITATIONS = (
        "limitations section"  # the statement that the Airworthiness Limitations section is FAA approved
    )
    BULLETIN = "technical content"  # the technical content of this bulletin or document is FAA approved
    DESIGNEE = "designee"  # a DER or an ODA, if within its authority
    FOREIGN = "foreign design approval"  # FAA standing only by a bilateral agreement or a data sheet note
    ACCEPTED = "accepted"  # acceptable, which is not approved
    NOT_REQUIRED = "no approval required"  # acceptable at most
    BLOCKS = "blocks"  # forbids use as maintenance data, where it stands in a notice's place
    PAPER = "paper remark"  # about a print or a dimension, not about the data
    PARTIAL = "partial"  # grants something and takes some of it back: cannot tell how much
    BARE_STAMP = "stamp without name, office or date"  # a title, a blank form: cannot tell
    NEGATED = "negated"
    HOPE = "hope"  # a future, a condition, a demand, a question
    INSTRUCTION = "instruction"  # tells the reader to get or to use an approval
    MENTION = "mention"  # speaks of an approval and grants none here

    @property
    def grants(self) -> bool:
        """Whether these words alone grant FAA approval to what they stand for."""
        return self in _GRANTING


_GRANTING = frozenset(
    {ApprovalKind.GRANT, ApprovalKind.LIMITATIONS, ApprovalKind.BULLETIN, ApprovalKind.DESIGNEE}
)


@dataclass(frozen=True, slots=True)
class ApprovalWords:
    """text[start:end] == quote: the whole sentence, stamp line or notice, as printed."""

    kind: ApprovalKind
    quote: str
    start: int
    end: int


_STAMP_KINDS = {
    Stamp.FAA: ApprovalKind.GRANT,
    Stamp.DESIGNEE: ApprovalKind.DESIGNEE,
    Stamp.FOREIGN: ApprovalKind.FOREIGN,
    Stamp.ACCEPTED: ApprovalKind.ACCEPTED,
    Stamp.BARE: ApprovalKind.BARE_STAMP,
}
_POINTS_BACK = re.compile(r"\b(?:it|its|they|them|these|this|that|those|planning figures)\b", re.IGNORECASE)
_NUMBERED_PART = re.compile(
    r"\b(?:parts?|chapters?|appendi(?:x|ces)|volumes?|options?)\s(?-i:[0-9]{1,2}|[A-Z]|[IVX]{1,4})\b",
    re.IGNORECASE,
)
_MARKED = re.compile(r"(?:[A-Z][.]|[0-9]{1,2}[.])\s")  # "G. Manpower": a paragraph of its own
_NUMBER_LINE = re.compile(r"number:\s(?:SB\s|SL\s)?(?-i:[A-Z0-9-]+)", re.IGNORECASE)
_JUDGED_BELOW = 2  # sentences under the paragraph of a grant
_ANY_THIS = rf"(?:{words.CONTENT_OF_THIS}|{words.THIS})"
_GRANTS = tuple(
    (kind, re.compile(pattern + words.CONTINUES, re.IGNORECASE))
    for kind, pattern in (
        (ApprovalKind.BULLETIN, rf"{words.LABEL}{words.CONTENT_OF_THIS}\s{words.LINK}{words.BY_FAA}"),
        (ApprovalKind.BULLETIN, rf"{words.LABEL}{words.CONTENT_OF_THIS}\s{words.SHOWN_AND}{words.BY_FAA}"),
        (
            ApprovalKind.BULLETIN,
            rf"{words.LABEL}{words.FAA}\sapproval\shas\sbeen\sobtained\s(?:on|for)\s(?:the\s)?technical\sdata\sin\sthis"
            rf"\s{words.DOCUMENT}(?:\sthat\saffects?\s(?:(?:airplane|aircraft)\s)?type\sdesign)?",
        ),
        (
            ApprovalKind.BULLETIN,
            rf"{words.LABEL}the\s{words.FAA}\s(?:has\s)?approved\sthe\s(?:technical|engineering)\s"
            rf"(?:contents?|aspects?|data)\s(?:of|in)\sthis\s{words.DOCUMENT}",
        ),
        (
            ApprovalKind.BULLETIN,
            rf"{words.LABEL}the\s{words.FAA}\s(?:has\s)?approved\s{words.CONTENT_OF_THIS}",
        ),
        (ApprovalKind.BULLETIN, rf"{words.MARKS}{words.TECHNICAL_CONTENT}{words.BY_FAA}(?=\.?\s?$)"),
        (ApprovalKind.DESIGNEE, rf"{words.LABEL}{_ANY_THIS}\s{words.LINK}{words.BY_DESIGNEE}"),
        (ApprovalKind.DESIGNEE, rf"{words.LABEL}{_ANY_THIS}\s{words.WAS}{words.UNDER_ODA}"),
        (ApprovalKind.FOREIGN, rf"{words.LABEL}{_ANY_THIS}\s{words.LINK}{words.BY_FOREIGN}"),
        (ApprovalKind.GRANT, rf"{words.LABEL}{words.THIS}\s{words.LINK}{words.BY_FAA}"),
        (ApprovalKind.ACCEPTED, rf"{words.LABEL}{_ANY_THIS}\s{words.LINK}{words.ACCEPTED}"),
        (ApprovalKind.DESIGNEE, words.APPROVAL_LABEL + words.BY_DESIGNEE),
        (ApprovalKind.FOREIGN, words.APPROVAL_LABEL + words.BY_FOREIGN),
        (ApprovalKind.BULLETIN, words.APPROVAL_LABEL + words.BY_FAA),
        (ApprovalKind.BULLETIN, words.APPROVAL_LABEL + words.TECHNICAL_CONTENT + words.BY_FAA),
        (ApprovalKind.ACCEPTED, words.APPROVAL_LABEL + words.ACCEPTED),
    )
)
_SIGN = r"(?:\u00a7{1,2}\s?|(?:secs?\.|sections?|paragraphs?|parts?)\s)?"
# 14 CFR part 23, A23.4 (G23.4 before 2017), and the same words in parts 25, 27, 29, 33 and 35.
_LIMITATIONS = re.compile(
    rf"{words.LABEL}th(?:e|is)\sairworthiness\slimitations?\ssection\s(?:of\sthis\s(?:manual|document)\s)?is\s"
    rf"{words.BY_FAA}\sand\sspecifies\s"
    r"(?:(?:inspections?|and|other|the)\s){0,4}maintenance\srequired\s(?:under|by)\s(?:the\s)?"
    r"(?:(?:title\s)?14\s?(?:of\sthe\s)?(?:CFR|code\sof\sfederal\sregulations),?\s|federal\saviation\sregulations?\s"
    r"|FARs?\s)?(?:\(?(?:14\sCFR|FARs?)\)?\s)?"
    rf"{_SIGN}43\.16\s?(?:and|or|&)\s(?:14\sCFR\s|FAR\s)?{_SIGN}91\.403(?:\([a-z]\))?"
    r"(?:,?\sof\s(?:the\s)?(?:title\s14,?\s(?:of\s)?(?:the\s)?(?:code\sof\sfederal\sregulations|CFR)|14\sCFR"
    r"|federal\saviation\sregulations?|FAR(?:['\u2019]?s)?)(?:\s\((?:14\s)?(?:CFR|FARs?)\))?)?"
    r"(?:,?\sunless\san\salternat(?:iv)?e\sprogram\s(?:has\sbeen|is)\sFAA[\s-]approved)?(?=\s?[.;]|\s?$|\n)",
    re.IGNORECASE,
)
# Only of the paper itself: "where FAA approval is not required" speaks of cases.
_NOT_REQUIRED = re.compile(
    rf"{words.APPROVAL_LABEL}(?:not\s(?:applicable|required)|n/a|none)\b"
    rf"|{words.LABEL}no\s(?:{words.FAA}\s)?approval\s(?:is\s)?(?:required|necessary|needed)\b"
    rf"|{words.LABEL}{words.FAA}\sapproval\s(?:of\sthis\s{words.DOCUMENT}\s)?is\snot\s(?:required|necessary|needed)\b"
    rf"|{words.LABEL}{words.THIS}\sdo(?:es)?\snot\srequire\s(?:{words.FAA}\s)?approval\b",
    re.IGNORECASE,
)
_SPEAKS_OF_APPROVAL = re.compile(
    rf"\b{words.FAA}[^.;]{{0,80}}?\b(?:un)?(?:approv|accept)\w*"
    rf"|\b(?:un|dis)?(?:approv|accept)\w*[^.;]{{0,80}}?\b{words.FAA}"
    rf"|\b{words.FOREIGN}[\s-]approv\w*"
    rf"|\bapprov\w*[^.;]{{0,60}}?\b(?:{words.FOREIGN}|EASA\. ?21J|DOA|DER|ODA)\b"
    r"|\b(?:DER|ODA)[\s-]approv\w*|\bacceptable\sto\sthe\sadministrator|\bapproved\sdata\b",
    re.IGNORECASE,
)
_WHOLE = (
    r"(?:this|these)\s(?:\w+\s){0,3}?(?:documents?|manuals?|cop(?:y|ies)|publications?|pages?|notes?|books?)"
)
_BLOCKS = re.compile(
    rf"\b{_WHOLE}\s(?:is|are|has|have)\snot\s(?:been\s)?(?:{words.FAA}[\s-]approved|approved\sby\s(?:the\s)?{words.FAA})"
    rf"|\b{_WHOLE}\s(?:is|are)\s(?:intended\s)?(?:provided\s)?for\s(?:reference|information|training)(?:\spurposes)?\sonly\b"
    rf"|\b{_WHOLE}\s(?:is|are|must|may|shall|can)\snot\s(?:to\s)?be\sused\s(?:in|for|on)\s(?:the\s)?(?:aircraft\s)?"
    r"maintenance\b"
    r"|\buncontrolled\scop(?:y|ies)\b(?!\s(?:when|if|once))"
    r"|\bnot\s(?:(?:to\sbe\sused|for\suse|intended|valid)\s)?(?:in|for|on)\s(?:the\s)?(?:aircraft\s)?maintenance\b"
    r"(?!\s(?:access|personnel|crew|manual|steps?|trips?|hours?))"
    r"|\bdo\snot\suse\s(?:this\s\w+\s)?(?:for|in)\s(?:aircraft\s)?maintenance\b"
    r"|(?:^|(?<=\n))[ *<>(\[-]*(?:for\s(?:reference|training|information)(?:\s(?:use|purposes))?\sonly"
    r"|reference\sonly|training\suse\sonly)[.!;](?=\s(?:not\s(?:FAA|approved|for|to\sbe)|do\snot\suse)\b)"
    r"|(?:^|(?<=\n))[ *<>(\[-]*(?:for\s(?:reference|training|information)(?:\s(?:use|purposes))?\sonly"
    r"|reference\sonly|training\suse\sonly)[ *<>)\].!-]*(?=\n|$)",
    re.IGNORECASE,
)
_PAPER = re.compile(
    r"\buncontrolled\s(?:cop(?:y|ies)\s)?(?:if|when|once)\s(?:printed|copied|downloaded)"
    r"|\b(?:printed\scopies|hard\s?copies|prints)\sare\suncontrolled"
    r"|\b(?:dimensions?|torques?|values?|figures?|weights?|numbers?|illustrations?|drawings?|views?)\b[^.;\n]{0,60}?"
    r"\bfor\sreference(?:\sonly)?\b",
    re.IGNORECASE,
)


def find_approval_words(text: str) -> list[ApprovalWords]:
    """Every stamp, sentence and notice that speaks of approval, in order; none overlaps another.

    A grant is found only in wordings of a closed list that stand at the start of their sentence or line,
    speak of "this" publication, and have nothing beside them that denies, delays, limits, quotes or asks.
    Letters misread by OCR never grant: "FAA APPR0VED" is not found, and "N0T" is read as "not".
    """
    squeezed = squeeze(text)
    plain = squeezed.text
    found: list[ApprovalWords] = []

    def take(kind: ApprovalKind, start: int, end: int) -> None:
        first, last = squeezed.original_span(start, end)
        if all(last <= one.start or first >= one.end for one in found):
            found.append(ApprovalWords(kind, text[first:last], first, last))

    for stamp in find_stamps(plain):
        if said_elsewhere(plain, stamp.start):
            take(ApprovalKind.MENTION, stamp.start, stamp.end)
        else:
            take(_STAMP_KINDS[stamp.meaning], stamp.start, stamp.end)
    for kind, pattern in ((ApprovalKind.PAPER, _PAPER), (ApprovalKind.BLOCKS, _BLOCKS)):
        for match in pattern.finditer(plain):
            by_others = kind is ApprovalKind.BLOCKS and quoted(plain, match.start())
            take(ApprovalKind.MENTION if by_others else kind, *match.span())
    spans = sentence_spans(plain)
    for number, (start, end) in enumerate(spans):
        kind = _sentence_kind(plain, start, end)
        if kind and kind.grants and not _in_closed_company(plain, spans, number, kind):
            kind = ApprovalKind.PARTIAL
        if kind:
            take(kind, start, end)
    return sorted(found, key=lambda one: one.start)


def _sentence_kind(plain: str, start: int, end: int) -> ApprovalKind | None:
    sentence = plain[start:end]
    if not re.search("approv|accept", sentence, re.IGNORECASE):
        return None
    limitations = at_start(_LIMITATIONS, sentence)
    if limitations:
        # Its own closing words, "unless an alternative program has been FAA approved", take nothing back.
        elsewhere = said_elsewhere(plain, start + limitations.start()) or "?" in sentence
        rest = sentence[limitations.end() :]
        if words.takes_back(rest) or words.NAMES_PART.search(rest):
            return ApprovalKind.PARTIAL
        return ApprovalKind.MENTION if elsewhere else ApprovalKind.LIMITATIONS
    not_required = at_start(_NOT_REQUIRED, sentence)
    if not_required and not words.takes_back(sentence[not_required.end() :]):
        return ApprovalKind.NOT_REQUIRED
    for kind, pattern in _GRANTS:
        match = at_start(pattern, sentence)
        if match:
            return _checked(kind, plain, start, end, match)
    return _not_a_grant(sentence) if _SPEAKS_OF_APPROVAL.search(sentence) else None


def _in_closed_company(plain: str, spans: list[tuple[int, int]], number: int, kind: ApprovalKind) -> bool:
    """Whether all that stands beside a grant is of closed forms: the rest of its paragraph, the line
    above the paragraph and the first two sentences below it, or the first under a heading. Under the
    statement of a limitations section, which the rule words, the limits may be in any words that do not
    speak of the paper.
    """
    start, end = spans[number]
    if plain[end - 1] == ";":
        return False
    headed = _headed(plain, start, end)
    for place in range(number - 1, -1, -1) if not headed else ():
        first, last = spans[place]
        joined = "\n\n" not in plain[last : spans[place + 1][0]]
        paragraph = plain[:last].rpartition("\n\n")[2]
        if not joined and all(
            _is_heading_line(line) or _NUMBER_LINE.fullmatch(line) for line in paragraph.split("\n")
        ):
            break
        if not may_lead(plain[first:last]) and not _grants(plain, spans[place]):
            return False
        if not joined:
            break
    beside, under_heading, lettered, judged = True, False, False, 0
    for place in range(number + 1, len(spans)):
        first, last = spans[place]
        sentence = plain[first:last]
        beside = beside and "\n\n" not in plain[spans[place - 1][1] : first]
        line = _line_of(plain, first)
        if is_running_notice(sentence if beside else line):
            continue
        closed = _grants(plain, spans[place]) or is_work(sentence)
        if not beside and not under_heading and _is_heading_line(line):
            if "\n" in sentence or not is_neutral(sentence):
                return not _speaks_back(sentence)
            under_heading, lettered = True, _MARKED.match(line) is not None
        elif under_heading:
            part = kind is not ApprovalKind.LIMITATIONS and not lettered and _NUMBERED_PART.search(sentence)
            return closed or not part and not _speaks_back(sentence)
        elif not beside and judged == _JUDGED_BELOW:
            return True
        elif not closed and (beside or not _sets_limits(kind, sentence)):
            return False
        judged += not beside
    return True


def _headed(plain: str, start: int, end: int) -> bool:
    """Whether the sentence's first line is a heading that begins a paragraph, and no part of the grant."""
    line, _, rest = plain[start:end].partition("\n")
    if plain[:start].rstrip(" ")[-2:] not in ("", "\n\n") or not _is_heading_line(line):
        return False
    if rest and APPROVAL_HEADING.search(line):
        return True
    return bool(rest) and rest != rest.upper() and _grants(plain, (end - len(rest), end))


def _sets_limits(kind: ApprovalKind, sentence: str) -> bool:
    """Whether a sentence under the statement of a limitations section may be one of its limits."""
    return kind is ApprovalKind.LIMITATIONS and (is_section_content(sentence) or not _speaks_back(sentence))


def _line_of(plain: str, place: int) -> str:
    """The whole line in which a sentence begins."""
    return plain[plain.rfind("\n", 0, place) + 1 :].partition("\n")[0]


def _is_heading_line(line: str) -> bool:
    """A line without a letter, such as the mark of a footnote, is no heading."""
    if not re.search("[A-Za-z]", line):
        return False
    return is_neutral(line) or is_subject_line(line) or APPROVAL_HEADING.search(line) is not None


def _grants(plain: str, span: tuple[int, int]) -> bool:
    kind = _sentence_kind(plain, *span)
    return kind is not None and kind.grants


def _speaks_back(sentence: str) -> bool:
    """Whether a sentence of the next paragraph may take a grant back."""
    return words.next_takes_back(sentence) or any(
        pattern.search(sentence) for pattern in (DOUBTS_PAPER, words.INSTRUCTION, _POINTS_BACK)
    )


def _checked(kind: ApprovalKind, plain: str, start: int, end: int, match: re.Match) -> ApprovalKind:
    """The kind, unless something in or beside the words takes it back."""
    sentence = plain[start:end]
    if "?" in sentence:
        return ApprovalKind.HOPE
    if said_elsewhere(plain, start + match.start()):
        return ApprovalKind.MENTION
    said = re.sub(words.MARKS, "", match[0], count=1).lstrip(" .:\n-")
    if not said[:1].isupper():
        return ApprovalKind.MENTION  # the middle of a sentence whose first words are lost
    closed = kind.grants and ends_whole(sentence[match.end() :])
    rest = "" if closed else words.WORK_MODAL.sub("and", sentence[match.end() :])
    if words.unreadable(rest):
        return ApprovalKind.PARTIAL
    for reading in (match[0], *words.readings(rest)):
        if words.NEGATION.search(reading):
            return ApprovalKind.NEGATED
        if words.HOPE.search(reading):
            return ApprovalKind.HOPE
        if words.LIMITED.search(reading):
            return ApprovalKind.PARTIAL
    if words.NAMES_PART.search(rest) or kind.grants and not closed:
        return ApprovalKind.PARTIAL
    return kind


def _not_a_grant(sentence: str) -> ApprovalKind:
    if any(words.NEGATION.search(reading) for reading in words.readings(sentence)):
        return ApprovalKind.NEGATED
    if words.INSTRUCTION.search(sentence):
        return ApprovalKind.INSTRUCTION
    if words.HOPE.search(sentence) or "?" in sentence:
        return ApprovalKind.HOPE
    return ApprovalKind.MENTION
