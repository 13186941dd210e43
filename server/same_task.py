"""Pages of one task: a temporary revision of one of them is read before the work of any of them begins.

A task's pages are those of one chapter-section-subject in one block of a hundred page numbers (ATA iSpec 2200
as used, common practice, no source).
"""

from collections.abc import Sequence

from indexer.library.catalogue import Catalogue
from indexer.library.records import OverrideState, PageOverride, PublicationRecord
from server.page_lookup import passages_on


def changed_beside(
    catalogue: Catalogue, publication: PublicationRecord, pdf_page: int, overrides: Sequence[PageOverride]
) -> list[tuple[str, PageOverride]]:
    """Overrides, not superseded, of other pages of the task that a page (1-based) is of: each with the number
    printed on the page it changes, "" = none. `overrides`: all of the publication."""
    others = [
        each for each in overrides if each.pdf_page != pdf_page and each.state is not OverrideState.SUPERSEDED
    ]
    if not others:
        return []
    mine = _tasks(catalogue, publication, pdf_page)
    found = []
    for each in others:
        there = _tasks(catalogue, publication, each.pdf_page)
        if mine.keys() & there.keys():
            found.append((next(iter(there.values())), each))
    return found


def _tasks(
    catalogue: Catalogue, publication: PublicationRecord, pdf_page: int
) -> dict[tuple[object, ...], str]:
    """The tasks that a page has a part of -> the page number printed on it."""
    found = {}
    for passage in passages_on(catalogue, publication, pdf_page):
        if passage.pdf_page != pdf_page or not passage.numbers:
            continue
        printed = passage.printed_page
        block = (
            int(printed) // 100 if printed.isdecimal() else passage.page_block and passage.page_block.value
        )
        number = passage.numbers[0].value
        found[(number.scheme, number.chapter, number.section, number.subject, block)] = printed
    return found
