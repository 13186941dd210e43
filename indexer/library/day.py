"""The day: what "today" means for one library. No other file asks the clock for a day.

A shop's day is the local day of the machine. The demonstration library carries its own, because its invented
documents are of years to come; every answer from it says so. Moments (when something was written) are UTC and
come from rows.py.
"""

import datetime

from indexer.library.catalogue import Catalogue
from indexer.library.generations import set_meta
from indexer.library.problems import NotEmpty
from indexer.trade.dates import date_words

_DEMONSTRATION_DAY = "demonstration_day"


def today(catalogue: Catalogue) -> datetime.date:
    """The local day, or the demonstration library's own."""
    return demonstration_day(catalogue) or datetime.date.today()


def demonstration_day(catalogue: Catalogue) -> datetime.date | None:
    """The day as of which the demonstration library answers; None for every other library."""
    with catalogue.reading() as connection:
        row = connection.execute("SELECT value FROM meta WHERE key = ?", (_DEMONSTRATION_DAY,)).fetchone()
    return datetime.date.fromisoformat(row["value"]) if row else None


def demonstration_words(catalogue: Catalogue) -> str:
    """What every answer of the demonstration library says of its day; "" for every other library."""
    day = demonstration_day(catalogue)
    return f"Demonstration: answers are given as of {date_words(day)}." if day else ""


def make_demonstration(catalogue: Catalogue, day: datetime.date) -> None:
    """Give a new, empty library a day of its own, for good. Raises NotEmpty."""
    with catalogue.database.writing() as connection:
        if catalogue.generation or demonstration_day(catalogue):
            raise NotEmpty(str(catalogue.folder))
        set_meta(connection, _DEMONSTRATION_DAY, day.isoformat())
