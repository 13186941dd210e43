"""Pages -> passages."""

from collections.abc import Sequence

from indexer.reading.page import Line, Page, Passage, PassageKind
from indexer.trade.evidence import PageBox

_MOST_WORDS = 200


def cut_passages(pages: Sequence[Page]) -> tuple[Passage, ...]:
    passages: list[Passage] = []
    for page in pages:
        lines: list[Line] = []
        words = 0
        for line in page.body:
            if words + len(line.words) > _MOST_WORDS and lines:
                passages.append(_passage(len(passages), page, lines))
                lines, words = [], 0
            lines.append(line)
            words += len(line.words)
        if lines:
            passages.append(_passage(len(passages), page, lines))
    return tuple(passages)


def _passage(ordinal: int, page: Page, lines: list[Line]) -> Passage:
    box = lines[0].box
    for line in lines[1:]:
        box = box.union(line.box)
    return Passage(
        ordinal=ordinal,
        pdf_page=page.pdf_page,
        boxes=(PageBox(page.pdf_page, box),),
        heading_path=(),
        text="\n".join(line.text for line in lines),
        kind=PassageKind.TEXT,
        origin=page.origin,
    )
