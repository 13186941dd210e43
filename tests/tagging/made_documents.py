"""Documents made by hand: lines of text with boxes where a page would have them. No PDF is opened."""

import textwrap
from collections.abc import Sequence

from indexer.reading.page import Document, Line, OutlineEntry, Page, Passage, PassageKind, TextState, Word
from indexer.trade.evidence import Box, PageBox

_WIDTH, _HEIGHT, _LEFT = 612.0, 792.0, 54.0


def line(text: str, top: float = 100.0, size: float = 10.0, bold: bool = False, level: int = 0) -> Line:
    """One line; half an em a character. A line that begins with "# " is a heading, set large and bold."""
    if text.startswith("# "):
        text, size, bold, level = text[2:], size * 1.8, True, 1
    words, x = [], _LEFT
    for word in text.split():
        width = size * 0.5 * len(word)
        words.append(Word(word, Box(x, top, x + width, top + size), size, bold))
        x += width + size * 0.3
    return Line(tuple(words), Box(_LEFT, top, max(x, _LEFT + 1), top + size), 0, level)


def page(
    number: int,
    body: str = "",
    head: Sequence[str] = (),
    foot: Sequence[str] = (),
    printed_page: str = "",
) -> Page:
    """A page whose body is the text's lines; "# " marks a heading."""
    lines = [text for text in body.splitlines() if text.strip()]
    return Page(
        pdf_page=number,
        width=_WIDTH,
        height=_HEIGHT,
        rotation=0,
        state=TextState.TEXT if lines or head or foot else TextState.BLANK,
        printed_page=printed_page,
        head=tuple(line(text, 30 + 12 * place) for place, text in enumerate(head)),
        foot=tuple(line(text, 750 + 12 * place) for place, text in enumerate(foot)),
        body=tuple(line(text.strip(), 72 + 12 * place) for place, text in enumerate(lines)),
    )


def passage(page: Page, ordinal: int, headings: tuple[str, ...], lines: Sequence[Line]) -> Passage:
    box = lines[0].box
    for each in lines[1:]:
        box = box.union(each.box)
    text = "\n".join(each.text for each in lines)
    return Passage(ordinal, page.pdf_page, (PageBox(page.pdf_page, box),), headings, text, PassageKind.TEXT)


def document(
    *pages: Page,
    outline: Sequence[OutlineEntry] = (),
    properties: dict[str, str] | None = None,
) -> Document:
    """A document; each page is cut into passages at its headings, and a heading holds until the next."""
    passages: list[Passage] = []
    headings: tuple[str, ...] = ()
    for each in pages:
        lines: list[Line] = []
        for row in each.body:
            if row.heading_level and lines:
                passages.append(passage(each, len(passages), headings, lines))
                lines = []
            if row.heading_level:
                headings = (row.text,)
            lines.append(row)
        if lines:
            passages.append(passage(each, len(passages), headings, lines))
    return Document(
        "made-by-hand.pdf", "0" * 64, properties or {}, tuple(outline), tuple(pages), tuple(passages)
    )


def document_of_text(text: str, width: int = 100, lines_a_page: int = 55) -> Document:
    """A published plain text as pages of wrapped lines, in the text's order."""
    rows = [
        row for paragraph in text.splitlines() if paragraph.strip() for row in textwrap.wrap(paragraph, width)
    ]
    starts = range(0, len(rows), lines_a_page)
    return document(
        *(
            page(number, "\n".join(rows[start : start + lines_a_page]))
            for number, start in enumerate(starts, 1)
        )
    )


def document_of_lines(text: str, lines_a_page: int = 55) -> Document:
    """A text as pages of its own lines, unwrapped."""
    rows = [row for row in text.splitlines() if row.strip()]
    starts = range(0, len(rows), lines_a_page)
    return document(
        *(
            page(number, "\n".join(rows[start : start + lines_a_page]))
            for number, start in enumerate(starts, 1)
        )
    )
