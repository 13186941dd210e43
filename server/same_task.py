"""Pages of one task: a temporary revision of one of them is read before the work of any of them begins.

A task's pages are those of one chapter-section-subject in one block of a hundred page numbers (ATA iSpec 2200
as used, common practice, no source).
"""

from collections.abc import Mapping, Sequence

from indexer.library.catalogue import Catalogue
from indexer.library.page_facts import filed_pages_of
from indexer.library.records import OverrideState, PageOverride, PublicationRecord

Tasks = Mapping[
    int, Mapping[tuple[object, ...], str]
]  # pdf page -> its tasks -> the page number printed on it


def tasks_of(catalogue: Catalogue, publication: PublicationRecord) -> Tasks:
    """The tasks that each page (1-based) of a publication has a part of."""
    found: dict[int, dict[tuple[object, ...], str]] = {}
    for each in filed_pages_of(catalogue, publication.id, publication.copy_id):
        printed = each.printed_page
        block = int(printed) // 100 if printed.isdecimal() else each.page_block
        found.setdefault(each.pdf_page, {})[(*each.number, block)] = printed
    return found


def changed_beside(
    tasks: Tasks, pdf_page: int, overrides: Sequence[PageOverride]
) -> list[tuple[str, PageOverride]]:
    """Overrides, not superseded, of other pages of the task that a page (1-based) is of: each with the number
    printed on the page it changes, "" = none. `overrides`: all of the publication."""
    mine = tasks.get(pdf_page, {})
    found = []
    for each in overrides:
        if each.pdf_page == pdf_page or each.state is OverrideState.SUPERSEDED:
            continue
        there = tasks.get(each.pdf_page, {})
        if mine.keys() & there.keys():
            found.append((next(iter(there.values())), each))
    return found
