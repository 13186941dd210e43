"""Hits and their scores -> the best over all, the best of each chapter, counts over all hits. Pure numpy.

One number orders a hit: chapter, then score from high to low, then passage id. It is put together from the
chapter's code (12 bits), the score's own bits turned round (32: positive floats sort like their bits) and
the id's rank (20), so that one sort of whole numbers ranks every chapter at once. Larger libraries take the
slower way to the same order.
"""

from collections.abc import Callable
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
        top, by_chapter, codes_in_order = _order_by_number(hits, documents, codes, limit)
    else:
        top, by_chapter, codes_in_order = _order_by_columns(hits, documents, codes, limit)
    counts = _chapter_counts(hits, documents, codes)
    return Ranking(top, *_groups(by_chapter, codes_in_order, counts, documents, per_chapter))


Ordered = Callable[[Array], Hits]  # places in the order by chapter and rank -> the hits there


def _order_by_number(
    hits: Hits, documents: Documents, codes: Array, limit: int
) -> tuple[Hits, Ordered, Array]:
    """The best; the hits by chapter and, within it, from best to worst; the chapters' codes in that order."""
    bits = np.uint32(0xFFFFFFFF) - hits.scores.view(np.uint32)
    keys = bits.astype(np.uint64) << np.uint64(_RANK_BITS) | documents.rank[hits.docs].astype(np.uint64)

    def unpacked(keys: Array) -> Hits:
        ranks = (keys & np.uint64((1 << _RANK_BITS) - 1)).astype(np.int64)
        bits = np.uint32(0xFFFFFFFF) - (keys >> np.uint64(_RANK_BITS)).astype(np.uint32)
        return Hits(documents.by_rank[ranks], bits.view(np.float32))

    best = np.partition(keys, limit)[:limit] if limit < len(keys) else keys
    chapter_shift = np.uint64(_RANK_BITS + _SCORE_BITS)
    ordered = np.sort(keys | codes.astype(np.uint64) << chapter_shift)
    return (
        unpacked(np.sort(best)),
        lambda places: unpacked(ordered[places]),
        (ordered >> chapter_shift).astype(np.int64),
    )


def _order_by_columns(
    hits: Hits, documents: Documents, codes: Array, limit: int
) -> tuple[Hits, Ordered, Array]:
    """The same for more documents or chapters than one number has room for."""
    ranks = documents.rank[hits.docs]
    top = np.lexsort((ranks, -hits.scores))[:limit]
    ordered = np.lexsort((ranks, -hits.scores, codes))

    def at(places: Array) -> Hits:
        return Hits(hits.docs[places], hits.scores[places])

    return at(top), lambda places: at(ordered[places]), codes[ordered]


def _groups(
    by_chapter: Ordered, codes: Array, counts: Array, documents: Documents, per_chapter: int
) -> tuple[list[Group], Hits]:
    """`codes` of the hits in their order by chapter; `counts` for each code, used up here."""
    starts = np.flatnonzero(np.concatenate([[len(codes) > 0], codes[1:] != codes[:-1]])[: len(codes)])
    sizes = np.minimum(np.append(starts[1:], len(codes))[: len(starts)] - starts, per_chapter)
    first = by_chapter(starts)
    turns = np.lexsort((documents.rank[first.docs], -first.scores))
    starts, sizes = starts[turns], sizes[turns]
    before = np.cumsum(sizes) - sizes
    grouped = by_chapter(np.repeat(starts - before, sizes) + np.arange(sizes.sum()))
    with_best = codes[starts]
    found = zip(with_best.tolist(), counts[with_best].tolist(), sizes.tolist(), strict=True)
    groups = [Group(documents.chapters[code], count, size) for code, count, size in found]
    counts[with_best] = 0
    carried = zip(np.flatnonzero(counts).tolist(), counts[counts > 0].tolist(), strict=True)
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
