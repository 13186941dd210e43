"""Rows of the fleet list, read and written inside the caller's transaction."""

import datetime
import sqlite3
from collections.abc import Iterable
from dataclasses import replace

from indexer.library.fleet_records import Aircraft, Fitted, FittedKind
from indexer.library.fleet_values import alike, key_of, said
from indexer.library.generations import note as note_act
from indexer.library.problems import AircraftUnknown, EntryRefused


def insert(connection: sqlite3.Connection, new: Aircraft) -> None:
    found = connection.execute(
        "INSERT INTO aircraft VALUES (NULL, ?, ?, ?, ?, ?, ?, ?)",
        (
            new.registration,
            new.maker,
            new.model,
            new.serial,
            new.note,
            _day_text(new),
            new.confirmed_by,
        ),
    )
    _insert_fitted(connection, found.lastrowid, new.fitted)


def rewrite(
    connection: sqlite3.Connection, before: Aircraft, after: Aircraft, at: str, who: str, why: str
) -> None:
    """Put one row in place of another; both stand in the history."""
    connection.execute(
        "UPDATE aircraft SET registration = ?, maker = ?, model = ?, serial = ?, note = ?, confirmed_on = ?,"
        " confirmed_by = ? WHERE id = ?",
        (
            after.registration,
            after.maker,
            after.model,
            after.serial,
            after.note,
            _day_text(after),
            after.confirmed_by,
            before.id,
        ),
    )
    connection.execute("DELETE FROM fitted WHERE aircraft_id = ?", (before.id,))
    _insert_fitted(connection, before.id, after.fitted)
    confirmed = replace(after, confirmed_on=before.confirmed_on, confirmed_by=before.confirmed_by) == before
    event = "aircraft confirmed" if confirmed else "aircraft changed"
    act = f"{who}: {said(before)} -> {said(after)}. {why}".strip()
    note_act(connection, at, event, "", "", act)


def _day_text(row: Aircraft) -> str:
    return row.confirmed_on.isoformat() if row.confirmed_on else ""


def _insert_fitted(connection: sqlite3.Connection, aircraft_id: int | None, fitted: Iterable[Fitted]) -> None:
    connection.executemany(
        "INSERT INTO fitted VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
        (
            (
                aircraft_id,
                ordinal,
                each.kind.value,
                each.position,
                each.maker,
                each.model,
                each.serial,
                each.note,
            )
            for ordinal, each in enumerate(fitted)
        ),
    )


def every_row(connection: sqlite3.Connection) -> list[Aircraft]:
    """Every aircraft, by registration."""
    fitted: dict[int, list[Fitted]] = {}
    for row in connection.execute("SELECT * FROM fitted ORDER BY aircraft_id, ordinal"):
        fitted.setdefault(row["aircraft_id"], []).append(
            Fitted(
                FittedKind(row["kind"]),
                row["model"],
                row["serial"],
                row["maker"],
                row["position"],
                row["note"],
            )
        )
    return [
        Aircraft(
            row["id"],
            row["registration"],
            row["maker"],
            row["model"],
            row["serial"],
            tuple(fitted.get(row["id"], ())),
            row["note"],
            datetime.date.fromisoformat(row["confirmed_on"]) if row["confirmed_on"] else None,
            row["confirmed_by"],
        )
        for row in connection.execute("SELECT * FROM aircraft ORDER BY registration")
    ]


def held_row(connection: sqlite3.Connection, registration: str) -> Aircraft:
    """The aircraft with a registration as `fleet_values.key_of` compares them. Raises AircraftUnknown."""
    asked = key_of(registration)
    held = every_row(connection)
    found = next((each for each in held if asked and key_of(each.registration) == asked), None)
    if found is None:
        near = tuple(each.registration for each in held if alike(each.registration, registration))
        raise AircraftUnknown(" ".join(registration.split()), near)
    return found


def refuse_twice(connection: sqlite3.Connection, registration: str, but: int = 0) -> None:
    """Raise EntryRefused where another aircraft than the one with the id `but` has this registration."""
    for each in every_row(connection):
        if each.id != but and key_of(each.registration) == key_of(registration):
            raise EntryRefused(
                f"{each.registration} is in the fleet list already", "Change that row, or correct the name."
            )
