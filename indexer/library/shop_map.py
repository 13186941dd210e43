"""The shop's map: which chapters the sections and paragraphs of a manual's own order are filed under.

A line speaks of every revision of the manual it names. What it changes follows with the next
`relations.relate`. Every act stands in the history.
"""

import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass

from indexer.library import rows
from indexer.library.catalogue import Catalogue
from indexer.library.codec import to_json
from indexer.library.entry_values import chapters_given
from indexer.library.generations import change, note
from indexer.library.map_names import Names, names_of
from indexer.library.persons import named
from indexer.library.problems import EntryRefused, EntryUnknown
from indexer.library.records import MapRow
from indexer.library.shop_lists import Imported, LineProblem, moment_given, read_lines, written
from indexer.trade.own_numbers import in_range, parse_own_number
from indexer.trade.publication_titles import says_kind_alone

_MOST_NAMED = 6
COLUMNS = ("publication", "first", "last", "chapters", "who", "date", "why")


@dataclass(frozen=True, slots=True)
class _Row:
    publication: str
    first: str
    last: str
    chapters: tuple[str, ...]
    who: str
    made_at: str
    why: str

    @property
    def values(self) -> tuple[str, ...]:
        return (
            self.publication,
            self.first,
            self.last,
            to_json(self.chapters),
            self.who,
            self.made_at,
            self.why,
        )

    @property
    def says(self) -> tuple:
        return (self.publication, self.first, self.last, self.chapters)


def map_rows(catalogue: Catalogue) -> list[MapRow]:
    """Every line, in the order they were added."""
    with catalogue.reading() as connection:
        return _rows(connection)


def add_row(
    catalogue: Catalogue,
    publication: str,
    first: str,
    last: str,
    chapters: str | Sequence[str],
    who: str,
    why: str,
) -> MapRow:
    """Add a line.

    publication  what map_names.Names calls the manual
    first, last  sections or paragraphs as printed ("V"; "5-12", "5-20"); last "" = the first alone
    chapters     "32;32-41", or each by itself; at least one
    Raises EntryRefused.
    """
    at = rows.now()
    row = _checked(publication, first, last, chapters, who, why, at)
    with catalogue.database.writing() as connection:
        row_id = _insert(connection, row)
        said = f"{row.who}: {_says(row)}. Why: {row.why}"
        note(connection, at, "map line added", "", "", said)
        change(connection, at, (), entries=True)
        return next(each for each in _rows(connection) if each.id == row_id)


def remove_row(catalogue: Catalogue, row_id: int, who: str, why: str) -> MapRow:
    """Take a line out, and return what it was; the history keeps it. Raises EntryRefused, EntryUnknown."""
    name, reason = named(who, why)
    at = rows.now()
    with catalogue.database.writing() as connection:
        gone = next((each for each in _rows(connection) if each.id == row_id), None)
        if gone is None:
            raise EntryUnknown("line of the shop's map", row_id)
        connection.execute("DELETE FROM shop_map WHERE id = ?", (row_id,))
        said = f"{name}: {_says(gone)}, made by {gone.who} -> none. Why: {reason}"
        note(connection, at, "map line removed", "", "", said)
        change(connection, at, (), entries=True)
        return gone


def import_csv(catalogue: Catalogue, text: str, who: str) -> Imported:
    """Add the lines of a CSV text: all of them, or none when one is wrong.

    Columns as in COLUMNS; a line without who, date or why is by `who`, of now, and "imported". A line may
    name a manual that is not held yet, but none that could be several.
    Raises EntryRefused when `who` is blank.
    """
    name, _ = named(who)
    at = rows.now()
    lines, problems = read_lines(text, COLUMNS, needed=("publication", "first", "chapters"))
    names = names_of(catalogue.publications(replaced=True)) if lines else names_of(())
    wanted: dict[tuple, _Row] = {}
    held_yet: dict[str, bool] = {}
    for line in lines:
        given = line.fields
        try:
            made_at = moment_given(given["date"], at)
            manual, is_held = _named(names, given["publication"])
            ends = (manual, given["first"], given["last"])
            said = (given["who"] or name, given["why"] or "imported")
            row = _checked(*ends, given["chapters"], *said, made_at)
        except EntryRefused as problem:
            problems.append(LineProblem(line.number, str(problem)))
        else:
            wanted.setdefault(row.says, row)
            held_yet[row.publication] = is_held
    if problems:
        return Imported(0, 0, tuple(sorted(problems, key=lambda each: each.line)))
    with catalogue.database.writing() as connection:
        held = {(each.publication, each.first, each.last, each.chapters) for each in _rows(connection)}
        new = [row for says, row in wanted.items() if says not in held]
        for row in new:
            _insert(connection, row)
            said = f"{row.who}: {_says(row)}. Why: {row.why}. Imported by {name}"
            note(connection, at, "map line added", "", "", said)
        if new:
            change(connection, at, (), entries=True)
    not_held = dict.fromkeys(row.publication for row in new if not held_yet[row.publication])
    return Imported(len(new), len(lines) - len(new), not_held=tuple(not_held))


def export_csv(catalogue: Catalogue) -> str:
    """The whole map as CSV text that `import_csv` takes back as it is."""
    return written(
        COLUMNS,
        (
            (
                row.publication,
                row.first,
                row.last,
                "; ".join(row.chapters),
                row.who,
                row.made_at.isoformat(timespec="milliseconds"),
                row.why,
            )
            for row in map_rows(catalogue)
        ),
    )


def _named(names: Names, given: str) -> tuple[str, bool]:
    """How a line writes the name of a manual, and whether it is held. Raises EntryRefused for several."""
    name = names.line_name(given)
    if name:
        return name, True
    several = names.fitting(given) or names.of_kind(given)
    if several:
        them = ", ".join(names.key(each) or each.file for each in several[:_MOST_NAMED])
        more = ", ..." if len(several) > _MOST_NAMED else ""
        raise EntryRefused(f"«{given}» may be each of these: {them}{more}", "Write one of these names.")
    if says_kind_alone(given):
        raise EntryRefused(
            f"«{given}» may be the manual of any aircraft", "Give its number, or the name of its file."
        )
    return given, False


def _checked(
    publication: str, first: str, last: str, chapters: str | Sequence[str], who: str, why: str, at: str
) -> _Row:
    name, reason = named(who, why)
    manual = " ".join(publication.split())
    if not manual:
        raise EntryRefused(
            "no publication is named", "Give the manual's number, its title as printed, or its file."
        )
    begin, end = " ".join(first.split()), " ".join((last or first).split())
    for each in (begin, end):
        if parse_own_number(each) is None:
            raise EntryRefused(
                f"«{each}» is no section or paragraph", "Write it as the manual prints it: V, 5-12."
            )
    if not in_range(begin, begin, end):
        raise EntryRefused(f"{end} comes before {begin}", "Name the first section first.")
    found = chapters_given(chapters if isinstance(chapters, str) else ";".join(chapters))
    if not found:
        raise EntryRefused("no chapter is given", "Give at least one, as in 32 or 32-41.")
    return _Row(manual, begin, end, found, name, at, reason)


def _insert(connection: sqlite3.Connection, row: _Row) -> int | None:
    return connection.execute("INSERT INTO shop_map VALUES (NULL, ?, ?, ?, ?, ?, ?, ?)", row.values).lastrowid


def _rows(connection: sqlite3.Connection) -> list[MapRow]:
    return [rows.map_row(row) for row in connection.execute("SELECT * FROM shop_map ORDER BY id")]


def _says(row: _Row | MapRow) -> str:
    ends = row.first if row.first == row.last else f"{row.first} to {row.last}"
    return f"{row.publication} {ends}: {'; '.join(row.chapters)}"
