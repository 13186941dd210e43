"""The audit trail of source checks: what was asked, and all that was answered. It only grows.

Adding a check makes no new generation: it changes nothing that readers of the library see.
"""

import datetime
import json
import sqlite3
from typing import Any

from indexer.library.catalogue import Catalogue
from indexer.library.check_records import KeptCheck
from indexer.library.problems import CheckUnknown
from indexer.library.rows import moment

MOST_LISTED = 200


def keep_check(
    catalogue: Catalogue,
    text: str,
    aircraft: str,
    work: str,
    generation: int,
    answer: dict[str, Any],
    at: datetime.datetime,
) -> KeptCheck:
    """Add one check to the trail. `answer` is plain data, as JSON takes it; `at` in UTC."""
    written = json.dumps(answer, ensure_ascii=False, separators=(",", ":"), allow_nan=False)
    with catalogue.database.writing() as connection:
        given = connection.execute(
            "INSERT INTO source_check VALUES (NULL, ?, ?, ?, ?, ?, ?)",
            (at.isoformat(timespec="milliseconds"), text, aircraft, work, generation, written),
        ).lastrowid
    return KeptCheck(given, at, text, aircraft, work, generation, answer)


def kept_check(catalogue: Catalogue, check_id: int) -> KeptCheck:
    """One check as it was answered. Raises CheckUnknown."""
    with catalogue.reading() as connection:
        row = connection.execute("SELECT * FROM source_check WHERE id = ?", (check_id,)).fetchone()
    if row is None:
        raise CheckUnknown(check_id)
    return _record(row)


def kept_checks(catalogue: Catalogue, limit: int = 50, offset: int = 0) -> list[KeptCheck]:
    """Checks of the trail, newest first: at most `limit` (and MOST_LISTED) after the first `offset`."""
    with catalogue.reading() as connection:
        found = connection.execute(
            "SELECT * FROM source_check ORDER BY id DESC LIMIT ? OFFSET ?",
            (max(0, min(limit, MOST_LISTED)), max(0, offset)),
        )
        return [_record(row) for row in found]


def count_checks(catalogue: Catalogue) -> int:
    """How many checks the trail holds."""
    with catalogue.reading() as connection:
        return connection.execute("SELECT COUNT(*) FROM source_check").fetchone()[0]


def _record(row: sqlite3.Row) -> KeptCheck:
    return KeptCheck(
        row["id"],
        moment(row["at"]),
        row["text"],
        row["aircraft"],
        row["work"],
        row["generation"],
        json.loads(row["answer_json"]),
    )
