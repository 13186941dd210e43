"""The one-number ranking against sorting in plain Python, and against the slower way of large libraries."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some

from indexer.library import ranking
from indexer.library.ranking import Documents, Hits, counted, rank

CHAPTERS = ("", "05", "12", "32", "53")
SCORES = (0.0, 1e-30, 0.5, 1.0, 1.0000001, 7.25, 1e30)


@some.composite
def shelves(draw):
    """Documents with chapters, ids in any order, and some of them hit with scores that often tie."""
    size = draw(some.integers(1, 60))
    ranks = np.array(draw(some.permutations(range(size))), np.int32)
    codes = some.lists(some.integers(0, 4), min_size=1, max_size=3, unique=True)
    carried = draw(some.lists(codes, min_size=size, max_size=size))
    more = [(doc, code) for doc, codes in enumerate(carried) for code in codes[1:]]
    documents = Documents(
        rank=ranks,
        by_rank=np.argsort(ranks).astype(np.int32),
        group=np.array([codes[0] for codes in carried], np.int32),
        type=np.zeros(size, np.int32),
        standing=np.zeros(size, np.int32),
        more_docs=np.array([doc for doc, _ in more], np.int32),
        more_chapters=np.array([code for _, code in more], np.int32),
        chapters=CHAPTERS,
        types=("",),
        standings=("",),
    )
    docs = np.array(sorted(draw(some.sets(some.integers(0, size - 1)))), np.int32)
    scores = draw(some.lists(some.sampled_from(SCORES), min_size=len(docs), max_size=len(docs)))
    return carried, documents, Hits(docs, np.array(scores, np.float32))


@pytest.fixture(params=["one number", "slower"])
def way(request, monkeypatch):
    if request.param == "slower":
        monkeypatch.setattr(ranking, "_CHAPTER_BITS", 0)


@given(shelf=shelves(), limit=some.integers(0, 70), per_chapter=some.integers(0, 5))
def check(shelf, limit, per_chapter):
    carried, documents, hits = shelf
    scores = dict(zip(hits.docs.tolist(), hits.scores.tolist(), strict=True))
    in_order = sorted(scores, key=lambda doc: (-scores[doc], documents.rank[doc]))
    found = rank(hits, documents, limit, per_chapter)
    assert found.top.docs.tolist() == in_order[:limit]
    assert found.top.scores.tolist() == [scores[doc] for doc in in_order[:limit]]
    best, counts = {}, {}
    for doc in in_order:
        best.setdefault(CHAPTERS[carried[doc][0]], []).append(doc)
        for code in carried[doc]:
            counts[CHAPTERS[code]] = counts.get(CHAPTERS[code], 0) + 1
    assert {group.chapter: group.count for group in found.groups} == counts
    assert [group.chapter for group in found.groups] == [*best, *sorted(counts.keys() - best.keys())]
    assert [group.best for group in found.groups if group.chapter in best] == [
        min(per_chapter, len(docs)) for docs in best.values()
    ]
    assert found.grouped.docs.tolist() == [doc for docs in best.values() for doc in docs[:per_chapter]]


def test_ranking_equals_sorting_in_python(way):
    check()


def test_counted_leaves_out_what_does_not_occur():
    assert counted(np.array([2, 0, 2]), ("a", "b", "c")) == {"a": 1, "c": 2}
    assert counted(np.array([], np.int32), ("a",)) == {}
