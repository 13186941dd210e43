"""What a PDF page shows besides its words: rulings, pictures, drawings."""

import ctypes
import math
from collections.abc import Iterator
from dataclasses import dataclass, field

import pypdfium2.raw as pdfium

from indexer.reading.frame import Frame
from indexer.trade.evidence import Box

_RULING_MAX_WIDTH = 3.0  # points; a thicker bar is a shape
_RULING_MIN_LENGTH = 1.0  # points; word processors draw the corners of cells as pieces of their own
_MOST_RULINGS = 3000  # more is an engineering drawing, not a table
_MOST_SEGMENTS = 600  # of one path
_MOST_OBJECTS = 60_000  # of one page
_DEEPEST_FORM = 4
_WHITE = 250  # of 255 in each of red, green and blue

_Matrix = tuple[float, float, float, float, float, float]
_IDENTITY: _Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


@dataclass(slots=True)
class Shapes:
    """Boxes as displayed, in points. See RawPage for the fields."""

    rulings: list[Box] = field(default_factory=list)
    picture_part: float = 0.0
    has_drawing: bool = False


def shapes_on(page, frame: Frame) -> Shapes:
    """Walk the page's objects once. `page` is pdfium's own handle."""
    shapes = Shapes()
    is_drawing = False
    for kind, item, matrix in _objects(page):
        if kind == pdfium.FPDF_PAGEOBJ_IMAGE:
            box = frame.box(*_bounds(item, matrix))
            if box is not None:
                part = box.width * box.height / max(frame.width * frame.height, 1.0)
                shapes.picture_part = max(shapes.picture_part, min(part, 1.0))
        elif kind == pdfium.FPDF_PAGEOBJ_SHADING:
            shapes.has_drawing = True
        elif kind == pdfium.FPDF_PAGEOBJ_PATH and not is_drawing:
            filled, stroked = _draw_mode(item)
            if not (filled or stroked):
                continue
            if not shapes.has_drawing:
                shapes.has_drawing = stroked or not _is_white(item)
            for segment in _rulings(item, matrix, stroked):
                box = _ruling_box(frame, segment)
                if box is not None:
                    shapes.rulings.append(box)
            is_drawing = len(shapes.rulings) > _MOST_RULINGS
    if is_drawing:
        shapes.rulings.clear()
    return shapes


def _objects(page) -> Iterator[tuple[int, object, _Matrix]]:
    """Every object of the page, those inside forms too, with the matrix that puts it on the page."""
    seen = 0
    waiting = [(page, pdfium.FPDFPage_CountObjects(page), pdfium.FPDFPage_GetObject, _IDENTITY, 0)]
    while waiting:
        holder, count, get, matrix, depth = waiting.pop()
        for index in range(count):
            seen += 1
            if seen > _MOST_OBJECTS:
                return
            item = get(holder, index)
            kind = pdfium.FPDFPageObj_GetType(item)
            if kind == pdfium.FPDF_PAGEOBJ_TEXT:
                continue
            if kind == pdfium.FPDF_PAGEOBJ_FORM:
                if depth < _DEEPEST_FORM:
                    inner = _product(_own_matrix(item), matrix)
                    inside = pdfium.FPDFFormObj_CountObjects(item)
                    waiting.append((item, max(inside, 0), pdfium.FPDFFormObj_GetObject, inner, depth + 1))
                continue
            yield kind, item, matrix


def _rulings(path, matrix: _Matrix, stroked: bool) -> Iterator[tuple[float, float, float, float]]:
    """Axis-parallel strokes of a path as (x0, y0, x1, y1) in the page's own space."""
    x0, y0, x1, y1 = _bounds(path, matrix)
    if max(x1 - x0, y1 - y0) < _RULING_MIN_LENGTH:
        return
    if min(x1 - x0, y1 - y0) <= _RULING_MAX_WIDTH:
        yield x0, y0, x1, y1
        return
    count = pdfium.FPDFPath_CountSegments(path)
    if not stroked or not 2 <= count <= _MOST_SEGMENTS:
        return
    to_page = _product(_own_matrix(path), matrix)
    start = last = None
    x, y = ctypes.c_float(), ctypes.c_float()
    for index in range(count):
        segment = pdfium.FPDFPath_GetPathSegment(path, index)
        kind = pdfium.FPDFPathSegment_GetType(segment)
        pdfium.FPDFPathSegment_GetPoint(segment, x, y)
        here = _moved(to_page, x.value, y.value)
        if kind == pdfium.FPDF_SEGMENT_MOVETO:
            start = here
        elif kind == pdfium.FPDF_SEGMENT_LINETO and last is not None:
            yield _ordered(last, here)
        if pdfium.FPDFPathSegment_GetClose(segment) and start is not None:
            yield _ordered(here, start)
            here = start
        last = here


def _ruling_box(frame: Frame, segment: tuple[float, float, float, float]) -> Box | None:
    x0, top, x1, bottom = frame.edges(*segment)
    wide, high = x1 - x0, bottom - top
    if min(wide, high) > _RULING_MAX_WIDTH or max(wide, high) < _RULING_MIN_LENGTH:
        return None
    if x1 < 0 or bottom < 0 or x0 > frame.width or top > frame.height:
        return None
    return Box(x0, top, x1, bottom)


def _draw_mode(path) -> tuple[bool, bool]:
    fill, stroke = ctypes.c_int(), ctypes.c_int()
    pdfium.FPDFPath_GetDrawMode(path, fill, stroke)
    return fill.value != pdfium.FPDF_FILLMODE_NONE, bool(stroke.value)


def _is_white(path) -> bool:
    red, green, blue, alpha = (ctypes.c_uint() for _ in range(4))
    if not pdfium.FPDFPageObj_GetFillColor(path, red, green, blue, alpha):
        return False
    return alpha.value == 0 or min(red.value, green.value, blue.value) >= _WHITE


def _bounds(item, matrix: _Matrix) -> tuple[float, float, float, float]:
    left, bottom, right, top = (ctypes.c_float() for _ in range(4))
    pdfium.FPDFPageObj_GetBounds(item, left, bottom, right, top)
    if matrix is _IDENTITY:
        return left.value, bottom.value, right.value, top.value
    corners = [_moved(matrix, x, y) for x in (left.value, right.value) for y in (bottom.value, top.value)]
    xs, ys = zip(*corners, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _own_matrix(item) -> _Matrix:
    matrix = pdfium.FS_MATRIX()
    if not pdfium.FPDFPageObj_GetMatrix(item, matrix):
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
