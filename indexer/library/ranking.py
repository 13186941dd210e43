"""Hits and their scores -> the best over all, the best of each chapter, counts over all hits. Pure numpy.

One number orders a hit: chapter, then score from high to low, then passage id. It is put together from the
chapter's code (12 bits), the score's own bits turned round (32: positive floats sort like their bits) and
the id's rank (20), so that one sort of whole numbers ranks every chapter at once. Larger libraries take the
slower way to the same order.
"""

from dataclasses import dataclass

import numpy as np

Array = np.ndarray
_RANK_BITS = 20
_SCORE_BITS = 32
_CHAPTER_BITS = 64 - _RANK_BITS - _SCORE_BITS


@dataclass(frozen=True, slots=True)
class Documents:
    """What is known of every document of one generation, deleted ones included; arrays indexed by document
    number.

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


@dataclass(frozen=True, slots=True)
class Hits:
    """docs ascending and without repeats; scores float32, zero or more, one per document."""

    docs: Array
    scores: Array


@dataclass(frozen=True, slots=True)
class Group:
    """One chapter: how many hits carry it, and places in Hits of the best grouped under it, best first."""

    chapter: str
    count: int
    best: Array


def best(hits: Hits, documents: Documents, limit: int) -> Array:
    """Places in `hits` of the best `limit`, best first; equal scores in order of passage id."""
    limit = min(limit, len(hits.docs))
    if not documents.fits_one_number:
        return np.lexsort((documents.rank[hits.docs], -hits.scores))[:limit]
    keys = _keys(hits, documents)
    if limit < len(keys):
        keys = np.partition(keys, limit)[:limit]
    return _places(np.sort(keys), hits, documents)


def groups(hits: Hits, documents: Documents, per_chapter: int) -> list[Group]:
    """Every chapter that some hit carries: those with a best hit in order of it, then the rest in order of
    chapter."""
    codes = documents.group[hits.docs]
    ordered, starts = _ordered_by_chapter(hits, documents, codes)
    ends = np.append(starts, len(ordered))[1:]
    bests = {
        int(codes[ordered[start]]): ordered[start : min(start + per_chapter, end)]
        for start, end in zip(starts, ends, strict=True)
    }
    counts = _chapter_counts(hits, documents, codes)
    none = np.empty(0, np.intp)
    found = [
        Group(documents.chapters[code], int(counts[code]), bests.get(int(code), none))
        for code in np.flatnonzero(counts)
    ]
    return sorted(found, key=lambda group: _order(group, hits, documents))


def _order(group: Group, hits: Hits, documents: Documents) -> tuple:
    if not len(group.best):
        return (1, group.chapter)
    first = group.best[0]
    return (0, -float(hits.scores[first]), int(documents.rank[hits.docs[first]]))


def _chapter_counts(hits: Hits, documents: Documents, codes: Array) -> Array:
    counts = np.bincount(codes, minlength=len(documents.chapters))
    if len(documents.more_docs):
        is_hit = np.zeros(len(documents.rank), bool)
        is_hit[hits.docs] = True
        more = documents.more_chapters[is_hit[documents.more_docs]]
        counts += np.bincount(more, minlength=len(documents.chapters))
    return counts


def counts(codes: Array, values: tuple[str, ...]) -> dict[str, int]:
    """How often each value occurs, those that do not left out."""
    found = np.bincount(codes, minlength=len(values))
    return {values[code]: int(found[code]) for code in np.flatnonzero(found)}


def _ordered_by_chapter(hits: Hits, documents: Documents, codes: Array) -> tuple[Array, Array]:
    """Places in `hits` by chapter and, within it, from best to worst; where each chapter starts."""
    if documents.fits_one_number:
        chapter = codes.astype(np.uint64) << np.uint64(_RANK_BITS + _SCORE_BITS)
        keys = np.sort(_keys(hits, documents) | chapter)
        ordered = _places(keys, hits, documents)
    else:
        ordered = np.lexsort((documents.rank[hits.docs], -hits.scores, codes))
    starts = np.flatnonzero(np.diff(codes[ordered], prepend=-1))
    return ordered, starts


def _keys(hits: Hits, documents: Documents) -> Array:
    bits = np.uint32(0xFFFFFFFF) - hits.scores.astype(np.float32).view(np.uint32)
    ranks = documents.rank[hits.docs].astype(np.uint64)
    return bits.astype(np.uint64) << np.uint64(_RANK_BITS) | ranks


def _places(keys: Array, hits: Hits, documents: Documents) -> Array:
    ranks = (keys & np.uint64((1 << _RANK_BITS) - 1)).astype(np.int64)
    return np.searchsorted(hits.docs, documents.by_rank[ranks])
