"""A page's own space, the page as displayed, and the page turned so that its text is upright."""

from collections.abc import Callable, Sequence

from indexer.reading.page import Line, Word
from indexer.trade.evidence import Box

_tenths: dict[int, float] = {}


def tenth(value: float) -> float:
    """A length in points rounded to 0.1. Equal lengths are one object: a long file holds millions of them."""
    key = round(value * 10)
    known = _tenths.get(key)
    return _tenths.setdefault(key, key / 10) if known is None else known


class Frame:
    """Turns a page's own space (points, origin bottom left) into the page as displayed (origin top left).

    The origin of the displayed page is the corner of its crop box; `rotation` is the turn the file asks for.
    """

    def __init__(self, left: float, bottom: float, right: float, top: float, rotation: int):
        self.left, self.bottom, self.right, self.top = left, bottom, right, top
        self.rotation = rotation
        across, up = right - left, top - bottom
        self.width, self.height = (up, across) if rotation in (90, 270) else (across, up)

    def edges(self, x0: float, y0: float, x1: float, y1: float) -> tuple[float, float, float, float]:
        """(x0, y0, x1, y1) of the page's own space with y upward -> (x0, top, x1, bottom) as displayed."""
        if self.rotation == 0:
            return x0 - self.left, self.top - y1, x1 - self.left, self.top - y0
        if self.rotation == 90:
            return y0 - self.bottom, x0 - self.left, y1 - self.bottom, x1 - self.left
        if self.rotation == 180:
            return self.right - x1, y0 - self.bottom, self.right - x0, y1 - self.bottom
        return self.top - y1, self.right - x1, self.top - y0, self.right - x0

    def box(self, x0: float, y0: float, x1: float, y1: float) -> Box | None:
        """The part of a rectangle that lies on the displayed page; None when its middle lies outside."""
        x0, top, x1, bottom = self.edges(x0, y0, x1, y1)
        if not (0 <= (x0 + x1) / 2 <= self.width and 0 <= (top + bottom) / 2 <= self.height):
            return None
        return Box(
            tenth(max(x0, 0.0)),
            tenth(max(top, 0.0)),
            tenth(min(x1, self.width)),
            tenth(min(bottom, self.height)),
        )


def upright_box(direction: int, width: float, height: float) -> Callable[[Box], Box]:
    """For text that runs in `direction`: from a box as displayed to the box on the page turned upright.

    width, height  of the page as displayed
    """
    if direction == 90:
        return lambda box: Box(tenth(height - box.bottom), box.x0, tenth(height - box.top), box.x1)
    if direction == 180:
        return lambda box: Box(
            tenth(width - box.x1), tenth(height - box.bottom), tenth(width - box.x0), tenth(height - box.top)
        )
    if direction == 270:
        return lambda box: Box(box.top, tenth(width - box.x1), box.bottom, tenth(width - box.x0))
    return lambda box: box


def displayed_box(direction: int, width: float, height: float) -> Callable[[Box], Box]:
    """The way back from `upright_box`. width and height are those of the page as displayed."""
    if direction == 90:
        return upright_box(270, height, width)
    if direction == 180:
        return upright_box(180, width, height)
    if direction == 270:
        return upright_box(90, height, width)
    return lambda box: box


def turned_word(word: Word, turn: Callable[[Box], Box]) -> Word:
    return Word(word.text, turn(word.box), word.font_size, word.bold)


def turned_lines(lines: Sequence[Line], turn: Callable[[Box], Box]) -> tuple[Line, ...]:
    return tuple(_turned_line(line, turn) for line in lines)


def _turned_line(line: Line, turn: Callable[[Box], Box]) -> Line:
    words = tuple(turned_word(word, turn) for word in line.words)
    return Line(words, turn(line.box), line.column, line.heading_level)
