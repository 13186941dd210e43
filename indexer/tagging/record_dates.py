"""Dates as mechanics write them in records: "3/14/31", "14mar31", "March 14/31", "4-3-56".

Digits alone are read month first, as is written on records of US-registered aircraft (common practice, no
source). Dates printed in publications are read by trade/dates.py: what can be read two ways is not read.
"""

import datetime

from indexer.tagging.reference_words import spaced

_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_MONTH = (
    r"(?P<{}>jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?"
    r"|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)\.?"
)
_YEAR = r"(?:(?:19|20)[0-9]{{2}}|'?[0-9]{{2}})"
_END = r"(?![\w])(?!-[0-9])(?!\.[0-9])"
DATE = spaced(
    r"(?:(?P<iso>(?:19|20)[0-9]{2}(?P<of_iso>[-/.])[0-9]{2}(?P=of_iso)[0-9]{2})"
    r"|(?P<first>[0-9]{1,2})(?P<joint>[/.-])(?P<second>[0-9]{1,2})(?P=joint)(?P<y1>(?:19"
    r"|20)[0-9]{2}|[0-9]{2})"
    rf"|(?P<d2>[0-9]{{1,2}})(?:st|nd|rd|th)?(?: of)?[ /-]?{_MONTH.format('m2')}[ ,/-]{{0,2}}"
    rf"(?P<y2>{_YEAR.format()})"
    rf"|{_MONTH.format('m3')}[ /-]?(?P<d3>[0-9]{{1,2}})(?:st|nd|rd|th)?[ ,/-]{{1,3}}(?P<y3>{_YEAR.format()})"
    rf"|{_MONTH.format('m4')}[ ,/-]{{1,2}}(?P<y4>(?:19|20)[0-9]{{2}}|'[0-9]{{2}})"
    rf"){_END}"
)
# Two-digit years: publications of the trade begin in the 1940s.
_FIRST_TWO_DIGIT_YEAR = 40


def read_date(words: str) -> datetime.date | None:
    """The date that the whole of the words is; None when they are none or have no day ("March 2031")."""
    readings = date_readings(words)
    return readings[0] if readings else None


def date_readings(words: str) -> tuple[datetime.date, ...]:
    """Every date the words may mean, month first before day first: ("4-3-56") -> 3 April, 4 March 1956."""
    match = DATE.fullmatch(words.strip())
    if not match:
        return ()
    if match["iso"]:
        year, month, day = (int(part) for part in match["iso"].split(match["of_iso"]))
        pairs = [(month, day)]
    elif match["first"]:
        year = _year(match["y1"])
        one, other = int(match["first"]), int(match["second"])
        pairs = [(one, other), (other, one)]
    elif match["m4"]:
        return ()
    else:
        form = "2" if match["m2"] else "3"
        year = _year(match[f"y{form}"])
        pairs = [(_MONTHS.index(match[f"m{form}"][:3].lower()) + 1, int(match[f"d{form}"]))]
    found = (_date(year, month, day) for month, day in pairs)
    return tuple(dict.fromkeys(date for date in found if date))


def _year(written: str) -> int:
    digits = written.lstrip("'")
    if len(digits) == 4:
        return int(digits)
    return int(digits) + (1900 if int(digits) >= _FIRST_TWO_DIGIT_YEAR else 2000)


def _date(year: int, month: int, day: int) -> datetime.date | None:
    try:
        return datetime.date(year, month, day)
    except ValueError:
        return None
