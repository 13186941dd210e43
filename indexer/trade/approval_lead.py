"""Words right before an approval that make it another's: quoted, listed, led in, or under a heading."""

import re

from indexer.trade import approval_vocabulary as words
from indexer.trade.closed_grants import is_neutral

APPROVAL_HEADING = re.compile(
    r"^(?:\(?[0-9A-Za-z]{1,3}[.)] ?){0,3}(?:FAA |DER |engineering |regulatory )?approvals?:?$",
    re.IGNORECASE,
)
_BOX = re.compile(r"(?:\[[\s_]*\]|\([\s_]*\)|[\u2610\u2611\u2612\u25a1])\s*$")  # to be ticked, or ticked
# Headings with a colon that leave the sentence below them its own; any other colon introduces or lists it.
_LEADS_IN_ITS_OWN = re.compile(
    r"\b(?:approvals?|approved|limitations?|notes?|notice|general|introduction|subject|purpose|description|date"
    r"|(?:repair|figure|section|chapter|page|revision)\s\S{1,12})\s?:$",
    re.IGNORECASE,
)


def at_start(pattern: re.Pattern, sentence: str) -> re.Match | None:
    """A match at the start of the sentence, or after heading lines that no blank line parts from it."""
    offset = 0
    while True:
        match = pattern.match(sentence, offset)
        line_end = sentence.find("\n", offset)
        if match or line_end < 0 or not _is_heading(sentence[offset:line_end], sentence[line_end:]):
            return match
        offset = line_end + 1


def _is_heading(line: str, rest: str) -> bool:
    """A short line in capitals above a sentence in small letters, or one with a capital to each long word; in
    print that is all capitals no line can be told for a heading."""
    closed = is_neutral(line) and rest != rest.upper() or line.rstrip(" :").lower().endswith("approval")
    return closed and not line.endswith((".", ",")) and not words.takes_back(line)


def _all_titled(text: str) -> bool:
    """Whether every long word has its capital: then a heading cannot be told from its sentence."""
    names = [word for word in text.split()[:12] if len(word) > 3 and word[0].isalpha()]
    return len(names) > 1 and all(word[0].isupper() for word in names)


def said_elsewhere(plain: str, place: int) -> bool:
    """Whether the words at `place` are quoted, prescribed, or listed under a line that denies them."""
    lead = plain[max(0, place - 220) : place].rstrip()
    previous = lead[max(lead.rfind(". "), lead.rfind(".\n")) + 1 :]
    denied = lead.endswith((":", ",")) and words.takes_back(previous)
    sentence_before = lead.rstrip(".")
    sentence_before = sentence_before[max(sentence_before.rfind(". "), sentence_before.rfind(".\n")) + 1 :]
    if words.POINTS_ON.search(sentence_before) and words.takes_back(sentence_before):
        return True
    unfinished = re.search(r"[^.!?:;]$", lead) and words.NEGATION.search(lead[lead.rfind("\n") + 1 :])
    if unfinished or _BOX.search(lead):
        return True
    led_in = lead.endswith(":") and not _LEADS_IN_ITS_OWN.search(lead)
    return quoted(plain, place) or denied or led_in or bool(words.INTRODUCES_WORDING.search(lead))


def quoted(plain: str, place: int) -> bool:
    """Whether quotation marks are open at `place`, within its paragraph."""
    before = plain[max(plain.rfind("\n\n", 0, place), 0) : place]
    return before.count('"') % 2 == 1 or before.count("\u201c") > before.count("\u201d")
