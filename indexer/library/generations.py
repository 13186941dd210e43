"""The catalogue's generations: each change that readers can see makes a new one, and says what it changed."""

import sqlite3
from collections.abc import Iterable


def meta(connection: sqlite3.Connection, key: str) -> int:
    """One of the catalogue's own numbers; 0 before it is first set."""
    row = connection.execute("SELECT value FROM meta WHERE key = ?", (key,)).fetchone()
    return int(row["value"]) if row else 0


def set_meta(connection: sqlite3.Connection, key: str, value: int | str) -> None:
    connection.execute("INSERT OR REPLACE INTO meta VALUES (?, ?)", (key, str(value)))


def change(
    connection: sqlite3.Connection,
    at: str,
    publication_ids: Iterable[str],
    documents: bool = False,
    entries: bool = False,
) -> int:
    """Make a new generation, in which the indexed form of these publications changed.

    documents   True when documents came or went, so that relations must be worked out again
    entries     True when a person added or took back something that relations rest on
    """
    generation = meta(connection, "generation") + 1
    set_meta(connection, "generation", generation)
    set_meta(connection, "changed_at", at)
    if documents:
        set_meta(connection, "documents_generation", generation)
    if entries:
        set_meta(connection, "entries_generation", generation)
    connection.executemany(
        "INSERT OR IGNORE INTO outbox VALUES (?, ?)",
        ((generation, each) for each in sorted(set(publication_ids))),
    )
    return generation


def unrelated_since(connection: sqlite3.Connection) -> tuple[bool, bool]:
    """Whether documents, and whether entries of the shop, changed since relations were last worked out."""
    related = meta(connection, "related_generation")
    return meta(connection, "documents_generation") > related, meta(
        connection, "entries_generation"
    ) > related


def note(connection: sqlite3.Connection, at: str, event: str, copy_id: str, path: str, detail: str) -> None:
    """Add a line to the history, which only grows."""
    connection.execute("INSERT INTO history VALUES (NULL, ?, ?, ?, ?, ?)", (at, event, copy_id, path, detail))
