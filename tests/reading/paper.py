"""Draws small PDFs for the reading tests: our own fiction, set with reportlab's built-in fonts."""

from collections.abc import Iterable, Sequence
from pathlib import Path

from reportlab.pdfgen.canvas import Canvas

WIDTH, HEIGHT = 612.0, 792.0  # points: US letter, upright
LEFT = 72.0
LEADING = 14.0


class Paper:
    """One PDF being drawn. Heights are measured from the top of the page, as in what reading gives."""

    def __init__(self, path: Path, width: float = WIDTH, height: float = HEIGHT):
        self.path = path
        self.height = height
        self.canvas = Canvas(str(path), pagesize=(width, height), invariant=1)

    def text(self, x: float, top: float, text: str, size: float = 11, bold: bool = False) -> None:
        """One line whose baseline lies `size` below `top`."""
        self.canvas.setFont("Helvetica-Bold" if bold else "Helvetica", size)
        self.canvas.drawString(x, self.height - top - size, text)

    def lines(
        self, x: float, top: float, lines: Iterable[str], size: float = 11, bold: bool = False
    ) -> float:
        """Lines one under the other; gives the top of the line that would come next."""
        for line in lines:
            self.text(x, top, line, size, bold)
            top += LEADING
        return top

    def grid(self, xs: Sequence[float], tops: Sequence[float]) -> None:
        """The rulings of a table."""
        for top in tops:
            self.canvas.line(xs[0], self.height - top, xs[-1], self.height - top)
        for x in xs:
            self.canvas.line(x, self.height - tops[0], x, self.height - tops[-1])

    def next_page(self) -> None:
        self.canvas.showPage()

    def save(self) -> Path:
        self.canvas.save()
        return self.path


_TEXT = """
The alternator of the right engine is driven by a belt that runs over the crankshaft pulley. A belt that is
glazed or cracked slips under load and the bus voltage falls when the landing light is switched on. Look at
both sides of the belt with a light and a mirror, and turn the propeller by hand so that all of it passes. The
tension is right when the pulley begins to slip between eleven and thirteen pounds on the wrench. Do not lever
against the housing, which is thin and breaks at the lug. Write the reading in the log with the date.
"""
PROSE = _TEXT.split()


def prose(words: int, per_line: int, start: int = 0) -> list[str]:
    """Lines of plain text, the same each time."""
    run = [PROSE[(start + index) % len(PROSE)] for index in range(words)]
    return [" ".join(run[index : index + per_line]) for index in range(0, words, per_line)]
