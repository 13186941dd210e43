"""The search page before anything was asked: aircraft of the fleet, and chapters that hold something."""

from dataclasses import dataclass

from indexer.library.fulltext import FullTextQuery
from indexer.trade.chapters import all_chapters
from server.fleet import registrations
from server.looking import EVERYTHING
from server.opened import LibraryState, OpenedLibrary
from server.question import NO_NUMBER
from server.routes.addresses import Asked, Chip
from server.routes.in_hand import choose_address
from server.search import listing_address
from server.words import chapter_words

MOST_AIRCRAFT = 12  # as chips; the rest stand in the list


@dataclass(frozen=True, slots=True)
class StartView:
    """more_aircraft = where the rest of the fleet is, "" = all are shown"""

    aircraft: tuple[Chip, ...]
    more_aircraft: str
    chapters: tuple[Chip, ...]
    registration: str


def start_view(library: OpenedLibrary, registration: str) -> tuple[LibraryState, StartView]:
    """`registration` = of the aircraft in hand; "" = none is."""
    with library.reading() as status:
        held = library.engine.search(FullTextQuery(filters=EVERYTHING), 0, 0)
        counts = {found.chapter: found.count for found in held.chapters}
        chapters = [
            Chip(f"{number} {chapter_words(number)}", listing_address(number), counts[number])
            for number in all_chapters()
            if counts.get(number)
        ]
        if counts.get(""):
            chapters.append(Chip(chapter_words(""), Asked(chapter=(NO_NUMBER,)).address, counts[""]))
        fleet = registrations(library)
        aircraft = [
            Chip(each, choose_address("/", "" if each == registration else each), on=each == registration)
            for each in fleet[:MOST_AIRCRAFT]
        ]
        more = choose_address("/") if len(fleet) > MOST_AIRCRAFT else ""
        return library.state(status), StartView(tuple(aircraft), more, tuple(chapters), registration)
