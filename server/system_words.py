"""The systems that words can mean: from lists of the trade, and from where the library has the words. Pure.

Lists: chapter titles, the JASC code table's titles, the thesaurus of hangar words. A JASC code stands for the
ATA number it goes with, with care (indexer/trade/collisions.py).
"""

import re
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache

from indexer.errors import QueryProblem
from indexer.library.folding import folded, singular
from indexer.trade.abbreviations import meanings
from indexer.trade.chapter_tables import chapter_rows, jasc_rows
from indexer.trade.chapters import ChapterNumber, Scheme, is_chapter, parse_number
from indexer.trade.collisions import widened
from indexer.trade.thesaurus import ACTIONS, thesaurus_rows
from server.system_asked import system_title
from server.system_records import Meaning

_WORD = re.compile(r"[a-z0-9]+")
_SMALL = frozenset("a an and for in of on or the to with".split())
# Words that nearly every title could carry: they say nothing of which system is meant.
_SAYS_NOTHING = frozenset("system section assembly unit general reserved assigned".split())
_ASIDE = re.compile(r"\s*\([^)]*\)")
_MOST = 8  # meanings offered
_SHARE_HERE = 0.15  # of the passages with the words, from which a chapter is offered for them alone


class UnknownSystem(QueryProblem):
    """Words that no list of the trade and no passage of the library leads from to a system."""

    slug = "unknown-system"

    def __init__(self, asked: str):
        super().__init__(
            f"«{asked}» leads to no system: no title of a chapter or JASC code fits it, no hangar word does, "
            "and no chapter of this library holds it.",
            "Ask by number (32, 32-41, JASC 3245) or search for the words.",
        )


@dataclass(frozen=True, slots=True)
class _Found:
    """score: 0 to 1, how well the words fit"""

    number: ChapterNumber
    reason: str
    score: float


def systems_meant(
    asked: str,
    here: Mapping[str, int],
    listed: Collection[str] = (),
    words: str = "",
    each_word: bool = False,
    subject: Sequence[str] = (),
) -> tuple[Meaning, ...]:
    """What the words can mean, the likeliest first.

    here       chapter -> passages of this library that hold the words
    listed     ATA numbers that lists of words, the shop's among them, have beside the words
    words      of the question, slips of the fingers put right
    each_word  where no title has them all, take the titles that have one: "oxygen bottle"
    subject    those of the words that stand before what they are on: brakes on the Hedgeling
    An abbreviation of several meanings stands for those systems alone that its meanings are found under.
    Raises UnknownSystem.
    """
    content = content_words(words or asked)
    found = list(_by_abbreviation(asked))
    if not found:
        named = _by_titles(content)
        if not named and each_word:
            names = (_by_titles(content_words(" ".join(some))) for some in names_in(content, subject))
            named = next(filter(None, names), ())
        found = [*named, *_by_lists(listed), *_by_library(here)]
    if not found and each_word:
        found = [each for word in content for each in _by_titles((word,))]
    best: dict[ChapterNumber, _Found] = {}
    reasons: dict[ChapterNumber, list[str]] = {}
    for each in sorted(found, key=lambda each: -_weighed(each, here)):
        best.setdefault(each.number, each)
        reasons.setdefault(each.number, [])
        if each.reason not in reasons[each.number]:
            reasons[each.number].append(each.reason)
    if not best:
        raise UnknownSystem(asked)
    return tuple(
        Meaning(number, system_title(number), " ".join(reasons[number][:2])) for number in list(best)[:_MOST]
    )


@lru_cache(maxsize=4096)
def content_words(text: str) -> tuple[str, ...]:
    """The words that say something, in one form: "Brakes on the main wheels" -> brake, main, wheel."""
    words = (singular(word) for word in _WORD.findall(folded(text)[0]))
    return tuple(dict.fromkeys(word for word in words if word not in _SMALL))


def names_in(words: Sequence[str], subject: Sequence[str]) -> Iterator[Sequence[str]]:
    """What may be the name of a system, in order: the words, without what is done (bleed the brakes), and the
    same of the subject."""
    for some in (words, subject):
        yield some
        done = 0
        while done < len(some) and (some[done].casefold() in ACTIONS or not content_words(some[done])):
            done += 1
        if 0 < done < len(some):
            yield some[done:]


def no_systems(asked: str) -> tuple[str, ...]:
    """Meanings of an abbreviation that are no system: temporary revision, of TR; () for other words."""
    return tuple(meaning.words for meaning in meanings(asked.strip()) if not meaning.chapters)


def _by_abbreviation(asked: str) -> Iterator[_Found]:
    """The systems of its meanings, the most usual meaning first."""
    word = asked.strip()
    for rank, meaning in enumerate(meanings(word)):
        for chapter in meaning.chapters:
            yield _Found(ChapterNumber(chapter), f"{word} can mean {meaning.words}.", 1.0 - 0.01 * rank)


@lru_cache(maxsize=4096)
def _by_titles(words: tuple[str, ...]) -> tuple[_Found, ...]:
    return (*_by_thesaurus(words), *_by_chapter_title(words), *_by_jasc_title(words))


def _weighed(found: _Found, here: Mapping[str, int]) -> float:
    """How well the words fit, and how much of the library says so."""
    total = sum(here.values())
    return found.score + (0.5 * here.get(found.number.chapter, 0) / total if total else 0.0)


def _by_thesaurus(words: tuple[str, ...]) -> Iterable[_Found]:
    for row in thesaurus_rows():
        for term, said in ((row.term, ""), *((term, row.term) for term in row.manual_terms)):
            if content_words(term) != words:
                continue
            meant = f"{term}: {', '.join(row.manual_terms)}" if not said else f"{term}, in the hangar {said}"
            numbers = [parse_number(text, Scheme.ATA) for text in row.chapters]
            numbers += [_ata_of(code) for code in row.jasc_codes]
            for number in numbers:
                if number is not None:
                    yield _Found(number, f"Hangar words: {meant}.", 1.0 if not said else 0.8)


def _by_lists(listed: Iterable[str]) -> Iterable[_Found]:
    for text in listed:
        if number := parse_number(text, Scheme.ATA):
            yield _Found(number, f"The lists of words have {text} beside it.", 0.7)


def _by_chapter_title(words: tuple[str, ...]) -> Iterable[_Found]:
    for row in chapter_rows().values():
        if is_chapter(row.chapter) and (score := _fit(words, _ASIDE.sub("", row.title))):
            yield _Found(ChapterNumber(row.chapter), f"Title of chapter {row.chapter}: {row.title}.", score)


def _by_jasc_title(words: tuple[str, ...]) -> Iterable[_Found]:
    for row in jasc_rows().values():
        number = _ata_of(row.code)
        if number is not None and (score := _fit(words, row.title)):
            yield _Found(number, f"JASC {row.code}: {row.title.capitalize()}.", 0.9 * score)


def _by_library(here: Mapping[str, int]) -> Iterable[_Found]:
    total = sum(here.values())
    for chapter, count in here.items():
        if chapter and count >= _SHARE_HERE * total:
            reason = f"{count:,} of {total:,} passages here with these words stand under {chapter}."
            yield _Found(ChapterNumber(chapter), reason, 0.2)


@cache
def _ata_of(code: str) -> ChapterNumber | None:
    number = ChapterNumber(code[:2], code[2:], scheme=Scheme.JASC)
    goes_with = widened(number)
    return goes_with[0] if goes_with else number


def is_title(number: ChapterNumber, asked: str) -> bool:
    """Whether words are the very title of a chapter: engine, and 72 Engine."""
    if number.section is not None or number.scheme is not Scheme.ATA or not is_chapter(number.chapter):
        return False
    return _fit(content_words(asked), _ASIDE.sub("", chapter_rows()[number.chapter].title)) == 1.0


def _fit(words: tuple[str, ...], title: str) -> float:
    """How much of a title the words are; 0.0 when one of them is not in it."""
    theirs = set(content_words(title)) - _SAYS_NOTHING
    mine = set(words) - _SAYS_NOTHING
    if not mine or not mine <= theirs:
        return 0.0
    return len(mine) / len(theirs)
