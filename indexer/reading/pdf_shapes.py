"""What a PDF page shows besides its words: rulings, pictures, drawings."""

import ctypes
import math
from collections.abc import Iterator
from dataclasses import dataclass, field

import pypdfium2.raw as pdfium

from indexer.reading import pdfium_calls as calls
from indexer.reading.frame import Frame
from indexer.trade.evidence import Box

_RULING_MAX_WIDTH = 3.0  # points; a thicker bar is a shape
_RULING_MIN_LENGTH = 1.0  # points; word processors draw the corners of cells as pieces of their own
_MOST_RULINGS = 3000  # more is an engineering drawing, not a table
_MOST_SEGMENTS = 600  # of one path
_MOST_OBJECTS = 60_000  # of one page
_DEEPEST_FORM = 4
_WHITE = 250  # of 255 in each of red, green and blue
_CELLS = 32  # the page is parted into so many rows and columns to add up what pictures cover
_COVERING = 0.9  # of the page: a picture this large lies over all its text

_Matrix = tuple[float, float, float, float, float, float]
_IDENTITY: _Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


@dataclass(slots=True)
class Shapes:
    """Boxes as displayed, in points. See RawPage for the fields.

    paths    drawn outlines and lines, rulings among them
    covered  all text was drawn first and a picture laid over it: nobody sees it
    """

    rulings: list[Box] = field(default_factory=list)
    picture_part: float = 0.0
    has_drawing: bool = False
    paths: int = 0
    covered: bool = False


def shapes_on(page, frame: Frame) -> Shapes:
    """Walk the page's objects once. `page` is pdfium's own handle."""
    return _Walk(calls.address_of(page), frame).shapes()


class _Walk:
    """One walk over a page; holds the numbers that pdfium writes into."""

    def __init__(self, page: int, frame: Frame):
        self._page = page
        self._frame = frame
        self._floats = (ctypes.c_float * 4)()
        start = ctypes.addressof(self._floats)
        self._float_addresses = tuple(start + 4 * index for index in range(4))
        self._ints = (ctypes.c_int * 4)()
        start = ctypes.addressof(self._ints)
        self._int_addresses = tuple(start + 4 * index for index in range(4))
        self._pictured = [0] * _CELLS  # rows of the page; a bit for each cell that a picture covers
        self._texts = self._inner_texts = 0

    def shapes(self) -> Shapes:
        shapes = Shapes()
        is_drawing = False
        texts_under = 0
        for kind, item, matrix in self._objects():
            if kind == pdfium.FPDF_PAGEOBJ_IMAGE:
                part = self._part_of_page(item, matrix)
                shapes.picture_part = max(shapes.picture_part, part)
                # Only what lies on the page itself comes in the order in which it is drawn.
                if part >= _COVERING and self._texts and matrix is _IDENTITY and self._is_opaque(item):
                    texts_under = self._texts
            elif kind == pdfium.FPDF_PAGEOBJ_SHADING:
                shapes.has_drawing = True
            elif kind == pdfium.FPDF_PAGEOBJ_PATH:
                shapes.paths += 1
                if is_drawing:
                    continue
                filled, stroked = self._draw_mode(item)
                if not (filled or stroked):
                    continue
                if not shapes.has_drawing:
                    shapes.has_drawing = stroked or not self._is_white(item)
                for segment in self._rulings(item, matrix, stroked):
                    box = self._ruling_box(segment)
                    if box is not None:
                        shapes.rulings.append(box)
                is_drawing = len(shapes.rulings) > _MOST_RULINGS
        if is_drawing:
            shapes.rulings.clear()
        pictured = sum(map(int.bit_count, self._pictured)) / _CELLS**2
        shapes.picture_part = max(shapes.picture_part, pictured)
        shapes.covered = 0 < texts_under == self._texts and not self._inner_texts
        return shapes

    def _objects(self) -> Iterator[tuple[int, int, _Matrix]]:
        """(kind, address, matrix to the page) of every object but text, those inside forms too."""
        seen = 0
        count = calls.page_object_count(self._page)
        waiting = [(self._page, count, calls.page_object, _IDENTITY, 0)]
        while waiting:
            holder, count, get, matrix, depth = waiting.pop()
            for index in range(count):
                seen += 1
                if seen > _MOST_OBJECTS:
                    return
                item = get(holder, index)
                kind = calls.object_type(item)
                if kind == pdfium.FPDF_PAGEOBJ_TEXT:
                    if depth:
                        self._inner_texts += 1
                    else:
                        self._texts += 1
                    continue
                if kind != pdfium.FPDF_PAGEOBJ_FORM:
                    yield kind, item, matrix
                elif depth < _DEEPEST_FORM:
                    inner = _product(self._own_matrix(item), matrix)
                    inside = max(calls.form_object_count(item), 0)
                    waiting.append((item, inside, calls.form_object, inner, depth + 1))

    def _part_of_page(self, picture: int, matrix: _Matrix) -> float:
        box = self._frame.box(*self._bounds(picture, matrix))
        if box is None:
            return 0.0
        width, height = max(self._frame.width, 1.0), max(self._frame.height, 1.0)
        left, right = round(box.x0 / width * _CELLS), round(box.x1 / width * _CELLS)
        for row in range(round(box.top / height * _CELLS), round(box.bottom / height * _CELLS)):
            self._pictured[min(row, _CELLS - 1)] |= (1 << right) - (1 << left)
        return min(box.width * box.height / (width * height), 1.0)

    def _is_opaque(self, picture: int) -> bool:
        """Whether nothing shows through: it is no stencil, which has no colours, and has no soft mask."""
        handle = ctypes.cast(picture, pdfium.FPDF_PAGEOBJECT)
        if pdfium.FPDFPageObj_HasTransparency(handle):
            return False
        about = pdfium.FPDF_IMAGEOBJ_METADATA()
        page = ctypes.cast(self._page, pdfium.FPDF_PAGE)  # without it pdfium does not say how it is coloured
        if not pdfium.FPDFImageObj_GetImageMetadata(handle, page, about):
            return False
        return about.bits_per_pixel > 1 or about.colorspace != pdfium.FPDF_COLORSPACE_UNKNOWN

    def _rulings(
        self, path: int, matrix: _Matrix, stroked: bool
    ) -> Iterator[tuple[float, float, float, float]]:
        """Axis-parallel strokes of a path as (x0, y0, x1, y1) in the page's own space."""
        x0, y0, x1, y1 = self._bounds(path, matrix)
        if max(x1 - x0, y1 - y0) < _RULING_MIN_LENGTH:
            return
        if min(x1 - x0, y1 - y0) <= _RULING_MAX_WIDTH:
            yield x0, y0, x1, y1
            return
        count = calls.path_segment_count(path)
        if not stroked or not 2 <= count <= _MOST_SEGMENTS:
            return
        to_page = _product(self._own_matrix(path), matrix)
        start = last = None
        x_address, y_address = self._float_addresses[:2]
        for index in range(count):
            segment = calls.path_segment(path, index)
            kind = calls.segment_type(segment)
            calls.segment_point(segment, x_address, y_address)
            here = _moved(to_page, self._floats[0], self._floats[1])
            if kind == pdfium.FPDF_SEGMENT_MOVETO:
                start = here
            elif kind == pdfium.FPDF_SEGMENT_LINETO and last is not None:
                yield _ordered(last, here)
            if calls.segment_closes(segment) and start is not None:
                yield _ordered(here, start)
                here = start
            last = here

    def _ruling_box(self, segment: tuple[float, float, float, float]) -> Box | None:
        x0, top, x1, bottom = self._frame.edges(*segment)
        wide, high = x1 - x0, bottom - top
        if min(wide, high) > _RULING_MAX_WIDTH or max(wide, high) < _RULING_MIN_LENGTH:
            return None
        if x1 < 0 or bottom < 0 or x0 > self._frame.width or top > self._frame.height:
            return None
        return Box(x0, top, x1, bottom)

    def _draw_mode(self, path: int) -> tuple[bool, bool]:
        calls.path_draw_mode(path, *self._int_addresses[:2])
        return self._ints[0] != pdfium.FPDF_FILLMODE_NONE, bool(self._ints[1])

    def _is_white(self, path: int) -> bool:
        if not calls.object_fill_color(path, *self._int_addresses):
            return False
        red, green, blue, alpha = self._ints
        return alpha == 0 or min(red, green, blue) >= _WHITE

    def _bounds(self, item: int, matrix: _Matrix) -> tuple[float, float, float, float]:
        calls.object_bounds(item, *self._float_addresses)
        left, bottom, right, top = self._floats
        if matrix is _IDENTITY:
            return left, bottom, right, top
        corners = [_moved(matrix, x, y) for x in (left, right) for y in (bottom, top)]
        xs, ys = zip(*corners, strict=True)
        return min(xs), min(ys), max(xs), max(ys)

    def _own_matrix(self, item: int) -> _Matrix:
        matrix = pdfium.FS_MATRIX()
        if not calls.object_matrix(item, ctypes.addressof(matrix)):
            return _IDENTITY
        found = (matrix.a, matrix.b, matrix.c, matrix.d, matrix.e, matrix.f)
        return found if all(map(math.isfinite, found)) else _IDENTITY


def _product(first: _Matrix, then: _Matrix) -> _Matrix:
    a, b, c, d, e, f = first
    g, h, i, j, k, m = then
    return a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j, e * g + f * i + k, e * h + f * j + m


def _moved(matrix: _Matrix, x: float, y: float) -> tuple[float, float]:
    a, b, c, d, e, f = matrix
    return a * x + c * y + e, b * x + d * y + f


def _ordered(one: tuple[float, float], two: tuple[float, float]) -> tuple[float, float, float, float]:
    return min(one[0], two[0]), min(one[1], two[1]), max(one[0], two[0]), max(one[1], two[1])
