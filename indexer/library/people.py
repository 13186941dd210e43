"""Persons who may change the library: named, listed, given a passcode, ended; and the passcode they type.

None of it makes a generation: it changes nothing that search finds. Every act stands in the history, and a
passcode never does.
"""

import datetime
import sqlite3

from indexer.library import rows
from indexer.library.catalogue import Catalogue
from indexer.library.generations import note
from indexer.library.passcodes import checked_passcode, hashed, is_right, new_salt
from indexer.library.person_records import Person, Role
from indexer.library.persons import may_be_one, named
from indexer.library.problems import EntryRefused, PersonUnknown

TRIES = 5  # wrong passcodes, one after another, that lock a name; common practice, no source
LOCKED_MINUTES = 15
_NOBODYS = new_salt()  # what a passcode is held against when no person has the name


def persons(catalogue: Catalogue) -> list[Person]:
    """Every person ever named, those who may sign in first, each by name."""
    with catalogue.reading() as connection:
        found = connection.execute("SELECT * FROM person ORDER BY ended_at <> '', name")
        return [person_of_row(row) for row in found]


def any_named(catalogue: Catalogue) -> bool:
    """Whether persons are named: from then on changes need one of them."""
    with catalogue.reading() as connection:
        row = connection.execute("SELECT 1 FROM person WHERE ended_at = '' LIMIT 1").fetchone()
    return row is not None


def person_called(catalogue: Catalogue, name: str) -> Person:
    """Who may sign in under this name. Raises PersonUnknown."""
    with catalogue.reading() as connection:
        return person_of_row(_row(connection, name))


def add(catalogue: Catalogue, name: str, role: str, passcode: str, who: str) -> Person:
    """Name a person, or take one up again who was ended.

    Raises EntryRefused: no such role, a name that may be another person's, a passcode too short, or an
    inspector where there is no librarian yet.
    """
    given, _ = named(name)
    by, _ = named(who)
    kind = role_given(role)
    text = checked_passcode(passcode, given)
    salt = new_salt()
    kept, at = hashed(text, salt), rows.now()
    with catalogue.database.writing() as connection:
        held = [person_of_row(row) for row in connection.execute("SELECT * FROM person")]
        same = next((one for one in held if _same(one.name, given)), None)
        if same and same.ended_at is None:
            raise EntryRefused(f"{same.name} is named already", "To change the passcode, give a new one.")
        like = next((one for one in held if one is not same and may_be_one(one.name, given)), None)
        if like:
            raise EntryRefused(
                f"{given} and {like.name} may be one person",
                "Entries stand under names, and some take two persons: write the name in full.",
            )
        if kind is not Role.LIBRARIAN and not _librarians(held):
            raise EntryRefused(
                "there is no librarian yet", "Name a librarian first: somebody must look after the others."
            )
        if same:
            connection.execute(
                "UPDATE person SET role = ?, salt = ?, passcode_hash = ?, ended_at = '', failures = 0,"
                " locked_until = '' WHERE id = ?",
                (kind.value, salt, kept, same.id),
            )
        else:
            connection.execute(
                "INSERT INTO person VALUES (NULL, ?, ?, ?, ?, ?, '', 0, '')",
                (given, kind.value, salt, kept, at),
            )
        note(connection, at, "person named", "", "", f"{by}: {given}, {kind.value}")
        return person_of_row(_row(connection, given))


def change_passcode(catalogue: Catalogue, name: str, passcode: str, who: str) -> Person:
    """Give a person a new passcode; whoever is signed in under the name must sign in again, a lock ends.

    Raises PersonUnknown, EntryRefused.
    """
    by, _ = named(who)
    with catalogue.reading() as connection:
        held = person_of_row(_row(connection, name))
    text = checked_passcode(passcode, held.name)
    salt = new_salt()
    kept, at = hashed(text, salt), rows.now()
    with catalogue.database.writing() as connection:
        held = person_of_row(_row(connection, name))
        connection.execute(
            "UPDATE person SET salt = ?, passcode_hash = ?, failures = 0, locked_until = '' WHERE id = ?",
            (salt, kept, held.id),
        )
        connection.execute("DELETE FROM sign_in WHERE person_id = ?", (held.id,))
        note(connection, at, "passcode changed", "", "", f"{by}: of {held.name}")
        return person_of_row(_row(connection, name))


def end(catalogue: Catalogue, name: str, who: str) -> Person:
    """A person may not sign in any more, and is signed out everywhere; what was entered stays.

    Raises PersonUnknown, EntryRefused for the last librarian while others are named.
    """
    by, _ = named(who)
    at = rows.now()
    with catalogue.database.writing() as connection:
        gone = person_of_row(_row(connection, name))
        others = [
            one
            for row in connection.execute("SELECT * FROM person WHERE ended_at = ''")
            if (one := person_of_row(row)).id != gone.id
        ]
        if others and not _librarians(others):
            raise EntryRefused(
                f"{gone.name} is the last librarian", "Name another librarian first, or end the others first."
            )
        connection.execute("UPDATE person SET ended_at = ? WHERE id = ?", (at, gone.id))
        connection.execute("DELETE FROM sign_in WHERE person_id = ?", (gone.id,))
        note(connection, at, "person ended", "", "", f"{by}: {gone.name}, {gone.role.value}")
        row = connection.execute("SELECT * FROM person WHERE id = ?", (gone.id,)).fetchone()
        return person_of_row(row)


def with_passcode(catalogue: Catalogue, name: str, passcode: str) -> Person | None:
    """The person whose name and passcode these are; None when they do not go together or the name is locked.

    An unknown name, a locked one and a wrong passcode take the same time and give the same answer.
    """
    with catalogue.reading() as connection:
        row = _found(connection, name)
    right = is_right(passcode, row["salt"] if row else _NOBODYS, row["passcode_hash"] if row else b"")
    if row is None:
        return None
    at = rows.now()
    with catalogue.database.writing() as connection:
        now = _found(connection, name)  # another try may have locked it meanwhile, or the passcode is new
        if now is None or now["locked_until"] > at or now["passcode_hash"] != row["passcode_hash"]:
            return None
        if right:
            connection.execute("UPDATE person SET failures = 0, locked_until = '' WHERE id = ?", (now["id"],))
            return person_of_row(_row(connection, name))
        _count_failure(connection, now, at)
    return None


def are_two(connection: sqlite3.Connection, one: str, other: str) -> bool:
    """Whether two names are surely two persons: both of persons that are named, or as typed names tell."""
    first, second = _ever(connection, one), _ever(connection, other)
    if first is not None and second is not None:
        return first["id"] != second["id"]
    return not may_be_one(one, other)


def can_be_second(catalogue: Catalogue, first: str, who: str) -> bool:
    """Whether `who` may agree, as the second person, to what `first` began."""
    with catalogue.reading() as connection:
        return are_two(connection, first, who)


def role_given(text: str) -> Role:
    """Raises EntryRefused."""
    try:
        return Role(text.strip().casefold())
    except ValueError:
        roles = " or ".join(role.value for role in Role)
        raise EntryRefused(f"\u00ab{text}\u00bb is no role", f"Give {roles}.") from None


def _count_failure(connection: sqlite3.Connection, row: sqlite3.Row, at: str) -> None:
    failures, until = row["failures"] + 1, ""
    if failures >= TRIES:
        end_of_lock = rows.moment(at) + datetime.timedelta(minutes=LOCKED_MINUTES)
        failures, until = 0, end_of_lock.isoformat(timespec="milliseconds")
        note(connection, at, "person locked", "", "", f"{row['name']}: {TRIES} wrong passcodes")
    connection.execute(
        "UPDATE person SET failures = ?, locked_until = ? WHERE id = ?", (failures, until, row["id"])
    )


def _librarians(held: list[Person]) -> bool:
    return any(one.role is Role.LIBRARIAN and one.ended_at is None for one in held)


def _same(one: str, other: str) -> bool:
    return " ".join(one.split()).casefold() == " ".join(other.split()).casefold()


def _row(connection: sqlite3.Connection, name: str) -> sqlite3.Row:
    found = _found(connection, name)
    if found is None:
        raise PersonUnknown(" ".join(name.split()))
    return found


def _found(connection: sqlite3.Connection, name: str) -> sqlite3.Row | None:
    """The row of who may sign in under a name; a shop has so few that all are looked through."""
    found = connection.execute("SELECT * FROM person WHERE ended_at = ''")
    return next((row for row in found.fetchall() if _same(row["name"], name)), None)


def _ever(connection: sqlite3.Connection, name: str) -> sqlite3.Row | None:
    found = connection.execute("SELECT id, name FROM person")
    return next((row for row in found.fetchall() if _same(row["name"], name)), None)


def person_of_row(row: sqlite3.Row) -> Person:
    ended, locked = row["ended_at"], row["locked_until"]
    return Person(
        row["id"],
        row["name"],
        Role(row["role"]),
        rows.moment(row["named_at"]),
        rows.moment(ended) if ended else None,
        rows.moment(locked) if locked > rows.now() else None,
    )
