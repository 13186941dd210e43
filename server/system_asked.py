"""The system that a question names by number, in whatever way it is written. Pure.

32, ATA 32, chapter 32, 32-00       the chapter
32-41, 32.41.00, 324100             a section, a subject
3245, JASC 3245                     a JASC code; four digits of no code are chapter and section
SNS 32-41, a data module code       S1000D
a task number                       its chapter, section and subject
"""

import re

from indexer.errors import UnknownChapter
from indexer.trade.chapter_tables import jasc_groups, jasc_rows
from indexer.trade.chapters import (
    ChapterNumber,
    Scheme,
    chapter_title,
    find_numbers,
    is_chapter,
    jasc_title,
    parse_number,
)
from indexer.trade.collisions import widened
from indexer.trade.dashes import plain_dashes
from server.system_records import Meaning
from server.system_scope import chapter_of

_SCHEME = re.compile(r"(?P<scheme>jasc|sns|ata)\b[\s:-]*(?:code\s*|chapter\s*)?(?P<rest>.*)", re.IGNORECASE)
_CHAPTER_WORD = re.compile(r"(?:(?:ata\s*)?(?:chapter|chap\.?|ch\.?)|ata)\s*", re.IGNORECASE)
_SIX = re.compile(r"([0-9]{2})([0-9]{2})([0-9]{2})")
_FOUR = re.compile(r"[0-9]{4}")
_ASIDE = re.compile(r"\s*\([^)]*\)")
_NUMBER_LIKE = re.compile(r"[0-9][0-9 .-]*")


def numbers_meant(asked: str) -> tuple[Meaning, ...]:
    """What a question that is a number can mean, the one taken first; () when it is no number.

    Raises UnknownChapter for a number of a chapter that there is not.
    """
    field = " ".join(plain_dashes(asked).split())
    given = _SCHEME.fullmatch(field)
    if given and given["scheme"].casefold() in ("jasc", "sns"):
        scheme = Scheme(given["scheme"].upper())
        number = parse_number(given["rest"], scheme)
        if number is None or (scheme is Scheme.JASC and number.chapter not in jasc_groups()):
            raise UnknownChapter(asked)
        word = "JASC" if scheme is Scheme.JASC else "an S1000D system code"
        return _once([_meaning(number, f"Asked for as {word}."), *_others(number)])
    bare = _CHAPTER_WORD.sub("", field, count=1)
    if (six := _SIX.fullmatch(bare)) and is_chapter(six[1]):
        bare = "-".join(six.groups())
    named = bare != field
    if not _NUMBER_LIKE.fullmatch(bare):
        return _found_in(field)
    if _FOUR.fullmatch(bare):
        return _four_digits(asked, bare, named)
    number = parse_number(bare.zfill(2) if len(bare) == 1 else bare.strip(" .-"), Scheme.ATA)
    if number is None:
        return _found_in(field)
    if number.section is None and not named and chapter_of(_jasc_group(number)) != number:
        jasc = _jasc_group(number)  # 85 is a piston engine to the FAA, and hardly ever a fuel cell
        others = [_meaning(number, f"Chapter {number} of ATA.")] if is_chapter(number.chapter) else []
        return _once([_meaning(jasc, f"{number} is a group of JASC codes."), *others, *_others(jasc)])
    if is_chapter(number.chapter):
        return _once([_meaning(number, "Taken as an ATA number."), *_others(number)])
    raise UnknownChapter(asked)


def _four_digits(asked: str, digits: str, named: bool) -> tuple[Meaning, ...]:
    ata = ChapterNumber(digits[:2], digits[2:])
    jasc = ChapterNumber(digits[:2], digits[2:], scheme=Scheme.JASC)
    meanings = []
    if digits in jasc_rows() and not named:
        meanings.append(_meaning(jasc, f"{digits} is a JASC code."))
    if is_chapter(ata.chapter):
        meanings.append(_meaning(ata, f"Taken as ATA {ata}."))
    if digits in jasc_rows() and named:
        meanings.append(_meaning(jasc, f"{digits} is also a JASC code."))
    if not meanings:
        raise UnknownChapter(asked)
    return _once([*meanings, *_others(meanings[0].number)])


def _jasc_group(number: ChapterNumber) -> ChapterNumber:
    """The JASC codes with the same first two digits, where there are any; else the number itself."""
    in_table = number.chapter in jasc_groups()
    return ChapterNumber(number.chapter, scheme=Scheme.JASC) if in_table else number


def _found_in(field: str) -> tuple[Meaning, ...]:
    """A task number, a data module code or other words that hold one number."""
    found = {each.number: each for each in find_numbers(field)}
    if len(found) != 1:
        return ()
    ((number, each),) = found.items()
    if number.scheme is Scheme.OWN or len(each.text) < len(field) / 2:
        return ()
    return _once([_meaning(number, f"Read from «{each.text}» ({each.form})."), *_others(number)])


def _others(number: ChapterNumber) -> list[Meaning]:
    """What else the same digits can be."""
    others = []
    if number.scheme is not Scheme.JASC and number.chapter in jasc_groups():
        code = ChapterNumber(number.chapter, number.section, scheme=Scheme.JASC)
        if number.section is None and chapter_of(code) != chapter_of(number):
            others.append(_meaning(code, f"JASC {number.chapter} is another system."))
        elif number.section and number.subject is None and str(code) in jasc_rows():
            others.append(_meaning(code, f"{code} is also a JASC code."))
    if number.scheme is Scheme.JASC and number.section and is_chapter(number.chapter):
        ata = ChapterNumber(number.chapter, number.section)
        others.append(_meaning(ata, f"The same digits as an ATA number, {ata}."))
    if number.scheme is not Scheme.SNS:
        sns = ChapterNumber(number.chapter, scheme=Scheme.SNS)
        if sns.ata() is None:
            others.append(_meaning(sns, f"S1000D gives {number.chapter} another meaning."))
    chapter = chapter_of(number)
    if chapter != number:
        others.append(_meaning(chapter, f"The whole chapter {chapter}."))
    return others


def _once(meanings: list[Meaning]) -> tuple[Meaning, ...]:
    return tuple({meaning.number: meaning for meaning in reversed(meanings)}.values())[::-1]


def _meaning(number: ChapterNumber, reason: str) -> Meaning:
    return Meaning(number, system_title(number), reason)


def system_title(number: ChapterNumber) -> str:
    """ "Landing gear", "Tire tube": of the number where a list has it, else of the chapter around it."""
    if number.scheme is Scheme.JASC and str(number) in jasc_rows():
        return jasc_title(str(number)).capitalize()
    chapter = chapter_of(number)
    if number.scheme is Scheme.JASC and number.section is None and chapter.chapter != number.chapter:
        return "Reciprocating engine"
    if chapter.scheme is Scheme.JASC:
        return "Hardware"
    if chapter.scheme is Scheme.SNS:
        return f"S1000D system {number.chapter}"
    title = _ASIDE.sub("", chapter_title(chapter.chapter))
    code = f"{number.chapter}{number.section}"
    is_subsystem = number.section and number.subject in (None, "00") and code in jasc_rows()
    agrees = is_subsystem and widened(ChapterNumber(code[:2], code[2:], scheme=Scheme.JASC))[:1] == (
        ChapterNumber(number.chapter, number.section),
    )
    if not agrees:
        return title
    narrower = jasc_title(code).lower().removeprefix(f"{title.lower()} ")
    return f"{title}: {narrower}"


def number_name(number: ChapterNumber) -> str:
    """The number with the word of its numbering where it is not ATA: "32-41", "JASC 3245", "SNS 32-41"."""
    return str(number) if number.scheme is Scheme.ATA else f"{number.scheme} {number}"
