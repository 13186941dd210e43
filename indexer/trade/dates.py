"""Written dates: find and read them. A date that can be read two ways is not read."""

import datetime
import re
from dataclasses import dataclass

from indexer.trade.dashes import plain_dashes
from indexer.trade.directive_numbers import find_directive_numbers

_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_MONTH = (
    r"(?P<month>jan(?:uary|\.)?|feb(?:ruary|\.)?|mar(?:ch|\.)?|apr(?:il|\.)?|may|june?|jun\.|july?|jul\."
    r"|aug(?:ust|\.)?|sept?(?:ember|\.)?|oct(?:ober|\.)?|nov(?:ember|\.)?|dec(?:ember|\.)?)"
)
_DAY = r"(?P<day>[0-9]{1,2})(?:st|nd|rd|th)?"
_YEAR = r"(?P<year>[0-9]{4}|'?[0-9]{2})"
_FORMS = (
    re.compile(rf"(?<![A-Za-z]){_MONTH}[\s-]*{_DAY}(?:\s*,\s*|\s+|\s*[/-]\s*){_YEAR}(?![\w])", re.IGNORECASE),
    re.compile(
        rf"(?<![\w.-]){_DAY}(?:\s+of)?[\s-]*(?<![A-Za-z]){_MONTH}[\s,/-]*{_YEAR}(?![\w])", re.IGNORECASE
    ),
    re.compile(r"(?<![\w-])(?P<year>(?:19|20)[0-9]{2})-(?P<number>[0-9]{2})-(?P<day>[0-9]{2})(?![\w-])"),
    re.compile(
        r"(?<![\w/.-])(?P<first>[0-9]{1,2})(?P<joint>[/.-])(?P<second>[0-9]{1,2})(?P=joint)"
        r"(?P<year>(?:19|20)[0-9]{2})(?![\w/-])"
    ),
    re.compile(r"(?<![\w/.-])(?P<first>[0-9]{1,2})/(?P<second>[0-9]{1,2})/(?P<year>[0-9]{2})(?![\w/-])"),
)
# Two-digit years: publications of the trade begin in the 1940s.
_FIRST_TWO_DIGIT_YEAR = 40


@dataclass(frozen=True, slots=True)
class FoundDate:
    """text[start:end] == self.text; `date` is None when the digits can be read two ways ("5/12/04")."""

    date: datetime.date | None
    start: int
    end: int
    text: str


def find_dates(text: str) -> list[FoundDate]:
    """Every full date (day, month, year) in the text, in order. Digits that are no real day are none."""
    plain = plain_dashes(text)
    taken = [(one.start, one.end) for one in find_directive_numbers(text)]  # AD 2024-03-04 is not 4 March
    found: list[FoundDate] = []
    for form in _FORMS:
        for match in form.finditer(plain):
            start, end = match.span()
            readings = _readings(match)
            if readings and all(end <= first or start >= last for first, last in taken):
                date = next(iter(readings)) if len(readings) == 1 else None
                found.append(FoundDate(date, start, end, text[start:end]))
                taken.append((start, end))
    return sorted(found, key=lambda one: one.start)


def parse_date(text: str) -> datetime.date | None:
    """The date that the whole text is; None when it is none or can be read two ways."""
    found = find_dates(text.strip())
    return found[0].date if len(found) == 1 and found[0].text == text.strip() else None


def _readings(match: re.Match) -> set[datetime.date]:
    groups = match.groupdict()
    year = _year(groups["year"].lstrip("'"))
    if groups.get("first"):
        pairs = [(groups["first"], groups["second"]), (groups["second"], groups["first"])]
    elif groups.get("number"):
        pairs = [(groups["number"], groups["day"])]
    else:
        pairs = [(str(_MONTHS.index(groups["month"][:3].lower()) + 1), groups["day"])]
    return {date for month, day in pairs if (date := _date(year, int(month), int(day)))}


def _year(written: str) -> int:
    if len(written) == 4:
        return int(written)
    return int(written) + (1900 if int(written) >= _FIRST_TWO_DIGIT_YEAR else 2000)


def _date(year: int, month: int, day: int) -> datetime.date | None:
    try:
        return datetime.date(year, month, day)
    except ValueError:
        return None


def date_words(day: datetime.date) -> str:
    """ "4 March 2031": the month as a word, so that day and month cannot be taken for one another."""
    return f"{day.day} {day:%B %Y}"
