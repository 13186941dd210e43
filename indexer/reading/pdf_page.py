"""One page of an open PDF -> raw page: words with boxes, size and weight; rulings; pictures."""

import ctypes
from collections import defaultdict
from collections.abc import Sequence
from functools import cached_property

import numpy as np
import pypdfium2.raw as pdfium

from indexer.reading.frame import Frame
from indexer.reading.ink import drawn, look_at, scale_of
from indexer.reading.over_picture import compare
from indexer.reading.page import Word
from indexer.reading.pdf_shapes import Shapes, shapes_on
from indexer.reading.pdf_words import read_words
from indexer.reading.raw_page import RawPage, StyledWord

_PRINTED_NOTES = (pdfium.FPDF_ANNOT_WIDGET, pdfium.FPDF_ANNOT_FREETEXT, pdfium.FPDF_ANNOT_STAMP)
_MOST_NOTES = 2000
_PICTURE_PAGE = 0.5  # of the page: pictures that cover so much may show text that is not in the layer
_COMPARED = 0.25  # of the page: text over such pictures is compared with them
_SMALLEST = 0.0025  # of the page's height: 2 points of a letter page; nobody reads smaller type
_MUCH_TEXT = 1500  # letters in plain sight: a page that has them shows hardly anything else
_OUTLINED = 150  # paths: on a page with so little text as this they may be letters drawn as outlines
_LITTLE_TEXT = 400  # letters


class PageFailed(Exception):
    """One page could not be parsed. The text says why; the file's other pages may be fine."""


def read_page(document, pdf_page: int, label: str) -> RawPage:
    """Read one page (1-based) of pdfium's document. Raises PageFailed when pdfium cannot parse it."""
    page = _load(document, pdf_page)
    if _has_printed_notes(page):
        pdfium.FPDFPage_Flatten(page, pdfium.FLAT_PRINT)
        pdfium.FPDF_ClosePage(page)
        page = _load(document, pdf_page)
    try:
        text_page = pdfium.FPDFText_LoadPage(page)
        if not text_page:
            raise PageFailed("the page's text cannot be loaded")
        try:
            frame = _frame(page)
            words, outside = read_words(text_page, frame)
            runs_off = not words and _shows_letters(text_page, frame)
        finally:
            pdfium.FPDFText_ClosePage(text_page)
        shapes = shapes_on(page, frame)
        picture = _Picture(page, frame)
        visible, read_from_picture = _visible(picture, words, shapes)
        # A few invisible words on a page of visible ones are no text layer: nobody can read them there.
        hides_some = len(visible) < len(words) and (shapes.picture_part > 0 or not visible)
        is_layer = hides_some or read_from_picture
        kept = words if is_layer else visible
        look = None
        if _calls_for_a_look(kept, is_layer, shapes):
            look = look_at(picture.gray, picture.scale, [word for word, _ in kept])
    finally:
        pdfium.FPDF_ClosePage(page)
    return RawPage(
        pdf_page=pdf_page,
        width=frame.width,
        height=frame.height,
        rotation=frame.rotation,
        label=label,
        words=_by_direction(kept),
        rulings=shapes.rulings,
        picture_part=shapes.picture_part,
        has_drawing=shapes.has_drawing or runs_off,
        hidden=is_layer,
        outside=outside,
        look=look,
    )


class _Picture:
    """A page to be drawn once, and only where something calls for it."""

    def __init__(self, page, frame: Frame):
        self.page = page
        self.frame = frame

    @property
    def scale(self) -> float:
        return scale_of(self.frame.width, self.frame.height)

    @cached_property
    def gray(self) -> np.ndarray:
        return drawn(self.page, self.frame.width, self.frame.height)


def _visible(
    picture: _Picture, words: Sequence[StyledWord], shapes: Shapes
) -> tuple[Sequence[StyledWord], bool]:
    """The words that can be read on the page, and whether they were read from its pictures by OCR."""
    visible = [] if shapes.covered else [each for each in words if not each[1].invisible]
    if not visible or shapes.picture_part < _COMPARED:
        return visible, False
    frame = picture.frame
    over = compare(picture.page, picture.gray, frame.width, frame.height, [word for word, _ in visible])
    least = _SMALLEST * frame.height
    legible = [
        each for each, shown in zip(visible, over.shown, strict=True) if shown and each[1].size >= least
    ]
    return legible, over.read_from_it


def _calls_for_a_look(words: Sequence[StyledWord], is_layer: bool, shapes: Shapes) -> bool:
    """Whether the page may show text that is not among its words. A page without words is read anyway."""
    if not words:
        return False
    letters = sum(len(word.text) for word, _ in words)
    if shapes.picture_part >= _PICTURE_PAGE:
        return is_layer or letters < _MUCH_TEXT
    return shapes.paths >= _OUTLINED and letters < _LITTLE_TEXT


def _load(document, pdf_page: int):
    page = pdfium.FPDF_LoadPage(document, pdf_page - 1)
    if not page:
        raise PageFailed("the page's contents cannot be loaded")
    return page


def _has_printed_notes(page) -> bool:
    """Whether the page has filled fields, typed notes or stamps: they print, but are not in its contents."""
    for index in range(min(pdfium.FPDFPage_GetAnnotCount(page), _MOST_NOTES)):
        note = pdfium.FPDFPage_GetAnnot(page, index)
        kind = pdfium.FPDFAnnot_GetSubtype(note)
        pdfium.FPDFPage_CloseAnnot(note)
        if kind in _PRINTED_NOTES:
            return True
    return False


def _frame(page) -> Frame:
    box = pdfium.FS_RECTF()
    if not pdfium.FPDF_GetPageBoundingBox(page, box):
        raise PageFailed("the page has no size")
    rotation = max(pdfium.FPDFPage_GetRotation(page), 0) * 90
    return Frame(box.left, box.bottom, box.right, box.top, rotation)


def _shows_letters(text_page, frame: Frame) -> bool:
    """Whether any letter stands on the page, although no word has its middle there."""
    left, right, bottom, top = (ctypes.c_double() for _ in range(4))
    for index in range(pdfium.FPDFText_CountChars(text_page)):
        if chr(pdfium.FPDFText_GetUnicode(text_page, index)).isspace():
            continue
        if pdfium.FPDFText_GetCharBox(text_page, index, left, right, bottom, top) and frame.box(
            left.value, bottom.value, right.value, top.value
        ):
            return True
    return False


def _by_direction(words: Sequence[StyledWord]) -> dict[int, list[Word]]:
    grouped = defaultdict(list)
    for word, style in words:
        grouped[style.direction].append(word)
    return dict(grouped)
