"""Draws parts lists and writes down what they say at the same time. No reading code is used here.

Positions are points, origin at the page's top left, y downward; text stands on its line.
"""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from parts_fiction import MARKS, FigureText
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas

FICTITIOUS = "FICTITIOUS SAMPLE OF AN INVENTED AIRCRAFT - NOT FOR FLIGHT"
MARK_WORDS = {"ATTACHING": "ATTACHING PARTS", "END": "---*---"}


@dataclass(frozen=True)
class RowTruth:
    """One row as it should be read. name: what names the part; printed: its whole cell without dots."""

    figure: str
    number: str
    item: str
    illustrated: bool
    part_number: str
    stock_number: str
    name: str
    printed: str
    dots: int
    usage: tuple[str, ...]
    effectivity: str
    units: str
    supplier: str
    attaching: bool
    pdf_page: int = 0


Entry = RowTruth | str  # a row, or a mark between rows


def entries(
    text: FigureText, *, stock: bool = False, models: bool = False, usage: bool = True
) -> list[Entry]:
    """The rows and marks of a figure. What a layout does not print is left out of the truth."""
    made: list[Entry] = []
    attaching = False
    for line in text.rows.strip().splitlines():
        cells = [cell.strip() for cell in line.split("|")]
        if cells[0] in MARKS:
            attaching = cells[0] == "ATTACHING"
            made.append(cells[0])
            continue
        item, number, nomenclature, codes, units, stock_number = cells
        dots = len(nomenclature) - len(nomenclature.lstrip("."))
        supplier = re.search(r"\{ V([0-9A-Z]{5})\}", nomenclature)
        made.append(
            RowTruth(
                figure=text.figure,
                number=text.number,
                item=item.lstrip("-"),
                illustrated=not item.startswith("-"),
                part_number=number,
                stock_number=stock_number if stock else "",
                name=re.sub(r"\{.*?\}", "", nomenclature[dots:]).strip(),
                printed=re.sub(r"[{}]", "", nomenclature[dots:]),
                dots=dots,
                usage=tuple(filter(None, codes.split(","))) if usage and not models else (),
                effectivity=codes if models else "",
                units=units,
                supplier=supplier[1] if supplier else "",
                attaching=attaching,
            )
        )
    return made


@dataclass(frozen=True)
class Type:
    font: str = "Helvetica"
    size: float = 9

    def width(self, text: str) -> float:
        return stringWidth(text, self.font, self.size)


@dataclass
class Sheet:
    """One page. turned: drawn along its long side, as a table printed upward on an upright page."""

    pdf_page: int
    width: float = 612
    height: float = 792
    turned: bool = False
    strokes: list[Callable[[Canvas], None]] = field(default_factory=list)

    def put(self, x: float, y: float, text: str, face: Type = Type(), align: str = "left") -> None:
        shift = {"left": 0, "right": face.width(text), "center": face.width(text) / 2}[align]

        def stroke(canvas: Canvas) -> None:
            canvas.setFont(face.font, face.size)
            canvas.drawString(x - shift, self._up(y), text)

        self.strokes.append(stroke)

    def line(self, x0: float, y0: float, x1: float, y1: float, width: float = 0.6) -> None:
        def stroke(canvas: Canvas) -> None:
            canvas.setLineWidth(width)
            canvas.line(x0, self._up(y0), x1, self._up(y1))

        self.strokes.append(stroke)

    def circle(self, x: float, y: float, radius: float) -> None:
        self.strokes.append(lambda canvas: canvas.circle(x, self._up(y), radius))

    def _up(self, y: float) -> float:
        return self.height - y

    def paint(self, canvas: Canvas) -> None:
        if self.turned:
            canvas.setPageSize((self.height, self.width))
            canvas.translate(self.height, 0)
            canvas.rotate(90)
        else:
            canvas.setPageSize((self.width, self.height))
        for stroke in self.strokes:
            stroke(canvas)


@dataclass
class Book:
    """A catalog: its sheets, and the truth of its rows, figures and index lines, in printed order.

    index   (part number, figure and item as printed, quantity)
    figures (number, figure, title, art pages, list pages)
    """

    name: str
    kind: str = "parts-catalog"
    sheets: list[Sheet] = field(default_factory=list)
    rows: list[RowTruth] = field(default_factory=list)
    index: list[tuple[str, str, str]] = field(default_factory=list)

    def sheet(self, **size) -> Sheet:
        self.sheets.append(Sheet(len(self.sheets) + 1, **size))
        return self.sheets[-1]

    def write(self, folder: Path) -> Path:
        path = folder / f"{self.name}.pdf"
        canvas = Canvas(str(path), invariant=1)
        for sheet in self.sheets:
            sheet.paint(canvas)
            canvas.showPage()
        canvas.save()
        return path


@dataclass(frozen=True)
class Col:
    """One column. width: of its cells before they wrap; 0 = they do not. head: its lines."""

    key: str
    x: float
    head: tuple[str, ...]
    width: float = 0
    align: str = "left"


@dataclass(frozen=True)
class Look:
    """How a table is printed.

    dots     "glued" ("..SEAL"), "spaced" (". . SEAL"), "set in" (no dots: the name is set in by `step`),
             "dots and step" (dots, and the name set in)
    ruled    "grid", "columns", "box" or ""
    leaders  dots from the name to the units
    number_first  the part number stands on the first line of its row, the name on the next
    """

    columns: tuple[Col, ...]
    face: Type = Type()
    bold: Type = Type("Helvetica-Bold", 9)
    leading: float = 10.5
    gap: float = 2.5  # between rows
    dots: str = "glued"
    step: float = 8
    ruled: str = ""
    right: float = 560
    leaders: bool = False
    number_first: bool = False
    hang: float = 6  # of a wrapped name's second line
    level_figures: bool = True

    def moved(self, by: float) -> "Look":
        columns = tuple(replace(col, x=col.x + by) for col in self.columns)
        return replace(self, columns=columns, right=self.right + by)

    def column(self, key: str) -> Col:
        return next(col for col in self.columns if col.key == key)


def head(sheet: Sheet, look: Look, y: float) -> float:
    """The column heads; gives the y below them."""
    deep = max(len(col.head) for col in look.columns)
    for col in look.columns:
        for n, line in enumerate(col.head):
            at = col.x + (col.width if col.align == "right" and col.width else 0)
            sheet.put(at, y + (deep - len(col.head) + n) * look.leading, line, look.bold, col.align)
    bottom = y + (deep - 1) * look.leading + 4
    if look.ruled:
        left = look.columns[0].x - 4
        sheet.line(left, y - look.bold.size - 1, look.right, y - look.bold.size - 1)
        sheet.line(left, bottom, look.right, bottom)
    return bottom + look.leading - 1


def rows(
    book: Book,
    sheet: Sheet,
    look: Look,
    todo: Sequence[Entry],
    y: float,
    floor: float,
    *,
    split_last: bool = False,
    item: Callable[[RowTruth], str] | None = None,
) -> tuple[list[Entry], float]:
    """Print rows down to the floor and note their truth. Gives what is left over, and the y reached.

    split_last  the last row's name may run over to the next sheet: what is left then begins with "+..."
    item        how the item cell is printed
    """
    left = list(todo)
    top = y - look.leading
    while left:
        entry = left[0]
        if isinstance(entry, str) and entry.startswith("+"):
            for line in entry[1:].split("\n"):
                sheet.put(look.column("name").x + look.hang, y, line, look.face)
                y += look.leading
            y += look.gap
            left.pop(0)
            continue
        if isinstance(entry, str):
            if y > floor:
                break
            sheet.put(look.column("name").x, y, MARK_WORDS[entry], look.face)
            y += look.leading + look.gap
            left.pop(0)
            continue
        lines = _name_lines(entry, look)
        lower = y + look.leading * (len(lines) - 1 + look.number_first)
        if lower > floor:
            if not (split_last and len(lines) > 1 and y <= floor):
                break
            _row(sheet, look, entry, lines[:1], y, item)
            book.rows.append(replace(entry, pdf_page=sheet.pdf_page))
            left[0] = "+" + "\n".join(line.strip() for line in lines[1:])
            y += look.leading + look.gap
            break
        y = _row(sheet, look, entry, lines, y, item)
        book.rows.append(replace(entry, pdf_page=sheet.pdf_page))
        if look.ruled == "grid":
            sheet.line(look.columns[0].x - 4, y - look.leading + 2, look.right, y - look.leading + 2, 0.4)
        left.pop(0)
    if look.ruled:
        bottom = y - look.leading + 2
        sheet.line(look.columns[0].x - 4, bottom, look.right, bottom)
        for x in (look.columns[0].x - 4, look.right):
            sheet.line(x, top - 2 * look.leading, x, bottom)
        if look.ruled in ("grid", "columns"):
            for col in look.columns[1:]:
                sheet.line(col.x - 4, top - look.leading, col.x - 4, bottom, 0.4)
    return left, y


def _name_lines(row: RowTruth, look: Look) -> list[str]:
    """The printed lines of a nomenclature cell, the first with its dots."""
    glued = "." * row.dots
    prefix = {"glued": glued, "spaced": ". " * row.dots, "set in": "", "dots and step": glued}
    col = look.column("name")
    text = prefix[look.dots] + row.printed
    room = (col.width or 999) - _indent(row, look)
    lines, line = [], ""
    for word in text.split(" "):
        longer = f"{line} {word}" if line else word
        if line and look.face.width(longer) > room:
            lines.append(line)
            line, room = word, (col.width or 999) - _indent(row, look) - look.hang
        else:
            line = longer
    return [*lines, line]


def _indent(row: RowTruth, look: Look) -> float:
    return row.dots * look.step if look.dots in ("set in", "dots and step") else 0.0


def _row(
    sheet: Sheet,
    look: Look,
    row: RowTruth,
    names: Sequence[str],
    y: float,
    item: Callable[[RowTruth], str] | None,
) -> float:
    dash = "" if row.illustrated else "-"
    cells = {
        "item": item(row) if item else f"{dash}{row.item}",
        "part": row.part_number,
        "stock": row.stock_number,
        "usage": ",".join(row.usage),
        "effect": row.effectivity,
        "units": row.units,
        "figure": row.figure,
        "supplier": row.supplier,
        "weight": f"{len(row.name) / 16:.2f}",
    }
    name_y = y + look.leading if look.number_first else y
    last_y = name_y + look.leading * (len(names) - 1)
    for col in look.columns:
        if col.key == "name":
            continue
        at_y = last_y if look.leaders and col.key == "units" else y
        if look.number_first and col.key in ("units", "usage"):
            at_y = name_y
        for n, line in enumerate(_cell_lines(cells[col.key], col, look)):
            at = col.x + (col.width if col.align == "right" else 0)
            sheet.put(at, at_y + n * look.leading, line, look.face, col.align)
            if n:
                last_y = max(last_y, at_y + n * look.leading)
    col = look.column("name")
    for n, line in enumerate(names):
        sheet.put(
            col.x + _indent(row, look) + (look.hang if n else 0), name_y + n * look.leading, line, look.face
        )
    if look.leaders and row.units:
        end = (
            col.x + _indent(row, look) + (look.hang if len(names) > 1 else 0) + look.face.width(names[-1]) + 3
        )
        units = look.column("units")
        begin = units.x + (units.width - look.face.width(row.units) if units.align == "right" else 0) - 3
        count = int((begin - end) / look.face.width("."))
        if count > 2:
            sheet.put(begin, name_y + look.leading * (len(names) - 1), "." * count, look.face, "right")
    return last_y + look.leading + look.gap


def _cell_lines(text: str, col: Col, look: Look) -> list[str]:
    """A number too long for its column is divided after a hyphen."""
    if not text:
        return []
    if not col.width or look.face.width(text) <= col.width or "-" not in text or col.align == "right":
        return [text]
    cut = max(n + 1 for n, c in enumerate(text) if c == "-" and look.face.width(text[: n + 1]) <= col.width)
    return [text[:cut], text[cut:]]


def running(sheet: Sheet, left: str, right: str, *foot: str, face: Type = Type(size=8)) -> None:
    """Head and foot. The foot's lines stand at the right, one under the other; the last says: fiction."""
    sheet.put(54, 36, left, face)
    sheet.put(sheet.width - 54, 36, right, face, "right")
    for n, line in enumerate(foot):
        sheet.put(sheet.width - 54, sheet.height - 56 + n * 10, line, face, "right")
    sheet.put(sheet.width / 2, sheet.height - 22, FICTITIOUS, Type(size=7), "center")


def art(sheet: Sheet, items: Sequence[str], top: float, bottom: float, face: Type = Type(size=9)) -> None:
    """A picture with callouts: circles, lines and the items beside them."""
    for n, item in enumerate(items):
        x = 110 + (n * 137) % (sheet.width - 240)
        y = top + 20 + (n * 53) % max(bottom - top - 40, 1)
        sheet.circle(x, y, 9 + n % 4)
        sheet.line(x + 12, y, x + 40, y - 6)
        sheet.put(x + 43, y - 3, item, face)
