"""One SQLite file: made, checked, brought up to date, and opened once per thread.

WAL mode: readers never wait for the writer. A catalogue of a newer format is told by its file header, so that
it is not so much as opened.
"""

import datetime
import sqlite3
import struct
import threading
from collections import Counter
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from importlib import resources
from pathlib import Path

from indexer.errors import LibraryDamaged, LibraryTooNew, NoLibrary

FORMAT = 5
APPLICATION_ID = 0x48616C66  # marks an SQLite file as a catalogue of ours
FILE_NAME = "catalogue.sqlite"
WAIT_FOR_WRITER_MS = 60_000
# User version and application id (SQLite documentation, "Database File Format", section 1.3).
_HEADER = struct.Struct(">60xI4xI28x")
_DAMAGE = {sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB}

# Catalogue files that this process has open, by device and inode. To open such a file a second time by other
# means than SQLite's and close it takes away every lock the process has on it (POSIX advisory locks; SQLite,
# "How To Corrupt An SQLite Database File", 2.2): another process that closes the catalogue then takes itself
# for the last, and deletes the write-ahead log that is still being written to.
_open_here: Counter[tuple[int, int]] = Counter()
_opening = threading.Lock()


class Database:
    """The open catalogue file. Each thread has its own connection; `close` closes them all."""

    def __init__(self, folder: Path, file: tuple[int, int] | None = None):
        """`file` = its device and inode, counted as open until `close`."""
        self.folder = folder
        self.path = folder / FILE_NAME
        self._file = file
        self._local = threading.local()
        self._connections: list[sqlite3.Connection] = []
        self._lock = threading.Lock()

    def connection(self) -> sqlite3.Connection:
        """This thread's connection, in autocommit mode outside `reading` and `writing`."""
        held = getattr(self._local, "connection", None)
        if held is None:
            held = self._local.connection = _connect(self.path)
            with self._lock:
                self._connections.append(held)
        return held

    @contextmanager
    def reading(self) -> Iterator[sqlite3.Connection]:
        """One unchanging state of the catalogue for everything read inside. May be nested."""
        with self._speaking_plainly():
            connection = self.connection()
            if connection.in_transaction:
                yield connection
                return
            try:  # around its beginning too: Ctrl-C right after it must leave no transaction open
                connection.execute("BEGIN")
                self._local.seen = {}
                yield connection
            finally:
                connection.rollback()
                self._local.seen = None

    @property
    def is_reading(self) -> bool:
        """Whether this thread is inside `reading`, and not within a change of its own."""
        return self.seen is not None

    @property
    def seen(self) -> dict[str, int] | None:
        """Numbers that need not be read again while this thread is inside `reading`; None outside of it."""
        return getattr(self._local, "seen", None)

    @contextmanager
    def writing(self, wait_ms: int = WAIT_FOR_WRITER_MS) -> Iterator[sqlite3.Connection]:
        """One transaction: all of it is kept, or none of it.

        wait_ms   for another writer; then sqlite3.OperationalError, see `is_busy`
        """
        with self._speaking_plainly():
            connection = self.connection()
            inside = connection.in_transaction  # then SQLite refuses to begin, and what is open stays so
            connection.execute(f"PRAGMA busy_timeout = {wait_ms}")
            try:
                try:
                    connection.execute("BEGIN IMMEDIATE")
                finally:
                    connection.execute(f"PRAGMA busy_timeout = {WAIT_FOR_WRITER_MS}")
                yield connection
                connection.commit()
            except BaseException:
                if not inside:
                    connection.rollback()
                raise

    def close(self) -> None:
        with self._lock:
            for connection in self._connections:
                connection.close()
            self._connections.clear()
        self._local = threading.local()
        with _opening:
            if self._file is not None:
                _open_here[self._file] -= 1
                self._file = None

    @contextmanager
    def _speaking_plainly(self) -> Iterator[None]:
        try:
            yield
        except sqlite3.DatabaseError as problem:
            if getattr(problem, "sqlite_errorcode", 0) & 0xFF in _DAMAGE:
                raise LibraryDamaged(str(self.folder), str(problem)) from problem
            raise


def is_busy(problem: sqlite3.OperationalError) -> bool:
    """Whether another writer was at work for longer than was to be waited for."""
    return getattr(problem, "sqlite_errorcode", 0) & 0xFF == sqlite3.SQLITE_BUSY


def open_database(folder: Path, create: bool, steps: Mapping[int, str] | None = None) -> Database:
    """The catalogue in `folder`, brought up to the current format.

    steps   format number -> SQL that makes it from the one before; None = the migrations folder
    Raises NoLibrary, LibraryTooNew (nothing is changed) or LibraryDamaged.
    """
    path = folder / FILE_NAME
    if not path.exists():
        if not create:
            raise NoLibrary(str(folder))
        _make(path)
    with _opening:
        seen = path.stat()
        file = (seen.st_dev, seen.st_ino)
        if not _open_here[file]:
            _check_header(folder, path)
        _open_here[file] += 1
        database = Database(folder, file)
    try:
        with database._speaking_plainly():
            _bring_up_to_date(database, _migrations() if steps is None else steps)
    except BaseException:
        database.close()
        raise
    return database


def _make(path: Path) -> None:
    """A new catalogue, complete before it bears its name."""
    path.parent.mkdir(parents=True, exist_ok=True)
    unfinished = path.with_name(f"{path.name}.unfinished")
    unfinished.unlink(missing_ok=True)
    connection = sqlite3.connect(unfinished, isolation_level=None)
    try:
        schema = resources.files("indexer.library").joinpath("schema.sql").read_text(encoding="utf-8")
        connection.executescript(f"BEGIN; {schema} COMMIT;")
        made = datetime.datetime.now(datetime.UTC).isoformat(timespec="milliseconds")
        connection.execute("INSERT INTO meta VALUES ('generation', '0'), ('changed_at', ?)", (made,))
        connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        connection.execute(f"PRAGMA user_version = {FORMAT}")
    finally:
        connection.close()
    unfinished.replace(path)


def _check_header(folder: Path, path: Path) -> None:
    """Refuse what is not ours or too new, from the first 100 bytes alone."""
    with path.open("rb") as file:
        header = file.read(_HEADER.size)
    if len(header) < _HEADER.size or not header.startswith(b"SQLite format 3\0"):
        raise LibraryDamaged(str(folder), f"{path.name} is not an SQLite file")
    found, application = _HEADER.unpack(header)
    if application != APPLICATION_ID:
        raise LibraryDamaged(str(folder), f"{path.name} is not a catalogue of this program")
    if found > FORMAT:
        raise LibraryTooNew(str(folder), found, FORMAT)


def _connect(path: Path) -> sqlite3.Connection:
    connection = sqlite3.connect(
        path, isolation_level=None, timeout=WAIT_FOR_WRITER_MS / 1000, check_same_thread=False
    )
    connection.row_factory = sqlite3.Row
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute("PRAGMA synchronous = FULL")
    return connection


def _bring_up_to_date(database: Database, steps: Mapping[int, str]) -> None:
    connection = database.connection()
    connection.execute("PRAGMA journal_mode = WAL")
    if _format(connection) == FORMAT:
        return
    with database.writing():
        found = _format(connection)  # another process may have done it while this one waited
        if found > FORMAT:
            raise LibraryTooNew(str(database.folder), found, FORMAT)
        for number in range(found + 1, FORMAT + 1):
            for statement in _statements(steps[number]):
                connection.execute(statement)
        connection.execute(f"PRAGMA user_version = {FORMAT}")
    connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")  # so that the header tells the format


def _format(connection: sqlite3.Connection) -> int:
    return connection.execute("PRAGMA user_version").fetchone()[0]


def _statements(script: str) -> Iterator[str]:
    """The statements of a script one by one: `executescript` would commit before the first."""
    held = ""
    for line in script.splitlines(keepends=True):
        held += line
        if sqlite3.complete_statement(held):
            yield held
            held = ""


def _migrations() -> dict[int, str]:
    folder = resources.files("indexer.library").joinpath("migrations")
    return {
        int(step.name.removesuffix(".sql")): step.read_text(encoding="utf-8")
        for step in folder.iterdir()
        if step.name.endswith(".sql")
    }
