"""Pages of unseen layouts (unseen_pages.txt): drawn, and what was read of them judged against their truth."""

import re
from collections import Counter
from dataclasses import dataclass, field
from enum import StrEnum
from pathlib import Path

from parts_drawing import Book, Sheet, Type
from parts_score import pairs, plain
from reportlab.pdfgen.canvas import Canvas

from indexer.tagging.parts_rows import PartNoteKind, PartsList, PartsRow

PAGES = Path(__file__).with_name("unseen_pages.txt")
_FACES = {
    "B": Type("Helvetica-Bold", 8.5),
    "I": Type("Helvetica-Oblique", 8),
    "C": Type("Courier", 9.5),
    "": Type(size=8.5),
}
_SMALL = Type(size=7)
_LINE = re.compile(r"(?P<y>[0-9.]+): (?P<pieces>.*)")
_PIECE = re.compile(r"(?P<x>[0-9.]+) (?:(?P<face>[BIC]) )?(?P<text>.*)")
_DIRECTED = (
    PartNoteKind.SUPERSEDED_BY,
    PartNoteKind.SUPERSEDES,
    PartNoteKind.REPLACED_BY,
    PartNoteKind.REPLACES,
)
_BACK = {"replaces", "supersedes"}


class Verdict(StrEnum):
    RIGHT = "right"
    FLAGGED = "flagged"
    WRONG = "wrong and not flagged"
    LOST = "lost"
    INVENTED = "a row that is none, not flagged"
    INVENTED_FLAGGED = "a row that is none, flagged"


@dataclass(frozen=True)
class Truth:
    """One row. notes: number -> what the words say of it; "?" behind it = it may be left open."""

    item: str
    number: str
    name: str
    units: str
    dots: int
    usage: tuple[str, ...]
    effectivity: str
    drawn: bool
    notes: dict[str, str]
    figure: str


@dataclass
class UnseenBook:
    name: str
    book: Book
    truth: list[Truth] = field(default_factory=list)


class _Clockwise(Sheet):
    """A wide page turned to the right."""

    def paint(self, canvas: Canvas) -> None:
        canvas.setPageSize((self.height, self.width))
        canvas.translate(0, self.width)
        canvas.rotate(-90)
        for stroke in self.strokes:
            stroke(canvas)


def unseen_books() -> list[UnseenBook]:
    """Every book of the file, drawn."""
    books: list[UnseenBook] = []
    for line in PAGES.read_text(encoding="utf-8").splitlines():
        if line.startswith("["):
            name = line[1:].partition("]")[0]
            books.append(UnseenBook(name, Book(name)))
        elif line.startswith("page "):
            _, width, height, *turned = line.split()
            _begin(books[-1].book, float(width), float(height), bool(turned))
        elif line.startswith("="):
            books[-1].truth.append(_truth(line[1:]))
        elif found := _LINE.fullmatch(line):
            _print(books[-1].book.sheets[-1], float(found["y"]), found["pieces"])
    return books


def _begin(book: Book, width: float, height: float, turned: bool) -> None:
    sheet = (_Clockwise if turned else Sheet)(len(book.sheets) + 1, width, height)
    book.sheets.append(sheet)
    sheet.put(50, 34, "MERLEWOOD MW-5 PARTS CATALOG", _SMALL)
    sheet.put(width / 2, height - 20, "FICTITIOUS SAMPLE - NOT FOR FLIGHT", _SMALL, "center")


def _print(sheet: Sheet, y: float, pieces: str) -> None:
    for piece in pieces.split(" | "):
        found = _PIECE.fullmatch(piece)
        assert found, piece
        sheet.put(float(found["x"]), y, found["text"], _FACES[found["face"] or ""])


def _truth(line: str) -> Truth:
    cells = [cell.strip() for cell in line.split("|")]
    item, number, name, units, dots, usage, effectivity, drawn, notes, figure = cells + [""] * (
        10 - len(cells)
    )
    said = [note.strip().rpartition(" ") for note in notes.split(";") if note.strip()]
    return Truth(
        item, number, name, units, int(dots), tuple(usage.split()), effectivity, not drawn,
        {of: kind for kind, _, of in said}, figure,
    )  # fmt: skip


def judge(unseen: UnseenBook, parts: PartsList) -> tuple[Counter[Verdict], list[str]]:
    """How many rows came out how, and each fault that is not flagged in words."""
    verdicts: Counter[Verdict] = Counter()
    faults: list[str] = []
    keys = [_key(row.number, row.name) for row in unseen.truth]
    for true, read in pairs(keys, [_key(row.part_number, row.nomenclature) for row in parts.rows]):
        if read is None:
            verdict, wrong = Verdict.LOST, [str(unseen.truth[true])]
        elif true is None:
            row = parts.rows[read]
            verdict = Verdict.INVENTED_FLAGGED if row.flags else Verdict.INVENTED
            wrong = [f"page {row.pdf_page}: {row.quote}"]
        else:
            row, truth = parts.rows[read], unseen.truth[true]
            wrong = _wrong(row, truth, parts.figures[row.figure].figure)
            verdict = Verdict.FLAGGED if row.flags else Verdict.WRONG if wrong else Verdict.RIGHT
        verdicts[verdict] += 1
        if verdict in (Verdict.WRONG, Verdict.LOST, Verdict.INVENTED, Verdict.INVENTED_FLAGGED):
            faults += [f"{verdict}: {what}" for what in wrong]
    return verdicts, faults


def _key(number: str, name: str) -> str:
    return re.sub(r"[^A-Z0-9]", "", number.upper()) or f"no number {plain(name)}"


def _wrong(row: PartsRow, truth: Truth, figure: str) -> list[str]:
    """Cells that are not as printed. A model under "used on" may be a usage code or an effectivity; words
    about other numbers, sides and notes may stay with the name."""
    usage = tuple(code.code for code in row.usage)
    models = usage == () and row.effectivity == " ".join(truth.usage)
    name, printed = plain(row.nomenclature), plain(truth.name)
    pairs_of = {
        "item": (row.item, truth.item),
        "number": (row.part_number, truth.number),
        "name": (name if not name.startswith(f"{printed} ") else printed, printed),
        "units": (row.units.rstrip("."), truth.units.rstrip(".")),
        "dots": (row.indenture, truth.dots),
        "usage": (" ".join(usage), "" if models else " ".join(truth.usage)),
        "effectivity": ("" if models and truth.usage else plain(row.effectivity), plain(truth.effectivity)),
        "drawn": (row.illustrated, truth.drawn),
        "figure": (figure if truth.figure else "", truth.figure),
    }
    wrong = [f"{row.quote}: {cell} is {read!r}" for cell, (read, true) in pairs_of.items() if read != true]
    said = {note.number: note.kind.value for note in row.notes if note.kind in _DIRECTED}
    for number, kind in said.items():
        want = truth.notes.get(number, "nothing")
        same_way = want.endswith("?") and (kind in _BACK) == (want.rstrip("?") in _BACK)
        if kind != want and not same_way:
            wrong.append(f"{row.quote}: {kind} {number}")
    lost = [f"{row.quote}: not read: {kind} {of}" for of, kind in truth.notes.items() if of not in said]
    return wrong + lost
