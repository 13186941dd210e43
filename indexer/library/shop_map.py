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
from indexer.library.persons import named
from indexer.library.problems import EntryRefused, EntryUnknown
from indexer.library.records import MapRow
from indexer.library.shop_lists import Imported, LineProblem, moment_given, read_lines, written
from indexer.trade.own_numbers import in_range, parse_own_number

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

    publication  the manual's number, else its title, as printed
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

    Columns as in COLUMNS; a line without who, date or why is by `who`, of now, and "imported".
    Raises EntryRefused when `who` is blank.
    """
    name, _ = named(who)
    at = rows.now()
    lines, problems = read_lines(text, COLUMNS, needed=("publication", "first", "chapters"))
    wanted: dict[tuple, _Row] = {}
    for line in lines:
        given = line.fields
        try:
            made_at = moment_given(given["date"], at)
            ends = (given["publication"], given["first"], given["last"])
            said = (given["who"] or name, given["why"] or "imported")
            row = _checked(*ends, given["chapters"], *said, made_at)
        except EntryRefused as problem:
            problems.append(LineProblem(line.number, str(problem)))
        else:
            wanted.setdefault(row.says, row)
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
    return Imported(len(new), len(lines) - len(new))


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


def _checked(
    publication: str, first: str, last: str, chapters: str | Sequence[str], who: str, why: str, at: str
) -> _Row:
    name, reason = named(who, why)
    manual = " ".join(publication.split())
    if not manual:
        raise EntryRefused("no publication is named", "Give the manual's number, or its title as printed.")
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
