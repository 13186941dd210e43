"""What a record says after the name of a source: revision, date, chapter, page, figure, item, paragraph.

They come in any order, with or without commas, and each is read once: "MM 32-41-00 P401 REV 6 3-14-31".
"""

import re
from dataclasses import dataclass, field

from indexer.tagging.record_dates import DATE, read_date
from indexer.tagging.reference_words import spaced
from indexer.trade.chapters import ChapterNumber, Scheme, is_chapter
from indexer.trade.publication_types import PublicationType as Type

_BETWEEN = re.compile(r"[ ]{0,3}[,/(:.)-]{0,2}[ ]{0,3}")
_BOUND = r"(?![A-Za-z0-9])"
_NO = r"(?: ?(?:no|number|nbr)\b\.?)?"
_REVISION = spaced(
    rf"(?:rev(?:ision)?\.?|issue|iss\b\.?|chg\.?|change)(?: ?(?:level|letter|ltr|date)\b\.?)?{_NO}[ .:#]{{0,3}}"
    rf"(?P<mark>orig(?:inal)?\b\.?(?: (?:issue|release|iss))?|N/?C{_BOUND}|basic|initial(?: (?:issue|release))?"
    rf"|[0-9]{{1,4}}[A-Z]?{_BOUND}|[A-Z]{{1,2}}{_BOUND}|-(?= |$|[,;)]))(?![/-]\w)"
)
_ORIGINAL = spaced(
    r"(?:orig(?:inal)?|initial|basic)\b\.? (?:issue|iss|release|rev(?:ision)?)\b\.?|original(?![\w])"
)
_SHORT = spaced(r"R[. ]{0,2}(?P<mark>[0-9]{1,2})(?![\w-])(?!\.[0-9])(?!/[A-Za-z])")
_CURRENT = spaced(
    r"(?:(?:at )?(?:the )?(?:latest|current|most recent|most current)(?: FAA)?(?: approved)?"
    r" (?:rev(?:ision)?s?|issue|version|edition|change)(?: level)?(?![\w])|rev(?:ision)?\.? (?:level )?"
    r"(?:current|latest)(?![\w]))"
)
_NO_MARK = frozenset("is to of at in on by as or if no an it we up do".split())
_DATED = spaced(r"(?:dated?|dtd|issued|of|rev(?:ision)?\.? date|date of)[ .:]{0,3}")
_GROUPS = (
    r"(?P<a>[0-9]{2})(?:[ ]?-[ ]?(?P<b>[0-9]{2})(?:[ ]?-[ ]?(?P<c>[0-9]{2}))?"
    r"|\.(?P<b1>[0-9]{2})\.(?P<c1>[0-9]{2})|[ ](?P<b2>[0-9]{2})[ ](?P<c2>[0-9]{2}))"
)
_TASK = r"[ ]?-[ ]?(?P<task>[0-9][0-9A-HJ-NP-Z]{2}-[0-9]{2}[0-9A-Z](?:-[0-9A-Z]{1,3})?)(?![\w-])"
_CHAPTER_WORD = r"(?:(?:ATA|chapters?|chaps?\b\.?|ch\.?|subjects?|tasks?|sub-?tasks?|sections?|sect?s?\b\.?|part\b)[ .:#-]{0,3}){0,2}"
_CHAPTER = spaced(
    rf"(?P<word>{_CHAPTER_WORD}|(?:pages?|pgs?|p)[. ]{{1,2}}){_GROUPS}"
    rf"(?:{_TASK}|-(?P<x>[0-9]{{2}}[A-Z]?)(?:-(?P<y>[0-9]{{1,3}}[A-Z]?))?(?![\w-])|-(?P<pg>[0-9]{{3}})(?![\w-])"
    r"|(?:-[0-9][A-Z0-9]{0,3}){1,2}(?![\w-])|(?![0-9])(?!-[0-9]))"
)
_OWN = r"(?:[0-9]{1,2}(?:[-.][0-9]{1,3})?[A-Z]?|[IVXL]{1,6})"
_OWN_CHAPTER = spaced(
    rf"(?P<word>ATA|chapters?|chap\b\.?|ch\.?|sections?|sect?\b\.?|secs\b\.?)[ .:#]{{0,3}}(?P<value>{_OWN}){_BOUND}(?!-[0-9]{{3}})(?!\.[0-9])"
    rf"(?:[ ,]{{1,3}}(?:sections?|sect?\b\.?)[ .#]{{0,3}}(?P<section>{_OWN}){_BOUND})?"
)
_PAGE_VALUE = r"(?:(?:[A-Z]{1,4}|[IVX]{1,5})-)?[0-9]{1,5}(?:[-.][0-9]{1,4})?[A-Z]?"
PAGE = spaced(
    rf"(?:page ?blocks?|pages?|pgs?|pp|p/b|pb|p)\.?{_NO}[ .#:]{{0,3}}(?P<list>(?P<value>[0-9]{{1,4}})(?P<range> ?(?:-|thru|through|to) ?(?=[0-9]{{3}}))"
    rf"(?P<last>[0-9]{{3,4}}){_BOUND}|(?P<one>{_PAGE_VALUE}){_BOUND}(?:(?: ?- ?| thru | through | to )(?P<until>{_PAGE_VALUE}){_BOUND})?)(?![-.][0-9])"
)
_SLASH_PAGE = spaced(r" ?/ ?(?P<value>[0-9]{3,4})(?![\w/-])")
_FIGURE_VALUE = r"(?:[IVX]{1,5}-)?[0-9]{1,4}(?:[-.][0-9]{1,4}){0,3}[A-Z]{0,2}"
FIGURE = spaced(
    rf"(?:figures?|figs?)\.?{_NO}[ .#:]{{0,3}}(?P<one>{_FIGURE_VALUE}){_BOUND}(?:(?: ?- ?| thru | through | to )(?P<until>{_FIGURE_VALUE}){_BOUND})?(?![-.][0-9])"
)
_ATTACHED_FIGURE = spaced(r"f(?P<one>[0-9]{1,3})(?P<until>)(?![\w-])")
_ITEM = spaced(
    rf"(?:items?|itms?|index(?:es)?|idx|keys?|pos\b\.?){_NO}[ .#:]{{0,3}}(?P<value>[0-9]{{1,4}}[A-Z]?){_BOUND}"
)
_ATTACHED_ITEM = spaced(r"i(?P<value>[0-9]{1,3}[A-Z]?)(?![\w-])")
_LETTERS = r"(?: ?\([a-z0-9]{1,4}\)){1,6}"
_PARA_VALUE = rf"(?:(?:[0-9]{{1,4}}|[A-Z])(?:[-.][0-9]{{1,4}}[A-Z]?|\.[A-Z](?![a-z]{{2}})|[A-Z](?![A-Za-z])){{0,5}}(?:\.?{_LETTERS})?|{_LETTERS})"
PARAGRAPH = spaced(
    rf"(?:(?:(?:sub)?paragraphs?|(?:sub)?paras?|pars?)(?![A-Za-z])|\u00b6){_NO}\.?[ #:]{{0,3}}(?P<one>{_PARA_VALUE}){_BOUND}"
    rf"(?:\.?(?: ?- ?| thru | through | to )(?P<until>{_PARA_VALUE}){_BOUND})?"
)
_BARE_LETTERS = spaced(rf"(?P<one>{_LETTERS})(?![\w])(?P<until>)")
_PART = spaced(
    r"(?P<value>(?:parts?|notes?|appendix|app\.?) ?(?:[0-9]{1,3}|[IVX]{1,4}|[A-H])(?![\w])(?!-\w))"
)
_OWN_PARAGRAPH = spaced(r"(?P<one>[0-9]{1,2}-[0-9]{1,3})(?![\w-])(?!/[0-9])(?P<until>)")
_PASSED = spaced(
    r"(?:sheets?|shts?|sh|steps?|repair|tables?)\.?{no}[ #:]{{0,3}}[0-9]{{1,3}}(?:\.?[A-Z](?![A-Za-z]))?(?: of [0-9]{{1,2}})?(?![\w-])"
    r"|(?:no|title)\b\.?(?= [0-9])".format(no=_NO)
)


@dataclass(slots=True)
class Reading:
    """What has been read of one citation. start and end are places in the flat text."""

    start: int
    end: int
    type: Type | None = None
    number: str = ""
    task: str = ""
    revision: str = ""
    date_words: str = ""
    chapter: ChapterNumber | None = None
    page: str = ""
    figure: str = ""
    paragraph: str = ""
    item: str = ""
    named: str = ""
    current: bool = False
    rule: bool = False
    places: list[str] = field(default_factory=list)  # the sorts read after the name, in order

    @property
    def date(self):  # noqa: ANN201 - datetime.date | None
        return read_date(self.date_words) if self.date_words else None


# Types whose chapters are not told by chapter-section-subject numbers alone.
_NO_CHAPTERS = frozenset(
    {
        Type.SERVICE_BULLETIN, Type.SERVICE_LETTER, Type.AIRWORTHINESS_DIRECTIVE, Type.TEMPORARY_REVISION,
        Type.SUPPLEMENTAL_TYPE_CERTIFICATE, Type.TYPE_CERTIFICATE_DATA_SHEET, Type.AIRWORTHINESS_BULLETIN,
        Type.REPAIR_ALTERATION_RECORD, Type.ENGINEERING_APPROVAL, Type.RELEASE_CERTIFICATE, Type.PARTS_APPROVAL,
        Type.AMOC_LETTER, Type.PROPOSED_DIRECTIVE, Type.PROCESS_SPECIFICATION, Type.REGULATION,
    }
)  # fmt: skip
_OWN_ORDER = frozenset({Type.SERVICE_MANUAL, Type.ENGINE_MANUAL, Type.PROPELLER_MANUAL, Type.FLIGHT_MANUAL})


def read_places(flat: str, reading: Reading, last: int) -> None:
    """Read on from `reading.end` for as long as the words are places in the source; not beyond `last`."""
    while True:
        place = reading.end
        if not _slash_page(flat, reading, last):
            place = _BETWEEN.match(flat, reading.end, last).end()
            glued = place == reading.end
            if not any(step(flat, place, reading, last) for step in _STEPS):
                return
            if glued and reading.end == place:
                return
        if flat[reading.end : reading.end + 1] == ")" and "(" in flat[place - 1 : reading.end]:
            reading.end += 1


def _slash_page(flat: str, reading: Reading, last: int) -> bool:
    match = _SLASH_PAGE.match(flat, reading.end, last)
    if not match or reading.page or not reading.places or reading.places[-1] != "chapter":
        return False
    return _take(reading, match, "page", match["value"])


def _take(reading: Reading, match: re.Match, sort: str, value: str) -> bool:
    setattr(reading, sort, value)
    reading.places.append(sort)
    reading.end = match.end()
    return True


def _revision(flat: str, place: int, reading: Reading, last: int) -> bool:
    if match := _CURRENT.match(flat, place, last):
        reading.current = True
        reading.places.append("current")
        reading.end = match.end()
        return True
    if reading.revision:
        return False
    if match := _ORIGINAL.match(flat, place, last):
        return _take(reading, match, "revision", "original")
    match = _REVISION.match(flat, place, last) or _SHORT.match(flat, place, last)
    if not match or match["mark"].lower() in _NO_MARK:
        return False
    mark = match["mark"]
    first = re.match("orig|initial|basic", mark, re.IGNORECASE)
    return _take(reading, match, "revision", "original" if first else mark)


def _date(flat: str, place: int, reading: Reading, last: int) -> bool:
    if reading.date_words:
        return False
    said = _DATED.match(flat, place, last)
    match = DATE.match(flat, said.end() if said else place, last)
    if not match or not said and reading.type is Type.AIRWORTHINESS_DIRECTIVE:
        return False
    if not match["m4"] and read_date(match[0]) is None:
        return False
    if not said and _may_be_chapter(match) and _is_next_chapter(flat, place, reading):
        return False
    return _take(reading, match, "date_words", match[0])


def _may_be_chapter(match: re.Match) -> bool:
    return bool(re.fullmatch("[0-9]{2}-[0-9]{2}-[0-9]{2}", match[0])) and is_chapter(match["first"])


def _is_next_chapter(flat: str, place: int, reading: Reading) -> bool:
    """Whether a list of chapters goes on: "AMM 12-10-00, 12-20-00"."""
    after = reading.places[-1] if reading.places else ""
    comma = "," in flat[reading.end : place]
    return reading.chapter is not None and (after == "chapter" or comma and after in ("page", "figure"))


def _chapter(flat: str, place: int, reading: Reading, last: int) -> bool:
    if reading.chapter or reading.type in _NO_CHAPTERS or reading.type is Type.ADVISORY_CIRCULAR:
        return False
    match = _CHAPTER.match(flat, place, last)
    if not match or not is_chapter(match["a"]):
        return False
    section, subject = match["b"] or match["b1"] or match["b2"], match["c"] or match["c1"] or match["c2"]
    word = match["word"].strip(" .").lower()
    if subject is None and (word.startswith("p") or reading.type in _OWN_ORDER and not word):
        return False
    if subject is None and (match["task"] or match["x"] or match["pg"]):
        return False
    reading.chapter = ChapterNumber(match["a"], section, subject)
    if match["task"]:
        reading.task = f"{reading.chapter}-{match['task']}"
    elif match["x"]:
        reading.figure, reading.item = match["x"], match["y"] or ""
    elif match["pg"]:
        reading.page = match["pg"]
    reading.places.append("chapter")
    reading.end = match.end()
    return True


def _own_chapter(flat: str, place: int, reading: Reading, last: int) -> bool:
    if reading.chapter or reading.type in _NO_CHAPTERS:
        return False
    match = _OWN_CHAPTER.match(flat, place, last)
    if not match:
        return False
    value, section = match["value"], match["section"]
    chapter_word = match["word"].lower()[:1] in "ac"
    if chapter_word and re.fullmatch("[0-9]{2}", value) and reading.type is not Type.ADVISORY_CIRCULAR:
        if not is_chapter(value):
            return False
        digits = section if section and re.fullmatch("[0-9]{2}", section) else None
        reading.chapter = ChapterNumber(value, digits)
        if section and not digits:
            match = _OWN_CHAPTER.match(flat, place, match.end("value")) or match
    else:
        reading.chapter = ChapterNumber(
            value.upper() if value.isalpha() else value, section, scheme=Scheme.OWN
        )
    reading.places.append("chapter")
    reading.end = match.end("section") if section and reading.chapter.section else match.end("value")
    return True


def _page(flat: str, place: int, reading: Reading, last: int) -> bool:
    match = PAGE.match(flat, place, last)
    if not match or reading.page:
        return False
    return _take(reading, match, "page", value_of(match))


def value_of(match: re.Match) -> str:
    """The value of a match of PAGE, FIGURE or PARAGRAPH; a range is one text."""
    groups = match.groupdict()
    if groups.get("last"):
        return f"{groups['value']} through {groups['last']}"
    one = "".join(groups["one"].split())
    return f"{one} through {''.join(groups['until'].split())}" if groups["until"] else one


def _figure(flat: str, place: int, reading: Reading, last: int) -> bool:
    match = FIGURE.match(flat, place, last)
    if not match and reading.type is Type.PARTS_CATALOG:
        match = _ATTACHED_FIGURE.match(flat, place, last)
    if not match or reading.figure:
        return False
    return _take(reading, match, "figure", value_of(match))


def _item(flat: str, place: int, reading: Reading, last: int) -> bool:
    match = _ITEM.match(flat, place, last)
    if not match and reading.type is Type.PARTS_CATALOG:
        match = _ATTACHED_ITEM.match(flat, place, last)
    if not match or reading.item or not (reading.figure or reading.type is Type.PARTS_CATALOG):
        return False
    return _take(reading, match, "item", match["value"])


def _paragraph(flat: str, place: int, reading: Reading, last: int) -> bool:
    if reading.paragraph:
        return False
    match = PARAGRAPH.match(flat, place, last)
    if not match and reading.type is Type.AIRWORTHINESS_DIRECTIVE:
        match = _BARE_LETTERS.match(flat, reading.end, last)
    if not match and reading.type is Type.SERVICE_MANUAL and not reading.page:
        match = _OWN_PARAGRAPH.match(flat, place, last)
    return bool(match) and _take(reading, match, "paragraph", value_of(match))


def _part(flat: str, place: int, reading: Reading, last: int) -> bool:
    match = _PART.match(flat, place, last)
    if not match or reading.paragraph:
        return False
    return _take(reading, match, "paragraph", " ".join(match["value"].split()))


def _passed(flat: str, place: int, reading: Reading, last: int) -> bool:
    """A sheet, a step, a table: part of the citation that no field holds."""
    match = _PASSED.match(flat, place, last)
    if not match:
        return False
    reading.end = match.end()
    return True


_STEPS = (_revision, _chapter, _own_chapter, _date, _page, _figure, _item, _paragraph, _part, _passed)
