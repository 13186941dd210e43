"""The words of one PDF page with boxes, font size, weight and direction.

A word costs three calls into pdfium where two a character are usual: the page's whole text comes in one call,
and boxes and fonts are asked for only where a word begins and ends. A word that is put together from several
text objects is looked at character by character.
"""

import ctypes
import math
import re
import sys
from collections.abc import Iterator

import pypdfium2.raw as pdfium

from indexer.reading import pdfium_calls as calls
from indexer.reading.characters import LINE_END_HYPHEN, UNKNOWN, cleaned
from indexer.reading.frame import Frame
from indexer.reading.letterspacing import LEADER, closed_up
from indexer.reading.page import Word
from indexer.reading.raw_page import ASKEW, Style, StyledWord
from indexer.trade.evidence import Box

_HYPHEN = LINE_END_HYPHEN
_HYPHEN_IN_TEXT = "\ufffe"  # the same mark where pdfium gives many characters at once
_WORD = re.compile(rf"[^\s{_HYPHEN}]+{_HYPHEN}?|{_HYPHEN}")
_WORD_OR_LEADER = re.compile(rf"\.{{4,}}|(?:(?!\.{{4}})[^\s{_HYPHEN}])+{_HYPHEN}?|{_HYPHEN}")
_RUN_TOGETHER = re.compile(r"[a-z][A-Z]|[A-Za-z,.;)]\d")  # "elementH.7", "transponder1,"
_BOLD_NAME = re.compile(rb"bold|black|heavy|demi|-bd\b|,bd\b|cmbx", re.IGNORECASE)
_FORCE_BOLD = 1 << 18  # PDF 32000-1 table 123, flag bit 19
_INVISIBLE = (pdfium.FPDF_TEXTRENDERMODE_INVISIBLE, pdfium.FPDF_TEXTRENDERMODE_CLIP)
_FILL_AND_STROKE = (pdfium.FPDF_TEXTRENDERMODE_FILL_STROKE, pdfium.FPDF_TEXTRENDERMODE_FILL_STROKE_CLIP)
_SQUARE_WITHIN = 10.0  # degrees; text further off the axes is askew
_WORD_SPACE = 0.2  # of the font size, between text objects of what pdfium takes for one word
_NARROW_SPACE = 0.08  # the same, where a capital follows a small letter
_WIDEST = 1.2  # times the font size, the average letter: a wider word has a gap inside
_RAISED = 0.8  # of the neighbour's size: a digit smaller than this is a note mark, not part of the word
_TALLEST = 1.7  # times the font size; a font that states more overstates its ascent
_ASCENT, _DESCENT = 0.9, 0.25  # of the font size, for such a font
_OVERPRINT = 1.5  # points; the same word twice within this is drawn twice to look bold


def read_words(text_page, frame: Frame) -> tuple[list[StyledWord], int]:
    """The words in the order of the file, and how many more lie off the page. `text_page` is pdfium's own
    handle."""
    reader = _Reader(text_page, frame)
    words = closed_up(reader.words())
    return words, reader.outside


_NO_STYLE = Style(0.0, False, 0, False)


class _Reader:
    """Reads one page; holds the buffers that pdfium writes into."""

    def __init__(self, text_page, frame: Frame):
        self._page = calls.address_of(text_page)
        self._frame = frame
        self._rect = pdfium.FS_RECTF()
        self._rect_address = ctypes.addressof(self._rect)
        self._matrix = pdfium.FS_MATRIX()
        self._matrix_address = ctypes.addressof(self._matrix)
        self._styles: dict[int, Style] = {}  # by the address of the text object
        self._kinds: dict[tuple[float, int, bool, bool], Style] = {}  # so that equal styles are one object
        self._bold_fonts: dict[int, bool] = {}  # by the address of the font
        self._text = self._page_text(calls.count_chars(self._page))
        self._drawn: dict[str, list[Box]] = {}
        self.outside = 0

    def words(self) -> list[StyledWord]:
        found: list[StyledWord] = []
        for start, end, style in self._spans():
            bounds = self._bounds(start, end)
            sideways = style.own_direction in (90, 270)
            along = bounds[3] - bounds[1] if sideways else bounds[2] - bounds[0]
            if end - start > 1 and along > _WIDEST * style.size * (end - start):
                for piece in self._pieces(start, end):
                    self._add(found, *piece, self._bounds(piece[0], piece[1]))
            else:
                self._add(found, start, end, style, bounds)
        return found

    def _add(
        self,
        found: list[StyledWord],
        start: int,
        end: int,
        style: Style,
        bounds: tuple[float, float, float, float],
    ) -> None:
        across = bounds[2] - bounds[0] if style.own_direction in (90, 270) else bounds[3] - bounds[1]
        if across > _TALLEST * style.size and style.own_direction != ASKEW:
            bounds = self._bounds_by_baseline(start, bounds, style)
        box = self._frame.box(*bounds)
        if box is None:
            self.outside += 1
            return
        word = LEADER if self._text.startswith(LEADER, start) else cleaned(self._text[start:end])
        if word and not self._is_overprint(word, box):
            found.append((Word(sys.intern(word), box, style.size, style.bold), style))

    def _spans(self) -> Iterator[tuple[int, int, Style]]:
        """(start, end) of each word in the page's characters, and how it is drawn."""
        text = self._text
        pattern = _WORD_OR_LEADER if LEADER in text else _WORD
        for match in pattern.finditer(text):
            start, end = match.span()
            style = self._style(start)
            if end - start > 1 and (
                self._style(end - 1) is not style or _RUN_TOGETHER.search(text, start, end)
            ):
                yield from self._pieces(start, end)
            else:
                yield start, end, style

    def _pieces(self, start: int, end: int) -> Iterator[tuple[int, int, Style]]:
        """Part what pdfium runs together: note marks, other lines, words with a narrow space between them."""
        begin = start
        style = first_style = self._style(start)
        before = self._edges(start, style.own_direction)
        for index in range(start + 1, end):
            next_style = self._style(index)
            here = self._edges(index, style.own_direction)
            if self._parts(index, style, next_style, before, here):
                yield begin, index, first_style
                begin, first_style = index, next_style
            style, before = next_style, here
        yield begin, end, first_style

    def _parts(self, index: int, style: Style, next_style: Style, before, here) -> bool:
        """Whether a new word begins at a character."""
        one, two = self._text[index - 1], self._text[index]
        if style.own_direction != next_style.own_direction:
            return True
        size = max(style.size, next_style.size)
        gap = here[0] - before[2]
        higher_top, lower_bottom = max(before[1], here[1]), min(before[3], here[3])
        if lower_bottom <= higher_top or gap > _WORD_SPACE * size or gap < -size:
            return True
        if gap > _NARROW_SPACE * size and one.islower() and two.isupper():
            return True
        if min(style.size, next_style.size) > _RAISED * size:
            return False
        mark = two if next_style.size < style.size else one
        return mark.isdigit() and abs((here[1] + here[3]) - (before[1] + before[3])) > 0.2 * size

    def _edges(self, index: int, own_direction: int) -> tuple[float, float, float, float]:
        """(x0, top, x1, bottom) of one character, turned so that its text runs to the right."""
        rect = self._rect
        calls.char_loose_box(self._page, index, self._rect_address)
        if own_direction == 90:
            return rect.bottom, rect.left, rect.top, rect.right
        if own_direction == 180:
            return -rect.right, rect.bottom, -rect.left, rect.top
        if own_direction == 270:
            return -rect.top, -rect.right, -rect.bottom, -rect.left
        return rect.left, -rect.top, rect.right, -rect.bottom

    def _bounds(self, start: int, end: int) -> tuple[float, float, float, float]:
        """(x0, y0, x1, y1) of a word in the page's own space: from its first and its last character."""
        rect, address, page = self._rect, self._rect_address, self._page
        calls.char_loose_box(page, start, address)
        if end - start == 1:
            return rect.left, rect.bottom, rect.right, rect.top
        left, top, right, bottom = rect.left, rect.top, rect.right, rect.bottom
        calls.char_loose_box(page, end - 1, address)
        return min(left, rect.left), min(bottom, rect.bottom), max(right, rect.right), max(top, rect.top)

    def _bounds_by_baseline(
        self, start: int, bounds: tuple[float, float, float, float], style: Style
    ) -> tuple[float, float, float, float]:
        """The bounds cut down to a usual letter height: some fonts state one of several lines."""
        x0, y0, x1, y1 = bounds
        x, y = ctypes.c_double(), ctypes.c_double()
        calls.char_origin(self._page, start, ctypes.addressof(x), ctypes.addressof(y))
        above, below = _ASCENT * style.size, _DESCENT * style.size
        if style.own_direction == 0:
            return x0, y.value - below, x1, y.value + above
        if style.own_direction == 180:
            return x0, y.value - above, x1, y.value + below
        if style.own_direction == 90:
            return x.value - above, y0, x.value + below, y1
        return x.value - below, y0, x.value + above, y1

    def _is_overprint(self, text: str, box: Box) -> bool:
        """Whether the same word was drawn at this place before."""
        places = self._drawn.get(text)
        if places is None:
            self._drawn[text] = [box]
            return False
        for other in places:
            if abs(other.x0 - box.x0) < _OVERPRINT and abs(other.top - box.top) < _OVERPRINT:
                return True
        places.append(box)
        return False

    def _style(self, index: int) -> Style:
        key = calls.char_text_object(self._page, index)
        if key is None:
            return _NO_STYLE
        style = self._styles.get(key)
        if style is None:
            style = self._styles[key] = self._read_style(key, index)
        return style

    def _read_style(self, text_object: int, index: int) -> Style:
        matrix = self._matrix
        calls.char_matrix(self._page, index, self._matrix_address)
        size = calls.char_font_size(self._page, index) * math.hypot(matrix.c, matrix.d)
        own = _direction(math.degrees(math.atan2(matrix.b, matrix.a)))
        font = calls.text_font(text_object)
        bold = self._bold_fonts.get(font)
        if bold is None:
            bold = self._bold_fonts[font] = self._is_bold(index)
        mode = calls.text_render_mode(text_object)
        key = round(size, 1), own, bold or mode in _FILL_AND_STROKE, mode in _INVISIBLE
        style = self._kinds.get(key)
        if style is None:
            direction = own if own == ASKEW else (own - self._frame.rotation) % 360
            style = self._kinds[key] = Style(key[0], key[2], direction, key[3], own)
        return style

    def _is_bold(self, index: int) -> bool:
        name = ctypes.create_string_buffer(128)
        flags = ctypes.c_int()
        calls.char_font_info(self._page, index, ctypes.addressof(name), len(name), ctypes.addressof(flags))
        return _BOLD_NAME.search(name.value) is not None or bool(flags.value & _FORCE_BOLD)

    def _page_text(self, count: int) -> str:
        """The page's characters, one for each of pdfium's character numbers."""
        if count <= 0:
            return ""
        buffer = (ctypes.c_ushort * (count * 2 + 1))()
        written = calls.get_text(self._page, 0, count, ctypes.addressof(buffer)) - 1
        text = bytes(buffer)[: 2 * max(written, 0)].decode("utf-16-le", "surrogatepass")
        text = text.replace(_HYPHEN_IN_TEXT, _HYPHEN)
        # Characters without a Unicode value are left out of it, those beyond the first plane count twice.
        if len(text) != count or written != count:
            text = "".join(_character(calls.char_unicode(self._page, index)) for index in range(count))
        if _HYPHEN not in text:
            return text
        # The mark of a line-end hyphen is also what a glyph without a meaning may carry.
        return "".join(
            UNKNOWN if character == _HYPHEN and calls.char_is_hyphen(self._page, index) != 1 else character
            for index, character in enumerate(text)
        )


def _direction(angle: float) -> int:
    """Degrees counter-clockwise -> 0, 90, 180, 270 or ASKEW."""
    square = round(angle / 90) * 90
    return square % 360 if abs(angle - square) <= _SQUARE_WITHIN else ASKEW


def _character(code: int) -> str:
    return chr(code) if 0 < code < 0x110000 and not 0xD800 <= code < 0xE000 else UNKNOWN
