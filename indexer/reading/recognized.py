"""What OCR gives for one page: words with boxes and confidence, and how it was turned. Values only."""

from dataclasses import dataclass
from enum import StrEnum

from indexer.trade.evidence import Box


class OcrReason(StrEnum):
    """Why a page's own text will not do, so that its picture is read. Shown as they stand."""

    NO_TEXT = "it has no text"
    GARBLED = "its text is not words"
    OUTSIDE = "its text lies outside the page"
    POOR_LAYER = "the text that came with the scan is poor"
    MISMATCH = "its text and its picture do not match"


@dataclass(frozen=True, slots=True)
class RecognizedWord:
    """One word as read.

    box         points, origin at the top left, on the page as straightened: upright and without skew
    confidence  0.0 to 1.0, as the engine gives it: compared within one engine only
    line        lines counted from 0 in the engine's reading order; words of one line share it
    """

    text: str
    box: Box
    confidence: float
    line: int


def is_doubtful(text: str, confidence: float | None, floor: float) -> bool:
    """Whether a word was read with less confidence than the floor; one of digital text (None) never is.

    A plus sign always is: tesseract 5.3 reads ± as + with 0.97 (FAA AC 43-2B page 3, "within ± 10°").
    """
    return confidence is not None and (confidence < floor or text.startswith("+"))


@dataclass(frozen=True, slots=True)
class RecognizedPage:
    """One page, read from its picture.

    width, height  points, of the page as displayed (before it was straightened)
    turned         degrees clockwise that its text runs as displayed: 0 upright, 90 downward, 180, 270 upward
    skew           degrees clockwise that its lines slant once it is turned upright
    engine         name and version, as a person may look them up: "tesseract 5.3.0"
    confidence     mean over the characters read, 0.0 to 1.0; 0.0 when nothing was read
    """

    pdf_page: int  # 1-based
    width: float
    height: float
    turned: int
    skew: float
    words: tuple[RecognizedWord, ...]
    engine: str
    dpi: int
    confidence: float
    seconds: float

    @property
    def text(self) -> str:
        """The words in reading order, one line of text for each line read."""
        lines: dict[int, list[str]] = {}
        for word in self.words:
            lines.setdefault(word.line, []).append(word.text)
        return "\n".join(" ".join(words) for _, words in sorted(lines.items()))
