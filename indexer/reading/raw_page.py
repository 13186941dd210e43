"""What one PDF page holds before it is laid out. Values only."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from indexer.reading.page import TextState, Word
from indexer.reading.recognized import OcrReason
from indexer.reading.straightened import Straightening
from indexer.trade.evidence import Box

ASKEW = -1  # the direction of words that run neither along nor across the page, such as a watermark


@dataclass(frozen=True, slots=True)
class Style:
    """How a word is drawn."""

    size: float  # points
    bold: bool
    direction: int  # see RawPage
    invisible: bool
    own_direction: int = 0  # the same in the page's own space, before the page is turned for display


StyledWord = tuple[Word, Style]  # a plain pair: a long file makes millions of them


@dataclass(frozen=True, slots=True)
class PictureLook:
    """What a page shows, compared with its words. See reading/ink.py.

    unread  pieces of text lines, each half an inch wide, where no word lies
    bare    0.0 to 1.0: the part of the words that lie where nothing is shown
    """

    unread: int
    bare: float


@dataclass(frozen=True, slots=True)
class Judged:
    """Whether a page's words will do. `problem` says for a person why not, or what was kept all the same."""

    state: TextState
    problem: str = ""
    ocr_reason: OcrReason | None = None


@dataclass(frozen=True, slots=True)
class RawPage:
    """Boxes in points, origin at the top left of the page as displayed.

    words         by the direction they run as displayed: 0 upright, 90 upward, 180 upside down, 270 downward,
                  ASKEW; within each, in the order of the file
    rulings       thin straight lines and the sides of drawn rectangles, each as a flat box
    picture_part  0.0 to 1.0: how much of the page its pictures cover
    has_drawing   the page shows something besides text and pictures
    hidden        the words are drawn invisibly: a text layer that OCR laid under or over the picture
    outside       words of the file that lie off the page as displayed; they are not among `words`
    look          what the page shows; None where nothing called for a look
    judged        None until it is judged
    straightening how the page was straightened when its words are those that OCR read: then all boxes, and
                  width and height, are those of the page as straightened. None for the file's own words
    """

    pdf_page: int  # 1-based
    width: float
    height: float
    rotation: int
    label: str
    words: Mapping[int, Sequence[Word]]
    rulings: Sequence[Box]
    picture_part: float
    has_drawing: bool
    hidden: bool
    outside: int = 0
    look: PictureLook | None = None
    judged: Judged | None = None
    straightening: Straightening | None = None
