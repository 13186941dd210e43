"""The revision register: what was found to be current, by whom, against what. Values only."""

import datetime
from dataclasses import dataclass
from enum import StrEnum


@dataclass(frozen=True, slots=True)
class RevisionCheck:
    """ "The current revision is `revision` per `source` on `checked_on`, by `who`."

    work_id      of the work it speaks of
    publication  what the work was called then
    revision     the current one, as printed without the word; "" = told by its date alone
    review_due   the first day on which the check no longer counts
    """

    id: int
    work_id: str
    publication: str
    revision: str
    date: datetime.date | None
    source: str
    checked_on: datetime.date
    who: str
    recheck_days: int
    note: str = ""
    undone_by: str = ""
    undone_why: str = ""

    @property
    def review_due(self) -> datetime.date:
        return self.checked_on + datetime.timedelta(days=self.recheck_days)


class CurrencyState(StrEnum):
    """The default is UNKNOWN: a file never proves by itself that it is the latest."""

    CURRENT = "current as checked"
    SUPERSEDED = "superseded"
    CHECK_EXPIRED = "the check has expired"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class CurrencyFinding:
    """How a publication, or a page of it, stands on one day.

    why    in words for a person: by whom, against what, on which day, review due; or what supersedes it;
           or what is missing
    check  that it rests on, None without one
    """

    state: CurrencyState
    why: str
    check: RevisionCheck | None = None
