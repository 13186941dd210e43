"""The strip beside a page of a packet: what must be known of the page, on paper that is added at its left.

Units are points. The lines run up along the edge of the page, so that the page itself loses nothing.
"""

import io
from collections.abc import Sequence
from dataclasses import dataclass

from reportlab.lib.utils import simpleSplit
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas

from server.packet_fonts import PLAIN, STRONG, in_font, use_fonts

SIZE, LEADING, MARGIN = 7.5, 9.5, 9.0
_SHORTEST = 120.0  # of a line: on a page lower than that the lines run past its top, on a taller strip


@dataclass(frozen=True, slots=True)
class Line:
    """One thing said on the strip; `strong` in bold letters."""

    words: str
    strong: bool = False


@dataclass(frozen=True, slots=True)
class Strip:
    """Its width and height, and the lines as they are broken to fit."""

    width: float
    height: float
    lines: tuple[Line, ...]


def strip_for(height: float, lines: Sequence[Line]) -> Strip:
    """The strip for a page of a height: as wide as its lines need, and never narrower than its first two."""
    use_fonts()
    length = max(height, _SHORTEST) - 2 * MARGIN
    broken = tuple(
        Line(part, line.strong)
        for line in lines
        for part in _split(in_font(line.words), STRONG if line.strong else PLAIN, length)
    )
    width = 2 * MARGIN + LEADING * len(broken)
    return Strip(width, max(height, _SHORTEST), broken)


def _split(words: str, font: str, length: float) -> list[str]:
    """A line broken at blanks; a word longer than a line is broken within."""
    found = []
    for part in simpleSplit(words, font, SIZE, length):
        while stringWidth(part, font, SIZE) > length:
            cut = next(
                end
                for end in range(len(part), 0, -1)
                if end == 1 or stringWidth(part[:end], font, SIZE) <= length
            )
            found.append(part[:cut])
            part = part[cut:]
        found.append(part)
    return found


def draw_strips(strips: Sequence[Strip]) -> bytes:
    """A PDF with one page for each strip."""
    use_fonts()
    out = io.BytesIO()
    canvas = Canvas(out, pageCompression=1)
    for strip in strips:
        canvas.setPageSize((strip.width, strip.height))
        canvas.saveState()
        canvas.rotate(90)  # x runs up the page, y to its left
        at = -MARGIN - SIZE
        for line in strip.lines:
            canvas.setFont(STRONG if line.strong else PLAIN, SIZE)
            canvas.drawString(MARGIN, at, line.words)
            at -= LEADING
        canvas.restoreState()
        canvas.setLineWidth(0.6)
        canvas.line(strip.width - 1.5, 0, strip.width - 1.5, strip.height)
        canvas.showPage()
    canvas.save()
    return out.getvalue()
