"""What an entry itself says that matters to its sources: which aircraft, and on which day. Pure."""

import datetime
import re
from collections.abc import Sequence
from dataclasses import dataclass

from indexer.library.fleet_records import Aircraft
from indexer.tagging.tags import Citation
from indexer.trade.dates import find_dates
from server.words import date_words

# Marks of the United States: 14 CFR 47.15. The letters I and O are not used.
_MARK = re.compile(
    r"(?<![\w-])N[ -]?([1-9][0-9]{0,4}|[1-9][0-9]{0,3}[A-HJ-NP-Z]|[1-9][0-9]{0,2}[A-HJ-NP-Z]{2})(?![\w-])"
)
_OTHERS = re.compile(r"\b(?:of|for|from|on)[ ](?:another[ ](?:aircraft|airplane),?[ ])?$", re.IGNORECASE)
_DAY = re.compile(r"(?:^|\b(?:on|date[ ]of[ ]work|work[ ]done|completed|performed)[ :]*)$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Entry:
    """What the entry says.

    aircraft  of the fleet list, named by the entry; None = none, or more than one
    unknown   a registration that is not in the fleet list; "" = none
    done_on   the day of the work, None = not said for sure
    facts     in words for a person
    """

    aircraft: Aircraft | None = None
    unknown: str = ""
    done_on: datetime.date | None = None
    facts: tuple[str, ...] = ()


def read_entry(text: str, citations: Sequence[Citation], fleet: Sequence[Aircraft]) -> Entry:
    """Registration and day, looked for outside the references."""
    found, unknown = _registrations(text, citations, fleet)
    done_on = _day(text, citations)
    facts: list[str] = []
    if len(found) == 1:
        facts.append(f"The entry names {found[0].registration}, which is in the fleet list.")
    elif found:
        named = ", ".join(each.registration for each in found)
        facts.append(f"The entry names several aircraft of the fleet list ({named}): choose one.")
    facts += [f"The entry names {unknown}, which is not in the fleet list."] if unknown else []
    facts += [f"Work of {date_words(done_on)}, as the entry says."] if done_on else []
    return Entry(found[0] if len(found) == 1 else None, unknown, done_on, tuple(facts))


def _registrations(
    text: str, citations: Sequence[Citation], fleet: Sequence[Aircraft]
) -> tuple[list[Aircraft], str]:
    """Aircraft of the fleet that the text names, and the first mark that is none of theirs."""
    by_mark = {_mark(each.registration): each for each in fleet}
    found: dict[str, Aircraft] = {}
    unknown = ""
    for match in re.finditer(r"(?<![\w-])[A-Z0-9]{1,2}-?[A-Z0-9]{2,6}(?![\w-])", text.upper()):
        held = by_mark.get(_mark(match[0]))
        if held is not None and not _inside(match.start(), citations):
            found[held.registration] = held
    for match in _MARK.finditer(text):
        if _mark(match[0]) not in by_mark and not _inside(match.start(), citations):
            unknown = unknown or match[0]
    return list(found.values()), unknown


def _mark(registration: str) -> str:
    return re.sub(r"[\s-]", "", registration).upper()


def _inside(place: int, citations: Sequence[Citation]) -> bool:
    return any(each.start <= place < each.end for each in citations)


def _day(text: str, citations: Sequence[Citation]) -> datetime.date | None:
    """A date that opens the entry, or stands after words that say when the work was done."""
    days = {
        each.date
        for each in find_dates(text)
        if not _inside(each.start, citations) and _DAY.search(text[: each.start].lstrip())
    }
    return days.pop() if len(days) == 1 else None
