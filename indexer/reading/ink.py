"""What a page shows beyond its words: ink that looks like lines of text where no word lies.

The page is drawn small and in gray. It is cut into upright strips half an inch wide; in a strip a line of
text is a low band of ink between white bands, with many strokes side by side. A photograph has no white
bands, a line drawing has few strokes. All figures of this file are measured on public scans and drawings.
"""

import ctypes
from collections.abc import Sequence

import numpy as np
import pypdfium2.raw as pdfium

from indexer.reading.page import Word
from indexer.reading.raw_page import PictureLook

_SCALE = 100 / 72  # pixels a point
_MOST_PIXELS = 1600  # of the longer side
_TILE = 64  # pixels; the paper's brightness is taken from each tile for itself
_DARK = 0.72  # of the paper's brightness: darker is ink
_STRIP = 50  # pixels
_LOWEST, _HIGHEST = 5, 26  # pixels, of a band of text: from capitals of 4 points to whole letters of 18
_FEWEST_STROKES = 3.0  # side by side, over the rows of a band
_MOST_INK = 0.65  # of a band
_ROUND_WORD = 2  # pixels; a word's own ink may stand out of its box by so much
_BARE = 0.004  # of a word's box: less ink than this is none


def look_at(gray: np.ndarray, scale: float, words: Sequence[Word]) -> PictureLook:
    """Compare a page with its words.

    gray   the page as drawn at `scale`, pixels a point; boxes of `words` are as displayed
    """
    ink = _ink(gray)
    bare = _bare_words(ink, words, scale)
    for word in words:
        left, top, right, bottom = pixels(word, scale)
        rows = slice(max(top - _ROUND_WORD, 0), bottom + _ROUND_WORD)
        ink[rows, max(left - _ROUND_WORD, 0) : right + _ROUND_WORD] = False
    return PictureLook(unread=_text_bands(ink), bare=bare)


def scale_of(width: float, height: float) -> float:
    """Pixels a point at which a page of so many points is drawn."""
    return min(_SCALE, _MOST_PIXELS / max(width, height, 1.0))


def drawn(page, width: float, height: float) -> np.ndarray:
    """A page in gray, rows of pixels. `page` is pdfium's own handle; its size in points, as displayed."""
    scale = scale_of(width, height)
    return _drawn(page, max(round(width * scale), 1), max(round(height * scale), 1))


def _drawn(page, width: int, height: int) -> np.ndarray:
    bitmap = pdfium.FPDFBitmap_CreateEx(width, height, pdfium.FPDFBitmap_Gray, None, 0)
    if not bitmap:
        raise MemoryError(f"no room for a picture of {width} x {height} pixels")
    try:
        pdfium.FPDFBitmap_FillRect(bitmap, 0, 0, width, height, 0xFFFFFFFF)
        flags = pdfium.FPDF_ANNOT | pdfium.FPDF_GRAYSCALE
        pdfium.FPDF_RenderPageBitmap(bitmap, page, 0, 0, width, height, 0, flags)
        stride = pdfium.FPDFBitmap_GetStride(bitmap)
        start = ctypes.cast(pdfium.FPDFBitmap_GetBuffer(bitmap), ctypes.POINTER(ctypes.c_ubyte))
        return np.ctypeslib.as_array(start, shape=(height, stride))[:, :width].copy()
    finally:
        pdfium.FPDFBitmap_Destroy(bitmap)


def _ink(gray: np.ndarray) -> np.ndarray:
    """Which pixels are darker than the paper round them."""
    height, width = gray.shape
    ink = np.zeros(gray.shape, bool)
    for top in range(0, height, _TILE):
        for left in range(0, width, _TILE):
            tile = gray[top : top + _TILE, left : left + _TILE]
            ink[top : top + _TILE, left : left + _TILE] = tile < _DARK * np.percentile(tile, 90)
    return ink


def _text_bands(ink: np.ndarray) -> int:
    """How many pieces of text lines there are, each half an inch wide."""
    starts = ink.copy()
    starts[:, 1:] &= ~ink[:, :-1]
    found = 0
    for left in range(0, ink.shape[1], _STRIP):
        strokes = starts[:, left : left + _STRIP].sum(axis=1)
        filled = ink[:, left : left + _STRIP].sum(axis=1)
        edges = np.flatnonzero(np.diff(np.concatenate(([False], filled > 0, [False]))))
        for top, bottom in zip(edges[::2], edges[1::2], strict=True):
            if not _LOWEST <= bottom - top <= _HIGHEST:
                continue
            enough = strokes[top:bottom].mean() >= _FEWEST_STROKES
            found += enough and filled[top:bottom].mean() <= _MOST_INK * _STRIP
    return int(found)


def _bare_words(ink: np.ndarray, words: Sequence[Word], scale: float) -> float:
    """The part of the words that lie where the page shows nothing, 0.0 to 1.0."""
    if not words:
        return 0.0
    sums = np.zeros((ink.shape[0] + 1, ink.shape[1] + 1), np.int64)
    sums[1:, 1:] = ink.cumsum(axis=0).cumsum(axis=1)
    bare = 0
    for word in words:
        left, top, right, bottom = pixels(word, scale)
        right, bottom = min(max(right, left + 1), ink.shape[1]), min(max(bottom, top + 1), ink.shape[0])
        left, top = min(left, right), min(top, bottom)
        within = sums[bottom, right] - sums[top, right] - sums[bottom, left] + sums[top, left]
        bare += within <= _BARE * (right - left) * (bottom - top)
    return float(bare / len(words))


def pixels(word: Word, scale: float) -> tuple[int, int, int, int]:
    """(left, top, right, bottom) of a word on a page drawn at `scale`."""
    box = word.box
    return int(box.x0 * scale), int(box.top * scale), round(box.x1 * scale), round(box.bottom * scale)
