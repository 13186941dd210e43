"""What may be entered: the value of a shop entry checked for its kind, and read. Pure."""

import datetime
import re
from enum import StrEnum

from indexer.library.problems import EntryRefused
from indexer.library.records import EntryKind, ReviewCause
from indexer.tagging.numbering import NumberTags
from indexer.tagging.tags import StandingValue
from indexer.trade.chapters import ChapterNumber, Scheme, is_chapter, parse_number
from indexer.trade.evidence import Basis
from indexer.trade.publication_types import PublicationType

IDENTITY_KINDS = frozenset(
    {EntryKind.TYPE, EntryKind.NUMBER, EntryKind.TITLE, EntryKind.REVISION, EntryKind.DATE}
)
# Standing rests on these, so that none of them has an effect before a second person agrees.
TWO_PERSONS = IDENTITY_KINDS - {EntryKind.TITLE}
# Reasons a page offers for one tap. They name neither words nor a document.
QUICK_REASONS = ("Read on the page", "The contents page says so", "Known from the work", "Asked the maker")
_ORDER = (
    StandingValue.BLOCKED,
    StandingValue.UNDETERMINED,
    StandingValue.INFORMATION,
    StandingValue.ACCEPTABLE,
    StandingValue.APPROVED,
)
_WORDS: dict[EntryKind, type[StrEnum]] = {
    EntryKind.TYPE: PublicationType,
    EntryKind.STANDING: StandingValue,
    EntryKind.SETTLED: ReviewCause,
}


def height(value: StandingValue) -> int:
    """How much a standing lets one do with the data; an entry that makes it more raises it."""
    return _ORDER.index(value)


def check_raising_reason(reason: str) -> None:
    """Refuse a quick reason, or several, for what two persons answer for: only words or a document show it.

    Raises EntryRefused.
    """
    rest = " ".join(re.findall(r"\w+", reason.casefold()))
    for quick in QUICK_REASONS:
        rest = rest.replace(quick.casefold(), " ")
    if not rest.strip():
        raise EntryRefused(
            f"«{reason}» is no reason for what a second person is to agree to",
            "Write the words printed there, or name the document that says so.",
        )


def checked_value(kind: EntryKind, value: str) -> str:
    """The value in its one written form. Raises EntryRefused when it is none of its kind."""
    text = " ".join(value.split())
    if kind is EntryKind.CHAPTERS:
        return ";".join(chapters_given(text))
    if kind in _WORDS:
        allowed = [each.value for each in _WORDS[kind]]
        word = text.partition(": ")[0] if kind is EntryKind.SETTLED else text
        if word not in allowed:
            raise EntryRefused(f"«{value}» is no {_NAMES[kind]}", f"Give one of these: {', '.join(allowed)}.")
    elif kind is EntryKind.DATE:
        try:
            return datetime.date.fromisoformat(text).isoformat()
        except ValueError as problem:
            raise EntryRefused(
                f"«{value}» is no date", "Write it as year-month-day: 2031-05-12."
            ) from problem
    elif not text:
        raise EntryRefused(f"no {kind.value} is given", "Say what it should be.")
    return text


_NAMES = {
    EntryKind.TYPE: "type of publication",
    EntryKind.STANDING: "standing",
    EntryKind.SETTLED: "doubt that can be dismissed",
}


def chapters_given(text: str) -> tuple[str, ...]:
    """Numbers parted by ";" or ",", each in its one form and once: "32", "32-41"; () for none.

    Raises EntryRefused for what is no assigned chapter.
    """
    given = (part.strip() for part in text.replace(",", ";").split(";"))
    return tuple(dict.fromkeys(str(_number(part)) for part in given if part))


def numbers_of(value: str) -> tuple[ChapterNumber, ...]:
    """The numbers that a kept value of kind CHAPTERS holds; () = no chapter."""
    return tuple(_number(part) for part in value.split(";") if part)


def drops_printed(value: str, numbers: NumberTags) -> bool:
    """Whether these chapters leave out a number that is printed at a passage. One under it keeps it.

    value    of an entry of kind CHAPTERS
    numbers  as tagging gives them, without what the shop says
    """
    given = numbers_of(value)
    printed = [tag.value for tag in numbers if tag.evidence.basis is Basis.PRINTED]
    return any(
        not any(each == number or number.covers(each) for each in given)
        for number in printed
        if number.scheme is not Scheme.OWN
    )


def _number(part: str) -> ChapterNumber:
    number = parse_number(part)
    ata = number.ata() if number else None
    if number is None or ata is None or not is_chapter(ata.chapter):
        raise EntryRefused(
            f"«{part}» is no assigned chapter",
            "Give chapters as the trade writes them: 32, 32-41 or 32-41-05; several parted by a semicolon.",
        )
    return number
