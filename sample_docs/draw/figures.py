"""Line-art figures: each a size in points and a function that draws it with numbered callouts."""

from collections.abc import Callable
from dataclasses import dataclass
from math import cos, pi, sin

from reportlab.lib.colors import white

FONT = "Helvetica"


@dataclass(frozen=True)
class Figure:
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


def disc(canvas, x: float, y: float, radius: float, holes: int) -> None:
    """A disc with a bore and a ring of holes."""
    canvas.circle(x, y, radius)
    canvas.circle(x, y, radius * 0.45)
    for hole in range(holes):
        angle = 2 * pi * hole / holes
        canvas.circle(x + radius * 0.6 * cos(angle), y + radius * 0.6 * sin(angle), radius * 0.05)


def _brake(canvas) -> None:
    canvas.setLineWidth(1)
    disc(canvas, 110, 110, 85, 6)
    canvas.roundRect(225, 62, 60, 96, 12)
    canvas.circle(255, 132, 15)
    canvas.circle(255, 88, 15)
    canvas.rect(300, 66, 12, 88)
    canvas.rect(322, 66, 10, 88)
    canvas.rect(348, 62, 20, 96)
    bolt(canvas, 385, 132, 44)
    bolt(canvas, 385, 88, 44)
    canvas.setDash(3, 2)
    canvas.line(195, 110, 225, 110)
    canvas.line(285, 110, 385, 110)
    canvas.setDash()
    callout(canvas, "1", (40, 205), (70, 182))
    callout(canvas, "2", (255, 190), (255, 158))
    callout(canvas, "3", (225, 25), (248, 75))
    callout(canvas, "4", (306, 190), (306, 154))
    callout(canvas, "5", (330, 25), (327, 66))
    callout(canvas, "6", (362, 190), (358, 158))
    callout(canvas, "7", (420, 25), (405, 84))


FIGURES = {
    "brake": Figure(450, 215, _brake),
}
