"""The twin's maintenance manual: front matter, then its sections in order of number."""

import datetime
import io

from sample_docs.draw.book import Topic, draw_book
from sample_docs.draw.facts import PageFacts, PublicationFacts
from sample_docs.draw.fleet import MAKER_TWIN, TWIN, TWIN_SURVEY
from sample_docs.draw.looks_of import TWIN_MANUAL
from sample_docs.draw.twin_manual import (
    chapter_04,
    chapter_32_brakes,
    chapters_05_12,
    chapters_24_25,
    chapters_27_30,
    chapters_32_35,
    chapters_52_79,
    front_matter,
)
from sample_docs.draw.twin_manual.section import Section

MANUAL = PublicationFacts(
    file="qz62-maintenance-manual.pdf",
    type="maintenance-manual",
    number="QZM-62-2",
    title="Maintenance Manual",
    maker=MAKER_TWIN,
    models=(TWIN, TWIN_SURVEY),
    revision="6",
    date=datetime.date(2031, 3, 14),
)

SECTIONS = (
    *chapter_04.SECTIONS,
    *chapters_05_12.SECTIONS,
    *chapters_24_25.SECTIONS,
    *chapters_27_30.SECTIONS,
    *chapters_32_35.SECTIONS_NOSE,
    *chapter_32_brakes.SECTIONS,
    *chapters_32_35.SECTIONS,
    *chapters_52_79.SECTIONS,
)
REVISION_DATE = "Mar 14/2031"


def topics() -> list[Topic]:
    """Everything in page order. The list of effective pages lists itself: it is drawn until it is stable."""
    body = _body()
    body_pages = draw_book(io.BytesIO(), body)
    front_pages: list[PageFacts] = []
    while True:
        front = _front(front_pages + body_pages)
        drawn = draw_book(io.BytesIO(), front)
        if drawn == front_pages:
            return [*front, *body]
        front_pages = drawn


def _front(pages: list[PageFacts]) -> list[Topic]:
    lists = (
        ("T-1", "Title page", front_matter.TITLE),
        ("RR-1", "Record of revisions", front_matter.RECORD),
        ("RTR-1", "Record of temporary revisions", front_matter.TEMPORARY),
        ("HL-1", "Highlights", front_matter.HIGHLIGHTS),
        ("LEP-1", "List of effective pages", front_matter.effective_pages(pages)),
        ("TC-1", "Contents", front_matter.contents(pages)),
    )
    made = []
    for printed_page, title, text in lists:
        facts = PageFacts(MANUAL, printed_page=printed_page, page_date=REVISION_DATE, title=title)
        made.append(Topic(facts, text, TWIN_MANUAL, (1, title)))
    introduction = Section("00-00-00", "1", "Introduction", "Jun 02/2028", front_matter.INTRODUCTION)
    return [*made, _topic(introduction, level=1)]


def _body() -> list[Topic]:
    made, chapter = [], ""
    for section in SECTIONS:
        new_chapter = section.number[:2] != chapter
        chapter = section.number[:2]
        made.append(_topic(section, level=1 if new_chapter else 2))
    return made


def _topic(section: Section, level: int) -> Topic:
    facts = PageFacts(
        MANUAL,
        printed_page=section.start,
        number=section.number,
        scheme="ATA",
        page_block=section.block,
        page_date=section.date,
        title=section.title,
        effectivity=section.effectivity,
        data_standing=section.data_standing,
        directive=section.directive,
        note=section.note,
    )
    bookmark = (level, f"{section.number} {section.title} - {section.block}")
    return Topic(facts, section.text, TWIN_MANUAL, bookmark, section.later_pages)
