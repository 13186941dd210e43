"""Words of approval in a text: which grant, which only speak of approval, which forbid use.

This file finds and names the words; how far they reach in a publication is decided where they are applied.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from indexer.trade import approval_vocabulary as words
from indexer.trade.approval_stamps import Stamp, find_stamps
from indexer.trade.dashes import plain_dashes
from indexer.trade.sentences import sentence_spans


class ApprovalKind(StrEnum):
    """What the words do. Only the first four grant FAA approval, each within its own scope."""

    GRANT = "grant"  # "FAA APPROVED" with name, office or date; "this manual is FAA approved"
    LIMITATIONS = (
        "limitations section"  # the statement that the Airworthiness Limitations section is FAA approved
    )
    BULLETIN = "technical content"  # the technical content of this bulletin or document is FAA approved
    DESIGNEE = "designee"  # a DER or an ODA, if within its authority
    FOREIGN = (
        "foreign design approval"  # FAA standing only through a bilateral agreement or a data sheet note
    )
    ACCEPTED = "accepted"  # acceptable, which is not approved
    NOT_REQUIRED = "no approval required"  # acceptable at most
    BLOCKS = "blocks"  # forbids use as maintenance data, where it stands in a notice's place
    PAPER = "paper remark"  # about a print or a dimension, not about the data
    PARTIAL = "partial"  # grants something and takes some of it back: cannot tell how much
    NEGATED = "negated"
    HOPE = "hope"  # a future, a condition, a demand, a question
    INSTRUCTION = "instruction"  # tells the reader to get or to use an approval
    MENTION = "mention"  # speaks of the approval of something else

    @property
    def grants(self) -> bool:
        """Whether these words alone grant FAA approval to what they stand for."""
        return self in _GRANTING


_GRANTING = frozenset(
    {ApprovalKind.GRANT, ApprovalKind.LIMITATIONS, ApprovalKind.BULLETIN, ApprovalKind.DESIGNEE}
)


@dataclass(frozen=True, slots=True)
class ApprovalWords:
    """text[start:end] == quote: the whole sentence or stamp, as printed."""

    kind: ApprovalKind
    quote: str
    start: int
    end: int


_LIMITATIONS = re.compile(
    rf"th(?:e|is)\s+airworthiness\s+limitations?\s+section\s+is\s+{words.FAA}[\s-]+approved\s+and\s+specifies\s+"
    r"(?:(?:inspections?|and|other|the)\s+){0,4}maintenance\s+required\s+(?:under|by)\b[^.]{0,80}43\.16",
    re.IGNORECASE,
)
_SENTENCES = tuple(
    (kind, re.compile(rf"{words.LABEL}{pattern}(?![\w-])", re.IGNORECASE))
    for kind, pattern in (
        (ApprovalKind.BULLETIN, rf"{words.CONTENT_OF_THIS}\s+{words.LINK}{words.BY_FAA}"),
        (ApprovalKind.BULLETIN, rf"{words.CONTENT_OF_THIS}\s+{words.SHOWN_AND}{words.BY_FAA}"),
        (
            ApprovalKind.BULLETIN,
            rf"{words.FAA}\s+approval\s+has\s+been\s+obtained\s+(?:on|for)\s+(?:the\s+)?technical\s+data\s+in\s+this\s+"
            rf"{words.DOCUMENT}(?:\s+that\s+affects?\s+(?:airplane\s+|aircraft\s+)?type\s+design)?",
        ),
        (
            ApprovalKind.BULLETIN,
            rf"the\s+{words.FAA}\s+(?:has\s+)?approved\s+the\s+(?:technical|engineering)\s+(?:contents?|aspects?|data)\s+"
            rf"(?:of|in)\s+this\s+{words.DOCUMENT}",
        ),
        (
            ApprovalKind.DESIGNEE,
            rf"(?:{words.CONTENT_OF_THIS}|{words.THIS})\s+{words.LINK}{words.BY_DESIGNEE}",
        ),
        (ApprovalKind.FOREIGN, rf"(?:{words.CONTENT_OF_THIS}|{words.THIS})\s+{words.LINK}{words.BY_FOREIGN}"),
        (ApprovalKind.GRANT, rf"{words.THIS}\s+{words.LINK}{words.BY_FAA}"),
        (ApprovalKind.ACCEPTED, rf"(?:{words.CONTENT_OF_THIS}|{words.THIS})\s+{words.LINK}{words.ACCEPTED}"),
    )
)
_AFTER_APPROVAL_LABEL = tuple(
    (kind, re.compile(rf"{words.APPROVAL_LABEL}{pattern}(?![\w-])", re.IGNORECASE))
    for kind, pattern in (
        (ApprovalKind.NOT_REQUIRED, r"(?:not\s+(?:applicable|required)|n/a|none)\b"),
        (ApprovalKind.DESIGNEE, words.BY_DESIGNEE),
        (ApprovalKind.FOREIGN, words.BY_FOREIGN),
        (ApprovalKind.BULLETIN, words.BY_FAA),
        (ApprovalKind.ACCEPTED, words.ACCEPTED),
    )
)
_NOT_REQUIRED = re.compile(
    rf"\bno\s+(?:{words.FAA}\s+)?approval\s+(?:is\s+)?(?:required|necessary|needed)\b"
    rf"|\b(?:{words.FAA}\s+)?approval\s+is\s+not\s+(?:required|necessary|needed)\b"
    rf"|\bdoes\s+not\s+require\s+(?:{words.FAA}\s+)?approval\b",
    re.IGNORECASE,
)
_SPEAKS_OF_APPROVAL = re.compile(
    rf"\b{words.FAA}\b[^.;]{{0,80}}\b(?:un)?(?:approv|accept)\w*|\b(?:un|dis)?(?:approv|accept)\w*[^.;]{{0,80}}\b{words.FAA}\b"
    rf"|\b{words.FOREIGN}[\s-]+approv\w*|\bapprov\w*[^.;]{{0,60}}\b(?:{words.FOREIGN}|EASA\.\s?21J|DOA|DER|ODA)\b"
    r"|\b(?:DER|ODA)[\s-]+approv\w*|\bacceptable\s+to\s+the\s+administrator|\bapproved\s+data\b",
    re.IGNORECASE,
)
_DOCUMENT_SUBJECT = r"(?:this|these)\s+(?:\w+\s+){0,3}?(?:documents?|manuals?|cop(?:y|ies)|publications?|pages?|notes?|books?)"
_BLOCKS = re.compile(
    rf"\b{_DOCUMENT_SUBJECT}\s+(?:is|are|has|have)\s+not\s+(?:been\s+)?(?:{words.FAA}[\s-]+approved|approved\s+by\s+(?:the\s+)?"
    rf"{words.FAA})|\b{_DOCUMENT_SUBJECT}\s+(?:is|are)\s+(?:intended\s+)?(?:provided\s+)?for\s+(?:reference|information|training)"
    r"(?:\s+purposes)?\s+only\b|\buncontrolled\s+cop(?:y|ies)\b(?!\s+(?:when|if|once))"
    r"|\bnot\s+(?:to\s+be\s+used|for\s+use|intended|valid)?\s*(?:in|for|on)\s+(?:the\s+)?(?:aircraft\s+)?maintenance\b"
    r"|\bdo\s+not\s+use\s+(?:this\s+\w+\s+)?(?:for|in)\s+(?:aircraft\s+)?maintenance\b",
    re.IGNORECASE,
)
_BLOCK_LINE = re.compile(
    r"^[\s*<>(\[-]*(?:for\s+(?:reference|training|information)(?:\s+(?:use|purposes))?\s+only|reference\s+only|training\s+use\s+only"
    r"|for\s+training\s+purposes\s+only)[\s*<>)\].!-]*$",
    re.IGNORECASE | re.MULTILINE,
)
_PAPER = re.compile(
    r"\buncontrolled\s+(?:if|when|once)\s+(?:printed|copied|downloaded)|\b(?:printed\s+copies|hard\s*copies|prints)\s+are\s+uncontrolled"
    r"|\b(?:dimensions?|torques?|values?|figures?|weights?|numbers?|illustrations?|drawings?|views?)\b[^.;\n]{0,60}?\bfor\s+reference"
    r"(?:\s+only)?\b",
    re.IGNORECASE,
)


def find_approval_words(text: str) -> list[ApprovalWords]:
    """Every stamp, sentence and notice that speaks of approval, in order; none overlaps another.

    A grant is found only in wordings of a closed list that stand at the start of their sentence or line, speak of
    "this" publication, and have nothing beside them that denies, delays, limits, quotes or asks. Letters misread by
    OCR never grant: "FAA APPR0VED" is not found, and "N0T" is read as "not".
    """
    plain = plain_dashes(text)
    found: list[ApprovalWords] = []

    def take(kind: ApprovalKind, start: int, end: int) -> None:
        if all(end <= one.start or start >= one.end for one in found):
            found.append(ApprovalWords(kind, text[start:end], start, end))

    for stamp in find_stamps(plain):
        take(_STAMP_KINDS[stamp.meaning], stamp.start, stamp.end)
    for start, end in _notices(plain, _PAPER):
        take(ApprovalKind.PAPER, start, end)
    for start, end in _notices(plain, _BLOCKS):
        take(ApprovalKind.BLOCKS, start, end)
    for match in _BLOCK_LINE.finditer(plain):
        take(ApprovalKind.BLOCKS, *_trimmed(plain, *match.span()))
    for start, end in sentence_spans(plain):
        kind = _sentence_kind(plain, start, end)
        if kind:
            take(kind, *_trimmed(plain, start, end))
    return sorted(found, key=lambda one: one.start)


_STAMP_KINDS = {
    Stamp.FAA: ApprovalKind.GRANT,
    Stamp.DESIGNEE: ApprovalKind.DESIGNEE,
    Stamp.FOREIGN: ApprovalKind.FOREIGN,
    Stamp.ACCEPTED: ApprovalKind.ACCEPTED,
    Stamp.UNSIGNED: ApprovalKind.MENTION,
}


def _notices(plain: str, pattern: re.Pattern) -> Iterator[tuple[int, int]]:
    for match in pattern.finditer(plain):
        yield match.span()


def _trimmed(plain: str, start: int, end: int) -> tuple[int, int]:
    part = plain[start:end]
    return start + len(part) - len(part.lstrip()), end - len(part) + len(part.rstrip())


def _sentence_kind(plain: str, start: int, end: int) -> ApprovalKind | None:
    sentence = plain[start:end]
    if _LIMITATIONS.search(sentence) and not _said_elsewhere(
        plain, start, start + _LIMITATIONS.search(sentence).start()
    ):
        before = sentence[: _LIMITATIONS.search(sentence).start()]
        if not _takes_back(before) and "?" not in sentence:
            return ApprovalKind.LIMITATIONS
    if _NOT_REQUIRED.search(sentence):
        return ApprovalKind.NOT_REQUIRED
    for kind, pattern in (*_SENTENCES, *_AFTER_APPROVAL_LABEL):
        match, offset = _at_start(pattern, sentence)
        if match:
            return _checked(kind, plain, start, offset, match, sentence)
    if not _SPEAKS_OF_APPROVAL.search(sentence):
        return None
    return _not_a_grant(sentence)


def _at_start(pattern: re.Pattern, sentence: str) -> tuple[re.Match | None, int]:
    """A match at the start of the sentence, or after heading lines that no blank line parts from it."""
    offset = 0
    while True:
        match = pattern.match(sentence, offset)
        line_end = sentence.find("\n", offset)
        if match or line_end < 0 or not _is_heading(sentence[offset:line_end], sentence[line_end:]):
            return match, offset
        offset = line_end + 1


def _is_heading(line: str, rest: str) -> bool:
    """A short line in capitals above a sentence in small letters."""
    return line == line.upper() and rest != rest.upper() and len(line.split()) <= 8 and not _takes_back(line)


def _checked(
    kind: ApprovalKind, plain: str, start: int, offset: int, match: re.Match, sentence: str
) -> ApprovalKind:
    """The kind, unless something beside the words takes it back."""
    rest = words.WORK_MODAL.sub("and", sentence[match.end() :])
    if kind is ApprovalKind.NOT_REQUIRED:
        return kind
    if "?" in sentence:
        return ApprovalKind.HOPE
    if _said_elsewhere(plain, start, start + offset):
        return ApprovalKind.MENTION
    core = match[0]
    for reading in (core, *_readings(rest)):
        if words.NEGATION.search(reading):
            return ApprovalKind.NEGATED
        if words.HOPE.search(reading):
            return ApprovalKind.HOPE
        if words.LIMITED.search(reading):
            return ApprovalKind.PARTIAL
    return kind


def _takes_back(part: str) -> bool:
    return any(
        pattern.search(reading)
        for reading in _readings(part)
        for pattern in (words.NEGATION, words.HOPE, words.LIMITED, words.INSTRUCTION)
    )


_DIGITS_AS_LETTERS = (str.maketrans("0135", "oles"), str.maketrans("0135", "oies"))


def _readings(part: str) -> tuple[str, ...]:
    """The text as it stands, and with digits that OCR puts for letters read back ("n0t", "unti1", "exc3pt")."""
    return part, *(
        re.sub(
            r"(?<=[A-Za-z])[0135]+(?=[A-Za-z])|(?<=[A-Za-z]{2})[0135]\b",
            lambda m, t=t: m[0].translate(t),
            part,
        )
        for t in _DIGITS_AS_LETTERS
    )


def _said_elsewhere(plain: str, start: int, place: int) -> bool:
    """Whether the words at `place` are quoted, prescribed, or listed under a line that denies them."""
    paragraph = plain.rfind("\n\n", 0, place)
    before = plain[max(paragraph, 0) : place]
    quoted = before.count('"') % 2 == 1 or before.count("\u201c") > before.count("\u201d")
    lead = plain[max(0, place - 220) : place].rstrip()
    introduced = bool(words.INTRODUCES_WORDING.search(lead))
    previous = lead[max(lead.rfind(". "), lead.rfind(".\n")) + 1 :]
    denied = lead.endswith((":", ",")) and _takes_back(previous)
    return quoted or introduced or denied


def _not_a_grant(sentence: str) -> ApprovalKind:
    for reading in _readings(sentence):
        if words.NEGATION.search(reading):
            return ApprovalKind.NEGATED
    if words.INSTRUCTION.search(sentence):
        return ApprovalKind.INSTRUCTION
    if words.HOPE.search(sentence) or "?" in sentence:
        return ApprovalKind.HOPE
    return ApprovalKind.MENTION
