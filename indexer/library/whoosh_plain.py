"""Answering with Whoosh's own matchers and scorer, in plain Python: slow, and what the fast way is held
against.

Nothing here is shared with posting_arrays.py but the plan of the query. Scores are Whoosh's, so they count
documents that are deleted and not yet merged away.
"""

import threading
from collections import Counter, defaultdict
from collections.abc import Iterable

from whoosh import query as q
from whoosh.reading import IndexReader
from whoosh.scoring import BM25F
from whoosh.searching import Searcher

from indexer.library.analysis import Atom, Clause
from indexer.library.fulltext import ChapterHits, FullTextResult, ScoredPassage
from indexer.library.search_plan import Plan
from indexer.library.whoosh_schema import FIELD_BOOSTS, exact, value_of


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

    def _scores(self, plan: Plan) -> dict[int, float]:
        wanted = [_clause(clause) for clause in plan.required]
        if plan.any_of:
            wanted.append(q.Or([_clause(clause) for clause in plan.any_of]))
        results = self._searcher.search(
            q.And(wanted) if wanted else q.Every(),
            limit=None,
            filter=_filter(plan),
            mask=q.Or([_clause(clause) for clause in plan.excluded]) if plan.excluded else None,
        )
        return {doc: score if wanted else 0.0 for doc, score in results.items()}


def _clause(clause: Clause) -> q.Query:
    return q.Or([_atom(atom, field, boost) for atom in clause for field, boost in FIELD_BOOSTS.items()])


def _atom(atom: Atom, field: str, boost: float) -> q.Query:
    return q.Term(field, atom[0], boost) if len(atom) == 1 else q.Phrase(field, list(atom), boost=boost)


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
