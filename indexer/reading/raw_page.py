"""What one PDF page holds before it is laid out. Values only."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from indexer.reading.page import Word
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
class RawPage:
    """Boxes in points, origin at the top left of the page as displayed.

    words         by the direction they run as displayed: 0 upright, 90 upward, 180 upside down, 270 downward,
                  ASKEW; within each, in the order of the file
    rulings       thin straight lines and the sides of drawn rectangles, each as a flat box
    picture_part  0.0 to 1.0: how much of the page its largest picture covers
    has_drawing   the page shows something besides text and pictures
    hidden        the words are drawn invisibly: a text layer that OCR laid under or over the picture
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
