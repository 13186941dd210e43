"""Words as OCR may have misread them: look-alikes of a word among the terms of a library. Pure.

trade/misreadings.py folds what looks alike in print (O/0, I/1/l, S/5, B/8, rn/m) into one. Two words that
fold to the same may still be two words, "fail" and "fall", so each is held against the other as printed:

    what is asked has a digit    what was read has one too: "IO" is never taken for 10, nor "is" for 15
    letters alone are asked      what was read is letters for the most part: "50" is never taken for so
    a small l and a capital I    look alike; a small i and a capital L look like neither
    rn and m                     look alike in small letters
"""

import re
from collections.abc import Iterable
from itertools import accumulate

import numpy as np

from indexer.library.folding import folded as plain
from indexer.library.folding import singular
from indexer.trade.misreadings import folded

SHORTEST = 3  # letters and digits; shorter ones meet by chance
SHORTEST_OF_LETTERS = 4  # where only letters were taken for letters
MOST = 8  # look-alikes of one word, so that none floods an answer
_UNIT = re.compile("rn|.", re.IGNORECASE | re.DOTALL)
_DIGIT = re.compile("[0-9]")


class LookAlikes:
    """The terms of one generation by what they fold to: about 30 bytes a term, whatever their number."""

    def __init__(self, terms: Iterable[str]):
        held = sorted(term for term in terms if len(term) >= SHORTEST)
        single = "\n".join(_one(term) if term.endswith("s") else term for term in held)
        keys = folded(_bare(single)).split("\n") if held else []  # all at once, which is much faster
        numbers = np.fromiter(map(hash, keys), np.int64, len(keys))
        order = np.argsort(numbers, kind="stable")
        self._keys = numbers[order]
        encoded = [held[at].encode() for at in order.tolist()]
        self._ends = np.fromiter(accumulate(map(len, encoded)), np.int64, len(encoded))
        self._terms = b"".join(encoded)

    @property
    def bytes(self) -> int:
        return self._keys.nbytes + self._ends.nbytes + len(self._terms)

    def of(self, word: str) -> list[str]:
        """Terms that fold to the same as `word` and are written otherwise, in order."""
        wanted = key(word)
        own = _bare(plain(word)[0])
        found = [*self._with(wanted), *self._with(wanted + folded("s"))]  # "controIs" shows no plural
        return sorted(term for term in found if own not in (_bare(term), _one(_bare(term))))

    def _with(self, wanted: str) -> list[str]:
        number = hash(wanted)
        first, last = (int(np.searchsorted(self._keys, number, side)) for side in ("left", "right"))
        found = [self._term(at) for at in range(first, last)]
        return [term for term in found if key(term) == wanted]

    def _term(self, at: int) -> str:
        start = int(self._ends[at - 1]) if at else 0
        return self._terms[start : int(self._ends[at])].decode()


def key(word: str) -> str:
    """What a word is looked up by: dashes and a plural "s" do not count."""
    return folded(_one(_bare(plain(word)[0])))


def is_misreading(asked: str, printed: str) -> bool:
    """Whether `printed` may be what OCR made of `asked`, whose case says nothing."""
    wanted, bare = _one(_bare(plain(asked)[0])), _bare(printed)
    return _is_read_so(wanted, _one(bare)) or (bare[-1:] == "s" and _is_read_so(wanted, bare[:-1]))


def _is_read_so(wanted: str, read: str) -> bool:
    if wanted == read.casefold() or folded(wanted) != folded(read) or len(read) < SHORTEST:
        return False
    digits = len(_DIGIT.findall(read))
    if _DIGIT.search(wanted):
        if not digits:
            return False
    elif digits * 2 >= len(read) or (not digits and len(wanted) < SHORTEST_OF_LETTERS):
        return False
    pairs = zip(_UNIT.findall(wanted), _UNIT.findall(read), strict=True)
    return all(_looks_like(meant, seen, read) for meant, seen in pairs)


def _looks_like(meant: str, seen: str, read: str) -> bool:
    """One letter of a misreading; `meant` in small letters, `seen` as printed in `read`."""
    if meant == seen.casefold():
        return True
    others = read.replace("l", "").replace("I", "")
    if seen == "l":
        return meant == "1" or others == others.upper()
    if seen == "I":
        return meant == "1" or others != others.upper()
    if seen in ("L", "i"):
        return meant == "1" and seen == "i"
    if len(meant) + len(seen) > 2:
        return seen == seen.casefold()
    return True


def _bare(word: str) -> str:
    return word.replace("-", "")


def _one(word: str) -> str:
    """Without a plural "s", where the rest stays as it is."""
    small = word.casefold()
    cut = singular(small)
    return word[: len(cut)] if small.startswith(cut) else word
