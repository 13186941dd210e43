"""Approval stamps: "FAA APPROVED" standing by itself on its line, with name, office, date or nothing beside it."""

import re
from dataclasses import dataclass
from enum import StrEnum

from indexer.trade import approval_vocabulary as words
from indexer.trade.dates import find_dates


class Stamp(StrEnum):
    """Whose stamp it is. UNSIGNED: a form's blank, waiting for a name or a date."""

    FAA = "faa"
    DESIGNEE = "designee"
    FOREIGN = "foreign"
    ACCEPTED = "accepted"
    UNSIGNED = "unsigned"


@dataclass(frozen=True, slots=True)
class FoundStamp:
    meaning: Stamp
    start: int
    end: int


_CORES = (
    (
        Stamp.DESIGNEE,
        rf"(?:{words.FAA}[\s-]*)?(?:DER|ODA)[ -]*approved(?:\s+by)?"
        rf"|approved\s+by\s+(?:an\s+)?authorized\s+representatives?\s+of\s+(?:the\s+)?(?:[A-Z][\w.&-]*\s+){{0,5}}ODA\b",
    ),
    (Stamp.FAA, rf"{words.FAA}[ -]*approved(?:\s+by)?|approved\s+by\s*:?\s*(?:the\s+)?{words.FAA}"),
    (Stamp.FOREIGN, rf"{words.FOREIGN}[ -]*approved(?:\s+by)?"),
    (Stamp.ACCEPTED, rf"{words.FAA}[ -]*accepted"),
)
_PAGE_WORDS = re.compile(
    r"\b(?:page|pg|section|sect|chapter)\.?\s*[0-9A-Z]{1,4}(?:[.-][0-9]{1,4})?(?:\s+of\s+[0-9]+)?\b|\brev(?:ision)?\.?\s*(?:no\.?\s*)?"
    r"(?:[A-Z]|[0-9]{1,3})\b|\b[0-9]{2}-[0-9]{2}-[0-9]{2}\b|\b[0-9]+(?:[.-][0-9]+)?\b",
    re.IGNORECASE,
)
_LABELS = re.compile(
    r"\b(?:by|dated?|on|name|signed|signature|title|for|the|of|and|acting|manager|chief|director|administrator|no|number)\b",
    re.IGNORECASE,
)
_OFFICE = re.compile(
    r"\bfederal\s+aviation\s+administration\b|\bFAA\b|\bACO\b|\b(?:[A-Z][a-z]+\s+){0,3}aircraft\s+certification\s+(?:office|division|service)\b"
    r"|\bcertification\s+(?:office|branch)\b|\bflight\s+standards\s+(?:district\s+)?office\b|\bFSDO\b|\bairframe\s+branch\b"
    r"|\bengineering\s+(?:and\s+manufacturing\s+)?(?:branch|district\s+office)\b|\b(?:small\s+airplane|rotorcraft|transport\s+airplane)"
    r"\s+directorate\b|\bODA-[0-9]+-[A-Z]{2}\b|\bDERT?-[0-9]+(?:-[A-Z]{2})?\b|\bEASA\.\s?21J\.\s?[0-9]+\b|\bDOA\b",
    re.IGNORECASE,
)
_INITIALED_NAME = re.compile(r"\b(?:[A-Z]\.\s*){1,3}[A-Z][A-Za-z'-]+\b")
_NAME_WORD = re.compile(r"[A-Z][A-Za-z'-]*\.?")
_NOT_A_NAME = frozenset(
    """data part parts manual repair repairs alteration alterations alternative alternate amoc method methods program programs
    procedure procedures supplement supplements section material materials equivalent substitute source sources vendor station
    designee instruction instructions drawing drawings list lists model models airplane airplanes aircraft helicopter rotorcraft
    flight handbook equipment type design maintenance inspection inspections limitation limitations limits document documents
    bulletin bulletins service letter letters configuration installation installations modification modifications change changes
    test report form facility shop mechanic training school required requirement requirements see refer use using per in
    accordance with is are was were be been to that which or note notes warning caution this these all any other operator
    operations specification specifications minimum master mel mmel stc pma tso icas ica ad sb yes unknown status approval
    approved accepted process processes fastener fasteners lubricant oil fuel fluid engine propeller overhaul technical content
    pages page figure table item items step steps task tasks work standard standards system systems unit units code codes
    substitution deviation deviations representative authority holder holders company""".split()
)


def find_stamps(plain: str) -> list[FoundStamp]:
    """Stamps in text with plain dashes, line by line. A line of a running sentence is never a stamp."""
    found = []
    lines = _lines(plain)
    for number, (start, line) in enumerate(lines):
        for meaning, core in _CORES:
            match = re.search(rf"(?<![\w/-])(?:{core})(?![\w-])", line, re.IGNORECASE)
            if match:
                above = lines[number - 1][1] if number else ""
                below = lines[number + 1][1] if number + 1 < len(lines) else ""
                state = _stamp_state(line[: match.start()], line[match.end() :], above, below)
                if state is not None:
                    begin = start + len(line) - len(line.lstrip())
                    found.append(
                        FoundStamp(meaning if state else Stamp.UNSIGNED, begin, start + len(line.rstrip()))
                    )
                break
    return found


def _lines(plain: str) -> list[tuple[int, str]]:
    lines, start = [], 0
    for line in plain.split("\n"):
        lines.append((start, line))
        start += len(line) + 1
    return lines


def _stamp_state(before: str, after: str, above: str, below: str) -> bool | None:
    """True for a stamp, False for a blank one, None for no stamp."""
    around = f"{before} | {after} | {above} | {below}"
    if words.NEGATION.search(around) or words.HOPE.search(around) or words.LIMITED.search(around):
        return None
    if _beside(before, may_name=False) is None or _runs_on(above):
        return None
    if "___" in after or ". . ." in after or "....." in after:
        return False if _beside(re.sub(r"[_.]{3,}", " ", after), may_name=True) is not None else None
    beside = _beside(after, may_name=True)
    if beside is None:
        return None
    if not beside and below.strip():
        return True if _beside(below, may_name=True) else (None if _words_left(below) else True)
    return True


def _runs_on(above: str) -> bool:
    """Whether the line above is running text that the stamp's line would continue."""
    above = above.strip()
    prose = len(re.findall(r"\b[a-z]+\b", above)) >= 3
    return bool(above) and not above.endswith((".", "!", ";")) and (prose or above.endswith((",", ":", "-")))


def _beside(part: str, may_name: bool) -> bool | None:
    """What stands beside the stamp: True = name, office or date; False = nothing but page marks; None = other words."""
    dates = find_dates(part)
    for date in reversed(dates):
        part = part[: date.start] + " " + part[date.end :]
    office = bool(_OFFICE.search(part))
    part = _OFFICE.sub(" ", part)
    initialed = bool(_INITIALED_NAME.search(part))
    if initialed and any(
        word.lower() in _NOT_A_NAME for word in re.findall(r"[A-Za-z]+", _INITIALED_NAME.search(part)[0])
    ):
        return None
    part = _INITIALED_NAME.sub(" ", part, count=1)
    left = _words_left(part)
    signed = bool(dates) or office or initialed
    if not may_name and (left or office or initialed):
        return None
    if not left:
        return signed
    named = (
        signed
        and len(left) <= 4
        and all(_NAME_WORD.fullmatch(w) and w.lower().strip(".") not in _NOT_A_NAME for w in left)
    )
    return True if named else None


def _words_left(part: str) -> list[str]:
    """The words that are neither page marks nor labels."""
    part = _LABELS.sub(" ", _PAGE_WORDS.sub(" ", part))
    return re.findall(r"[A-Za-z][A-Za-z'.-]*", part)
