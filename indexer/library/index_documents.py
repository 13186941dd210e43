"""What ranking needs to know of every document of an index, read from its columns and exact values."""

from collections.abc import Sequence

import numpy as np

from indexer.library.ranking import Documents
from indexer.library.whoosh_postings import Segments
from indexer.library.whoosh_schema import exact, value_of

Array = np.ndarray


def read_documents(segments: Segments, passages: Sequence[str]) -> Documents:
    """`passages` is the passage id of each document, deleted or not."""
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
