"""Words of a library that begin with what was typed so far. Pure."""

from bisect import bisect_left
from collections.abc import Mapping

from indexer.library.folding import folded

SHORTEST = 2  # characters; with one nearly every word would do
_AFTER_ALL = "\U0010ffff"


class Beginnings:
    """The terms of one generation in order, so that those with one beginning lie side by side."""

    def __init__(self, holding: Mapping[str, int]):
        """`holding` says how many passages hold each term."""
        self._terms = sorted(holding)
        self._common = [holding[term] for term in self._terms]

    def of(self, typed: str) -> list[str]:
        """Terms that begin with what was typed and are longer, the commonest first."""
        beginning = beginning_of(typed)
        if beginning is None:
            return []
        first = bisect_left(self._terms, beginning)
        last = bisect_left(self._terms, beginning + _AFTER_ALL)
        places = [place for place in range(first, last) if self._terms[place] != beginning]
        return [self._terms[place] for place in sorted(places, key=lambda each: (-self._common[each], each))]


def beginning_of(typed: str) -> str | None:
    """What a term must begin with; None where too little was typed, or several words.

    A number keeps its dashes: 32-4 is the beginning of 32-41 and 32-41-00, and not of 324100.
    """
    plain = folded(typed)[0].strip(".,;:?!()[]")
    if len(plain) < SHORTEST or any(letter.isspace() or letter in "/'" for letter in plain):
        return None
    if "-" in plain and not plain[0].isdigit():
        return None
    return plain
