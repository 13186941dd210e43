"""The days that a reference's date may mean. Pure.

"4-3-56" is 3 April to a mechanic of the United States and 4 March to one of most other countries (common
practice, no source): such a date agrees with what is held, and never tells by itself which one is meant.
"""

import datetime

from indexer.tagging.record_dates import date_readings
from indexer.tagging.tags import Citation
from indexer.trade.evidence import Answer


def cited_days(citation: Citation) -> tuple[datetime.date, ...]:
    """Every day that the date may mean; () without a date."""
    if citation.date is None:
        return ()
    found = date_readings(citation.date_words)
    return found if citation.date in found else (citation.date,)


def certain_day(citation: Citation) -> datetime.date | None:
    """The day named, None without one and where the words may mean two."""
    days = cited_days(citation)
    return days[0] if len(days) == 1 else None


def is_of_day(citation: Citation, held: datetime.date | None) -> Answer:
    """Whether the date of the reference, which has one, is this day."""
    days = cited_days(citation)
    if held is None:
        return Answer.CANNOT_TELL
    if held not in days:
        return Answer.NO
    return Answer.YES if len(days) == 1 else Answer.CANNOT_TELL
