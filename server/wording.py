"""The words of a question and what else they are called: the thesaurus, the shop's list, abbreviations. Pure.

The longest term wins, and nothing inside it is looked up by itself: "tail wheel" is looked for as "tail
landing gear", and "wheel" as nothing else. One step only: what a term leads to is not looked up again. What
stands in quotes or behind a minus is left as it is.
"""

import re
from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from typing import Any

from indexer.library.analysis import STOP_WORDS, printed_words
from indexer.library.folding import folded
from indexer.library.fulltext import Also
from indexer.library.records import ShopWord
from indexer.trade.abbreviations import meanings, told_apart
from indexer.trade.thesaurus import ACTIONS, EVERYDAY, Entry, thesaurus
from server.question import Question

MOST_OTHERS = 4  # of one term, so that no word floods the answer
JOINED = 6  # letters from which "tail wheel" and "tailwheel" are one term; shorter ones meet by chance
SHOP, MANUAL, SPOKEN, EVERYDAY_WORD, UNSURE = 0.7, 0.6, 0.4, 0.25, 0.15  # weights beside 1 for what was typed
SPELLING, FORM, MISREAD, BEGUN = 0.9, 0.8, 0.5, 0.6
_NUMBER = re.compile(r"[A-Za-z0-9]*\d[A-Za-z0-9]*-[A-Za-z0-9-]+|[A-Za-z]*\d{3,}[A-Za-z]?")


class Source(StrEnum):
    """Who says that the other words will do."""

    SHOP_LIST = "shop list"
    THESAURUS = "thesaurus"
    WORD_FORM = "word form"
    MISREADING = "misread by OCR"
    BEGINNING = "word begun"


@dataclass(frozen=True, slots=True)
class AlsoLooked:
    """Other words looked for beside some words of the question."""

    words: tuple[str, ...]  # as typed
    others: tuple[str, ...]
    source: Source
    weight: float

    def fields(self) -> dict[str, Any]:
        return {"words": list(self.words), "others": list(self.others), "source": self.source.value}


@dataclass(frozen=True, slots=True)
class Misread:
    """What OCR may have made of a word: `read` as it stands in the text, `word` as asked for."""

    read: str
    word: str

    @property
    def words(self) -> str:
        return f"Looked for «{self.read}» as a misreading of «{self.word}» by OCR."

    def fields(self) -> dict[str, Any]:
        return {"read": self.read, "word": self.word}


@dataclass(frozen=True, slots=True)
class Choice:
    """One meaning, and the question with it written out."""

    meaning: str
    question: str


@dataclass(frozen=True, slots=True)
class CouldMean:
    """An abbreviation of several meanings; `taken` "" = none was, and all of them are looked for."""

    word: str
    choices: tuple[Choice, ...]
    taken: str = ""
    why: str = ""

    def fields(self) -> dict[str, Any]:
        return {
            "word": self.word,
            "meanings": [choice.meaning for choice in self.choices],
            "taken": self.taken or None,
            "why": self.why,
        }


@dataclass(frozen=True, slots=True)
class Wording:
    """What else a question is looked for by. `chapters`: ATA numbers that its terms are found under."""

    also: tuple[AlsoLooked, ...] = ()
    could_mean: tuple[CouldMean, ...] = ()
    chapters: tuple[str, ...] = ()

    @property
    def misread(self) -> tuple[Misread, ...]:
        """What is looked for as a misreading by OCR."""
        found = (each for each in self.also if each.source is Source.MISREADING)
        return tuple(Misread(read, " ".join(each.words)) for each in found for read in each.others)

    @property
    def begun(self) -> AlsoLooked | None:
        """The word that was still being typed, and the words it was taken as the beginning of."""
        return next((each for each in self.also if each.source is Source.BEGINNING), None)

    @property
    def for_engine(self) -> tuple[Also, ...]:
        return tuple(Also(each.words, each.others, each.weight) for each in self.also)


AS_TYPED = Wording()
Forms = Callable[[str], Sequence[str]]  # other forms of one word: torque -> torqued, torquing


@dataclass(frozen=True, slots=True)
class _Listed:
    """A line of a list, ready to be met."""

    term: str
    others: tuple[str, ...]
    chapters: tuple[str, ...]
    source: Source
    weight: float
    everyday: bool


class _Terms:
    """Lists of terms, met by their printed words: case, plurals, dashes and blanks alike."""

    def __init__(self, listed: Iterable[_Listed]):
        self._by_letters: dict[str, list[tuple[tuple[str, ...], _Listed]]] = defaultdict(list)
        for one in listed:
            words = tuple(printed_words(one.term))
            if words:
                self._by_letters["".join(words)].append((words, one))
        self.longest = max((len(words) for held in self._by_letters.values() for words, _ in held), default=0)

    def met(self, words: tuple[str, ...]) -> list[_Listed]:
        """The lines whose term these words are."""
        letters = "".join(words)
        held = self._by_letters.get(letters, ())
        alike = len(letters) >= JOINED or any(words == term for term, _ in held)
        return [one for _, one in held] if alike else []


@cache
def _thesaurus_terms() -> _Terms:
    return _Terms(_from_thesaurus(entry) for entry in thesaurus())


def _from_thesaurus(entry: Entry) -> _Listed:
    everyday = entry.term.casefold() in EVERYDAY
    weight = SPOKEN if entry.backward else EVERYDAY_WORD if everyday else MANUAL
    return _Listed(entry.term, entry.others, entry.chapters, Source.THESAURUS, weight, everyday)


def _from_shop(words: Iterable[ShopWord]) -> list[_Listed]:
    """The shop's list both ways."""
    listed = [_Listed(word.term, word.manual_terms, (), Source.SHOP_LIST, SHOP, False) for word in words]
    back: dict[str, list[str]] = defaultdict(list)
    for one in listed:
        for term in one.others:
            back[term].append(one.term)
    return listed + [
        _Listed(term, tuple(spoken), (), Source.SHOP_LIST, SPOKEN, False) for term, spoken in back.items()
    ]


def wording_of(
    question: Question,
    shop_words: Iterable[ShopWord] = (),
    chapters: Sequence[str] = (),
    forms: Forms = lambda word: (),
    misread: Forms = lambda word: (),
) -> Wording:
    """What else to look for.

    chapters   ATA chapters that the answer is kept to; they tell abbreviations apart
    forms      other forms of a word that no list has
    misread    what OCR made of a word in text of this library
    """
    shop = _Terms(_from_shop(shop_words))
    lists = (shop, _thesaurus_terms())
    also: list[AlsoLooked] = []
    could_mean: list[CouldMean] = []
    found_under: list[str] = []
    for first, last in question.runs:
        at = first
        while at < last:
            end, lines = _longest(question, lists, at, last)
            here = question.words[at:end]
            several = end == at + 1 and meanings(_bare(here[0]))
            if several and not any(line.source is Source.SHOP_LIST for line in lines):
                told, looked = _abbreviation(question, at, last, chapters)
                could_mean.append(told)
                also.append(looked)
            else:
                lines = [
                    line for line in lines if not line.everyday or _says_enough(question, first, at, line)
                ]
                also += _others(here, lines)
                found_under += [chapter for line in lines for chapter in line.chapters]
            for word in here:
                if other := tuple(forms(_bare(word))):
                    also.append(AlsoLooked((word,), other, Source.WORD_FORM, FORM))
                if seen := tuple(misread(_bare(word))):
                    also.append(AlsoLooked((word,), seen, Source.MISREADING, MISREAD))
            at = end
    return Wording(tuple(also), tuple(could_mean), tuple(dict.fromkeys(found_under)))


def _longest(question: Question, lists: Sequence[_Terms], at: int, last: int) -> tuple[int, list[_Listed]]:
    """The longest term that begins at a word: where it ends, and its lines; one word and none without any."""
    most = max(terms.longest for terms in lists)
    for end in range(min(last, at + most), at, -1):
        if not printed_words(question.words[at]) or not printed_words(question.words[end - 1]):
            continue  # a stop word at either end is no part of a term
        words = tuple(printed for word in question.words[at:end] for printed in printed_words(word))
        lines = [line for terms in lists for line in terms.met(words)] if words else []
        if lines:
            return end, lines
    return at + 1, []


def _says_enough(question: Question, first: int, at: int, line: _Listed) -> bool:
    """Whether an everyday word stands for the part itself: no word before it says which part is meant.

    One that the thesaurus has in the plural must be typed so: points are breaker contacts, a point is not.
    """
    if line.term.endswith("s") and not _bare(question.words[at]).casefold().endswith("s"):
        return False
    before = _bare(question.words[at - 1]).casefold() if at > first else ""
    return not before or before in ACTIONS or before in STOP_WORDS


def _others(words: tuple[str, ...], lines: Sequence[_Listed]) -> list[AlsoLooked]:
    """Other words by source and weight, those of the shop first."""
    typed = tuple(printed for word in words for printed in printed_words(word))
    grouped: dict[tuple[Source, float], dict[tuple[str, ...], str]] = defaultdict(dict)
    for line in lines:
        spelled = tuple(printed_words(line.term))
        if spelled != typed:
            grouped[line.source, SPELLING].setdefault(spelled, line.term)
    seen = {key for spelled in grouped.values() for key in spelled}
    for line in lines:
        for other in line.others:
            printed = tuple(printed_words(other))
            if printed and printed not in seen and not _adds_nothing(typed, printed, line):
                seen.add(printed)
                grouped[line.source, line.weight][printed] = other
    return [
        AlsoLooked(words, tuple(others.values())[:MOST_OTHERS], source, weight)
        for (source, weight), others in grouped.items()
        if others
    ]


def _adds_nothing(typed: tuple[str, ...], other: tuple[str, ...], line: _Listed) -> bool:
    """Whether the others say less than the words typed, or no passage has them without the words typed."""
    if _stands_in(typed, other):
        return True
    says_less = _stands_in(other, typed)
    return says_less and (line.weight == SPOKEN or len(other) == 1 and other[0] in EVERYDAY)


def _stands_in(few: tuple[str, ...], many: tuple[str, ...]) -> bool:
    return any(many[at : at + len(few)] == few for at in range(len(many) - len(few) + 1))


def _abbreviation(
    question: Question, at: int, last: int, chapters: Sequence[str]
) -> tuple[CouldMean, AlsoLooked]:
    typed = question.words[at]
    word = _bare(typed)
    others = (*question.words[:at], *question.words[at + 1 :], *question.phrases)
    beside = {printed for other in others for printed in printed_words(other)}
    following = _bare(question.words[at + 1]) if at + 1 < last else ""
    taken = told_apart(word, beside, chapters, _NUMBER.fullmatch(following) is not None)
    choices = tuple(
        Choice(meaning.words, _written_out(question, at, meaning.words)) for meaning in meanings(word)
    )
    if taken is None:
        every = tuple(meaning.words for meaning in meanings(word))
        return CouldMean(word, choices), AlsoLooked((typed,), every, Source.THESAURUS, UNSURE)
    long_forms = (taken.meaning.words, *taken.meaning.also)
    return (
        CouldMean(word, choices, taken.meaning.words, taken.why),
        AlsoLooked((typed,), long_forms, Source.THESAURUS, MANUAL),
    )


def _written_out(question: Question, at: int, meaning: str) -> str:
    start, end = question.places[at]
    return f"{question.text[:start]}{meaning}{question.text[end:]}"


def _bare(word: str) -> str:
    """The word without the commas and stops around it."""
    return folded(word)[0].strip(".,;:?!()[]") if not word.isascii() else word.strip(".,;:?!()[]")
