"""The systems that a question names, by number or in words: each has a complete listing to go to."""

from collections.abc import Mapping

from indexer.trade.chapters import ChapterNumber
from server.number_reading import NumbersRead
from server.question import Question
from server.system_asked import number_name, system_title
from server.system_records import Meaning
from server.system_scope import chapter_of
from server.system_words import UnknownSystem, systems_meant

MOST = 3  # offered beside the hits


def systems_named(numbers: NumbersRead, counts: Mapping[str, int]) -> tuple[Meaning, ...]:
    """What a question that is only a number, or the name of a system in words, asks of a whole system.

    A part of a chapter is followed by its chapter: 32-40, 32.
    counts   chapter -> hits; a system of a chapter without any is left out where another has some
    """
    if numbers.alone:
        named = [_meaning(number, f"{number_name(number)} is asked for.") for number in numbers.numbers]
    elif _may_be_a_name(numbers.question):
        named = _by_name(numbers.question)
        named = [each for each in named if _hits(each, counts)] or named
    else:
        return ()
    found: dict[ChapterNumber, Meaning] = {}
    for each in named:
        chapter = chapter_of(each.number)
        found.setdefault(each.number, each)
        found.setdefault(chapter, _meaning(chapter, f"The whole chapter {chapter}."))
    return tuple(found.values())[:MOST]


def _by_name(question: Question) -> tuple[Meaning, ...]:
    """By chapter and JASC titles and the thesaurus; () when none has the words."""
    try:
        return systems_meant(" ".join(question.words), {})
    except UnknownSystem:
        return ()


def _may_be_a_name(question: Question) -> bool:
    return bool(question.words) and not question.phrases and not question.excluded


def _hits(meaning: Meaning, counts: Mapping[str, int]) -> int:
    return counts.get(chapter_of(meaning.number).chapter, 0)


def _meaning(number: ChapterNumber, reason: str) -> Meaning:
    return Meaning(number, system_title(number), reason)
