"""Abbreviations that mean several things: TR, MP, TSO ... told apart by the words beside them (from memory).

The table (tables/abbreviations.csv) gives each meaning with the words it keeps company with and the chapters
it is found under. Nothing is told apart by habit alone: without such a word the answer is that it may be any.
"""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from functools import cache

from indexer.trade.chapter_tables import read_table
from indexer.trade.thesaurus import split_terms

_NUMBER_FOLLOWS = "#"  # in the column of context: a number right after the abbreviation speaks for it


@dataclass(frozen=True, slots=True)
class Meaning:
    """One thing an abbreviation stands for.

    words     as manuals print it
    also      other printings of the same
    context   words that speak for it, small letters, without plural endings
    chapters  ATA chapters that speak for it, when one of them is asked for
    numbered  a number right after the abbreviation speaks for it: "SB 32-0012"
    """

    words: str
    also: tuple[str, ...]
    context: frozenset[str]
    chapters: tuple[str, ...]
    numbered: bool


@dataclass(frozen=True, slots=True)
class Taken:
    """The meaning that the company decides for, and which company it was, in words for a person."""

    meaning: Meaning
    why: str


@cache
def abbreviations() -> dict[str, tuple[Meaning, ...]]:
    """Abbreviation in capitals -> its meanings, two or more, the most usual first."""
    found: dict[str, tuple[Meaning, ...]] = {}
    for row in read_table("abbreviations.csv"):
        context = row["context"].split()
        meaning = Meaning(
            row["meaning"],
            split_terms(row["also"]),
            frozenset(word.casefold() for word in context if word != _NUMBER_FOLLOWS),
            split_terms(row["chapters"]),
            _NUMBER_FOLLOWS in context,
        )
        found[row["word"]] = (*found.get(row["word"], ()), meaning)
    return found


def meanings(word: str) -> tuple[Meaning, ...]:
    """What the abbreviation can mean, in whatever letters it is typed; () when it is not one of these."""
    return abbreviations().get(word.upper(), ())


def told_apart(
    word: str, beside: Iterable[str], chapters: Collection[str] = (), number_follows: bool = False
) -> Taken | None:
    """The one meaning that the company speaks for; None when it speaks for none, or for several alike.

    beside          the other words of the question, small letters, without plural endings
    chapters        chapters asked for ("32")
    number_follows  the next thing in the question is a number
    """
    company = set(beside)
    speaking = []
    for meaning in meanings(word):
        words = sorted(meaning.context & company)
        asked = [chapter for chapter in meaning.chapters if chapter in chapters]
        numbered = number_follows and meaning.numbered
        if weight := len(words) + 2 * len(asked) + 2 * numbered:
            speaking.append((weight, meaning, _why(words, asked, numbered)))
    speaking.sort(key=lambda one: -one[0])
    if not speaking or (len(speaking) > 1 and speaking[0][0] == speaking[1][0]):
        return None
    return Taken(speaking[0][1], speaking[0][2])


def _why(words: list[str], chapters: list[str], numbered: bool) -> str:
    parts = [f"chapter {chapter} is asked for" for chapter in chapters]
    if words:
        parts.append(f"it stands with {', '.join(f'«{word}»' for word in words)}")
    if numbered:
        parts.append("a number follows it")
    return " and ".join(parts)
