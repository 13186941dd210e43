"""What any OCR engine must do for us, and how it may fail. Values and one protocol."""

from dataclasses import dataclass
from typing import Protocol

import numpy as np

from indexer.errors import HangarleafError

Picture = np.ndarray  # height x width, 8 bits, 0 = black, 255 = white


class NoOcrEngine(HangarleafError):
    """No engine is installed, or not the one that was asked for."""

    slug = "no-ocr-engine"

    def __init__(self, wanted: str = ""):
        missing = f"the OCR engine «{wanted}» is not installed" if wanted else "no OCR engine is installed"
        super().__init__(
            f"Scanned pages cannot be read: {missing}. They are kept and shown as pictures.",
            "Install tesseract (Debian: apt install tesseract-ocr), or: pip install 'hangarleaf[ocr]'.",
        )


class PageNotRead(HangarleafError):
    """OCR could not read one page; the page is kept, and shown as a picture."""

    slug = "page-not-read"

    def __init__(self, file: str, pdf_page: int, why: str):
        super().__init__(
            f"{file}, PDF page {pdf_page}: OCR could not read this page ({why}).",
            "Read it as a picture; to try again, run: hangarleaf ocr",
        )


class EngineFailed(Exception):
    """The engine gave no answer for one picture. The text says why, for a person."""


class OutOfTime(EngineFailed):
    """It was given too few seconds, which may be what earlier steps had left of a page's time."""


@dataclass(frozen=True, slots=True)
class PictureWord:
    """One word as the engine read it.

    x0, top, x1, bottom  pixels from the top left of the picture
    confidence           0.0 to 1.0
    line                 lines counted from 0 in reading order
    """

    text: str
    x0: float
    top: float
    x1: float
    bottom: float
    confidence: float
    line: int


class Engine(Protocol):
    """Crosses process borders whole: what is loaded once per process is no part of it."""

    @property
    def name(self) -> str:
        """Name and version, as a person may look them up: "tesseract 5.3.0"."""

    def read(self, picture: Picture, dpi: int, time_limit_s: float) -> list[PictureWord]:
        """The words of an upright picture, lines in reading order. Raises EngineFailed, OutOfTime."""

    def turned(self, picture: Picture, dpi: int, time_limit_s: float) -> int | None:
        """Degrees clockwise that the text of a picture runs: 0, 90, 180, 270; None when it cannot tell.

        Raises EngineFailed, OutOfTime.
        """
