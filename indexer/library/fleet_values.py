"""Rows of the fleet list: registrations compared, what is given checked, and a row in words. Pure."""

import datetime
import re
from collections import Counter
from dataclasses import replace

from indexer.library.fleet_records import Aircraft, Fitted, FittedKind
from indexer.library.problems import EntryRefused

_REGISTRATION = re.compile(r"[A-Z0-9][A-Z0-9 \-]{0,18}[A-Z0-9]")
_DASHES = str.maketrans(dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2212", "-"))
_LOOK_ALIKE = str.maketrans("IO", "10")
_LONGEST = 200  # characters of a field
_LONGEST_NOTE = 1000
_ONE_AT_A_PLACE = (FittedKind.ENGINE, FittedKind.PROPELLER)


def key_of(registration: str) -> str:
    """What two ways of writing one registration have in common: no blanks, no dashes, capitals.

    I and 1, O and 0 stay apart: both may be painted on two different aircraft.
    """
    return re.sub(r"[\s\-]", "", registration.translate(_DASHES)).upper()


def alike(one: str, other: str) -> bool:
    """Whether two registrations differ by I and 1 or O and 0 alone."""
    a, b = key_of(one), key_of(other)
    return a != b and a.translate(_LOOK_ALIKE) == b.translate(_LOOK_ALIKE)


def day_given(day: datetime.date | str | None, today: datetime.date) -> datetime.date:
    """The day on which a row was confirmed; None and "" = today. Raises EntryRefused."""
    if not day:
        return today
    if isinstance(day, str):
        try:
            day = datetime.date.fromisoformat(day.strip())
        except ValueError:
            raise EntryRefused(f"«{day}» is no date", "Write it as year-month-day: 2031-05-12.") from None
    if day > today:
        raise EntryRefused(f"{day} lies in the future", "Give the day on which the row was confirmed.")
    return day


def kind_given(kind: str) -> FittedKind:
    """Raises EntryRefused."""
    try:
        return FittedKind(kind.strip().casefold())
    except ValueError:
        raise EntryRefused(
            f"«{kind}» is no kind of what is fitted", f"Write one of: {', '.join(FittedKind)}."
        ) from None


def checked(given: Aircraft) -> Aircraft:
    """The row with its blanks made simple. Raises EntryRefused, which names what is wrong."""
    registration = _plain(given.registration.translate(_DASHES)).upper()
    if not registration:
        raise EntryRefused("no registration is given", "Give it as it is painted on the aircraft.")
    if not _REGISTRATION.fullmatch(registration):
        raise EntryRefused(
            f"«{registration}» is no registration", "Use letters, figures and dashes, 2 to 20 of them."
        )
    row = replace(
        given,
        registration=registration,
        maker=_plain(given.maker),
        model=_plain(given.model),
        serial=_plain(given.serial),
        note=_plain(given.note),
        fitted=tuple(_fitted(each, registration) for each in given.fitted),
    )
    if not row.model:
        raise EntryRefused(f"no model is given for {registration}", "Give it as the data plate has it.")
    if row.serial and key_of(row.serial) == key_of(registration):
        raise EntryRefused(
            f"{registration}: the registration is given for the serial number",
            "A registration is no serial number. Read the data plate, or leave the serial empty.",
        )
    _not_too_long(registration, (row.maker, row.model, row.serial), row.note)
    _refuse_two_at_one_place(row)
    return row


def said(row: Aircraft) -> str:
    """A row in words, whole: the history keeps it so."""
    parts = [
        f"{row.registration}: {' '.join(filter(None, (row.maker, row.model)))}",
        f"serial {row.serial}" if row.serial else "serial not known",
        *map(fitted_words, row.fitted),
        *([f"note: {row.note}"] if row.note else []),
        f"confirmed {row.confirmed_on} by {row.confirmed_by}"
        if row.confirmed_on
        else f"entered by {row.confirmed_by}, never confirmed",
    ]
    return "; ".join(parts)


def fitted_words(each: Fitted) -> str:
    """ "engine left Kestrel K-210 serial E-55"; an alteration has no serial."""
    serial = f"serial {each.serial}" if each.serial else "serial not known"
    words = [each.kind.value, each.position, each.maker, each.model]
    if each.serial or each.kind is not FittedKind.ALTERATION:
        words.append(serial)
    if each.note:
        words.append(f"({each.note})")
    return " ".join(filter(None, words))


def _plain(text: str) -> str:
    return " ".join(text.split())


def _fitted(each: Fitted, registration: str) -> Fitted:
    plain = Fitted(
        each.kind,
        _plain(each.model),
        _plain(each.serial),
        _plain(each.maker),
        _plain(each.position),
        _plain(each.note),
    )
    if not plain.model:
        what = "number or name" if plain.kind is FittedKind.ALTERATION else "model"
        raise EntryRefused(
            f"an {plain.kind.value} of {registration} has no {what}".replace("an propeller", "a propeller"),
            "Give it as its data plate or its papers have it.",
        )
    _not_too_long(registration, (plain.maker, plain.model, plain.serial, plain.position), plain.note)
    return plain


def _not_too_long(registration: str, fields: tuple[str, ...], note: str) -> None:
    if any(len(field) > _LONGEST for field in fields) or len(note) > _LONGEST_NOTE:
        raise EntryRefused(
            f"something given for {registration} is too long",
            f"Keep each field under {_LONGEST} characters, and a note under {_LONGEST_NOTE}.",
        )


def _refuse_two_at_one_place(row: Aircraft) -> None:
    """Two engines need positions; what else is fitted may not stand there twice."""
    places = Counter(
        (each.kind, each.position.casefold()) for each in row.fitted if each.kind in _ONE_AT_A_PLACE
    )
    kinds = Counter(each.kind for each in row.fitted)
    for (kind, position), count in places.items():
        if count > 1:
            where = f"at «{position}»" if position else "without a position"
            raise EntryRefused(
                f"{row.registration} has {count} {kind.value}s {where}",
                "Give each its own position, such as left and right, or 1 and 2.",
            )
        if not position and kinds[kind] > 1:
            raise EntryRefused(
                f"one {kind.value} of {row.registration} has no position, and there are {kinds[kind]}",
                "Give each its own position, such as left and right, or 1 and 2.",
            )
    seen = set()
    for each in row.fitted:
        same = (each.kind, *(text.casefold() for text in (each.position, each.model, each.serial)))
        if same in seen:
            raise EntryRefused(
                f"{row.registration} has the {each.kind.value} «{each.model}» twice",
                "Keep one, or give its serial.",
            )
        seen.add(same)
