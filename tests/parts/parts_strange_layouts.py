"""Parts lists that print their rows plainly and their heads not: strange, garbled, or none. With their truth,
and pages beside them that hold part numbers and no rows. Common practice, no source; all of it invented.

`rows` of a book are those that must come out as flagged rows; a table with heads that are known besides.
"""

from collections.abc import Callable
from dataclasses import replace

from parts_drawing import Book, Col, Look, RowTruth, Sheet, Type, art, entries, head, rows, running
from parts_fiction import ALTERNATOR, BRAKE, DOOR, ELEVATOR, FUEL_SELECTOR, MAIN_WHEEL, PITOT, FigureText

CATALOG = "KT-8 ILLUSTRATED PARTS CATALOG"
BOLD = Type("Helvetica-Bold", 9)
TITLE = Type("Helvetica-Bold", 11)


def _look(heads: tuple[str, str, str, str], **given) -> Look:
    item, part, name, units = heads
    return Look(
        (
            Col("item", 60, (item,)),
            Col("part", 104, (part,)),
            Col("name", 210, (name,), 240),
            Col("units", 500, (units,)),
        ),
        **given,
    )


def _list_page(book: Book, text: FigureText) -> Sheet:
    sheet = book.sheet()
    running(sheet, CATALOG, "KESTREL KT-8", text.number, f"Figure {text.figure} Page 2", "Mar 4/2030")
    sheet.put(306, 60, f"Figure {text.figure}. {text.title}", TITLE, "center")
    return sheet


def strange_heads(book: Book) -> None:
    """Heads of words that no list we know prints."""
    look = _look(("POS'N", "IDENTITY", "WHAT IT IS", "HOW MANY"))
    for text in (MAIN_WHEEL, ELEVATOR):
        sheet = _list_page(book, text)
        left, _ = rows(book, sheet, look, entries(text, usage=False), head(sheet, look, 86), 720)
        assert not left


def no_heads(book: Book) -> None:
    """Rows from the first page on, under nothing but the figure's title."""
    look = _look(("", "", "", ""), dots="spaced", face=Type("Times-Roman", 9.5))
    for text in (DOOR, PITOT):
        sheet = _list_page(book, text)
        left, _ = rows(book, sheet, look, entries(text, usage=False), 86, 720)
        assert not left


def garbled_heads(book: Book) -> None:
    """Heads as a bad scan gives them, in a grid of rules."""
    look = _look(("1TFM", "P^KT NUMRFR", "NOMFNCI ATLIRE", "0TY"), ruled="grid")
    for text in (FUEL_SELECTOR, BRAKE):
        sheet = _list_page(book, text)
        left, _ = rows(book, sheet, look, entries(text, usage=False), head(sheet, look, 86), 720)
        assert not left


def one_blank_between(book: Book) -> None:
    """A typed list whose columns are parted by one blank alone, so that each row is one piece."""
    face = Type("Courier", 9)
    sheet = _list_page(book, ALTERNATOR)
    y = 90.0
    for row in entries(ALTERNATOR, usage=False):
        if isinstance(row, RowTruth):
            item = row.item if row.illustrated else f"-{row.item}"
            sheet.put(60, y, f"{item} {row.part_number} {row.printed} {row.units}", face)
            book.rows.append(replace(row, pdf_page=sheet.pdf_page))
            y += 12


def component(book: Book) -> None:
    """The parts list of a component manual, its heads strange, behind pages that name its part numbers."""
    book.kind = "component-maintenance-manual"
    sheet = book.sheet()
    running(sheet, "BRAKE ASSEMBLY 51-3100", "COMPONENT MAINTENANCE MANUAL", "32-42-51", "Page 301")
    sheet.put(60, 80, "DISASSEMBLY", TITLE)
    for n, line in enumerate(
        (
            "A.  Remove the bolts AN4-12A and the washers AN960-416 (Figure 301).",
            "B.  Pull the piston 51-3103-5 out of the body. Discard packing MS28775-222.",
        )
    ):
        sheet.put(60, 104 + n * 14, line)
    sheet.put(306, 300, "Figure 301. Piston and Body", TITLE, "center")
    sheet.put(120, 340, "4")
    sheet.put(160, 380, "6")
    look = _look(("POS'N", "IDENTITY", "WHAT IT IS", "HOW MANY"))
    sheet = book.sheet()
    running(sheet, "BRAKE ASSEMBLY 51-3100", "ILLUSTRATED PARTS LIST", "32-42-51", "Page 1003")
    sheet.put(306, 60, "IPL Figure 1. Brake Assembly", TITLE, "center")
    todo = [
        each if isinstance(each, str) else replace(each, figure="1") for each in entries(BRAKE, usage=False)
    ]
    left, _ = rows(book, sheet, look, todo, head(sheet, look, 86), 720)
    assert not left


def left_below(book: Book) -> None:
    """A table with plain heads, and two rows far below it where nothing else stands.

    The rows of the table are in the truth as well; they are read as ever.
    """
    look = _look(("ITEM", "PART NUMBER", "NOMENCLATURE", "UNITS"))
    sheet = _list_page(book, PITOT)
    todo = entries(PITOT, usage=False)
    left, _ = rows(book, sheet, look, todo[:-2], head(sheet, look, 86), 520)
    assert not left
    for n, row in enumerate(todo[-2:]):
        item = row.item if row.illustrated else f"-{row.item}"
        sheet.put(160, 640 + n * 14, item)
        sheet.put(220, 640 + n * 14, row.part_number)
        sheet.put(380, 640 + n * 14, row.printed)
        book.rows.append(replace(row, pdf_page=sheet.pdf_page))


def no_rows_at_all(book: Book) -> None:
    """Front matter, indexes and notes of a catalog: part numbers on every page, and not one row."""
    _introduction(book)
    _listing(book, "LIST OF SERVICE BULLETINS", "SB", [
        (f"SB KT-{n}-000{n - 20}", f"Replacement of 51-20{n}-1", f"Mar {n}/2029") for n in range(21, 29)
    ])  # fmt: skip
    _listing(book, "LIST OF EFFECTIVE PAGES", "LEP", [
        (f"32-4{n}-00", f"Page {n}", f"Mar {n + 1}/2030") for n in range(8)
    ])  # fmt: skip
    _listing(book, "SUPPLIER CODES", "SUP", [
        (f"V{n}K2Q4", f"MERROW PUMP WORKS {n}", f"{n}0417 SANDHOLM") for n in range(1, 8)
    ])  # fmt: skip
    sheet = book.sheet()
    running(sheet, CATALOG, "KESTREL KT-8", "32-42-00", "Figure 3 Page 1", "Mar 4/2030")
    art(sheet, ["1", "2", "4", "5"], 90, 500)
    sheet.put(420, 520, "KT320-4417")
    sheet.put(306, 560, "Figure 3. Brake Assembly", TITLE, "center")
    for n, line in enumerate(
        (
            "NOTE: Order brake assembly 51-3100-2 with lining 51-3111-6 for airplanes with metallic",
            "linings. Bolt AN4-12A may be used in place of AN4-13A where a washer AN960-416 is put under",
            "the head.",
        )
    ):
        sheet.put(60, 590 + n * 12, line)
    codes = (("A", "USED ON 51-3100-1"), ("B", "51-3100-2"), ("C", "KT-0141 AND ON"))
    for n, (code, words) in enumerate(codes):
        sheet.put(60, 640 + n * 12, code)
        sheet.put(104, 640 + n * 12, words)
    _listing(book, "SPECIAL TOOLS", "32", [
        (f"KT9900-{n}0", "WRENCH, SPANNER", "1") for n in range(1, 7)
    ])  # fmt: skip
    _listing(book, "NUMERICAL INDEX", "NI", [
        (f"51-31{n:02}-1", f"32-42-00-03-{n}", "1") for n in range(1, 20)
    ])  # fmt: skip
    _listing(book, "", "NI", [(f"51-32{n:02}-1", f"32-42-00-03-{n}", "1") for n in range(1, 20)])


def _introduction(book: Book) -> None:
    sheet = book.sheet()
    running(sheet, CATALOG, "KESTREL KT-8", "Page INT-1", "Mar 4/2030")
    sheet.put(60, 70, "INTRODUCTION", TITLE)
    sheet.put(60, 96, "1.  How to find a part number. Part 51-2040-2 is looked up in the numerical index,")
    sheet.put(60, 108, "which gives figure 2 and item 1. Figure 2 is then turned to.")
    sheet = book.sheet()
    running(sheet, CATALOG, "KESTREL KT-8", "Page INT-2", "Mar 4/2030")
    sheet.put(60, 70, "Sample of a list", TITLE)
    sheet.put(306, 90, "Figure 1. Pump Installation", TITLE, "center")
    look = _look(("POS'N", "IDENTITY", "WHAT IT IS", "HOW MANY"))
    draft = Book("draft")
    rows(draft, sheet, look, entries(PITOT, usage=False)[:6], head(sheet, look, 116), 400)


def _listing(book: Book, title: str, prefix: str, lines: list[tuple[str, str, str]]) -> None:
    sheet = book.sheet()
    running(sheet, CATALOG, "KESTREL KT-8", f"Page {prefix}-{sheet.pdf_page}", "Mar 4/2030")
    sheet.put(60, 66, title, TITLE) if title else None
    for n, cells in enumerate(lines):
        for x, cell in zip((60, 180, 400), cells, strict=True):
            sheet.put(x, 92 + n * 13, cell)


STRANGE_LAYOUTS: tuple[Callable[[Book], None], ...] = (
    strange_heads,
    no_heads,
    garbled_heads,
    one_blank_between,
    component,
    left_below,
    no_rows_at_all,
)


def strange_books() -> list[Book]:
    """Every layout drawn, with its truth."""
    made = []
    for draw in STRANGE_LAYOUTS:
        book = Book(draw.__name__.replace("_", "-"))
        draw(book)
        made.append(book)
    return made
