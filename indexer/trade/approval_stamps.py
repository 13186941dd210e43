"""Approval stamps: "FAA APPROVED" on a line by itself, with the name, office or date that makes it one."""

import re
from dataclasses import dataclass
from enum import StrEnum
from itertools import dropwhile, takewhile

from indexer.trade import approval_vocabulary as words
from indexer.trade.closed_grants import (
    is_neutral,
    is_repair_title,
    is_running_notice,
    is_subject_line,
    is_work,
    may_lead,
    names_row,
)
from indexer.trade.dates import find_dates
from indexer.trade.signature_lines import OFFICE, name_in, only_signature, town, without_dates, words_left


class Stamp(StrEnum):
    """Whose stamp it is. BARE: no name, office or date by it or under it, as on a title or a blank form."""

    FAA = "faa"
    DESIGNEE = "designee"
    FOREIGN = "foreign"
    ACCEPTED = "accepted"
    BARE = "bare"


@dataclass(frozen=True, slots=True)
class FoundStamp:
    meaning: Stamp
    start: int
    end: int


_CORES = tuple(
    (meaning, re.compile(rf"(?<![\w/-])(?:{core})(?![\w-])", re.IGNORECASE))
    for meaning, core in (
        (
            Stamp.DESIGNEE,
            rf"(?:{words.FAA}[ /-])?(?:DER|ODA)[ -]approved(?: by)?"
            r"|approved by (?:an )?authorized representatives? of (?:the )?"
            r"(?:(?-i:[A-Z][\w.&'-]*) ){0,5}ODA\b",
        ),
        (
            Stamp.FAA,
            rf"{words.FAA}[ -](?:approved(?: by)?|approval date)|approved by ?:? ?(?:the )?{words.FAA}",
        ),
        (Stamp.FOREIGN, rf"{words.FOREIGN}[ -]approved(?: by)?"),
        (Stamp.ACCEPTED, rf"{words.FAA}[ -]accepted"),
    )
)
_WITH_INITIAL = re.compile(r"\b[A-Z]\. ?[A-Z][A-Za-z'-]+")
_BLANK = re.compile(r"[_.]{3,}")
_TO_TICK = re.compile(r"\[[ _]*\]|\([ _]*\)|[\u2610\u25a1]")
# Who signs for a company: not the authority, whatever stands above the name.
_COMPANY_POST = re.compile(
    r"\b(?:quality|inspection|engineering|production|accountable|maintenance|technical)"
    r" (?:manager|director)\b"
    r"|\b(?:manager|director),? (?:of )?(?:quality|inspection|engineering|production|maintenance)\b"
    r"|\bchief (?:inspector|engineer)\b|\bpresident\b|\brepair station\b",
    re.IGNORECASE,
)
# Two lines of a signature block that say together who approves: "APPROVED BY" over "Federal Aviation ...".
_APPROVED_BY = re.compile(r"^approved(?: by)?(?: ?: ?| |$)(?P<rest>.*)$", re.IGNORECASE)
_AUTHORITY = re.compile(rf"(?<![\w/-]){words.FAA}(?![\w/-])", re.IGNORECASE)
# A heading over rows that each have an approval of their own, of what the row names and not of the page.
_OVER_A_LIST = re.compile(
    r"\b(?:log|record|list|index|table|summary)\sof\b.{0,20}"
    r"\b(?:revisions?|approvals?|(?:effective )?pages|changes|contents|supplements?)\b"
    r"|\brevision (?:record|log|status|history)\b",
    re.IGNORECASE,
)
_NOTICE = re.compile(
    r"\W*(?:not|no longer|void|withdrawn|cancel\w*|expired|revoked|rescinded|superseded|obsolete|drafts?"
    r"|samples?|specimen|pending|unless|except|only|until|invalid|proposed|unsigned)\b",
    re.IGNORECASE,
)
_NUMBERED_ROW = re.compile(r"\b[A-Z]{0,3}[0-9]+-[0-9]+(?:-[0-9]+)*\b")
_LINES_BELOW = 8  # a signature block: name, title, office, date


def find_stamps(text: str) -> list[FoundStamp]:
    """Stamps in squeezed text, line by line. A line of a running sentence is never a stamp."""
    lines = _lines(text)
    found: list[FoundStamp] = []
    dates: set[str] = set()
    listed = False
    for number, (start, line) in enumerate(lines):
        heading = " ".join(other for _, other in lines[max(0, number - 2) : number + 1])
        listed = listed or bool(_OVER_A_LIST.search(heading))
        core = _core(line, lines[number + 1 :])
        if core is None:
            continue
        meaning, before, after = core
        above, joined_above = _lines_above(lines[:number])
        below = [other for _, other in lines[number + 1 :] if other and not is_running_notice(other)]
        below = below[:_LINES_BELOW]
        if _denied_above(lines[:number]) or _lone_word_joins([other for _, other in lines[number + 1 :]]):
            continue
        if _stands_alone(line, before, after, above, joined_above, below):
            signed = not listed and _signed(before, after, below)
            signed = signed and _in_closed_company(lines[:number], lines[number + 1 :])
            found.append(FoundStamp(meaning if signed else Stamp.BARE, start, start + len(line)))
            dates |= {date.text for date in find_dates("\n".join((line, *below[:1])))} if signed else set()
    several = len(dates) > 1 and len(found) > 1  # rows, each with the approval of what it names
    return [FoundStamp(Stamp.BARE, one.start, one.end) for one in found] if several else found


def _in_closed_company(above: list[tuple[int, str]], below: list[tuple[int, str]]) -> bool:
    """Whether the nearest lines above and below a stamp that are not a signature's and not of known words of
    titles and headings are sentences of work, or there are none."""
    if above and names_row(above[-1][1]):
        return False
    over = list(dropwhile(is_known_line, _upward(above)))
    said = " ".join(reversed(list(takewhile(bool, over))))
    if said and not may_lead(re.split(r"(?<=[.!?;:])\s", said)[-1]):
        return False
    if any(
        is_repair_title(line) and is_neutral(line) for line in takewhile(bool, (other for _, other in below))
    ):
        return False  # rows that each name a repair
    under = list(dropwhile(is_known_line, (other for _, other in below)))
    said = " ".join(takewhile(bool, under))
    return not said or is_work(re.split(r"(?<=[.!?;:])\s", said)[0])


def is_known_line(line: str) -> bool:
    """Whether a line, empty or not, is one of a signature or of known words of titles and headings."""
    return only_signature(line) or is_neutral(line) or is_subject_line(line)


def _lines_above(lines: list[tuple[int, str]]) -> tuple[str, str]:
    """The nearest line above that says more than page marks and dates, and the same where no blank line parts
    it from the stamp, else ""."""
    joined = True
    for other in _upward(lines):
        if not other:
            joined = False
        elif words_left(other):
            return other, other if joined else ""
    return "", ""


def _denied_above(lines: list[tuple[int, str]]) -> bool:
    """Whether the unfinished lines right above a stamp ("PROPOSED" over "SUPPLEMENT") say it is not so."""
    block = list(takewhile(lambda other: other and not other.endswith((".", "!", ";")), _upward(lines)))[:3]
    return any(_NOTICE.match(other) for other in block)


def _upward(lines: list[tuple[int, str]]) -> list[str]:
    return [other for _, other in reversed(lines)]


def _lone_word_joins(below: list[str]) -> bool:
    """Whether the block under a stamp ends in one word by itself: a notice, or a misread one."""
    for other in below:
        if not other:
            return False
        if not only_signature(other):
            return re.fullmatch(r"\W*[A-Za-z]+\W*", other) is not None
    return False


def _core(line: str, below: list[tuple[int, str]]) -> tuple[Stamp, str, str] | None:
    """Whose stamp a line is, with the words before and after the ones that make it one; None for no stamp."""
    for meaning, core in _CORES:
        match = core.search(line)
        if match:
            return meaning, line[: match.start()], line[match.end() :]
    over = _APPROVED_BY.match(line)
    if over and only_signature(over["rest"]):
        block = [other for _, other in below if other][:_LINES_BELOW]
        signature = list(takewhile(only_signature, block))
        named = any(_AUTHORITY.search(other) and not town(other) for other in signature)
        blank = any(_BLANK.search(other) for other in signature)
        if named and not blank and any(find_dates(other) for other in signature):
            return Stamp.FAA, "", over["rest"]
    return None


def _lines(text: str) -> list[tuple[int, str]]:
    lines, start = [], 0
    for line in text.split("\n"):
        lines.append((start, line))
        start += len(line) + 1
    return lines


def _stands_alone(
    line: str, before: str, after: str, above: str, joined_above: str, below: list[str]
) -> bool:
    """Whether only page marks, names, offices and dates share the line, and no sentence runs through it."""
    if "?" in line or any(_TO_TICK.search(part) for part in (line, *below[:3])):
        return False
    if any(_COMPANY_POST.search(part) for part in (after, *below)):
        return False
    if words.takes_back(without_dates(before)) or words.takes_back(without_dates(after)):
        return False
    if words_left(before) or OFFICE.search(before) or not only_signature(after):
        return False
    if words.INTRODUCES_WORDING.search(above) or _runs_on(above, joined_above):
        return False
    if any(_is_notice(other) for other in below):
        return False
    after_block = next((other for other in below if not only_signature(other)), "")
    return not any(_runs_into(other) for other in (*below[:1], after_block) if other)


def _runs_on(above: str, joined_above: str) -> bool:
    """Whether the line above is text that the stamp's line continues, or denies what it introduces."""
    # A lone word above a stamp is a notice ("SAMPLE") or a misread one; which, nobody can tell.
    if re.fullmatch(r"\W*(?!approvals?\b)[A-Za-z]+\W*", joined_above, re.IGNORECASE):
        return True
    short_notice = len(joined_above.split()) <= 5 and words.takes_back(without_dates(joined_above))
    if short_notice or words.unreadable(joined_above):
        return True
    if above.endswith((".", "!", ";")):
        return False
    small = len(re.findall(r"\b[a-z]+\b", above))
    prose = small >= (3 if joined_above else 4)
    unfinished = re.search(
        r"\b(?:is|are|was|were|be|been|the|an?|of|by|to|and|or|with|for|in|on|that|which|as|it)$",
        above,
        re.IGNORECASE,
    )
    led_in = joined_above.endswith((",", "-", ":")) and not re.search(
        r"\bapproval:$", joined_above, re.IGNORECASE
    )
    return prose or led_in or bool(unfinished) or words.takes_back(without_dates(above))


def _is_notice(below: str) -> bool:
    """Whether a line below says, in three words at most beside dates and page marks, that it is not so."""
    said = without_dates(below)
    return len(words_left(below)) <= 3 and words.takes_back(said)


def _runs_into(below: str) -> bool:
    """Whether the line below continues or takes back the stamp's line."""
    if _NOTICE.match(below):
        return True
    short = len(words_left(below)) <= 8
    if re.match(r"by\b", below) and only_signature(below):
        return False
    return below[0].islower() or (short or below[0] == "(") and words.takes_back(without_dates(below))


def _signed(before: str, after: str, below: list[str]) -> bool:
    """Whether an office or date stands on the stamp's line or in the signature block under it.

    Two words in capitals alone are as often a thing ("Seat Belts") or an item ("A. Seats") as a name. Rows
    of numbers or of several dates are a list of what is approved, not a signature.
    """
    block = [f"{before} {after}"]
    for line in below:
        if not only_signature(line):
            break
        block.append(line)
    rows = [line for line in block[1:] if _NUMBERED_ROW.search(without_dates(OFFICE.sub(" ", line)))]
    dated = [line for line in block if find_dates(line)]
    office = any(OFFICE.search(line) for line in block)
    if any(find_dates(row) for row in rows) or len(dated) > 1:
        return False
    if not dated and any(re.search(r"\bdated?\W*$", line, re.IGNORECASE) for line in block):
        return False  # the place for the date is empty
    names = [name[0] for line in block if (name := name_in(line))]
    if not office and not all(_WITH_INITIAL.search(name) for name in names):
        return False
    blank = any("___" in line for line in block)
    return (office or bool(dated)) and (not blank or office or bool(names))
