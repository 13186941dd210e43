"""How close two words stand in a passage: from their positions, for all documents at once. Pure numpy.

Side by side in the order asked counts 1; each word between them, and the wrong order, is one step farther:

    brake lining                1       lining brake              1/2
    brake disc lining           1/2     lining of the disc brake  1/3     (stop words have no position)

Beyond FARTHEST steps it counts nothing. Each document counts by its closest pair.
"""

from collections.abc import Sequence

import numpy as np

from indexer.library.scoring import FARTHEST
from indexer.library.whoosh_postings import Postings

Array = np.ndarray


def steps(first: Postings, second: Postings) -> tuple[Array, Array]:
    """Documents that hold both, ascending, and in each how many steps lie from the one to the other, at
    least 1. Both lists with positions."""
    docs = np.intersect1d(first.docs, second.docs, assume_unique=True)
    if not len(docs):
        return docs, np.empty(0, np.int64)
    before = _places(docs, first)
    after = _places(docs, second)
    next_one = np.searchsorted(before, after)
    following = before[np.minimum(next_one, len(before) - 1)]
    preceding = before[np.maximum(next_one - 1, 0)]
    in_order = np.where(preceding < after, after - preceding, np.iinfo(np.int64).max)
    reversed_order = np.where(following >= after, following - after + 1, np.iinfo(np.int64).max)
    nearest = np.minimum(in_order, reversed_order)
    starts = np.searchsorted(after, np.arange(len(docs), dtype=np.int64) << 33)
    return docs, np.minimum.reduceat(nearest, starts)


def _places(docs: Array, found: Postings) -> Array:
    """Positions in the documents of `docs`, each document's apart from the next one's, ascending."""
    if not len(docs):
        return np.empty(0, np.int64)
    at = np.searchsorted(docs, found.docs)
    at[at == len(docs)] = 0
    shared = np.repeat(docs[at] == found.docs, found.counts)
    return (np.repeat(at, found.counts)[shared] << 33) + found.positions[shared]


def closeness(steps: Array) -> Array:
    """1 for one step, less for more, 0 for too many."""
    return np.where(steps <= FARTHEST, 1.0 / steps, 0.0)


def in_a_row(lists: Sequence[Postings]) -> Array:
    """Documents where the words of these posting lists stand at positions one after another."""
    docs = lists[0].docs
    for found in lists[1:]:
        docs = np.intersect1d(docs, found.docs, assume_unique=True)
    starts = None
    for step, found in enumerate(lists):
        keys = _places(docs, found) - step + len(lists)  # below 2**33 each, and never negative
        starts = keys if starts is None else np.intersect1d(starts, keys, assume_unique=True)
    return docs[np.unique(starts >> 33)]
