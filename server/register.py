"""The revision register as plain data and in words: pages, JSON API and command share it."""

import datetime
from collections.abc import Iterable
from typing import Any

from indexer.errors import PublicationUnknown
from indexer.library.day import today
from indexer.library.problems import EntryRefused
from indexer.library.records import PublicationRecord
from indexer.library.register import (
    DIRECTIVE_LIST,
    DIRECTIVE_LIST_NAME,
    checks,
    day_given,
    overdue,
    record_check,
    undo_check,
)
from indexer.library.register_lists import Finder
from indexer.library.register_records import RevisionCheck
from indexer.library.shop_lists import Imported
from indexer.library.works import DIRECTIVES
from server.current import Current, current_fields
from server.list_imports import NOTHING_TAKEN
from server.opened import OpenedLibrary
from server.words import count_of, date_words, publication_kind, publication_name

STANDS, DUE, LATER, UNDONE = "stands", "overdue", "a later check stands", "taken back"


def register(library: OpenedLibrary, on: datetime.date | None = None) -> dict[str, Any]:
    """Every check with its state on a day, what is overdue first, and what nobody has checked."""
    day = on or today(library.catalogue)
    with library.reading() as status:
        kept = checks(library.catalogue)
        due = overdue(library.catalogue, day)
        held = _by_work(library)
        current = Current(library.catalogue, day)
        current.prepare(library.publications())
        states = _states(kept, {check.id for check in due}, day)
        standing = {check.work_id for check in kept if states[check.id] in (STANDS, DUE)}
        return {
            "library_state": library.state(status).fields(),
            "on": day.isoformat(),
            "overdue": [check_fields(check, DUE, held, current) for check in due],
            "checks": [check_fields(check, states[check.id], held, current) for check in kept],
            "never_checked": [
                _held_fields(records[0])
                for work_id, records in sorted(held.items(), key=lambda each: _order(each[1][0]))
                if work_id not in standing and records[0].type not in DIRECTIVES
            ],
        }


def overdue_count(library: OpenedLibrary, on: datetime.date | None = None) -> int:
    """How many checks have run out."""
    return len(overdue(library.catalogue, on or today(library.catalogue)))


def record(
    library: OpenedLibrary,
    publication: str,
    revision: str,
    date: str,
    source: str,
    checked_on: str,
    who: str,
    recheck_days: int,
    note: str = "",
) -> dict[str, Any]:
    """Keep a check; dates as year-month-day, checked_on "" = today.

    publication  its id, number, title or file; DIRECTIVE_LIST for the authority's list of directives
    Raises EntryRefused, PublicationUnknown.
    """
    kept = record_check(
        library.catalogue,
        _meant(library, publication),
        revision,
        day_given(date) if date.strip() else None,
        source,
        day_given(checked_on) if checked_on.strip() else today(library.catalogue),
        who,
        recheck_days,
        note,
    )
    return _one(library, kept)


def undo(library: OpenedLibrary, check_id: int, who: str, why: str) -> dict[str, Any]:
    """Take a check back. Raises EntryRefused, EntryUnknown."""
    return _one(library, undo_check(library.catalogue, check_id, who, why))


def check_fields(
    check: RevisionCheck, state: str, held: dict[str, list[PublicationRecord]], current: Current
) -> dict[str, Any]:
    return {
        "id": check.id,
        "publication": check.publication,
        "revision": check.revision or None,
        "date": check.date.isoformat() if check.date else None,
        "source": check.source,
        "checked_on": check.checked_on.isoformat(),
        "who": check.who,
        "recheck_days": check.recheck_days,
        "review_due": check.review_due.isoformat(),
        "note": check.note,
        "state": state,
        "undone_by": check.undone_by or None,
        "undone_why": check.undone_why or None,
        "words": check_words(check),
        "held": [
            {**_held_fields(record), "current": current_fields(current.of_publication(record))}
            for record in held.get(check.work_id, ())
        ],
    }


def check_words(check: RevisionCheck) -> str:
    """ "current revision is 6 of 14 March 2031 per (source) on (date) by (name)" """
    if check.work_id == DIRECTIVE_LIST:
        return f"looked at in {check.source} on {date_words(check.checked_on)} by {check.who}"
    edition = " of ".join(
        part for part in (check.revision, date_words(check.date) if check.date else "") if part
    )
    return (
        f"current revision is {edition} per {check.source} on {date_words(check.checked_on)} by {check.who}"
    )


def import_words(taken: Imported) -> str:
    """What came of an import."""
    if taken.problems:
        return NOTHING_TAKEN
    known = (
        f" {count_of(taken.already, 'line')} said what the register says already." if taken.already else ""
    )
    return f"{count_of(taken.added, 'check').capitalize()} added.{known}"


def _one(library: OpenedLibrary, check: RevisionCheck) -> dict[str, Any]:
    with library.reading():
        day = today(library.catalogue)
        due = {each.id for each in overdue(library.catalogue, day)}
        states = _states(checks(library.catalogue, check.work_id), due, day)
        return check_fields(check, states[check.id], _by_work(library), Current(library.catalogue, day))


def _states(kept: Iterable[RevisionCheck], due: set[int], on: datetime.date) -> dict[int, str]:
    """Check -> how it stands. `kept` is newest first."""
    states: dict[int, str] = {}
    seen: set[str] = set()
    for check in kept:
        if check.undone_by:
            states[check.id] = UNDONE
        elif check.checked_on > on or check.work_id in seen:
            states[check.id] = LATER
        else:
            states[check.id] = DUE if check.id in due else STANDS
            seen.add(check.work_id)
    return states


def _by_work(library: OpenedLibrary) -> dict[str, list[PublicationRecord]]:
    """Work -> its publications on the shelf."""
    found: dict[str, list[PublicationRecord]] = {}
    for record in library.publications():
        found.setdefault(record.work_id, []).append(record)
    return found


def _held_fields(record: PublicationRecord) -> dict[str, Any]:
    return {
        "publication": record.id,
        "name": publication_name(record),
        "kind": publication_kind(record.type, record.revision, record.date, record.entered),
        "revision": record.revision or None,
        "date": record.date.isoformat() if record.date else None,
    }


def _order(record: PublicationRecord) -> str:
    return publication_name(record).casefold()


def _meant(library: OpenedLibrary, given: str) -> str:
    """The id of a publication of the work that a person means. Raises EntryRefused."""
    name = " ".join(given.split())
    if not name:
        raise EntryRefused("no publication is named", "Choose one, or give its number or its file.")
    if name.casefold() in (DIRECTIVE_LIST, DIRECTIVE_LIST_NAME.casefold()):
        return DIRECTIVE_LIST
    with library.reading():
        try:
            return library.publication(name).id
        except PublicationUnknown:
            work_id, _ = Finder(library.catalogue).work(name)
        return next(record.id for record in library.every_publication() if record.work_id == work_id)
