"""Words close together and words in a row, against looking at every position in plain Python."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as some

from indexer.library.closeness import closeness, in_a_row, steps
from indexer.library.whoosh_postings import Postings

places = some.dictionaries(some.integers(0, 6), some.sets(some.integers(0, 40), min_size=1), max_size=6)


def listed(held):
    docs = sorted(held)
    return Postings(
        np.array(docs, np.int64),
        np.array([len(held[doc]) for doc in docs], np.int64),
        np.array([place for doc in docs for place in sorted(held[doc])], np.int64),
    )


@given(first=places, second=places)
def test_steps_equal_counting_in_python(first, second):
    docs, apart = steps(listed(first), listed(second))
    expected = {
        doc: min(b - a if a < b else a - b + 1 for a in first[doc] for b in second[doc])
        for doc in first.keys() & second.keys()
    }
    assert dict(zip(docs.tolist(), apart.tolist(), strict=True)) == expected


@given(first=places, second=places, third=places)
def test_words_in_a_row_equal_looking_in_python(first, second, third):
    for lists in ((first, second), (first, second, third), (first, first), (first, second, first)):
        expected = {
            doc
            for doc in set.intersection(*map(set, lists))
            if any(all(at + step in held[doc] for step, held in enumerate(lists)) for at in lists[0][doc])
        }
        assert in_a_row([listed(held) for held in lists]).tolist() == sorted(expected)


def test_words_that_stand_far_into_many_documents_are_told_apart():
    """Where a document's place and a position together take more than 32 bits."""
    far = 1 << 24  # where the other forms of numbers stand
    first = {doc: {7, far + 2 * doc} for doc in range(500)}
    second = {doc: {8 if doc % 2 else 20, far + 2 * doc + 4} for doc in range(0, 500, 3)}
    docs, apart = steps(listed(first), listed(second))
    assert docs.tolist() == sorted(second)
    assert apart.tolist() == [1 if doc % 2 else 4 for doc in docs.tolist()]
    assert in_a_row([listed(first), listed(second)]).tolist() == [doc for doc in sorted(second) if doc % 2]


def test_closeness_falls_with_every_step_and_ends():
    assert closeness(np.array([1, 2, 4, 8, 9, 10**9])).tolist() == [1.0, 0.5, 0.25, 0.125, 0.0, 0.0]
