"""A sheet that is drawn and described at once: every text put on it is also written into its truth.

Positions are points, origin at the top left of the page as displayed, y downward; text stands on its line.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from pathlib import Path

from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas

PLACES = ("head", "foot", "body", "either", "aside", "behind")


class PageFull(ValueError):
    """Flowing text would run below the floor of its sheet."""


@dataclass(frozen=True)
class Face:
    """One kind of type."""

    font: str = "Helvetica"
    size: float = 10
    leading: float = 0  # 0 = 1.22 times the size
    spacing: float = 0  # extra points between letters
    grey: float = 0  # 0 black, 1 white

    @property
    def line(self) -> float:
        return self.leading or self.size * 1.22

    def width(self, text: str) -> float:
        return stringWidth(text, self.font, self.size) + self.spacing * len(text)


def wrap(text: str, face: Face, width: float) -> list[str]:
    """The lines of `text` in a measure of `width` points; never divides a word."""
    lines, line = [], ""
    for word in text.split():
        longer = f"{line} {word}".strip()
        if line and face.width(longer) > width:
            lines.append(line)
            line = word
        else:
            line = longer
    return [*lines, line] if line else lines


@dataclass
class Sheet:
    """One page. `y` is the baseline of the last line; flowing text goes on below it."""

    width: float
    height: float
    turn: int  # the file's /Rotate
    pdf_page: int
    printed_page: str = ""
    chapter: str = ""
    chapter_place: str = ""
    floor: float = 0  # flowing text must end above this
    scatter: bool = False  # paint lines in pieces and out of order
    y: float = 0
    words: dict[str, list[str]] = field(default_factory=lambda: {place: [] for place in PLACES})
    headings: list[str] = field(default_factory=list)
    tables: list[list[list[str]]] = field(default_factory=list)
    strokes: list[Callable[[Canvas], None]] = field(default_factory=list)

    def put(
        self,
        x: float,
        y: float,
        text: str,
        place: str = "body",
        face: Face = Face(),
        align: str = "left",
        up: float = 0,
        truth: str | None = None,
    ) -> None:
        """Paint one line at a place of its own. `up` turns it, degrees anticlockwise; `truth` is what it says
        when that is not simply its words ("B R A K E S" says BRAKES)."""
        self.words[place] += (text if truth is None else truth).split()
        shift = {"left": 0, "right": face.width(text), "center": face.width(text) / 2}[align]
        for pieces in self._strokes_of(text) if self.scatter else [[(0, text)]]:
            placed = [(face.width(text[:start]) - shift, piece) for start, piece in pieces]
            self.strokes.append(self._stroke(x, y, placed, face, up))

    def _strokes_of(self, text: str) -> list[list[tuple[int, str]]]:
        """A line as two strokes, its second half first; some begin with a word set letter by letter."""
        half = text.find(" ", len(text) // 2) + 1
        parts = [(half, text[half:]), (0, text[:half])] if half else [(0, text)]
        strokes = []
        for start, part in parts:
            word = part.split(" ")[0]
            if len(word) > 3 and len(self.strokes) % 4 == 0:
                letters = [(start + n, letter) for n, letter in enumerate(word)]
                strokes.append([*letters, (start + len(word), part[len(word) :])])
            else:
                strokes.append([(start, part)])
        return strokes

    def _stroke(
        self, x: float, y: float, pieces: list[tuple[float, str]], face: Face, up: float
    ) -> Callable[[Canvas], None]:
        """Paints pieces of text along one line; each stands its own distance from x."""

        def stroke(canvas: Canvas) -> None:
            canvas.saveState()
            canvas.translate(x, self.height - y)
            canvas.rotate(up)
            canvas.setFillGray(face.grey)
            for along, piece in pieces:
                line = canvas.beginText(along, 0)
                line.setFont(face.font, face.size)
                line.setCharSpace(face.spacing)
                line.textOut(piece)
                canvas.drawText(line)
            canvas.restoreState()

        return stroke

    def line(self, x0: float, y0: float, x1: float, y1: float, width: float = 0.6, dash: tuple = ()) -> None:
        def stroke(canvas: Canvas) -> None:
            canvas.saveState()
            canvas.setLineWidth(width)
            canvas.setDash(*dash) if dash else canvas.setDash()
            canvas.line(x0, self.height - y0, x1, self.height - y1)
            canvas.restoreState()

        self.strokes.append(stroke)

    def box(
        self,
        x0: float,
        top: float,
        x1: float,
        bottom: float,
        width: float = 0.8,
        fill: float | None = None,
        dash: tuple = (),
    ) -> None:
        def stroke(canvas: Canvas) -> None:
            canvas.saveState()
            canvas.setLineWidth(width)
            if dash:
                canvas.setDash(*dash)
            if fill is not None:
                canvas.setFillGray(fill)
            canvas.rect(
                x0,
                self.height - bottom,
                x1 - x0,
                bottom - top,
                stroke=int(width > 0),
                fill=int(fill is not None),
            )
            canvas.restoreState()

        self.strokes.append(stroke)

    def circle(self, x: float, y: float, radius: float) -> None:
        self.strokes.append(lambda canvas: canvas.circle(x, self.height - y, radius))

    def flow(
        self,
        text: str,
        x: float,
        width: float,
        face: Face = Face(),
        place: str = "body",
        align: str = "left",
        gap: float = 0,
        label: str = "",
        hang: float = 0,
    ) -> list[float]:
        """Set a paragraph below the last line, `label` hanging before it; gives its baselines."""
        self.y += gap
        baselines = []
        for n, piece in enumerate(wrap(text, face, width - hang)):
            self.y += face.line
            if label and n == 0:
                self.put(x, self.y, label, place, face)
            left = x + hang
            at = {"left": left, "center": left + (width - hang) / 2, "right": left + width - hang}[align]
            self.put(at, self.y, piece, place, face, align)
            baselines.append(self.y)
        if self.floor and self.y > self.floor:
            raise PageFull(f"page {self.pdf_page}: text ends {self.y - self.floor:.0f} points too low")
        return baselines

    def heading(
        self, text: str, x: float, width: float, face: Face, align: str = "left", gap: float = 8
    ) -> None:
        """A heading below the last line, in the body and in the truth's list of headings."""
        self.headings.append(text)
        self.flow(text, x, width, face, align=align, gap=gap)

    def mark(self) -> tuple:
        """Where the sheet stands, for `back_to`."""
        return (
            self.y,
            {place: len(said) for place, said in self.words.items()},
            len(self.headings),
            len(self.strokes),
        )

    def back_to(self, mark: tuple) -> None:
        """Take away all that was put on the sheet since `mark`."""
        self.y, said, headings, strokes = mark
        for place, count in said.items():
            del self.words[place][count:]
        del self.headings[headings:]
        del self.strokes[strokes:]

    def table(
        self,
        x: float,
        top: float,
        widths: Iterable[float],
        rows: Iterable[Iterable[str]],
        face: Face = Face(size=8),
        row_height: float = 14,
        head_face: Face | None = None,
        head_place: str = "either",
    ) -> float:
        """A fully ruled table, one line a cell; gives its bottom edge. `head_face` makes row one its head."""
        widths, rows = list(widths), [list(row) for row in rows]
        for n, row in enumerate(rows):
            left = x
            for width, text in zip(widths, row, strict=True):
                is_head = head_face and n == 0
                cell_face = head_face if is_head else face
                if text:
                    if cell_face.width(text) > width - 4:
                        raise ValueError(f"page {self.pdf_page}: «{text}» is wider than its cell")
                    line = top + (n + 1) * row_height - row_height * 0.3
                    self.put(left + 3, line, text, head_place if is_head else "body", cell_face)
                self.box(left, top + n * row_height, left + width, top + (n + 1) * row_height, 0.5)
                left += width
        self.tables.append(rows)
        self.y = top + len(rows) * row_height
        return self.y

    def truth(self) -> dict:
        """What a reader must find on this page, as data."""
        return {
            "pdf_page": self.pdf_page,
            "rotation": self.turn,
            "printed_page": self.printed_page,
            "chapter": {"text": self.chapter, "place": self.chapter_place} if self.chapter else None,
            **{place: " ".join(self.words[place]) for place in PLACES},
            "headings": self.headings,
            "tables": self.tables,
        }


class Book:
    """The sheets of one file, and the warnings with the steps they guard."""

    def __init__(self, slug: str):
        self.slug = slug
        self.sheets: list[Sheet] = []
        self.warnings: list[dict] = []
        self.joined: list[str] = []  # words divided at a line end, whole

    def sheet(self, printed_page: str = "", chapter: str = "", chapter_place: str = "", **more) -> Sheet:
        """A new page, US letter upright unless told otherwise."""
        given = {"width": 612, "height": 792, "turn": 0, **more}
        sheet = Sheet(
            **given,
            pdf_page=len(self.sheets) + 1,
            printed_page=printed_page,
            chapter=chapter,
            chapter_place=chapter_place,
        )
        self.sheets.append(sheet)
        return sheet

    def guard(self, kind: str, text: str, step: str, sheet: Sheet, step_sheet: Sheet | None = None) -> None:
        """Note that the warning or caution `text` on `sheet` stands above `step`."""
        self.warnings.append(
            {
                "kind": kind,
                "text": text,
                "step": step,
                "pdf_page": sheet.pdf_page,
                "step_pdf_page": (step_sheet or sheet).pdf_page,
            }
        )

    def truth(self) -> dict:
        return {
            "file": f"{self.slug}.pdf",
            "pages": [sheet.truth() for sheet in self.sheets],
            "warnings": self.warnings,
            "joined": self.joined,
        }

    def write(self, folder: Path) -> None:
        """Paint the sheets into folder/slug.pdf; the same bytes every time."""
        canvas = Canvas(str(folder / f"{self.slug}.pdf"), invariant=1, pageCompression=1)
        canvas.setTitle(self.slug)
        canvas.setAuthor("Drawn page. Fictitious. Not for flight.")
        for sheet in self.sheets:
            # reportlab takes the size as displayed and swaps it itself for a turned page.
            canvas.setPageSize((sheet.width, sheet.height))
            canvas.setPageRotation(sheet.turn)
            if sheet.turn == 90:
                canvas.transform(0, 1, -1, 0, sheet.height, 0)
            elif sheet.turn == 270:
                canvas.transform(0, -1, 1, 0, 0, sheet.width)
            for stroke in sheet.strokes:
                stroke(canvas)
            canvas.showPage()
        canvas.save()
