"""A notice that forbids use of the whole document, where it stands in a notice's place.

A notice's place: the title page, a head or foot of most pages, or a paragraph headed "Notice" in the front
pages. The same words on a drawing, beside a dimension or in running text further on block nothing of the
document.
"""

import re
from collections.abc import Mapping, Sequence

from indexer.reading.page import Page, TextState
from indexer.tagging.flow import PrintedLine, one_line, plain
from indexer.tagging.placed_words import PlacedWords, Reach
from indexer.tagging.title_block import title_block
from indexer.tagging.zone_columns import segments
from indexer.trade.approval_words import ApprovalKind
from indexer.trade.evidence import Evidence
from indexer.trade.publication_types import PublicationType as Type

_FRONT_PAGES = 3
_MOST_PAGES = 0.5
_NOTICE_HEADING = re.compile(
    r"^\W*(?:important\s+)?(?:notice|disclaimer|caution notice|legal notice)\b", re.IGNORECASE
)
_DRAFT = re.compile(
    r"^\W*(?:working\s+|preliminary\s+|review\s+)?draft\b(?:\s+\d+|\s+only|\s+copy|\s+for\b.*|\s*[-:,].*)?\W*$"
    r"|^\W*preliminary\s*(?:copy|issue|edition)?\W*$|^\W*not\s+(?:yet\s+)?(?:issued|released)\b",
    re.IGNORECASE,
)
_ABOUT_ASSEMBLY = re.compile(r"maintenance|assembl", re.IGNORECASE)


def blocking_notice(
    kind: Type | None, pages: Sequence[Page], placed: Mapping[int, tuple[PlacedWords, ...]]
) -> PlacedWords | None:
    """The notice that blocks the document, None when there is none."""
    with_text = [page for page in pages if page.state is TextState.TEXT]
    if not with_text:
        return None
    for page in with_text[:_FRONT_PAGES]:
        for words in _notices(placed[page.pdf_page], kind):
            if words.zone == "body" and _in_notice_place(page, page is with_text[0], words):
                return words
    return _on_most_pages(kind, with_text, placed)


def draft_mark(pages: Sequence[Page]) -> Evidence | None:
    """The line that marks the paper as a draft: on its title page, or in a head or foot; None without one."""
    titles = title_block(pages).lines
    running = [
        PrintedLine(page.pdf_page, line, page.origin) for page in pages for line in (*page.head, *page.foot)
    ]
    for line in (*titles, *running):
        if any(_DRAFT.search(one_line(segment.text)) for segment in segments(line.line)):
            return line.evidence("marked as a draft")
    return None


def _in_notice_place(page: Page, title_page: bool, words: PlacedWords) -> bool:
    if words.speaks_of_this and words.reach is Reach.DOCUMENT or _headed_notice(page, words):
        return True
    lines = sum(len(one_line(line.text)) for line in words.lines)
    return title_page and not words.speaks_of_this and lines <= len(one_line(words.words.quote)) + 12


def _on_most_pages(
    kind: Type | None, pages: Sequence[Page], placed: Mapping[int, tuple[PlacedWords, ...]]
) -> PlacedWords | None:
    running = []
    for page in pages:
        marks = [
            words
            for words in _notices(placed[page.pdf_page], kind)
            if words.zone != "body" or not words.speaks_of_this
        ]
        running.extend(marks[:1])
    return running[0] if running and len(running) >= _MOST_PAGES * len(pages) else None


def _notices(placed: Sequence[PlacedWords], kind: Type | None) -> list[PlacedWords]:
    """A parts catalog's usual "not for maintenance" says that it shows parts and no procedures; it does
    not block."""
    return [
        words
        for words in placed
        if words.words.kind is ApprovalKind.BLOCKS
        and not (kind is Type.PARTS_CATALOG and _ABOUT_ASSEMBLY.search(words.words.quote))
    ]


def _headed_notice(page: Page, words: PlacedWords) -> bool:
    first = page.body.index(words.lines[0])
    above = [plain(one_line(line.text)) for line in page.body[max(0, first - 4) : first + 1]]
    return any(_NOTICE_HEADING.match(line) for line in above)
