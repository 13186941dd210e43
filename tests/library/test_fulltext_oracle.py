"""The fast way against three others: plain Whoosh, SQLite FTS5, and itself after a rebuild.

Peers: Whoosh 2.7.4's own matchers and BM25F scorer (whoosh_plain.py), and SQLite's FTS5 extension, which
gets our tokens, written in hexadecimal so that its tokenizer keeps each one whole.
"""

import random
import sqlite3
from collections import Counter
from dataclasses import replace

import pytest
from passage_corpus import passages, sentences, text_files

from indexer.library import index_files, whoosh_codec
from indexer.library.analysis import tokens
from indexer.library.fulltext import NOT_NUMBERED, Also, Filters, FullTextQuery
from indexer.library.search_plan import plan
from indexer.library.whoosh_engine import WhooshEngine

COUNT = 5000
EVERYTHING = 10**6


@pytest.fixture(scope="module")
def source():
    return sentences(text_files())


@pytest.fixture(scope="module")
def corpus(source):
    return list(passages(COUNT, words=40, seed=5, source=source))


@pytest.fixture(scope="module")
def engine(corpus, tmp_path_factory):
    engine = WholeAndPlain(tmp_path_factory.mktemp("oracle"))
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(whoosh_codec, "_BLOCK", 250)  # postings: so that common words have several blocks
        engine.fast.rebuild(1, corpus)
    return engine


class WholeAndPlain:
    """One index, read both ways."""

    def __init__(self, folder):
        self.fast = WhooshEngine(folder / "index", cache_mb=32)
        self.plain = WhooshEngine(folder / "index", cache_mb=1, fast=False)

    def both(self, query, limit=EVERYTHING, per_chapter=5):
        return self.fast.search(query, limit, per_chapter), self.plain.search(query, limit, per_chapter)


def some_queries(corpus, count, seed):
    """Questions made of what stands in the passages: words, phrases, numbers, exclusions and filters,
    mixed."""
    chance, leaving_out = random.Random(seed), random.Random(seed + 1)
    while count:
        each = chance.choice(corpus)
        words = each.text.split()
        start = chance.randrange(max(1, len(words) - 4))
        phrase = " ".join(words[start : start + chance.randint(2, 4)])
        query = FullTextQuery(
            words=tuple(chance.choices(words, k=chance.choice([0, 1, 1, 2, 2, 3, 4]))),
            phrases=(phrase,) if chance.random() < 0.25 else (),
            excluded=(chance.choice(chance.choice(corpus).text.split()),) if chance.random() < 0.2 else (),
            any_word=chance.random() < 0.3,
            filters=some_filters(chance, each) if chance.random() < 0.3 else Filters(),
        )
        if chance.random() < 0.4:
            query = replace(query, also=tuple(some_others(chance, corpus, query.words)))
        if leaving_out.random() < 0.2:
            query = replace(query, filters=without_some(leaving_out, corpus, query.filters))
        if asks(query):
            yield query
            count -= 1


def some_others(chance, corpus, words):
    """Other words, some of them phrases, for one word or two; several may stand for the same."""
    for _ in range(chance.randint(1, 3) if words else 0):
        replaced = tuple(chance.choices(words, k=chance.choice([1, 1, 2])))
        others = []
        for _ in range(chance.choice([1, 2])):
            text = chance.choice(corpus).text.split()
            start = chance.randrange(max(1, len(text) - 3))
            others.append(" ".join(text[start : start + chance.choice([1, 1, 2, 3])]))
        yield Also(replaced, tuple(others), chance.choice([0.0, 0.3, 0.5, 0.8, 1.0]))


def some_filters(chance, each):
    return Filters(
        chapters=(each.chapters[0] if each.chapters else NOT_NUMBERED, "32") if chance.random() < 0.5 else (),
        sections=each.sections[:1] if chance.random() < 0.2 else (),
        types=(each.type,) if chance.random() < 0.3 else (),
        standings=(each.standing, "approved") if chance.random() < 0.5 else (),
        publications=(each.publication_id, "book00001") if chance.random() < 0.1 else (),
    )


def without_some(chance, corpus, filters):
    some = chance.sample(corpus, k=min(len(corpus), chance.choice([1, 5, 200])))
    return replace(
        filters,
        without_publications=tuple({each.publication_id for each in some[: chance.choice([0, 1, 50])]}),
        without_passages=tuple(each.passage_id for each in some),
    )


def asks(query):
    return any(token for word in (*query.words, *query.phrases) for token in tokens(word))


def facts(result):
    """Everything of an answer but scores and order."""
    return (
        result.generation,
        result.total,
        {scored.passage_id for scored in result.top},
        {group.chapter: group.count for group in result.chapters},
        {group.chapter: len(group.best) for group in result.chapters},
        dict(result.counts_by_type),
        dict(result.counts_by_standing),
    )


def test_hits_counts_scores_and_the_best_twenty_are_those_of_plain_whoosh(engine, corpus):
    hits = 0
    overlaps = []
    for query in some_queries(corpus, 150, seed=1):
        fast, plain = engine.both(query)
        assert facts(fast) == facts(plain), query
        scores = {scored.passage_id: scored.score for scored in plain.top}
        for scored in fast.top:
            assert scored.score == pytest.approx(scores[scored.passage_id], rel=1e-5), query
        best, expected = ({scored.passage_id for scored in result.top[:20]} for result in (fast, plain))
        if expected:
            overlaps.append(len(best & expected) / len(expected))
        hits += fast.total
    assert hits > 20_000 and len(overlaps) > 120, "the questions must find something to be a test"
    assert sum(overlaps) / len(overlaps) >= 0.97


def test_the_parts_of_a_score_add_up_to_it_whatever_was_asked(engine, corpus):
    explained = 0
    for query in some_queries(corpus, 40, seed=8):
        fast, plain = engine.both(query)
        for scored in fast.top[::50][:3]:
            parts = engine.fast.explain(query, scored.passage_id)
            assert sum(part.score for part in parts) == pytest.approx(scored.score, rel=1e-4), query
            explained += 1
        for scored in plain.top[:1]:
            by_fast, by_plain = (
                {part.name: part.score for part in way.explain(query, scored.passage_id)}
                for way in (engine.fast, engine.plain)
            )
            assert by_fast == pytest.approx(by_plain, rel=1e-4), query
    assert explained > 60


def test_the_best_of_each_chapter_are_the_best_of_all_its_hits(engine, corpus):
    first = {each.passage_id: (each.chapters or (NOT_NUMBERED,))[0] for each in corpus}
    for query in some_queries(corpus, 40, seed=3):
        result = engine.fast.search(query, EVERYTHING, 3)
        ranked = [scored.passage_id for scored in result.top]
        assert ranked == [
            scored.passage_id
            for scored in sorted(result.top, key=lambda scored: (-scored.score, scored.passage_id))
        ]
        expected = {}
        for passage in ranked:
            expected.setdefault(first[passage], []).append(passage)
        got = {
            group.chapter: [scored.passage_id for scored in group.best]
            for group in result.chapters
            if group.best
        }
        assert got == {chapter: found[:3] for chapter, found in expected.items()}
        assert list(got) == list(expected), "chapters come in order of their best hit"


def test_hits_and_counts_equal_fts5(engine, corpus):
    peer = Fts5(corpus)
    hits = Counter()
    for query in some_queries(corpus, 300, seed=4):
        result = engine.fast.search(query, EVERYTHING, 1)
        expected = peer.hits(query)
        assert {scored.passage_id for scored in result.top} == expected, query
        assert {group.chapter: group.count for group in result.chapters} == peer.count_by_chapter(expected)
        kind = "phrase" if query.phrases else "any" if query.any_word else "all"
        hits[kind, bool(query.excluded), query.filters != Filters()] += bool(expected)
    assert len(hits) == 12 and min(hits.values()) >= 1, f"every kind of question found something: {hits}"


class Fts5:
    """The same passages in SQLite. Printed words keep their order, for phrases; variants lie beside them."""

    def __init__(self, corpus):
        self.passages = {each.passage_id: each for each in corpus}
        self.database = sqlite3.connect(":memory:")
        self.database.execute("CREATE VIRTUAL TABLE found USING fts5(id UNINDEXED, heading, text, forms)")
        self.database.executemany(
            "INSERT INTO found VALUES (?, ?, ?, ?)",
            (
                (each.passage_id, printed(each.heading), printed(each.text), forms(each.heading, each.text))
                for each in corpus
            ),
        )

    def hits(self, query):
        asked = plan(query)
        match = " AND ".join(map(self.wanted, asked.required))
        if asked.any_of:
            some = " OR ".join(map(self.wanted, asked.any_of))
            match = f"{match} AND ({some})" if match else some
        for clause in asked.excluded:
            match = f"({match}) NOT {self.clause(clause)}"
        rows = self.database.execute("SELECT id FROM found WHERE found MATCH ?", (match,))
        return {passage for (passage,) in rows if self.let_through(self.passages[passage], query.filters)}

    def wanted(self, wanted):
        return "(" + " OR ".join(self.clause(way.clause) for way in wanted.ways) + ")"

    @staticmethod
    def clause(clause):
        def atom(words):
            row = '"' + " ".join(map(hexadecimal, words)) + '"'
            return row if len(words) == 1 else f"{{heading text}}: {row}"

        return "(" + " OR ".join(map(atom, clause)) + ")"

    @staticmethod
    def let_through(each, filters):
        if each.publication_id in filters.without_publications or each.passage_id in filters.without_passages:
            return False
        return all(
            not wanted or set(carried) & set(wanted)
            for wanted, carried in [
                (filters.chapters, each.chapters or (NOT_NUMBERED,)),
                (filters.sections, each.sections),
                (filters.types, (each.type,)),
                (filters.standings, (each.standing,)),
                (filters.publications, (each.publication_id,)),
            ]
        )

    def count_by_chapter(self, found):
        return Counter(
            chapter for each in found for chapter in self.passages[each].chapters or (NOT_NUMBERED,)
        )


def hexadecimal(word):
    return "x" + word.encode().hex()


def printed(text):
    return " ".join(hexadecimal(token.text) for token in tokens(text) if not token.variant)


def forms(*texts):
    return " ".join(hexadecimal(token.text) for text in texts for token in tokens(text) if token.variant)


def test_random_changes_never_part_the_two_ways(source, tmp_path):
    engine = WholeAndPlain(tmp_path)
    chance = random.Random(11)
    shelf = {}
    number = 0
    engine.fast.rebuild(1, [])
    segments, deleted = set(), 0
    for generation in range(2, 32):
        removed = chance.sample(sorted(shelf), k=min(len(shelf), chance.choice([0, 0, 1, 2, 5])))
        added = {}
        for _ in range(chance.choice([0, 1, 1, 2, 4])):
            again = chance.random() < 0.3 and removed
            name = chance.choice(removed) if again else f"new{(number := number + 1):03}"
            added[name] = few_passages(name, chance, source)
        for name in removed:
            del shelf[name]
        shelf.update(added)
        engine.fast.apply(generation, removed, [each for found in added.values() for each in found])
        current = [each for found in shelf.values() for each in found]
        reader = engine.plain._newest().reader._searcher.reader()
        deleted += reader.doc_count_all() - reader.doc_count()
        segments.add(len(list(index_files.newest_commit(engine.fast._folder).folder.glob("*.seg"))))
        if current:
            for query in some_queries(current, 12, seed=generation):
                fast, plain = engine.both(query)
                assert facts(fast) == facts(plain), (generation, query)
            whole = engine.fast.search(
                FullTextQuery(filters=Filters(chapters=every_chapter(current))), EVERYTHING, 1
            )
            assert {scored.passage_id for scored in whole.top} == {each.passage_id for each in current}
    assert max(segments) >= 5 and deleted > 100, "several segments and deleted documents were read"
    queries = list(some_queries(current, 40, seed=99))
    before = [engine.fast.search(query, EVERYTHING, 3) for query in queries]
    engine.fast.rebuild(31, reversed(current))
    after = [engine.both(query, per_chapter=3) for query in queries]
    assert [fast for fast, _ in after] == before, (
        "a rebuilt index answers as the grown one did, scores and all"
    )
    for fast, plain in after:
        scores = {scored.passage_id: scored.score for scored in plain.top}
        assert {scored.passage_id: scored.score for scored in fast.top} == pytest.approx(scores, rel=1e-5)


def few_passages(name, chance, source):
    return [
        type(each)(
            passage_id=f"{name}-{place}",
            publication_id=name,
            heading=each.heading,
            text=each.text,
            chapters=each.chapters,
            sections=each.sections,
            type=each.type,
            standing=each.standing,
        )
        for place, each in enumerate(passages(chance.randint(1, 30), 30, chance.random(), source))
    ]


def every_chapter(current):
    return tuple({chapter for each in current for chapter in each.chapters or (NOT_NUMBERED,)})
