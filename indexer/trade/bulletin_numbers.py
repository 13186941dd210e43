"""Bulletin and letter numbers: find them, write them one way, read the chapter where the style prints it."""

import datetime
import re
from dataclasses import dataclass

from indexer.trade.chapters import ChapterNumber, is_chapter
from indexer.trade.dashes import plain_dashes
from indexer.trade.dates import find_dates
from indexer.trade.revisions import find_revision

# One blank or line end, never a blank line: "SB" above a new paragraph announces nothing.
_GAP = r"(?:[ ]|\n(?![ ]*\n))"
# Short forms that are also words or units ("SI") count only in capitals.
_WORDS = (
    rf"(?P<kind>(?:(?:alert|mandatory|emergency|critical|special){_GAP}+){{0,3}}service{_GAP}+"
    rf"(?:bulletin|letter|instruction|information{_GAP}+letter)|A?SB|(?-i:MSB|CSB|ESB|NMSB|SEB|SEL|MEB|SIL|SL|SI|SNL))s?"
)
_ANNOUNCED = re.compile(
    rf"(?<![\w-]){_WORDS}(?:{_GAP}*\([A-Z]{{2,5}}s?\))?(?P<no>{_GAP}*n(?:umber|o)s?\b\.?)?(?:{_GAP}|[:#-])*",
    re.IGNORECASE,
)
_NUMBER = re.compile(
    r"(?P<number>CFM[0-9]{2}-[0-9A-Z]+ [0-9]{2}-A?[0-9]{3,4}"
    r"|(?=[A-Z0-9-]*[0-9])[A-Z0-9]+(?:-(?:[ ]?\n[ ]?)?[A-Z0-9]+)*)(?!\w)"
)
_NEXT_IN_LIST = re.compile(r"(?:\s*[,;&]\s*(?:and|or)?\s*|\s+(?:and|or)\s+)(?=[A-Z0-9-]*[0-9])")
_STYLES = (
    re.compile(r"(?:[A-Z0-9]+-)*SB(?P<aa>[0-9]{2})[0-9]{4}(?:-[0-9]{2})?"),
    re.compile(r"(?:[A-Z]*[0-9][A-Z0-9]*-)?(?P<aa>[0-9]{2})A[0-9]{3,4}"),
    re.compile(r"(?:[A-Z0-9]*[A-Z0-9]-)*(?P<aa>[0-9]{2})-A?[0-9]{3,4}"),
    re.compile(r"[A-Z]+[0-9]+[A-Z]?-(?P<aa>[0-9]{2})[0-9]{4}"),
)
_REVISION_AFTER = re.compile(
    r"[\s,(]*(?:(?:revision|rev|issue|original|initial|change)\b[^,;()\n]{0,20}|R[0-9]{1,2}\b)", re.IGNORECASE
)
_DATE_AFTER = re.compile(r"[\s,(]*(?:dated?|of)\s+[^;()]{0,30}|[\s,(]+[^;()]{0,25}", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class FoundBulletin:
    """A bulletin or letter number in text; text[start:end] == self.text, the number without words and
    revision.

    number    written one way (see `normalised_bulletin`)
    kind      the words before it, in small letters with single blanks: "service bulletin", "asb", "sl"
    chapter   where the number's style prints it, else None
    revision  as printed after it, without the word: "3", "B", "original"; "" when none is printed
    date      printed after number and revision, else None
    """

    number: str
    kind: str
    chapter: ChapterNumber | None
    revision: str
    date: datetime.date | None
    start: int
    end: int
    text: str


def find_bulletin_numbers(text: str) -> list[FoundBulletin]:
    """Bulletin and letter numbers after words that announce them ("Service Bulletin No.", "SB", "SL" ...)."""
    plain = plain_dashes(text)
    found = {}
    for announced in _ANNOUNCED.finditer(plain):
        kind = " ".join(announced["kind"].lower().split())
        place = announced.end()
        while (match := _NUMBER.match(plain, place)) and _may_be_number(match["number"], announced):
            one, place = _bulletin(match, kind, plain, text)
            found.setdefault(one.start, one)
            following = _NEXT_IN_LIST.match(plain, place)
            if not following:
                break
            place = following.end()
    return [found[start] for start in sorted(found)]


def _may_be_number(number: str, announced: re.Match) -> bool:
    """Whether digits after the words are their number: "SB 34." may as well begin a list's next line."""
    return bool(announced["no"] or announced[0].endswith("-")) or not re.fullmatch("[0-9]{1,2}", number)


def _bulletin(match: re.Match, kind: str, plain: str, text: str) -> tuple[FoundBulletin, int]:
    start, place = match.span("number")[0], match.end("number")
    revision, date = "", None
    after = _REVISION_AFTER.match(plain, place)
    if after:
        mark = find_revision(plain[place : after.end()])
        short = re.search(r"\bR([0-9]{1,2})\b", after[0])
        revision = mark.mark if mark else short[1] if short else ""
        place = place + mark.end if mark else after.end()
    dated = _DATE_AFTER.match(plain, place)
    dates = find_dates(dated[0]) if dated else []
    if dates:
        date = dates[0].date
        place += dates[0].end
    printed = text[start : match.end("number")]
    number = normalised_bulletin(f"{kind} {printed}") or printed
    return FoundBulletin(
        number, kind, bulletin_chapter(printed), revision, date, start, match.end("number"), printed
    ), place


def normalised_bulletin(text: str) -> str | None:
    """A bulletin number written one way, from a field that holds nothing but it and its words; None if it has
    none.

    Capitals, one "-" for every run of blanks and dashes, no "SB" or "Service Bulletin". Letters that name
    another series stay ("SL-32-01", "MSB-7"); "ASB" stays unless the number itself has the A of an alert
    bulletin.
    """
    field = plain_dashes(text).strip()
    announced = _ANNOUNCED.match(field)
    rest = field[announced.end() :] if announced else field
    number = re.sub(r"[\s-]+", "-", rest.upper()).strip("-")
    if not re.search("[0-9]", number):
        return None
    series = _series(announced["kind"].lower()) if announced else ""
    if series == "ASB" and re.search(r"[0-9]A[0-9]|-A[0-9]", number):
        series = ""
    return f"{series}-{number}" if series else number


def _series(kind: str) -> str:
    kind = " ".join(kind.split())
    if kind.endswith("letter"):
        return "SIL" if "information" in kind else "SL"
    if kind.endswith("instruction"):
        return "SI"
    if kind.endswith("bulletin"):
        return "ASB" if "alert" in kind else ""
    return "" if kind == "sb" else kind.upper()


def bulletin_chapter(number: str) -> ChapterNumber | None:
    """The chapter that a bulletin number's style prints: 27 in "A300-27-0204"; None for running numbers.

    00 to 04 are no system: a bulletin that prints them has no chapter.
    """
    bare = re.sub(r"-?\s+", "-", plain_dashes(number).strip().upper())
    for style in _STYLES:
        match = style.fullmatch(bare)
        if match and is_chapter(match["aa"]) and match["aa"] >= "05":
            return ChapterNumber(match["aa"])
    return None
