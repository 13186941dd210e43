"""Where copies lie: the file at a path now, what lay there before, and which copies lie nowhere any more."""

import sqlite3
from collections.abc import Iterable
from pathlib import PurePath

_HERE = "here.seq = (SELECT MAX(seq) FROM place WHERE path = here.path)"

_REPLACED_BY = f"""
    SELECT here.copy_id AS by_copy_id, here.since AS since
    FROM place old JOIN place here ON here.path = old.path AND {_HERE}
    WHERE old.copy_id = ?
    ORDER BY here.since DESC, here.path LIMIT 1
"""


def copy_at(connection: sqlite3.Connection, path: str) -> str | None:
    """The copy that lies at `path` now."""
    row = connection.execute(
        "SELECT copy_id FROM place WHERE path = ? ORDER BY seq DESC LIMIT 1", (path,)
    ).fetchone()
    return row["copy_id"] if row else None


def put_at(connection: sqlite3.Connection, path: str, copy_id: str, since: str) -> None:
    """Lay a copy at `path`; what lay there stays in the history of the path."""
    connection.execute(
        "INSERT INTO place SELECT ?, COALESCE(MAX(seq), 0) + 1, ?, ? FROM place WHERE path = ?",
        (path, copy_id, since, path),
    )


def sharing_paths(connection: sqlite3.Connection, copy_id: str) -> set[str]:
    """Copies that lie or lay at a path where this one lies or lay."""
    rows = connection.execute(
        "SELECT DISTINCT other.copy_id FROM place mine JOIN place other ON other.path = mine.path"
        " WHERE mine.copy_id = ?",
        (copy_id,),
    )
    return {row["copy_id"] for row in rows}


def settle(connection: sqlite3.Connection, copy_ids: Iterable[str]) -> list[str]:
    """Work out again which of these copies are replaced, and by which; return those that changed."""
    for copy_id in copy_ids:
        _name(connection, copy_id)
    return [copy_id for copy_id in sorted(copy_ids) if _settle_one(connection, copy_id)]


def _name(connection: sqlite3.Connection, copy_id: str) -> None:
    """Call a copy by its first path in the alphabet, so that it does not matter which was seen first."""
    first = connection.execute("SELECT MIN(path) AS path FROM place WHERE copy_id = ?", (copy_id,)).fetchone()
    if first["path"]:
        connection.execute("UPDATE copy SET file = ? WHERE id = ?", (PurePath(first["path"]).name, copy_id))


def _settle_one(connection: sqlite3.Connection, copy_id: str) -> bool:
    here = connection.execute(
        f"SELECT 1 FROM place here WHERE copy_id = ? AND {_HERE}", (copy_id,)
    ).fetchone()
    by = None if here else connection.execute(_REPLACED_BY, (copy_id,)).fetchone()
    new = (by["by_copy_id"], by["since"]) if by else (None, None)
    held = connection.execute(
        "SELECT replaced_by, replaced_since FROM copy WHERE id = ?", (copy_id,)
    ).fetchone()
    if held is None or tuple(held) == new:
        return False
    connection.execute("UPDATE copy SET replaced_by = ?, replaced_since = ? WHERE id = ?", (*new, copy_id))
    return True
