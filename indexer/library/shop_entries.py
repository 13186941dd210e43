"""What a named person says about a place: entered, agreed to by a second person, taken back, listed.

Rows only grow: undoing marks them. What an entry changes follows with the next `relations.relate`. Every act
stands in the history: who, what, where, what held before, and why.
"""

import sqlite3
from collections.abc import Iterable, Sequence
from dataclasses import replace

from indexer.library import rows
from indexer.library.anchoring import Anchor, Printed, Spot, in_copy
from indexer.library.catalogue import Catalogue
from indexer.library.codec import to_json
from indexer.library.entering import numbers_read
from indexer.library.entry_values import (
    IDENTITY_KINDS,
    TWO_PERSONS,
    check_raising_reason,
    checked_value,
    drops_printed,
    height,
)
from indexer.library.generations import change, note
from indexer.library.people import are_two
from indexer.library.persons import named
from indexer.library.problems import EntryRefused, EntryUnknown, SecondPersonRefused
from indexer.library.records import EntryKind, EntryState, PassageRecord, PublicationRecord, ShopEntry
from indexer.library.undoing import undoing_waits
from indexer.tagging.tags import StandingValue
from indexer.trade.chapters import Scheme
from indexer.trade.evidence import Box

_ON_PASSAGES = frozenset({EntryKind.CHAPTERS, EntryKind.STANDING})


def add_entry(
    catalogue: Catalogue,
    copy_id: str,
    pdf_page: int,
    who: str,
    why: str,
    kind: EntryKind,
    value: str,
    quote: str = "",
    box: Box | None = None,
    last_page: int | None = None,
    section: str = "",
) -> ShopEntry:
    """Keep what a person says about a place in a copy.

    A standing that would be raised waits for a second person, and so does every type, number, revision and
    date of a publication, and chapters that leave out a number printed there: it has no effect until then,
    and its reason is the words printed or a document.

    pdf_page, last_page  1-based, both included; last_page None = one page
    section              every passage of that section of a manual's own order, whatever pages it lies on
    quote                words of the passage meant; "" = all passages of the pages or section
    box                  where the quote stands on pdf_page, in points
    Raises EntryRefused, PublicationUnknown, PageUnknown; nothing is kept then.
    """
    name, reason = named(who, why)
    held = checked_value(kind, value)
    at = rows.now()
    with catalogue.database.writing() as connection:
        last = catalogue.page(copy_id, last_page or pdf_page).pdf_page
        publication = _publication(catalogue, copy_id, pdf_page, last)
        anchor = Anchor(pdf_page, last, " ".join(section.split()), " ".join(quote.split()), box)
        there = catalogue.passages_of(publication.id)
        found = in_copy(anchor, Printed(spot(passage) for passage in there))
        if kind in _ON_PASSAGES and found.reason and (anchor.quote or anchor.section):
            raise EntryRefused(
                f"the place is not found for sure: {found.reason.rstrip('.')}",
                "Copy the words from the page, and enough of them.",
            )
        covered = [passage for passage in there if passage.id in found.passages]
        if kind is EntryKind.STANDING and anchor.quote:
            # A standing holds for the words it was given for: all are kept, so that a later change shows.
            anchor = replace(anchor, quote=" ".join(" ".join(passage.text.split()) for passage in covered))
        waits = (
            kind in TWO_PERSONS
            or (kind is EntryKind.STANDING and raises(StandingValue(held), covered))
            or (kind is EntryKind.CHAPTERS and _drops(connection, held, covered))
        )
        if waits:
            check_raising_reason(reason)
        place = (copy_id, pdf_page, last, anchor.section, anchor.quote, to_json(box))
        entry_id = connection.execute(
            "INSERT INTO shop_entry VALUES (NULL, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, '', '', '', NULL, ?)",
            (*place, kind.value, held, name, at, reason, publication.work_id),
        ).lastrowid
        state = EntryState.WAITING if waits else EntryState.IN_FORCE
        connection.execute("INSERT INTO entry_state VALUES (?, ?, '')", (entry_id, state.value))
        before = _before(kind, publication, covered)
        said = f"{name}: {kind.value} {_place(anchor)}: {before} -> {held or 'none'}. Why: {reason}"
        note(connection, at, "shop entry", copy_id, "", said)
        change(connection, at, (), entries=True)
        return _entry(connection, entry_id)


def second_entry(catalogue: Catalogue, entry_id: int, who: str) -> ShopEntry:
    """Agree, as the second person, to what waits: an entry, or the undoing of one.

    Raises EntryUnknown, EntryRefused when it waits for nobody, SecondPersonRefused when `who` may be the
    first.
    """
    name, _ = named(who)
    at = rows.now()
    with catalogue.database.writing() as connection:
        entry = _entry(connection, entry_id)
        if entry.state is not EntryState.WAITING and not entry.undo_waits:
            raise EntryRefused(
                f"entry {entry_id} waits for nobody: it is {entry.state.value}", "Nothing to do."
            )
        first = entry.undone_by if entry.undo_waits else entry.who
        if not are_two(connection, first, name):
            raise SecondPersonRefused(first, name)
        column = "undone_second" if entry.undo_waits else "second"
        connection.execute(f"UPDATE shop_entry SET {column} = ? WHERE id = ?", (name, entry_id))
        connection.execute(
            "UPDATE entry_state SET state = ?, reason = '' WHERE entry_id = ?",
            (EntryState.IN_FORCE.value, entry_id),
        )
        act = "agrees to undoing" if entry.undo_waits else "agrees to"
        note(connection, at, "second person", entry.copy_id, "", f"{name} {act} {_called(entry)}")
        change(connection, at, (), entries=True)
        return _entry(connection, entry_id)


def undo_entry(catalogue: Catalogue, entry_id: int, who: str, why: str) -> ShopEntry:
    """Take an entry back. Its row stays, and whatever it changed goes back to what it was.

    Where undoing it may raise a standing it waits for a second person (undoing.py), and holds until then.
    Raises EntryUnknown, EntryRefused when it is undone already, or for a quick reason where it waits.
    """
    name, reason = named(who, why)
    at = rows.now()
    with catalogue.database.writing() as connection:
        entry = _entry(connection, entry_id)
        if entry.undone_by:
            raise EntryRefused(f"entry {entry_id} was undone by {entry.undone_by} already", "Nothing to do.")
        waits = undoing_waits(connection, entry)
        if waits:
            check_raising_reason(reason)
        connection.execute(
            "UPDATE shop_entry SET undone_by = ?, undone_why = ?, undone_second = ? WHERE id = ?",
            (name, reason, "" if waits else None, entry_id),
        )
        if waits:
            connection.execute(
                "UPDATE entry_state SET state = ? WHERE entry_id = ?", (EntryState.WAITING.value, entry_id)
            )
        said = (
            f"{name}: undoes {_called(entry)}. Why: {reason}{'. Waits for a second person' if waits else ''}"
        )
        note(connection, at, "shop entry undone", entry.copy_id, "", said)
        change(connection, at, (), entries=True)
        return _entry(connection, entry_id)


def entries(
    catalogue: Catalogue, copy_id: str | None = None, state: EntryState | None = None
) -> list[ShopEntry]:
    """Every entry, undone ones among them, by copy and page; of one copy or one state when it is named."""
    with catalogue.reading() as connection:
        found = connection.execute(
            f"{rows.ENTRY} WHERE ?1 IS NULL OR copy_id = ?1 ORDER BY copy_id, pdf_page, id", (copy_id,)
        )
        listed = [rows.shop_entry(row) for row in found]
    return [entry for entry in listed if state is None or entry.state is state]


def entry(catalogue: Catalogue, entry_id: int) -> ShopEntry:
    """One entry. Raises EntryUnknown."""
    with catalogue.reading() as connection:
        return _entry(connection, entry_id)


def entry_passages(catalogue: Catalogue, entry_id: int) -> list[str]:
    """Passages that an entry speaks of, in every copy, as relations were last worked out; by id, in order."""
    with catalogue.reading() as connection:
        found = connection.execute(
            "SELECT passage_id FROM entry_passage JOIN passage ON passage.id = passage_id"
            " WHERE entry_id = ? ORDER BY publication_id, ordinal",
            (entry_id,),
        )
        return [row["passage_id"] for row in found]


def raises(value: StandingValue, passages: Iterable[PassageRecord]) -> bool:
    """Whether a standing would be more than what some of these passages have now."""
    return any(height(value) > height(passage.standing.value) for passage in passages)


def _drops(connection: sqlite3.Connection, value: str, passages: Iterable[PassageRecord]) -> bool:
    read = numbers_read(connection, [passage.id for passage in passages])
    return any(drops_printed(value, numbers) for numbers in read.values())


def spot(passage: PassageRecord) -> Spot:
    """A passage as anchoring sees it."""
    pages = tuple(dict.fromkeys((passage.pdf_page, *(box.pdf_page for box in passage.boxes))))
    own = [str(tag.value) for tag in passage.numbers if tag.value.scheme is Scheme.OWN] or [""]
    return Spot(passage.id, pages, passage.text, passage.boxes, own[0], passage.heading_path, tuple(own[1:]))


def _entry(connection: sqlite3.Connection, entry_id: int) -> ShopEntry:
    row = connection.execute(f"{rows.ENTRY} WHERE shop_entry.id = ?", (entry_id,)).fetchone()
    if row is None:
        raise EntryUnknown("entry of the shop", entry_id)
    return rows.shop_entry(row)


def _publication(catalogue: Catalogue, copy_id: str, first: int, last: int) -> PublicationRecord:
    """The one publication that the pages lie in."""
    page = catalogue.page(copy_id, first)
    held = [each for each in catalogue.publications_in(copy_id) if each.first_page <= first <= each.last_page]
    if last < page.pdf_page:
        raise EntryRefused(
            f"the last page, {last}, comes before the first, {first}", "Name the pages in order."
        )
    if not held or last > held[0].last_page:
        raise EntryRefused(
            f"PDF pages {first} to {last} do not lie in one publication of the file",
            "Make one entry for each publication.",
        )
    return held[0]


def _before(kind: EntryKind, publication: PublicationRecord, covered: Sequence[PassageRecord]) -> str:
    """What holds now, for the history."""
    if kind in IDENTITY_KINDS:
        tag = getattr(publication.identity, kind.value)
        return str(tag.value) if tag else "none"
    if kind is EntryKind.STANDING:
        return _several(passage.standing.value.value for passage in covered)
    if kind is EntryKind.CHAPTERS:
        return _several(_filed_under(passage) for passage in covered)
    return "none"


def _filed_under(passage: PassageRecord) -> str:
    """The number a passage is filed under; a section of the manual's own order files nothing."""
    first = passage.numbers[0].value if passage.numbers else None
    return "none" if first is None or first.scheme is Scheme.OWN else str(first)


def _several(values: Iterable[str], shown: int = 5) -> str:
    held = list(dict.fromkeys(values)) or ["none"]
    return "; ".join(held[:shown]) + (f"; {len(held) - shown} more" if len(held) > shown else "")


def _called(entry: ShopEntry) -> str:
    anchor = Anchor(entry.pdf_page, entry.last_page, entry.section, entry.quote, entry.box)
    return f"entry {entry.id} of {entry.who}: {entry.kind.value} {_place(anchor)}: {entry.value or 'none'}"


def _place(anchor: Anchor) -> str:
    pages = (
        str(anchor.pdf_page)
        if anchor.last_page == anchor.pdf_page
        else f"{anchor.pdf_page} to {anchor.last_page}"
    )
    where = f"of section {anchor.section}" if anchor.section else f"on PDF page {pages}"
    return f"{where}, «{anchor.quote[:80]}»" if anchor.quote else where
