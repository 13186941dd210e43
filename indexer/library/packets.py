"""Job packets: begun, filled, put in order, closed. A packet is closed, never deleted.

Nothing here makes a generation: a packet changes nothing that readers of the library find. An item that is
taken out keeps its row with a position below zero, so that it can be put back where it stood.
"""

import datetime
import json
import secrets
import sqlite3
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any

from indexer.library import rows
from indexer.library.catalogue import Catalogue
from indexer.library.packet_records import Packet, PacketItem, PacketItemKind
from indexer.library.problems import (
    PacketClosed,
    PacketFull,
    PacketItemUnknown,
    PacketRefused,
    PacketUnknown,
)

MOST_ITEMS = 200  # of one packet
MOST_LISTED = 200  # open packets
MOST_WORDS = 200  # characters of a job, and of what an item is called
MOST_NOTE = 1000  # characters
_LETTERS = "23456789abcdefghjkmnpqrstuvwxyz"  # none that is taken for another when it is typed over
_GROUPS, _GROUP = 3, 4  # 59 bits: nobody finds a packet by trying


@dataclass(frozen=True, slots=True)
class NewItem:
    """What is put into a packet; the fields are those of PacketItem."""

    kind: PacketItemKind
    publication_id: str
    pdf_page: int
    last_page: int
    about: str
    words: str
    as_added: Mapping[str, Any] = field(default_factory=dict)


def begin(catalogue: Catalogue, job: str, aircraft: str = "", model: str = "", serial: str = "") -> Packet:
    """A new, empty packet. Raises PacketRefused."""
    packet_id, at, words = _new_id(), rows.now(), _short("The job", job, MOST_WORDS)
    with catalogue.database.writing() as connection:
        connection.execute(
            "INSERT INTO packet VALUES (?, ?, ?, ?, ?, ?, ?, '')",
            (packet_id, words, aircraft, model, serial, at, at),
        )
    return packet(catalogue, packet_id)


def packet(catalogue: Catalogue, packet_id: str) -> Packet:
    """A packet with its items in order. Raises PacketUnknown."""
    with catalogue.reading() as connection:
        row = connection.execute("SELECT * FROM packet WHERE id = ?", (packet_id,)).fetchone()
        if row is None:
            raise PacketUnknown(packet_id)
        items = connection.execute(
            "SELECT * FROM packet_item WHERE packet_id = ? AND position >= 0 ORDER BY position, id",
            (packet_id,),
        ).fetchall()
    return _packet(row, tuple(_item(each) for each in items))


def open_packets(catalogue: Catalogue) -> list[tuple[Packet, int]]:
    """Packets that are not closed, the one changed last first, without their items but with their number."""
    with catalogue.reading() as connection:
        found = connection.execute(
            "SELECT packet.*, (SELECT COUNT(*) FROM packet_item"
            " WHERE packet_id = packet.id AND position >= 0) AS items FROM packet"
            " WHERE closed_at = '' ORDER BY changed_at DESC, id LIMIT ?",
            (MOST_LISTED,),
        ).fetchall()
    return [(_packet(row, ()), row["items"]) for row in found]


def add(catalogue: Catalogue, packet_id: str, new: NewItem) -> tuple[PacketItem, bool]:
    """Put something in at the end; False = it was in already and stays where it is.

    Raises PacketUnknown, PacketClosed, PacketFull.
    """
    with _changing(catalogue, packet_id) as (connection, at):
        same = connection.execute(
            "SELECT * FROM packet_item WHERE packet_id = ? AND position >= 0 AND kind = ? AND"
            " publication_id = ? AND pdf_page = ? AND about = ?",
            (packet_id, new.kind.value, new.publication_id, new.pdf_page, new.about),
        ).fetchone()
        if same is not None:
            return _item(same), False
        if _count(connection, packet_id) >= MOST_ITEMS:
            raise PacketFull(packet_id, MOST_ITEMS)
        given = connection.execute(
            "INSERT INTO packet_item VALUES (NULL, ?, ?, ?, ?, ?, ?, ?, '', ?, ?, ?)",
            (
                packet_id,
                _end(connection, packet_id),
                new.kind.value,
                new.publication_id,
                new.pdf_page,
                new.last_page,
                new.about,
                new.words[:MOST_WORDS],
                json.dumps(dict(new.as_added), ensure_ascii=False, allow_nan=False),
                at,
            ),
        ).lastrowid
        return _item(_row(connection, packet_id, given)), True


def move(catalogue: Catalogue, packet_id: str, item_id: int, places: int) -> None:
    """Move an item up (places below zero) or down; at either end it stays.

    Raises PacketUnknown, PacketClosed, PacketItemUnknown.
    """
    with _changing(catalogue, packet_id) as (connection, _):
        order = [
            row["id"]
            for row in connection.execute(
                "SELECT id FROM packet_item WHERE packet_id = ? AND position >= 0 ORDER BY position, id",
                (packet_id,),
            )
        ]
        if item_id not in order:
            raise PacketItemUnknown(packet_id, item_id)
        at = order.index(item_id)
        order.insert(max(0, min(len(order) - 1, at + places)), order.pop(at))
        connection.executemany(
            "UPDATE packet_item SET position = ? WHERE id = ?",
            list(enumerate(order)),
        )


def note(catalogue: Catalogue, packet_id: str, item_id: int, words: str) -> None:
    """Set the note of an item; "" takes it away.

    Raises PacketUnknown, PacketClosed, PacketItemUnknown, PacketRefused.
    """
    words = _short("The note", words, MOST_NOTE)
    with _changing(catalogue, packet_id) as (connection, _):
        _row(connection, packet_id, item_id)
        connection.execute("UPDATE packet_item SET note = ? WHERE id = ?", (words, item_id))


def remove(catalogue: Catalogue, packet_id: str, item_id: int) -> PacketItem:
    """Take an item out; `put_back` undoes it. Raises PacketUnknown, PacketClosed, PacketItemUnknown."""
    with _changing(catalogue, packet_id) as (connection, _):
        gone = _item(_row(connection, packet_id, item_id))
        connection.execute("UPDATE packet_item SET position = -1 - position WHERE id = ?", (item_id,))
    return gone


def put_back(catalogue: Catalogue, packet_id: str, item_id: int) -> None:
    """Put an item that was taken out back where it stood, before whatever stands there now.

    Raises PacketUnknown, PacketClosed, PacketFull, PacketItemUnknown.
    """
    with _changing(catalogue, packet_id) as (connection, _):
        row = connection.execute(
            "SELECT position FROM packet_item WHERE packet_id = ? AND id = ? AND position < 0",
            (packet_id, item_id),
        ).fetchone()
        if row is None:
            raise PacketItemUnknown(packet_id, item_id)
        if _count(connection, packet_id) >= MOST_ITEMS:
            raise PacketFull(packet_id, MOST_ITEMS)
        place = -1 - row["position"]
        connection.execute(
            "UPDATE packet_item SET position = position + 1 WHERE packet_id = ? AND position >= ?",
            (packet_id, place),
        )
        connection.execute("UPDATE packet_item SET position = ? WHERE id = ?", (place, item_id))


def taken_out(catalogue: Catalogue, packet_id: str, item_id: int) -> PacketItem | None:
    """An item that was taken out of a packet and can be put back; None when there is none such."""
    with catalogue.reading() as connection:
        row = connection.execute(
            "SELECT * FROM packet_item WHERE packet_id = ? AND id = ? AND position < 0", (packet_id, item_id)
        ).fetchone()
    return None if row is None else _item(row)


def name_job(catalogue: Catalogue, packet_id: str, job: str) -> None:
    """Name the job of a packet. Raises PacketUnknown, PacketClosed, PacketRefused."""
    words = _short("The job", job, MOST_WORDS)
    with _changing(catalogue, packet_id) as (connection, _):
        connection.execute("UPDATE packet SET job = ? WHERE id = ?", (words, packet_id))


def set_aircraft(catalogue: Catalogue, packet_id: str, aircraft: str, model: str, serial: str) -> None:
    """Say which aircraft a packet without one is for: a packet never changes from one aircraft to another.

    Raises PacketUnknown, PacketClosed, PacketRefused.
    """
    with _changing(catalogue, packet_id) as (connection, _):
        row = connection.execute("SELECT aircraft FROM packet WHERE id = ?", (packet_id,)).fetchone()
        if row["aircraft"]:
            raise PacketRefused(
                f"This packet is for {row['aircraft']}.", "Begin another packet for another aircraft."
            )
        connection.execute(
            "UPDATE packet SET aircraft = ?, model = ?, serial = ? WHERE id = ?",
            (aircraft, model, serial, packet_id),
        )


def close(catalogue: Catalogue, packet_id: str) -> None:
    """Close a packet; closing a closed one changes nothing. Raises PacketUnknown."""
    _set_closed(catalogue, packet_id, closed=True)


def reopen(catalogue: Catalogue, packet_id: str) -> None:
    """Open a closed packet again; its items stand as they were. Raises PacketUnknown."""
    _set_closed(catalogue, packet_id, closed=False)


def _set_closed(catalogue: Catalogue, packet_id: str, closed: bool) -> None:
    at = rows.now()
    with catalogue.database.writing() as connection:
        row = connection.execute("SELECT closed_at FROM packet WHERE id = ?", (packet_id,)).fetchone()
        if row is None:
            raise PacketUnknown(packet_id)
        if bool(row["closed_at"]) != closed:
            connection.execute(
                "UPDATE packet SET closed_at = ?, changed_at = ? WHERE id = ?",
                (at if closed else "", at, packet_id),
            )


@contextmanager
def _changing(catalogue: Catalogue, packet_id: str) -> Iterator[tuple[sqlite3.Connection, str]]:
    """One transaction on an open packet, which then says when it was changed."""
    at = rows.now()
    with catalogue.database.writing() as connection:
        row = connection.execute("SELECT closed_at FROM packet WHERE id = ?", (packet_id,)).fetchone()
        if row is None:
            raise PacketUnknown(packet_id)
        if row["closed_at"]:
            raise PacketClosed(packet_id)
        connection.execute("UPDATE packet SET changed_at = ? WHERE id = ?", (at, packet_id))
        yield connection, at


def _new_id() -> str:
    letters = [secrets.choice(_LETTERS) for _ in range(_GROUPS * _GROUP)]
    return "-".join("".join(letters[start : start + _GROUP]) for start in range(0, len(letters), _GROUP))


def _short(what: str, words: str, most: int) -> str:
    words = words.strip()
    if len(words) > most:
        raise PacketRefused(f"{what} has {len(words):,} characters.", f"Write at most {most:,}.")
    return words


def _count(connection: sqlite3.Connection, packet_id: str) -> int:
    found = "SELECT COUNT(*) FROM packet_item WHERE packet_id = ? AND position >= 0"
    return connection.execute(found, (packet_id,)).fetchone()[0]


def _end(connection: sqlite3.Connection, packet_id: str) -> int:
    found = "SELECT COALESCE(MAX(position), -1) + 1 FROM packet_item WHERE packet_id = ? AND position >= 0"
    return connection.execute(found, (packet_id,)).fetchone()[0]


def _row(connection: sqlite3.Connection, packet_id: str, item_id: int) -> sqlite3.Row:
    row = connection.execute(
        "SELECT * FROM packet_item WHERE packet_id = ? AND id = ? AND position >= 0", (packet_id, item_id)
    ).fetchone()
    if row is None:
        raise PacketItemUnknown(packet_id, item_id)
    return row


def _packet(row: sqlite3.Row, items: tuple[PacketItem, ...]) -> Packet:
    closed: datetime.datetime | None = rows.moment(row["closed_at"]) if row["closed_at"] else None
    return Packet(
        row["id"],
        row["job"],
        row["aircraft"],
        row["model"],
        row["serial"],
        rows.moment(row["begun_at"]),
        rows.moment(row["changed_at"]),
        closed,
        items,
    )


def _item(row: sqlite3.Row) -> PacketItem:
    return PacketItem(
        row["id"],
        PacketItemKind(row["kind"]),
        row["publication_id"],
        row["pdf_page"],
        row["last_page"],
        row["about"],
        row["note"],
        row["words"],
        json.loads(row["as_added_json"]),
        rows.moment(row["added_at"]),
    )
