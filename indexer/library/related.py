"""What relations were last worked out from, so that one change costs what it touches and not the library."""

import hashlib
import json
import sqlite3
from collections.abc import Collection, Iterable, Mapping

from indexer.library.codec import from_json
from indexer.library.relation_rules.held import Held
from indexer.library.relation_rules.reference_targets import is_by_type, may_be_meant, names_of
from indexer.tagging.tags import Identity


def forget(connection: sqlite3.Connection) -> None:
    """Know nothing, so that everything is worked out again."""
    for table in ("related", "cited_name", "spoken_of"):
        connection.execute(f"DELETE FROM {table}")


def taken_out(connection: sqlite3.Connection) -> set[str]:
    """Publications whose passages are not those that were last known: new ones, and those read again."""
    found = connection.execute(
        "SELECT id FROM publication LEFT JOIN related ON publication_id = id WHERE unchanged IS NOT 1"
    )
    return {row["id"] for row in found}


def touched_sources(connection: sqlite3.Connection, held: Iterable[Held], older: Collection[str]) -> set[str]:
    """Publications whose references may lead elsewhere than before; notes how every publication is now.

    older  ids of publications of which a newer revision is held
    """
    now = {each.id: each for each in held}
    before = {row["publication_id"]: row for row in connection.execute("SELECT * FROM related")}
    identities = dict(tuple(row) for row in connection.execute("SELECT id, identity_json FROM publication"))
    identities |= dict(tuple(row) for row in connection.execute("SELECT * FROM entered_identity"))
    shown = {each: _shown(now[each], each in older, identities[each]) for each in now}
    changed = {
        each for each in now
        if each not in before or not before[each]["unchanged"] or before[each]["shown"] != shown[each]
    }  # fmt: skip
    gone = before.keys() - now.keys()
    sources = {each for each in changed if now[each].on_shelf}
    sources |= _leaning(connection, now, _named(before[each] for each in (changed & before.keys()) | gone))
    for each in sorted(changed):
        connection.execute(
            "INSERT OR REPLACE INTO related VALUES (?, 1, ?, ?)",
            (each, shown[each], json.dumps(sorted(names_of(now[each])))),
        )
    connection.executemany("DELETE FROM related WHERE publication_id = ?", ((each,) for each in sorted(gone)))
    sources |= _leaning(connection, now, [(now[each], names_of(now[each])) for each in changed])
    return sources | changed


def _shown(held: Held, is_older: bool, identity_json: str) -> str:
    return json.dumps([held.on_shelf, is_older, held.number, identity_json])


def _named(rows: Iterable[sqlite3.Row]) -> list[tuple[Held, frozenset[str]]]:
    """Publications as they were, as far as others see them."""
    found = []
    for row in rows:
        on_shelf, _, _, identity_json = json.loads(row["shown"])
        was = Held(row["publication_id"], on_shelf, from_json(Identity, identity_json))
        found.append((was, frozenset(json.loads(row["names_json"]))))
    return found


def _leaning(
    connection: sqlite3.Connection, now: Mapping[str, Held], named: Iterable[tuple[Held, frozenset[str]]]
) -> set[str]:
    """Publications that refer to one of the given by a key of it."""
    by_name: dict[str, list[Held]] = {}
    for target, names in named:
        for name in names:
            by_name.setdefault(name, []).append(target)
    found: set[str] = set()
    for name, targets in by_name.items():
        sources = connection.execute("SELECT publication_id FROM cited_name WHERE name = ?", (name,))
        for row in sources.fetchall():
            source = row["publication_id"]
            if source in found:
                continue
            if not is_by_type(name) or any(may_be_meant(now[source], target) for target in targets):
                found.add(source)
    return found


def note_names(connection: sqlite3.Connection, publication: str, names: Collection[str]) -> None:
    """Keep by which keys the references of a publication mean others."""
    connection.execute("DELETE FROM cited_name WHERE publication_id = ?", (publication,))
    connection.executemany(
        "INSERT INTO cited_name VALUES (?, ?)", ((name, publication) for name in sorted(names))
    )


def digest(values: object) -> str:
    return hashlib.sha256(json.dumps(values, ensure_ascii=False).encode()).hexdigest()
