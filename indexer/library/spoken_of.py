"""Which works the shop's entries and map speak of, and which of those a change touches.

What entries and lines of the map come to never leaves the work they speak of: a work whose books, entries,
lines and standings by directive are as they were needs no second look.
"""

import datetime
import json
import sqlite3
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial

from indexer.library.map_names import Called, Names
from indexer.library.records import EntryKind, MapRow
from indexer.library.related import digest
from indexer.library.relation_rules.entry_places import ON_PASSAGES, Book, Made, Shelf
from indexer.library.relation_rules.filing import mapped_publications
from indexer.library.relation_rules.same_book import followed
from indexer.trade.publication_types import PublicationType


@dataclass(frozen=True)
class Spoken:
    """What is to be worked out again: entries, lines of the map by publication, and publications.

    made          entries of the touched works, and those about no passages, which cost nothing
    publications  those of touched works, and those that were; ids, some perhaps no longer held
    """

    shelf: Shelf
    made: tuple[Made, ...]
    lines: Mapping[str, Sequence[MapRow]]
    publications: frozenset[str]


def spoken_of(
    connection: sqlite3.Connection,
    made: Sequence[Made],
    map_rows: Sequence[MapRow],
    read_anew: Collection[str],
    everything: bool,
) -> Spoken:
    """Find what is touched, and note how the works are now. Identities must have been written first.

    read_anew   publications whose passages are not those of the last time
    everything  touch it all
    """
    held = connection.execute(
        "SELECT publication.id, publication.copy_id, first_page, last_page, publication.type,"
        " publication.number, title, work_id, work.maker, date, file, replaced_by"
        " FROM publication JOIN copy ON copy.id = publication.copy_id"
        " JOIN revision ON revision.id = revision_id JOIN work ON work.id = work_id ORDER BY publication.id"
    ).fetchall()
    shelf = Shelf(followed(map(_book, held)))
    work_of = {book.id: book.work_id for book in shelf.books}
    lines: Mapping[str, Sequence[MapRow]] = {}
    if map_rows:
        names = Names(map(_called, held), partial(_models, connection))
        lines = mapped_publications(map_rows, names)
    entries: dict[str, list[Made]] = {}
    for each in made:
        if each.entry.kind in ON_PASSAGES:
            home = shelf.of(each.entry)
            entries.setdefault(home.work_id if home else each.work_id, []).append(each)
    books: dict[str, list[Book]] = {}
    for book in shelf.books:
        books.setdefault(book.work_id, []).append(book)
    works = entries.keys() | {work_of[publication] for publication in lines}
    before = {row["work_id"]: row for row in connection.execute("SELECT * FROM spoken_of")}
    kept = {row["id"]: tuple(row) for row in connection.execute("SELECT * FROM shop_entry")}
    touched, reached = set(), set()
    for work in sorted(works | before.keys()):
        there = books.get(work, [])
        basis = ""
        if work in works:
            reach = dict.fromkeys(line for book in there for line in lines.get(book.id, ()))
            basis = _basis(connection, there, entries.get(work, ()), reach, kept)
        same = work in before and before[work]["basis"] == basis
        if same and not everything and not any(book.id in read_anew for book in there):
            continue
        touched.add(work)
        reached.update(book.id for book in there)
        if work in before:
            reached.update(json.loads(before[work]["publications_json"]))
        connection.execute("DELETE FROM spoken_of WHERE work_id = ?", (work,))
        if basis:
            ids = json.dumps([book.id for book in there])
            connection.execute("INSERT INTO spoken_of VALUES (?, ?, ?)", (work, basis, ids))
    again = {each.entry.id for work in touched for each in entries.get(work, ())}
    return Spoken(
        shelf,
        tuple(each for each in made if each.entry.id in again or each.entry.kind not in ON_PASSAGES),
        {each: reach for each, reach in lines.items() if work_of[each] in touched},
        frozenset(work_of.keys() | reached if everything else reached),
    )


def _book(row: sqlite3.Row) -> Book:
    date = datetime.date.fromisoformat(row["date"]) if row["date"] else None
    pages = (row["first_page"], row["last_page"])
    return Book(
        row["id"],
        row["copy_id"],
        row["file"],
        *pages,
        row["work_id"],
        date,
        row["type"] or "",
        row["title"] or "",
        row["replaced_by"] or "",
    )


def _called(row: sqlite3.Row) -> Called:
    return Called(
        row["id"],
        row["work_id"],
        PublicationType(row["type"]) if row["type"] else None,
        row["maker"],
        row["number"],
        row["title"],
        row["file"],
        row["first_page"],
        row["replaced_by"] is None,
    )


def _models(connection: sqlite3.Connection, publication: str) -> list[str]:
    found = connection.execute("SELECT identity_json FROM publication WHERE id = ?", (publication,))
    return [tag["value"] for tag in json.loads(found.fetchone()["identity_json"])["models"]]


def _basis(
    connection: sqlite3.Connection,
    books: Sequence[Book],
    entries: Sequence[Made],
    lines: Iterable[MapRow],
    kept: Mapping[int, tuple],
) -> str:
    """A digest of all that the passages of one work are filed by, but their own words."""
    held = [(book.id, book.file, str(book.date), book.on_shelf) for book in books]
    entered = [kept[each.entry.id] for each in entries]
    by_directive = []
    if any(each.entry.kind is EntryKind.STANDING for each in entries):
        for book in books:
            found = connection.execute(
                "SELECT passage_id, standing_json FROM directive_standing"
                " WHERE passage_id > ?1 || '-' AND passage_id < ?1 || '.' ORDER BY passage_id",
                (book.id,),
            )
            by_directive += map(tuple, found)
    mapped = [
        (row.id, row.first, row.last, row.chapters, row.who, row.why, str(row.made_at)) for row in lines
    ]
    return digest([held, entered, mapped, by_directive])
