"""The catalogue's file: absent, foreign, damaged, older, newer. What is refused is left as it was."""

import sqlite3

import pytest
from making import take
from shop import bulletin

from indexer.errors import LibraryBusy, LibraryDamaged, LibraryTooNew, NoLibrary
from indexer.library import database
from indexer.library.catalogue import Catalogue
from indexer.library.lock import only_one


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


# One at a time ---------------------------------------------------------------------------------------------


def test_a_second_ingest_is_refused_while_the_first_is_at_work(tmp_path):
    with only_one(tmp_path), pytest.raises(LibraryBusy), only_one(tmp_path):
        pass
    with only_one(tmp_path):
        pass  # the lock file is still there, and locks nobody out
