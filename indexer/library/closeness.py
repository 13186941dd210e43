"""How close two words stand in a passage: from their positions, for all documents at once. Pure numpy.

Side by side in the order asked counts 1; each word between them, and the wrong order, is one step farther:

    brake lining                1       lining brake              1/2
    brake disc lining           1/2     lining of the disc brake  1/3     (stop words have no position)

Beyond FARTHEST steps it counts nothing. Each document counts by its closest pair.

Positions are looked at only in documents that hold every word. There a position is one whole number, the
document's place among these documents times a stride plus the position, so that lists of all documents can
be merged as one. Two sorted lists put behind one another and sorted again are merged: the stable sort finds
the two runs, and needs one pass over them.
"""

from collections.abc import Sequence

import numpy as np

from indexer.library.scoring import FARTHEST
from indexer.library.whoosh_postings import Postings, places_of

Array = np.ndarray
_MUCH_LONGER = 16  # times; then looking each one up is faster than merging


def steps(first: Postings, second: Postings) -> tuple[Array, Array]:
    """Documents that hold both, ascending, and in each how many steps lie from the one to the other, at
    least 1. Both lists with positions."""
    docs = held_by_all([first, second])
    if not len(docs):
        return docs, np.empty(0, np.int64)
    stride = 2 * (_most(first, second) + 2)  # so that the next document is farther than any word of this one
    number = _wide_enough(2 * stride * len(docs))
    before = _places(docs, first, stride, number) * 2 + 1  # odd, and after an even one at the same position
    after = _places(docs, second, stride, number) * 2
    merged = np.concatenate((before, after))
    merged.sort(kind="stable")
    left, right = merged[:-1], merged[1:]
    apart = (right >> 1) - (left >> 1) + (left & 1 == 0)  # the wrong order is one step more
    # The nearest two are neighbours here: a word between them would be nearer to one of them.
    near = np.flatnonzero(((left ^ right) & 1 == 1) & (apart < stride // 2))
    document = left[near] // (2 * stride)
    starts = np.flatnonzero(np.diff(document, prepend=-1))
    return docs, np.minimum.reduceat(apart[near], starts)


def closeness(steps: Array) -> Array:
    """1 for one step, less for more, 0 for too many."""
    return np.where(steps <= FARTHEST, 1.0 / steps, 0.0)


def in_a_row(lists: Sequence[Postings]) -> Array:
    """Documents where the words of these posting lists stand at positions one after another, ascending."""
    docs = held_by_all(lists)
    if not len(docs):
        return docs
    stride = _most(*lists) + len(lists) + 1
    number = _wide_enough(stride * len(docs))
    rarest_first = sorted(enumerate(lists), key=lambda each: len(each[1].positions))
    starts: Array | None = None
    for step, found in rarest_first:
        keys = _places(docs, found, stride, number) + (len(lists) - step)  # where a row would start, above 0
        starts = keys if starts is None else _in_both(starts, keys)
    held = starts // stride
    return docs[held[np.diff(held, prepend=-1) > 0]]


def held_by_all(lists: Sequence[Postings]) -> Array:
    """Documents that stand in each of the lists, ascending."""
    docs, *others = sorted((found.docs for found in lists), key=len)
    for more in others:
        docs = _in_both(docs, more)
    return docs


def _in_both(fewer: Array, more: Array) -> Array:
    """Both ascending and without repeats, and so is what comes out."""
    if len(fewer) * _MUCH_LONGER < len(more):
        at = np.minimum(np.searchsorted(more, fewer), len(more) - 1)
        return fewer[more[at] == fewer]
    merged = np.concatenate((fewer, more))
    merged.sort(kind="stable")
    return merged[:-1][merged[1:] == merged[:-1]]


def _places(docs: Array, found: Postings, stride: int, number: type) -> Array:
    """Positions in the documents of `docs`, all of which are in `found`, as whole numbers, ascending."""
    at = places_of(docs, found.docs)
    counts = found.counts[at]
    places = np.repeat(np.arange(len(docs), dtype=number) * number(stride), counts)
    if len(docs) == len(found.docs):
        places += found.positions.astype(number)
    else:
        skipped = np.cumsum(found.counts, dtype=np.int64)[at] - np.cumsum(counts, dtype=np.int64)
        places += found.positions[np.repeat(skipped, counts) + np.arange(len(places))].astype(number)
    return places


def _most(*lists: Postings) -> int:
    """The highest position."""
    return max(int(found.positions.max(initial=0)) for found in lists)


def _wide_enough(numbers: int) -> type:
    """The smaller type sorts faster."""
    return np.int32 if numbers < 1 << 31 else np.int64
