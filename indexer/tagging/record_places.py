"""What a record says after the name of a source: revision, date, chapter, page, figure, item, paragraph.

They come in any order, with or without commas, and each is read once: "MM 32-41-00 P401 REV 6 3-14-31".
"""

import datetime
import re
from dataclasses import dataclass, field

from indexer.tagging import record_place_words as words
from indexer.tagging.record_dates import DATE, read_date
from indexer.trade.chapters import ChapterNumber, Scheme, is_chapter
from indexer.trade.publication_types import PublicationType as Type


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
    def date(self) -> datetime.date | None:
        return read_date(self.date_words) if self.date_words else None


# Types whose chapters are not told by chapter-section-subject numbers alone.
_NO_CHAPTERS = frozenset(
    {
        Type.SERVICE_BULLETIN, Type.SERVICE_LETTER, Type.AIRWORTHINESS_DIRECTIVE, Type.TEMPORARY_REVISION,
        Type.SUPPLEMENTAL_TYPE_CERTIFICATE, Type.TYPE_CERTIFICATE_DATA_SHEET, Type.AIRWORTHINESS_BULLETIN,
        Type.REPAIR_ALTERATION_RECORD, Type.ENGINEERING_APPROVAL, Type.RELEASE_CERTIFICATE,
        Type.PARTS_APPROVAL,
        Type.AMOC_LETTER, Type.PROPOSED_DIRECTIVE, Type.PROCESS_SPECIFICATION, Type.REGULATION,
    }
)  # fmt: skip
# Types whose chapter-section-subject is so usual that six digits together are one: "MM 324100".
_BY_CHAPTER = frozenset(
    {
        Type.MAINTENANCE_MANUAL, Type.STRUCTURAL_REPAIR_MANUAL, Type.COMPONENT_MAINTENANCE_MANUAL,
        Type.PARTS_CATALOG, Type.WIRING_DIAGRAM_MANUAL, Type.STANDARD_PRACTICES_MANUAL,
    }
)  # fmt: skip
_OWN_ORDER = frozenset({Type.SERVICE_MANUAL, Type.ENGINE_MANUAL, Type.PROPELLER_MANUAL, Type.FLIGHT_MANUAL})


def read_places(flat: str, reading: Reading, last: int) -> None:
    """Read on from `reading.end` for as long as the words are places in the source; not beyond `last`."""
    while True:
        place = reading.end
        if not _slash_page(flat, reading, last):
            place = words.BETWEEN.match(flat, reading.end, last).end()
            glued = place == reading.end
            if not any(step(flat, place, reading, last) for step in _STEPS):
                return
            if glued and reading.end == place:
                return
        if flat[reading.end : reading.end + 1] == ")" and "(" in flat[place - 1 : reading.end]:
            reading.end += 1


def _slash_page(flat: str, reading: Reading, last: int) -> bool:
    match = words.SLASH_PAGE.match(flat, reading.end, last)
    if not match or reading.page or not reading.places or reading.places[-1] != "chapter":
        return False
    return _take(reading, match, "page", match["value"])


def _take(reading: Reading, match: re.Match, sort: str, value: str) -> bool:
    setattr(reading, sort, value)
    reading.places.append(sort)
    reading.end = match.end()
    return True


def _revision(flat: str, place: int, reading: Reading, last: int) -> bool:
    if match := words.CURRENT.match(flat, place, last):
        reading.current = True
        reading.places.append("current")
        reading.end = match.end()
        return True
    if reading.revision:
        return False
    if match := words.ORIGINAL.match(flat, place, last):
        return _take(reading, match, "revision", "original")
    match = words.REVISION.match(flat, place, last) or words.SHORT.match(flat, place, last)
    if not match or match["mark"].lower() in words.NO_MARK:
        return False
    mark = match["mark"]
    first = re.match("orig|initial|basic", mark, re.IGNORECASE)
    return _take(reading, match, "revision", "original" if first else mark)


def _date(flat: str, place: int, reading: Reading, last: int) -> bool:
    if reading.date_words:
        return False
    said = words.DATED.match(flat, place, last)
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
    match = words.CHAPTER.match(flat, place, last)
    if not match or not is_chapter(match["a"]):
        return False
    section, subject = _first(match, "b"), _first(match, "c")
    word = match["word"].strip(" .").lower()
    if match["b3"] and reading.type not in _BY_CHAPTER:
        return False
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


def _first(match: re.Match, group: str) -> str | None:
    return next((match[name] for name in (group, *(f"{group}{n}" for n in "123")) if match[name]), None)


def _own_chapter(flat: str, place: int, reading: Reading, last: int) -> bool:
    if reading.chapter or reading.type in _NO_CHAPTERS:
        return False
    if match := words.SECTION_FIRST.match(flat, place, last):
        reading.chapter = ChapterNumber(match["value"].upper(), match["section"], scheme=Scheme.OWN)
        reading.places.append("chapter")
        reading.end = match.end()
        return True
    match = words.OWN_CHAPTER.match(flat, place, last)
    if not match:
        return False
    value, section = match["value"], match["section"]
    if section and section.startswith(f"{value}-"):
        section = section.removeprefix(f"{value}-")  # "ch 5, section 5-23"
    if match["until"]:  # several sections of one chapter: the chapter is what is cited
        section = None
    chapter_word = match["word"].lower()[:1] in "ac"
    if chapter_word and re.fullmatch("[0-9]{2}", value) and reading.type is not Type.ADVISORY_CIRCULAR:
        if not is_chapter(value):
            return False
        digits = section if section and re.fullmatch("[0-9]{2}", section) else None
        reading.chapter = ChapterNumber(value, digits, match["subject"] if digits else None)
        if section and not digits:
            match = words.OWN_CHAPTER.match(flat, place, match.end("value")) or match
    else:
        reading.chapter = ChapterNumber(
            value.upper() if value.isalpha() else value, section, scheme=Scheme.OWN
        )
    reading.places.append("chapter")
    reading.end = match.end("section") if section and reading.chapter.section else match.end("value")
    if match["until"] or reading.chapter.subject:
        reading.end = match.end()
    return True


def _page(flat: str, place: int, reading: Reading, last: int) -> bool:
    match = words.PAGE.match(flat, place, last)
    if not match or reading.page:
        return False
    return _take(reading, match, "page", value_of(match))


def value_of(match: re.Match) -> str:
    """The value of a match of words.PAGE, words.FIGURE or words.PARAGRAPH; a range is one text."""
    groups = match.groupdict()
    if groups.get("last"):
        return f"{groups['value']} through {groups['last']}"
    one = "".join(groups["one"].split())
    return f"{one} through {''.join(groups['until'].split())}" if groups["until"] else one


def _figure(flat: str, place: int, reading: Reading, last: int) -> bool:
    match = words.FIGURE.match(flat, place, last)
    if not match and reading.type is Type.PARTS_CATALOG:
        match = words.ATTACHED_FIGURE.match(flat, place, last)
    if not match or reading.figure:
        return False
    return _take(reading, match, "figure", value_of(match))


def _item(flat: str, place: int, reading: Reading, last: int) -> bool:
    match = words.ITEM.match(flat, place, last)
    if not match and reading.type is Type.PARTS_CATALOG:
        match = words.ATTACHED_ITEM.match(flat, place, last)
    if not match or reading.item or not (reading.figure or reading.type is Type.PARTS_CATALOG):
        return False
    return _take(reading, match, "item", match["value"])


def _paragraph(flat: str, place: int, reading: Reading, last: int) -> bool:
    if reading.paragraph:
        return False
    match = words.PARAGRAPH.match(flat, place, last)
    if not match and reading.type is Type.AIRWORTHINESS_DIRECTIVE:
        match = words.BARE_LETTERS.match(flat, reading.end, last)
    if not match and reading.type is Type.SERVICE_MANUAL and not reading.page:
        match = words.OWN_PARAGRAPH.match(flat, place, last)
    return bool(match) and _take(reading, match, "paragraph", value_of(match))


def _part(flat: str, place: int, reading: Reading, last: int) -> bool:
    match = words.PART.match(flat, place, last)
    if not match or reading.paragraph:
        return False
    return _take(reading, match, "paragraph", " ".join(match["value"].split()))


def _passed(flat: str, place: int, reading: Reading, last: int) -> bool:
    """A sheet, a step, a table: part of the citation that no field holds."""
    match = words.PASSED.match(flat, place, last)
    if not match:
        return False
    reading.end = match.end()
    return True


_STEPS = (_revision, _chapter, _own_chapter, _date, _page, _figure, _item, _paragraph, _part, _passed)
