"""Answering with Whoosh's own matchers and scorer, in plain Python: slow, and what the fast way is held
against.

Nothing here is shared with posting_arrays.py but the plan of the query, the weights of scoring.py and the
names that explaining.py gives. Scores are Whoosh's, so they count documents that are deleted and not yet
merged away.
"""

import threading
from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence

from whoosh import query as q
from whoosh.reading import IndexReader
from whoosh.scoring import BM25F
from whoosh.searching import Searcher

from indexer.library import explaining
from indexer.library.analysis import Atom, Clause, clauses
from indexer.library.beginnings import Beginnings
from indexer.library.confusions import LookAlikes
from indexer.library.fulltext import ChapterHits, FullTextResult, ScoredPassage, ScorePart
from indexer.library.scoring import (
    ALL_THERE,
    CLOSE,
    FARTHEST,
    FIELD_BOOSTS,
    LISTING,
    TEXT_FIELDS,
    boost,
    rarity,
)
from indexer.library.search_plan import Pair, Plan, Wanted, single_word
from indexer.library.slips import Vocabulary
from indexer.library.whoosh_schema import exact, value_of


class PlainSearch:
    """One generation of the index, open for reading. Safe for threads, one search at a time."""

    def __init__(self, reader: IndexReader, generation: int):
        self.generation = generation
        self._searcher = Searcher(reader, weighting=BM25F())
        self._one_at_a_time = threading.Lock()
        self._passages = [
            passage.decode()
            for leaf, _ in (reader.leaf_readers() if reader.doc_count_all() else ())
            for passage in leaf.column_reader("passage", translate=False)
        ]
        self._group = self._values_by_document("group")
        self._chapters = self._values_by_document("chapter")
        self._type = self._values_by_document("type")
        self._standing = self._values_by_document("standing")
        self._listings = {
            offset + number
            for leaf, offset in (reader.leaf_readers() if reader.doc_count_all() else ())
            if leaf.has_column("listing")
            for number, listing in enumerate(leaf.column_reader("listing"))
            if listing
        }

    def _values_by_document(self, field: str) -> dict[int, list[str]]:
        reader = self._searcher.reader()
        found = defaultdict(list)
        for term in reader.lexicon(field) if reader.doc_count_all() else ():
            for doc in reader.postings(field, term).all_ids():
                found[doc].append(value_of(term.decode()))
        return found

    def search(self, plan: Plan, limit: int, per_chapter: int) -> FullTextResult:
        with self._one_at_a_time:
            scores = self._scores(plan)
        ranked = sorted(scores, key=lambda doc: (-scores[doc], self._passages[doc]))
        best = defaultdict(list)
        for doc in ranked:
            best[self._group[doc][0]].append(doc)
        carried = Counter(chapter for doc in ranked for chapter in self._chapters[doc])
        in_order = [*best, *sorted(carried.keys() - best.keys())]
        return FullTextResult(
            generation=self.generation,
            total=len(ranked),
            chapters=tuple(
                ChapterHits(chapter, carried[chapter], self._scored(best[chapter][:per_chapter], scores))
                for chapter in in_order
            ),
            top=self._scored(ranked[:limit], scores),
            counts_by_type=Counter(self._type[doc][0] for doc in ranked),
            counts_by_standing=Counter(self._standing[doc][0] for doc in ranked),
        )

    def _scored(self, docs: Iterable[int], scores: dict[int, float]) -> tuple[ScoredPassage, ...]:
        return tuple(ScoredPassage(self._passages[doc], scores[doc]) for doc in docs)

    def explain(self, plan: Plan, passage_id: str) -> Sequence[ScorePart]:
        """() for a passage that is no hit."""
        with self._one_at_a_time:
            hits = [doc for doc in self._scores(plan) if self._passages[doc] == passage_id]
            return explaining.parts(plan, _Look(self, hits[0])) if hits else ()

    def knows(self, word: str) -> bool:
        """Whether all that is asked for with `word` stands somewhere."""
        asked = clauses(word)
        with self._one_at_a_time:
            return bool(asked) and all(self._found(_clause(clause)) for clause in asked)

    def suggest(self, word: str, limit: int) -> Sequence[str]:
        meant = single_word(word)
        if meant is None or self.knows(word):
            return ()
        with self._one_at_a_time:
            reader = self._searcher.reader()
            fields = TEXT_FIELDS if reader.doc_count_all() else ()
            words = {term.decode() for field in fields for term in reader.lexicon(field)}
            holding = {each: sum(reader.doc_frequency(field, each) for field in fields) for each in words}
            near = [each for each in Vocabulary(holding).near(meant) if self._found(_clause(((each,),)))]
            return tuple(near[:limit])

    def beginning_with(self, typed: str, limit: int) -> Sequence[str]:
        with self._one_at_a_time:
            reader = self._searcher.reader()
            fields = TEXT_FIELDS if reader.doc_count_all() else ()
            words = {term.decode() for field in fields for term in reader.lexicon(field)}
            holding = {each: sum(reader.doc_frequency(field, each) for field in fields) for each in words}
            begun = Beginnings(holding).of(typed)
            return tuple([each for each in begun if self._found(_clause(((each,),)))][:limit])

    def look_alikes(self, word: str) -> Sequence[str]:
        with self._one_at_a_time:
            reader = self._searcher.reader()
            fields = TEXT_FIELDS if reader.doc_count_all() else ()
            words = LookAlikes({term.decode() for field in fields for term in reader.lexicon(field)})
            return tuple(term for term in words.of(word) if self._found(_clause(((term,),))))

    def _scores(self, plan: Plan) -> dict[int, float]:
        """The score of each hit."""
        results = self._searcher.search(
            q.Every(),
            limit=None,
            filter=_filter(plan),
            mask=_mask(plan),
        )
        left_out = frozenset(plan.filters.without_passages)
        scores = {doc: 0.0 for doc in results.docs() if self._passages[doc] not in left_out}
        for wanted in plan.required:
            found = self._best(wanted)
            scores = {doc: score + found[doc] for doc, score in scores.items() if doc in found}
        if plan.any_of:
            some = self._any(plan.any_of)
            scores = {doc: score + some[doc] for doc, score in scores.items() if doc in some}
        for pair in plan.pairs:
            found = self._close(pair)
            scores = {doc: score + found.get(doc, 0.0) for doc, score in scores.items()}
        return {doc: score * (LISTING if doc in self._listings else 1.0) for doc, score in scores.items()}

    def _any(self, wanted: Sequence[Wanted]) -> dict[int, float]:
        found = [self._best(each) for each in wanted]
        rarities = [self._rarity(each) for each in found]
        scores = {}
        for doc in set().union(*found):
            there = sum(rare for rare, each in zip(rarities, found, strict=True) if doc in each)
            whole = ALL_THERE if len(found) > 1 and all(doc in each for each in found) else 1.0
            scores[doc] = sum(each.get(doc, 0.0) for each in found) * there / sum(rarities) * whole
        return scores

    def _best(self, wanted: Wanted) -> dict[int, float]:
        best: dict[int, float] = {}
        for way in wanted.ways:
            for doc, score in self._found(_clause(way.clause)).items():
                best[doc] = max(best.get(doc, 0.0), way.share * score)
        return best

    def _rarity(self, found: dict[int, float]) -> float:
        return rarity(self._searcher.doc_count_all(), len(found))

    def _close(self, pair: Pair) -> dict[int, float]:
        """What is added where two words stand close together."""
        added: dict[int, float] = defaultdict(float)
        for field in TEXT_FIELDS:
            first, second = self._places(field, pair.first), self._places(field, pair.second)
            commoner = min(self._searcher.idf(field, word) for word in (pair.first, pair.second))
            for doc in first.keys() & second.keys():
                steps = min(b - a if a < b else a - b + 1 for a in first[doc] for b in second[doc])
                if steps <= FARTHEST:
                    added[doc] += CLOSE * FIELD_BOOSTS[field] * commoner / steps
        return added

    def _places(self, field: str, word: str) -> dict[int, list[int]]:
        """Where a word stands in each document."""
        if (field, word) not in self._searcher.reader():
            return {}
        matcher = self._searcher.postings(field, word)
        found = {}
        while matcher.is_active():
            found[matcher.id()] = matcher.value_as("positions")
            matcher.next()
        return found

    def _found(self, query: q.Query) -> dict[int, float]:
        return dict(self._searcher.search(query, limit=None).items())


class _Look:
    """What stands in one document, for explaining.parts."""

    def __init__(self, search: PlainSearch, document: int):
        self._search = search
        self._document = document
        self.listing = document in search._listings

    def atom(self, field: str, atom: Atom) -> float:
        return self._search._found(_atom(atom, field)).get(self._document, 0.0)

    def times(self, field: str, word: str) -> int:
        return len(self._search._places(field, word).get(self._document, ()))

    def pair(self, pair: Pair) -> float:
        return self._search._close(pair).get(self._document, 0.0)

    def rarity(self, wanted: Wanted) -> float:
        return self._search._rarity(self._search._best(wanted))


def _clause(clause: Clause) -> q.Query:
    return q.Or([_atom(atom, field) for atom in clause for field in TEXT_FIELDS])


def _atom(atom: Atom, field: str) -> q.Query:
    weight = boost(field, atom)
    return q.Term(field, atom[0], weight) if len(atom) == 1 else q.Phrase(field, list(atom), boost=weight)


def _mask(plan: Plan) -> q.Query | None:
    """What no hit may be."""
    left_out = [q.Term("publication", exact(each)) for each in plan.filters.without_publications]
    unwanted = [*map(_clause, plan.excluded), *left_out]
    return q.Or(unwanted) if unwanted else None


def _filter(plan: Plan) -> q.Query | None:
    filters = plan.filters
    chosen = {
        "chapter": filters.chapters,
        "section": filters.sections,
        "type": filters.types,
        "standing": filters.standings,
        "publication": filters.publications,
    }
    wanted = [
        q.Or([q.Term(field, exact(value)) for value in values]) for field, values in chosen.items() if values
    ]
    return q.And(wanted) if wanted else None
