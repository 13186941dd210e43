"""The title block of a work: the lines at the top of its first page, before the running text begins."""

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from indexer.reading.page import Line, Page, TextState
from indexer.tagging.flow import PrintedLine, one_line, plain

_MOST_LINES = 45
_SIZE_PAGES = 40
_LABEL = re.compile(r"^[A-Z][A-Za-z /.()#&-]{1,34}[:.]\s*\S|^[A-Z][A-Za-z /.#&-]{1,34}:\s*$")
_NUMBERED_OPENING = re.compile(
    r"^\(?(?:1|A|I)[.)]?\s+(?:PURPOSE|PLANNING|GENERAL|INTRODUCTION|SCOPE|BACKGROUND|EFFECTIVITY|REASON|SUBJECT|INFORMATION)\b",
    re.IGNORECASE,
)
_RUNNING_WORDS = re.compile(
    r"\b(?:is|are|was|were|has|have|been|must|shall|should|may|will|this|that|which|these|those|if|when|it|its|you|we)\b",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class TitleBlock:
    """Lines from the top of the page on, the head among them, the foot not; `page` is None without text."""

    lines: tuple[PrintedLine, ...]
    page: Page | None
    body_size: float  # points: the size most of the work's text is set in

    @property
    def text(self) -> str:
        return "\n".join(line.text for line in self.lines)

    def prominence(self, line: PrintedLine) -> float:
        """How much larger than the running text a line is set; 1.0 = the same size."""
        return line.font_size / self.body_size if self.body_size else 1.0


def title_block(pages: Sequence[Page]) -> TitleBlock:
    """The title block of a work from its pages; empty when its first page with text begins with running
    text."""
    size = body_size(pages)
    page = next((page for page in pages[:3] if page.state is TextState.TEXT and _lines(page)), None)
    if page is None:
        return TitleBlock((), None, size)
    lines = [PrintedLine(page.pdf_page, line, page.origin) for line in _lines(page)]
    return TitleBlock(tuple(_before_running_text(lines)), page, size)


def body_size(pages: Sequence[Page]) -> float:
    """The font size most characters of the first pages' bodies are set in, points; 0.0 without text."""
    sizes: Counter[float] = Counter()
    for page in pages[:_SIZE_PAGES]:
        for line in page.body:
            for word in line.words:
                sizes[round(word.font_size * 2) / 2] += len(word.text)
    return sizes.most_common(1)[0][0] if sizes else 0.0


def running_text(text: str) -> bool:
    """Whether a line reads as part of a sentence rather than as a title, a label or a table cell."""
    words = text.split()
    if len(words) < 6 or _LABEL.match(text) or text.isupper():
        return False
    if len(words) >= 8 and _RUNNING_WORDS.search(text):
        return True
    return len(words) >= 12 and sum(word[:1].islower() for word in words) > 0.5 * len(words)


def _lines(page: Page) -> list[Line]:
    return [line for line in (*page.head, *page.body) if line.text.strip()]


def _before_running_text(lines: list[PrintedLine]) -> list[PrintedLine]:
    block: list[PrintedLine] = []
    for place, line in enumerate(lines[:_MOST_LINES]):
        text = plain(one_line(line.text))
        if _NUMBERED_OPENING.match(text):
            break
        following = plain(one_line(lines[place + 1].text)) if place + 1 < len(lines) else ""
        if running_text(text) and (
            running_text(following) or len(text.split()) >= 12 or text.rstrip().endswith((".", ":"))
        ):
            break
        if text.startswith("Dear "):
            break
        block.append(line)
    return block
