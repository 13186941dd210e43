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
from indexer.library.closeness import closeness, in_a_row, steps
from indexer.library.scoring import CLOSE, FIELD_BOOSTS, K1, TEXT_FIELDS, B, boost, rarity
from indexer.library.search_plan import Other, Pair
from indexer.library.whoosh_postings import Postings, Segments, rounded

Array = np.ndarray
Scored = tuple[Array, Array]  # documents, ascending, int32, and their scores, above zero, float32


class TermScores:
    """Reads one generation of the index."""

    def __init__(self, segments: Segments):
        self._segments = segments
        self.live_docs = int(segments.live.sum())
        self._norms = {field: self._length_norm(segments.numbers(f"{field}_length")) for field in TEXT_FIELDS}

    def _length_norm(self, lengths: Array) -> Array:
        """BM25's length term of each document, with lengths rounded as Whoosh rounds them."""
        mean = lengths[self._segments.live].sum() / max(self.live_docs, 1) or 1
        return K1 * ((1 - B) + B * rounded(lengths) / mean)

    def clause(self, clause: Clause) -> Scored:
        """Over both fields and all atoms."""
        return self._compact(self._clause(clause))

    def best(self, ways: Sequence[Other]) -> Scored:
        """Documents in which one of the ways holds, each with the best score of them."""
        scores = np.zeros(self._segments.size)
        for way in ways:
            np.maximum(scores, way.share * self._clause(way.clause), out=scores)
        return self._compact(scores)

    def pair(self, pair: Pair) -> Scored:
        """What is added where two words stand close together."""
        scores = np.zeros(self._segments.size)
        for field in TEXT_FIELDS:
            first, second = (
                self._segments.postings(field, word, with_positions=True)
                for word in (pair.first, pair.second)
            )
            docs, apart = steps(first, second)
            commoner = min(self._rarity(first), self._rarity(second))
            scores[docs] += CLOSE * FIELD_BOOSTS[field] * commoner * closeness(apart)
        return self._compact(scores)

    def atom(self, field: str, atom: Atom) -> tuple[Array, Array]:
        """Documents of one field that hold the atom, and what it adds to their scores (float64)."""
        if len(atom) == 1:
            found = self._segments.postings(field, atom[0])
            return found.docs, boost(field, atom) * self._scores(field, found)
        lists = {word: self._segments.postings(field, word, with_positions=True) for word in set(atom)}
        docs = in_a_row([lists[word] for word in atom])
        scores = np.zeros(len(docs))
        for word in atom:
            found = lists[word]
            scores += self._scores(field, found)[np.searchsorted(found.docs, docs)] if len(docs) else 0
        return docs, boost(field, atom) * scores

    def times(self, field: str, word: str, document: int) -> int:
        """How often a word stands in a field of a document."""
        found = self._segments.postings(field, word)
        return int(found.counts[found.docs == document].sum())

    def _clause(self, clause: Clause) -> Array:
        scores = np.zeros(self._segments.size)
        for atom in clause:
            for field in TEXT_FIELDS:
                docs, added = self.atom(field, atom)
                scores[docs] += added
        return scores

    def _scores(self, field: str, found: Postings) -> Array:
        counts = found.counts
        return self._rarity(found) * (counts * (K1 + 1)) / (counts + self._norms[field][found.docs])

    def _rarity(self, found: Postings) -> float:
        return rarity(self.live_docs, len(found.docs))

    @staticmethod
    def _compact(scores: Array) -> Scored:
        docs = np.flatnonzero(scores)
        return docs.astype(np.int32), scores[docs].astype(np.float32)
