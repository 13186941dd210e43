"""One page of a PDF file -> its picture in shades of gray, as displayed."""

from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pypdfium2

from indexer.reading.ocr_engine import Picture
from indexer.settings import Settings

_POINTS_PER_INCH = 72
_LEAST_PIXELS = 8  # a page thinner than this shows no letter, and engines refuse it


class NoPicture(Exception):
    """pdfium cannot draw this page. The text says why, for a person."""


@dataclass(frozen=True, slots=True)
class PagePicture:
    """width, height: points, of the page as displayed; dpi: less than asked for when the page is huge."""

    picture: Picture
    width: float
    height: float
    dpi: float


def page_picture(path: Path, pdf_page: int, settings: Settings) -> PagePicture:
    """One page (1-based) drawn at settings.ocr_dpi, and never with more pixels than max_page_pixels.

    Raises NoPicture.
    """
    try:
        document = pypdfium2.PdfDocument(path)
    except (pypdfium2.PdfiumError, OSError) as problem:
        raise NoPicture(f"the file does not open: {problem}") from None
    try:
        if not 1 <= pdf_page <= len(document):
            raise NoPicture(f"the file has {len(document)} pages")
        page = document[pdf_page - 1]
        width, height = page.get_size()
        scale = settings.ocr_dpi / _POINTS_PER_INCH
        pixels = width * height * scale * scale
        if pixels > settings.max_page_pixels:
            scale *= (settings.max_page_pixels / pixels) ** 0.5
        if min(width, height) * scale < _LEAST_PIXELS:
            raise NoPicture(f"the page is only {width:.0f} x {height:.0f} points large")
        bitmap = page.render(scale=scale, grayscale=True)
        picture = np.ascontiguousarray(bitmap.to_numpy().reshape(bitmap.height, bitmap.width))
        return PagePicture(picture.copy(), width, height, scale * _POINTS_PER_INCH)
    except pypdfium2.PdfiumError as problem:
        raise NoPicture(f"it cannot be drawn: {problem}") from None
    finally:
        document.close()
