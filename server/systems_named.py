"""The systems that a question names, by number or in words: each has a complete listing to go to."""

from collections.abc import Mapping, Sequence

from indexer.errors import UnknownChapter
from indexer.trade.chapters import ChapterNumber
from server.number_reading import YEARS, NumbersRead
from server.question import Question
from server.system_asked import number_name, numbers_meant, system_title
from server.system_records import Meaning
from server.system_scope import chapter_of
from server.system_words import UnknownSystem, is_title, names_in, systems_meant

MOST = 3  # offered beside the hits


def systems_named(
    numbers: NumbersRead, counts: Mapping[str, int], subject: Sequence[str] = ()
) -> tuple[Meaning, ...]:
    """What a question that is only a number, or the name of a system in words, asks of a whole system.

    A part of a chapter is followed by its chapter: 32-40, 32. A number is offered whether or not anything
    was found.
    counts   chapter -> hits; a system of a chapter without any is left out where another has some, unless
             its title is what was asked
    subject  words of the question before what they are on: brakes on the Hedgeling
    """
    if numbers.alone:
        named = [_meaning(number, f"{number_name(number)} is asked for.") for number in numbers.numbers]
    elif not _may_be_a_name(numbers.question):
        return ()
    elif by_number := _by_number(numbers.question):
        named = list(by_number)
    else:
        named = _by_name(numbers.question, subject, counts)
    found: dict[ChapterNumber, Meaning] = {}
    for each in named:
        chapter = chapter_of(each.number)
        found.setdefault(each.number, each)
        found.setdefault(chapter, _meaning(chapter, f"The whole chapter {chapter}."))
    return tuple(found.values())[:MOST]


def _by_number(question: Question) -> tuple[Meaning, ...]:
    """What a question of digits can mean; () for years, other numbers and words."""
    text = question.text
    if not text[:1].isdigit() or (text.isdecimal() and int(text) in YEARS):
        return ()
    try:
        return numbers_meant(text)
    except UnknownChapter:
        return ()


def _by_name(question: Question, subject: Sequence[str], counts: Mapping[str, int]) -> list[Meaning]:
    """By chapter and JASC titles and the thesaurus, a chapter of that very title first; [] when none fits."""
    for words in map(" ".join, names_in(question.words, subject)):
        try:
            named = systems_meant(words, {})
        except UnknownSystem:
            continue
        kept = [each for each in named if _hits(each, counts) or is_title(each.number, words)] or named
        return sorted(kept, key=lambda each: not is_title(each.number, words))
    return []


def _may_be_a_name(question: Question) -> bool:
    return bool(question.words) and not question.any_word and not question.phrases and not question.excluded


def _hits(meaning: Meaning, counts: Mapping[str, int]) -> int:
    return counts.get(chapter_of(meaning.number).chapter, 0)


def _meaning(number: ChapterNumber, reason: str) -> Meaning:
    return Meaning(number, system_title(number), reason)
