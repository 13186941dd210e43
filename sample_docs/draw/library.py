"""Every publication of the sample library: file name -> its topics, and the truth of its pages."""

from collections.abc import Callable, Iterable
from pathlib import Path

from sample_docs.draw import handbook, scanned_manual, temporary_revision
from sample_docs.draw.book import Topic, draw_book
from sample_docs.draw.bulletins import (
    alternator_arm,
    brake_letter,
    brake_tie_bolts,
    door_latch,
    oxygen_alert,
    pellworth_bound,
)
from sample_docs.draw.directives import brakes, doors, fuel_selector, proposal
from sample_docs.draw.facts import PageFacts
from sample_docs.draw.retractable import shop_manual
from sample_docs.draw.single import parts_list, service_manual
from sample_docs.draw.twin_books import flight_supplement, parts_catalog, repair_manual
from sample_docs.draw.twin_manual import manual

FILES: tuple[Callable[[], list[Topic]], ...] = (
    manual.topics,
    parts_catalog.topics,
    repair_manual.topics,
    flight_supplement.topics,
    temporary_revision.topics,
    brake_tie_bolts.revision_b,
    brake_tie_bolts.revision_c,
    alternator_arm.topics,
    door_latch.old,
    door_latch.new,
    oxygen_alert.topics,
    brake_letter.topics,
    pellworth_bound.topics,
    brakes.topics,
    doors.old,
    doors.new,
    fuel_selector.topics,
    proposal.topics,
    proposal.amoc_letter,
    service_manual.topics,
    parts_list.topics,
    shop_manual.topics,
    handbook.topics,
    scanned_manual.topics,
)


def draw_all(folder: Path) -> dict[str, list[PageFacts]]:
    """Draw every PDF into `folder`; returns the facts of every page of every file, in order."""
    folder.mkdir(parents=True, exist_ok=True)
    drawn: dict[str, list[PageFacts]] = {}
    for make in FILES:
        topics = make()
        file = topics[0].facts.publication.file
        drawn[file] = draw_book(folder / file, topics)
    return drawn


def all_pages(drawn: dict[str, list[PageFacts]]) -> Iterable[tuple[str, int, PageFacts]]:
    """Every page as (file, pdf_page, facts); pdf_page is 1-based."""
    for file, pages in drawn.items():
        for pdf_page, facts in enumerate(pages, start=1):
            yield file, pdf_page, facts
