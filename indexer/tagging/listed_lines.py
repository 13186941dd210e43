"""One row of a list of pages, taken apart: number, pages, date, revision. Pure text.

"32-41-00 401 thru 403 Mar 14/2031"   "5-12 June 1/61"   "* LEP-1 Mar 14/2031"   "404 Blank"
"""

import datetime
import re
from dataclasses import dataclass

from indexer.tagging.page_dates import dates_of
from indexer.trade.revisions import find_revisions

MOST_PAGES = 500  # of one line
_MOST_TITLE_WORDS = 5

_CHAPTER = r"\d{2}-\d{2}-\d{2}(?:-\d{2})?|\d{2}-\d{2}|[A-Z]\d{2}-\d{2}-\d{2}"
_WORDED = (
    r"(?:chapter|chap\.?|section|sect\.?|group|appendix)\s+(?:[IVXL]{1,6}|\d{1,2}(?:-\d{2}){0,2}|[A-Z])\b"
)
_NUMBER = re.compile(rf"(?P<number>{_WORDED}|{_CHAPTER})(?![\w-])[\s,:.-]*", re.IGNORECASE)
_THREE_COLUMNS = re.compile(r"(\d{2})\s+(\d{2})\s+(\d{2})\s+(?=\D*\d)")
_PAGE = r"(?:[A-Z]{1,5}[-.]?)?\d{1,4}(?:-\d{1,4})?[A-Z]?(?:\.\d{1,2})?|[ivxl]{1,6}|[A-Z]-[IVXL]{1,5}"
_PAGE_TOKEN = re.compile(rf"(?:{_PAGE})(?![\w])")
_RANGE = re.compile(rf"\s*(?:thru|through|to|\u2013|-)\s*(?={_PAGE})", re.IGNORECASE)
_AND = re.compile(rf"\s*(?:,|&|/|\band\b|;)\s*(?:and\s+)?(?={_PAGE})", re.IGNORECASE)
_BLANK_TWIN = re.compile(
    rf"\s*[/,]?\s*\(\s*(?:and\s+|/\s*)?(?P<page>{_PAGE})(?:\s+blank)?\s*\)", re.IGNORECASE
)
_PAGE_WORD = re.compile(r"pages?\b\.?(?:\s*no\.?)?\s*", re.IGNORECASE)
_MARK = re.compile(r"^(?:[*+#\u2020\u2021|]+|\(?[ADRNCO]\)?(?=\s))\s*")
_MARK_BEHIND = re.compile(r"\s*(?:[*+#\u2020\u2021|]+|(?<=\s)\(?[ADRNCO]\)?)$")
_LEADERS = re.compile(r"(?:\s*[._\u2026]){2,}\s*")
_BLANK = re.compile(r"\(?\s*\b(?:blank|intentionally left blank|left blank)\b\s*\)?", re.IGNORECASE)
_GONE = re.compile(
    r"\b(?:deleted|removed|cancelled|canceled|superseded|not\s+used|reserved)\b", re.IGNORECASE
)
_BARE_MARK = re.compile(r"^(?:\d{1,3}|[A-Z]|-|N/C|NC)$")
_ORIGINAL = re.compile(r"^(?:orig\.?|original|basic|new)$", re.IGNORECASE)
_NOT_A_TITLE = re.compile(
    r"\b(?:revisions?|rev|changes?|issue[ds]?|dated?|total|effective|amendment|printed|copyright|reissued?"
    r"|number\s+of|list\s+of\s+.*\bas\s+of|page\s+\d+\s+of)\b",
    re.IGNORECASE,
)
_TITLE = re.compile(r"[A-Z][A-Za-z/&.' ]{1,38}?(?=\s+\S*\d|\s+[ivxl]+\b|\s*$)")
_NAMED_PAGE = re.compile(
    r"(?:inside\s+|front\s+|back\s+)?(?:title|cover)(?:\s+page|\s+sheet)?$", re.IGNORECASE
)
_TOTAL = re.compile(r"\btotal\b.*?\bpages?\b\D{0,60}?(?P<total>\d[\d,]*)", re.IGNORECASE)
_HEAD_WORDS = re.compile(
    r"(?:chapters?|sections?|subjects?|units?|numbers?|pages?|dates?|rev(?:isions?)?|changes?|no|nos|status"
    r"|code|title|description|block|effectivity|issue|and|of|ch|sec|subj|pg|cont(?:inued|d)?)",
    re.IGNORECASE,
)
_MONTH_AND_YEAR = re.compile(
    r"(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\.?[\s/-]*'?\d{2,4}$", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class ListLine:
    """What one row lists.

    number   as printed; "" = none on this row: that of the heading above holds
    pages    as printed, a range taken apart; those that print nothing stand in `blank` too
    title    words in place of a number ("Front matter"); "" = none
    dated    False when the row prints no date at all
    gone     True when the row says that the page is no longer part of the book
    """

    number: str
    pages: tuple[str, ...]
    date: datetime.date | None
    revision: str = ""
    title: str = ""
    blank: frozenset[str] = frozenset()
    dated: bool = True
    gone: bool = False


@dataclass(frozen=True, slots=True)
class Layout:
    """What a list's heads and its book say of how it is to be read.

    revisions    a column of revisions or change numbers stands beside the pages
    dates        a column of dates stands there
    own_pages    the book prints pages as "5-12", so that a hyphen in a page is no range
    month_first  as in page_dates
    """

    revisions: bool = False
    dates: bool = True
    own_pages: bool = False
    month_first: bool | None = None


def is_head(text: str) -> bool:
    """Whether a row holds the heads of columns and nothing else."""
    words = re.findall(r"[A-Za-z]+", text)
    return bool(words) and not re.search(r"\d", text) and all(_HEAD_WORDS.fullmatch(word) for word in words)


def total_pages(text: str) -> int | None:
    """The number in "Total number of pages: 84"; None in any other row."""
    found = _TOTAL.search(text)
    return int(found["total"].replace(",", "")) if found else None


def prints_a_page_and_date(text: str) -> bool:
    """Whether a row that is no line for sure looks like one: a date, and figures before it."""
    dates = dates_of(text, None)
    before = text[: dates[0].start] if dates else ""
    return bool(re.search(r"\d", before)) and not _NOT_A_TITLE.search(before) and len(before.split()) <= 8


def heading(text: str) -> str:
    """The number that a heading row gives to the rows below it; "" when it gives none."""
    found = _NUMBER.match(text.strip())
    rest = text.strip()[found.end() :] if found else ""
    return found["number"] if found and not re.search(r"\d", rest) else ""


def read_line(text: str, layout: Layout) -> ListLine | None:
    """A row of a list; None when it is no row of a list, or not for sure."""
    text = _LEADERS.sub(" ", text).strip()
    dates = dates_of(text, layout.month_first)
    if len(dates) > 1:
        return None
    date, rest, behind = None, text, ""
    if dates:
        date, rest, behind = dates[0].date, text[: dates[0].start].strip(), text[dates[0].end :].strip()
    elif month := _MONTH_AND_YEAR.search(text):
        rest = text[: month.start()].strip()
    dated = bool(dates) or rest != text
    if (
        behind
        and not _MARK_BEHIND.fullmatch(f" {behind}")
        and not _BLANK.fullmatch(behind)
        and not (_GONE.fullmatch(behind))
    ):
        revision = _revision(behind, layout)
        if revision is None:
            return None
    else:
        revision = ""
    gone = bool(_GONE.search(text))
    twin = re.search(r"\(\s*\S*\d\S*\s+blank", rest, re.IGNORECASE) is not None
    blank = not twin and bool(_BLANK.search(rest) or _BLANK.fullmatch(behind))
    rest = rest if twin else _BLANK.sub(" ", rest)
    rest = _GONE.sub(" ", rest).strip(" ,;:-")
    line = _pages_of(rest, layout)
    if line is None:
        return None
    number, title, pages, twins, own_revision = line
    if not dated and not (own_revision or blank or gone or (number and pages)):
        return None
    return ListLine(
        number,
        pages,
        date,
        own_revision or revision or "",
        title,
        frozenset(pages) if blank and not twins else twins,
        dated,
        gone,
    )


def _pages_of(rest: str, layout: Layout) -> tuple[str, str, tuple[str, ...], frozenset[str], str] | None:
    """(number, title, pages, blank pages, revision) of a row without its date."""
    rest = _MARK.sub("", rest)
    number = title = ""
    columns = _THREE_COLUMNS.match(rest)
    if columns:
        number, rest = "-".join(columns.groups()), rest[columns.end() :]
    elif (found := _NUMBER.match(rest)) and (rest[found.end() :].strip() or not layout.own_pages):
        number, rest = found["number"], rest[found.end() :]
    if not number and (_NAMED_PAGE.match(rest) or re.fullmatch("[A-Z]", rest)):
        return "", rest, (rest,), frozenset(), ""
    rest = _MARK.sub("", rest)
    worded = None if number or _PAGE_WORD.match(rest) or _PAGE_TOKEN.match(rest) else _TITLE.match(rest)
    if worded:
        title, rest = worded[0].strip(), rest[worded.end() :].strip()
        if _NOT_A_TITLE.search(title) or len(title.split()) > _MOST_TITLE_WORDS:
            return None
    rest = _MARK.sub("", _PAGE_WORD.sub("", rest, count=1) if _PAGE_WORD.match(rest) else rest)
    pages, twins, place = _page_list(rest, layout, bool(number))
    if not pages:
        return None
    revision = _revision(rest[place:].strip(), layout)
    return None if revision is None else (number, title, pages, twins, revision)


def _page_list(text: str, layout: Layout, numbered: bool) -> tuple[tuple[str, ...], frozenset[str], int]:
    """(pages, those that are blank backs, where the list of pages ends)."""
    pages: list[str] = []
    twins: set[str] = set()
    place = 0
    while found := _PAGE_TOKEN.match(text, place):
        page, place = found[0], found.end()
        joint = _RANGE.match(text, place)
        last = _PAGE_TOKEN.match(text, joint.end()) if joint else None
        hyphen = re.fullmatch(r"(\d{1,4})-(\d{1,4})", page)
        if last:
            between = expand(page, last[0])
            pages += between
            place = last.end()
            if not between:
                return (), frozenset(), place
        elif (
            hyphen
            and not layout.own_pages
            and (numbered or int(hyphen[1]) > 99)
            and int(hyphen[1]) < int(hyphen[2])
        ):
            pages += expand(hyphen[1], hyphen[2])
        else:
            pages.append(page)
        if twin := _BLANK_TWIN.match(text, place):
            pages.append(twin["page"])
            twins.add(twin["page"])
            place = twin.end()
        if more := _AND.match(text, place):
            place = more.end()
            continue
        break
    return tuple(dict.fromkeys(pages)), frozenset(twins), place


def _revision(text: str, layout: Layout) -> str | None:
    """The revision that a rest of a row is; "" for nothing, None when it is something else."""
    text = _MARK_BEHIND.sub("", f" {text}").strip() if not layout.revisions else text.strip(" *+#|")
    if not text:
        return ""
    if _ORIGINAL.match(text):
        return "original"
    found = find_revisions(text)
    if len(found) == 1 and found[0].text.strip() == text:
        return found[0].mark
    return text if layout.revisions and _BARE_MARK.match(text) else None


def expand(first: str, last: str) -> tuple[str, ...]:
    """The pages from first to last, both included; () when the two do not count in one way.

    "401", "403"; "LEP-1", "LEP-3"; "5-1", "5-12"; "5-1", "12"; "i", "iv"; "12A", "12C"
    """
    roman = (_roman(first), _roman(last))
    if all(roman) and first.islower() == last.islower():
        return tuple(_in_roman(each) for each in _counted(roman[0], roman[1])) if first.islower() else ()
    one = re.fullmatch(r"(?P<front>.*?)(?P<count>\d+)(?P<letter>[A-Z]?)", first)
    other = re.fullmatch(r"(?P<front>.*?)(?P<count>\d+)(?P<letter>[A-Z]?)", last)
    if not one or not other or other["front"] not in (one["front"], ""):
        return ()
    if one["letter"] and other["letter"] and one["count"] == other["count"]:
        letters = _counted(ord(one["letter"]), ord(other["letter"]))
        return tuple(f"{one['front']}{one['count']}{chr(each)}" for each in letters)
    if one["letter"] or other["letter"]:
        return ()
    return tuple(f"{one['front']}{each}" for each in _counted(int(one["count"]), int(other["count"])))


def _counted(first: int, last: int) -> range:
    return range(first, last + 1) if first <= last < first + MOST_PAGES else range(0)


_ROMAN = (("x", 10), ("ix", 9), ("v", 5), ("iv", 4), ("i", 1))


def _in_roman(number: int) -> str:
    text = ""
    for letters, value in (("l", 50), ("xl", 40), *_ROMAN):
        while number >= value:
            text, number = text + letters, number - value
    return text


def _roman(text: str) -> int:
    """The number that small roman figures write; 0 when they are none."""
    if not re.fullmatch("[ivxl]+", text):
        return 0
    return next((number for number in range(1, 90) if _in_roman(number) == text), 0)
