"""Pages set from real public text (tests/data/text), with every word's place known: the truth for OCR.

Set with reportlab's built-in fonts, which pdfium draws with its own, so that they look alike everywhere.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas

from indexer.trade.evidence import Box

TEXT = Path(__file__).parent.parent / "data" / "text"
WIDTH, HEIGHT = 612.0, 792.0  # points: US letter
MARGIN = 60.0
GUTTER = 24.0
ASCENT, DESCENT = 0.72, 0.21  # of the font size; common to the fonts used, from memory


@dataclass(frozen=True, slots=True)
class SetWord:
    text: str
    box: Box  # points, origin at the top left


@dataclass(frozen=True, slots=True)
class SetPage:
    """A PDF of one page and what stands on it, words in reading order."""

    name: str
    path: Path
    words: tuple[SetWord, ...]

    @property
    def text(self) -> str:
        return " ".join(word.text for word in self.words)


def regulation(part: int) -> list[str]:
    """Paragraphs of a part of Title 14 CFR."""
    text = (TEXT / f"14cfr_part{part}_2015.txt").read_text(encoding="utf-8")
    return [paragraph.strip() for paragraph in text.split("\n\n") if paragraph.strip()]


def definitions() -> list[tuple[str, str, str]]:
    """Code, heading and definition of JASC codes."""
    lines = (TEXT / "jasc_definitions.txt").read_text(encoding="utf-8").splitlines()
    found = (re.fullmatch(r"(\d{4}) ([^.]+)\. (.+)", line) for line in lines)
    return [match.groups() for match in found if match]


def cited_numbers() -> list[str]:
    """Words of reports that hold a digit and more than three signs: part numbers, times, tail numbers."""
    text = (TEXT / "sdr_narratives.txt").read_text(encoding="utf-8")
    return list(dict.fromkeys(re.findall(r"(?<!\S)(?=\S*\d)[A-Z0-9][A-Z0-9-]{3,}(?=[\s.,])", text)))


def prose_page(
    folder: Path,
    name: str,
    paragraphs: Sequence[str],
    columns: int = 1,
    font: str = "Times-Roman",
    size: float = 11.0,
) -> SetPage:
    """Paragraphs set in columns until the page is full."""
    canvas, path = _canvas(folder, name)
    leading = size * 1.22
    across = (WIDTH - 2 * MARGIN - (columns - 1) * GUTTER) / columns
    tokens = _broken(paragraphs, across, font, size)
    words: list[SetWord] = []
    for column in range(columns):
        left, top = MARGIN + column * (across + GUTTER), MARGIN
        while top + leading < HEIGHT - MARGIN and (line := next(tokens, None)) is not None:
            words += _set_line(canvas, line, left, top, font, size)
            top += leading if line else leading / 2
    canvas.save()
    return SetPage(name, path, tuple(words))


def table_page(folder: Path, name: str, ruled: bool, size: float = 9.0, start: int = 0) -> SetPage:
    """A list of numbers and headings in columns: item, number, heading, code. Words in rows."""
    canvas, path = _canvas(folder, name)
    edges = [MARGIN, 96.0, 216.0, 480.0, WIDTH - MARGIN]
    numbers, headings = cited_numbers()[start:], definitions()[start:]
    leading = size * 1.6
    words: list[SetWord] = []
    top, row = MARGIN, 0
    while top + leading < HEIGHT - MARGIN:
        code, heading, _ = headings[row]
        for left, cell in zip(edges, (str(row + 1), numbers[row], heading[:44].strip(), code), strict=False):
            words += _set_line(canvas, cell.split(), left + 4, top + 1.5, "Helvetica", size)
        if ruled:
            canvas.line(edges[0], HEIGHT - top, edges[-1], HEIGHT - top)
        top, row = top + leading, row + 1
    if ruled:
        canvas.line(edges[0], HEIGHT - top, edges[-1], HEIGHT - top)
        for x in edges:
            canvas.line(x, HEIGHT - MARGIN, x, HEIGHT - top)
    canvas.save()
    return SetPage(name, path, tuple(words))


def public_pages(folder: Path) -> list[SetPage]:
    """Eight pages of unlike setting: one to three columns, three fonts, ruled and unruled tables."""
    part43, part45, part39 = regulation(43), regulation(45), regulation(39)
    meanings = [f"{code} {heading}. {meaning}" for code, heading, meaning in definitions()]
    return [
        prose_page(folder, "one column", part43),
        prose_page(folder, "two columns", part43[30:], 2, "Helvetica", 9.5),
        prose_page(folder, "typewritten", part45, 1, "Courier", 10),
        prose_page(folder, "two narrow columns", meanings, 2, "Times-Roman", 9),
        prose_page(folder, "three columns", meanings[60:], 3, "Helvetica", 8),
        prose_page(folder, "large type", part39, 1, "Helvetica", 13),
        table_page(folder, "ruled table", ruled=True),
        table_page(folder, "unruled table", ruled=False, start=60),
    ]


def _canvas(folder: Path, name: str) -> tuple[Canvas, Path]:
    path = folder / f"{name.replace(' ', '_')}.pdf"
    return Canvas(str(path), pagesize=(WIDTH, HEIGHT), invariant=1), path


def _broken(paragraphs: Sequence[str], across: float, font: str, size: float) -> Iterator[list[str]]:
    """Lines of words, with an empty line after each paragraph."""
    for paragraph in paragraphs:
        line: list[str] = []
        for word in paragraph.split():
            if line and stringWidth(" ".join([*line, word]), font, size) > across:
                yield line
                line = []
            line.append(word)
        yield line
        yield []


def _set_line(
    canvas: Canvas, line: Sequence[str], left: float, top: float, font: str, size: float
) -> list[SetWord]:
    canvas.setFont(font, size)
    baseline = top + size
    words = []
    for word in line:
        canvas.drawString(left, HEIGHT - baseline, word)
        right = left + stringWidth(word, font, size)
        words.append(SetWord(word, Box(left, baseline - ASCENT * size, right, baseline + DESCENT * size)))
        left = right + stringWidth(" ", font, size)
    return words
