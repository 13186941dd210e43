"""A page's own space, the page as displayed, and the page turned so that its text is upright."""

from collections.abc import Callable, Sequence

from indexer.reading.page import Line, Word
from indexer.trade.evidence import Box

_TENTHS = [key / 10 for key in range(20_000)]  # equal lengths are one object: a file holds millions


def tenth(value: float) -> float:
    """A length in points, zero or more, rounded to 0.1."""
    key = int(value * 10 + 0.5)
    return _TENTHS[key] if 0 <= key < len(_TENTHS) else key / 10


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
        width, height = self.width, self.height
        if self.rotation == 0:
            x0, top, x1, bottom = x0 - self.left, self.top - y1, x1 - self.left, self.top - y0
        else:
            x0, top, x1, bottom = self.edges(x0, y0, x1, y1)
        if x0 < 0 or top < 0 or x1 > width or bottom > height:
            if not (0 <= x0 + x1 <= 2 * width and 0 <= top + bottom <= 2 * height):
                return None
            x0, top, x1, bottom = max(x0, 0.0), max(top, 0.0), min(x1, width), min(bottom, height)
        return Box(tenth(x0), tenth(top), tenth(x1), tenth(bottom))


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
    return unturned


def displayed_box(direction: int, width: float, height: float) -> Callable[[Box], Box]:
    """The way back from `upright_box`. width and height are those of the page as displayed."""
    if direction == 90:
        return upright_box(270, height, width)
    if direction == 180:
        return upright_box(180, width, height)
    if direction == 270:
        return upright_box(90, height, width)
    return unturned


def unturned(box: Box) -> Box:
    return box


def turned_word(word: Word, turn: Callable[[Box], Box]) -> Word:
    return Word(word.text, turn(word.box), word.font_size, word.bold, word.confidence)


def turned_lines(lines: Sequence[Line], turn: Callable[[Box], Box]) -> Sequence[Line]:
    if turn is unturned:
        return lines
    return tuple(_turned_line(line, turn) for line in lines)


def _turned_line(line: Line, turn: Callable[[Box], Box]) -> Line:
    words = tuple(turned_word(word, turn) for word in line.words)
    return Line(words, turn(line.box), line.column, line.heading_level)
