"""Parts lists, read from the catalogue: rows by number, by words, by figure and item.

Only publications on the shelf are searched; what is asked for by its id is given all the same.
"""

import json
import re
import sqlite3
from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Sequence

from indexer.library.catalogue import Catalogue
from indexer.library.codec import from_json
from indexer.library.parts_records import (
    CountedNumber,
    FigureRecord,
    IndexedRecord,
    NumberedRow,
    PartRecord,
    PlacedRow,
    RowKey,
)
from indexer.library.problems import FigureUnknown, PartUnknown
from indexer.tagging.parts_rows import IndexedNumber, PartsFigure, PartsRow
from indexer.trade.evidence import Origin

_BATCH = 400  # keys at once: SQLite takes 999 parameters in its smallest build
_SHELF = """
    JOIN publication ON publication.id = {table}.publication_id
    JOIN copy ON copy.id = publication.copy_id AND copy.replaced_by IS NULL
"""
_ROWS = """
    SELECT part_row.publication_id, part_row.record_json, page.printed_page
    FROM part_row
    JOIN publication ON publication.id = part_row.publication_id
    JOIN copy ON copy.id = publication.copy_id
    LEFT JOIN page ON page.copy_id = publication.copy_id AND page.pdf_page = part_row.pdf_page
"""
# Only what tells one number from another: the whole record is dear to read, and a bolt has thousands of rows.
_NUMBERED = "SELECT publication_id, ordinal, figure, item, part_number, origin FROM part_row"
_ID = re.compile(r"(?P<publication>.+)-(?P<kind>part|figure)-(?P<ordinal>[0-9]{1,9})")


def row_key(given: str) -> RowKey | None:
    """The key that a row's id names; None when it is no id of a row."""
    found = _ID.fullmatch(given)
    return (found["publication"], int(found["ordinal"])) if found and found["kind"] == "part" else None


def row(catalogue: Catalogue, given: str) -> PartRecord:
    """One row by its id, also of a replaced copy. Raises PartUnknown."""
    key = row_key(given)
    found = rows(catalogue, [key]) if key else {}
    if not found:
        raise PartUnknown(given)
    return found[key]


def rows(catalogue: Catalogue, keys: Iterable[RowKey]) -> dict[RowKey, PartRecord]:
    """Rows by key, in the order asked; those that are not here are left out."""
    wanted = list(dict.fromkeys(keys))
    found: dict[RowKey, PartRecord] = {}
    with catalogue.reading() as connection:
        for publication_id, ordinals in _batches(wanted):
            held = connection.execute(
                f"{_ROWS} WHERE part_row.publication_id = ? AND part_row.ordinal IN ({_marks(ordinals)})",
                [publication_id, *ordinals],
            )
            found.update((record.key, record) for record in map(_record, held))
    return {key: found[key] for key in wanted if key in found}


def rows_of_figure(catalogue: Catalogue, publication_id: str, figure: int) -> list[PartRecord]:
    """The rows of one figure (its ordinal) in printed order."""
    # "+" keeps SQLite from walking through the whole publication in order to save itself the sorting.
    with catalogue.reading() as connection:
        held = connection.execute(
            f"{_ROWS} WHERE part_row.publication_id = ? AND part_row.figure = ? ORDER BY +part_row.ordinal",
            (publication_id, figure),
        )
        return list(map(_record, held))


def with_loose_key(catalogue: Catalogue, key: str) -> list[NumberedRow]:
    """Rows on the shelf whose part number has this loose key, by publication and place."""
    with catalogue.reading() as connection:
        replaced = _replaced(connection)
        held = connection.execute(f"{_NUMBERED} WHERE loose_key = ? ORDER BY publication_id, ordinal", (key,))
        return [NumberedRow(*each) for each in held if each["publication_id"] not in replaced]


def numbers_counted(catalogue: Catalogue, key: str) -> list[CountedNumber]:
    """How often each printed number with this loose key stands in each publication on the shelf."""
    with catalogue.reading() as connection:
        replaced = _replaced(connection)
        held = connection.execute(
            "SELECT publication_id, part_number, origin, COUNT(*) FROM part_row INDEXED BY part_row_number"
            " WHERE loose_key = ? GROUP BY part_number, origin, publication_id ORDER BY 1, 2, 3",
            (key,),
        )
        return [CountedNumber(*each) for each in held if each["publication_id"] not in replaced]


def keys_of(catalogue: Catalogue, key: str, of: CountedNumber, most: int) -> list[RowKey]:
    """The first rows that are counted in one of `numbers_counted`, in printed order."""
    with catalogue.reading() as connection:
        held = connection.execute(
            "SELECT publication_id, ordinal FROM part_row INDEXED BY part_row_number WHERE loose_key = ?"
            " AND part_number = ? AND origin = ? AND publication_id = ? ORDER BY ordinal LIMIT ?",
            (key, of.part_number, of.origin, of.publication_id, most),
        )
        return list(map(_key, held))


def with_notes(catalogue: Catalogue, key: str, most: int) -> list[PartRecord]:
    """At most so many rows on the shelf with a loose key that say something beside their part number."""
    with catalogue.reading() as connection:
        held = connection.execute(
            f"{_ROWS} WHERE part_row.loose_key = ? AND copy.replaced_by IS NULL"
            " AND json_extract(part_row.record_json, '$.notes') IS NOT NULL"
            " ORDER BY part_row.publication_id, part_row.ordinal LIMIT ?",
            (key, most),
        )
        return list(map(_record, held))


def naming(catalogue: Catalogue, key: str) -> list[PartRecord]:
    """Rows on the shelf that name a part number with this loose key beside their own."""
    with catalogue.reading() as connection:
        found = connection.execute(
            f"SELECT DISTINCT part_named.publication_id, ordinal FROM part_named"
            f"{_SHELF.format(table='part_named')} WHERE loose_key = ? ORDER BY 1, 2",
            (key,),
        ).fetchall()
        return list(rows(catalogue, map(_key, found)).values())


def indexed(catalogue: Catalogue, key: str, apart_from: Collection[str] = ()) -> list[IndexedRecord]:
    """Lines of number indexes on the shelf whose part number has this loose key.

    apart_from   ids of publications that are left out
    """
    with catalogue.reading() as connection:
        found = connection.execute(
            "SELECT indexed_number.publication_id, indexed_number.record_json, publication.copy_id"
            f" FROM indexed_number{_SHELF.format(table='indexed_number')}"
            f" WHERE loose_key = ? AND indexed_number.publication_id NOT IN ({_marks(apart_from)})"
            " ORDER BY indexed_number.publication_id, ordinal",
            [key, *apart_from],
        ).fetchall()
        return [
            IndexedRecord(each["publication_id"], _printed_page(connection, each["copy_id"], line), line)
            for each in found
            for line in [from_json(IndexedNumber, each["record_json"])]
        ]


def numbers_beginning(catalogue: Catalogue, key: str, longest: int, most: int) -> list[tuple[str, int]]:
    """Part numbers as printed on the shelf, whose loose key begins with `key`, and how many rows have each.

    longest   characters that may follow the key
    most      rows that are looked at
    """
    with catalogue.reading() as connection:
        replaced = _replaced(connection)
        held = connection.execute(
            "SELECT part_number, publication_id, COUNT(*) AS rows FROM ("
            "SELECT part_number, publication_id FROM part_row INDEXED BY part_row_number"
            " WHERE loose_key >= ? AND loose_key < ? AND LENGTH(loose_key) <= ? LIMIT ?"
            ") GROUP BY 1, 2",
            (key, f"{key}\U0010ffff", len(key) + longest, most),
        )
        counted: Counter[str] = Counter()
        for each in held:
            if each["publication_id"] not in replaced:
                counted[each["part_number"]] += each["rows"]
    return sorted(counted.items())


def knows_word(catalogue: Catalogue, word: str) -> bool:
    """Whether some nomenclature holds this word, folded."""
    with catalogue.reading() as connection:
        return (
            connection.execute("SELECT 1 FROM part_word WHERE word = ? LIMIT 1", (word,)).fetchone()
            is not None
        )


def keys_with_words(catalogue: Catalogue, words: Sequence[str]) -> set[RowKey]:
    """Rows, also of replaced copies, whose nomenclature holds every one of these words, folded."""
    if not words:
        return set()
    with catalogue.reading() as connection:
        first, *others = sorted(dict.fromkeys(words), key=lambda word: _times(connection, word))
        also = " ".join(
            f"JOIN part_word AS w{at} ON w{at}.word = ? AND w{at}.publication_id = w.publication_id"
            f" AND w{at}.ordinal = w.ordinal"
            for at in range(len(others))
        )
        # CROSS JOIN keeps the rarest word in front.
        found = connection.execute(
            f"SELECT w.publication_id, w.ordinal FROM part_word AS w {also.replace('JOIN', 'CROSS JOIN')}"
            " WHERE w.word = ?",
            [*others, first],
        )
        return set(map(_key, found))


def _times(connection: sqlite3.Connection, word: str) -> int:
    return connection.execute("SELECT COUNT(*) FROM part_word WHERE word = ?", (word,)).fetchone()[0]


def placed(catalogue: Catalogue, keys: Iterable[RowKey]) -> dict[RowKey, PlacedRow]:
    """Where rows stand in the trees of their figures; those that are not here are left out."""
    found: dict[RowKey, PlacedRow] = {}
    with catalogue.reading() as connection:
        for publication_id, ordinals in _batches(keys):
            held = connection.execute(
                "SELECT publication_id, ordinal, figure, item, json_extract(record_json, '$.above') AS above,"
                " json_extract(record_json, '$.above_also') AS also,"
                " json_extract(record_json, '$.nomenclature') AS nomenclature FROM part_row"
                f" WHERE publication_id = ? AND ordinal IN ({_marks(ordinals)})",
                [publication_id, *ordinals],
            )
            found.update((record.key, record) for record in map(_placed, held))
    return found


def _placed(held: sqlite3.Row) -> PlacedRow:
    nearest = () if held["above"] is None else (held["above"],)
    above = (*nearest, *json.loads(held["also"] or "[]"))
    return PlacedRow(
        held["publication_id"], held["ordinal"], held["figure"], held["item"], above, held["nomenclature"]
    )


def items_of(catalogue: Catalogue, publication_id: str, figure: int) -> list[tuple[RowKey, str]]:
    """The rows of one figure (its ordinal) with their items, in printed order."""
    with catalogue.reading() as connection:
        held = connection.execute(
            "SELECT ordinal, item FROM part_row WHERE publication_id = ? AND figure = ? ORDER BY +ordinal",
            (publication_id, figure),
        )
        return [((publication_id, each["ordinal"]), each["item"]) for each in held]


def figures(catalogue: Catalogue) -> list[FigureRecord]:
    """Every figure on the shelf, by publication and place."""
    with catalogue.reading() as connection:
        held = connection.execute(
            f"SELECT part_figure.publication_id, part_figure.record_json FROM part_figure"
            f"{_SHELF.format(table='part_figure')} ORDER BY part_figure.publication_id, ordinal"
        )
        return list(map(_figure, held))


def figures_with(catalogue: Catalogue, keys: Iterable[tuple[str, int]]) -> dict[tuple[str, int], PartsFigure]:
    """Figures by publication and ordinal, also of replaced copies."""
    found: dict[tuple[str, int], PartsFigure] = {}
    with catalogue.reading() as connection:
        for publication_id, ordinals in _batches(dict.fromkeys(keys)):
            held = connection.execute(
                "SELECT publication_id, record_json FROM part_figure"
                f" WHERE publication_id = ? AND ordinal IN ({_marks(ordinals)})",
                [publication_id, *ordinals],
            )
            for each in map(_figure, held):
                found[publication_id, each.figure.ordinal] = each.figure
    return found


def figure(catalogue: Catalogue, given: str) -> FigureRecord:
    """One figure by its id, also of a replaced copy. Raises FigureUnknown."""
    named = _ID.fullmatch(given)
    if named and named["kind"] == "figure":
        key = named["publication"], int(named["ordinal"])
        if held := figures_with(catalogue, [key]).get(key):
            return FigureRecord(key[0], held)
    raise FigureUnknown(given)


def not_read(catalogue: Catalogue) -> int:
    """Rows on the shelf whose part number could not be read."""
    with catalogue.reading() as connection:
        return connection.execute(
            f"SELECT COUNT(*) FROM part_row{_SHELF.format(table='part_row')} WHERE loose_key = ''"
        ).fetchone()[0]


def page_origin(catalogue: Catalogue, publication_id: str, pdf_page: int) -> Origin:
    """How the text of a page came to be; digital where there is no such page."""
    with catalogue.reading() as connection:
        held = connection.execute(
            "SELECT origin FROM page JOIN publication USING (copy_id)"
            " WHERE publication.id = ? AND page.pdf_page = ?",
            (publication_id, pdf_page),
        ).fetchone()
        return Origin(held["origin"]) if held else Origin.DIGITAL


def _replaced(connection: sqlite3.Connection) -> set[str]:
    """Publications that are not on the shelf: few, so that leaving them out is cheaper than joining."""
    return {
        each["id"]
        for each in connection.execute(
            "SELECT publication.id FROM copy JOIN publication ON publication.copy_id = copy.id"
            " WHERE copy.replaced_by IS NOT NULL"
        )
    }


def _batches(keys: Iterable[RowKey]) -> Iterator[tuple[str, list[int]]]:
    """Ordinals by publication, so many at once as SQLite takes."""
    by_publication: dict[str, list[int]] = {}
    for publication_id, ordinal in keys:
        by_publication.setdefault(publication_id, []).append(ordinal)
    for publication_id, ordinals in by_publication.items():
        for start in range(0, len(ordinals), _BATCH):
            yield publication_id, ordinals[start : start + _BATCH]


def _marks(values: Collection) -> str:
    return ",".join("?" * len(values))


def _key(held: sqlite3.Row) -> RowKey:
    return held["publication_id"], held["ordinal"]


def _record(held: sqlite3.Row) -> PartRecord:
    return PartRecord(
        held["publication_id"], held["printed_page"] or "", from_json(PartsRow, held["record_json"])
    )


def _figure(held: sqlite3.Row) -> FigureRecord:
    return FigureRecord(held["publication_id"], from_json(PartsFigure, held["record_json"]))


def _printed_page(connection: sqlite3.Connection, copy_id: str, line: IndexedNumber) -> str:
    held = connection.execute(
        "SELECT printed_page FROM page WHERE copy_id = ? AND pdf_page = ?", (copy_id, line.pdf_page)
    ).fetchone()
    return held["printed_page"] if held else ""
