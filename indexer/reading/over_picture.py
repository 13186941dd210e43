"""Text that lies over pictures: whether it shows, and whether it was read from the picture it lies over.

The page is drawn twice, as it is and with its pictures alone. A word that changes nothing does not show: it
is white on white, or covered. Where the picture holds traces just where words lie, and few beside them, the
words were read from it by OCR, though they be drawn for all to see. A background has as much beside them.
"""

import ctypes
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import pypdfium2.raw as pdfium

from indexer.reading import pdfium_calls as calls
from indexer.reading.ink import drawn, pixels, scale_of
from indexer.reading.page import Word

_SHOWN = 16  # of 255: a word that changes no pixel by more than this is not seen
_TRACE = 0.7  # of 255, mean difference between pixels side by side, and one under the other
_TIMES = 2.0  # as much as beside the words; FAA job aid revision 5, pages 67 to 70, has 1.2 to 8
_LEAST_BESIDE = 0.15
_READ_FROM_IT = 0.1  # of the letters; there 0.5 to 0.6, on backgrounds 0.0
_ENOUGH_BESIDE = 20  # pixels
_DEEPEST_FORM = 4


@dataclass(frozen=True, slots=True)
class OverPicture:
    """shown = for each word whether it shows; read_from_it = the words were read from the picture."""

    shown: tuple[bool, ...]
    read_from_it: bool


def compare(page, as_it_is: np.ndarray, width: float, height: float, words: Sequence[Word]) -> OverPicture:
    """as_it_is       the page as ink.py draws it; `page` is pdfium's own handle
    width, height  points, as displayed; boxes of `words` are as displayed too
    """
    scale = scale_of(width, height)
    others = list(_all_but_pictures(page))
    _set_active(others, False)
    try:
        alone = drawn(page, width, height)
    finally:
        _set_active(others, True)
    changed = np.abs(as_it_is.astype(np.int16) - alone) > _SHOWN
    boxes = [_clipped(word, scale, *alone.shape[::-1]) for word in words]
    shown = tuple(bool(changed[top:bottom, left:right].any()) for left, top, right, bottom in boxes)
    return OverPicture(shown, _share_with_traces(alone.astype(np.int16), words, boxes) >= _READ_FROM_IT)


def _share_with_traces(
    alone: np.ndarray, words: Sequence[Word], boxes: Sequence[tuple[int, int, int, int]]
) -> float:
    """The part of the letters whose words lie on traces of themselves."""
    steps = [np.abs(np.diff(alone, axis=axis, append=alone.take([-1], axis))) for axis in (0, 1)]
    free = np.ones(alone.shape, bool)
    for left, top, right, bottom in boxes:
        free[top:bottom, left:right] = False
    letters = traced = 0
    for word, (left, top, right, bottom) in zip(words, boxes, strict=True):
        letters += len(word.text)
        high = bottom - top
        rows, across = slice(max(top - high, 0), bottom + high), slice(left, right)
        beside = free[rows, across]  # above and below it: to its sides its line runs on
        if high <= 0 or right <= left or np.count_nonzero(beside) < _ENOUGH_BESIDE:
            continue
        # Both ways: a line to write on, or one struck through, changes in one direction alone.
        if all(
            _stands_out(each[top:bottom, left:right].mean(), each[rows, across][beside].mean())
            for each in steps
        ):
            traced += len(word.text)
    return traced / letters if letters else 0.0


def _stands_out(own: float, beside: float) -> bool:
    return own > _TRACE and own > _TIMES * max(beside, _LEAST_BESIDE)


def _clipped(word: Word, scale: float, width: int, height: int) -> tuple[int, int, int, int]:
    left, top, right, bottom = pixels(word, scale)
    return max(left, 0), max(top, 0), min(right + 1, width), min(bottom + 1, height)


def _all_but_pictures(page) -> Iterator[int]:
    """The address of every object that is neither a picture nor a form that may hold one."""
    waiting = [
        (calls.address_of(page), calls.page_object_count(calls.address_of(page)), calls.page_object, 0)
    ]
    while waiting:
        holder, count, get, depth = waiting.pop()
        for index in range(count):
            item = get(holder, index)
            kind = calls.object_type(item)
            if kind == pdfium.FPDF_PAGEOBJ_FORM and depth < _DEEPEST_FORM:
                waiting.append((item, max(calls.form_object_count(item), 0), calls.form_object, depth + 1))
            elif kind not in (pdfium.FPDF_PAGEOBJ_IMAGE, pdfium.FPDF_PAGEOBJ_FORM):
                yield item


def _set_active(items: Sequence[int], active: bool) -> None:
    for item in items:
        pdfium.FPDFPageObj_SetIsActive(ctypes.cast(item, pdfium.FPDF_PAGEOBJECT), active)
