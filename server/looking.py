"""A question -> what the engine finds: numbers understood, other words beside those typed, slips, any word.

Words that only frame the question are left out first (framing.py).

In this order, and each step only when the one before it found nothing:

    all words, or what else they are called
    the same with slips of the fingers put right, for words that stand nowhere in the library
    any of the words, slips put right; after "any of:" always

Of three words and more, any will do also when hardly a passage holds them all: nobody knows every word that a
manual uses, and the passage with the answer may lack one of them. Those that hold all come first.
"""

from dataclasses import dataclass, replace
from functools import partial
from typing import Any

from indexer.errors import NothingToSearchFor
from indexer.library.folding import folded
from indexer.library.fulltext import Filters, FullText, FullTextQuery, FullTextResult
from indexer.library.records import ShopWord
from indexer.library.shop_words import shop_words
from indexer.library.slips import is_one_slip
from indexer.library.word_forms import is_spelled_as_form, word_forms
from indexer.tagging.tags import StandingValue
from indexer.trade.chapters import ChapterNumber, Scheme
from server.framing import Framed, without_frame
from server.number_reading import NumbersRead, read_numbers
from server.ocr_readings import readings_of
from server.opened import OpenedLibrary
from server.question import Question
from server.wording import AS_TYPED, BEGUN, AlsoLooked, Forms, Source, Wording, wording_of

EVERYTHING = Filters(standings=tuple(StandingValue))  # every passage; an engine wants some filter
SEVERAL = 3  # words, of which some will do where
HARDLY_ANY = 3  # passages or fewer hold them all


@dataclass(frozen=True, slots=True)
class Slip:
    """A word that stands nowhere in the library, and the library's word looked for instead."""

    typed: str
    taken: str
    others: tuple[str, ...] = ()

    def fields(self) -> dict[str, Any]:
        return {"typed": self.typed, "looked_for": self.taken, "others": list(self.others)}


@dataclass(frozen=True, slots=True)
class Looked:
    """What was found, and everything that was done to the question on the way.

    with_all   with any_word, how many of the hits hold all the words
    left_out   words that only frame the question, as typed
    subject    words of the question before what they are on: brakes on the Hedgeling; else all of them
    """

    result: FullTextResult
    query: FullTextQuery
    numbers: NumbersRead
    wording: Wording
    slips: tuple[Slip, ...] = ()
    with_all: int = 0
    left_out: tuple[str, ...] = ()
    subject: tuple[str, ...] = ()

    @property
    def any_word(self) -> bool:
        return self.query.any_word


def look(
    library: OpenedLibrary,
    question: Question,
    filters: Filters,
    limit: int,
    per_chapter: int,
    as_typed: bool = False,
    all_words: bool = False,
    misread: bool = True,
    begun: bool = False,
) -> Looked:
    """Ask the engine.

    as_typed    look for the words and numbers as they stand, and for nothing else
    all_words   some of the words will not do
    misread     look also for what OCR may have made of the words; never done with as_typed
    begun       the last word is still being typed: it will do as the beginning of a word; likewise
    Raises NothingToSearchFor, NoIndex.
    """
    engine = library.engine
    if as_typed:
        numbers = NumbersRead(question, filters)
        found = _search(engine, numbers, AS_TYPED, limit, per_chapter)
        any_word = question.any_word and len(found.query.words) > 1
        if all_words or (not any_word and _enough(found) and not _hardly_any(engine, found, Filters())):
            return found
        return _any_word(engine, found, limit, per_chapter)
    framed = without_frame(question)
    last = _last_word(question) if begun else ""
    found = _understood(library, framed.question, filters, limit, per_chapter, all_words, misread, last)
    if question.any_word and not all_words and not found.any_word and len(found.query.words) > 1:
        found = _any_word(engine, found, limit, per_chapter)
    return replace(found, left_out=framed.left_out, subject=_corrected(framed, found.slips))


def _understood(
    library: OpenedLibrary,
    question: Question,
    filters: Filters,
    limit: int,
    per_chapter: int,
    all_words: bool,
    misread: bool,
    last: str,
) -> Looked:
    """`last` = the word that is still being typed; "" = none is."""
    engine = library.engine
    held = partial(_held, engine)
    numbers = read_numbers(question, filters, held)
    named = numbers.filters if filters == Filters() else read_numbers(question, Filters(), held).filters
    shop = tuple(shop_words(library.catalogue))
    seen = partial(readings_of, library.catalogue, engine) if misread else _no_readings
    wording = _with_begun(engine, _wording(engine, numbers, shop, seen), numbers.question, last)
    found = _search(engine, numbers, wording, limit, per_chapter)
    if not all_words and _hardly_any(engine, found, named):
        return _any_word(engine, found, limit, per_chapter)
    if found.result.total or not numbers.question.words:
        return found
    slips = _slips(engine, numbers.question, found.wording)
    corrected = found
    if slips:
        put_right = replace(numbers, question=_put_right(numbers.question, slips))
        wording = _with_begun(engine, _wording(engine, put_right, shop, seen), put_right.question, last)
        corrected = replace(_search(engine, put_right, wording, limit, per_chapter), slips=slips)
        if not all_words and _hardly_any(engine, corrected, named):
            return _any_word(engine, corrected, limit, per_chapter)
        if corrected.result.total:
            return corrected
    if all_words or _enough(found):
        return found
    return _any_word(engine, corrected, limit, per_chapter)


def to_mark(library: OpenedLibrary, question: Question) -> FullTextQuery:
    """What to mark on a page that a search led to: everything that was looked for."""
    if not question.asks:
        return question.query(Filters())
    try:
        return look(library, question, Filters(), 0, 0).query
    except NothingToSearchFor:
        return question.query(Filters())


def _search(engine: FullText, numbers: NumbersRead, wording: Wording, limit: int, per_chapter: int) -> Looked:
    filters = numbers.filters
    if not numbers.question.asks and filters == Filters():
        filters = EVERYTHING
    query = numbers.question.query(filters, also=wording.for_engine)
    return Looked(engine.search(query, limit, per_chapter), query, numbers, wording)


def _any_word(engine: FullText, found: Looked, limit: int, per_chapter: int) -> Looked:
    query = replace(found.query, any_word=True)
    result = engine.search(query, limit, per_chapter)
    return replace(found, query=query, result=result, with_all=found.result.total)


def _enough(found: Looked) -> bool:
    """Whether asking for any word could find nothing more."""
    return bool(found.result.total) or len(found.query.words) < 2


def _hardly_any(engine: FullText, found: Looked, named: Filters) -> bool:
    """Whether some passages hold all of several words, but hardly any.

    It is decided without the filters that were chosen, by those only that the question `named` itself: so
    choosing one shows a part of the same hits.
    """
    if len(found.query.words) < SEVERAL:
        return False
    total = found.result.total
    if total <= HARDLY_ANY and found.query.filters != named:
        total = engine.search(replace(found.query, filters=named), 0, 0).total
    return 0 < total <= HARDLY_ANY


def _wording(engine: FullText, numbers: NumbersRead, shop: tuple[ShopWord, ...], misread: Forms) -> Wording:
    filters = numbers.filters
    chapters = (*filters.chapters, *(section[:2] for section in filters.sections))
    return wording_of(numbers.question, shop, chapters, partial(_forms, engine), misread)


def _last_word(question: Question) -> str:
    """The word at the very end of what was typed; "" where a phrase ends there."""
    at_end = question.places and question.places[-1][1] == len(question.text)
    return question.words[-1] if at_end else ""


def _with_begun(engine: FullText, wording: Wording, question: Question, last: str) -> Wording:
    """The same with words that begin with the one that is still being typed."""
    if not last or last not in question.words[-1:]:
        return wording
    others = tuple(engine.beginning_with(last))
    if not others:
        return wording
    begun = AlsoLooked((last,), others, Source.BEGINNING, BEGUN)
    return replace(wording, also=(*wording.also, begun))


def _no_readings(word: str) -> tuple[str, ...]:
    return ()


def _forms(engine: FullText, word: str) -> tuple[str, ...]:
    """Other forms of a word; none of one that is no regular form and looks like a slip: lineing is lining."""
    forms = word_forms(word, engine.knows)
    if not forms or engine.knows(word) or is_spelled_as_form(word):
        return forms
    nearest = next(iter(engine.suggest(word, 1)), "")
    is_slip = nearest and nearest not in forms and is_one_slip(folded(word)[0], nearest)
    return () if is_slip else forms


def _held(engine: FullText, number: ChapterNumber) -> bool:
    """Whether something is filed under a number; a JASC code or a subject, also where it is printed."""
    ata = number.ata()
    if number.section is None:
        return ata is not None and _any_passage(engine, FullTextQuery(filters=Filters((ata.chapter,))))
    if number.scheme is Scheme.ATA and number.subject is None:
        return _any_passage(engine, FullTextQuery(filters=Filters(sections=(str(number),))))
    return _any_passage(engine, FullTextQuery((str(number),)))


def _any_passage(engine: FullText, query: FullTextQuery) -> bool:
    return engine.search(query, 0, 0).total > 0


def _slips(engine: FullText, question: Question, wording: Wording) -> tuple[Slip, ...]:
    """Words that may be slips. Never one with a digit in it, nor one that a list of words knows."""
    known = {word for each in wording.also if each.source is not Source.WORD_FORM for word in each.words}
    slips = []
    for word in dict.fromkeys(question.words):
        if word in known or any(letter.isdigit() for letter in word):
            continue
        if suggested := tuple(engine.suggest(word)):
            slips.append(Slip(word, suggested[0], suggested[1:]))
    return tuple(slips)


def _corrected(framed: Framed, slips: tuple[Slip, ...]) -> tuple[str, ...]:
    instead = {slip.typed: slip.taken for slip in slips}
    return tuple(instead.get(word, word) for word in framed.subject)


def _put_right(question: Question, slips: tuple[Slip, ...]) -> Question:
    instead = {slip.typed: slip.taken for slip in slips}
    return replace(question, words=tuple(instead.get(word, word) for word in question.words))
