"""Answering from posting lists held as numpy arrays: the fast way to read a Whoosh index.

Each clause of a query becomes one array of document numbers and one of scores; joining, filtering, counting
and ranking are array operations. The arrays stay in a bounded cache that belongs to one generation of the
index.

Scores are those of Whoosh's BM25F (B 0.75, K1 1.2) with the heading's terms weighted HEADING_BOOST times: a
hit's score is the sum over its clauses and over both fields. One thing differs on purpose: numbers of
documents and mean lengths are taken over the documents that are there, where Whoosh counts those deleted
and not yet merged away. So the same passages give the same answer whatever changes led to them, and a
rebuilt index answers as the old one did.
"""

import threading
from collections import OrderedDict
from collections.abc import Callable, Hashable, Iterator, Sequence
from itertools import islice
from math import log

import numpy as np

from indexer.library.analysis import Atom, Clause
from indexer.library.fulltext import ChapterHits, FullTextResult, ScoredPassage
from indexer.library.ranking import Documents, Hits, counted, rank
from indexer.library.search_plan import Plan
from indexer.library.whoosh_postings import Postings, Segments, rounded
from indexer.library.whoosh_schema import FIELD_BOOSTS, TEXT_FIELDS, exact, value_of

Array = np.ndarray
B, K1 = 0.75, 1.2
_FILTERED = {
    "chapter": "chapters",
    "section": "sections",
    "type": "types",
    "standing": "standings",
    "publication": "publications",
}


class ArrayCache:
    """The arrays used last, up to so many bytes. Not safe for threads."""

    def __init__(self, room: int):
        self._room = room
        self._held: OrderedDict[Hashable, tuple[Array, ...]] = OrderedDict()
        self.bytes = 0

    def get(self, key: Hashable) -> tuple[Array, ...] | None:
        arrays = self._held.get(key)
        if arrays is not None:
            self._held.move_to_end(key)
        return arrays

    def put(self, key: Hashable, arrays: tuple[Array, ...]) -> None:
        size = _size(arrays)
        if size > self._room:
            return
        self._held[key] = arrays
        self.bytes += size
        while self.bytes > self._room:
            _, dropped = self._held.popitem(last=False)
            self.bytes -= _size(dropped)


def _size(arrays: tuple[Array, ...]) -> int:
    return sum(array.nbytes for array in arrays)


class PostingArrays:
    """One generation of the index, open for reading. Safe for threads."""

    def __init__(self, segments: Segments, generation: int, cache_mb: int):
        self.generation = generation
        self._segments = segments
        self._reading = threading.Lock()  # Whoosh's readers and the cache
        self._cache = ArrayCache(cache_mb << 20)
        self._live_docs = int(segments.live.sum())
        self._norms = {field: self._length_norm(segments.numbers(f"{field}_length")) for field in TEXT_FIELDS}
        self._passages = segments.texts("passage")
        self._documents = _documents(segments, self._passages)

    def _length_norm(self, lengths: Array) -> Array:
        """BM25's length term of each document, with lengths rounded as Whoosh rounds them."""
        mean = lengths[self._segments.live].sum() / max(self._live_docs, 1) or 1
        return K1 * ((1 - B) + B * rounded(lengths) / mean)

    def search(self, plan: Plan, limit: int, per_chapter: int) -> FullTextResult:
        hits = self._hits(plan)
        documents = self._documents
        ranking = rank(hits, documents, limit, per_chapter)
        grouped = self._scored(ranking.grouped)
        return FullTextResult(
            generation=self.generation,
            total=len(hits.docs),
            top=tuple(self._scored(ranking.top)),
            chapters=tuple(
                [
                    ChapterHits(chapter, count, tuple(islice(grouped, best)))
                    for chapter, count, best in ranking.groups
                ]
            ),
            counts_by_type=counted(documents.type[hits.docs], documents.types),
            counts_by_standing=counted(documents.standing[hits.docs], documents.standings),
        )

    def _scored(self, hits: Hits) -> Iterator[ScoredPassage]:
        return map(ScoredPassage, map(self._passages.__getitem__, hits.docs.tolist()), hits.scores.tolist())

    def _hits(self, plan: Plan) -> Hits:
        hits = self._wanted(plan)
        for clause in plan.excluded:
            hits = _where(hits, ~self._is_in(self._clause(clause).docs))
        for field, filtered in _FILTERED.items():
            values = getattr(plan.filters, filtered)
            if values:
                hits = _where(hits, self._filter(field, values))
        return hits

    def _wanted(self, plan: Plan) -> Hits:
        hits = None
        for clause in sorted(map(self._clause, plan.required), key=lambda found: len(found.docs)):
            hits = clause if hits is None else self._both(hits, clause)
        if plan.any_of:
            some = self._any([self._clause(clause) for clause in plan.any_of])
            hits = some if hits is None else self._both(hits, some)
        if hits is None:
            docs = np.flatnonzero(self._segments.live).astype(np.int32)
            hits = Hits(docs, np.zeros(len(docs), np.float32))
        return hits

    def _both(self, fewer: Hits, more: Hits) -> Hits:
        if len(fewer.docs) * 8 < len(more.docs):
            at = np.minimum(np.searchsorted(more.docs, fewer.docs), len(more.docs) - 1)
            kept = more.docs[at] == fewer.docs
            return Hits(fewer.docs[kept], fewer.scores[kept] + more.scores[at[kept]])
        scores = np.zeros(self._segments.size, np.float32)  # every score of a clause is above zero
        scores[more.docs] = more.scores
        added = scores[fewer.docs]
        kept = added > 0
        return Hits(fewer.docs[kept], fewer.scores[kept] + added[kept])

    def _any(self, clauses: Sequence[Hits]) -> Hits:
        if len(clauses) == 1:
            return clauses[0]
        scores = np.zeros(self._segments.size, np.float32)
        for clause in clauses:
            scores[clause.docs] += clause.scores
        docs = np.flatnonzero(scores).astype(np.int32)
        return Hits(docs, scores[docs])

    def _is_in(self, docs: Array) -> Array:
        found = np.zeros(self._segments.size, bool)
        found[docs] = True
        return found

    def _filter(self, field: str, values: tuple[str, ...]) -> Array:
        def read() -> tuple[Array]:
            docs = [self._segments.postings(field, exact(value)).docs for value in values]
            return (self._is_in(np.concatenate(docs)),)

        return self._cached((field, values), read)[0]

    def _clause(self, clause: Clause) -> Hits:
        return Hits(*self._cached(clause, lambda: self._read_clause(clause)))

    def _cached(self, key: Hashable, read: Callable[[], tuple[Array, ...]]) -> tuple[Array, ...]:
        with self._reading:
            arrays = self._cache.get(key)
            if arrays is None:
                arrays = read()
                self._cache.put(key, arrays)
            return arrays

    def _read_clause(self, clause: Clause) -> tuple[Array, Array]:
        """Documents, ascending, int32, and their scores over both fields and all atoms, float32."""
        scores = np.zeros(self._segments.size)
        for atom in clause:
            for field in TEXT_FIELDS:
                docs, added = self._read_atom(field, atom)
                scores[docs] += added
        docs = np.flatnonzero(scores)
        return docs.astype(np.int32), scores[docs].astype(np.float32)

    def _read_atom(self, field: str, atom: Atom) -> tuple[Array, Array]:
        """Documents of one field that hold the atom, and what it adds to their scores (float64)."""
        if len(atom) == 1:
            found = self._segments.postings(field, atom[0])
            return found.docs, self._scores(field, found)
        lists = {word: self._segments.postings(field, word, with_positions=True) for word in set(atom)}
        docs = in_a_row([lists[word] for word in atom])
        scores = np.zeros(len(docs))
        for word in atom:
            found = lists[word]
            scores += self._scores(field, found)[np.searchsorted(found.docs, docs)] if len(docs) else 0
        return docs, scores

    def _scores(self, field: str, found: Postings) -> Array:
        rarity = log(max(self._live_docs, 1) / (len(found.docs) + 1)) + 1
        counts = found.counts
        return FIELD_BOOSTS[field] * rarity * (counts * (K1 + 1)) / (counts + self._norms[field][found.docs])


def _where(hits: Hits, allowed: Array) -> Hits:
    """`allowed` is indexed by document number."""
    kept = allowed[hits.docs]
    return Hits(hits.docs[kept], hits.scores[kept])


def in_a_row(lists: Sequence[Postings]) -> Array:
    """Documents where the words of these posting lists stand at positions one after another."""
    docs = lists[0].docs
    for found in lists[1:]:
        docs = np.intersect1d(docs, found.docs, assume_unique=True)
    starts = None
    for step, found in enumerate(lists):
        places = np.searchsorted(docs, found.docs)
        places[places == len(docs)] = 0
        shared = docs[places] == found.docs if len(docs) else np.zeros(len(found.docs), bool)
        each = np.repeat(places, found.counts)[np.repeat(shared, found.counts)]
        positions = found.positions[np.repeat(shared, found.counts)]
        keys = (each << 33) + (positions - step + len(lists))  # below 2**33, and never negative
        starts = keys if starts is None else np.intersect1d(starts, keys, assume_unique=True)
    return docs[np.unique(starts >> 33)]


def _documents(segments: Segments, passages: Sequence[str]) -> Documents:
    by_rank = np.array(sorted(range(segments.size), key=passages.__getitem__), np.int32)
    rank = np.empty(segments.size, np.int32)
    rank[by_rank] = np.arange(segments.size, dtype=np.int32)
    chapters, chapter_docs, chapter_codes = _pairs(segments, "chapter")
    coded = {chapter: code for code, chapter in enumerate(chapters)}
    group = _codes(segments, "group", coded)
    more = group[chapter_docs] != chapter_codes
    types, type_docs, type_codes = _pairs(segments, "type")
    standings, standing_docs, standing_codes = _pairs(segments, "standing")
    return Documents(
        rank=rank,
        by_rank=by_rank,
        group=group,
        type=_spread(segments, type_docs, type_codes),
        standing=_spread(segments, standing_docs, standing_codes),
        more_docs=chapter_docs[more],
        more_chapters=chapter_codes[more],
        chapters=chapters,
        types=types,
        standings=standings,
    )


def _pairs(segments: Segments, field: str) -> tuple[tuple[str, ...], Array, Array]:
    """The values of a field, sorted; then, for each value and live document with it: document, code."""
    values = tuple(map(value_of, segments.terms(field)))
    docs = [segments.postings(field, exact(value)).docs for value in values]
    codes = np.repeat(np.arange(len(values), dtype=np.int32), [len(found) for found in docs])
    return values, np.concatenate(docs).astype(np.int32) if docs else np.empty(0, np.int32), codes


def _codes(segments: Segments, field: str, coded: dict[str, int]) -> Array:
    found = np.zeros(segments.size, np.int32)
    for value in map(value_of, segments.terms(field)):
        found[segments.postings(field, exact(value)).docs] = coded[value]
    return found


def _spread(segments: Segments, docs: Array, codes: Array) -> Array:
    found = np.zeros(segments.size, np.int32)
    found[docs] = codes
    return found
