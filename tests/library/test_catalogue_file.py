"""The catalogue's file: absent, foreign, damaged, older, newer. What is refused is left as it was."""

import contextlib
import re
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest
from making import take
from shop import bulletin

from indexer.errors import LibraryBusy, LibraryDamaged, LibraryTooNew, NoLibrary
from indexer.library import database
from indexer.library.catalogue import Catalogue
from indexer.library.lock import only_one
from indexer.library.records import EntryKind, EntryState
from indexer.library.relations import relate
from indexer.library.shop_entries import add_entry, entries

DATA = Path(__file__).parent / "data"
ROOT = Path(__file__).parents[2]


@pytest.fixture
def library(tmp_path):
    """A library with one bulletin, closed."""
    folder = tmp_path / "library"
    with Catalogue.open(folder, create=True) as catalogue:
        take(catalogue, tmp_path / "in", bulletin("1", "A", None))
    return folder


def contents(folder):
    return {path.relative_to(folder): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_a_library_that_is_not_there_is_not_made_by_looking(tmp_path):
    with pytest.raises(NoLibrary):
        Catalogue.open(tmp_path / "library")
    assert not (tmp_path / "library").exists()


def test_what_was_taken_is_there_when_the_library_is_opened_again(library):
    with Catalogue.open(library) as catalogue:
        assert [each.number for each in catalogue.publications()] == ["SB 1"]


def test_readers_never_wait_for_a_writer(library):
    with (
        Catalogue.open(library) as one,
        Catalogue.open(library) as other,
        one.database.writing() as connection,
    ):
        connection.execute("DELETE FROM refused")
        assert len(other.publications()) == 1
        (mode,) = connection.execute("PRAGMA journal_mode").fetchone()
        assert mode == "wal"


def test_a_library_of_a_newer_format_is_left_untouched(library):
    connection = sqlite3.connect(library / database.FILE_NAME)
    connection.execute(f"PRAGMA user_version = {database.FORMAT + 1}")
    connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    connection.close()
    before = contents(library)
    for create in (False, True):
        with pytest.raises(LibraryTooNew, match="has not been changed"):
            Catalogue.open(library, create=create)
    assert contents(library) == before


def spoil(library, change):
    path = library / database.FILE_NAME
    path.write_bytes(change(path.read_bytes()))


DAMAGES = {
    "emptied": lambda content: b"",
    "overwritten": lambda content: b"not a database at all " * 500,
    "cut short": lambda content: content[:5000],
    "zeroed within": lambda content: content[:4096] + bytes(len(content) - 4096),
}


@pytest.mark.parametrize("damage", DAMAGES.values(), ids=DAMAGES)
def test_a_damaged_catalogue_is_said_to_be_damaged(library, damage):
    spoil(library, damage)
    with pytest.raises(LibraryDamaged, match="cannot be read"), Catalogue.open(library) as catalogue:
        catalogue.publications()
        catalogue.status()


def test_another_programs_database_is_not_touched(tmp_path):
    connection = sqlite3.connect(tmp_path / database.FILE_NAME)
    connection.execute("CREATE TABLE something (else_ TEXT)")
    connection.close()
    before = contents(tmp_path)
    with pytest.raises(LibraryDamaged, match="not a catalogue of this program"):
        Catalogue.open(tmp_path, create=True)
    assert contents(tmp_path) == before


# Migrations ------------------------------------------------------------------------------------------------

STEPS = {
    database.FORMAT
    + 1: "ALTER TABLE copy ADD COLUMN shelf TEXT NOT NULL DEFAULT 'A';\nUPDATE copy SET shelf = 'B';",
    database.FORMAT + 2: "-- a remark; with a semicolon\nCREATE TABLE shelf (name TEXT PRIMARY KEY);",
}


def test_an_older_library_is_brought_up_to_date_with_its_documents(library, monkeypatch):
    monkeypatch.setattr(database, "FORMAT", database.FORMAT + 2)
    opened = database.open_database(library, create=False, steps=STEPS)
    with opened.reading() as connection:
        assert [row["shelf"] for row in connection.execute("SELECT shelf FROM copy")] == ["B"]
        assert connection.execute("SELECT COUNT(*) FROM shelf").fetchone()[0] == 0
    opened.close()
    header = (library / database.FILE_NAME).read_bytes()[:100]
    assert (
        int.from_bytes(header[60:64], "big") == database.FORMAT
    )  # so that an older program refuses it unopened


def test_a_migration_that_fails_leaves_the_library_as_it_was(library, monkeypatch):
    monkeypatch.setattr(database, "FORMAT", database.FORMAT + 2)
    broken = {**STEPS, database.FORMAT: "CREATE TABLE copy (id TEXT);"}
    with pytest.raises(sqlite3.OperationalError):
        database.open_database(library, create=False, steps=broken)
    monkeypatch.undo()
    with Catalogue.open(library) as catalogue, catalogue.reading() as connection:
        assert "shelf" not in [row["name"] for row in connection.execute("PRAGMA table_info(copy)")]
        assert len(catalogue.publications()) == 1


def test_there_is_a_step_for_every_format_there_ever_was():
    assert sorted(database._migrations()) == list(range(2, database.FORMAT + 1))


def shape(connection) -> set[tuple]:
    """Tables with their columns, indexes, views and triggers, without blanks and remarks."""
    found = connection.execute(
        "SELECT name, type, sql FROM sqlite_master WHERE name NOT LIKE 'sqlite_%'"
    ).fetchall()
    columns = {
        (name, *tuple(row)[1:])
        for name, kind, _ in found
        if kind == "table"
        for row in connection.execute(f"PRAGMA table_info({name})")
    }
    keys = {
        (name, "refers", *tuple(row)[2:7])
        for name, kind, _ in found
        if kind == "table"
        for row in connection.execute(f"PRAGMA foreign_key_list({name})")
    }
    said = {
        (name, kind, re.sub(r"--.*|\s+", "", sql)) for name, kind, sql in found if kind != "table" and sql
    }
    ended = {
        (name, bool(re.search("WITHOUT ROWID", sql)), bool(re.search("AUTOINCREMENT", sql)))
        for name, kind, sql in found
        if kind == "table"
    }
    return columns | keys | said | ended


def test_a_library_of_format_1_becomes_one_of_today(tmp_path):
    """data/schema_1.sql is the schema as it stood in format 1."""
    folder = tmp_path / "library"
    with Catalogue.open(folder, create=True) as fresh, fresh.reading() as connection:
        today = shape(connection)
    (folder / database.FILE_NAME).unlink()
    old = sqlite3.connect(folder / database.FILE_NAME)
    old.executescript((DATA / "schema_1.sql").read_text(encoding="utf-8"))
    old.executescript(
        f"""
        INSERT INTO meta VALUES ('generation', '3'), ('changed_at', '2031-05-12T08:00:00.000+00:00');
        INSERT INTO copy VALUES ('c1', 'c1ff', 'km.pdf', 10, 1, '{{}}', '[]', '2031-05-12T08:00:00.000+00:00',
            NULL, NULL);
        INSERT INTO place VALUES ('/shelf/km.pdf', 1, 'c1', '2031-05-12T08:00:00.000+00:00');
        INSERT INTO page VALUES ('c1', 1, 'text', '', '1', 612, 792, 0, 'digital', '');
        INSERT INTO work VALUES ('alone|c1-1', '', '', '');
        INSERT INTO revision VALUES ('alone|c1-1||', 'alone|c1-1', '', NULL);
        INSERT INTO publication VALUES ('c1-1', 'c1', 'alone|c1-1||', 1, 1, '', '', '',
            '{{"type":null,"number":null,"title":null,"maker":null,"models":[],"revision":null,"date":null}}',
            1, 1);
        INSERT INTO passage VALUES ('c1-1-0', 'c1-1', 0, 1, 'text', 'digital', '[]', 'Adjust the brake.',
            '[]', NULL);
        INSERT INTO standing VALUES ('c1-1-0', 'undetermined',
            '{{"value":"undetermined","usual":"undetermined"}}');
        INSERT INTO shop_entry VALUES (7, 'c1', 1, 'Adjust', 'null', 'R. Quill',
            '2031-05-13T08:00:00.000+00:00', 'a letter', 'Ask the maker.');
        PRAGMA application_id = {database.APPLICATION_ID};
        PRAGMA user_version = 1;
        """
    )
    old.close()
    with Catalogue.open(folder) as catalogue:
        with catalogue.reading() as connection:
            assert shape(connection) == today
            assert connection.execute("PRAGMA foreign_key_check").fetchall() == []
        (entry,) = entries(catalogue)
        assert (entry.id, entry.copy_id, entry.pdf_page, entry.last_page) == (7, "c1", 1, 1)
        assert (entry.kind, entry.value, entry.quote) == (EntryKind.NOTE, "Ask the maker.", "Adjust")
        assert (entry.who, entry.why, entry.state) == ("R. Quill", "a letter", EntryState.IN_FORCE)
        assert catalogue.status().copies_read_by_older_rules == 1
        assert relate(catalogue)
        assert [each.text for each in catalogue.passages_of("c1-1")] == ["Adjust the brake."]
        added = add_entry(catalogue, "c1", 1, "M. Ohler", "as read", EntryKind.CHAPTERS, "32")
        assert added.id == 8
        relate(catalogue)
        assert str(catalogue.passage("c1-1-0").numbers[0].value) == "32"


# One at a time ---------------------------------------------------------------------------------------------


def test_a_second_ingest_is_refused_while_the_first_is_at_work(tmp_path):
    with only_one(tmp_path), pytest.raises(LibraryBusy), only_one(tmp_path):
        pass
    with only_one(tmp_path):
        pass  # the lock file is still there, and locks nobody out


def test_opening_it_twice_in_one_process_lets_no_other_process_think_it_is_closed(library):
    """Another process that closes the catalogue as the last one deletes the write-ahead log (SQLite,
    "Write-Ahead Logging", 2.1). Here it is not the last: what is kept afterwards must be there for everybody.
    """
    open_and_close = (
        f"import sys; sys.path.insert(0, {str(ROOT)!r})\n"
        "from pathlib import Path\nfrom indexer.library.catalogue import Catalogue\n"
        f"Catalogue.open(Path({str(library)!r})).close()\n"
    )
    with Catalogue.open(library) as held:
        held.generation  # noqa: B018
        Catalogue.open(library).close()
        subprocess.run([sys.executable, "-c", open_and_close], check=True)
        assert library.joinpath("catalogue.sqlite-wal").exists()
        held.refuse(Path("x.pdf"), LibraryBusy("x"))
        with Catalogue.open(library) as other:
            assert [each.path for each in other.refused()] == ["x.pdf"]


class StoppedAtBegin:
    """A connection with Ctrl-C right after a transaction has begun."""

    def __init__(self, connection):
        self._connection = connection

    def __getattr__(self, name):
        return getattr(self._connection, name)

    def execute(self, statement, *given):
        done = self._connection.execute(statement, *given)
        if statement.startswith("BEGIN"):
            raise KeyboardInterrupt
        return done


@pytest.mark.parametrize("way", ["reading", "writing"])
def test_being_stopped_as_a_transaction_begins_leaves_none_open(library, way):
    with contextlib.closing(database.open_database(library, create=False)) as held_open:
        held = held_open.connection()
        held_open._local.connection = StoppedAtBegin(held)
        with pytest.raises(KeyboardInterrupt), getattr(held_open, way)():
            pass
        assert not held.in_transaction
        held_open._local.connection = held
        with held_open.writing():
            pass


def test_a_change_inside_a_reading_is_refused_and_the_reading_goes_on(library):
    with Catalogue.open(library) as catalogue, catalogue.reading() as connection:
        with pytest.raises(sqlite3.OperationalError, match="within a transaction"):
            catalogue.refuse(Path("x.pdf"), LibraryBusy("x"))
        assert connection.in_transaction
