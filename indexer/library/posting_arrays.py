"""Answering from posting lists held as numpy arrays: the fast way to read a Whoosh index.

Each thing looked for becomes one array of document numbers and one of scores (term_scores.py); joining,
filtering, counting and ranking are array operations. The arrays stay in bounded caches that belong to one
generation of the index. scoring.py says what a score is made of.
"""

import threading
from collections.abc import Iterator, Sequence
from itertools import islice

import numpy as np

from indexer.library import explaining
from indexer.library.analysis import Atom, Clause, clauses
from indexer.library.array_cache import ArrayCache
from indexer.library.beginnings import Beginnings
from indexer.library.confusions import LookAlikes
from indexer.library.fulltext import ChapterHits, FullTextResult, ScoredPassage, ScorePart
from indexer.library.index_documents import read_documents
from indexer.library.ranking import Hits, counted, rank
from indexer.library.scoring import ALL_THERE, LISTING, TEXT_FIELDS, rarity
from indexer.library.search_plan import Pair, Plan, Wanted, single_word
from indexer.library.slips import Vocabulary
from indexer.library.term_scores import TermScores
from indexer.library.whoosh_postings import Segments
from indexer.library.whoosh_schema import exact

Array = np.ndarray
_PARTS = 8  # one part of so many of the room is for what answers are made of (term_scores.py)
_FILTERED = {
    "chapter": "chapters",
    "section": "sections",
    "type": "types",
    "standing": "standings",
    "publication": "publications",
}


class PostingArrays:
    """One generation of the index, open for reading. Safe for threads."""

    def __init__(self, segments: Segments, generation: int, cache_mb: int):
        self.generation = generation
        self._segments = segments
        self._reading = threading.Lock()  # Whoosh's readers and the cache
        room = cache_mb << 20
        self._cache = ArrayCache(room - room // _PARTS)
        self._parts = ArrayCache(room // _PARTS)
        self._scores = TermScores(segments, self._cache, self._parts)
        self._words: Vocabulary | None = None
        self._look_alikes: LookAlikes | None = None
        self._beginnings: Beginnings | None = None
        self._passages = segments.texts("passage")
        self._documents = read_documents(segments, self._passages)
        self._listing = segments.numbers("listing") > 0
        self._kept_share = np.where(self._listing, LISTING, 1.0).astype(np.float32)

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

    def explain(self, plan: Plan, passage_id: str) -> Sequence[ScorePart]:
        """() for a passage that is no hit."""
        held = [number for number, passage in enumerate(self._passages) if passage == passage_id]
        document = next((number for number in held if self._segments.live[number]), None)
        if document is None or document not in self._hits(plan).docs:
            return ()
        with self._reading:
            return explaining.parts(plan, _Look(self, document))

    def knows(self, word: str) -> bool:
        """Whether all that is asked for with `word` stands somewhere."""
        asked = clauses(word)
        return bool(asked) and all(map(self._occurs, asked))

    def suggest(self, word: str, limit: int) -> Sequence[str]:
        meant = single_word(word)
        if meant is None or self.knows(word):
            return ()
        return tuple(islice((near for near in self._vocabulary().near(meant) if self._holds(near)), limit))

    def beginning_with(self, typed: str, limit: int) -> Sequence[str]:
        begun = self._begun().of(typed)
        return tuple(islice((term for term in begun if self._holds(term)), limit))

    def look_alikes(self, word: str) -> Sequence[str]:
        return tuple(term for term in self._alike().of(word) if self._holds(term))

    def _occurs(self, clause: Clause) -> bool:
        if len(clause) == 1 == len(clause[0]):
            return self._holds(clause[0][0])
        return len(self._clause(clause).docs) > 0

    def _holds(self, word: str) -> bool:
        with self._reading:
            return any(self._segments.holds(field, word) for field in TEXT_FIELDS)

    def _vocabulary(self) -> Vocabulary:
        """Read when it is first asked for."""
        with self._reading:
            if self._words is None:
                self._words = Vocabulary(self._segments.frequencies(TEXT_FIELDS))
            return self._words

    def _begun(self) -> Beginnings:
        """Read when it is first asked for."""
        with self._reading:
            if self._beginnings is None:
                self._beginnings = Beginnings(self._segments.frequencies(TEXT_FIELDS))
            return self._beginnings

    def _alike(self) -> LookAlikes:
        """Read when it is first asked for."""
        with self._reading:
            if self._look_alikes is None:
                self._look_alikes = LookAlikes(self._segments.frequencies(TEXT_FIELDS))
            return self._look_alikes

    def _hits(self, plan: Plan) -> Hits:
        hits = self._wanted(plan)
        for clause in plan.excluded:
            hits = _where(hits, ~self._is_in(self._clause(clause).docs))
        for field, filtered in _FILTERED.items():
            values = getattr(plan.filters, filtered)
            if values:
                hits = _where(hits, self._filter(field, values))
        if left_out := plan.filters.without_publications:
            hits = _where(hits, ~self._filter("publication", left_out))
        if left_out := plan.filters.without_passages:
            hits = _where(hits, ~self._these(left_out))
        for pair in plan.pairs:
            hits = self._with(hits, self._pair(pair))
        return Hits(hits.docs, hits.scores * self._kept_share[hits.docs])

    def _wanted(self, plan: Plan) -> Hits:
        hits = None
        for each in sorted(map(self._either, plan.required), key=lambda found: len(found.docs)):
            hits = each if hits is None else self._both(hits, each)
        if plan.any_of:
            some = self._any([self._either(wanted) for wanted in plan.any_of])
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

    def _any(self, found: Sequence[Hits]) -> Hits:
        """Documents with one of them at least, scored by how much of what was asked for is there."""
        if len(found) == 1:
            return found[0]
        scores = np.zeros(self._segments.size, np.float32)
        there = np.zeros(self._segments.size, np.float32)
        words = np.zeros(self._segments.size, np.int32)
        rarities = [self._rarity(each) for each in found]
        for each, rare in zip(found, rarities, strict=True):
            scores[each.docs] += each.scores
            there[each.docs] += np.float32(rare / sum(rarities))
            words[each.docs] += 1
        docs = np.flatnonzero(scores > 0).astype(np.int32)
        whole = np.where(words[docs] == len(found), np.float32(ALL_THERE), np.float32(1))
        return Hits(docs, scores[docs] * there[docs] * whole)

    def _rarity(self, found: Hits) -> float:
        return rarity(self._scores.live_docs, len(found.docs))

    def _with(self, hits: Hits, more: Hits) -> Hits:
        """The same hits, those also in `more` with its scores added."""
        if not len(hits.docs) or not len(more.docs):
            return hits
        if len(hits.docs) * 8 < len(more.docs):
            at = np.minimum(np.searchsorted(more.docs, hits.docs), len(more.docs) - 1)
            return Hits(
                hits.docs, hits.scores + np.where(more.docs[at] == hits.docs, more.scores[at], np.float32(0))
            )
        scores = np.zeros(self._segments.size, np.float32)
        scores[more.docs] = more.scores
        return Hits(hits.docs, hits.scores + scores[hits.docs])

    def _is_in(self, docs: Array) -> Array:
        found = np.zeros(self._segments.size, bool)
        found[docs] = True
        return found

    def _filter(self, field: str, values: tuple[str, ...]) -> Array:
        def read() -> tuple[Array]:
            docs = [self._segments.postings(field, exact(value)).docs for value in values]
            return (self._is_in(np.concatenate(docs)),)

        with self._reading:
            return self._cache.of((field, values), read)[0]

    def _these(self, passage_ids: tuple[str, ...]) -> Array:
        def read() -> tuple[Array]:
            wanted = frozenset(passage_ids)
            found = [number for number, passage in enumerate(self._passages) if passage in wanted]
            return (self._is_in(np.array(found, np.int32)),)

        with self._reading:
            return self._cache.of(("passage", passage_ids), read)[0]

    def _either(self, wanted: Wanted) -> Hits:
        """Where a word or one of its other words stands."""
        if not wanted.others:
            return self._clause(wanted.clause)
        with self._reading:
            return Hits(*self._scores.best(wanted.ways))

    def _clause(self, clause: Clause) -> Hits:
        with self._reading:
            return Hits(*self._scores.clause(clause))

    def _pair(self, pair: Pair) -> Hits:
        with self._reading:
            return Hits(*self._scores.pair(pair))


def _where(hits: Hits, allowed: Array) -> Hits:
    """`allowed` is indexed by document number."""
    kept = allowed[hits.docs]
    return Hits(hits.docs[kept], hits.scores[kept])


class _Look:
    """What stands in one document, for explaining.parts. Made and used while nothing else reads."""

    def __init__(self, arrays: PostingArrays, document: int):
        self._arrays = arrays
        self._document = document
        self.listing = bool(arrays._listing[document])

    def atom(self, field: str, atom: Atom) -> float:
        return self._at(*self._arrays._scores.atom(field, atom))

    def times(self, field: str, word: str) -> int:
        return self._arrays._scores.times(field, word, self._document)

    def pair(self, pair: Pair) -> float:
        return self._at(*self._arrays._scores.pair(pair))

    def rarity(self, wanted: Wanted) -> float:
        return self._arrays._rarity(Hits(*self._arrays._scores.best(wanted.ways)))

    def _at(self, docs: Array, scores: Array) -> float:
        return float(scores[docs == self._document].sum())
