"""The cross-document stage at the rim: loads what the rules need, and keeps what they derive.

The result follows from the claims and from what people entered, so neither the order of taking nor anything
that was here before can matter. The rules themselves are in relation_rules/; related.py and spoken_of.py say
what a change touches.
"""

import sqlite3
from collections.abc import Collection, Iterable, Iterator, Mapping

from indexer.library import rows
from indexer.library.catalogue import Catalogue
from indexer.library.codec import from_json, to_json
from indexer.library.entering import (
    Entered,
    entry_tables,
    filing_rows,
    filing_tables,
    identity_table,
    judgement,
    load,
    place_all,
    standing_table,
)
from indexer.library.generations import change, meta, set_meta, unrelated_since
from indexer.library.holding import Texts, held_publications, number
from indexer.library.records import PageOverride, Supersession, Tie, UnresolvedClaim
from indexer.library.related import forget, taken_out, touched_sources
from indexer.library.relation_rules.derive import Derived, derive
from indexer.library.resolving import keep_references, newer_held
from indexer.library.spoken_of import Spoken, spoken_of
from indexer.library.taking import drop_empty_works, insert_revision, named_columns

_BATCH = 500  # SQLite takes 999 parameters in its smallest build
RULES = 9  # grows by one when a rule changes, so that a library related by older rules is related again


def relate(catalogue: Catalogue) -> bool:
    """Work out relations, standing by directive and what the shop entered; True when readers see a change.

    Nothing is done where no document came or went and no person entered anything since the last time. Else
    the result is that of working out everything, and the work is that which the changes touch.
    """
    with catalogue.database.writing() as connection:
        documents, entries = unrelated_since(connection)
        everything = meta(connection, "related_rules") != RULES
        if not (documents or entries or everything):
            return False
        if everything:
            forget(connection)
        entered = load(connection)
        read_anew = taken_out(connection)
        standings = _standing_values(connection)
        renamed = _name(connection, entered, everything)
        changed = False
        if documents or everything or renamed:
            held = held_publications(connection, entered.identities)
            derived = derive(held, Texts(connection))
            changed = _replace_all(connection, _derived_rows(derived))
            older = newer_held(derived.supersessions)
            sources = touched_sources(connection, held, older)
            changed |= keep_references(connection, held, older, sources)
        spoken = spoken_of(connection, entered.made, entered.map_rows, read_anew, everything)
        filed = _filed(connection, spoken.publications)
        changed |= _keep_entered(connection, spoken)
        if changed or renamed:
            refiled = _publications_of(_differing(filed, _filed(connection, spoken.publications)))
            _count_again(connection, refiled)
            restanding = _publications_of(_differing(standings, _standing_values(connection)))
            change(connection, rows.now(), renamed | refiled | restanding)
        set_meta(connection, "related_generation", meta(connection, "generation"))
        set_meta(connection, "related_rules", RULES)
        return changed or bool(renamed)


def _name(connection: sqlite3.Connection, entered: Entered, everything: bool) -> set[str]:
    """Give publications the identity that holds now; those it changed."""
    before = dict(tuple(row) for row in connection.execute("SELECT * FROM entered_identity"))
    table = identity_table(entered)
    after = dict(table["entered_identity"])
    _replace_all(connection, table)
    renamed = set()
    for publication in entered.copies if everything else before.keys() | entered.now.keys():
        identity, held = entered.identity(publication), entered.copies[publication]
        columns = named_columns(identity)
        revision = insert_revision(connection, publication, identity)
        if (held["revision_id"], held["type"], held["number"], held["title"]) != (revision, *columns):
            connection.execute(
                "UPDATE publication SET revision_id = ?, type = ?, number = ?, title = ? WHERE id = ?",
                (revision, *columns, publication),
            )
            renamed.add(publication)
        if before.get(publication) != after.get(publication):
            renamed.add(publication)
    drop_empty_works(connection)
    return renamed


def _keep_entered(connection: sqlite3.Connection, spoken: Spoken) -> bool:
    """Place entries and lines of the map, and keep what they come to; True when a row changed."""
    placement = place_all(connection, spoken)
    filed, waiting = filing_rows(connection, placement)
    changed = _replace_in(connection, spoken.publications, filing_tables(filed))
    verdict = judgement(connection, placement)
    changed |= _replace_in(connection, spoken.publications, standing_table(verdict.standings))
    entries = {each.entry.id for each in placement.placed}
    return _replace_of(connection, entries, entry_tables(placement, verdict, waiting)) or changed


def _filed(connection: sqlite3.Connection, publications: Iterable[str]) -> dict[str, list[tuple]]:
    """Passages of these publications that the shop files -> their numbers, as the index shows them."""
    found: dict[str, list[tuple]] = {}
    for publication in publications:
        for (passage,) in _rows_in(connection, "passage_id", "filing", publication):
            found[passage] = []
        numbers = "passage_id, scheme, chapter, section, subject"
        for passage, *shown in _rows_in(connection, numbers, "filed_number", publication):
            found[passage].append(tuple(shown))
    return found


def _count_again(connection: sqlite3.Connection, publications: Iterable[str]) -> None:
    """Set right how many passages of these publications no chapter follows from."""
    for publication in publications:
        numbered = {
            row["id"]: False
            for row in connection.execute("SELECT id FROM passage WHERE publication_id = ?", (publication,))
        }
        filed = {passage for (passage,) in _rows_in(connection, "passage_id", "filing", publication)}
        columns = "passage_id, scheme, chapter, section, subject"
        for table in ("number_tag", "filed_number"):
            for passage, *parts in _rows_in(connection, columns, table, publication):
                if (passage in filed) is (table == "filed_number") and number(*parts).ata() is not None:
                    numbered[passage] = True
        connection.execute(
            "UPDATE publication SET not_numbered = ? WHERE id = ?",
            (sum(not is_numbered for is_numbered in numbered.values()), publication),
        )


def _differing(before: Mapping, after: Mapping) -> set[str]:
    return {each for each in before.keys() | after.keys() if before.get(each) != after.get(each)}


def _publications_of(passages: Iterable[str]) -> set[str]:
    return {passage.rpartition("-")[0] for passage in passages}


def supersessions_of(catalogue: Catalogue, publication_id: str) -> list[Supersession]:
    """What the publication gives way to, and what gives way to it."""
    return _records(catalogue, Supersession, "supersession", "older_id = ?1 OR newer_id = ?1", publication_id)


def ties_to(catalogue: Catalogue, publication_id: str) -> list[Tie]:
    """What other publications say of this one."""
    return _records(catalogue, Tie, "tie", "target_id = ?1", publication_id)


def ties_from(catalogue: Catalogue, publication_id: str) -> list[Tie]:
    """What this publication says of others held here."""
    return _records(catalogue, Tie, "tie", "source_id = ?1", publication_id)


def overrides_of(catalogue: Catalogue, publication_id: str) -> list[PageOverride]:
    """Pages of this publication that a temporary revision held here changes."""
    return _records(catalogue, PageOverride, "page_override", "target_id = ?1", publication_id)


def overrides_by(catalogue: Catalogue, publication_id: str) -> list[PageOverride]:
    """Pages that this temporary revision changes."""
    return _records(catalogue, PageOverride, "page_override", "source_id = ?1", publication_id)


def unresolved_claims(catalogue: Catalogue, publication_id: str | None = None) -> list[UnresolvedClaim]:
    """Claims that could not be resolved: of one publication, or all."""
    where = "?1 IS NULL OR publication_id = ?1"
    return _records(catalogue, UnresolvedClaim, "unresolved_claim", where, publication_id)


def supersessions_of_many(catalogue: Catalogue, publication_ids: Collection[str]) -> dict[str, list]:
    """`supersessions_of` for many publications, each with an entry of its own."""
    columns, key = ("older_id", "newer_id"), "older_id, newer_id, kind"
    return _records_of_many(catalogue, Supersession, "supersession", columns, key, publication_ids)


def ties_to_many(catalogue: Catalogue, publication_ids: Collection[str]) -> dict[str, list]:
    """`ties_to` likewise."""
    key = "source_id, claim"
    return _records_of_many(catalogue, Tie, "tie", ("target_id",), key, publication_ids)


def overrides_of_many(catalogue: Catalogue, publication_ids: Collection[str]) -> dict[str, list]:
    """`overrides_of` likewise."""
    key = "pdf_page, source_id, source_pdf_page"
    return _records_of_many(catalogue, PageOverride, "page_override", ("target_id",), key, publication_ids)


def ties_from_many(catalogue: Catalogue, publication_ids: Collection[str]) -> dict[str, list]:
    """`ties_from` likewise."""
    key = "claim, target_id"
    return _records_of_many(catalogue, Tie, "tie", ("source_id",), key, publication_ids)


def overrides_by_many(catalogue: Catalogue, publication_ids: Collection[str]) -> dict[str, list]:
    """`overrides_by` likewise."""
    key = "target_id, pdf_page, source_pdf_page"
    return _records_of_many(catalogue, PageOverride, "page_override", ("source_id",), key, publication_ids)


def unresolved_claims_of_many(catalogue: Catalogue, publication_ids: Collection[str]) -> dict[str, list]:
    """`unresolved_claims` likewise."""
    table, columns = "unresolved_claim", ("publication_id",)
    return _records_of_many(catalogue, UnresolvedClaim, table, columns, "claim", publication_ids)


def _records_of_many(
    catalogue: Catalogue,
    kind: type,
    table: str,
    columns: Iterable[str],
    key: str,
    publication_ids: Collection[str],
) -> dict[str, list]:
    """Records in which a publication stands in one of the columns: of the first column first, then by key."""
    wanted = sorted(set(publication_ids))
    found: dict[str, list] = {each: [] for each in wanted}
    with catalogue.reading() as connection:
        for column in columns:
            for start in range(0, len(wanted), _BATCH):
                batch = wanted[start : start + _BATCH]
                marks = ",".join("?" * len(batch))
                for row in connection.execute(
                    f"SELECT {column} AS publication_id, record_json FROM {table}"
                    f" WHERE {column} IN ({marks}) ORDER BY {key}",
                    batch,
                ):
                    found[row["publication_id"]].append(from_json(kind, row["record_json"]))
    return found


def _records(catalogue: Catalogue, kind: type, table: str, where: str, value: str | None) -> list:
    with catalogue.reading() as connection:
        found = connection.execute(f"SELECT record_json FROM {table} WHERE {where}", (value,))
        return [from_json(kind, row["record_json"]) for row in found]


def _derived_rows(derived: Derived) -> dict[str, set[tuple]]:
    """Table -> the rows it should hold."""
    return {
        "supersession": {
            (each.older_id, each.newer_id, each.kind.value, to_json(each)) for each in derived.supersessions
        },
        "tie": {(each.source_id, each.claim, each.target_id, to_json(each)) for each in derived.ties},
        "page_override": {
            (each.target_id, each.pdf_page, each.source_id, each.source_pdf_page, to_json(each))
            for each in derived.overrides
        },
        "directive_standing": {
            (each.passage_id, each.directive_id, each.standing.value.value, to_json(each.standing))
            for each in derived.standings
        },
        "unresolved_claim": {(each.publication_id, each.claim, to_json(each)) for each in derived.unresolved},
    }


def _replace_all(connection: sqlite3.Connection, derived: Mapping[str, set[tuple]]) -> bool:
    return any([_replace(connection, table, wanted) for table, wanted in derived.items()])


def _replace(connection: sqlite3.Connection, table: str, wanted: set[tuple]) -> bool:
    """Make a table hold exactly these rows; True when that changed it."""
    held = {tuple(row) for row in connection.execute(f"SELECT * FROM {table}")}
    if held == wanted:
        return False
    connection.execute(f"DELETE FROM {table}")
    for row in sorted(wanted):
        connection.execute(f"INSERT INTO {table} VALUES ({','.join('?' * len(row))})", row)
    return True


def _replace_in(
    connection: sqlite3.Connection, publications: Iterable[str], wanted: Mapping[str, set[tuple]]
) -> bool:
    """Make tables by passage hold exactly these rows of these publications."""
    held: dict[str, set[tuple]] = {table: set() for table in wanted}
    for publication in publications:
        for table, kept in held.items():
            kept.update(_rows_in(connection, "*", table, publication))
    return _write(connection, held, wanted)


def _replace_of(
    connection: sqlite3.Connection, entries: Collection[int], wanted: Mapping[str, set[tuple]]
) -> bool:
    """The same with tables by entry, of these entries; rows of entries that are taken back go."""
    found = connection.execute("SELECT id FROM shop_entry WHERE undone_by = '' OR undone_second = ''")
    in_force = {row["id"] for row in found}
    held = {}
    for table in wanted:
        rows_held = map(tuple, connection.execute(f"SELECT * FROM {table}"))
        held[table] = {row for row in rows_held if row[0] in entries or row[0] not in in_force}
    return _write(connection, held, wanted)


def _write(
    connection: sqlite3.Connection, held: Mapping[str, set[tuple]], wanted: Mapping[str, set[tuple]]
) -> bool:
    """Put the rows wanted in place of those held; only rows that differ are touched.

    A table that refers to another of them stands after it.
    """
    for table in reversed(list(wanted)):
        for row in held[table] - wanted[table]:
            where = " AND ".join(f"{column} IS ?" for column in _columns(connection, table))
            connection.execute(f"DELETE FROM {table} WHERE {where}", row)
    for table, kept in wanted.items():
        fresh = kept - held[table]
        for row in sorted(fresh, key=lambda row: row[:2]):
            connection.execute(f"INSERT INTO {table} VALUES ({','.join('?' * len(row))})", row)
    return any(held[table] != wanted[table] for table in wanted)


def _columns(connection: sqlite3.Connection, table: str) -> list[str]:
    return [row["name"] for row in connection.execute(f"PRAGMA table_info({table})")]


def _rows_in(connection: sqlite3.Connection, columns: str, table: str, publication: str) -> Iterator[tuple]:
    """Rows of the passages of a publication, by the ids that passages have."""
    found = connection.execute(
        f"SELECT {columns} FROM {table} WHERE passage_id > ?1 || '-' AND passage_id < ?1 || '.'",
        (publication,),
    )
    return map(tuple, found)


def _standing_values(connection: sqlite3.Connection) -> dict[str, str]:
    by_directive = connection.execute("SELECT passage_id, value FROM directive_standing")
    found = dict(tuple(row) for row in by_directive)
    entered = connection.execute("SELECT passage_id, value FROM entered_standing")
    return found | dict(tuple(row) for row in entered)
