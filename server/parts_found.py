"""What a search of the parts lists finds, before it is shown. Values only."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from indexer.library.parts_records import IndexedRecord, RowKey

Within = Callable[[str, int, str], bool]  # publication id, ordinal of the figure, item: is it asked about


@dataclass(slots=True)
class Found:
    """groups    by match, the surest first: rows with why each is here ("" = it says so itself)
    counts    of all rows of groups of which only the first are given, in the order shown
    index     lines of number indexes that no row stands for
    said      how the question was understood, in sentences
    labels    of groups that say more than their usual one
    choices   catalogues that have the place asked for, where no catalogue was chosen
    """

    groups: dict[str, list[tuple[RowKey, str]]] = field(default_factory=dict)
    counts: dict[str, int] = field(default_factory=dict)
    index: list[tuple[IndexedRecord, str]] = field(default_factory=list)
    said: list[str] = field(default_factory=list)
    labels: dict[str, str] = field(default_factory=dict)
    choices: list[dict[str, Any]] = field(default_factory=list)

    def count(self, match: str) -> int:
        return self.counts.get(match, len(self.groups.get(match, ())))

    def add(self, match: str, key: RowKey, why: str = "") -> None:
        self.groups.setdefault(match, []).append((key, why))
