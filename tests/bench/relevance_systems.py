"""What is compared: plain SQLite FTS5, ours as typed, ours. Each: question -> best hits.

FTS5 has its default tokenizer (unicode61) and bm25 with its default weights, over headings and text of the
same passages as they are printed. "FTS5, our headings" is given the very strings that our index is given:
the title, number and models of the publication and the numbers that the passage is filed under stand in
its headings as well. All words of a question must hold; when no passage holds them all, one will do. A
word with strokes or dots in it is given in quotes, which makes a phrase of its parts, and a quoted phrase
stays one.
"""

import re
import sqlite3
from collections.abc import Callable

from indexer.library.outbox import indexed_passage
from server.opened import OpenedLibrary
from server.search import heading, search

TOP = 20
Ask = Callable[[str], list[str]]  # ids of passages, best first
_PART = re.compile(r'"([^"]*)"|(\S+)')


def systems(library: OpenedLibrary) -> dict[str, Ask]:
    return {
        "FTS5": _Fts5(library, False).ask,
        "FTS5, our headings": _Fts5(library, True).ask,
        "ours as typed": lambda question: _ours(library, question, True),
        "ours": lambda question: _ours(library, question, False),
    }


def _ours(library: OpenedLibrary, question: str, as_typed: bool) -> list[str]:
    answer = search(library, question, limit=TOP, as_typed=as_typed)
    hits = [hit for group in answer.groups for hit in group.hits]
    return [hit.passage.id for hit in sorted(hits, key=lambda hit: (-hit.score, hit.passage.id))]


class _Fts5:
    def __init__(self, library: OpenedLibrary, our_headings: bool):
        self._database = sqlite3.connect(":memory:")
        self._database.execute("CREATE VIRTUAL TABLE found USING fts5(id UNINDEXED, heading, text)")
        for publication in library.publications():
            for passage in library.catalogue.passages_of(publication.id):
                each = indexed_passage(publication, passage)
                row = (each.passage_id, each.heading if our_headings else heading(passage), each.text)
                self._database.execute("INSERT INTO found VALUES (?, ?, ?)", row)

    def ask(self, question: str) -> list[str]:
        words = [f'"{phrase or word}"' for phrase, word in _PART.findall(question.replace('""', ""))]
        words = [word for word in words if any(map(str.isalnum, word))]
        return self._found(" AND ".join(words)) or self._found(" OR ".join(words))

    def _found(self, match: str) -> list[str]:
        rows = self._database.execute(
            f"SELECT id FROM found WHERE found MATCH ? ORDER BY rank, id LIMIT {TOP}", (match,)
        )
        return [passage for (passage,) in rows]
