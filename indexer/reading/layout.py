"""Raw pages -> pages: lines in reading order."""

from collections.abc import Sequence

from indexer.reading.page import Page, TextState
from indexer.reading.raw_page import RawPage
from indexer.reading.rows import line_of, printed_runs, rows_of
from indexer.trade.evidence import Origin


def lay_out(raw_pages: Sequence[RawPage | Page]) -> tuple[Page, ...]:
    """Lay out all pages of one file. A page that failed to parse is passed through."""
    return tuple(page if isinstance(page, Page) else _page(page) for page in raw_pages)


def _page(raw: RawPage) -> Page:
    lines = tuple(
        line_of(row)
        for direction in sorted(raw.words)
        for row in rows_of(printed_runs(raw.words[direction]))
    )
    if lines:
        state = TextState.TEXT
    else:
        state = TextState.NO_TEXT if raw.picture_part or raw.has_drawing else TextState.BLANK
    return Page(
        pdf_page=raw.pdf_page,
        width=raw.width,
        height=raw.height,
        rotation=raw.rotation,
        state=state,
        label=raw.label,
        body=lines,
        origin=Origin.HIDDEN_OCR if raw.hidden else Origin.DIGITAL,
    )
