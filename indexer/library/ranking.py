"""Hits and their scores -> the best over all, the best of each chapter, counts over all hits. Pure numpy.

One number orders a hit: chapter, then score from high to low, then passage id. It is put together from the
chapter's code (12 bits), the score's own bits turned round (32: positive floats sort like their bits) and
the id's rank (20), so that one sort of whole numbers ranks every chapter at once. Larger libraries take the
slower way to the same order.
"""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

Array = np.ndarray
_RANK_BITS = 20
_SCORE_BITS = 32
_CHAPTER_BITS = 64 - _RANK_BITS - _SCORE_BITS


@dataclass(frozen=True, slots=True)
class Documents:
    """Every document of one generation, deleted ones included. Arrays are indexed by document number.

    rank           place of its passage id among all ids sorted as text
    by_rank        document number of each rank
    group          code of the chapter it is grouped under
    type           code of its type
    standing       code of its standing
    more_docs      document numbers, one for each chapter a document carries beside its group
    more_chapters  the code of that chapter
    chapters       chapter of each code; likewise types and standings; sorted as text
    """

    rank: Array
    by_rank: Array
    group: Array
    type: Array
    standing: Array
    more_docs: Array
    more_chapters: Array
    chapters: tuple[str, ...]
    types: tuple[str, ...]
    standings: tuple[str, ...]

    @property
    def fits_one_number(self) -> bool:
        return len(self.rank) < 1 << _RANK_BITS and len(self.chapters) < 1 << _CHAPTER_BITS


class Hits(NamedTuple):
    """docs ascending and without repeats; scores float32, zero or more, one per document."""

    docs: Array
    scores: Array


class Group(NamedTuple):
    """One chapter: how many hits carry it, and how many of the best are grouped under it."""

    chapter: str
    count: int
    best: int


class Ranking(NamedTuple):
    """The answer in order.

    top      the best over all, best first
    groups   every chapter that a hit carries: in order of its best, those without one after them by chapter
    grouped  the best of each group, group after group, best first
    """

    top: Hits
    groups: list[Group]
    grouped: Hits


def rank(hits: Hits, documents: Documents, limit: int, per_chapter: int) -> Ranking:
    """Equal scores stand in order of passage id."""
    codes = documents.group[hits.docs]
    if documents.fits_one_number:
        keys = _keys(hits, documents)
        top = _best(keys, limit)
        ordered = _by_chapter(keys, codes)
        top, ordered = (_places(found, hits, documents) for found in (top, ordered))
    else:
        ranks = documents.rank[hits.docs]
        top = np.lexsort((ranks, -hits.scores))[:limit]
        ordered = np.lexsort((ranks, -hits.scores, codes))
    return Ranking(_at(hits, top), *_groups(hits, documents, codes, ordered, per_chapter))


def _at(hits: Hits, places: Array) -> Hits:
    return Hits(hits.docs[places], hits.scores[places])


def _keys(hits: Hits, documents: Documents) -> Array:
    bits = np.uint32(0xFFFFFFFF) - hits.scores.astype(np.float32).view(np.uint32)
    return bits.astype(np.uint64) << np.uint64(_RANK_BITS) | documents.rank[hits.docs].astype(np.uint64)


def _best(keys: Array, limit: int) -> Array:
    return np.sort(np.partition(keys, limit)[:limit] if limit < len(keys) else keys)


def _by_chapter(keys: Array, codes: Array) -> Array:
    return np.sort(keys | codes.astype(np.uint64) << np.uint64(_RANK_BITS + _SCORE_BITS))


def _places(keys: Array, hits: Hits, documents: Documents) -> Array:
    ranks = (keys & np.uint64((1 << _RANK_BITS) - 1)).astype(np.int64)
    return np.searchsorted(hits.docs, documents.by_rank[ranks])


def _groups(
    hits: Hits, documents: Documents, codes: Array, ordered: Array, per_chapter: int
) -> tuple[list[Group], Hits]:
    """`ordered` are places in `hits` by chapter and, within it, from best to worst."""
    if not len(ordered):
        return [], hits
    sorted_codes = codes[ordered]
    starts = np.concatenate([[0], np.flatnonzero(sorted_codes[1:] != sorted_codes[:-1]) + 1])
    sizes = np.minimum(np.append(starts[1:], len(ordered)) - starts, per_chapter)
    first = _at(hits, ordered[starts])
    turns = np.lexsort((documents.rank[first.docs], -first.scores))
    starts, sizes = starts[turns], sizes[turns]
    before = np.cumsum(sizes) - sizes
    grouped = _at(hits, ordered[np.repeat(starts - before, sizes) + np.arange(sizes.sum())])
    counts = _chapter_counts(hits, documents, codes)
    with_best = sorted_codes[starts]
    found = zip(with_best.tolist(), counts[with_best].tolist(), sizes.tolist(), strict=True)
    groups = [Group(documents.chapters[code], count, size) for code, count, size in found]
    counts[with_best] = 0
    rest = np.flatnonzero(counts)
    carried = zip(rest.tolist(), counts[rest].tolist(), strict=True)
    return groups + [Group(documents.chapters[code], count, 0) for code, count in carried], grouped


def _chapter_counts(hits: Hits, documents: Documents, codes: Array) -> Array:
    counts = np.bincount(codes, minlength=len(documents.chapters))
    if len(documents.more_docs):
        is_hit = np.zeros(len(documents.rank), bool)
        is_hit[hits.docs] = True
        more = documents.more_chapters[is_hit[documents.more_docs]]
        counts += np.bincount(more, minlength=len(documents.chapters))
    return counts


def counted(codes: Array, values: tuple[str, ...]) -> dict[str, int]:
    """How often each value occurs, those that do not left out."""
    found = np.bincount(codes, minlength=len(values)).tolist()
    return {value: count for value, count in zip(values, found, strict=True) if count}
