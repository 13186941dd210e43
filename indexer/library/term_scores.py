"""Documents and scores of one word, one clause, one pair of words: posting lists read into numpy arrays.

Scores are those of Whoosh's BM25F. One thing differs on purpose: numbers of documents and mean lengths are
taken over the documents that are there, where Whoosh counts those deleted and not yet merged away. So the
same passages give the same answer whatever changes led to them, and a rebuilt index answers as the old one
did.

Not safe for threads: Whoosh's readers share one file position.
"""

from collections.abc import Sequence

import numpy as np

from indexer.library.analysis import Atom, Clause
from indexer.library.array_cache import ArrayCache
from indexer.library.closeness import closeness, in_a_row, steps
from indexer.library.scoring import CLOSE, FIELD_BOOSTS, K1, TEXT_FIELDS, B, boost, rarity
from indexer.library.search_plan import Other, Pair
from indexer.library.whoosh_postings import Postings, Segments, places_of, rounded

Array = np.ndarray
Scored = tuple[Array, Array]  # documents, ascending, int32, and their scores, above zero, float32


class TermScores:
    """Reads one generation of the index.

    cache  keeps whole answers: clauses, sets of ways, pairs
    parts  keeps what they are made of, each word's posting list and each way by itself, for the next answer
           that shares them; a cache of its own, so that parts push no answer out
    """

    def __init__(self, segments: Segments, cache: ArrayCache, parts: ArrayCache):
        self._segments = segments
        self._cache = cache
        self._parts = parts
        self.live_docs = int(segments.live.sum())
        self._norms = {field: self._length_norm(segments.numbers(f"{field}_length")) for field in TEXT_FIELDS}

    def _length_norm(self, lengths: Array) -> Array:
        """BM25's length term of each document, with lengths rounded as Whoosh rounds them."""
        mean = lengths[self._segments.live].sum() / max(self.live_docs, 1) or 1
        return K1 * ((1 - B) + B * rounded(lengths) / mean)

    def clause(self, clause: Clause) -> Scored:
        """Over both fields and all atoms."""
        return self._cache.of(("clause", clause), lambda: self._read_clause(clause))

    def best(self, ways: Sequence[Other]) -> Scored:
        """Documents in which one of the ways holds, each with the best score of them."""
        key = ("ways", tuple((way.clause, way.share) for way in ways))
        return self._cache.of(key, lambda: self._read_best(ways))

    def pair(self, pair: Pair) -> Scored:
        """What is added where two words stand close together."""
        return self._cache.of(("pair", pair.first, pair.second), lambda: self._read_pair(pair))

    def atom(self, field: str, atom: Atom) -> tuple[Array, Array]:
        """Documents of one field that hold the atom, and what it adds to their scores (float64)."""
        lists = [self._postings(field, word) for word in atom]
        docs = lists[0].docs if len(atom) == 1 else in_a_row(lists)
        scores = np.zeros(len(docs))
        for found in lists if len(docs) else ():
            scores += self._scores(field, found, docs)
        return docs, boost(field, atom) * scores

    def times(self, field: str, word: str, document: int) -> int:
        """How often a word stands in a field of a document."""
        found = self._postings(field, word)
        return int(found.counts[found.docs == document].sum())

    def _postings(self, field: str, word: str) -> Postings:
        """With positions."""
        read = self._parts.of(
            ("postings", field, word), lambda: self._segments.postings(field, word, with_positions=True)
        )
        return Postings(*read)

    def _read_clause(self, clause: Clause) -> Scored:
        scores = np.zeros(self._segments.size)
        for atom in clause:
            for field in TEXT_FIELDS:
                docs, added = self.atom(field, atom)
                scores[docs] += added
        return self._compact(scores)

    def _read_best(self, ways: Sequence[Other]) -> Scored:
        best = np.zeros(self._segments.size, np.float32)
        for way in ways:
            clause = way.clause
            docs, scores = self._parts.of(("way", clause), lambda clause=clause: self._read_clause(clause))
            best[docs] = np.maximum(best[docs], np.float32(way.share) * scores)
        return self._compact(best)

    def _read_pair(self, pair: Pair) -> Scored:
        scores = np.zeros(self._segments.size)
        for field in TEXT_FIELDS:
            first, second = (self._postings(field, word) for word in (pair.first, pair.second))
            docs, apart = steps(first, second)
            commoner = min(self._rarity(first), self._rarity(second))
            scores[docs] += CLOSE * FIELD_BOOSTS[field] * commoner * closeness(apart)
        return self._compact(scores)

    def _scores(self, field: str, found: Postings, docs: Array) -> Array:
        """What a word adds in these documents, all of which are in `found`."""
        counts = found.counts[places_of(docs, found.docs)].astype(float)
        return self._rarity(found) * (K1 + 1) * counts / (counts + self._norms[field][docs])

    def _rarity(self, found: Postings) -> float:
        return rarity(self.live_docs, len(found.docs))

    @staticmethod
    def _compact(scores: Array) -> Scored:
        docs = np.flatnonzero(scores > 0)  # numpy is slow to find where floats are not zero
        return docs.astype(np.int32), scores[docs].astype(np.float32)
