"""One read and tagged file to rows of the catalogue, inside the caller's transaction."""

import sqlite3
from collections.abc import Mapping, Sequence

from indexer.library import rows
from indexer.library.codec import to_json
from indexer.library.filing import chapters_of
from indexer.library.parts_taking import insert_parts
from indexer.library.works import revision_id, revision_mark, work_key
from indexer.reading.page import Document
from indexer.tagging.tags import Identity, TaggedPublication

RULES = 4  # grows by one when reading or tagging changes, so that copies read by older rules can be told


def copy_id_of(sha256: str) -> str:
    return sha256[:16]


def publication_id_of(copy_id: str, publication: TaggedPublication) -> str:
    return f"{copy_id}-{publication.first_page}"


def check(document: Document, publications: Sequence[TaggedPublication]) -> None:
    """Refuse parts that do not fit together. Raises ValueError, which names the first that does not."""
    pages = {page.pdf_page for page in document.pages}
    if len(pages) != len(document.pages):
        raise ValueError("two pages of one file bear the same number")
    if not publications:
        raise ValueError("no publication was found in the file, not even an unknown one")
    if len({publication.first_page for publication in publications}) != len(publications):
        raise ValueError("two publications begin on the same page")
    ordinals: set[int] = set()
    for publication in publications:
        for tagged in publication.passages:
            passage = tagged.passage
            if passage.pdf_page not in pages:
                raise ValueError(f"passage {passage.ordinal} lies on page {passage.pdf_page}: no such page")
            if passage.ordinal in ordinals:
                raise ValueError(f"two passages bear the ordinal {passage.ordinal}")
            ordinals.add(passage.ordinal)


def insert_copy(connection: sqlite3.Connection, document: Document, size: int, taken_at: str) -> str:
    """Rows of one file and its pages; returns the copy's id."""
    copy_id = copy_id_of(document.sha256)
    connection.execute(
        "INSERT INTO copy VALUES (?, ?, ?, ?, ?, ?, ?, ?, NULL, NULL, ?)",
        (
            copy_id,
            document.sha256,
            document.file,
            size,
            len(document.pages),
            to_json(document.properties),
            to_json(document.notes),
            taken_at,
            RULES,
        ),
    )
    _insert_pages(connection, copy_id, document)
    return copy_id


def rules_of(connection: sqlite3.Connection, copy_id: str) -> int:
    """The rules that a held copy was read by."""
    return connection.execute("SELECT rules FROM copy WHERE id = ?", (copy_id,)).fetchone()["rules"]


def replace_contents(connection: sqlite3.Connection, document: Document) -> None:
    """Take out the pages and publications of a held copy, and put the pages as they are read now."""
    copy_id = copy_id_of(document.sha256)
    connection.execute("DELETE FROM publication WHERE copy_id = ?", (copy_id,))
    connection.execute("DELETE FROM page WHERE copy_id = ?", (copy_id,))
    connection.execute(
        "UPDATE copy SET pages = ?, properties_json = ?, notes_json = ?, rules = ? WHERE id = ?",
        (len(document.pages), to_json(document.properties), to_json(document.notes), RULES, copy_id),
    )
    _insert_pages(connection, copy_id, document)


def mark_used(connection: sqlite3.Connection, copy_id: str, recognized: Mapping[int, str]) -> None:
    """Note which pages that OCR read are in the passages of a copy now: those given, as kept then."""
    connection.execute("UPDATE recognized_page SET used = 0 WHERE copy_id = ?", (copy_id,))
    connection.executemany(
        "UPDATE recognized_page SET used = 1 WHERE copy_id = ? AND pdf_page = ? AND at = ?",
        ((copy_id, pdf_page, at) for pdf_page, at in recognized.items()),
    )


def _insert_pages(connection: sqlite3.Connection, copy_id: str, document: Document) -> None:
    connection.executemany(
        "INSERT INTO page VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        (rows.page_row(copy_id, page) for page in document.pages),
    )


def insert_publication(connection: sqlite3.Connection, copy_id: str, publication: TaggedPublication) -> str:
    """Rows of one publication, its passages, tags and claims; returns the publication's id."""
    publication_id = publication_id_of(copy_id, publication)
    identity = publication.identity
    connection.execute(
        "INSERT INTO publication VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        (
            publication_id,
            copy_id,
            insert_revision(connection, publication_id, identity),
            publication.first_page,
            publication.last_page,
            *named_columns(identity),
            to_json(identity),
            len(publication.passages),
            sum(not chapters_of(tagged.numbers) for tagged in publication.passages),
        ),
    )
    for table, facts in (("directive", publication.directive), ("bulletin", publication.bulletin)):
        if facts:
            connection.execute(f"INSERT INTO {table} VALUES (?, ?)", (publication_id, to_json(facts)))
    connection.executemany(
        "INSERT INTO claim VALUES (?, ?, ?, ?, ?)",
        (
            (publication_id, ordinal, claim.kind.value, claim.document, to_json(claim))
            for ordinal, claim in enumerate(publication.claims)
        ),
    )
    _insert_passages(connection, publication_id, publication)
    _insert_page_facts(connection, publication_id, publication)
    insert_parts(connection, publication_id, publication.parts)
    return publication_id


def insert_revision(connection: sqlite3.Connection, publication_id: str, identity: Identity) -> str:
    """The rows of the work and revision that an identity names, where they are not there; the latter's id."""
    key = work_key(identity, publication_id)
    revision = revision_id(key, identity)
    date = identity.date.value.isoformat() if identity.date else None
    connection.execute(
        "INSERT OR IGNORE INTO work VALUES (?, ?, ?, ?)", (key.id, key.type, key.maker, key.number)
    )
    connection.execute(
        "INSERT OR IGNORE INTO revision VALUES (?, ?, ?, ?)",
        (revision, key.id, revision_mark(identity), date),
    )
    return revision


def named_columns(identity: Identity) -> tuple[str, str, str]:
    """type, number, title"""
    return (
        identity.type.value.value if identity.type else "",
        identity.number.value if identity.number else "",
        identity.title.value if identity.title else "",
    )


def _insert_passages(
    connection: sqlite3.Connection, publication_id: str, publication: TaggedPublication
) -> None:
    named = [(f"{publication_id}-{tagged.passage.ordinal}", tagged) for tagged in publication.passages]
    connection.executemany(
        "INSERT INTO passage VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        (rows.passage_row(passage_id, publication_id, tagged) for passage_id, tagged in named),
    )
    connection.executemany(
        "INSERT INTO number_tag VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
        (row for passage_id, tagged in named for row in rows.number_rows(passage_id, tagged.numbers)),
    )
    connection.executemany(
        "INSERT INTO citation VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
        (row for passage_id, tagged in named for row in rows.citation_rows(passage_id, tagged)),
    )
    connection.executemany(
        "INSERT INTO standing VALUES (?, ?, ?)",
        (rows.standing_row(passage_id, tagged.standing) for passage_id, tagged in named),
    )


def _insert_page_facts(
    connection: sqlite3.Connection, publication_id: str, publication: TaggedPublication
) -> None:
    connection.executemany(
        "INSERT INTO applicability VALUES (?, ?, ?, ?, ?, ?)",
        (
            (
                publication_id,
                ordinal,
                each.scope.value,
                each.pdf_page,
                None if each.passage is None else f"{publication_id}-{each.passage}",
                to_json(each),
            )
            for ordinal, each in enumerate(publication.applicability)
        ),
    )
    connection.executemany(
        "INSERT INTO page_mark VALUES (?, ?, ?, ?, ?, ?)",
        (
            (
                publication_id,
                each.pdf_page,
                each.number,
                each.printed_page,
                each.date.value.isoformat() if each.date else None,
                to_json(each),
            )
            for each in publication.page_marks
        ),
    )
    connection.executemany(
        "INSERT INTO listed_page VALUES (?, ?, ?)",
        ((publication_id, ordinal, to_json(each)) for ordinal, each in enumerate(publication.listed_pages)),
    )


def delete_copy(connection: sqlite3.Connection, copy_id: str) -> None:
    """Take back everything insert_copy and insert_publication gave."""
    connection.execute("DELETE FROM copy WHERE id = ?", (copy_id,))
    drop_empty_works(connection)


def drop_empty_works(connection: sqlite3.Connection) -> None:
    """Take out works and revisions that no publication is of any more."""
    connection.execute("DELETE FROM revision WHERE id NOT IN (SELECT revision_id FROM publication)")
    connection.execute("DELETE FROM work WHERE id NOT IN (SELECT work_id FROM revision)")
