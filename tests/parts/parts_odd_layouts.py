"""Odder layouts of parts lists, each with what lists do now and then. Common practice, no source."""

from collections.abc import Callable
from dataclasses import replace

from parts_drawing import Book, Col, Entry, Look, RowTruth, Type, entries, head, rows, running
from parts_fiction import ALTERNATOR, BRAKE, DOOR, ELEVATOR, FUEL_SELECTOR, MAIN_WHEEL, PITOT, FigureText

CATALOG = "KT-8 ILLUSTRATED PARTS CATALOG"
BOLD = Type("Helvetica-Bold", 9)


def _titled(book: Book, text: FigureText, **size):
    sheet = book.sheet(**size)
    running(sheet, CATALOG, "KESTREL KT-8", text.number, f"Figure {text.figure} Page 2")
    sheet.put(306, 60, f"Figure {text.figure}. {text.title}", Type("Helvetica-Bold", 11), "center")
    return sheet


def figure_column(book: Book) -> None:
    """The figure in a column of its own on every row, the supplier's code in another."""
    look = Look(
        (
            Col("figure", 56, ("FIG.", "NO.")),
            Col("item", 90, ("ITEM", "NO.")),
            Col("part", 130, ("PART NUMBER",)),
            Col("supplier", 222, ("CAGE", "CODE")),
            Col("name", 266, ("DESCRIPTION",), 210),
            Col("units", 510, ("QTY", "REQ'D")),
        ),
        dots="spaced",
    )
    for text in (FUEL_SELECTOR, BRAKE):
        sheet = _titled(book, text)
        todo = entries(text, usage=False)
        plain = [
            row
            if isinstance(row, str)
            else replace(
                row, printed=row.printed.replace(f" V{row.supplier}", "") if row.supplier else row.printed
            )
            for row in todo
        ]
        y = head(sheet, look, 86)
        left, _ = rows(book, sheet, look, plain, y, 720)
        assert not left


def marks_and_notes(book: Book) -> None:
    """Revision bars and letters in the margin, the title again among the rows."""
    look = Look(
        (
            Col("item", 70, ("ITEM",)),
            Col("part", 112, ("PART NUMBER",)),
            Col("name", 210, ("NOMENCLATURE",), 236),
            Col("usage", 470, ("USAGE", "CODE")),
            Col("units", 524, ("UNITS",)),
        ),
        dots="glued",
    )
    for text in (ELEVATOR, PITOT):
        sheet = _titled(book, text)
        y = head(sheet, look, 86)
        todo = entries(text)
        half = len(todo) // 2
        _, below = rows(book, sheet, look, todo[:half], y, 700)
        for n in range(3):
            sheet.line(58, y - 8 + n * 26, 58, y + 6 + n * 26, 1.2)
            sheet.put(48, y + 39 + n * 26, "R", look.face)
        sheet.put(112, below, f"FIGURE {text.figure}. {text.title.upper()} (CONTINUED)", BOLD)
        rows(book, sheet, look, todo[half:], below + 13, 700)


def no_numbers(book: Book) -> None:
    """Items that were deleted, rows without an item, an overlong name that runs into usage."""
    look = Look(
        (
            Col("item", 60, ("ITEM",)),
            Col("part", 104, ("PART NUMBER",)),
            Col("name", 200, ("NOMENCLATURE",)),
            Col("usage", 440, ("USAGE",)),
            Col("units", 520, ("QTY",)),
        ),
        dots="glued",
    )
    todo: list[Entry] = []
    for row in entries(ALTERNATOR):
        todo.append(row)
        if isinstance(row, RowTruth) and row.item == "7":
            todo.append(
                replace(
                    row,
                    item="7A",
                    illustrated=True,
                    part_number="",
                    name="DELETED",
                    printed="DELETED",
                    dots=0,
                    units="",
                )
            )
        if isinstance(row, RowTruth) and row.item == "11":
            long = "BRACKET ASSEMBLY, SUPPORT, ALTERNATOR AIR DUCT, FORWARD"
            todo.append(replace(row, item="11A", part_number="KT24-0141-1", name=long, printed=long))
            todo.append(replace(row, item="", part_number="AN3-4A", name="BOLT", printed="BOLT", units="2"))
    sheet = _titled(book, ALTERNATOR)
    y = head(sheet, look, 86)
    left, _ = rows(book, sheet, look, todo, y, 720)
    assert not left


def same_place(book: Book) -> None:
    """Eight pages whose heads stand in one place, so that they look like running lines; few rows a page."""
    look = Look(
        (
            Col("item", 60, ("ITEM",)),
            Col("part", 104, ("PART NUMBER",)),
            Col("name", 200, ("NOMENCLATURE 1 2 3 4 5 6 7",), 250),
            Col("usage", 470, ("USAGE",)),
            Col("units", 520, ("UNITS",)),
        ),
        dots="spaced",
    )
    for text in (FUEL_SELECTOR, MAIN_WHEEL, BRAKE, ALTERNATOR, PITOT, DOOR, ELEVATOR):
        sheet = book.sheet()
        sheet.put(54, 30, CATALOG, Type(size=8))
        sheet.put(54, 752, f"{text.number}   Figure {text.figure}", Type(size=8))
        sheet.put(306, 770, "FICTITIOUS SAMPLE - NOT FOR FLIGHT", Type(size=7), "center")
        y = head(sheet, look, 44)
        left, _ = rows(book, sheet, look, entries(text), y, 720)
        assert not left


def unlike_tables(book: Book) -> None:
    """Two lists with different columns on one page, prose above and under each."""
    first = Look(
        (
            Col("item", 60, ("ITEM",)),
            Col("part", 104, ("PART NUMBER",)),
            Col("name", 200, ("NOMENCLATURE",), 250),
            Col("units", 520, ("UNITS",)),
        ),
        dots="glued",
    )
    second = Look(
        (
            Col("item", 60, ("KEY",)),
            Col("units", 100, ("QTY",)),
            Col("part", 140, ("PART NO.",)),
            Col("name", 260, ("DESCRIPTION",), 200),
            Col("stock", 480, ("STOCK NO.",)),
        ),
        dots="glued",
    )
    sheet = book.sheet()
    running(sheet, CATALOG, "KESTREL KT-8", "34-11-00", "Page 3")
    face = Type(size=9)
    sheet.put(
        60,
        60,
        "The parts of the pitot system are listed below. Order parts by part number and not by item.",
        face,
    )
    sheet.put(60, 84, "Figure 4. Pitot Tube and Lines", BOLD)
    y = head(sheet, first, 104)
    left, y = rows(book, sheet, first, entries(PITOT, usage=False), y, 500)
    assert not left
    sheet.put(
        60,
        y + 20,
        "Sealants and lubricants are not listed; see the maintenance manual for what is to be used.",
        face,
    )
    sheet.put(60, y + 50, "Figure 1. Alternator Installation", BOLD)
    y = head(sheet, second, y + 70)
    other = [
        row if isinstance(row, str) else replace(row, number="34-11-00")
        for row in entries(ALTERNATOR, usage=False, stock=True)
    ]
    left, y = rows(book, sheet, second, other, y, 700)
    assert not left
    sheet.put(
        60,
        y + 20,
        "Quantities are for one airplane. Give the serial number of the airplane with each order.",
        face,
    )


def number_over_name(book: Book) -> None:
    """Numbers and names in one column, a line for each, their heads one over the other."""
    look = Look(
        (
            Col("item", 60, ("INDEX", "NO.")),
            Col("part", 110, ("PART NUMBER/", "DESCRIPTION")),
            Col("name", 130, (), 290),
            Col("usage", 450, ("USABLE", "ON CODE")),
            Col("units", 520, ("UNITS", "PER", "ASSY")),
        ),
        number_first=True,
        gap=4,
    )
    for text in (ELEVATOR, ALTERNATOR):
        sheet = _titled(book, text)
        y = head(sheet, look, 88)
        left, _ = rows(book, sheet, look, entries(text), y, 716)
        assert not left


def unknown_column(book: Book) -> None:
    """A column whose head is none of a parts list: weights, of which nothing is kept."""
    look = Look(
        (
            Col("item", 60, ("ITEM",)),
            Col("part", 104, ("PART NUMBER",)),
            Col("name", 200, ("NOMENCLATURE",), 220),
            Col("weight", 440, ("WEIGHT",)),
            Col("units", 520, ("UNITS",)),
        ),
        dots="glued",
    )
    sheet = _titled(book, DOOR)
    y = head(sheet, look, 88)
    left, _ = rows(book, sheet, look, entries(DOOR, usage=False), y, 716)
    assert not left


ODD_LAYOUTS: tuple[Callable[[Book], None], ...] = (
    figure_column,
    marks_and_notes,
    no_numbers,
    same_place,
    unlike_tables,
    number_over_name,
    unknown_column,
)
