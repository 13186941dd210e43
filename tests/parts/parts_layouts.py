"""The layouts of parts lists that are drawn for the test: each a small catalog with its truth.

They are common practice of the trade, no source: lists as they lie on a mechanic's bench.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace

from parts_drawing import (
    FICTITIOUS,
    Book,
    Col,
    Entry,
    Look,
    RowTruth,
    Sheet,
    Type,
    art,
    entries,
    head,
    rows,
    running,
)
from parts_fiction import (
    ALTERNATOR,
    BRAKE,
    DOOR,
    ELEVATOR,
    FIGURES,
    FUEL_SELECTOR,
    MAIN_WHEEL,
    OLD_CONTROLS,
    OLD_TAIL,
    PITOT,
    USAGE_NOTES,
    FigureText,
)
from parts_odd_layouts import ODD_LAYOUTS

LEVELS = "1 2 3 4 5 6 7"
CATALOG = "KT-8 ILLUSTRATED PARTS CATALOG"


def _items(todo: Sequence[Entry]) -> list[str]:
    return [row.item for row in todo if isinstance(row, RowTruth) and row.illustrated][:9]


def _art_page(book: Book, text: FigureText, todo: Sequence[Entry], page: int) -> Sheet:
    sheet = book.sheet()
    running(sheet, CATALOG, "KESTREL KT-8", text.number, f"Figure {text.figure} Page {page}", "Mar 4/2030")
    art(sheet, _items(todo), 90, 600)
    sheet.put(306, 660, f"Figure {text.figure}. {text.title}", Type("Helvetica-Bold", 11), "center")
    return sheet


def ruled(book: Book) -> None:
    """Grid of rules, heads of three lines, wrapped names, airline stock numbers."""
    look = Look(
        (
            Col("item", 58, ("FIG", "&", "ITEM")),
            Col("part", 94, ("PART NUMBER",)),
            Col("stock", 180, ("AIRLINE", "STOCK NO."), 62),
            Col("name", 252, ("NOMENCLATURE", LEVELS), 182),
            Col("usage", 452, ("USAGE", "CODE")),
            Col("units", 500, ("UNITS", "PER", "ASSY")),
        ),
        ruled="grid",
        dots="spaced",
        right=552,
    )
    for text in (FUEL_SELECTOR, MAIN_WHEEL):
        todo = entries(text, stock=True)
        _art_page(book, text, todo, 1)
        sheet = book.sheet()
        running(sheet, CATALOG, "KESTREL KT-8", text.number, f"Figure {text.figure} Page 2", "Mar 4/2030")
        y = head(sheet, look, 80)
        left, _ = rows(book, sheet, look, todo, y, 690)
        assert not left


def unruled(book: Book) -> None:
    """No rules; usage codes with their footnotes under the list; a legend at the foot."""
    look = Look(
        (
            Col("item", 60, ("ITEM",)),
            Col("part", 104, ("PART NUMBER",)),
            Col("name", 200, (f"NOMENCLATURE  {LEVELS}",), 250),
            Col("usage", 466, ("EFF", "CODE")),
            Col("units", 520, ("QTY",)),
        ),
        face=Type("Times-Roman", 9.5),
        bold=Type("Times-Bold", 9.5),
        dots="glued",
    )
    for text in (BRAKE, ALTERNATOR):
        todo = entries(text)
        _art_page(book, text, todo, 1)
        sheet = book.sheet()
        running(sheet, CATALOG, "KESTREL KT-8", text.number, f"Figure {text.figure} Page 2", "Mar 4/2030")
        sheet.put(60, 66, f"FIGURE {text.figure}.  {text.title.upper()}", look.bold)
        y = head(sheet, look, 92)
        left, y = rows(book, sheet, look, todo, y, 600)
        assert not left
        sheet.put(60, y + 24, "EFFECTIVITY CODES", look.bold)
        for n, (code, words) in enumerate(USAGE_NOTES):
            sheet.put(60, y + 38 + n * 12, code, look.face)
            sheet.put(104, y + 38 + n * 12, words, look.face)
        sheet.put(60, y + 84, "- ITEM NOT ILLUSTRATED", look.face)


def leaders(book: Book) -> None:
    """Dotted leaders from the name to the units, at the end of the last line of a wrapped name."""
    look = Look(
        (
            Col("item", 64, ("Item",)),
            Col("part", 104, ("Part No.",)),
            Col("name", 196, ("Description",), 220),
            Col("units", 500, ("Qty. per", "Assy."), 34, "right"),
        ),
        face=Type("Times-Roman", 10),
        bold=Type("Times-Bold", 10),
        leading=12,
        gap=2,
        dots="dots and step",
        step=9,
        leaders=True,
    )
    for text in (PITOT, DOOR):
        todo = entries(text, usage=False)
        sheet = book.sheet()
        running(sheet, CATALOG, "KESTREL KT-8", text.number, f"Page {text.figure}-2")
        art(sheet, _items(todo), 60, 230)
        sheet.put(306, 262, f"Fig. {text.figure}. {text.title}", Type("Times-Bold", 11), "center")
        y = head(sheet, look, 290)
        left, _ = rows(book, sheet, look, todo, y, 700)
        assert not left, text.title


def two_lines(book: Book) -> None:
    """Two lines a row: the part number on the first, the name and the units on the second."""
    look = Look(
        (
            Col("item", 60, ("INDEX", "NO.")),
            Col("part", 110, ("PART NUMBER",)),
            Col("name", 190, ("DESCRIPTION",), 240),
            Col("usage", 450, ("USABLE", "ON CODE")),
            Col("units", 520, ("UNITS", "PER", "ASSY")),
        ),
        dots="glued",
        number_first=True,
        gap=4,
    )
    for text in (ELEVATOR, ALTERNATOR):
        sheet = book.sheet()
        running(sheet, CATALOG, "KESTREL KT-8", text.number, f"Figure {text.figure} Page 2")
        sheet.put(306, 62, f"Figure {text.figure}. {text.title}", Type("Helvetica-Bold", 11), "center")
        y = head(sheet, look, 88)
        left, _ = rows(book, sheet, look, entries(text), y, 716)
        assert not left, text.title


def spanning(book: Book) -> None:
    """One list over several pages with heads on each; a name that runs over the page's end; columns ruled."""
    look = Look(
        (
            Col("item", 58, ("FIG", "ITEM")),
            Col("part", 100, ("PART NUMBER",)),
            Col("name", 200, (f"NOMENCLATURE {LEVELS}",), 236),
            Col("usage", 450, ("USAGE", "CODE")),
            Col("units", 504, ("UNITS", "PER ASSY")),
        ),
        ruled="columns",
        dots="glued",
        right=556,
    )
    todo: list[Entry] = []
    for n, text in enumerate((FUEL_SELECTOR, ELEVATOR, DOOR)):
        todo += [
            row if isinstance(row, str) else _renumbered(row, f"{int(row.item.rstrip('A')) + n * 20}")
            for row in entries(text)
        ]
    page = 1
    while todo:
        sheet = book.sheet()
        running(sheet, CATALOG, "KESTREL KT-8", "28-22-00", f"Figure 7 Page {page}", "Mar 4/2030")
        more = "" if page == 1 else " (Continued)"
        sheet.put(306, 58, f"Figure 7. Cockpit Controls{more}", Type("Helvetica-Bold", 11), "center")
        y = head(sheet, look, 84)
        floor = {1: 290.0, 2: 420.0}.get(page, 700.0)
        todo, _ = rows(book, sheet, look, todo, y, floor, split_last=True)
        page += 1


def _renumbered(row: RowTruth, item: str) -> RowTruth:
    suffix = "A" if row.item.endswith("A") else ""
    return replace(row, figure="7", number="28-22-00", item=item + suffix)


def headless(book: Book) -> None:
    """Heads on the first page alone; the pages that go on are bound at the other side, 14 points over."""
    look = Look(
        (
            Col("item", 70, ("ITEM", "NO.")),
            Col("part", 116, ("PART NUMBER",)),
            Col("name", 212, ("NOMENCLATURE",), 240),
            Col("usage", 470, ("USE",)),
            Col("units", 510, ("QTY",)),
        ),
        dots="glued",
    )
    todo: list[Entry] = []
    for n, text in enumerate((MAIN_WHEEL, BRAKE, PITOT)):
        todo += [
            row if isinstance(row, str) else _of_wheels(row, f"{int(row.item.rstrip('A')) + n * 20}")
            for row in entries(text)
        ]
    page = 1
    while todo:
        sheet = book.sheet()
        running(sheet, CATALOG, "KESTREL KT-8", "32-40-00", f"Figure 9 Page {page}")
        moved = look if page % 2 else look.moved(-14)
        y = 70.0
        if page == 1:
            sheet.put(306, 58, "Figure 9. Wheels and Brakes", Type("Helvetica-Bold", 11), "center")
            y = head(sheet, moved, 84)
        todo, _ = rows(book, sheet, moved, todo, y, {1: 330.0, 2: 300.0}.get(page, 700.0))
        page += 1


def _of_wheels(row: RowTruth, item: str) -> RowTruth:
    return replace(_renumbered(row, item), figure="9", number="32-40-00")


def typed(book: Book) -> None:
    """A typed list of the 1950s: groups and plates of its own, names set in by blanks, a column of models."""
    face = Type("Courier", 10)
    look = Look(
        (
            Col("item", 72, ("No.",)),
            Col("part", 108, ("Part No.",)),
            Col("name", 192, ("Name",)),
            Col("effect", 432, ("Model",)),
            Col("units", 504, ("No.", "Req'd")),
        ),
        face=face,
        bold=face,
        leading=14,
        gap=0,
        dots="set in",
        step=12,
    )
    for text in (OLD_TAIL, OLD_CONTROLS):
        todo = entries(text, models=True)
        sheet = book.sheet()
        running(sheet, "HERON MODEL H-14", "MARSHGATE AIRCRAFT", f"Page {text.figure}", face=face)
        sheet.put(72, 64, f"{text.number.upper()} - LANDING GEAR AND CONTROLS", face)
        art(sheet, [row.item for row in todo if isinstance(row, RowTruth) and row.item][:6], 90, 230, face)
        sheet.put(190, 270, f"Plate {text.figure}. {text.title}", face)
        y = head(sheet, look, 300)
        left, _ = rows(book, sheet, look, todo, y, 720, item=lambda row: row.item or "-")
        assert not left


def two_tables(book: Book) -> None:
    """Two figures on a page, each with its title, heads and list."""
    look = Look(
        (
            Col("item", 60, ("ITEM",)),
            Col("part", 100, ("PART NUMBER",)),
            Col("name", 190, ("NOMENCLATURE",), 260),
            Col("usage", 464, ("USAGE",)),
            Col("units", 516, ("UNITS",)),
        ),
        ruled="box",
        right=556,
        leading=9.5,
        face=Type(size=8),
        bold=Type("Helvetica-Bold", 8),
    )
    for pair in ((ALTERNATOR, PITOT), (BRAKE, MAIN_WHEEL)):
        sheet = book.sheet()
        running(sheet, CATALOG, "KESTREL KT-8", "Page 12")
        y = 60.0
        for text in pair:
            sheet.put(60, y, f"Figure {text.figure}. {text.title}", Type("Helvetica-Bold", 10))
            y = head(sheet, look, y + 24)
            plain = [row if isinstance(row, str) else replace(row, number="") for row in entries(text)]
            left, y = rows(book, sheet, look, plain, y, 720)
            assert not left
            y += 26


def side_by_side(book: Book) -> None:
    """Small type, two lists beside each other on a wide page; the second goes on with the first."""
    left_look = Look(
        (
            Col("item", 50, ("ITEM",)),
            Col("part", 78, ("PART NO.",)),
            Col("name", 150, ("NOMENCLATURE",), 172),
            Col("units", 340, ("QTY",)),
        ),
        face=Type(size=7.5),
        bold=Type("Helvetica-Bold", 7.5),
        leading=9,
        gap=1.5,
        right=372,
    )
    right_look = left_look.moved(352)
    sheet = book.sheet(width=792, height=612)
    running(sheet, CATALOG, "KESTREL KT-8", "52-11-00", "Figure 5 Page 2")
    sheet.put(396, 56, "Figure 5. Cabin Door", Type("Helvetica-Bold", 10), "center")
    todo = entries(DOOR, usage=False) + [
        row
        if isinstance(row, str)
        else replace(_renumbered(row, f"{int(row.item) + 20}"), figure="5", number="52-11-00")
        for row in entries(ELEVATOR, usage=False)
    ]
    y = head(sheet, left_look, 80)
    head(sheet, right_look, 80)
    todo, _ = rows(book, sheet, left_look, todo, y, 290)
    left, _ = rows(book, sheet, right_look, todo, y, 540)
    assert not left


def number_index(book: Book) -> None:
    """A list, and the numerical index of all figures in two columns over two pages."""
    unruled_look = Look(
        (
            Col("item", 60, ("FIG-ITEM",)),
            Col("part", 120, ("PART NUMBER",)),
            Col("name", 220, ("NOMENCLATURE",), 250),
            Col("units", 520, ("UNITS",)),
        )
    )
    found: dict[str, list[tuple[str, str]]] = {}
    for text in FIGURES:
        for row in entries(text):
            if isinstance(row, RowTruth):
                found.setdefault(row.part_number, []).append((f"{text.figure}-{row.item}", row.units))
    for text in (MAIN_WHEEL, BRAKE):
        sheet = book.sheet()
        running(sheet, CATALOG, "KESTREL KT-8", text.number, f"Figure {text.figure} Page 2")
        sheet.put(60, 62, f"Figure {text.figure}. {text.title}", Type("Helvetica-Bold", 10))
        y = head(sheet, unruled_look, 86)
        left, _ = rows(
            book,
            sheet,
            unruled_look,
            entries(text, usage=False),
            y,
            700,
            item=lambda row: f"{row.figure}-{'' if row.illustrated else ' -'}{row.item}",
        )
        assert not left
    lines = [
        (number, places[0][0], _total(places))
        if len(places) == 1
        else (number, ", ".join(p for p, _ in places), _total(places))
        for number, places in sorted(found.items())
    ]
    face, bold = Type(size=8), Type("Helvetica-Bold", 8)
    at = 0
    page = 1
    while at < len(lines):
        sheet = book.sheet()
        running(sheet, CATALOG, "KESTREL KT-8", f"Page NI-{page}")
        sheet.put(306, 60, "NUMERICAL INDEX", Type("Helvetica-Bold", 11), "center")
        for x in (58, 318):
            for dx, words in ((0, "PART NUMBER"), (104, "FIG-ITEM"), (200, "QTY")):
                sheet.put(x + dx, 84, words, bold)
            y = 98.0
            while at < len(lines) and y < 98 + 30 * 11:
                for dx, words in zip((0, 104, 200), lines[at], strict=True):
                    sheet.put(x + dx, y, words, face)
                book.index.append(lines[at])
                at += 1
                y += 11
        page += 1


def _total(places: Sequence[tuple[str, str]]) -> str:
    counts = [units for _, units in places]
    return str(sum(map(int, counts))) if all(map(str.isdigit, counts)) else counts[0]


def component(book: Book) -> None:
    """A component manual: tables of torque, trouble, tools, bulletins and pages; then the parts list."""
    book.kind = "component-maintenance-manual"
    face, bold = Type(size=9), Type("Helvetica-Bold", 9)
    other = (
        (
            "TORQUE VALUES",
            ("ITEM", "PART NUMBER", "TORQUE, IN-LB"),
            [("1", "51-3121-1", "90-100"), ("2", "51-3104-1", "40-60"), ("3", "51-3106-1", "20-25")],
        ),
        (
            "TROUBLE SHOOTING",
            ("TROUBLE", "PROBABLE CAUSE", "REMEDY"),
            [
                ("Brake drags", "Piston stuck", "Replace packing 51-3103-5"),
                ("Brake weak", "Lining worn", "Replace lining 51-3111-4"),
            ],
        ),
        (
            "SPECIAL TOOLS",
            ("ITEM", "PART NUMBER", "NOMENCLATURE", "QTY"),
            [("1", "T51-900", "FIXTURE, RIVET", "1"), ("2", "T51-901", "GAGE, LINING", "1")],
        ),
        (
            "LIST OF SERVICE BULLETINS",
            ("NUMBER", "TITLE", "DATE"),
            [
                ("51-001", "Brake lining, metallic", "May 2/2029"),
                ("51-002", "Piston, new seal", "Jun 9/2030"),
            ],
        ),
        (
            "LIST OF EFFECTIVE PAGES",
            ("PAGE", "DATE", "PAGE", "DATE"),
            [("1", "May 2/2029", "4", "May 2/2029"), ("2", "Jun 9/2030", "5", "Jun 9/2030")],
        ),
    )
    for n, (title, heads, lines) in enumerate(other):
        sheet = book.sheet()
        running(sheet, "COMPONENT MAINTENANCE MANUAL", "51-3100 BRAKE", "32-42-51", f"Page {n + 101}")
        sheet.put(306, 70, title, Type("Helvetica-Bold", 11), "center")
        xs = [60 + k * 490 / len(heads) for k in range(len(heads))]
        for x, words in zip(xs, heads, strict=True):
            sheet.put(x, 96, words, bold)
        for k, line in enumerate(lines):
            for x, words in zip(xs, line, strict=True):
                sheet.put(x, 112 + 13 * k, words, face)
        sheet.put(
            60, 260, "Refer to IPL Figure 1 for the part numbers of the items named on this page.", face
        )
    look = Look(
        (
            Col("item", 56, ("FIG.", "ITEM")),
            Col("part", 104, ("PART NUMBER",)),
            Col("name", 214, ("NOMENCLATURE", LEVELS), 236),
            Col("usage", 462, ("EFF", "CODE")),
            Col("units", 510, ("UNITS", "PER", "ASSY")),
        ),
        ruled="columns",
        dots="spaced",
        right=554,
    )
    todo = [
        row if isinstance(row, str) else replace(row, figure="1", number="32-42-51") for row in entries(BRAKE)
    ]
    sheet = book.sheet()
    running(sheet, "COMPONENT MAINTENANCE MANUAL", "51-3100 BRAKE", "32-42-51", "Page 1001")
    art(sheet, _items(todo), 80, 600)
    sheet.put(306, 660, "Brake Assembly", Type("Helvetica-Bold", 11), "center")
    sheet.put(306, 676, "IPL Figure 1", Type("Helvetica-Bold", 11), "center")
    sheet = book.sheet()
    running(sheet, "COMPONENT MAINTENANCE MANUAL", "51-3100 BRAKE", "32-42-51", "Page 1002")
    sheet.put(306, 56, "ILLUSTRATED PARTS LIST", Type("Helvetica-Bold", 11), "center")
    y = head(sheet, look, 84)
    sheet.put(56, y, "1-", face)
    left, _ = rows(
        book,
        sheet,
        look,
        todo,
        y + 13,
        690,
        item=lambda row: f"   {'' if row.illustrated else '-'}{row.item}",
    )
    assert not left
    sheet.put(60, sheet.height - 40, "- ITEM NOT ILLUSTRATED", Type(size=8))


def turned(book: Book) -> None:
    """A wide list printed along the long side of an upright page, serial numbers in a column."""
    look = Look(
        (
            Col("item", 60, ("ITEM",)),
            Col("part", 110, ("PART NUMBER",)),
            Col("stock", 220, ("STOCK NO.",)),
            Col("name", 320, ("DESCRIPTION",), 240),
            Col("effect", 580, ("SERIAL NUMBERS",)),
            Col("units", 700, ("QTY",)),
        ),
        dots="glued",
    )
    effects = ("", "KT-0001 THRU KT-0140", "", "KT-0141 AND ON")
    sheet = book.sheet(width=792, height=612, turned=True)
    running(sheet, CATALOG, "KESTREL KT-8", "34-11-00", "Figure 4 Page 2")
    sheet.put(396, 58, "Figure 4. Pitot Tube and Lines", Type("Helvetica-Bold", 11), "center")
    y = head(sheet, look, 84)
    todo = [
        row if isinstance(row, str) else replace(row, usage=(), effectivity=effects[n % 4])
        for n, row in enumerate(entries(PITOT, stock=True))
    ]
    left, _ = rows(book, sheet, look, todo, y, 540)
    assert not left


def key_and_quantity(book: Book) -> None:
    """Key, quantity, number, name, in that order; long numbers divided at a hyphen in a narrow column."""
    look = Look(
        (
            Col("item", 60, ("KEY",)),
            Col("units", 100, ("QTY",), 20, "right"),
            Col("part", 150, ("PART NO.",), 47),
            Col("name", 220, ("NAME OF PART",), 250),
            Col("usage", 500, ("CODE",)),
        ),
        ruled="grid",
        right=548,
        gap=3.5,
    )
    for text in (DOOR, FUEL_SELECTOR):
        sheet = book.sheet()
        running(sheet, CATALOG, "KESTREL KT-8", text.number, "Page 7")
        sheet.put(306, 60, f"FIG. {text.figure} - {text.title.upper()}", Type("Helvetica-Bold", 11), "center")
        y = head(sheet, look, 86)
        left, _ = rows(book, sheet, look, entries(text), y, 720)
        assert not left, len(left)


def tiny(book: Book) -> None:
    """Six-point type, close lines, the figure's whole number once in the first column."""
    face = Type(size=6)
    look = Look(
        (
            Col("item", 50, ("FIG", "ITEM")),
            Col("part", 88, ("PART NUMBER",)),
            Col("stock", 160, ("AIRLINE PART NO.",)),
            Col("name", 226, (f"NOMENCLATURE {LEVELS}",), 260),
            Col("usage", 500, ("EFFECT", "CODE")),
            Col("units", 534, ("UNITS PER", "ASSY")),
        ),
        face=face,
        bold=Type("Helvetica-Bold", 6),
        leading=7.2,
        gap=0.4,
        ruled="columns",
        right=572,
        dots="spaced",
    )
    for text in (MAIN_WHEEL, DOOR):
        whole = f"{text.number}-0{text.figure}"
        sheet = book.sheet()
        running(sheet, CATALOG, "KESTREL KT-8", text.number, "Page 1", "Mar 4/2030")
        y = head(sheet, look, 64)
        sheet.put(50, y, whole, face)
        todo = [
            row if isinstance(row, str) else replace(row, figure=whole) for row in entries(text, stock=True)
        ]
        left, _ = rows(book, sheet, look, todo, y + 8, 700)
        assert not left


LAYOUTS: tuple[Callable[[Book], None], ...] = (
    ruled,
    unruled,
    leaders,
    two_lines,
    spanning,
    headless,
    typed,
    two_tables,
    side_by_side,
    number_index,
    component,
    turned,
    key_and_quantity,
    tiny,
)


def books() -> list[Book]:
    """Every layout as a catalog, with a title page that says what it is."""
    made = []
    for layout in (*LAYOUTS, *ODD_LAYOUTS):
        book = Book(layout.__name__.replace("_", "-"))
        sheet = book.sheet()
        layout(book)
        title = (
            "COMPONENT MAINTENANCE MANUAL"
            if book.kind.startswith("component")
            else "ILLUSTRATED PARTS CATALOG"
        )
        sheet.put(306, 200, title, Type("Helvetica-Bold", 18), "center")
        sheet.put(306, 240, "KESTREL KT-8", Type("Helvetica-Bold", 14), "center")
        sheet.put(306, 700, FICTITIOUS, Type(size=8), "center")
        made.append(book)
    return made
