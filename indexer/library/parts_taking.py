"""One publication's parts list to rows of the catalogue, inside the caller's transaction."""

import sqlite3
from collections.abc import Iterator

from indexer.library.analysis import printed_words
from indexer.library.codec import to_json
from indexer.tagging.parts_rows import PartNoteKind, PartsList, PartsRow
from indexer.trade.part_numbers import loose_key

# Notes whose number is a part's. Those of the others are a figure's or a bulletin's.
NAMES_A_PART = frozenset(
    {
        PartNoteKind.SUPERSEDED_BY,
        PartNoteKind.SUPERSEDES,
        PartNoteKind.REPLACED_BY,
        PartNoteKind.REPLACES,
        PartNoteKind.OPTIONAL,
        PartNoteKind.ALTERNATE,
        PartNoteKind.ORDER,
    }
)


def insert_parts(connection: sqlite3.Connection, publication_id: str, parts: PartsList) -> None:
    """Figures, rows, the words and numbers they are found by, and the number index."""
    if not (parts.figures or parts.rows or parts.index):
        return
    connection.executemany(
        "INSERT INTO part_figure VALUES (?, ?, ?, ?)",
        ((publication_id, each.ordinal, each.figure, to_json(each)) for each in parts.figures),
    )
    connection.executemany(
        "INSERT INTO part_row VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
        (
            (
                publication_id,
                each.ordinal,
                each.figure,
                each.item,
                loose_key(each.part_number),
                each.part_number,
                each.origin.value,
                each.pdf_page,
                to_json(each),
            )
            for each in parts.rows
        ),
    )
    connection.executemany(
        "INSERT OR IGNORE INTO part_named VALUES (?, ?, ?)",
        ((key, publication_id, each.ordinal) for each in parts.rows for key in _named_in(each)),
    )
    connection.executemany(
        "INSERT OR IGNORE INTO part_word VALUES (?, ?, ?)",
        (
            (word, publication_id, each.ordinal)
            for each in parts.rows
            for word in printed_words(each.nomenclature)
        ),
    )
    connection.executemany(
        "INSERT INTO indexed_number VALUES (?, ?, ?, ?)",
        (
            (publication_id, ordinal, loose_key(each.part_number), to_json(each))
            for ordinal, each in enumerate(parts.index)
        ),
    )


def _named_in(row: PartsRow) -> Iterator[str]:
    for note in row.notes:
        if note.kind in NAMES_A_PART and (key := loose_key(note.number)):
            yield key
