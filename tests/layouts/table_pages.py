"""Layouts 22 to 27: parts lists, wiring lists, tables of limits, forms and contents pages."""

from content import BOLD
from fiction import (
    BRAKES,
    DOOR,
    FICTITIOUS,
    FLAPS,
    INDEX_TERMS,
    JOBS,
    LIMITS,
    PARTS,
    PITOT,
    SELECTOR,
    wires,
)
from sheet import Book, Face, Sheet


def leader(sheet: Sheet, left: float, right: float, y: float, face: Face) -> None:
    """Dots from left to right; a reader may leave them out, but not glue them to the words beside them."""
    count = int((right - left - 4) / face.width("."))
    if count > 2:
        sheet.put(right - 2, y, "." * count, "behind", face, "right")


def parts_leaders(book: Book) -> None:
    face, bold = Face(size=10), BOLD
    for n in range(5):
        sheet = book.sheet(str(1 + n), "32-41-00", "foot")
        sheet.put(72, 46, "Corvane T-40 Illustrated Parts Catalog", "head", Face(size=9))
        sheet.put(540, 46, FICTITIOUS, "head", Face(size=8), "right")
        sheet.put(540, 738, "32-41-00", "foot", Face(size=9), "right")
        sheet.put(540, 750, f"Page {1 + n}", "foot", Face(size=9), "right")
        sheet.put(72, 750, "Apr 30/31", "foot", Face(size=9))
        sheet.y = 70
        title = f"Figure {1 + n}. {JOBS[n].title.title()}"
        sheet.heading(title, 72, 468, Face("Helvetica-Bold", 12), align="center")
        for x, text in ((72, "FIG-ITEM"), (140, "PART NUMBER"), (240, "NOMENCLATURE 1234567"), (508, "QTY")):
            sheet.put(x, 116, text, "either", bold)
        for k in range(23):
            part = PARTS[(k + n * 5) % len(PARTS)]
            y = 140 + k * 24
            item = f"{1 + n}-{k + 1}"
            sheet.put(72, y, item, face=face)
            sheet.put(140, y, f"{part.number[:-1]}{n}", face=face)
            dots = len(part.name) - len(part.name.lstrip("."))
            sheet.put(240 + 8 * dots, y, part.name, face=face)
            end = 240 + 8 * dots + face.width(part.name)
            leader(sheet, end + 2, 516, y, face)
            sheet.put(530, y, part.quantity, face=face, align="right")


def tiny_parts(book: Book) -> None:
    face, bold = Face(size=5.5), Face("Helvetica-Bold", 5.5)
    columns = (60, 96, 176, 440, 490)
    for n in range(5):
        sheet = book.sheet(str(1 + n), "32-41-01", "foot")
        sheet.put(
            306, 40, "CORVANE ILLUSTRATED PARTS CATALOG T-40", "head", Face("Helvetica-Bold", 8), "center"
        )
        sheet.put(60, 758, "EFFECTIVITY ALL", "foot", Face(size=6))
        sheet.put(306, 758, FICTITIOUS, "foot", Face(size=5), "center")
        sheet.put(540, 750, "32-41-01", "foot", Face(size=7), "right")
        sheet.put(540, 758, f"Page {1 + n} Aug 2/31", "foot", Face(size=7), "right")
        for x, text in zip(
            columns, ("FIG ITEM", "PART NUMBER", "NOMENCLATURE", "USAGE", "UNITS"), strict=True
        ):
            sheet.put(x, 62, text, "either", bold)
        y = 66
        for k in range(84):
            y += 7.8
            part = PARTS[(k * 5 + n * 7) % len(PARTS)]
            if k % 21 == 12:
                sheet.put(176, y, "ATTACHING PARTS", face=face)
            elif k % 21 == 15:
                sheet.put(176, y, "---*---", face=face)
            else:
                base = part.number.rsplit("-", 1)[0]
                cells = (f"{1 + n}-{k + 1}", f"{base}-{k + n * 90 + 1}", part.name, part.usage, part.quantity)
                for x, text in zip(columns, cells, strict=True):
                    if text:
                        sheet.put(x, y, text, face=face)
        for x in (92, 172, 436, 486):
            sheet.line(x, 54, x, y + 4, 0.4)


def wiring_list(book: Book) -> None:
    head = ("Wire", "AWG", "Color", "From", "Pin", "To", "Pin", "Length", "Note")
    for n in range(4):
        sheet = book.sheet(str(1 + n), "91-10-00", "foot", width=792, height=612)
        sheet.put(60, 40, "T-40 WIRING MANUAL", "head", BOLD)
        sheet.put(732, 40, "WIRING LIST", "head", BOLD, "right")
        sheet.put(732, 570, "91-10-00", "foot", Face(size=9), "right")
        sheet.put(732, 582, f"Page {1 + n}", "foot", Face(size=9), "right")
        sheet.put(60, 582, FICTITIOUS, "foot", Face(size=7))
        rows = [head, *wires(n * 30, 30)]
        sheet.table(
            60,
            60,
            (96, 50, 60, 110, 50, 110, 50, 66, 80),
            rows,
            row_height=15.5,
            head_face=Face("Helvetica-Bold", 8),
        )


def merged_header(book: Book) -> None:
    widths = (120, 96, 70, 70, 70, 74)
    bold, face = Face("Helvetica-Bold", 9), Face(size=9)
    for n in range(4):
        sheet = book.sheet(str(601 + n), "32-41-00", "foot")
        sheet.put(56, 44, "T-40 OVERHAUL MANUAL", "head", Face(size=9))
        sheet.put(556, 44, "TABLE OF LIMITS", "head", Face(size=9), "right")
        sheet.put(306, 746, "32-41-00", "foot", Face(size=9), "center")
        sheet.put(306, 758, f"Page {601 + n}", "foot", Face(size=9), "center")
        sheet.put(556, 758, FICTITIOUS, "foot", Face(size=7), "right")
        sheet.y = 60
        sheet.heading(f"Table {601 + n}. Limits of wear", 56, 500, Face("Helvetica-Bold", 12))
        top = sheet.y + 10
        lefts = [56 + sum(widths[:k]) for k in range(7)]
        for k in (0, 1, 5):
            sheet.box(lefts[k], top, lefts[k + 1], top + 36, 0.7)
        sheet.box(lefts[2], top, lefts[5], top + 18, 0.7)
        for k in (2, 3, 4):
            sheet.box(lefts[k], top + 18, lefts[k + 1], top + 36, 0.7)
        for k, text in ((0, "Item"), (1, "Part number")):
            sheet.put(lefts[k] + 4, top + 12, text, "either", bold)
        sheet.put((lefts[2] + lefts[5]) / 2, top + 12, "Dimensions, inches", "either", bold, "center")
        sheet.put(lefts[5] + 4, top + 12, "Remark", "either", bold)
        for k, text in ((2, "New, min."), (3, "New, max."), (4, "Worn")):
            sheet.put(lefts[k] + 4, top + 30, text, "either", bold)
        rows = [LIMITS[(n * 5 + k) % len(LIMITS)] for k in range(15)]
        sheet.table(56, top + 36, widths, rows, face, 36)
        header = [["Item", "Part number", "Dimensions, inches", "Remark"], ["New, min.", "New, max.", "Worn"]]
        sheet.tables[-1] = header + sheet.tables[-1]


def step_form(book: Book) -> None:
    small, face = Face(size=6.5), Face("Courier", 10)
    for n, job in enumerate((BRAKES, DOOR, FLAPS, PITOT, SELECTOR)):
        sheet = book.sheet(str(1 + n))
        fields = (
            (54, 230, "Form", "LAKESIDE SHOP CARD 14"),
            (230, 330, "Registration", "OX-TRN"),
            (330, 440, "Work order", "31-0457"),
            (440, 500, "Page", str(1 + n)),
            (500, 558, "of", "5"),
        )
        for left, right, name, value in fields:
            sheet.box(left, 40, right, 72)
            sheet.put(left + 3, 48, name, "head", small)
            sheet.put(left + 6, 66, value, "head", face)
        top = 84
        rows = (
            ((54, 306, "Subject", job.title), (306, 558, "Reference", f"MM {job.chapter}")),
            (
                (54, 200, "Serial number", "0042"),
                (200, 380, "Hours", "1,284.6"),
                (380, 558, "Mechanic", "R. Aldous"),
            ),
        )
        for row in rows:
            for left, right, name, value in row:
                sheet.box(left, top, right, top + 30)
                sheet.put(left + 3, top + 8, name, "either", small)
                sheet.put(left + 6, top + 24, value, "either", face)
            top += 30
        top += 16
        table = (*job.removal, *job.installation)
        for k, step in enumerate(table[:12]):
            sheet.box(54, top, 84, top + 26, 0.6)
            sheet.box(84, top, 558, top + 26, 0.6)
            sheet.put(58, top + 17, f"{k + 1}.", face=Face(size=9))
            sheet.put(90, top + 17, step, face=Face(size=9 if Face(size=9).width(step) < 440 else 8))
            sheet.box(538, top + 7, 550, top + 19, 0.9)
            top += 26
        sheet.line(54, 560, 300, 560, 0.7)
        sheet.put(54, 570, "Signature and certificate number", "either", small)
        sheet.line(340, 560, 558, 560, 0.7)
        sheet.put(340, 570, "Date", "either", small)
        sheet.put(54, 760, FICTITIOUS, "foot", small)


def contents_leaders(book: Book) -> None:
    face = Face("Times-Roman", 11)
    roman = ("iii", "iv", "v", "vi")
    entries = [(term, place) for term, *rest in INDEX_TERMS for _, place in rest[:1]]
    for n in range(4):
        sheet = book.sheet(roman[n])
        sheet.put(306, 46, "PELLWICK 108 SERVICE MANUAL", "head", Face("Times-Bold", 10), "center")
        sheet.put(306, 748, roman[n], "foot", face, "center")
        sheet.put(306, 764, FICTITIOUS, "foot", Face("Times-Italic", 7.5), "center")
        sheet.y = 66
        if n == 0:
            sheet.heading("TABLE OF CONTENTS", 72, 468, Face("Times-Bold", 14), align="center")
            sheet.line(236, sheet.y + 2, 376, sheet.y + 2, 0.8)
        sheet.y = max(sheet.y, 80)
        for k in range(3):
            title = f"SECTION {n * 3 + k + 1} {JOBS[(n * 3 + k) % 8].title}"
            sheet.heading(title, 72, 468, Face("Times-Bold", 11), gap=12)
            sheet.line(72, sheet.y + 2, 72 + Face("Times-Bold", 11).width(title), sheet.y + 2, 0.7)
            sheet.y += 4
            for m in range(9):
                term, _ = entries[(n * 27 + k * 9 + m) % len(entries)]
                sheet.y += 17
                sheet.put(90, sheet.y, term, face=face)
                page = f"{n * 3 + k + 1}-{m * 3 + 1}"
                leader(sheet, 90 + face.width(term), 540 - face.width(page), sheet.y, face)
                sheet.put(540, sheet.y, page, face=face, align="right")
