"""Where publications other than parts lists print a part number: directives first.

A directive may forbid a part that a parts list still shows; nothing in the list says so.
"""

import datetime
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from indexer.errors import NothingToSearchFor
from indexer.library.day import today
from indexer.library.fulltext import Filters, FullTextQuery
from indexer.library.records import PassageRecord, PublicationRecord
from indexer.library.works import DIRECTIVES
from indexer.reading.page import PassageKind
from indexer.trade.dashes import plain_dashes
from indexer.trade.evidence import Answer, Origin
from indexer.trade.part_numbers import Match, compare, without_words
from indexer.trade.publication_types import PublicationType as Type
from server.checking.directive_status import Status, name_of, status_of
from server.opened import OpenedLibrary
from server.words import date_words

MOST_READ = 200  # passages of one search that are compared letter by letter
_LEAST = 4  # letters and figures; a shorter number stands everywhere
_LONGEST_QUOTE = 240  # characters
_OF_DIRECTIVES = frozenset({*DIRECTIVES, Type.AMOC_LETTER})
_OTHERS = tuple(each.value for each in Type if each not in _OF_DIRECTIVES and each is not Type.PARTS_CATALOG)
_SENTENCE = re.compile(r"[.;:!?]\s+(?=[A-Z(\"])|\n{2,}")
_PARAGRAPH = re.compile(r"\(([a-z]{1,2}|[0-9]{1,2})\)")


@dataclass(frozen=True, slots=True)
class Printed:
    """A passage that prints a part number.

    status     of a directive on the day asked about; None = it is no directive
    paragraph  "(h)", where the heading above or the passage begins with one; "" = none
    quote      the sentence around the number, cut where it is long
    """

    passage: PassageRecord
    publication: PublicationRecord
    status: Status | None
    paragraph: str
    quote: str

    @property
    def in_force(self) -> bool:
        return self.status is not None and self.status.holds is Answer.YES

    @property
    def read_by_ocr(self) -> bool:
        return self.passage.origin is not Origin.DIGITAL


def can_be_looked_for(number: str) -> bool:
    """Whether a number is long enough to stand for one part."""
    return len(_bare(number)) >= _LEAST and any(each.isdigit() for each in number)


def in_directives(library: OpenedLibrary, number: str, on: datetime.date | None = None) -> list[Printed]:
    """Passages of the directives and letters about them that print a number, those in force first.

    on   the day, None = the library's today
    Raises NoIndex.
    """
    found, _ = _printed(library, number, tuple(each.value for each in _OF_DIRECTIVES), on)
    return sorted(found, key=_order)


def in_other_papers(library: OpenedLibrary, number: str) -> tuple[list[Printed], bool]:
    """The same of bulletins, letters, manuals and all else but parts lists, and whether there may be more.

    Raises NoIndex.
    """
    found, more = _printed(library, number, (*_OTHERS, ""), None)
    return sorted(found, key=_order), more


def _printed(
    library: OpenedLibrary, number: str, types: Sequence[str], on: datetime.date | None
) -> tuple[list[Printed], bool]:
    if not can_be_looked_for(number):
        return [], False
    spellings = dict.fromkeys((re.sub(r"\s+", "-", without_words(number)), _bare(number)))
    query = FullTextQuery(words=tuple(spellings), any_word=True, filters=Filters(types=tuple(types)))
    try:
        result = library.engine.search(query, MOST_READ, 0)
    except NothingToSearchFor:
        return [], False
    day = on or today(library.catalogue)
    records = library.catalogue.passages(each.passage_id for each in result.top)
    return list(_kept(library, number, records.values(), day)), result.total > MOST_READ


def _kept(
    library: OpenedLibrary, number: str, passages: Iterable[PassageRecord], day: datetime.date
) -> Iterator[Printed]:
    statuses: dict[str, Status | None] = {}
    for passage in passages:
        place = number_in(passage.text, number)
        if place is None or passage.kind is PassageKind.PARTS_ROW:
            continue
        publication = library.publication(passage.publication_id)
        if publication.id not in statuses:
            statuses[publication.id] = (
                status_of(library.catalogue, publication, day) if publication.type in _OF_DIRECTIVES else None
            )
        yield Printed(
            passage,
            publication,
            statuses[publication.id],
            _paragraph(passage) if publication.type in DIRECTIVES else "",
            sentence_at(passage.text, *place),
        )


def number_in(text: str, number: str) -> tuple[int, int] | None:
    """Where a text prints a part number, the same or written otherwise; None = nowhere.

    AN4-12A is not in "AN4-12AB" or "AN4-12A-3".
    """
    for found in _form(number).finditer(plain_dashes(text)):
        if compare(number, found[0]) in (Match.EXACT, Match.NORMALISED):
            return found.span()
    return None


@lru_cache(512)
def _form(number: str) -> re.Pattern[str]:
    plain, pieces = without_words(number), []
    for at, letter in enumerate(plain):
        if not letter.isalnum():
            continue
        parted = at + 1 < len(plain) and not plain[at + 1].isalnum()
        parted = parted or (letter.isalpha() and plain[at + 1 : at + 2].isdigit())  # "AN 4-12A"
        # A line may end behind a dash.
        pieces += [re.escape(letter), r"\s?[/.-]?\s?" if parted else "[/.-]?"]
    body = "".join(pieces[:-1]) or "(?!)"
    return re.compile(rf"(?<![A-Z0-9])(?<![A-Z0-9]-){body}(?![A-Z0-9])(?![-/.][A-Z0-9])", re.IGNORECASE)


def sentence_at(text: str, start: int, end: int) -> str:
    """The sentence around text[start:end]; of a long one, what stands next to it."""
    before = [found.end() for found in _SENTENCE.finditer(text, 0, start)]
    after = _SENTENCE.search(text, end)
    first, last = (before[-1] if before else 0), (after.start() + 1 if after else len(text))
    if last - first <= _LONGEST_QUOTE:
        return " ".join(text[first:last].split())
    around = (_LONGEST_QUOTE - (end - start)) // 2
    from_, to = max(first, start - around), min(last, end + around)
    from_ = first if from_ == first else text.find(" ", from_, start) + 1 or start
    to = last if to == last else max(text.rfind(" ", end, to), end)
    cut = " ".join(text[from_:to].split())
    return f"{'... ' if from_ > first else ''}{cut}{' ...' if to < last else ''}"


def _paragraph(passage: PassageRecord) -> str:
    for words in (passage.text, *reversed(passage.heading_path)):
        if (found := _PARAGRAPH.match(words.strip())) and found[1].isalpha():
            return found[0]
    return ""


def _order(each: Printed) -> tuple:
    """Directives in force, other directives, bulletins, letters, manuals; of one kind the newest first."""
    kinds = (Type.SERVICE_BULLETIN, Type.SERVICE_LETTER)
    kind = each.publication.type
    rank = 0 if each.in_force else 1 if each.status else 2 + (kinds.index(kind) if kind in kinds else 2)
    date = each.publication.date
    return (rank, -(date.toordinal() if date else 0), each.passage.publication_id, each.passage.ordinal)


def called(each: Printed) -> str:
    """What a sentence calls the publication: "AD 2031-07-11", "SB QZ62-32-0114"."""
    held = each.publication
    if held.type is Type.AMOC_LETTER:
        return f"AMOC letter of {date_words(held.date)}" if held.date else "AMOC letter"
    return name_of(held)


def _bare(number: str) -> str:
    return re.sub(r"[^A-Za-z0-9]", "", without_words(number))
