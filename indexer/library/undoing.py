"""Whether taking an entry back takes a second person: it must not raise what one person may not raise."""

import sqlite3
from collections.abc import Mapping

from indexer.library.entering import load, standings
from indexer.library.entry_values import TWO_PERSONS, height
from indexer.library.holding import Texts, held_publications
from indexer.library.records import EntryKind, EntryState, ShopEntry
from indexer.library.relation_rules.derive import derive
from indexer.tagging.tags import Identity, Standing


def undoing_waits(connection: sqlite3.Connection, entry: ShopEntry) -> bool:
    """True where one person may not take the entry back alone.

    A standing waits when it may hold one down. An identity entry that holds goes at once only when what was
    read comes back and raises no standing: not beside other such entries of its file, which would stand in a
    mixture nobody agreed to, and not while its file is not held, when nothing can be told.
    """
    if entry.kind is EntryKind.STANDING:
        return not entry.second and entry.state is not EntryState.WAITING
    if entry.kind not in TWO_PERSONS or not entry.second:
        return False
    now, without = load(connection), load(connection, without=entry.id)
    beside = any(
        each.entry.kind in TWO_PERSONS and each.entry.second and each.entry.copy_id == entry.copy_id
        for each in without.made
    )
    is_held = any(row["copy_id"] == entry.copy_id for row in now.copies.values())
    return beside or not is_held or _raises(connection, now.identities, without.identities)


def _raises(
    connection: sqlite3.Connection, before: Mapping[str, Identity], after: Mapping[str, Identity]
) -> bool:
    """Whether any passage has more standing, or becomes mandatory, under the identities after."""
    if before == after:
        return False
    old, new = _by_directive(connection, before), _by_directive(connection, after)
    own = standings(connection, old.keys() | new.keys(), by_directive=False)
    for passage, read in own.items():
        was, becomes = old.get(passage, read), new.get(passage, read)
        if height(becomes.value) > height(was.value) or (becomes.mandatory and not was.mandatory):
            return True
    return False


def _by_directive(connection: sqlite3.Connection, identities: Mapping[str, Identity]) -> dict[str, Standing]:
    derived = derive(held_publications(connection, identities), Texts(connection))
    return {each.passage_id: each.standing for each in derived.standings}
