"""One page of an open PDF -> raw page: words with boxes, size and weight; rulings; pictures.

Reading one word costs three calls into pdfium where two a character are usual: the page's whole text comes in
one call, and boxes and fonts are asked for only where a word begins and ends.
"""

import ctypes
import math
import re
from collections import defaultdict
from collections.abc import Iterator, Sequence

import pypdfium2.raw as pdfium

from indexer.reading.characters import LINE_END_HYPHEN, cleaned
from indexer.reading.frame import Frame
from indexer.reading.page import Word
from indexer.reading.pdf_shapes import shapes_on
from indexer.reading.raw_page import ASKEW, RawPage


class PageFailed(Exception):
    """One page could not be parsed. The text says why; the file's other pages may be fine."""


# pypdfium2's own bindings build a pointer object a call; these take and give plain addresses, twice as fast.
def _plain(function, result, *arguments):
    return ctypes.PYFUNCTYPE(result, *arguments)(ctypes.cast(function, ctypes.c_void_p).value)


_ADDRESS = ctypes.c_void_p
_INT = ctypes.c_int
_loose_box = _plain(pdfium.FPDFText_GetLooseCharBox, _INT, _ADDRESS, _INT, _ADDRESS)
_text_object = _plain(pdfium.FPDFText_GetTextObject, _ADDRESS, _ADDRESS, _INT)
_unicode = _plain(pdfium.FPDFText_GetUnicode, ctypes.c_uint, _ADDRESS, _INT)
_matrix = _plain(pdfium.FPDFText_GetMatrix, _INT, _ADDRESS, _INT, _ADDRESS)
_font_size = _plain(pdfium.FPDFText_GetFontSize, ctypes.c_double, _ADDRESS, _INT)
_ULONG = ctypes.c_ulong
_font_info = _plain(pdfium.FPDFText_GetFontInfo, _ULONG, _ADDRESS, _INT, _ADDRESS, _ULONG, _ADDRESS)
_render_mode = _plain(pdfium.FPDFTextObj_GetTextRenderMode, _INT, _ADDRESS)

_WORD = re.compile(rf"[^\s\x00{LINE_END_HYPHEN}]+{LINE_END_HYPHEN}?")
_BOLD_NAME = re.compile(rb"bold|black|heavy|demi|-bd\b|,bd\b|cmbx", re.IGNORECASE)
_FORCE_BOLD = 1 << 18  # PDF 32000-1 table 123, flag bit 19
_INVISIBLE = (pdfium.FPDF_TEXTRENDERMODE_INVISIBLE, pdfium.FPDF_TEXTRENDERMODE_CLIP)
_FILL_AND_STROKE = (pdfium.FPDF_TEXTRENDERMODE_FILL_STROKE, pdfium.FPDF_TEXTRENDERMODE_FILL_STROKE_CLIP)
_SQUARE_WITHIN = 10.0  # degrees; text further off the axes is askew


def read_page(document, pdf_page: int, label: str) -> RawPage:
    """Read one page (1-based) of pdfium's document. Raises PageFailed when pdfium cannot parse it."""
    page = pdfium.FPDF_LoadPage(document, pdf_page - 1)
    if not page:
        raise PageFailed("the page's contents cannot be loaded")
    try:
        text_page = pdfium.FPDFText_LoadPage(page)
        if not text_page:
            raise PageFailed("the page's text cannot be loaded")
        try:
            frame = _frame(page)
            words = _Words(text_page, frame)
            visible, hidden = words.read()
        finally:
            pdfium.FPDFText_ClosePage(text_page)
        shapes = shapes_on(page, frame)
    finally:
        pdfium.FPDF_ClosePage(page)
    # A few invisible words on a page of visible ones are no text layer: nobody can read them there.
    is_layer = bool(hidden) and (shapes.picture_part > 0 or not visible)
    return RawPage(
        pdf_page=pdf_page,
        width=frame.width,
        height=frame.height,
        rotation=frame.rotation,
        label=label,
        words=_by_direction([*visible, *hidden] if is_layer else visible),
        rulings=shapes.rulings,
        picture_part=shapes.picture_part,
        has_drawing=shapes.has_drawing,
        hidden=is_layer,
    )


def _frame(page) -> Frame:
    box = pdfium.FS_RECTF()
    if not pdfium.FPDF_GetPageBoundingBox(page, box):
        raise PageFailed("the page has no size")
    rotation = max(pdfium.FPDFPage_GetRotation(page), 0) * 90
    return Frame(box.left, box.bottom, box.right, box.top, rotation)


def _by_direction(words: Sequence[tuple[int, Word]]) -> dict[int, list[Word]]:
    grouped = defaultdict(list)
    for direction, word in words:
        grouped[direction].append(word)
    return dict(grouped)


class _Style:
    """How one text object is drawn."""

    __slots__ = ("bold", "direction", "invisible", "size")

    def __init__(self, size: float, bold: bool, direction: int, invisible: bool):
        self.size, self.bold, self.direction, self.invisible = size, bold, direction, invisible


_UNKNOWN_STYLE = _Style(0.0, False, 0, False)


class _Words:
    """Reads the words of one page."""

    def __init__(self, text_page, frame: Frame):
        self._page = ctypes.cast(text_page, ctypes.c_void_p).value
        self._frame = frame
        self._rect = pdfium.FS_RECTF()
        self._rect_address = ctypes.addressof(self._rect)
        self._styles: dict[int, _Style] = {}
        self._text = _page_text(text_page, self._page)

    def read(self) -> tuple[list[tuple[int, Word]], list[tuple[int, Word]]]:
        """(direction, word) in the order of the file: those a reader can see, and those drawn invisibly."""
        visible, hidden = [], []
        seen = set()
        for start, end in self._spans():
            text = cleaned(self._text[start:end])
            style = self._style(start)
            box = self._box(start, end)
            if box is None or not text:
                continue
            # Overprinting a word a hair beside itself makes it look bold; it is one word all the same.
            place = (text, round(box.x0 / 2), round(box.top / 2))
            if place in seen:
                continue
            seen.add(place)
            word = Word(text, box, style.size, style.bold)
            (hidden if style.invisible else visible).append((style.direction, word))
        return visible, hidden

    def _spans(self) -> Iterator[tuple[int, int]]:
        for match in _WORD.finditer(self._text):
            yield match.span()

    def _box(self, start: int, end: int):
        rect, address, page = self._rect, self._rect_address, self._page
        _loose_box(page, start, address)
        left, top, right, bottom = rect.left, rect.top, rect.right, rect.bottom
        if end - start > 1:
            _loose_box(page, end - 1, address)
            left, right = min(left, rect.left), max(right, rect.right)
            bottom, top = min(bottom, rect.bottom), max(top, rect.top)
        return self._frame.box(left, bottom, right, top)

    def _style(self, index: int) -> _Style:
        key = _text_object(self._page, index)
        if key is None:
            return _UNKNOWN_STYLE
        style = self._styles.get(key)
        if style is None:
            style = self._styles[key] = self._read_style(key, index)
        return style

    def _read_style(self, text_object: int, index: int) -> _Style:
        matrix = pdfium.FS_MATRIX()
        _matrix(self._page, index, ctypes.addressof(matrix))
        size = _font_size(self._page, index) * math.hypot(matrix.c, matrix.d)
        angle = math.degrees(math.atan2(matrix.b, matrix.a)) - self._frame.rotation
        name = ctypes.create_string_buffer(128)
        flags = ctypes.c_int()
        _font_info(self._page, index, ctypes.addressof(name), len(name), ctypes.addressof(flags))
        mode = _render_mode(text_object)
        by_font = _BOLD_NAME.search(name.value) is not None or bool(flags.value & _FORCE_BOLD)
        bold = by_font or mode in _FILL_AND_STROKE
        return _Style(round(size, 1), bold, _direction(angle), mode in _INVISIBLE)


def _direction(angle: float) -> int:
    """Degrees counter-clockwise -> 0, 90, 180, 270 or ASKEW."""
    square = round(angle / 90) * 90
    return square % 360 if abs(angle - square) <= _SQUARE_WITHIN else ASKEW


def _page_text(text_page, address: int) -> str:
    """The page's characters, one for each of pdfium's character numbers."""
    count = pdfium.FPDFText_CountChars(text_page)
    if count <= 0:
        return ""
    buffer = (ctypes.c_ushort * (count * 2 + 1))()
    written = pdfium.FPDFText_GetText(text_page, 0, count, buffer)
    text = bytes(buffer)[: 2 * max(written - 1, 0)].decode("utf-16-le", "surrogatepass")
    # Characters without a Unicode value are left out of the text, those beyond the first plane take two places.
    if len(text) == count and written - 1 == count:
        return text
    return "".join(_character(_unicode(address, index)) for index in range(count))


def _character(code: int) -> str:
    return chr(code) if 0 < code < 0x110000 else "\ufffd" if code else "\x00"
