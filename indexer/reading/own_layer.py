"""The text that came with a page beside what OCR read of its picture: which is better, and do they agree.

The figures of this file are set by made pages and by a few public scans; there is no source.
"""

from collections.abc import Sequence
from itertools import pairwise

from indexer.reading.well_read import plausibility, quality
from indexer.trade.english_words import is_english, unknown_words

_HARDLY = 0.2  # of the letters of the page's own layer
_AS_MUCH = 0.9
_TELLING = 5  # letters: shorter words stand on every page
_LEAST_TELLING = 5  # different words of each, to compare them
_WORDS_IN_COMMON = 0.6  # of them; papers of one trade share many
_LEAST_PAIRS = 10  # different pairs of words that follow each other
_PAIRS_IN_COMMON = (
    0.1  # of them; where six in ten words of a layer were read right, a third of its pairs were
)
_READ_WELL = 0.75  # mean confidence
_WORDS = 0.8  # quality, see well_read.py


def is_better(own: Sequence[str], read: Sequence[str]) -> bool:
    """Whether the page's own layer holds more that is words than what OCR read."""
    own_letters, read_letters = sum(map(len, own)), sum(map(len, read))
    if read_letters < _HARDLY * own_letters:
        return True
    if own_letters < _AS_MUCH * read_letters:
        return False
    english = is_english(own) or is_english(read)
    return _share_of_words(own, english) > _share_of_words(read, english)


def says_something_else(own: Sequence[str], read: Sequence[str], confidence: float) -> bool:
    """Whether OCR read the picture well, and the page's own layer holds other words than that.

    Either may leave out a part of the page: then all that it has stands in the other.
    """
    measured = quality(read)
    if confidence < _READ_WELL or measured is None or measured < _WORDS:
        return False
    return _agree_in(_telling(own), _telling(read), _LEAST_TELLING, _WORDS_IN_COMMON) is False and (
        _agree_in(_pairs(own), _pairs(read), _LEAST_PAIRS, _PAIRS_IN_COMMON) is False
    )


def _agree_in(mine: frozenset, theirs: frozenset, least: int, share: float) -> bool | None:
    """Whether so large a share of the smaller set is in the other; None where there is too little to tell."""
    fewest = min(len(mine), len(theirs))
    return len(mine & theirs) >= share * fewest if fewest >= least else None


def _telling(texts: Sequence[str]) -> frozenset[str]:
    return frozenset(word for word in _folded(texts) if len(word) >= _TELLING)


def _pairs(texts: Sequence[str]) -> frozenset[tuple[str, str]]:
    return frozenset(pairwise(_folded(texts)))


def _folded(texts: Sequence[str]) -> list[str]:
    return list(filter(None, ("".join(filter(str.isalpha, text)).casefold() for text in texts)))


def _share_of_words(texts: Sequence[str], english: bool) -> float:
    unknown, listed = unknown_words(texts) if english else (0, 0)
    return plausibility(texts) * (1.0 - unknown / listed if listed else 1.0)
