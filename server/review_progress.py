"""How far the librarian is: what the shop has decided, and what is open, as plain data."""

import datetime
from collections import Counter
from dataclasses import dataclass
from typing import Any

from indexer.library.records import EntryKind
from server.opened import OpenedLibrary
from server.words import count_of

_AT_ONE_STROKE = datetime.timedelta(seconds=1)  # one answer may take several entries, made one after another
_DECIDED = (
    ("chapter", (EntryKind.CHAPTERS,)),
    ("type", (EntryKind.TYPE,)),
    (
        "number, title, revision or date",
        (EntryKind.NUMBER, EntryKind.TITLE, EntryKind.REVISION, EntryKind.DATE),
    ),
    ("standing", (EntryKind.STANDING,)),
    ("left as it is", (EntryKind.SETTLED,)),
)


@dataclass(frozen=True, slots=True)
class ReviewProgress:
    """decided   decisions of the shop that were not taken back, by what they decide
    open      questions of the queue, by cause in words
    """

    decided: dict[str, int]
    open: dict[str, int]

    @property
    def answered(self) -> int:
        return sum(self.decided.values())

    @property
    def asked(self) -> int:
        return self.answered + sum(self.open.values())

    @property
    def words(self) -> str:
        left = sum(self.open.values())
        answered = f"{count_of(self.answered, 'decision')} made" if self.answered else "No decision made yet"
        return f"{answered}, {count_of(left, 'question')} open." if left else f"{answered}, no question open."

    @property
    def decided_words(self) -> str:
        """ "chapter 12, left as it is 3"; "" where nothing was decided."""
        return ", ".join(f"{what} {count:,}" for what, count in self.decided.items())

    @property
    def open_words(self) -> str:
        return "; ".join(f"{cause}: {count:,}" for cause, count in self.open.items())


def review_progress(library: OpenedLibrary, counts: list[dict[str, Any]]) -> ReviewProgress:
    """`counts` = of the queue, as desk.queue gives them. A note decides nothing."""
    decided: Counter[EntryKind] = Counter()
    before: tuple | None = None
    last = datetime.datetime.min.replace(tzinfo=datetime.UTC)
    with library.catalogue.reading() as connection:
        found = connection.execute(
            "SELECT made_at, kind, copy_id, value, who, why FROM shop_entry WHERE undone_by = '' ORDER BY id"
        )
        for made_at, *what in found:
            at = datetime.datetime.fromisoformat(made_at)
            if what != before or at - last > _AT_ONE_STROKE:
                decided[EntryKind(what[0])] += 1
            before, last = what, at
    by_words = {words: sum(decided[kind] for kind in kinds) for words, kinds in _DECIDED}
    return ReviewProgress(
        {words: count for words, count in by_words.items() if count},
        {each["words"]: each["questions"] for each in counts if each["questions"]},
    )
