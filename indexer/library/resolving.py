"""Keeps where references lead: loads citations and places for the rules, writes the rows that changed."""

import sqlite3
from collections.abc import Iterable, Iterator, Mapping

from indexer.library.codec import from_json, to_json
from indexer.library.records import Reference, Supersession, SupersessionKind
from indexer.library.relation_rules.held import Held, Shelf
from indexer.library.relation_rules.places import Inside, InsidePassage
from indexer.library.relation_rules.reference_places import Source
from indexer.library.relation_rules.references import Cited, resolve_references
from indexer.reading.page import PassageKind
from indexer.tagging.tags import Citation
from indexer.trade.chapters import ChapterNumber, Scheme

_NEWER = frozenset({SupersessionKind.NEWER_REVISION, SupersessionKind.STATED})


def keep_references(
    connection: sqlite3.Connection, held: Iterable[Held], supersessions: Iterable[Supersession]
) -> bool:
    """Work out every reference of the copies on the shelf anew; True when a row changed."""
    older = {each.older_id for each in supersessions if each.kind in _NEWER}
    insides = _Insides(connection)
    found = resolve_references(Shelf(held), older, insides, _cited(connection, insides))
    return _write(connection, found)


def _cited(connection: sqlite3.Connection, insides: "_Insides") -> Iterator[Cited]:
    rows = connection.execute(
        "SELECT citation.passage_id, citation.ordinal, citation_json, passage.publication_id,"
        " passage.pdf_page, page.printed_page FROM citation"
        " JOIN passage ON passage.id = citation.passage_id"
        " JOIN publication ON publication.id = passage.publication_id"
        " JOIN copy ON copy.id = publication.copy_id AND copy.replaced_by IS NULL"
        " JOIN page ON page.copy_id = publication.copy_id AND page.pdf_page = passage.pdf_page"
        " ORDER BY passage.publication_id, passage.ordinal, citation.ordinal"
    ).fetchall()
    publication, numbers = "", {}
    for row in rows:
        if row["publication_id"] != publication:
            publication = row["publication_id"]
            numbers = printed_numbers(connection, publication)
        source = Source(
            publication, row["pdf_page"], row["printed_page"], tuple(numbers.get(row["passage_id"], ()))
        )
        yield Cited(row["passage_id"], row["ordinal"], from_json(Citation, row["citation_json"]), source)


class _Insides(Mapping[str, Inside]):
    """The places of publications, each read when a rule first looks into it."""

    def __init__(self, connection: sqlite3.Connection):
        self._connection = connection
        self._read: dict[str, Inside] = {}

    def __getitem__(self, publication_id: str) -> Inside:
        if publication_id not in self._read:
            self._read[publication_id] = Inside.of(_passages(self._connection, publication_id))
        return self._read[publication_id]

    def __iter__(self) -> Iterator[str]:
        return (row["id"] for row in self._connection.execute("SELECT id FROM publication"))

    def __len__(self) -> int:
        return self._connection.execute("SELECT COUNT(*) FROM publication").fetchone()[0]


def _passages(connection: sqlite3.Connection, publication_id: str) -> Iterator[InsidePassage]:
    numbers = printed_numbers(connection, publication_id)
    found = connection.execute(
        "SELECT passage.id, passage.pdf_page, page.printed_page, passage.kind, heading_path_json, text"
        " FROM passage JOIN publication ON publication.id = passage.publication_id"
        " JOIN page ON page.copy_id = publication.copy_id AND page.pdf_page = passage.pdf_page"
        " WHERE passage.publication_id = ? ORDER BY passage.ordinal",
        (publication_id,),
    ).fetchall()
    for row in found:
        yield InsidePassage(
            row["id"],
            row["pdf_page"],
            row["printed_page"],
            row["kind"] == PassageKind.FIGURE_TITLE.value,
            from_json(tuple[str, ...], row["heading_path_json"]),
            row["text"],
            tuple(numbers.get(row["id"], ())),
        )


def printed_numbers(connection: sqlite3.Connection, publication_id: str) -> dict[str, list[ChapterNumber]]:
    """Passage id -> the numbers it has from its own paper, without those inferred from its words."""
    numbers: dict[str, list[ChapterNumber]] = {}
    for row in connection.execute(
        "SELECT passage_id, scheme, chapter, section, subject FROM number_tag"
        " JOIN passage ON passage.id = passage_id"
        """ WHERE publication_id = ? AND evidence_json NOT LIKE '%"basis":"inferred"%'"""
        " ORDER BY passage_id, rank",
        (publication_id,),
    ):
        number = ChapterNumber(row["chapter"], row["section"], row["subject"], Scheme(row["scheme"]))
        numbers.setdefault(row["passage_id"], []).append(number)
    return numbers


def _write(connection: sqlite3.Connection, found: Iterable[Reference]) -> bool:
    """Make the tables hold exactly these references, touching only the rows that differ."""
    before = {
        (row["passage_id"], row["ordinal"]): row["record_json"]
        for row in connection.execute("SELECT passage_id, ordinal, record_json FROM reference")
    }
    fresh: list[tuple[Reference, str]] = []
    for each in found:
        text = to_json(each)
        if before.get((each.passage_id, each.ordinal)) == text:
            del before[each.passage_id, each.ordinal]
        else:
            fresh.append((each, text))
    gone = list(before)
    connection.executemany("DELETE FROM reference_target WHERE passage_id = ? AND ordinal = ?", gone)
    connection.executemany("DELETE FROM reference WHERE passage_id = ? AND ordinal = ?", gone)
    connection.executemany(
        "INSERT INTO reference VALUES (?, ?, ?, ?)",
        ((each.passage_id, each.ordinal, each.state.value, text) for each, text in fresh),
    )
    connection.executemany(
        "INSERT INTO reference_target VALUES (?, ?, ?, ?, ?)",
        ((each.passage_id, each.ordinal, *target) for each, _ in fresh for target in each.targets),
    )
    return bool(gone or fresh)
