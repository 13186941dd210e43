"""Slips of the finger: which words of a library a mistyped word may have been meant for. Pure.

A slip is a letter too many, one too few, a wrong one, or two neighbours that changed places, the first
letter included. Short words are tried with one slip, long ones with two. Words that many passages hold come
first, so that what a scanner misread in one place does not stand before the word it misread; a second slip
must be outweighed by a word about fifty times as common.

Words with digits are neither corrected nor offered: a wrong digit is another number.
"""

from collections.abc import Mapping, Sequence
from itertools import accumulate, pairwise
from math import log

import numpy as np
from rapidfuzz.distance import OSA
from rapidfuzz.process import cdist

Array = np.ndarray
_BITS = 26  # for letters; those of other alphabets share them
_SET = np.array([number.bit_count() for number in range(1 << _BITS // 2)], np.uint8)
SHORTEST = 3  # letters; about shorter ones nothing can be said
LONG = 7  # letters, from which on two slips are tried
_WHOLE = 4  # letters: nobody puts one before so short a word by mistake ("scan" is not "can")
_SECOND_SLIP = 4.0  # as the logarithm of how much commoner a word must be to make up for it
_SAME_LETTERS = 1.5  # swapped, doubled or undoubled: the usual slips
_OTHER_FIRST_LETTER = 1.0  # the least usual


class Vocabulary:
    """The words of one generation, by length, to be looked through at once."""

    def __init__(self, holding: Mapping[str, int]):
        """`holding` says how many passages hold each term; terms that are not words are left out."""
        words = sorted((word for word in holding if len(word) >= SHORTEST and word.isalpha()), key=len)
        self._words = words
        self._common = [log(max(holding[word], 1)) for word in words]
        lengths = np.bincount([len(word) for word in words]).tolist() if words else []
        self._ends = list(accumulate(lengths))  # of the words of each length or less
        starts = [0, *self._ends]
        masks = [_letters(words[start:end]) for start, end in pairwise(starts) if end > start]
        self._letters = np.concatenate(masks) if masks else np.empty(0, np.uint32)

    def near(self, word: str) -> list[str]:
        """Words that `word` (folded) may be a slip for, likeliest first; itself is not among them."""
        if len(word) < SHORTEST or not word.isalpha():
            return []
        most = 2 if len(word) >= LONG else 1
        first = self._up_to(len(word) - most - 1)
        letters = self._letters[first : self._up_to(len(word) + most)]
        mine = _letters([word])
        worth = (_count(mine & ~letters) <= most) & (_count(letters & ~mine) <= most)
        places = (np.flatnonzero(worth) + first).tolist()
        tried = [self._words[place] for place in places]
        if not tried:
            return []
        slips = cdist([word], tried, scorer=OSA.distance, score_cutoff=most, dtype=np.uint8)[0]
        found = [
            at
            for at in np.flatnonzero((slips > 0) & (slips <= most)).tolist()
            if len(word) > _WHOLE or tried[at] != word[1:]
        ]
        likely = {
            tried[at]: self._common[places[at]] - _unlike(word, tried[at], int(slips[at])) for at in found
        }
        return sorted(likely, key=lambda other: (-likely[other], other))

    def _up_to(self, length: int) -> int:
        """How many words are not longer."""
        if length < 0 or not self._ends:
            return 0
        return self._ends[min(length, len(self._ends) - 1)]


def is_one_slip(word: str, other: str) -> bool:
    """Whether one slip makes the one of the other; both folded."""
    return OSA.distance(word, other, score_cutoff=1) == 1


def _letters(words: Sequence[str]) -> Array:
    """Which letters occur in each of some words of one length, a bit each.

    A slip adds one of them at most and takes away one at most.
    """
    codes = np.array(words).view(np.uint32).reshape(len(words), -1)
    return np.bitwise_or.reduce(np.uint32(1) << codes % np.uint32(_BITS), axis=1)


def _count(bits: Array) -> Array:
    """How many bits are set."""
    half = _BITS // 2
    return (
        _SET[bits & np.uint32((1 << half) - 1)] + _SET[bits >> np.uint32(half) & np.uint32((1 << half) - 1)]
    )


def _unlike(word: str, other: str, slips: int) -> float:
    unlike = _SECOND_SLIP * (slips - 1)
    if set(word) == set(other):
        return unlike - _SAME_LETTERS
    return unlike + _OTHER_FIRST_LETTER * (word[0] != other[0])
