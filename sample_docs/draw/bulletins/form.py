"""A bulletin or letter as topics: parts that follow each other, each with its own changes to the facts."""

from dataclasses import replace

from sample_docs.draw.book import CONTINUES, Topic
from sample_docs.draw.facts import PageFacts, PublicationFacts
from sample_docs.draw.looks import Look

Part = tuple[str, dict]


def long_date(publication: PublicationFacts) -> str:
    """ "February 20, 2031"."""
    return f"{publication.date:%B} {publication.date.day}, {publication.date.year}"


def topics(
    publication: PublicationFacts, parts: list[Part], look: Look, number: str = "", **facts
) -> list[Topic]:
    """`number` is the ATA number the document prints, "" when it prints none. Each part begins a page."""
    base = PageFacts(
        publication,
        printed_page="1",
        number=number,
        scheme="ATA" if number else "",
        page_date=long_date(publication),
        **facts,
    )
    made = []
    for position, (text, changes) in enumerate(parts):
        page = "1" if position == 0 else CONTINUES
        made.append(Topic(replace(base, printed_page=page, **changes), text, look))
    return made
