"""Chapter numbers in a question, written any way: what each was taken for, and what else it could be. Pure.

    ATA 32, chapter 32, ch. 32       the chapter becomes a filter; the other words are looked for in it
    ATA 32-41, section 32-41,        the number is looked for: 32-41
    32.41, 32 41 00, ATA 3241
    JASC 3245                        the code is looked for: 3245
    3241, 85, 32                     alone in the question: what the library has decides, and it is said

What could be two things is never read in silence, and never outside the words: not in quotes.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Any

from indexer.library.fulltext import Filters
from indexer.trade.chapter_tables import jasc_groups, jasc_rows
from indexer.trade.chapters import ChapterNumber, Scheme, chapter_title, is_chapter
from indexer.trade.collisions import warnings_for, widened
from indexer.trade.dashes import plain_dashes
from indexer.trade.number_traps import may_be_date
from indexer.trade.own_chapters import is_own_chapter
from server.question import Question

_DIGITS = r"(?P<a>\d\d)(?:(?P<joint> ?- ?|\.| )(?P<b>\d\d)(?:(?P=joint)(?P<c>\d\d))?)?"
_ANNOUNCED = re.compile(
    r"(?<!\S)(?:(?P<ata>ATA)[ :#-]*)?(?P<word>chapters?|chap|ch|sections?|sect|sec)?"
    r"(?(ata)|(?(word)|(?!)))[ .:#-]*"
    rf"(?:(?P<four>\d{{4}})|{_DIGITS})(?=[,;:]?(?!\S))",
    re.IGNORECASE,
)
_JASC = re.compile(r"(?<!\S)JASC(?: ?codes?)?[ :#-]*(?P<code>\d{4}|\d\d)(?=[,;:]?(?!\S))", re.IGNORECASE)
_GROUPS = re.compile(r"(?<!\S)(?P<a>\d\d) (?P<b>\d\d) (?P<c>\d\d)(?!\S)")
_ALONE = re.compile(r"(?P<a>\d\d)(?:(?P<joint>[ .]?)(?P<b>\d\d))?")
_BARE = re.compile(
    r"(?<!\S)(?P<a>\d\d)(?P<b>\d\d)(?=[,;:]?(?!\S))(?! *(?:%|(?:psi|rpm|hours?|hrs?|lbs?|volts?)\b))", re.I
)
_WHOLE = re.compile(r"\d\d-\d\d(?:-\d\d)?|\d\d\.\d\d\.\d\d|\d{6}")
YEARS = range(1900, 2040)


@dataclass(frozen=True, slots=True)
class OtherWay:
    """Another way to read a number: in words, and the question that asks for it."""

    words: str
    question: str
    as_typed: bool = False

    def fields(self) -> dict[str, Any]:
        return {"as": self.words, "query": self.question, "as_typed": self.as_typed}


@dataclass(frozen=True, slots=True)
class NumberTaken:
    """What a number in the question was taken for.

    number   None where it was looked for as printed, and stands for no chapter
    """

    text: str
    taken_as: str
    why: str
    number: ChapterNumber | None
    other: tuple[OtherWay, ...] = ()

    def fields(self) -> dict[str, Any]:
        return {
            "text": self.text,
            "as": self.taken_as,
            "why": self.why,
            "other": [way.fields() for way in self.other],
        }


@dataclass(frozen=True, slots=True)
class NumbersRead:
    """The question with its numbers understood.

    filters   with the chapter that the question names
    taken     what was read otherwise than it stands, or could be read otherwise
    numbers   every chapter number that the question holds
    alone     the question holds nothing else
    """

    question: Question
    filters: Filters
    taken: tuple[NumberTaken, ...] = ()
    numbers: tuple[ChapterNumber, ...] = ()
    alone: bool = False


Held = Callable[[ChapterNumber], bool]  # whether something in the library is filed under a number
Chosen = tuple[str, ...]  # chapters and sections that filters name already


@dataclass(frozen=True, slots=True)
class _Found:
    """A number at text[start:end], its reading, and the word it is looked for by ("" = it is a filter)."""

    start: int
    end: int
    taken: NumberTaken
    word: str = ""
    filters: bool = False


def read_numbers(question: Question, filters: Filters, held: Held) -> NumbersRead:
    """Understand the numbers among the words of a question."""
    masked = _words_alone(question)
    found: list[_Found] = []
    chosen = filters.chapters + filters.sections
    for read in (_announced, _jasc, _groups):
        for one in read(masked, question, held, chosen):
            if not any(one.start < other.end and other.start < one.end for other in found):
                found.append(one)
    whole = masked.strip()
    if not found and whole == question.text:
        found += _alone(whole, question, held, chosen)
    if not found:
        found += _beside_words(masked, question, held)
    changed, chapters = _applied(question, found)
    if chapters and not chosen:
        filters = replace(filters, chapters=chapters)
    numbers = [one.taken.number for one in found if one.taken.number]
    numbers += [number for word in changed.words if (number := _plain_number(word)) and number not in numbers]
    rest = [
        word for word in changed.words if not _plain_number(word) and word not in {one.word for one in found}
    ]
    return NumbersRead(
        changed,
        filters,
        tuple(one.taken for one in found if one.taken.why),
        tuple(dict.fromkeys(numbers)),
        bool(numbers) and not rest and not changed.phrases and not changed.excluded,
    )


def _words_alone(question: Question) -> str:
    """The text with everything but the words made "|", so that nothing is read across a quote."""
    text = ["|"] * len(question.text)
    for first, end in question.runs:
        if question.places:
            start, stop = question.places[first][0], question.places[end - 1][1]
            run = plain_dashes(question.text[start:stop]).replace('"', " ")
            text[start:stop] = re.sub(r"\s", " ", run)
            if start and question.text[start - 1].isspace():
                text[start - 1] = " "
            if stop < len(text):
                text[stop] = " "
    return "".join(text)


def _plain_number(word: str) -> ChapterNumber | None:
    """A number that needs no reading: 32-41, 32-41-05, 32.41.00, 324100."""
    word = plain_dashes(word)
    if not _WHOLE.fullmatch(word):
        return None
    digits = re.sub(r"\D", "", word)
    parts = [digits[at : at + 2] for at in range(0, len(digits), 2)]
    sure = len(parts) == 2 or not may_be_date(*parts) or parts[2] == "00"
    return ChapterNumber(*parts) if sure and is_chapter(parts[0]) else None


def _announced(masked: str, question: Question, held: Held, chosen: Chosen) -> Iterator[_Found]:
    for match in _ANNOUNCED.finditer(masked):
        parts = _parts(match)
        word = (match["word"] or "").casefold()
        if not is_chapter(parts[0]) or (word.startswith("sec") and len(parts) == 1 and not match["ata"]):
            continue
        if is_own_chapter(masked.casefold(), match.start(), match.end(), parts[0]):
            continue
        text, number = match.group().strip(), ChapterNumber(*parts)
        if len(parts) == 1:
            yield _chapter(text, number, match.span(), question, held, chosen)
            continue
        named = "ATA" if match["ata"] else word
        other = _jasc_way(question, match.span(), parts) if match["four"] else ()
        why = f"«{named}» stands before it." if text != str(number) else ""
        yield _Found(*match.span(), NumberTaken(text, f"ATA {number}", why, number, other), str(number))


def _chapter(
    text: str, number: ChapterNumber, span: tuple[int, int], question: Question, held: Held, chosen: Chosen
) -> _Found:
    name = f"chapter {number} {chapter_title(number.chapter)}"
    exactly = (OtherWay("the words as typed", question.text, as_typed=True),)
    if chosen and chosen != (number.chapter,):
        why = "Another chapter or section is chosen, so it was looked for as typed."
        return _Found(*span, NumberTaken(text, "words, as typed", why, None), text)
    if not held(number):
        why = f"Nothing here is filed under chapter {number}, so it was looked for as typed."
        return _Found(*span, NumberTaken(text, "words, as typed", why, None), text)
    why = "Only passages filed under this chapter are shown."
    return _Found(*span, NumberTaken(text, name, why, number, exactly), filters=True)


def _jasc(masked: str, question: Question, held: Held, chosen: Chosen) -> Iterator[_Found]:
    for match in _JASC.finditer(masked):
        code, text = match["code"], match.group().strip()
        number = ChapterNumber(code[:2], code[2:] or None, scheme=Scheme.JASC)
        if code[:2] not in jasc_groups():
            why = "It is not in the JASC table, so it was looked for as printed."
            yield _Found(*match.span(), NumberTaken(text, f"{code} as printed", why, None), code)
            continue
        if number.section is None and (ata := number.ata()):
            yield _chapter(text, ata, match.span(), question, held, chosen)
            continue
        near = tuple(
            OtherWay(f"ATA {ata}", _with(question, match.span(), f"ATA {ata}"))
            for ata in widened(number)
            if held(ata)
        )
        why = " ".join(warnings_for(number)) or "«JASC» stands before it."
        yield _Found(*match.span(), NumberTaken(text, jasc_words(number), why, number, near), code)


def _groups(masked: str, question: Question, held: Held, chosen: Chosen) -> Iterator[_Found]:
    for match in _GROUPS.finditer(masked):
        parts = (match["a"], match["b"], match["c"])
        if not is_chapter(parts[0]) or (may_be_date(*parts) and parts[2] != "00"):
            continue
        number = ChapterNumber(*parts)
        other = (OtherWay("three numbers, as typed", question.text, as_typed=True),)
        why = "It is written in three groups, as a chapter, section and subject."
        yield _Found(
            *match.span(), NumberTaken(match.group(), f"ATA {number}", why, number, other), str(number)
        )


def _alone(whole: str, question: Question, held: Held, chosen: Chosen) -> Iterator[_Found]:
    """Two or four digits that are the whole question: a chapter, a section, a JASC code, a year or a part."""
    match = _ALONE.fullmatch(whole)
    if not match:
        return
    chapter, section, span = match["a"], match["b"], (0, len(question.text))
    ways = list(_ways(chapter, section))
    printed = OtherWay(f"{whole} as printed", question.text, as_typed=True)
    taken_already = section is None and bool(chosen)
    here = [number for number in ways if not taken_already and held(number)]
    year = section is not None and match["joint"] == "" and int(whole) in YEARS
    if year or not here:
        other = tuple(_way(number) for number in ways if year or held(number))
        if ways or year:
            filed = " or ".join(dict.fromkeys(_name(number) for number in ways))
            why = "It may be a year." if year else f"Nothing here is filed under {filed}."
            if taken_already:
                why = "Another chapter or section is chosen already."
            yield _Found(*span, NumberTaken(whole, f"{whole} as printed", why, None, other), whole)
        return
    taken = here[0]
    other = (*(_way(number) for number in ways if number != taken), printed)
    why = " ".join([f"Passages here are filed under {_name(taken)}.", *warnings_for(taken)])
    if section is None and (ata := taken.ata()):
        yield _Found(*span, NumberTaken(whole, _name(taken), why, ata.whole_chapter(), other), filters=True)
    elif section is not None:
        yield _Found(*span, NumberTaken(whole, _name(taken), why, taken, other), str(taken))


def _beside_words(masked: str, question: Question, held: Held) -> Iterator[_Found]:
    """Four digits beside other words are looked for as printed; the answer says what else they could be."""
    for match in _BARE.finditer(masked):
        digits = match.group()
        here = [number for number in _ways(match["a"], match["b"]) if held(number)]
        if here and int(digits) not in YEARS:
            other = tuple(
                OtherWay(_name(number), _with(question, match.span(), _typed(number))) for number in here
            )
            why = "It stands beside other words, without a word that makes it a chapter."
            yield _Found(*match.span(), NumberTaken(digits, f"{digits} as printed", why, None, other), digits)


def _ways(chapter: str, section: str | None) -> Iterator[ChapterNumber]:
    """What two or four bare digits may be, ATA first."""
    if is_chapter(chapter):
        yield ChapterNumber(chapter, section)
    code = chapter + (section or "")
    moved = section is None and chapter in jasc_groups() and not _same_chapter(chapter)
    if moved or code in jasc_rows():
        yield ChapterNumber(chapter, section, scheme=Scheme.JASC)


def _same_chapter(group: str) -> bool:
    ata = ChapterNumber(group, scheme=Scheme.JASC).ata()
    return ata is not None and ata.chapter == group


def _jasc_way(question: Question, span: tuple[int, int], parts: tuple[str, ...]) -> tuple[OtherWay, ...]:
    code = "".join(parts)
    if code not in jasc_rows():
        return ()
    number = ChapterNumber(*parts, scheme=Scheme.JASC)
    return (OtherWay(jasc_words(number), _with(question, span, f"JASC {code}")),)


def _way(number: ChapterNumber) -> OtherWay:
    return OtherWay(_name(number), _typed(number))


def _typed(number: ChapterNumber) -> str:
    return f"{number.scheme.value} {number}"


def _name(number: ChapterNumber) -> str:
    if number.scheme is Scheme.JASC:
        return jasc_words(number)
    return f"chapter {number} {chapter_title(number.chapter)}" if number.section is None else f"ATA {number}"


def jasc_words(number: ChapterNumber) -> str:
    """ "JASC code 3241 (brake anti-skid section)"; of a group, "JASC group 85"."""
    row = jasc_rows().get(str(number))
    kind = "code" if number.section else "group"
    return f"JASC {kind} {number}" + (f" ({row.title.lower()})" if row else "")


def _parts(match: re.Match) -> tuple[str, ...]:
    if match["four"]:
        return match["four"][:2], match["four"][2:]
    return tuple(part for part in (match["a"], match["b"], match["c"]) if part)


def _with(question: Question, span: tuple[int, int], words: str) -> str:
    """The text of the question with what stands at the span written otherwise."""
    return " ".join(f"{question.text[: span[0]]} {words} {question.text[span[1] :]}".split())


def _applied(question: Question, found: list[_Found]) -> tuple[Question, tuple[str, ...]]:
    """The question with its numbers put in, and the chapters it names."""
    words, places, text = list(question.words), list(question.places), question.text
    chapters: list[str] = []
    for one in sorted(found, key=lambda each: -each.start):
        inside = [at for at, (start, end) in enumerate(places) if one.start <= start and end <= one.end + 1]
        if not inside:
            continue
        first, end = inside[0], inside[-1] + 1
        if one.filters:
            assert one.taken.number is not None
            chapters.insert(0, one.taken.number.chapter)
            gap = one.end - one.start
            text = text[: one.start] + text[one.end :]
            places = [place if place[0] < one.start else (place[0] - gap, place[1] - gap) for place in places]
            del words[first:end], places[first:end]
        elif one.word != one.taken.text:
            words[first:end], places[first:end] = [one.word], [(places[first][0], places[end - 1][1])]
    blanks = len(text) - len(text.lstrip())
    places = [(start - blanks, end - blanks) for start, end in places]
    changed = replace(question, text=text.strip(), words=tuple(words), places=tuple(places))
    return changed, tuple(dict.fromkeys(chapters))
