"""Pages and passages of straightened pages -> the same on the pages as displayed: skew and turn put back."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from indexer.reading.frame import tenth, turned_word
from indexer.reading.page import Line, Page, Passage, Table
from indexer.reading.straightened import Straightening
from indexer.trade.evidence import Box, PageBox


def displayed_page(page: Page, straightening: Straightening) -> Page:
    """The page with every box as displayed. Words are mapped one by one and then joined to lines."""

    def lines(straight: Sequence[Line]) -> tuple[Line, ...]:
        return tuple(_displayed_line(line, straightening) for line in straight)

    return replace(
        page,
        width=straightening.width,
        height=straightening.height,
        head=lines(page.head),
        foot=lines(page.foot),
        body=lines(page.body),
        tables=tuple(Table(displayed_box(table.box, straightening), table.rows) for table in page.tables),
        skew=straightening.skew,
    )


def displayed_passage(passage: Passage, straightenings: Mapping[int, Straightening]) -> Passage:
    """The passage with its boxes as displayed; those on pages that were not straightened stay."""
    if not any(each.pdf_page in straightenings for each in passage.boxes):
        return passage
    return replace(
        passage,
        boxes=tuple(
            PageBox(each.pdf_page, displayed_box(each.box, straightenings[each.pdf_page]))
            if each.pdf_page in straightenings
            else each
            for each in passage.boxes
        ),
    )


def displayed_box(box: Box, straightening: Straightening) -> Box:
    """The box on the page as displayed, cut where it reaches over the edge."""
    whole = straightening.displayed(box)
    width, height = straightening.width, straightening.height
    return Box(
        tenth(min(max(whole.x0, 0.0), width)),
        tenth(min(max(whole.top, 0.0), height)),
        tenth(min(max(whole.x1, 0.0), width)),
        tenth(min(max(whole.bottom, 0.0), height)),
    )


def _displayed_line(line: Line, straightening: Straightening) -> Line:
    words = tuple(turned_word(word, lambda box: displayed_box(box, straightening)) for word in line.words)
    box = words[0].box
    for word in words[1:]:
        box = box.union(word.box)
    return replace(line, words=words, box=box)
