"""The shop's fleet list as plain data and in words: pages, JSON API and command share it."""

import datetime
from typing import Any

from indexer.library import fleet
from indexer.library.fleet_records import Aircraft, Fitted
from indexer.library.shop_lists import Imported
from server import list_imports
from server.kept import KeptByState
from server.list_imports import NOTHING_TAKEN
from server.opened import OpenedLibrary
from server.words import count_of, date_words

LONG_AGO_DAYS = 365  # after which a row's confirmation is called old; common practice, no source

_chosen = KeptByState(most=1000)
_registrations = KeptByState(most=1)


def fleet_list(library: OpenedLibrary) -> dict[str, Any]:
    """Every aircraft, by registration."""
    with library.reading() as status:
        held = fleet.fleet(library.catalogue)
        return {
            "library_state": library.state(status).fields(),
            "total": len(held),
            "aircraft": [aircraft_fields(each) for each in held],
        }


def one_aircraft(library: OpenedLibrary, registration: str) -> dict[str, Any]:
    """One aircraft with the state of the library. Raises AircraftUnknown."""
    with library.reading() as status:
        row = fleet.aircraft(library.catalogue, registration)
        return {"library_state": library.state(status).fields(), **aircraft_fields(row)}


def chosen(library: OpenedLibrary, registration: str) -> Aircraft | None:
    """The aircraft that is asked about; "" = none. Raises AircraftUnknown."""
    if not registration.strip():
        return None
    catalogue = library.catalogue
    with catalogue.reading():
        kept = _chosen.of(catalogue, catalogue.generation)
        return kept.once(registration, lambda: fleet.aircraft(catalogue, registration))


def registrations(library: OpenedLibrary) -> tuple[str, ...]:
    """Of every aircraft of the fleet, in order; inside `reading` read once for each state of the library."""
    catalogue = library.catalogue
    kept = _registrations.of(catalogue, catalogue.generation)
    return kept.once("all", lambda: tuple(each.registration for each in fleet.fleet(catalogue)))


def aircraft_fields(row: Aircraft) -> dict[str, Any]:
    return {
        "registration": row.registration,
        "maker": row.maker,
        "model": row.model,
        "serial": row.serial or None,
        "note": row.note,
        "confirmed_on": _day_field(row),
        "confirmed_by": row.confirmed_by,
        "fitted": [_fitted_fields(each) for each in row.fitted],
    }


def in_hand_fields(row: Aircraft | None) -> dict[str, Any] | None:
    """The short form in which an answer names the aircraft it was marked for; None = it was not."""
    return row and {
        "registration": row.registration,
        "model": row.model,
        "serial": row.serial or None,
        "confirmed_on": _day_field(row),
        "confirmed_by": row.confirmed_by,
    }


def _day_field(row: Aircraft) -> str | None:
    return row.confirmed_on.isoformat() if row.confirmed_on else None


def _fitted_fields(each: Fitted) -> dict[str, Any]:
    return {
        "kind": each.kind.value,
        "position": each.position,
        "maker": each.maker,
        "model": each.model,
        "serial": each.serial or None,
        "note": each.note,
    }


def aircraft_words(row: Aircraft) -> str:
    """ "QX-1AB, QZ62, serial QZ-077"."""
    return f"{row.registration}, {row.model}, {serial_words(row.serial)}"


def serial_words(serial: str) -> str:
    return f"serial {serial}" if serial else "serial not known"


def confirmed_words(row: Aircraft, today: datetime.date) -> str:
    """ "fleet list confirmed on 4 March 2031 by R. Quill", and that this is long ago, or that nobody has."""
    if row.confirmed_on is None:
        return f"fleet list entered by {row.confirmed_by}, never confirmed"
    old = ", more than a year ago" if is_old(row, today) else ""
    return f"fleet list confirmed on {date_words(row.confirmed_on)} by {row.confirmed_by}{old}"


def confirmed_shortly(row: Aircraft, today: datetime.date) -> str:
    """ "confirmed 4 March 2031", where there is little room."""
    if row.confirmed_on is None:
        return "never confirmed"
    return f"confirmed {date_words(row.confirmed_on)}{', more than a year ago' if is_old(row, today) else ''}"


def is_old(row: Aircraft, today: datetime.date) -> bool:
    """Whether nobody has held the row against the aircraft for a long time, or ever."""
    return row.confirmed_on is None or (today - row.confirmed_on).days > LONG_AGO_DAYS


def import_fields(taken: Imported) -> dict[str, Any]:
    """What came of an import; with any problem nothing was taken."""
    return {**list_imports.import_fields(taken), "changed": taken.changed}


def import_words(taken: Imported) -> str:
    """The same in a sentence."""
    if taken.problems:
        return NOTHING_TAKEN
    changed = f" {taken.changed:,} changed." if taken.changed else ""
    known = f" {taken.already:,} were there already." if taken.already else ""
    return f"{count_of(taken.added, 'aircraft')} added.{changed}{known}".replace("aircrafts", "aircraft")
