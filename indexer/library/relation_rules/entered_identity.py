"""A publication's identity once the shop has spoken: what is entered holds, what was read stays beside it."""

import datetime
from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import Any

from indexer.library.entry_values import IDENTITY_KINDS, TWO_PERSONS
from indexer.library.records import EntryKind, ShopEntry
from indexer.tagging.tags import Identity
from indexer.trade.evidence import Basis, Evidence, Tag
from indexer.trade.publication_types import PublicationType

ENTRY_RULE = "shop entry"
_READ: dict[EntryKind, Callable[[str], Any]] = {
    EntryKind.TYPE: PublicationType,
    EntryKind.DATE: datetime.date.fromisoformat,
}


def entered_identity(identity: Identity, entries: Iterable[ShopEntry]) -> Identity:
    """The identity with every field that an entry speaks of as entered; of two for one field the later holds.

    entries  not undone, about this publication, in the order they were made; other kinds are passed over, and
             so is what waits for a second person
    """
    for kind, entry in {each.kind: each for each in entries if takes_effect(each)}.items():
        read = getattr(identity, kind.value)
        value = _READ.get(kind, str)(entry.value)
        known = (replace(read, others=()), *read.others) if read else ()
        others = tuple(each for each in known if each.value != value)
        identity = replace(identity, **{kind.value: Tag(value, entry_evidence(entry), others)})
    return identity


def takes_effect(entry: ShopEntry) -> bool:
    """Whether an entry changes an identity: all but a title takes two persons, since standing rests on it."""
    return entry.kind in IDENTITY_KINDS and (bool(entry.second) or entry.kind not in TWO_PERSONS)


def entry_evidence(entry: ShopEntry) -> Evidence:
    """Why an entry is believed: who said so, and why."""
    who = f"{entry.who}; {entry.second}" if entry.second else entry.who
    return Evidence(Basis.SHOP_ENTRY, ENTRY_RULE, entry.why, entry.pdf_page, entry.box, who)
