"""Flow: the text of some pages as one string that remembers on which page and line each part stands."""

from bisect import bisect_right
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from indexer.reading.page import Line, Page, Word
from indexer.tagging.read_confidence import least_confidence
from indexer.trade.dashes import plain_dashes
from indexer.trade.evidence import Basis, Box, Evidence, Origin

# One character for one, so that a place found in the plain text is the same place in the printed text.
_QUOTES = str.maketrans("\u2018\u2019\u201c\u201d", "''\"\"")
_DASHES = "-\u2010\u2011\u2012\u2013\u2014\u00ad"


def plain_lines(text: str) -> str:
    """The text with typographic dashes, quotes and blanks made plain: same length, same places."""
    if text.isascii() and "\t" not in text:
        return text
    return plain_dashes(text).translate(_QUOTES)


def plain(text: str) -> str:
    """As plain_lines, and each line end a space: for wording that runs over lines."""
    return plain_lines(text).replace("\n", " ")


def one_line(text: str) -> str:
    """The words as printed, with line ends and runs of space made one space."""
    return " ".join(text.split())


@dataclass(frozen=True, slots=True)
class PrintedLine:
    """A line and where it stands."""

    pdf_page: int  # 1-based
    line: Line
    origin: Origin = Origin.DIGITAL

    @property
    def text(self) -> str:
        return self.line.text

    @property
    def font_size(self) -> float:
        """Points; the largest on the line."""
        return max((word.font_size for word in self.line.words), default=0.0)

    def evidence(self, rule: str, quote: str = "", basis: Basis = Basis.PRINTED) -> Evidence:
        """Evidence that quotes this line, or a part of it."""
        return Evidence(
            basis,
            rule,
            quote or one_line(self.text),
            self.pdf_page,
            self.line.box,
            origin=self.origin,
            confidence=least_confidence(self._quoted(quote)),
        )

    def _quoted(self, quote: str) -> Iterable[Word]:
        """The words of the line that the quote holds; all where that cannot be told."""
        parts = frozenset(quote.split())
        return [word for word in self.line.words if word.text in parts] or self.line.words


class Flow:
    """Lines joined by newlines. `text` is as printed, `plain` the same with plain dashes and no newlines.

    A number or word broken over a line end by a hyphen is joined.
    """

    def __init__(self, lines: Iterable[PrintedLine]):
        self.lines: list[PrintedLine] = []
        self._starts: list[int] = []
        pieces: list[str] = []
        length = 0
        for printed in lines:
            words = printed.text
            if not words.strip():
                continue
            if pieces:
                joined = _joined(pieces[-1], words)
                length += len(joined) - len(pieces[-1])
                pieces[-1] = joined
            self.lines.append(printed)
            self._starts.append(length)
            pieces.append(words)
            length += len(words)
        self.text = "".join(pieces)
        self.plain = plain(self.text)
        self.plain_lines = plain_lines(self.text)

    def places(self) -> Iterator[tuple[int, PrintedLine]]:
        """Each line with where it begins in the text."""
        return zip(self._starts, self.lines, strict=True)

    def evidence(self, start: int, end: int, rule: str, basis: Basis = Basis.PRINTED) -> Evidence:
        """Evidence that quotes text[start:end]; page and box are those of its first page."""
        first = max(bisect_right(self._starts, start) - 1, 0)
        last = max(bisect_right(self._starts, max(start, end - 1)) - 1, first)
        page = self.lines[first].pdf_page
        box: Box | None = None
        for printed in self.lines[first : last + 1]:
            if printed.pdf_page == page:
                box = printed.line.box if box is None else box.union(printed.line.box)
        return Evidence(
            basis,
            rule,
            one_line(self.text[start:end]),
            page,
            box,
            origin=self._origin(first, last),
            confidence=least_confidence(self._words(start, end, first, last)),
        )

    def _words(self, start: int, end: int, first: int, last: int) -> Iterator[Word]:
        """The words of the lines first to last that text[start:end] takes in, whole or in part."""
        for number in range(first, last + 1):
            place = self._starts[number]
            for word in self.lines[number].line.words:
                if place < end and place + len(word.text) > start:
                    yield word
                place += len(word.text) + 1

    def _origin(self, first: int, last: int) -> Origin:
        """Of the lines first to last: digital only when every one of them is."""
        origins = [printed.origin for printed in self.lines[first : last + 1]]
        return next((origin for origin in origins if origin is not Origin.DIGITAL), Origin.DIGITAL)


def body_flow(pages: Sequence[Page]) -> Flow:
    """The body text of pages, without running heads and feet."""
    return Flow(PrintedLine(page.pdf_page, line, page.origin) for page in pages for line in page.body)


def _joined(before: str, after: str) -> str:
    """A line with what joins it to the next: a newline, or nothing where a word or number was broken."""
    if before[-1:] in ("-", "\u2010", "\u00ad") and after[:1].islower():
        word = before.split()[-1][:-1]
        if word.isalpha() and word.islower() and len(word) > 1:
            return before[:-1]
    if before[-1:] in _DASHES and before[-2:-1].isalnum() and after[:1].isalnum():
        return before
    return before + "\n"
