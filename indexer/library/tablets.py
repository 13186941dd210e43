"""Tablets that may read the library: joined with the shop's code, seen, ended. No act makes a generation."""

import hmac
import secrets
import sqlite3

from indexer.library import rows
from indexer.library.catalogue import Catalogue
from indexer.library.database import is_busy
from indexer.library.generations import note, set_meta
from indexer.library.person_records import Tablet
from indexer.library.persons import named
from indexer.library.problems import CodeRefused, EntryUnknown
from indexer.library.sign_ins import token_hash

SEEN_EVERY_S = 600
_CODE = "shop_code"  # its key in the table meta
_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789"  # without I and 1, O and 0
_CODE_LENGTH = 8  # 32^8, about a million million
_TOKEN_BYTES = 32
_MOST_NAME = 60  # characters
_NO_WAIT_MS = 0


def shop_code(catalogue: Catalogue) -> str:
    """The code that a tablet joins with, as "K7QM-4RTX"; made when it is first asked for."""
    return _held_code(catalogue) or change_code(catalogue, "")


def change_code(catalogue: Catalogue, who: str, end_all: bool = False) -> str:
    """Make a new code. Tablets that joined stay, unless all are to be ended.

    who   "" = nobody asked: the first code is made
    """
    at = rows.now()
    code = "".join(secrets.choice(_LETTERS) for _ in range(_CODE_LENGTH))
    with catalogue.database.writing() as connection:
        if not who and (held := _code(connection)):  # another process made the first one meanwhile
            return _shown(held)
        set_meta(connection, _CODE, code)
        note(connection, at, "shop's code changed", "", "", who or "made at the first start for the network")
        if end_all:
            connection.execute("UPDATE tablet SET ended_at = ? WHERE ended_at = ''", (at,))
            note(connection, at, "tablets ended", "", "", f"{who}: all that had joined")
    return _shown(code)


def join(catalogue: Catalogue, code: str, name: str) -> str:
    """Let a device read, and return the token that it is known by from now on. Raises CodeRefused."""
    called = " ".join(name.split())[:_MOST_NAME] or "Tablet"
    token, at = secrets.token_urlsafe(_TOKEN_BYTES), rows.now()
    with catalogue.reading() as connection:
        held = _code(connection)
    if not held or not hmac.compare_digest(_plain(code).encode(), held.encode()):
        raise CodeRefused()
    with catalogue.database.writing() as connection:
        connection.execute(
            "INSERT INTO tablet VALUES (NULL, ?, ?, ?, ?, '')", (token_hash(token), called, at, at)
        )
        note(connection, at, "tablet joined", "", "", called)
    return token


def joined(catalogue: Catalogue, token: str) -> Tablet | None:
    """The tablet that holds this token; None when it is unknown or was ended."""
    if not token:
        return None
    with catalogue.reading() as connection:
        row = connection.execute(
            "SELECT * FROM tablet WHERE token_hash = ? AND ended_at = ''", (token_hash(token),)
        ).fetchone()
    return _tablet(row) if row else None


def seen(catalogue: Catalogue, tablet: Tablet) -> bool:
    """Note that a tablet was here, once in SEEN_EVERY_S; False when it was noted lately or must wait.

    A reader never waits for the library's writer: while one is at work, the next time will do.
    """
    at = rows.now()
    if (rows.moment(at) - tablet.last_seen).total_seconds() < SEEN_EVERY_S:
        return False
    try:
        with catalogue.database.writing(_NO_WAIT_MS) as connection:
            connection.execute("UPDATE tablet SET last_seen = ? WHERE id = ?", (at, tablet.id))
    except sqlite3.OperationalError as problem:
        if not is_busy(problem):
            raise
        return False
    return True


def tablets(catalogue: Catalogue) -> list[Tablet]:
    """Every tablet that ever joined: those that may read first, the one seen last on top."""
    with catalogue.reading() as connection:
        found = connection.execute("SELECT * FROM tablet ORDER BY ended_at <> '', last_seen DESC, id DESC")
        return [_tablet(row) for row in found]


def end(catalogue: Catalogue, tablet_id: int, who: str) -> Tablet:
    """A tablet may not read any more, until it joins again. Raises EntryUnknown."""
    by, _ = named(who)
    at = rows.now()
    with catalogue.database.writing() as connection:
        found = "SELECT * FROM tablet WHERE id = ?"
        row = connection.execute(f"{found} AND ended_at = ''", (tablet_id,)).fetchone()
        if row is None:
            raise EntryUnknown("tablet", tablet_id)
        connection.execute("UPDATE tablet SET ended_at = ? WHERE id = ?", (at, tablet_id))
        note(connection, at, "tablet ended", "", "", f"{by}: {row['name']}")
        return _tablet(connection.execute(found, (tablet_id,)).fetchone())


def _held_code(catalogue: Catalogue) -> str:
    with catalogue.reading() as connection:
        held = _code(connection)
    return _shown(held) if held else ""


def _code(connection: sqlite3.Connection) -> str:
    row = connection.execute("SELECT value FROM meta WHERE key = ?", (_CODE,)).fetchone()
    return row["value"] if row else ""


def _plain(code: str) -> str:
    """As it is kept, however it was typed."""
    return "".join(letter for letter in code.upper() if letter.isalnum())


def _shown(code: str) -> str:
    half = _CODE_LENGTH // 2
    return f"{code[:half]}-{code[half:]}"


def _tablet(row: sqlite3.Row) -> Tablet:
    ended = row["ended_at"]
    return Tablet(
        row["id"],
        row["name"],
        rows.moment(row["joined_at"]),
        rows.moment(row["last_seen"]),
        rows.moment(ended) if ended else None,
    )
