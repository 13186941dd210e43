"""What looks like a chapter-section-subject number and is something else: dates, directives, parts.

`32-41-00` and `06-12-98` have one shape; only the words around them and the calendar tell them apart.
All functions take text already passed through `plain_dashes`.
"""

import re

# Words after which a number belongs to something else, with any list of such numbers after it. Items of a
# minimum equipment list carry a chapter, but their third group counts items and is no subject.
_TOKEN = r"[A-Z0-9]+(?:-\s?[A-Z0-9]+)*(?:\s?R[0-9]+)?"
_OTHER_NUMBERS = re.compile(
    rf"""(?<![A-Za-z])(?:
        A\.?D\.?'?s?|airworthiness\s+directives?(?:\s*\(ADs?\))?
      | P/?N'?s?|part\s+n(?:umber|o)s?|S/?N'?s?|serial(?:\s+n(?:umber|o)s?)?|NSN|FSN|stock\s+n(?:umber|o)
      | drawings?|dwgs?|cards?|work\s+orders?|W\.?O|purchase\s+orders?|P\.?O|invoice|docket|amendment|amdt
      | tel(?:ephone)?|phone|fax|facsimile|call
      | (?:[A-Z]?SB|SIL|SI|SL|MSB|CSB|EO)s?|(?:service\s+)?(?:bulletin|letter|instruction)s?
      | engineering\s+orders?|STC|certificate|permit|registration|RIN|AC|advisory\s+circular|TSO
      | spec(?:ification)?|CFR|(?:minimum\s+equipment\s+list\s*\(?)?M?MEL\)?(?:\s+items?)?
    )(?:\s*\([A-Z]{{2,5}}s?\))?[\s.:#]{{0,4}}(?:n(?:umber|o)s?\b[\s.:#]{{0,4}})?
    (?=(?P<numbers>(?:{_TOKEN}
       (?:\s*[,;/&]\s*(?:and\s+|or\s+)?|\s+(?:and|or|thru|through|to)\s+)){{0,60}}{_TOKEN}))""",
    re.VERBOSE | re.IGNORECASE,
)
_DATE_WORD = re.compile(
    r"(?:\b(?:date[ds]?|effective|issued|revised?|rev|due|since|until|expires?|received|signed|recorded|on|of|as\s+of)"
    r"|\b(?:mon|tues|wednes|thurs|fri|satur|sun)day)[\s.:,(]*$",
    re.IGNORECASE,
)
_DIRECTIVE_AFTER = re.compile(
    r"-?\s?R[0-9]{1,2}\b|[ ]+[A-Z][A-Z .&/-]{2,}:"
    r"|[ ]+[A-Z][\w .,&/()-]{2,60}:\s+(?:Amendment|Applies|Docket)|\s*[,(]?\s*Amendment\s+39"
)
_UNIT_AFTER = re.compile(
    r"\s?(?:psi|inch(?:es)?|in\b|mm|ft\b|feet|lbs?|pounds?|hours?|hrs?|months?|days?|cycles|volts?|amps?|percent|%|deg)",
    re.IGNORECASE,
)


def other_numbers(text: str) -> bytearray:
    """One byte a character: 1 where the words before it, or before its list, give it to something else."""
    taken = bytearray(len(text))
    for match in _OTHER_NUMBERS.finditer(text):
        start, end = match.span("numbers")
        taken[start:end] = b"\1" * (end - start)
    return taken


def belongs_elsewhere(text: str, end: int) -> bool:
    """Whether what follows a number that ends at `end` makes it a directive's heading or a measure."""
    return bool(_DIRECTIVE_AFTER.match(text, end) or _UNIT_AFTER.match(text, end))


def may_be_date(first: str, second: str, third: str) -> bool:
    """Whether three groups of two digits can be month-day-year, or year-month-day of 1985 and later."""
    a, b, c = int(first), int(second), int(third)
    month_day_year = 1 <= a <= 12 and 1 <= b <= 31
    year_month_day = a >= 85 and 1 <= b <= 12 and 1 <= c <= 31
    return month_day_year or year_month_day


def may_be_day_first_date(first: str, second: str) -> bool:
    """Whether the groups can be day-month-year, the day over 12."""
    return 13 <= int(first) <= 31 and 1 <= int(second) <= 12


def follows_date_word(text: str, start: int) -> bool:
    """Whether a word stands before `start` after which a date is read."""
    return bool(_DATE_WORD.search(text[max(0, start - 30) : start]))
