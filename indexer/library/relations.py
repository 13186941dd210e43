"""The cross-document stage at the rim: loads what the rules need, and keeps what they derive.

Everything derived is worked out again from the claims and from what people entered, so neither the order of
taking nor anything that was here before can matter. The rules themselves are in relation_rules/.
"""

import sqlite3
from collections.abc import Iterable, Iterator, Mapping

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
    standings,
)
from indexer.library.entry_values import IDENTITY_KINDS
from indexer.library.generations import change, meta, set_meta, unrelated_since
from indexer.library.records import EntryState, PageOverride, Supersession, Tie, UnresolvedClaim
from indexer.library.relation_rules.derive import Derived, derive
from indexer.library.relation_rules.entered_standing import WAITS_IDENTITY, held_back
from indexer.library.relation_rules.held import Held, HeldPassage, HeldText
from indexer.library.resolving import keep_references
from indexer.library.taking import drop_empty_works, insert_revision, named_columns
from indexer.tagging.tags import Claim, DirectiveFacts, Identity, Standing
from indexer.trade.chapters import ChapterNumber
from indexer.trade.evidence import PageBox

RULES = 4  # grows by one when a rule changes, so that a library related by older rules is related again


def relate(catalogue: Catalogue) -> bool:
    """Work out relations, standing by directive and what the shop entered; True when readers see a change.

    Nothing is done where no document came or went and no person entered anything since the last time.
    """
    with catalogue.database.writing() as connection:
        documents, entries = unrelated_since(connection)
        old_rules = meta(connection, "related_rules") != RULES
        if not (documents or entries or old_rules):
            return False
        shown = _Shown(connection)
        entered = load(connection)
        renamed = _name(connection, entered)
        waiting = _waiting(connection)
        changed = False
        if documents or old_rules or renamed:
            derived, waiting = _derived(connection, entered)
            changed = _replace_all(connection, _derived_rows(derived))
            held = _held(connection, entered.now)
            changed |= keep_references(connection, held, derived.supersessions)
        placement = place_all(connection, entered)
        changed |= _replace_all(connection, filing_tables(filing_rows(connection, placement)))
        verdict = judgement(connection, placement)
        changed |= _replace_all(connection, standing_table(verdict.standings))
        changed |= _replace_all(connection, entry_tables(placement, verdict, waiting))
        if changed or renamed:
            change(connection, rows.now(), renamed | _count_again(connection, shown))
        set_meta(connection, "related_generation", meta(connection, "generation"))
        set_meta(connection, "related_rules", RULES)
        return changed or bool(renamed)


def _name(connection: sqlite3.Connection, entered: Entered) -> set[str]:
    """Give every publication the identity that holds now; those it changed."""
    before = dict(tuple(row) for row in connection.execute("SELECT * FROM entered_identity"))
    table = identity_table(entered)
    after = dict(table["entered_identity"])
    _replace_all(connection, table)
    renamed = set()
    for publication, identity in entered.now.items():
        held = entered.copies[publication]
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


def _derived(connection: sqlite3.Connection, entered: Entered) -> tuple[Derived, dict[int, str]]:
    """What follows from all publications, and entry id -> why it waits: one person alone raises nothing."""
    texts = _Texts(connection)
    now = derive(_held(connection, entered.now), texts)
    if not entered.by_one_person:
        return now, {}
    agreed = derive(_held(connection, entered.agreed), texts)
    reached = {each.passage_id for each in (*now.standings, *agreed.standings)}
    derived, back = held_back(now, agreed, standings(connection, reached, by_directive=False))
    alone = {
        each.entry.id: entered.home.get(each.entry.id)
        for each in entered.made
        if each.entry.kind in IDENTITY_KINDS and not each.entry.second
    }
    involved = {each.directive_id for each in back} | {each.passage_id.rpartition("-")[0] for each in back}
    waiting = [entry for entry, publication in alone.items() if publication in involved] if back else []
    return derived, dict.fromkeys(waiting or (alone if back else ()), WAITS_IDENTITY)


def _waiting(connection: sqlite3.Connection) -> dict[int, str]:
    """Entries about an identity that wait, as worked out the last time."""
    found = connection.execute(
        "SELECT entry_id, reason FROM entry_state WHERE state = ? AND reason = ?",
        (EntryState.WAITING.value, WAITS_IDENTITY),
    )
    return {row["entry_id"]: row["reason"] for row in found}


class _Shown:
    """What the index shows of passages that something beside their own publication speaks of."""

    def __init__(self, connection: sqlite3.Connection):
        self.standings = _standing_values(connection)
        self.filed: dict[str, list[tuple]] = {
            row["passage_id"]: [] for row in connection.execute("SELECT passage_id FROM filing")
        }
        for row in connection.execute(
            "SELECT passage_id, scheme, chapter, section, subject FROM filed_number ORDER BY passage_id, rank"
        ):
            self.filed[row["passage_id"]].append(tuple(row))


def _count_again(connection: sqlite3.Connection, before: _Shown) -> set[str]:
    """Publications of which the index shows something else than before; their counts are set right."""
    after = _Shown(connection)
    refiled = _publications_of(_differing(before.filed, after.filed))
    for publication in sorted(refiled):
        found = connection.execute(
            "SELECT passage.id AS passage, number_now.* FROM passage"
            " LEFT JOIN number_now ON number_now.passage_id = passage.id WHERE publication_id = ?",
            (publication,),
        )
        numbered: dict[str, bool] = {}
        for row in found:
            filed = row["chapter"] is not None and rows.number(row).ata() is not None
            numbered[row["passage"]] = numbered.get(row["passage"], False) or filed
        connection.execute(
            "UPDATE publication SET not_numbered = ? WHERE id = ?",
            (sum(not filed for filed in numbered.values()), publication),
        )
    return refiled | _publications_of(_differing(before.standings, after.standings))


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


def _records(catalogue: Catalogue, kind: type, table: str, where: str, value: str | None) -> list:
    with catalogue.reading() as connection:
        found = connection.execute(f"SELECT record_json FROM {table} WHERE {where}", (value,))
        return [from_json(kind, row["record_json"]) for row in found]


def _held(connection: sqlite3.Connection, identities: Mapping[str, Identity]) -> Iterator[Held]:
    claims: dict[str, list[Claim]] = {}
    for row in connection.execute(
        "SELECT publication_id, claim_json FROM claim ORDER BY publication_id, ordinal"
    ):
        claims.setdefault(row["publication_id"], []).append(from_json(Claim, row["claim_json"]))
    texts: dict[str, list[str]] = {}
    for row in connection.execute(
        "SELECT passage.publication_id, passage.text FROM passage JOIN directive USING (publication_id)"
        " ORDER BY passage.publication_id, passage.ordinal"
    ):
        texts.setdefault(row["publication_id"], []).append(row["text"])
    for row in connection.execute(
        "SELECT publication.id, facts_json, replaced_by FROM publication"
        " JOIN copy ON copy.id = publication.copy_id LEFT JOIN directive ON publication_id = publication.id"
    ).fetchall():
        yield Held(
            id=row["id"],
            on_shelf=row["replaced_by"] is None,
            identity=identities[row["id"]],
            claims=tuple(claims.get(row["id"], ())),
            directive=from_json(DirectiveFacts, row["facts_json"]) if row["facts_json"] else None,
            text="\n".join(texts.get(row["id"], ())),
        )


class _Texts(Mapping[str, HeldText]):
    """The inside of publications, each read when a rule first looks into it."""

    def __init__(self, connection: sqlite3.Connection):
        self._connection = connection
        self._read: dict[str, HeldText] = {}

    def __getitem__(self, publication_id: str) -> HeldText:
        if publication_id not in self._read:
            self._read[publication_id] = _text(self._connection, publication_id)
        return self._read[publication_id]

    def __iter__(self) -> Iterator[str]:
        return (row["id"] for row in self._connection.execute("SELECT id FROM publication"))

    def __len__(self) -> int:
        return self._connection.execute("SELECT COUNT(*) FROM publication").fetchone()[0]


def _text(connection: sqlite3.Connection, publication_id: str) -> HeldText:
    pages = connection.execute(
        "SELECT pdf_page, printed_page FROM publication JOIN page USING (copy_id)"
        " WHERE publication.id = ? AND pdf_page BETWEEN first_page AND last_page",
        (publication_id,),
    )
    printed = {row["pdf_page"]: row["printed_page"] for row in pages}
    numbers: dict[str, list[ChapterNumber]] = {}
    for row in connection.execute(
        "SELECT number_tag.* FROM number_tag JOIN passage ON passage.id = passage_id"
        " WHERE publication_id = ? ORDER BY passage_id, rank",
        (publication_id,),
    ):
        numbers.setdefault(row["passage_id"], []).append(rows.number(row))
    found = connection.execute(
        "SELECT * FROM passage JOIN standing ON passage_id = id WHERE publication_id = ? ORDER BY ordinal",
        (publication_id,),
    )
    return HeldText(printed, tuple(_passage(row, numbers.get(row["id"], ())) for row in found))


def _passage(row: sqlite3.Row, numbers: Iterable[ChapterNumber]) -> HeldPassage:
    boxes = from_json(tuple[PageBox, ...], row["boxes_json"])
    return HeldPassage(
        id=row["id"],
        pages=tuple(dict.fromkeys((row["pdf_page"], *(box.pdf_page for box in boxes)))),
        heading_path=from_json(tuple[str, ...], row["heading_path_json"]),
        text=row["text"],
        numbers=tuple(numbers),
        standing=from_json(Standing, row["standing_json"]),
    )


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


def _standing_values(connection: sqlite3.Connection) -> dict[str, str]:
    by_directive = connection.execute("SELECT passage_id, value FROM directive_standing")
    found = dict(tuple(row) for row in by_directive)
    entered = connection.execute("SELECT passage_id, value FROM entered_standing")
    return found | dict(tuple(row) for row in entered)
