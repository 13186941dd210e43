"""The shop's own lists as CSV text: lines read with their numbers, each problem named, and written. Pure."""

import csv
import datetime
import io
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from indexer.library.problems import EntryRefused


@dataclass(frozen=True, slots=True)
class LineProblem:
    """What is wrong with one line; the first line of the text is 1."""

    line: int
    what: str


@dataclass(frozen=True, slots=True)
class Imported:
    """What came of an import. With any problem nothing was taken."""

    added: int
    already: int  # lines that say what the list says already
    problems: tuple[LineProblem, ...] = ()
    not_held: tuple[str, ...] = ()  # of the map: manuals named in lines added that are not held yet
    changed: int = 0  # of the fleet list: aircraft that said otherwise before


@dataclass(frozen=True, slots=True)
class Line:
    number: int
    fields: Mapping[str, str]  # blanks made simple


def read_lines(
    text: str, columns: Sequence[str], needed: Sequence[str]
) -> tuple[list[Line], list[LineProblem]]:
    """The lines of a CSV text whose first line names its columns, in any order.

    needed  columns that must be there; of the others of `columns`, those left out are ""
    """
    reader = csv.reader(io.StringIO(text.removeprefix("\ufeff"), newline=""), strict=True)
    lines: list[Line] = []
    problems: list[LineProblem] = []
    names: list[str] | None = None
    begins = 1
    try:
        for values in reader:
            if names is None:
                names = [name.strip().casefold() for name in values]
                problems += (LineProblem(1, what) for what in _heads(names, columns, needed))
                if problems:
                    return [], problems
            elif len(values) > len(names):
                problems.append(LineProblem(begins, f"{len(values)} fields stand under {len(names)} columns"))
            elif any(value.strip() for value in values):
                given = {name: " ".join(value.split()) for name, value in zip(names, values, strict=False)}
                lines.append(Line(begins, {name: given.get(name, "") for name in columns}))
            begins = reader.line_num + 1
    except csv.Error as problem:
        problems.append(LineProblem(begins, f"it cannot be read as CSV ({problem})"))
    if names is None and not problems:
        problems.append(
            LineProblem(1, f"the list is empty; its first line names the columns: {', '.join(columns)}")
        )
    return lines, problems


def _heads(names: Sequence[str], columns: Sequence[str], needed: Sequence[str]) -> Iterable[str]:
    for name in needed:
        if name not in names:
            yield f"there is no column «{name}»; the columns are {', '.join(columns)}"
    for name in dict.fromkeys(names):
        if name not in columns:
            yield f"«{name}» is no column of this list; the columns are {', '.join(columns)}"
        elif names.count(name) > 1:
            yield f"the column «{name}» stands there twice"


def written(columns: Sequence[str], lines: Iterable[Sequence[str]]) -> str:
    """CSV text with the columns' names in its first line."""
    text = io.StringIO(newline="")
    csv.writer(text, lineterminator="\n").writerows([columns, *lines])
    return text.getvalue()


def moment_given(text: str, now: str) -> str:
    """The time of a line, ISO 8601 in UTC: a day or a moment as given, else `now`. Raises EntryRefused."""
    if not text:
        return now
    try:
        given = datetime.datetime.fromisoformat(text)
    except ValueError as problem:
        raise EntryRefused(f"«{text}» is no date", "Write it as year-month-day: 2031-05-12.") from problem
    moment = given if given.tzinfo else given.replace(tzinfo=datetime.UTC)
    return moment.astimezone(datetime.UTC).isoformat(timespec="milliseconds")
