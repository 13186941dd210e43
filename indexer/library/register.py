"""The revision register: "current revision is N per (source) on (date) by (name)".

A check never changes but for its undoing, and outlives the copies it speaks of. A file's own date is never a
check. Every act stands in the history.
"""

import datetime
import sqlite3
from collections.abc import Iterable

from indexer.library import rows
from indexer.library.catalogue import Catalogue
from indexer.library.day import today as day_of
from indexer.library.generations import change
from indexer.library.generations import note as tell
from indexer.library.persons import named
from indexer.library.problems import EntryRefused, EntryUnknown
from indexer.library.records import PublicationRecord
from indexer.library.register_records import RevisionCheck

MOST_DAYS = 3660  # ten years
DIRECTIVE_LIST = "airworthiness directives"  # the work that a check of the authority's list is about
DIRECTIVE_LIST_NAME = "Airworthiness directives (the authority's list)"
_BATCH = 500
_NEWEST = "ORDER BY checked_on DESC, id DESC"


def checks(catalogue: Catalogue, work_id: str | None = None) -> list[RevisionCheck]:
    """Every check, the newest first, undone ones among them; of one work when it is named."""
    with catalogue.reading() as connection:
        found = connection.execute(
            f"SELECT * FROM revision_check WHERE ?1 IS NULL OR work_id = ?1 {_NEWEST}", (work_id,)
        )
        return [record_of(row) for row in found]


def latest_checks(
    catalogue: Catalogue, work_ids: Iterable[str], on: datetime.date
) -> dict[str, RevisionCheck]:
    """Work -> the newest check made by that day and not undone; works without one are left out."""
    wanted = list(dict.fromkeys(work_ids))
    latest: dict[str, RevisionCheck] = {}
    with catalogue.reading() as connection:
        for start in range(0, len(wanted), _BATCH):
            batch = wanted[start : start + _BATCH]
            marks = ",".join("?" * len(batch))
            found = connection.execute(
                f"SELECT * FROM revision_check WHERE work_id IN ({marks}) AND undone_by = ''"
                f" AND checked_on <= ? {_NEWEST}",
                (*batch, on.isoformat()),
            )
            for row in found:
                latest.setdefault(row["work_id"], record_of(row))
    return latest


def overdue(catalogue: Catalogue, on: datetime.date) -> list[RevisionCheck]:
    """The newest check of each work that has run out on that day, the longest overdue first."""
    with catalogue.reading() as connection:
        works = [row["work_id"] for row in connection.execute("SELECT DISTINCT work_id FROM revision_check")]
        latest = latest_checks(catalogue, works, on)
    expired = [check for check in latest.values() if check.review_due <= on]
    return sorted(expired, key=lambda check: (check.review_due, check.id))


def record_check(
    catalogue: Catalogue,
    publication_id: str,
    revision: str,
    date: datetime.date | None,
    source: str,
    checked_on: datetime.date,
    who: str,
    recheck_days: int,
    note: str = "",
    today: datetime.date | None = None,
) -> RevisionCheck:
    """Keep what a named person found to be the current revision.

    publication_id  any publication of the work; DIRECTIVE_LIST for the authority's list of directives
    revision        of the work, as the source prints it; "" with a date alone
    Raises EntryRefused, PublicationUnknown.
    """
    at = rows.now()
    with catalogue.database.writing() as connection:
        work_id, name = _work(catalogue, publication_id)
        check = checked(
            work_id,
            name,
            revision,
            date,
            source,
            checked_on,
            who,
            recheck_days,
            note,
            today or day_of(catalogue),
        )
        check_id = insert(connection, check, at, "")
        change(connection, at, ())
        return _one(connection, check_id)


def undo_check(catalogue: Catalogue, check_id: int, who: str, why: str) -> RevisionCheck:
    """Take a check back; it stays readable. Raises EntryRefused, EntryUnknown."""
    name, reason = named(who, why)
    at = rows.now()
    with catalogue.database.writing() as connection:
        row = connection.execute(
            "SELECT * FROM revision_check WHERE id = ? AND undone_by = ''", (check_id,)
        ).fetchone()
        if row is None:
            raise EntryUnknown("check of the register", check_id)
        connection.execute(
            "UPDATE revision_check SET undone_by = ?, undone_why = ? WHERE id = ?", (name, reason, check_id)
        )
        said = f"{name}: {_says(record_of(row))} -> undone. Why: {reason}"
        tell(connection, at, "check undone", "", "", said)
        change(connection, at, ())
        return _one(connection, check_id)


def day_given(text: str) -> datetime.date:
    """A day written as year-month-day. Raises EntryRefused."""
    try:
        return datetime.date.fromisoformat(text.strip())
    except ValueError:
        raise EntryRefused(
            f"\u00ab{text}\u00bb is no date", "Write it as year-month-day: 2031-05-12."
        ) from None


def name_of(record: PublicationRecord) -> str:
    """What a check calls the work it speaks of."""
    return " ".join(part for part in (record.number, record.title) if part) or record.file


def _work(catalogue: Catalogue, publication_id: str) -> tuple[str, str]:
    if publication_id == DIRECTIVE_LIST:
        return DIRECTIVE_LIST, DIRECTIVE_LIST_NAME
    record = catalogue.publication(publication_id)
    return record.work_id, name_of(record)


def checked(
    work_id: str,
    publication: str,
    revision: str,
    date: datetime.date | None,
    source: str,
    checked_on: datetime.date,
    who: str,
    recheck_days: int,
    note: str,
    today: datetime.date,
) -> RevisionCheck:
    """A check, its words in order; id 0 until it is kept. Raises EntryRefused."""
    name, _ = named(who)
    against = " ".join(source.split())
    if not any(each.isalnum() for each in against):
        raise EntryRefused(
            "no source is given", "Say against what it was checked: the maker's list of revisions, a letter."
        )
    mark = " ".join(revision.split())
    if not mark and date is None and work_id != DIRECTIVE_LIST:
        raise EntryRefused("neither revision nor date is given", "Say which revision the source names.")
    if checked_on > today:
        raise EntryRefused(
            f"{checked_on.isoformat()} has not come yet", "Give the day on which the source was looked at."
        )
    if not 0 < recheck_days <= MOST_DAYS:
        raise EntryRefused(
            f"{recheck_days} days is no interval for the next check", f"Give 1 to {MOST_DAYS} days."
        )
    return RevisionCheck(
        0, work_id, publication, mark, date, against, checked_on, name, recheck_days, " ".join(note.split())
    )


def insert(connection: sqlite3.Connection, check: RevisionCheck, at: str, how: str) -> int:
    """Keep a check and tell the history; `how` is added there. Its number."""
    said = f"{check.who}: {_says(check)}{how}"
    tell(connection, at, "revision checked", "", "", said)
    return connection.execute(
        "INSERT INTO revision_check VALUES (NULL, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, '', '')",
        (
            check.work_id,
            check.publication,
            check.revision,
            check.date.isoformat() if check.date else None,
            check.source,
            check.checked_on.isoformat(),
            check.who,
            check.recheck_days,
            check.note,
            at,
        ),
    ).lastrowid


def _one(connection: sqlite3.Connection, check_id: int) -> RevisionCheck:
    return record_of(connection.execute("SELECT * FROM revision_check WHERE id = ?", (check_id,)).fetchone())


def record_of(row: sqlite3.Row) -> RevisionCheck:
    return RevisionCheck(
        row["id"],
        row["work_id"],
        row["publication"],
        row["revision"],
        datetime.date.fromisoformat(row["date"]) if row["date"] else None,
        row["source"],
        datetime.date.fromisoformat(row["checked_on"]),
        row["who"],
        row["recheck_days"],
        row["note"],
        row["undone_by"],
        row["undone_why"],
    )


def _says(check: RevisionCheck) -> str:
    parts = [f"revision {check.revision}" if check.revision else "", str(check.date) if check.date else ""]
    found = " of ".join(part for part in parts if part) or "the list"
    return f"{check.publication}: {found} is current per {check.source} on {check.checked_on}"
