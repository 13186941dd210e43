"""The shop's own words: what people here say, and what manuals print. Every act stands in the history."""

import sqlite3
from collections.abc import Sequence

from indexer.library import rows
from indexer.library.catalogue import Catalogue
from indexer.library.codec import to_json
from indexer.library.generations import change, note
from indexer.library.persons import named
from indexer.library.problems import EntryRefused, EntryUnknown
from indexer.library.records import ShopWord
from indexer.library.shop_lists import Imported, LineProblem, moment_given, read_lines, written

COLUMNS = ("term", "manual_terms", "note", "who", "date")

_Values = tuple[str, tuple[str, ...], str, str, str]  # term, manual terms, note, who, made at


def shop_words(catalogue: Catalogue) -> list[ShopWord]:
    """Every word, in the order they were added."""
    with catalogue.reading() as connection:
        return _words(connection)


def add_word(
    catalogue: Catalogue, term: str, manual_terms: str | Sequence[str], who: str, note: str = ""
) -> ShopWord:
    """Add a word, with what manuals call it: parted by ";", or each by itself. Raises EntryRefused."""
    at = rows.now()
    values = _checked(term, manual_terms, note, who, at)
    with catalogue.database.writing() as connection:
        word_id = _insert(connection, values, at, "")
        change(connection, at, ())
        return next(word for word in _words(connection) if word.id == word_id)


def remove_word(catalogue: Catalogue, word_id: int, who: str, why: str) -> ShopWord:
    """Take a word out, and return what it was; the history keeps it. Raises EntryRefused, EntryUnknown."""
    name, reason = named(who, why)
    at = rows.now()
    with catalogue.database.writing() as connection:
        gone = next((word for word in _words(connection) if word.id == word_id), None)
        if gone is None:
            raise EntryUnknown("word of the shop", word_id)
        connection.execute("DELETE FROM shop_word WHERE id = ?", (word_id,))
        said = (
            f"{name}: {gone.term} = {'; '.join(gone.manual_terms)}, made by {gone.who} -> none. Why: {reason}"
        )
        note(connection, at, "word removed", "", "", said)
        change(connection, at, ())
        return gone


def import_csv(catalogue: Catalogue, text: str, who: str) -> Imported:
    """Add the lines of a CSV text: all of them, or none when one is wrong.

    Columns as in COLUMNS, manual_terms parted by ";"; a line without who or date is by `who` and of now.
    Raises EntryRefused when `who` is blank.
    """
    name, _ = named(who)
    at = rows.now()
    lines, problems = read_lines(text, COLUMNS, needed=("term", "manual_terms"))
    wanted: dict[tuple, _Values] = {}
    for line in lines:
        given = line.fields
        try:
            made_at = moment_given(given["date"], at)
            values = _checked(
                given["term"], given["manual_terms"], given["note"], given["who"] or name, made_at
            )
        except EntryRefused as problem:
            problems.append(LineProblem(line.number, str(problem)))
        else:
            wanted.setdefault(values[:3], values)
    if problems:
        return Imported(0, 0, tuple(sorted(problems, key=lambda each: each.line)))
    with catalogue.database.writing() as connection:
        held = {(word.term, word.manual_terms, word.note) for word in _words(connection)}
        new = [values for says, values in wanted.items() if says not in held]
        for values in new:
            _insert(connection, values, at, f". Imported by {name}")
        if new:
            change(connection, at, ())
    return Imported(len(new), len(lines) - len(new))


def export_csv(catalogue: Catalogue) -> str:
    """The whole list as CSV text that `import_csv` takes back as it is."""
    return written(
        COLUMNS,
        (
            (
                word.term,
                "; ".join(word.manual_terms),
                word.note,
                word.who,
                word.made_at.isoformat(timespec="milliseconds"),
            )
            for word in shop_words(catalogue)
        ),
    )


def _checked(term: str, manual_terms: str | Sequence[str], note: str, who: str, at: str) -> _Values:
    name, _ = named(who)
    said = " ".join(term.split())
    if not said:
        raise EntryRefused("no word is given", "Give the word as people here say it.")
    given = manual_terms.split(";") if isinstance(manual_terms, str) else manual_terms
    printed = tuple(dict.fromkeys(text for each in given if (text := " ".join(each.split()))))
    if not printed:
        raise EntryRefused(f"nothing is given for «{said}»", "Give at least one term as manuals print it.")
    if any(";" in each for each in printed):
        raise EntryRefused("a term holds a semicolon", "Give each term by itself.")
    return said, printed, " ".join(note.split()), name, at


def _insert(connection: sqlite3.Connection, values: _Values, at: str, how: str) -> int | None:
    term, printed, remark, who, made_at = values
    note(connection, at, "word added", "", "", f"{who}: {term} = {'; '.join(printed)}{how}")
    return connection.execute(
        "INSERT INTO shop_word VALUES (NULL, ?, ?, ?, ?, ?)", (term, to_json(printed), remark, who, made_at)
    ).lastrowid


def _words(connection: sqlite3.Connection) -> list[ShopWord]:
    return [rows.shop_word(row) for row in connection.execute("SELECT * FROM shop_word ORDER BY id")]
