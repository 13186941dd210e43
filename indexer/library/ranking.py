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


class Order(NamedTuple):
    """One whole number for each hit, smallest for the best, and how to get hits back from some of them."""

    numbers: Array
    bits: int
    hits_of: Callable[[Array], Hits]


def rank(hits: Hits, documents: Documents, limit: int, per_chapter: int) -> Ranking:
    """Equal scores stand in order of passage id."""
    order = (_order_by_bits if documents.fits_one_number else _order_by_sorting)(hits, documents)
    numbers = order.numbers
    best = np.partition(numbers, limit)[:limit] if limit < len(numbers) else numbers
    groups, grouped = _groups(hits, documents, order, per_chapter)
    return Ranking(order.hits_of(np.sort(best)), groups, grouped)


def _order_by_bits(hits: Hits, documents: Documents) -> Order:
    bits = np.uint32(0xFFFFFFFF) - hits.scores.view(np.uint32)
    numbers = bits.astype(np.uint64) << np.uint64(_RANK_BITS) | documents.rank[hits.docs].astype(np.uint64)

    def hits_of(numbers: Array) -> Hits:
        ranks = (numbers & np.uint64((1 << _RANK_BITS) - 1)).astype(np.int64)
        bits = np.uint32(0xFFFFFFFF) - (numbers >> np.uint64(_RANK_BITS)).astype(np.uint32)
        return Hits(documents.by_rank[ranks], bits.view(np.float32))

    return Order(numbers, _RANK_BITS + _SCORE_BITS, hits_of)


def _order_by_sorting(hits: Hits, documents: Documents) -> Order:
    """For more documents or chapters than the bits have room for: the number is the place in the order."""
    in_order = np.lexsort((documents.rank[hits.docs], -hits.scores))
    numbers = np.empty(len(in_order), np.uint64)
    numbers[in_order] = np.arange(len(in_order), dtype=np.uint64)

    def hits_of(numbers: Array) -> Hits:
        places = in_order[numbers.astype(np.int64)]
        return Hits(hits.docs[places], hits.scores[places])

    return Order(numbers, 32, hits_of)


def _groups(hits: Hits, documents: Documents, order: Order, per_chapter: int) -> tuple[list[Group], Hits]:
    codes = documents.group[hits.docs]
    bits = np.uint64(order.bits)
    ordered = np.sort(order.numbers | codes.astype(np.uint64) << bits) & (
        (np.uint64(1) << bits) - np.uint64(1)
    )
    sizes = np.bincount(codes, minlength=len(documents.chapters))
    starts = np.cumsum(sizes) - sizes  # of each chapter in `ordered`
    with_best = np.flatnonzero(sizes)
    with_best = with_best[np.argsort(ordered[starts[with_best]])]
    heads = np.minimum(sizes[with_best], per_chapter)
    before = np.cumsum(heads) - heads
    grouped = order.hits_of(ordered[np.repeat(starts[with_best] - before, heads) + np.arange(heads.sum())])
    counts = sizes + _carried_beside(hits, documents)
    found = zip(with_best.tolist(), counts[with_best].tolist(), heads.tolist(), strict=True)
    groups = [Group(documents.chapters[code], count, size) for code, count, size in found]
    counts[with_best] = 0
    rest = np.flatnonzero(counts)
    carried = zip(rest.tolist(), counts[rest].tolist(), strict=True)
    return groups + [Group(documents.chapters[code], count, 0) for code, count in carried], grouped


def _carried_beside(hits: Hits, documents: Documents) -> Array:
    """For each chapter, how many hits carry it beside the one they are grouped under."""
    is_hit = np.zeros(len(documents.rank), bool)
    is_hit[hits.docs] = True
    return np.bincount(
        documents.more_chapters[is_hit[documents.more_docs]], minlength=len(documents.chapters)
    )


def counted(codes: Array, values: tuple[str, ...]) -> dict[str, int]:
    """How often each value occurs, those that do not left out."""
    found = np.bincount(codes, minlength=len(values)).tolist()
    return {value: count for value, count in zip(values, found, strict=True) if count}
