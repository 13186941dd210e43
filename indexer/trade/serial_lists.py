"""Lists of serials as printed, read into ranges: "through", "and on", "prior to", "except"."""

import re
from dataclasses import dataclass, field

from indexer.trade.serials import Serial, SerialList, SerialRange, one_serial, parse_serial, range_between

SERIAL = r"(?:[A-Z0-9]{1,6}[.-]){0,3}(?:[A-Z0-9]{0,10}\d[A-Z]{0,2})(?!\w|-\w)"
LABEL = (
    r"(?:(?:manufacturer'?s?'?|factory|airframe|airplane|aircraft|engine|unit)\s+)?"
    r"(?:serial\s+numbers?|serial\s+nos?\b\.?|serials?\b|s/ns?\b\.?|s/nos?\b\.?|msns?\b)"
    r"(?:\s*\(\s*(?:s/ns?|s/nos?\.?|msns?)\s*\))?"
)
_LABEL = re.compile(LABEL, re.IGNORECASE)
_TOKEN = re.compile(SERIAL)
_TO = re.compile(r"\s*(?:,?\s*(?:through|thru|to)\s+|\s-\s+|/(?=[A-Z0-9]))", re.IGNORECASE)
_INCLUSIVE = re.compile(
    r"\s*,?\s*\(?\s*(?:inclusive\b|incl?\b\.?(?=\s*(?:[,;.)]|$|and\b)))\s*\)?", re.IGNORECASE
)
_AND_ON = re.compile(
    r"\s*,?\s*(?:(?:and|&)\s+(?:on\b(?!\s+which)|up\b(?!\s+to)|upwards?\b|subs(?:equent)?\b\.?|after\b|later\b|above\b|onwards?\b)"
    r"|onwards?\b)(?:\s+(?:serial\s+numbers?|serials|s/ns?)\b)?",
    re.IGNORECASE,
)
_AND_EARLIER = re.compile(r"\s*,?\s*(?:and|&)\s+(?:prior|earlier|below|before|lower)\b", re.IGNORECASE)
_BEFORE = re.compile(r"(?:prior\s+to|before|earlier\s+than|below)\s+(?!and\b)", re.IGNORECASE)
_UP_TO = re.compile(
    r"(?:up\s+to|prior\s+to)\s+and\s+including\s+|(?:up\s+through|up\s+thru)\s+", re.IGNORECASE
)
_AFTER = re.compile(r"(?:after|subsequent\s+to|later\s+than|above)\s+", re.IGNORECASE)
_EXCEPT = re.compile(
    r"\s*,?\s*\(?\s*(?:except(?:ing)?(?:\s+for)?|excluding|other\s+than|but\s+not(?:\s+including)?|but\s+excluding"
    r"|not\s+including|with\s+the\s+exception\s+of)\s+",
    re.IGNORECASE,
)
_BETWEEN = re.compile(
    r"\s*(?:;\s*(?:and\s+|or\s+)?|,\s*(?:and\s+|or\s+|plus\s+|&\s*)?|(?:and|or|&|plus)\s+)", re.IGNORECASE
)
# A number with these after it is a model and no serial.
_NOUN_FOLLOWS = re.compile(
    r"\s+(?:(?:series\s+)?(?:airplanes?|aircraft|helicopters?|gliders?|engines?|propellers?)|series|variants?)\b"
    rf"|\s+{LABEL}|\s*:",
    re.IGNORECASE,
)
_LABEL_FOLLOWS = re.compile(rf"\s*,\s*{LABEL}", re.IGNORECASE)
_DASHED = re.compile(r"(\d{3,})-(\d{3,})")


@dataclass(frozen=True, slots=True)
class TakenSerials:
    """A list and where in the text it ends."""

    serials: SerialList
    end: int


@dataclass(slots=True)
class _Taking:
    included: list[SerialRange] = field(default_factory=list)
    excepted: list[SerialRange] = field(default_factory=list)
    excepting: bool = False


def take_serials(text: str, start: int) -> TakenSerials | None:
    """The list that begins at `start` of a text with plain dashes; None where no serial stands there.

    It ends before the first words that are no part of a list. An exception holds to the next semicolon.
    """
    taking = _Taking()
    place = _skip_label(text, start)
    opening = _EXCEPT.match(text, place)
    item = _item(text, opening.end() if opening else place)
    if item is None:
        return None
    taking.excepting = bool(opening)
    while item is not None:
        piece, place = item
        (taking.excepted if taking.excepting else taking.included).append(piece)
        place, item = _next(text, place, taking)
    return TakenSerials(
        SerialList(tuple(taking.included), tuple(taking.excepted), everything=not taking.included), place
    )


def starts_serials(text: str, start: int) -> bool:
    """Whether a serial with a word of range, or a word of range with a serial, stands at this place."""
    found = _TOKEN.match(text, start)
    if found:
        place = found.end()
        if _AND_ON.match(text, place) or _AND_EARLIER.match(text, place):
            return True
        to = _TO.match(text, place)
        last = _TOKEN.match(text, _skip_label(text, to.end())) if to else None
        low, high = parse_serial(found[0]), parse_serial(last[0]) if last else None
        return bool(to and low and high and not _written_together(to[0], low, high))
    before = _BEFORE.match(text, start) or _UP_TO.match(text, start) or _AFTER.match(text, start)
    return bool(before and _TOKEN.match(text, _skip_label(text, before.end())))


def _next(text: str, place: int, taking: _Taking) -> tuple[int, tuple[SerialRange, int] | None]:
    excepting = _EXCEPT.match(text, place)
    if excepting:
        item = _item(text, excepting.end())
        if item:
            taking.excepting = True
        return place, item
    between = _BETWEEN.match(text, place)
    if not between:
        return place, None
    after = _EXCEPT.match(text, between.end())
    item = _item(text, after.end() if after else between.end())
    known = {each.prefix for each in (*taking.included, *taking.excepted)}
    if item and item[0].prefix not in known and _LABEL_FOLLOWS.match(text, item[1]):
        return place, None  # "..., B14, serial numbers 1 through 50": the next model
    if item and _begins_row(text, item, taking):
        return place, None
    if item:
        taking.excepting = bool(after) or (taking.excepting and ";" not in between[0])
    return place, item


def _begins_row(text: str, item: tuple[SerialRange, int], taking: _Taking) -> bool:
    """ "152 15279406 thru 15285594, A152 A1520735 thru A1521014": in a table whose lines were joined a model
    follows the comma at a line's end. It is written otherwise than the serials before, and a range follows it
    without a mark, or one that begins with its own number."""
    piece, end = item
    one = piece.low if piece.low == piece.high else None
    ends = [serial for each in taking.included for serial in (each.low, each.high) if serial]
    if one is None or any((one.prefix, len(one.digits)) == (each.prefix, len(each.digits)) for each in ends):
        return False
    after = re.compile(r"\s*(,?)\s*").match(text, end)
    if not after or not after[0] or not starts_serials(text, after.end()):
        return False
    return not after[1] or text.startswith(f"{one.prefix}{one.joint}{one.digits}", after.end())


def _item(text: str, start: int) -> tuple[SerialRange, int] | None:
    """One serial or range at a place, and where it ends."""
    place = _skip_label(text, start)
    for words, low, included in ((_UP_TO, False, True), (_BEFORE, False, False), (_AFTER, True, False)):
        opening = words.match(text, place)
        if opening:
            return _one_ended(text, start, _skip_label(text, opening.end()), low, included)
    first = _TOKEN.match(text, place)
    serial = parse_serial(first[0]) if first else None
    if first is None or serial is None:
        return None
    to = _TO.match(text, first.end())
    last = _TOKEN.match(text, _skip_label(text, to.end())) if to else None
    high = parse_serial(last[0]) if last else None
    if last and high and to and not _written_together(to[0], serial, high):
        end = _past(_INCLUSIVE, text, last.end())
        return range_between(serial, high, text[place : last.end()]), end
    for words, low in ((_AND_ON, True), (_AND_EARLIER, False)):
        follows = words.match(text, first.end())
        if follows and not _TOKEN.match(text, follows.end() + 1):
            printed = text[place : follows.end()]
            open_range = SerialRange(serial if low else None, None if low else serial, printed)
            return open_range, follows.end()
    if _NOUN_FOLLOWS.match(text, first.end()):
        return None
    return _dashed(text, first) or one_serial(serial), _past(_INCLUSIVE, text, first.end())


def _written_together(to: str, low: Serial, high: Serial) -> bool:
    """ "PA-28-150/160" is two models; "1234/1250" is a range."""
    return to == "/" and bool(low.prefix) and not high.prefix


def _one_ended(
    text: str, start: int, place: int, low: bool, included: bool
) -> tuple[SerialRange, int] | None:
    found = _TOKEN.match(text, place)
    serial = parse_serial(found[0]) if found else None
    if not found or not serial:
        return None
    printed = text[start : found.end()].strip()
    if low:
        return SerialRange(serial, None, printed, low_included=included), found.end()
    return SerialRange(None, serial, printed, high_included=included), found.end()


def _dashed(text: str, found: re.Match) -> SerialRange | None:
    """ "1234-1250": a range where both sides have the same count of digits and rise, and where no other
    number of the text has the left side for its prefix."""
    sides = _DASHED.fullmatch(found[0])
    if not sides or len(sides[1]) != len(sides[2]) or sides[1] >= sides[2]:
        return None
    if len(re.findall(rf"(?<![\w-]){sides[1]}-", text)) > 1:
        return None
    low, high = parse_serial(sides[1]), parse_serial(sides[2])
    return range_between(low, high, found[0]) if low and high else None


def _skip_label(text: str, place: int) -> int:
    place = _past(re.compile(r"\s+"), text, place)
    found = _LABEL.match(text, place)
    return _past(re.compile(r"\s*:?\s*"), text, found.end()) if found else place


def _past(words: re.Pattern, text: str, place: int) -> int:
    found = words.match(text, place)
    return found.end() if found else place
