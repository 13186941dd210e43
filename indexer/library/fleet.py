"""The shop's fleet list: its aircraft and what is fitted to them. Every act stands in the history.

A row counts as confirmed on the day on which a named person held it against the aircraft and its records.
Neither adding nor changing a row confirms it.
"""

import datetime
from collections.abc import Callable, Sequence
from dataclasses import replace

from indexer.library import rows
from indexer.library.catalogue import Catalogue
from indexer.library.day import today
from indexer.library.fleet_records import Aircraft, Fitted, FittedKind
from indexer.library.fleet_rows import every_row, held_row, insert, refuse_twice, rewrite
from indexer.library.fleet_values import checked, day_given, said
from indexer.library.generations import change as new_generation
from indexer.library.generations import note as note_act
from indexer.library.persons import named
from indexer.library.problems import EntryRefused


def fleet(catalogue: Catalogue) -> list[Aircraft]:
    """Every aircraft, by registration."""
    with catalogue.reading() as connection:
        return every_row(connection)


def aircraft(catalogue: Catalogue, registration: str) -> Aircraft:
    """The aircraft with a registration, however its case, blanks and dashes are written.

    I and 1, O and 0 are never taken for each other. Raises AircraftUnknown.
    """
    with catalogue.reading() as connection:
        return held_row(connection, registration)


def add(
    catalogue: Catalogue,
    registration: str,
    model: str,
    who: str,
    serial: str = "",
    maker: str = "",
    note: str = "",
    fitted: Sequence[Fitted] = (),
    confirmed_on: datetime.date | str | None = None,
) -> Aircraft:
    """Add an aircraft, entered by `who`. Raises EntryRefused.

    confirmed_on  the day on which `who` held it against the aircraft and its records; None and "" = never
    """
    name, _ = named(who)
    day = day_given(confirmed_on, today(catalogue)) if confirmed_on else None
    new = checked(Aircraft(0, registration, maker, model, serial, tuple(fitted), note, day, name))
    at = rows.now()
    with catalogue.database.writing() as connection:
        refuse_twice(connection, new.registration)
        insert(connection, new)
        note_act(connection, at, "aircraft added", "", "", f"{name}: {said(new)}")
        new_generation(connection, at, ())
        return held_row(connection, new.registration)


def change(
    catalogue: Catalogue,
    registration: str,
    who: str,
    why: str,
    new_registration: str | None = None,
    maker: str | None = None,
    model: str | None = None,
    serial: str | None = None,
    note: str | None = None,
    fitted: Sequence[Fitted] | None = None,
) -> Aircraft:
    """Change what is given, and leave the rest; `fitted` replaces all that was fitted.

    Raises EntryRefused, AircraftUnknown.
    """
    given = {
        "registration": new_registration,
        "maker": maker,
        "model": model,
        "serial": serial,
        "note": note,
        "fitted": None if fitted is None else tuple(fitted),
    }
    told = {field: value for field, value in given.items() if value is not None}
    return _change(catalogue, registration, who, why, lambda before: replace(before, **told))


def fit(
    catalogue: Catalogue, registration: str, fitted: Fitted, who: str, why: str, instead: bool = False
) -> Aircraft:
    """Fit one article or alteration. Raises EntryRefused, AircraftUnknown.

    instead   it takes the place of what is of its kind at its position; else it is added
    """
    place = (fitted.kind, " ".join(fitted.position.split()).casefold())

    def with_it(before: Aircraft) -> Aircraft:
        stays = [
            each for each in before.fitted if not (instead and (each.kind, each.position.casefold()) == place)
        ]
        return replace(before, fitted=(*stays, fitted))

    return _change(catalogue, registration, who, why, with_it)


def unfit(
    catalogue: Catalogue,
    registration: str,
    kind: FittedKind,
    who: str,
    why: str,
    position: str = "",
    model: str = "",
    serial: str = "",
) -> Aircraft:
    """Take out the one article or alteration of a kind; of several, that of a position, model or serial.

    Raises EntryRefused, AircraftUnknown.
    """

    def without_it(before: Aircraft) -> Aircraft:
        meant = [
            each
            for each in before.fitted
            if each.kind is kind
            and (not position or each.position.casefold() == position.strip().casefold())
            and (not model or each.model.casefold() == model.strip().casefold())
            and (not serial or each.serial.casefold() == serial.strip().casefold())
        ]
        if not meant:
            raise EntryRefused(
                f"no such {kind.value} is fitted to {before.registration}", "Look at the list again."
            )
        if len(meant) > 1:
            raise EntryRefused(
                f"{len(meant)} of what is fitted to {before.registration} may be meant",
                "Name its position, its model or its serial as the list gives it.",
            )
        return replace(before, fitted=tuple(each for each in before.fitted if each is not meant[0]))

    return _change(catalogue, registration, who, why, without_it)


def _change(
    catalogue: Catalogue, registration: str, who: str, why: str, make: Callable[[Aircraft], Aircraft]
) -> Aircraft:
    name, reason = named(who, why)
    at = rows.now()
    with catalogue.database.writing() as connection:
        before = held_row(connection, registration)
        after = checked(make(before))
        if after == before:
            raise EntryRefused(
                f"nothing of {before.registration} would change", "Change something, or confirm the row."
            )
        if after.registration != before.registration:
            refuse_twice(connection, after.registration, but=before.id)
        rewrite(connection, before, after, at, name, f"Why: {reason}")
        new_generation(connection, at, ())
        return held_row(connection, after.registration)


def confirm(
    catalogue: Catalogue, registration: str, who: str, on: datetime.date | str | None = None
) -> Aircraft:
    """Say that the row was held against the aircraft and its records on a day; None and "" = today.

    Raises EntryRefused, AircraftUnknown.
    """
    name, _ = named(who)
    day = day_given(on, today(catalogue))
    at = rows.now()
    with catalogue.database.writing() as connection:
        before = held_row(connection, registration)
        if before.confirmed_on and day < before.confirmed_on:
            raise EntryRefused(
                f"{before.registration} was confirmed on {before.confirmed_on}, which is later than {day}",
                "Give the day on which you looked, or leave the row as it is.",
            )
        rewrite(connection, before, replace(before, confirmed_on=day, confirmed_by=name), at, name, "")
        new_generation(connection, at, ())
        return held_row(connection, registration)


def remove(catalogue: Catalogue, registration: str, who: str, why: str) -> Aircraft:
    """Take an aircraft out, and return what it was; the history keeps it.

    Raises EntryRefused, AircraftUnknown.
    """
    name, reason = named(who, why)
    at = rows.now()
    with catalogue.database.writing() as connection:
        gone = held_row(connection, registration)
        connection.execute("DELETE FROM aircraft WHERE id = ?", (gone.id,))
        act = f"{name}: {said(gone)} -> none. Why: {reason}"
        note_act(connection, at, "aircraft removed", "", "", act)
        new_generation(connection, at, ())
        return gone
