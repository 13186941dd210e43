"""The revision register as a CSV list: standing checks written, and lines taken, all of them or none."""

import datetime
from collections.abc import Iterable

from indexer.library import rows
from indexer.library.catalogue import Catalogue
from indexer.library.day import today as day_of
from indexer.library.generations import change
from indexer.library.map_names import names_of
from indexer.library.persons import named
from indexer.library.problems import EntryRefused
from indexer.library.records import PublicationRecord
from indexer.library.register import (
    DIRECTIVE_LIST,
    DIRECTIVE_LIST_NAME,
    checked,
    checks,
    day_given,
    insert,
    name_of,
    record_of,
)
from indexer.library.register_records import RevisionCheck
from indexer.library.shop_lists import Imported, Line, LineProblem, read_lines, written

COLUMNS = ("publication", "revision", "date", "source", "checked_on", "who", "recheck_days", "note")


def import_csv(
    catalogue: Catalogue, text: str, who: str, recheck_days: int, today: datetime.date | None = None
) -> Imported:
    """Add the lines of a CSV text: all of them, or none when one is wrong.

    Columns as in COLUMNS; publication is a number, title, file name or id of what is held. A line without who
    or recheck_days is by `who` and of the interval given. Raises EntryRefused when `who` is blank.
    """
    name, _ = named(who)
    at, day = rows.now(), today or day_of(catalogue)
    lines, problems = read_lines(text, COLUMNS, needed=("publication", "source", "checked_on"))
    find = Finder(catalogue)
    wanted: dict[tuple, RevisionCheck] = {}
    for line in lines:
        try:
            check = _of_line(find, line, name, recheck_days, day)
        except EntryRefused as problem:
            problems.append(LineProblem(line.number, str(problem)))
        else:
            wanted.setdefault(_same(check), check)
    if problems:
        return Imported(0, 0, tuple(sorted(problems, key=lambda each: each.line)))
    with catalogue.database.writing() as connection:
        standing = connection.execute("SELECT * FROM revision_check WHERE undone_by = ''")
        held = {_same(record_of(row)) for row in standing.fetchall()}
        new = [check for says, check in wanted.items() if says not in held]
        for check in new:
            insert(connection, check, at, f". Imported by {name}")
        if new:
            change(connection, at, ())
    return Imported(len(new), len(lines) - len(new))


def export_csv(catalogue: Catalogue) -> str:
    """The standing checks as CSV text that `import_csv` takes back, oldest first."""
    standing = [check for check in reversed(checks(catalogue)) if not check.undone_by]
    names = Finder(catalogue).names(check.work_id for check in standing)
    return written(
        COLUMNS,
        (
            (
                names.get(check.work_id, check.publication),
                check.revision,
                check.date.isoformat() if check.date else "",
                check.source,
                check.checked_on.isoformat(),
                check.who,
                str(check.recheck_days),
                check.note,
            )
            for check in standing
        ),
    )


class Finder:
    """The publications held, to be named in a line of a list."""

    def __init__(self, catalogue: Catalogue):
        self._held = {record.id: record for record in catalogue.publications(replaced=True)}
        self._names = names_of(self._held.values())

    def work(self, given: str) -> tuple[str, str]:
        """(work id, what the work is called) of a number, title, file or id. Raises EntryRefused."""
        if given.casefold() in (DIRECTIVE_LIST, DIRECTIVE_LIST_NAME.casefold()):
            return DIRECTIVE_LIST, DIRECTIVE_LIST_NAME
        found = [self._held[given]] if given in self._held else self._fitting(given)
        works = {record.work_id: record for record in found}
        if not works:
            raise EntryRefused(
                f"no publication held here is called \u00ab{given}\u00bb", "Write its number or its file."
            )
        if len(works) > 1:
            them = ", ".join(sorted(record.file for record in works.values()))
            raise EntryRefused(
                f"\u00ab{given}\u00bb may be each of these: {them}", "Write the name of its file."
            )
        ((work_id, record),) = works.items()
        return work_id, name_of(record)

    def names(self, work_ids: Iterable[str]) -> dict[str, str]:
        """Work -> a name that `work` finds it by."""
        wanted, found = set(work_ids), {DIRECTIVE_LIST: DIRECTIVE_LIST}
        for record in self._held.values():
            if record.work_id in wanted and record.work_id not in found:
                names = (record.number, record.file, record.id)
                found[record.work_id] = next(name for name in names if name and self._leads_to(name, record))
        return found

    def _fitting(self, given: str) -> list[PublicationRecord]:
        return [self._held[each.id] for each in self._names.fitting(given)]

    def _leads_to(self, name: str, record: PublicationRecord) -> bool:
        try:
            return self.work(name)[0] == record.work_id
        except EntryRefused:
            return False


def _of_line(find: Finder, line: Line, name: str, recheck_days: int, today: datetime.date) -> RevisionCheck:
    given = line.fields
    work_id, publication = find.work(given["publication"])
    days = given["recheck_days"] or str(recheck_days)
    if not days.isascii() or not days.isdigit():
        raise EntryRefused(f"\u00ab{days}\u00bb is no number of days", "Write it in figures: 90.")
    return checked(
        work_id,
        publication,
        given["revision"],
        day_given(given["date"]) if given["date"] else None,
        given["source"],
        day_given(given["checked_on"]),
        given["who"] or name,
        int(days),
        given["note"],
        today,
    )


def _same(check: RevisionCheck) -> tuple:
    return (check.work_id, check.revision, check.date, check.source, check.checked_on, check.who)
