"""How near a number stands to the number asked for: on it, perhaps, or elsewhere in the chapter. Pure.

How far a JASC code goes among ATA numbers is for indexer/trade/collisions.py to say. A data module's system
code is held against the others by three digits, with care (S1000D numbering list: the air vehicle's systems
resemble ATA).
"""

from enum import StrEnum
from functools import cache

from indexer.trade.chapter_tables import jasc_rows
from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.collisions import widened


class Reach(StrEnum):
    """What a number is to the one asked for."""

    ON = "on the system"
    WIDER = "filed under the whole chapter or a wider part of it"
    WITH_CARE = "in another numbering, which agrees by three digits and with care"
    ELSEWHERE = "in another part of the chapter"
    OUTSIDE = "not on the system"


def reach(asked: ChapterNumber, number: ChapterNumber) -> Reach:
    """How near `number` stands to `asked`. A manual's own numbers are outside: they are no chapter."""
    if Scheme.OWN in (asked.scheme, number.scheme):
        return Reach.OUTSIDE
    if asked.covers(number):
        return Reach.ON
    mine, theirs = chapter_of(asked), chapter_of(number)
    if mine != theirs:
        return Reach.OUTSIDE
    if number.covers(asked) or _whole(number):
        return Reach.WIDER
    if number.scheme is asked.scheme:
        return Reach.ELSEWHERE
    mine, theirs = _by_three_digits(asked), _by_three_digits(number)
    if mine is None or theirs is None or mine.covers(theirs) or theirs.covers(mine):
        return Reach.WITH_CARE
    return Reach.ELSEWHERE


def chapter_of(number: ChapterNumber) -> ChapterNumber:
    """The system a number is listed under: its ATA chapter, else the chapter in its own scheme (JASC 14)."""
    ata = number.ata()
    return ata.whole_chapter() if ata else number.whole_chapter()


@cache
def chapters_to_read(asked: ChapterNumber) -> tuple[str, ...]:
    """First two digits, in any scheme, of the numbers that may be on the system: 72 and 85 for chapter 72."""
    chapter = chapter_of(asked)
    found = {asked.chapter, chapter.chapter}
    for code in jasc_rows():
        jasc = ChapterNumber(code[:2], code[2:], scheme=Scheme.JASC)
        if chapter_of(jasc) == chapter:
            found.add(jasc.chapter)
    return tuple(sorted(found))


def _whole(number: ChapterNumber) -> bool:
    return not ((number.section or "") + (number.subject or "")).strip("0")


def _by_three_digits(number: ChapterNumber) -> ChapterNumber | None:
    """The ATA subsystem (32-40) that a number stands in; None where its third digit says nothing of it."""
    if number.scheme is Scheme.JASC:
        reach_of_code = widened(number)
        return reach_of_code[0] if len(reach_of_code) > 1 else None
    return ChapterNumber(chapter_of(number).chapter, f"{(number.section or '0')[0]}0")
