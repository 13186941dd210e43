"""The order in which pages are read by OCR, the most wanted first. Pure.

1  pages that were opened before they were read, the latest first
2  the first page of a publication of which neither type nor number nor title is known: it tells which it is
3  publications that fit what searches missed, the rarer the word and the more often asked, the earlier
4  publications of the fleet's models and of what is fitted to them
5  the rest
Within each by file and page.
"""

import math
from bisect import bisect_right
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache

from indexer.library.analysis import printed_words
from indexer.library.ocr_records import PageToRead, Shelved, Wanted
from indexer.trade.model_names import ModelMatch, compare_models, fold_model

_SHORTEST_MODEL = 3  # letters and digits; a shorter one stands in too many names
_OPENED, _FRONT, _MISSED, _FLEET, _REST = range(5)


def in_order(pages: Iterable[PageToRead], shelf: Sequence[Shelved], wanted: Wanted) -> list[PageToRead]:
    """Every page given, once, the most wanted first. The order they are given in is nothing.

    shelf   the publications that the pages belong to; a page of none comes with the rest
    """
    opened = {page: place for place, page in enumerate(wanted.opened)}
    places, firsts = _by_copy(shelf)
    missed = _missed_worth(shelf, wanted.missed)
    fits_fleet = [_of_fleet(each, wanted.models) for each in shelf]

    def key(page: PageToRead) -> tuple:
        here = (page.file.casefold(), page.file, page.copy_id, page.pdf_page)
        if (page.copy_id, page.pdf_page) in opened:
            return (_OPENED, opened[page.copy_id, page.pdf_page], *here)
        at = bisect_right(firsts.get(page.copy_id, ()), page.pdf_page) - 1
        if at < 0:
            return (_REST, 0, *here)
        place = places[page.copy_id][at]
        publication = shelf[place]
        if page.pdf_page == publication.first_page and not publication.known:
            return (_FRONT, 0, *here)
        if missed[place] > 0:
            return (_MISSED, -missed[place], *here)
        return (_FLEET if fits_fleet[place] else _REST, 0, *here)

    return sorted(dict.fromkeys(pages), key=key)


def _by_copy(shelf: Sequence[Shelved]) -> tuple[Mapping[str, list[int]], Mapping[str, list[int]]]:
    """For each copy, the places of its publications in `shelf` by first page, and those first pages."""
    places: dict[str, list[int]] = defaultdict(list)
    for place in sorted(range(len(shelf)), key=lambda place: shelf[place].first_page):
        places[shelf[place].copy_id].append(place)
    return places, {copy_id: [shelf[place].first_page for place in held] for copy_id, held in places.items()}


def _missed_worth(shelf: Sequence[Shelved], missed: Iterable[tuple[str, int]]) -> list[float]:
    """For each publication, how well it fits what searches missed: 0 = not at all.

    A word counts by how often it was asked and by how few publications bear it: one that most bear tells
    nothing.
    """
    asked: Counter[str] = Counter()
    for words, times in missed:
        for word in words.split():
            asked[word] += times
    bears = [_words(" ".join((each.names, *each.models))) & asked.keys() for each in shelf]
    borne = Counter(word for words in bears for word in words)
    common = max(2, len(shelf) / 2)
    worth = {
        word: asked[word] * math.log((len(shelf) + 1) / number) if number <= common else 0.0
        for word, number in borne.items()
    }
    return [round(math.fsum(worth[word] for word in words), 6) for words in bears]


@lru_cache(maxsize=16384)
def _words(names: str) -> frozenset[str]:
    return frozenset(printed_words(names))


def _of_fleet(publication: Shelved, models: Iterable[str]) -> bool:
    """Whether a model of the fleet is among its own, or stands in its names. A guess, for the order only."""
    names = fold_model(publication.names)
    return any(
        any(compare_models(model, listed) is not ModelMatch.DIFFERENT for listed in publication.models)
        or (len(fold_model(model)) >= _SHORTEST_MODEL and fold_model(model) in names)
        for model in models
    )
