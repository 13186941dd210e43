"""The same search elsewhere: SQLite FTS5 and tantivy over the same tokens, for search.py.

Both get our tokens: printed words in `heading` and `text`, where phrases are looked for, and the other
forms of numbers in `forms`. Each answers with the best 20 and the number of hits in every chapter. Ours
gives the best of each chapter and the counts by type and standing as well.
"""

import shutil
import sqlite3
from collections.abc import Iterable
from pathlib import Path

from indexer.library.analysis import Clause, tokens
from indexer.library.fulltext import NOT_NUMBERED, FullTextQuery, IndexedPassage
from indexer.library.scoring import FIELD_BOOSTS
from indexer.library.search_plan import Wanted, plan

TOP = 20


def _printed(text: str) -> list[str]:
    return [_hexadecimal(token.text) for token in tokens(text) if not token.variant]


def _forms(each: IndexedPassage) -> list[str]:
    found = [*tokens(each.heading), *tokens(each.text)]
    return [_hexadecimal(token.text) for token in found if token.variant]


def _hexadecimal(word: str) -> str:
    return "x" + word.encode().hex()


class Fts5:
    """One table without its text, one of chapters; best by bm25 with the heading weighted as ours."""

    name = "SQLite FTS5"
    version = sqlite3.sqlite_version

    def __init__(self, folder: Path):
        self._path = folder / "fts5.sqlite"
        self._database = sqlite3.connect(self._path)

    @property
    def complete(self) -> bool:
        found = self._database.execute(
            "SELECT count(*) FROM sqlite_master WHERE name = 'complete'"
        ).fetchone()
        return bool(found[0])

    def build(self, passages: Iterable[IndexedPassage]) -> None:
        database = self._database
        database.executescript(
            "CREATE VIRTUAL TABLE found USING fts5(heading, text, forms, content='');"
            f"INSERT INTO found(found, rank) VALUES ('rank', 'bm25({FIELD_BOOSTS['heading']}, 1.0, 1.0)');"
            "CREATE TABLE passage(id INTEGER PRIMARY KEY, type TEXT, standing TEXT);"
            "CREATE TABLE carries(passage INTEGER, chapter TEXT, PRIMARY KEY(passage, chapter)) "
            "WITHOUT ROWID;"
        )
        for number, each in enumerate(passages, 1):
            row = [
                number,
                *(" ".join(part) for part in (_printed(each.heading), _printed(each.text), _forms(each))),
            ]
            database.execute("INSERT INTO found(rowid, heading, text, forms) VALUES (?, ?, ?, ?)", row)
            database.execute("INSERT INTO passage VALUES (?, ?, ?)", (number, each.type, each.standing))
            for chapter in each.chapters or (NOT_NUMBERED,):
                database.execute("INSERT INTO carries VALUES (?, ?)", (number, chapter))
        database.execute("INSERT INTO found(found) VALUES ('optimize')")
        database.execute("CREATE TABLE complete(yes)")
        database.commit()
        database.execute("VACUUM")

    def bytes(self) -> int:
        return self._path.stat().st_size

    def prepare(self, query: FullTextQuery) -> tuple[str, list[str]]:
        """What need not be done again each time: the question in its own language, not counted in its
        time."""
        asked = plan(query)
        match = " AND ".join(map(self._wanted, asked.required))
        if asked.any_of:
            some = "(" + " OR ".join(map(self._wanted, asked.any_of)) + ")"
            match = f"{match} AND {some}" if match else some
        for clause in asked.excluded:
            match = f"({match}) NOT {self._clause(clause)}"
        condition, given = "found MATCH ?", [match]
        for column, table, id, values in (
            ("chapter", "carries", "passage", asked.filters.chapters),
            ("standing", "passage", "id", asked.filters.standings),
        ):
            if values:  # EXISTS, so that words are looked up first; with IN it asks once for each passage
                wanted = f"{id} = found.rowid AND {column} IN ({','.join('?' * len(values))})"
                condition += f" AND EXISTS (SELECT 1 FROM {table} WHERE {wanted})"
                given += values
        return condition, given

    def search(self, prepared: tuple[str, list[str]]) -> tuple[list, dict[str, int]]:
        condition, given = prepared
        best = self._database.execute(
            f"SELECT rowid, rank FROM found WHERE {condition} ORDER BY rank LIMIT {TOP}", given
        ).fetchall()
        counts = self._database.execute(
            "SELECT chapter, count(*) FROM found CROSS JOIN carries ON passage = found.rowid "
            f"WHERE {condition} GROUP BY chapter",
            given,
        )
        return best, dict(counts.fetchall())

    def _wanted(self, wanted: Wanted) -> str:
        return "(" + " OR ".join(self._clause(way.clause) for way in wanted.ways) + ")"

    @staticmethod
    def _clause(clause: Clause) -> str:
        def atom(words):
            row = '"' + " ".join(map(_hexadecimal, words)) + '"'
            return row if len(words) == 1 else f"{{heading text}}: {row}"

        return "(" + " OR ".join(map(atom, clause)) + ")"


class Tantivy:
    """One segment, chapters as a fast field for the aggregation that counts them."""

    name = "tantivy"

    def __init__(self, folder: Path):
        import tantivy

        self._tantivy = tantivy
        self.version = tantivy.tantivy.__version__ if hasattr(tantivy.tantivy, "__version__") else "?"
        self._folder = folder / "tantivy"
        self._mark = folder / "tantivy.complete"
        if not self.complete:
            shutil.rmtree(self._folder, ignore_errors=True)
        self._folder.mkdir(exist_ok=True)
        schema = tantivy.SchemaBuilder()
        for field in ("heading", "text", "forms"):
            schema.add_text_field(field, tokenizer_name="blanks", index_option="position")
        for field in ("chapter", "standing"):
            schema.add_text_field(field, tokenizer_name="raw", index_option="basic", fast=True)
        self._schema = schema.build()
        self._index = tantivy.Index(self._schema, str(self._folder))
        blanks = tantivy.TextAnalyzerBuilder(tantivy.Tokenizer.whitespace()).build()
        self._index.register_tokenizer("blanks", blanks)
        self._searcher = self._index.searcher()

    @property
    def complete(self) -> bool:
        return self._mark.exists()

    def build(self, passages: Iterable[IndexedPassage]) -> None:
        writer = self._index.writer(200_000_000, 1)
        for each in passages:
            document = self._tantivy.Document()
            document.add_text("heading", " ".join(_printed(each.heading)))
            document.add_text("text", " ".join(_printed(each.text)))
            document.add_text("forms", " ".join(_forms(each)))
            for chapter in each.chapters or (NOT_NUMBERED,):
                document.add_text("chapter", f"={chapter}")
            document.add_text("standing", f"={each.standing}")
            writer.add_document(document)
        writer.commit()
        writer.wait_merging_threads()
        self._mark.touch()
        self._index.reload()
        self._searcher = self._index.searcher()

    def bytes(self) -> int:
        return sum(path.stat().st_size for path in self._folder.iterdir())

    def prepare(self, query: FullTextQuery):
        asked = plan(query)
        occur, make = self._tantivy.Occur, self._tantivy.Query
        parts = [(occur.Must, self._wanted(wanted)) for wanted in asked.required]
        if asked.any_of:
            some = [(occur.Should, self._wanted(wanted)) for wanted in asked.any_of]
            parts.append((occur.Must, make.boolean_query(some)))
        parts += [(occur.MustNot, self._clause(clause)) for clause in asked.excluded]
        for field, values in (("chapter", asked.filters.chapters), ("standing", asked.filters.standings)):
            if values:
                terms = make.term_set_query(self._schema, field, [f"={value}" for value in values])
                parts.append((occur.Must, make.const_score_query(terms, 0.0)))
        return make.boolean_query(parts)

    def search(self, prepared) -> tuple[list, dict[str, int]]:
        best = self._searcher.search(prepared, TOP, count=False).hits
        found = self._searcher.aggregate(prepared, {"chapters": {"terms": {"field": "chapter", "size": 100}}})
        return best, {bucket["key"][1:]: bucket["doc_count"] for bucket in found["chapters"]["buckets"]}

    def _wanted(self, wanted: Wanted):
        make = self._tantivy.Query
        ways = [make.boost_query(self._clause(way.clause), way.share) for way in wanted.ways]
        return make.disjunction_max_query(ways) if len(ways) > 1 else ways[0]

    def _clause(self, clause: Clause):
        make, parts = self._tantivy.Query, []
        for atom in clause:
            words = [_hexadecimal(word) for word in atom]
            for field in ("heading", "text", *(["forms"] if len(words) == 1 else [])):
                if len(words) == 1:
                    part = make.term_query(self._schema, field, words[0])
                else:
                    part = make.phrase_query(self._schema, field, list(words))
                if field == "heading":
                    part = make.boost_query(part, FIELD_BOOSTS["heading"])
                parts.append((self._tantivy.Occur.Should, part))
        return make.boolean_query(parts)
