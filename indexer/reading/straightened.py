"""Boxes and points between a page as displayed and the same page straightened. Pure.

Straightened is upright and without skew. That page is as large as the displayed one or, where its text ran
downward or upward, as high as that was wide and as wide as that was high. Skew is taken out by turning the
page about its middle, so that what stood in a corner may come to lie a little outside.
"""

from dataclasses import dataclass
from math import cos, radians, sin

from indexer.trade.evidence import Box

Point = tuple[float, float]  # x, y in points, origin at the top left, y downward


@dataclass(frozen=True, slots=True)
class Straightening:
    """How one page was straightened.

    width, height  points, of the page as displayed
    turned         degrees clockwise that its text runs as displayed: 0, 90, 180 or 270
    skew           degrees clockwise that its lines slant once it is turned upright
    """

    width: float
    height: float
    turned: int = 0
    skew: float = 0.0

    def __post_init__(self) -> None:
        if self.turned not in (0, 90, 180, 270):
            raise ValueError(f"a page is turned by 0, 90, 180 or 270 degrees, not by {self.turned}")

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the straightened page, in points."""
        return (self.width, self.height) if self.turned in (0, 180) else (self.height, self.width)

    def straightened(self, box: Box) -> Box:
        """The smallest box on the straightened page that holds `box` of the page as displayed."""
        return _around([self.point_straightened(point) for point in _corners(box)])

    def displayed(self, box: Box) -> Box:
        """The smallest box on the page as displayed that holds `box` of the straightened page.

        Map words and then join them: the box of a long slanted line is higher than its words.
        """
        return _around([self.point_displayed(point) for point in _corners(box)])

    def point_straightened(self, point: Point) -> Point:
        x, y = point
        if self.turned == 90:
            x, y = y, self.width - x
        elif self.turned == 180:
            x, y = self.width - x, self.height - y
        elif self.turned == 270:
            x, y = self.height - y, x
        return self._about_middle((x, y), -self.skew)

    def point_displayed(self, point: Point) -> Point:
        x, y = self._about_middle(point, self.skew)
        if self.turned == 90:
            return self.width - y, x
        if self.turned == 180:
            return self.width - x, self.height - y
        if self.turned == 270:
            return y, self.height - x
        return x, y

    def _about_middle(self, point: Point, clockwise: float) -> Point:
        if not clockwise:
            return point
        width, height = self.size
        across, down = point[0] - width / 2, point[1] - height / 2
        c, s = cos(radians(clockwise)), sin(radians(clockwise))
        return width / 2 + across * c - down * s, height / 2 + across * s + down * c


def _corners(box: Box) -> tuple[Point, ...]:
    return (box.x0, box.top), (box.x1, box.top), (box.x0, box.bottom), (box.x1, box.bottom)


def _around(points: list[Point]) -> Box:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return Box(min(xs), min(ys), max(xs), max(ys))
