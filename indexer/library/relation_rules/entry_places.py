"""Where each entry of the shop stands among the publications held here, in its own copy and in other ones.

An entry is carried over to another copy of its work where its place is found for sure; everywhere else
somebody looks again, and also where it holds in no copy on the shelf. It is not carried to a revision known
to be older.
"""

import datetime
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from indexer.library.anchoring import Anchor, Found, Printed, in_copy, in_revision
from indexer.library.entry_values import IDENTITY_KINDS
from indexer.library.records import EntryKind, ShopEntry

ON_PASSAGES = frozenset({EntryKind.CHAPTERS, EntryKind.STANDING, EntryKind.SETTLED})
CARRIED = frozenset({EntryKind.CHAPTERS, EntryKind.STANDING})
OFF_SHELF = "Its copy is no longer on the shelf, and it holds in no other copy there."


@dataclass(frozen=True)
class Book:
    """A publication as entries see it. `work_id` and `date` as the shop has them; see same_book.py."""

    id: str
    copy_id: str
    file: str
    first_page: int
    last_page: int
    work_id: str
    date: datetime.date | None
    type: str  # "" = not determined
    title: str
    replaced_by: str  # the copy that lies at its place now; "" = it is on the shelf itself

    @property
    def on_shelf(self) -> bool:
        return not self.replaced_by


@dataclass(frozen=True)
class Made:
    """An entry, and the work it was made in, for when its copy is gone; "" = not known."""

    entry: ShopEntry
    work_id: str

    @property
    def anchor(self) -> Anchor:
        entry = self.entry
        return Anchor(entry.pdf_page, entry.last_page, entry.section, entry.quote, entry.box)


@dataclass(frozen=True)
class Placed:
    """An entry and where it stands. carried: publication id -> the place there."""

    entry: ShopEntry
    own: Found | None  # None = its copy is not held
    carried: Mapping[str, Found]
    reason: str = ""  # why somebody should look again


class Shelf:
    """Publications by copy and by work."""

    def __init__(self, books: Iterable[Book]):
        self.books = sorted(books, key=lambda book: book.id)
        self._by_copy: dict[str, list[Book]] = {}
        self._by_work: dict[str, list[Book]] = {}
        for book in self.books:
            self._by_copy.setdefault(book.copy_id, []).append(book)
            self._by_work.setdefault(book.work_id, []).append(book)

    def of(self, entry: ShopEntry) -> Book | None:
        """The publication an entry was made in; None when it is not held."""
        held = self._by_copy.get(entry.copy_id, ())
        return next((book for book in held if book.first_page <= entry.pdf_page <= book.last_page), None)

    def others(self, made: Made) -> Iterator[Book]:
        """Other copies of the entry's work that are on the shelf and not known to be older."""
        home = self.of(made.entry)
        for book in self._by_work.get(home.work_id if home else made.work_id, ()):
            if book.copy_id == made.entry.copy_id or not book.on_shelf:
                continue
            older = home and home.date and book.date and book.date < home.date
            if not older:
                yield book


def looked_into(shelf: Shelf, made: Iterable[Made]) -> set[str]:
    """Publications whose passages `place` needs."""
    wanted: set[str] = set()
    for each in made:
        home = shelf.of(each.entry)
        if home and each.entry.kind in ON_PASSAGES:
            wanted.add(home.id)
        if each.entry.kind in CARRIED:
            wanted.update(book.id for book in shelf.others(each))
    return wanted


def place(made: Made, shelf: Shelf, printed: Mapping[str, Printed]) -> Placed:
    """Find the place of one entry everywhere. `printed` holds what `looked_into` asks for."""
    entry, home = made.entry, shelf.of(made.entry)
    off_shelf = home is None or not home.on_shelf
    if entry.kind not in ON_PASSAGES:
        lost = entry.kind in IDENTITY_KINDS and home is None and entry.copy_id in shelf._by_copy
        reason = f"PDF page {entry.pdf_page} is in no publication." if lost else OFF_SHELF
        return Placed(entry, None, {}, reason if lost or off_shelf else "")
    own = in_copy(made.anchor, printed[home.id]) if home else None
    reasons = [own.reason] if own and _must_be_found(entry, own) else []
    carried: dict[str, Found] = {}
    if entry.kind in CARRIED:
        old = printed[home.id] if home else Printed(())
        was = [spot for spot in old.spots if own and spot.id in own.passages]
        for book in shelf.others(made):
            found = in_revision(made.anchor, was, old, printed[book.id])
            carried[book.id] = found
            if found.reason:
                reasons.append(f"In {book.file}: {found.reason}")
        if off_shelf and not carried:
            reasons.append(OFF_SHELF)
    return Placed(entry, own, carried, " ".join(reason for reason in reasons if reason))


def _must_be_found(entry: ShopEntry, own: Found) -> bool:
    """False for a doubt about pages that hold no passage: pages without text."""
    return bool(own.reason) and (entry.kind is not EntryKind.SETTLED or bool(entry.quote or entry.section))
