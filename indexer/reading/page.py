"""What reading gives: words, lines, pages, the outline, passages. Values only; no file is opened here.

Boxes are in points with the origin at the top left of the page as displayed (rotation applied).
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from indexer.reading.recognized import OcrReason
from indexer.trade.evidence import Box, Origin, PageBox


@dataclass(frozen=True, slots=True)
class Word:
    text: str
    box: Box
    font_size: float  # points
    bold: bool
    confidence: float | None = None  # 0.0 to 1.0, of a word read by OCR; None = digital text


@dataclass(frozen=True, slots=True)
class Line:
    """One printed line of one column, words left to right."""

    words: tuple[Word, ...]
    box: Box
    column: int = 0  # 0-based, left to right
    heading_level: int = 0  # 0 = not a heading; 1 = the strongest

    @property
    def text(self) -> str:
        return " ".join(word.text for word in self.words)


@dataclass(frozen=True, slots=True)
class Table:
    """A ruled table: cells as text, row by row; an empty cell is ''."""

    box: Box
    rows: tuple[tuple[str, ...], ...]


class TextState(StrEnum):
    """Whether a page can be searched. Every state but TEXT and BLANK counts as "not searched"."""

    TEXT = "text"
    BLANK = "blank"  # nothing on it at all: no words, no picture, no drawing
    NO_TEXT = "no text"  # shows something and holds no usable text: most often a scan
    GARBLED = "garbled text"  # a text layer that is not words
    FAILED = "could not be read"  # this page failed to parse; the rest of the file was taken


@dataclass(frozen=True, slots=True)
class Page:
    """One page, read. `head` and `foot` are the running lines; `body` is in reading order."""

    pdf_page: int  # 1-based
    width: float  # points, as displayed
    height: float
    rotation: int  # 0, 90, 180, 270: what the file asks the viewer to turn
    state: TextState
    label: str = ""  # the file's own page label, "" when it has none
    printed_page: str = ""  # the page number as printed ("201", "LEP-1", "iv"), "" when none is found
    head: tuple[Line, ...] = ()
    foot: tuple[Line, ...] = ()
    body: tuple[Line, ...] = ()
    tables: tuple[Table, ...] = ()
    origin: Origin = Origin.DIGITAL
    problem: str = ""  # why the state is FAILED or GARBLED, for a person
    ocr_reason: OcrReason | None = None  # why its picture is to be read; None = its own text will do
    skew: float = 0.0  # degrees clockwise that its lines slant, when it was read by OCR


@dataclass(frozen=True, slots=True)
class OutlineEntry:
    """A bookmark of the file."""

    level: int  # 1 = top
    title: str
    pdf_page: int | None  # None when the target is not a page of this file


class PassageKind(StrEnum):
    TEXT = "text"
    STEP = "step"
    WARNING = "warning"
    CAUTION = "caution"
    NOTE = "note"
    TABLE = "table"
    PARTS_ROW = "parts row"
    FIGURE_TITLE = "figure title"


@dataclass(frozen=True, slots=True)
class Passage:
    """About 60 to 200 words on one subject. A warning or caution is never cut from the step it guards:
    such a passage holds both, and runs over to the next page when the step does."""

    ordinal: int  # 0-based in the file, in reading order
    pdf_page: int  # 1-based; the page it begins on
    boxes: tuple[PageBox, ...]  # one or more, in reading order
    heading_path: tuple[str, ...]  # from the strongest heading down
    text: str  # lines joined by "\n"; a word hyphenated over a line end is joined
    kind: PassageKind
    origin: Origin = Origin.DIGITAL
    doubtful: tuple[str, ...] = ()  # words of the text that OCR read below the floor of confidence, as read


@dataclass(frozen=True, slots=True)
class Document:
    """One PDF file, read."""

    file: str  # file name, without the folder
    sha256: str
    properties: Mapping[str, str]  # Title, Author, Subject, CreationDate ... as in the file
    outline: tuple[OutlineEntry, ...]
    pages: tuple[Page, ...]
    passages: tuple[Passage, ...]
    notes: tuple[str, ...] = field(default=())  # what a person should know about the file
