"""The fleet list as CSV: taken, all lines or none, and written so that it can be taken again.

One line for each aircraft (kind "aircraft") and for each thing fitted to it, under its registration.
"""

import datetime
from collections.abc import Iterator, Sequence
from dataclasses import replace

from indexer.library import fleet, fleet_rows, rows
from indexer.library.catalogue import Catalogue
from indexer.library.day import today
from indexer.library.fleet_records import Aircraft, Fitted
from indexer.library.fleet_values import checked, day_given, key_of, kind_given, said
from indexer.library.generations import change as new_generation
from indexer.library.generations import note as note_act
from indexer.library.persons import named
from indexer.library.problems import EntryRefused
from indexer.library.shop_lists import Imported, Line, LineProblem, read_lines, written

COLUMNS = (
    "registration", "kind", "position", "maker", "model", "serial", "note", "confirmed_on", "confirmed_by",
)  # fmt: skip
AIRCRAFT = "aircraft"  # the kind of a line that speaks of the aircraft itself


def import_csv(
    catalogue: Catalogue, text: str, who: str, why: str = "", confirmed_on: datetime.date | None = None
) -> Imported:
    """Add the aircraft of a CSV text: all of them, or none when one line is wrong.

    why   given, aircraft that are in the list and say otherwise are changed; "" = they are problems
    confirmed_on   the day for lines that give none; None = they are confirmed by nobody

    A line without a day confirms nothing: a new aircraft was then entered by the name of the line, else by
    `who`; one that is in the list stays confirmed as it was. What is in the list and not in the text stays as
    it is. Raises EntryRefused when `who` is blank.
    """
    name, _ = named(who)
    reason = " ".join(why.split())
    lines, problems = read_lines(text, COLUMNS, needed=("registration", "kind", "model"))
    read = _rows(lines, name, today(catalogue), confirmed_on, problems)
    with catalogue.database.writing() as connection:
        held = {key_of(each.registration): each for each in fleet.fleet(catalogue)}
        given = [(number, _still_confirmed(held.get(key_of(row.registration)), row)) for number, row in read]
        at = rows.now()
        added = changed = 0
        for number, row in given:
            before = held.get(key_of(row.registration))
            if before and not _same(before, row) and not reason:
                problems.append(
                    LineProblem(
                        number,
                        f"{before.registration} is in the list and says otherwise ({said(before)}). "
                        "Say why to change it, or take the line out",
                    )
                )
        if problems:
            return Imported(0, 0, tuple(sorted(problems, key=lambda each: each.line)))
        for _, row in given:
            before = held.get(key_of(row.registration))
            if before is None:
                fleet_rows.insert(connection, row)
                note_act(connection, at, "aircraft added", "", "", f"{name}: {said(row)}. Imported")
                added += 1
            elif not _same(before, row):
                after = replace(row, id=before.id)
                fleet_rows.rewrite(connection, before, after, at, name, f"Why: {reason}. Imported")
                changed += 1
        if added or changed:
            new_generation(connection, at, ())
    return Imported(added, len(given) - added - changed, changed=changed)


def export_csv(catalogue: Catalogue) -> str:
    """The whole list as CSV text that `import_csv` takes back as it is."""
    return written(COLUMNS, (line for row in fleet.fleet(catalogue) for line in _lines(row)))


def _lines(row: Aircraft) -> Iterator[tuple[str, ...]]:
    confirmed = (row.confirmed_on.isoformat() if row.confirmed_on else "", row.confirmed_by)
    yield (row.registration, AIRCRAFT, "", row.maker, row.model, row.serial, row.note, *confirmed)
    for each in row.fitted:
        yield (
            row.registration,
            each.kind.value,
            each.position,
            each.maker,
            each.model,
            each.serial,
            each.note,
            "",
            "",
        )


def _still_confirmed(before: Aircraft | None, row: Aircraft) -> Aircraft:
    """A row that confirms nothing leaves the confirmation that is held."""
    if before is None or row.confirmed_on:
        return row
    return replace(row, confirmed_on=before.confirmed_on, confirmed_by=before.confirmed_by)


def _same(before: Aircraft, row: Aircraft) -> bool:
    return replace(row, id=before.id) == before


def _rows(
    lines: list[Line],
    who: str,
    now: datetime.date,
    confirmed_on: datetime.date | None,
    problems: list[LineProblem],
) -> list[tuple[int, Aircraft]]:
    """Each aircraft with the number of its line; what is wrong goes to `problems`."""
    first: dict[str, Line] = {}
    fitted: dict[str, list[Fitted]] = {}
    wrong: set[str] = set()
    for line in lines:
        key = key_of(line.fields["registration"])
        if line.fields["kind"].casefold() != AIRCRAFT:
            continue
        if key in first:
            where = first[key].number
            problems.append(
                LineProblem(line.number, f"{line.fields['registration']} stands on line {where} already")
            )
            wrong.add(key)
        else:
            first[key] = line
    for line in lines:
        if line.fields["kind"].casefold() == AIRCRAFT:
            continue
        key = key_of(line.fields["registration"])
        try:
            fitted.setdefault(key, []).append(_fitted(line, key in first))
        except EntryRefused as problem:
            problems.append(LineProblem(line.number, str(problem)))
            wrong.add(key)
    found = []
    for key, line in first.items():
        try:
            row = _aircraft(line, fitted.get(key, ()), who, now, confirmed_on)
        except EntryRefused as problem:
            problems.append(LineProblem(line.number, str(problem)))
        else:
            if key not in wrong:
                found.append((line.number, row))
    return found


def _aircraft(
    line: Line, fitted: Sequence[Fitted], who: str, now: datetime.date, confirmed_on: datetime.date | None
) -> Aircraft:
    given = line.fields
    if given["position"]:
        raise EntryRefused("an aircraft has no position", "Leave the column empty on its own line.")
    day = day_given(given["confirmed_on"], now) if given["confirmed_on"] else confirmed_on
    by, _ = named(given["confirmed_by"] or who)
    return checked(
        Aircraft(
            0,
            given["registration"],
            given["maker"],
            given["model"],
            given["serial"],
            tuple(fitted),
            given["note"],
            day,
            by,
        )
    )


def _fitted(line: Line, has_aircraft: bool) -> Fitted:
    given = line.fields
    try:
        kind = kind_given(given["kind"])
    except EntryRefused:
        raise EntryRefused(
            f"«{given['kind']}» is no kind of line",
            "Write aircraft, engine, propeller, appliance or alteration.",
        ) from None
    if not has_aircraft:
        raise EntryRefused(
            f"no line of the kind aircraft stands here for «{given['registration']}»",
            "Add one: what is fitted belongs to an aircraft of the same list.",
        )
    if not given["model"]:
        raise EntryRefused(f"no model is given for the {kind.value}", "Give it as its data plate has it.")
    if given["confirmed_on"] or given["confirmed_by"]:
        raise EntryRefused(
            "confirmed_on and confirmed_by belong on the line of the aircraft",
            "Leave them empty here: one person confirms the aircraft with all that is fitted.",
        )
    return Fitted(kind, given["model"], given["serial"], given["maker"], given["position"], given["note"])
