"""The catalogue as canonical text: one line a row, in order, without times and without row numbers."""

import json
import sqlite3
from collections.abc import Iterator

# Left out: times, and what belongs to the running of the library and the work in hand (meta, outbox, history,
# refused, persons and tablets, packets, reports).
_ENTRY = "copy_id, pdf_page, last_page, section, quote, kind, value, who"
_TABLES = {
    "copy": "id, sha256, file, size, pages, properties_json, notes_json, replaced_by",
    "place": "path, ROW_NUMBER() OVER (PARTITION BY path ORDER BY seq), copy_id",
    "page": "*",
    "work": "*",
    "revision": "*",
    "publication": "*",
    "directive": "*",
    "bulletin": "*",
    "claim": "*",
    "passage": "*",
    "number_tag": "*",
    "citation": "*",
    "applicability": "*",
    "page_mark": "*",
    "listed_page": "*",
    "part_figure": "*",
    "part_row": "*",
    "part_named": "*",
    "part_word": "*",
    "indexed_number": "*",
    "standing": "*",
    "supersession": "*",
    "tie": "*",
    "page_override": "*",
    "directive_standing": "*",
    "unresolved_claim": "*",
    "filing": "*",
    "filed_number": "*",
    "entered_identity": "*",
    "entered_standing": "*",
    "reference": "*",
    "reference_target": "*",
    "shop_entry": f"{_ENTRY}, box_json, why, second, undone_by, undone_why, undone_second",
    "entry_state JOIN shop_entry ON id = entry_id": f"{_ENTRY}, state, reason",
    "entry_passage JOIN shop_entry ON id = entry_id": f"{_ENTRY}, passage_id",
    "shop_map": "publication, first, last, chapters_json, who, why",
    "shop_word": "term, manual_terms_json, note, who",
    "aircraft": "registration, maker, model, serial, note, confirmed_on, confirmed_by",
    "fitted JOIN aircraft ON id = aircraft_id": "registration, ordinal, kind, position, fitted.maker,"
    " fitted.model, fitted.serial, fitted.note",
    "revision_check": "work_id, publication, revision, date, source, checked_on, who, recheck_days, note,"
    " undone_by, undone_why",
}


def dump_text(connection: sqlite3.Connection) -> str:
    """All rows that say something of the documents, by table, each table in the order of its lines."""
    return "".join(_lines(connection))


def _lines(connection: sqlite3.Connection) -> Iterator[str]:
    for table, columns in _TABLES.items():
        yield f"== {table.partition(' ')[0]}\n"
        rows = connection.execute(f"SELECT {columns} FROM {table}")
        yield from sorted(json.dumps(tuple(row), ensure_ascii=False) + "\n" for row in rows)
