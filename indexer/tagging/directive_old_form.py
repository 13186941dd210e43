"""The parts of a directive from before the lettered headings: 1940s to about 2004, each given a heading.

`47-51-08 REPUBLIC: Applies to All Model ...` and `Compliance required ...`; later `89-24-09 BEECH: Amendment
39-6381. Applicability: ... Compliance: ...` with (a), (b), (c) without headings. What such a paragraph is
about follows from its words, so that it can be read by the same rules as a lettered one.
"""

import re

from indexer.tagging.directive_layout import Paragraph
from indexer.tagging.flow import Flow

APPLICABILITY, COMPLIANCE, ACTIONS = "Applicability", "Compliance", "Required Actions"
EFFECTIVE, ALTERNATIVE, FLIGHT = (
    "Effective Date",
    "Alternative Methods of Compliance",
    "Special Flight Permits",
)
INCORPORATED, AFFECTED, NOTE = "Incorporation by Reference", "Affected ADs", "Note"
OTHER = "Additional Information"

_APPLIES = re.compile(
    r"\bApplicability\s*:\s*|\b(?=Applies\s+(?:only\s+)?to\b)|\b(?=Applies:)", re.IGNORECASE
)
_HEAD_LENGTH = 900  # characters between the number line and the words that say what it applies to
# The words that end what a directive applies to. Where none of the first is printed, the second kind ends it:
# a list of models with marks of its own must not be cut short.
_COMPLIANCE = re.compile(
    r"\b(?:Compliance|COMPLIANCE)\s*:|\b(?:Compliance|COMPLIANCE)\s+(?:is\s+)?(?:required|REQUIRED)\b"
    r"|\bRequired\s+as\s+indicated\b|\bNOTE\s*\d{0,2}\s*[:.]|\bNote\s+\d{1,2}\s*:"
)
_WORK = re.compile(
    r"\bUnless\s+(?:already\s+|previously\s+)?accomplished\b|\bTo\s+be\s+accomplished\b"
    r"|\bAccomplish\s+the\s+following\b"
    r"|\bTo\s+(?:prevent|detect|ensure|preclude|correct|reduce|minimize|assure|provide|prohibit|eliminate"
    r"|avoid|address)\b"
    r"|\bAs\s+a\s+result\s+of\b|\bWithin\s+(?:the\s+next\s+)?\d|\bPrior\s+to\b|\bBefore\s+further\b"
    r"|\bAt\s+(?:the\s+)?next\b"
    r"|\n\s*\(a\)\s"
)
_TO_COMPLIANCE = 6000  # characters
_ITEM = re.compile(
    r"(?:^|\n)[ \t]*(?P<mark>\((?P<letter>[a-z]{1,2}|[A-Z])\)|NOTE\s*\d{0,2}\s*[:.]"
    r"|Note\s*\d{1,2}\s*:)[ \t]*(?=\S)"
)
_TAIL = re.compile(
    r"(?:(?<=\n)|(?<=[.)] ))[ \t]*(?:This\s+(?:amendment|directive|airworthiness\s+directive|AD"
    r"|supersedes\s+AD|revises\s+AD)\b[^.;]{0,80}?"
    r"(?:\b(?:effective|supersedes|revises|rescinds|replaces|cancels)\b|(?<=\sAD)\b)|\(?Supersedes\s+AD\b"
    r"|All\s+persons\s+affected\s+by\s+this\b|Issued\s+in\b)"
)
_KINDS = (
    (ALTERNATIVE, re.compile(
        r"\b(?:alternative|alternate|equivalent)\s+(?:methods?|means)\b.{0,200}\b(?:approved|FAA|Manager"
        r"|Chief)\b", re.IGNORECASE)),
    (EFFECTIVE, re.compile(
        r"^\W*This\s+(?:amendment|directive|airworthiness\s+directive|AD|rule)\b.{0,80}?\beffective\b",
        re.IGNORECASE)),
    (AFFECTED, re.compile(
        r"^\W*(?:This\s+(?:(?:amendment|directive|airworthiness\s+directive|AD)\b.{0,80}?)?\b(?:supersedes"
        r"|revises|rescinds|replaces|cancels)\b"
        r"|Supersedes\s+AD\b)", re.IGNORECASE)),
    (INCORPORATED, re.compile(
        r"\bincorporat\w+\s+by\s+reference\b.{0,80}\bapproved\s+by\s+the\s+Director\b", re.IGNORECASE)),
    (FLIGHT, re.compile(r"\bspecial\s+flight\s+permits?\b|\b21\.197\b", re.IGNORECASE)),
    (OTHER, re.compile(r"^\W*All\s+persons\s+affected\s+by\s+this\b|^\W*Issued\s+in\b", re.IGNORECASE)),
)  # fmt: skip


def old_paragraphs(flow: Flow, start: int, end: int) -> tuple[Paragraph, ...]:
    """The parts of the directive whose number line ends at `start`; () when it does not say to what it
    applies."""
    applies = _APPLIES.search(flow.plain, start, min(end, start + _HEAD_LENGTH))
    if not applies:
        return ()
    found = []
    if flow.plain[start : applies.start()].strip(" .;"):
        found.append(Paragraph("", AFFECTED, start, start, applies.start()))
    near = min(end, applies.end() + _TO_COMPLIANCE)
    after = _COMPLIANCE.search(flow.plain_lines, applies.end(), near) or _WORK.search(
        flow.plain_lines, applies.end(), end
    )
    stop = after.start() if after else end
    found.append(Paragraph("", APPLICABILITY, applies.start(), applies.end(), stop))
    cuts = _cuts(flow, stop, end)
    for (place, letter, opening), following in zip(cuts, [*(cut[2] for cut in cuts[1:]), end], strict=True):
        if flow.plain[place:following].strip():
            found.append(Paragraph(letter, _kind(flow, place, following, letter), opening, place, following))
    return tuple(found)


def _cuts(flow: Flow, start: int, end: int) -> list[tuple[int, str, int]]:
    """(where its words begin, letter, where it opens) of each part after the applicability."""
    marks: dict[int, tuple[int, str, int]] = {start: (start, "", start)}
    for item in _ITEM.finditer(flow.plain_lines, start, end):
        marks[item.start("mark")] = (item.end(), item["letter"] or "note", item.start("mark"))
    for tail in _TAIL.finditer(flow.plain_lines, start, end):
        place = tail.start() + len(tail[0]) - len(tail[0].lstrip())
        marks.setdefault(place, (place, "", place))
    return [marks[place] for place in sorted(marks)]


def _kind(flow: Flow, start: int, end: int, letter: str) -> str:
    if letter == "note":
        return NOTE
    words = flow.plain[start:end]
    for heading, pattern in _KINDS:
        if pattern.search(words):
            return heading
    if not letter and re.match(r"\W*(?:Compliance|COMPLIANCE|Required\s+as)\b", words) and len(words) < 400:
        return COMPLIANCE
    return ACTIONS
