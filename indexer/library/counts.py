"""How much there is in a library: counted in one pass and kept for as long as the generation lasts."""

import datetime
import sqlite3
from collections.abc import Mapping
from dataclasses import dataclass

from indexer.library import taking
from indexer.library.records import RefusedRecord, Status
from indexer.reading.page import TextState

_SEARCHED = {TextState.TEXT.value, TextState.BLANK.value}
_ON_SHELF = "JOIN copy ON copy.id = copy_id AND copy.replaced_by IS NULL"


@dataclass(frozen=True, slots=True)
class Counts:
    copies: int
    replaced_copies: int
    publications_by_type: Mapping[str, int]
    pages_by_state: Mapping[str, int]
    passages: int
    passages_not_numbered: int
    unresolved_claims: int
    copies_read_by_older_rules: int

    def status(
        self,
        generation: int,
        changed_at: datetime.datetime,
        relations_pending: bool,
        refused: tuple[RefusedRecord, ...],
    ) -> Status:
        return Status(
            generation=generation,
            changed_at=changed_at,
            relations_pending=relations_pending,
            copies=self.copies,
            replaced_copies=self.replaced_copies,
            publications=sum(self.publications_by_type.values()),
            publications_by_type=self.publications_by_type,
            pages=sum(self.pages_by_state.values()),
            pages_by_state=self.pages_by_state,
            pages_without_text=sum(
                number for state, number in self.pages_by_state.items() if state not in _SEARCHED
            ),
            passages=self.passages,
            passages_not_numbered=self.passages_not_numbered,
            unresolved_claims=self.unresolved_claims,
            refused=refused,
            copies_read_by_older_rules=self.copies_read_by_older_rules,
        )


def count(connection: sqlite3.Connection) -> Counts:
    """Counts of what is on the shelf; copies that were replaced are counted apart."""

    def table(sql: str) -> dict[str, int]:
        return dict(tuple(row) for row in connection.execute(sql))

    copies = table("SELECT replaced_by IS NOT NULL, COUNT(*) FROM copy GROUP BY 1")
    passages, not_numbered = connection.execute(
        f"SELECT COALESCE(SUM(passages), 0), COALESCE(SUM(not_numbered), 0) FROM publication {_ON_SHELF}"
    ).fetchone()
    (older,) = connection.execute("SELECT COUNT(*) FROM copy WHERE rules < ?", (taking.RULES,)).fetchone()
    (unresolved,) = connection.execute("SELECT COUNT(*) FROM unresolved_claim").fetchone()
    return Counts(
        copies.get(0, 0),
        copies.get(1, 0),
        table(f"SELECT type, COUNT(*) FROM publication {_ON_SHELF} GROUP BY type ORDER BY type"),
        table(f"SELECT state, COUNT(*) FROM page {_ON_SHELF} GROUP BY state ORDER BY state"),
        passages,
        not_numbered,
        unresolved,
        older,
    )
