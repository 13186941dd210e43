"""The search box: what was typed -> what to look for. Pure.

    brake lining            both words, anywhere in the passage
    "master cylinder"       these words in this order
    -helicopter             passages without this word; -"ground run" works too
    32-41, D4410-1          numbers are words like any other
    any of: flap trim       passages with any of the words; those with all of them stand first

A quote mark right after a digit, outside a quote, is an inch mark (3/8" bolt) and parts words.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace

from indexer.errors import QueryProblem, UnclosedQuote, UnknownChapter, UnknownStanding, UnknownType
from indexer.library.fulltext import NOT_NUMBERED, Also, Filters, FullTextQuery
from indexer.tagging.tags import StandingValue
from indexer.trade.chapters import Scheme, is_chapter, parse_number
from indexer.trade.publication_types import PublicationType, parse_type

NO_NUMBER = "none"  # how a filter asks for passages without a chapter number
_QUOTES = str.maketrans("“”„‟«»″", '"' * 7)
_ANY_OF = re.compile(r"any of:", re.IGNORECASE)
_MINUS = "-\u2212\u2013"


@dataclass(frozen=True, slots=True)
class Question:
    """What was typed, taken apart.

    any_word "any of:" stands before it: one of the words is enough
    places   where each word stands in the text: text[start:end]; () for words that were not typed there
    """

    text: str
    words: tuple[str, ...] = ()
    phrases: tuple[str, ...] = ()
    excluded: tuple[str, ...] = ()
    places: tuple[tuple[int, int], ...] = ()
    any_word: bool = False

    @property
    def asks(self) -> bool:
        """Whether it names anything to look for."""
        return bool(self.words or self.phrases)

    @property
    def runs(self) -> list[tuple[int, int]]:
        """Words that stand side by side, nothing else between them: words[first:end] for each run."""
        runs: list[tuple[int, int]] = []
        for at in range(len(self.words)):
            between = self.text[self.places[at - 1][1] : self.places[at][0]] if at and self.places else ""
            if at and not between.strip('"').strip():
                runs[-1] = (runs[-1][0], at + 1)
            else:
                runs.append((at, at + 1))
        return runs

    def query(self, filters: Filters, any_word: bool = False, also: tuple[Also, ...] = ()) -> FullTextQuery:
        return FullTextQuery(self.words, self.phrases, self.excluded, any_word, filters, also)


def parse_question(text: str) -> Question:
    """Take the text of the search box apart. Raises UnclosedQuote."""
    text = text.strip()
    words: list[str] = []
    places: list[tuple[int, int]] = []
    phrases: list[str] = []
    excluded: list[str] = []
    rest = text.translate(_QUOTES)
    any_of = _ANY_OF.match(rest)
    position = any_of.end() if any_of else 0
    while position < len(rest):
        if rest[position].isspace():
            position += 1
            continue
        minus = rest[position] in _MINUS and position + 1 < len(rest) and not rest[position + 1].isspace()
        position += minus
        if rest[position] == '"':
            end = rest.find('"', position + 1)
            if end < 0:
                raise UnclosedQuote(text)
            part, kept = rest[position + 1 : end].strip(), phrases
            position = end + 1
        else:
            end = _word_end(rest, position)
            part, kept = rest[position:end], words
            place = position, end
            position = end + (end < len(rest) and rest[end] == '"' and rest[end - 1].isdigit())
        if any(letter.isalnum() for letter in part):
            (excluded if minus else kept).append(part)
            if kept is words and not minus:
                places.append(place)
    return Question(text, tuple(words), tuple(phrases), tuple(excluded), tuple(places), bool(any_of))


def _word_end(text: str, start: int) -> int:
    end = start + 1
    while end < len(text) and not text[end].isspace() and text[end] != '"':
        end += 1
    return end


def must_ask(question: Question, filters: Filters) -> None:
    """Raises QueryProblem when neither words nor filters say what to look for."""
    if question.asks or any(
        (filters.chapters, filters.sections, filters.types, filters.standings, filters.publications)
    ):
        return
    if question.excluded:
        raise QueryProblem(
            f"The search «{question.text}» only says what to leave out.", "Add a word to look for."
        )
    if question.text:
        raise QueryProblem(
            f"The search «{question.text}» holds no word and no number.",
            "Type a word that names the part, the system or the job.",
        )
    raise QueryProblem("The search is empty.", "Type a word that names the part, the system or the job.")


def parse_chapter_filter(given: str) -> tuple[str, str | None]:
    """("32", None) for "32", ("32", "41") for "32-41" or "32.41.00", (NOT_NUMBERED, None) for "none".

    A subject ("32-41-05") is refused and not widened: the reader would not see that more was let through.
    Raises UnknownChapter.
    """
    if given.strip().casefold() in (NO_NUMBER, "not numbered"):
        return NOT_NUMBERED, None
    number = parse_number(given, Scheme.ATA)
    if number is None or number.subject not in (None, "00") or not is_chapter(number.chapter):
        raise UnknownChapter(given)
    return number.chapter, number.section


def parse_type_filter(given: str) -> PublicationType:
    """Raises UnknownType."""
    kind = parse_type(given)
    if kind is None:
        raise UnknownType(given, ", ".join(PublicationType))
    return kind


def parse_standing_filter(given: str) -> StandingValue:
    """Raises UnknownStanding."""
    try:
        return StandingValue(given.strip().casefold())
    except ValueError:
        raise UnknownStanding(given, ", ".join(StandingValue)) from None


def parse_filters(
    chapters: Iterable[str] = (),
    types: Iterable[str] = (),
    standings: Iterable[str] = (),
    publications: Iterable[str] = (),
) -> Filters:
    """Filters as typed or linked -> Filters. Raises QueryProblem."""
    filters = Filters()
    for given in chapters:
        chapter, section = parse_chapter_filter(given)
        if section is None:
            filters = replace(filters, chapters=_with(filters.chapters, chapter))
        else:
            filters = replace(filters, sections=_with(filters.sections, f"{chapter}-{section}"))
    if filters.chapters and filters.sections:
        raise QueryProblem(
            "Whole chapters and sections of chapters cannot be asked for together.",
            "Ask for chapters (32), or for sections (32-41, 32-42).",
        )
    return replace(
        filters,
        types=tuple(dict.fromkeys(parse_type_filter(given).value for given in types)),
        standings=tuple(dict.fromkeys(parse_standing_filter(given).value for given in standings)),
        publications=tuple(dict.fromkeys(publications)),
    )


def _with(values: tuple[str, ...], value: str) -> tuple[str, ...]:
    return values if value in values else (*values, value)
