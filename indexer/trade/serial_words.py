"""How a line shows that it speaks of serials, of what is done to an aircraft, or of an article."""

import re

from indexer.trade.serial_lists import LABEL

_SERIALS = re.compile(rf"\(?\s*{LABEL}\b[^\n]*\d", re.IGNORECASE)
_GOES_ON = re.compile(r"(?:,|\band|\bor|&)\s*$", re.IGNORECASE)
_ARTICLE = re.compile(
    r"\b(?:engines?|propellers?|magnetos?|carburetors?|turbochargers?|governors?|alternators?|generators?|starters?"
    r"|wheels?|brakes?|tires?|batter(?:y|ies)|pumps?|valves?|seats?|instruments?|radios?|avionics|autopilots?"
    r"|components?|overhaul|accessor(?:y|ies))\b",
    re.IGNORECASE,
)


def begins_with_serials(line: str) -> bool:
    """ "Serial numbers QZ-001 and on", "(S/N 1001 thru 1050)"."""
    return _SERIALS.match(line.strip()) is not None


def goes_on(line: str) -> bool:
    """Whether a list runs over to the next line."""
    return _GOES_ON.search(line) is not None


def names_an_article(line: str) -> bool:
    """Whether a title speaks of an article with models of its own rather than of an aircraft."""
    return _ARTICLE.search(line) is not None
