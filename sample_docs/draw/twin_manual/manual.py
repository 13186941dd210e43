"""The twin's maintenance manual: its sections in order, between its front matter and the bookmarks."""

import datetime

from sample_docs.draw.book import Topic
from sample_docs.draw.facts import PageFacts, PublicationFacts
from sample_docs.draw.fleet import MAKER_TWIN, TWIN, TWIN_SURVEY
from sample_docs.draw.looks_of import TWIN_MANUAL
from sample_docs.draw.twin_manual import chapter_04, chapter_32_brakes

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

SECTIONS = (*chapter_04.SECTIONS, *chapter_32_brakes.SECTIONS)


def topics() -> list[Topic]:
    """Everything in page order."""
    made = []
    for section in SECTIONS:
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
        bookmark = (1, f"{section.number} {section.title} - {section.block}")
        made.append(Topic(facts, section.text, TWIN_MANUAL, bookmark, section.later_pages))
    return made
