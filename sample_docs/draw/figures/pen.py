"""What the figures share: their size, callouts, and the small parts that are drawn again and again."""

from collections.abc import Callable
from dataclasses import dataclass
from math import cos, pi, sin

from reportlab.lib.colors import white

FONT = "Helvetica"


@dataclass(frozen=True)
class Figure:
    """`draw(canvas, items)` draws in a box of this size in points, origin at the lower left.

    items   callout of the drawing ("1", "2" ...) -> the number to print there
    """

    width: float
    height: float
    draw: Callable


def callout(canvas, number: str, at: tuple[float, float], to: tuple[float, float]) -> None:
    """An item number and the line that leads to its part."""
    canvas.setLineWidth(0.5)
    canvas.line(*at, *to)
    canvas.setFillColor(white)
    canvas.circle(*at, 8, stroke=0, fill=1)
    canvas.setFillGray(0)
    canvas.setFont(FONT, 9)
    canvas.drawCentredString(at[0], at[1] - 3, number)
    canvas.setLineWidth(1)


def bolt(canvas, x: float, y: float, length: float) -> None:
    """A bolt seen from the side, head at the left."""
    canvas.rect(x, y - 5, 6, 10)
    canvas.rect(x + 6, y - 2.5, length, 5)
    for step in range(int(length // 4)):
        canvas.line(x + 8 + step * 4, y - 2.5, x + 10 + step * 4, y + 2.5)


def disc(canvas, x: float, y: float, radius: float, holes: int, bore: float = 0.45) -> None:
    """A disc with a bore and a ring of holes."""
    canvas.circle(x, y, radius)
    canvas.circle(x, y, radius * bore)
    for hole in range(holes):
        angle = 2 * pi * hole / holes
        canvas.circle(x + radius * 0.6 * cos(angle), y + radius * 0.6 * sin(angle), radius * 0.05)


def curve(canvas, *points: tuple[float, float]) -> None:
    """A polyline through the points."""
    path = canvas.beginPath()
    path.moveTo(*points[0])
    for point in points[1:]:
        path.lineTo(*point)
    canvas.drawPath(path)


def spring(canvas, x: float, y: float, length: float, turns: int, height: float = 10) -> None:
    """A coil spring along x."""
    step = length / turns
    points = [(x, y)]
    for turn in range(turns):
        points += [(x + step * (turn + 0.25), y + height / 2), (x + step * (turn + 0.75), y - height / 2)]
    curve(canvas, *points, (x + length, y))


def centre_line(canvas, x0: float, y0: float, x1: float, y1: float) -> None:
    canvas.setDash([9, 2, 2, 2])
    canvas.setLineWidth(0.5)
    canvas.line(x0, y0, x1, y1)
    canvas.setDash()
    canvas.setLineWidth(1)
