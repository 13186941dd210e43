"""Layouts 28 to 34: figures, fold-outs, turned pages, watermarks, odd type, painting out of order."""

from content import BOLD, Dress, fill, job_pages, set_general, set_removal, set_steps
from fiction import (
    ALTERNATOR,
    BRAKES,
    DOOR,
    FICTITIOUS,
    FLAPS,
    GOVERNOR,
    JOBS,
    LIMITS,
    OXYGEN,
    PARTS,
    PITOT,
    SELECTOR,
    Job,
)
from sheet import Book, Face, Sheet
from step_pages import manual_sheet


def filled(book: Book, page: int, set_part, job: Job) -> None:
    """A full text page of the manual the odd sheets belong to."""
    sheet = manual_sheet(book, job, page)
    set_part(book, sheet, job, Dress())
    fill(book, sheet, Dress(), job, page % 8)


def figure_callouts(book: Book) -> None:
    filled(book, 201, set_general, BRAKES)
    for n in range(3):
        sheet = manual_sheet(book, BRAKES, 202 + n)
        sheet.box(72, 150, 540, 560, 1)
        for k in range(4):
            sheet.circle(300, 220 + k * 85, 34 + 6 * k)
            sheet.circle(300, 220 + k * 85, 12)
        for k in range(8):
            part = PARTS[(k * 3 + n * 5) % len(PARTS)]
            left = k % 2 == 0
            y = 180 + k * 45
            sheet.line(300, y + 10, 150 if left else 450, y, 0.4)
            align, x = ("right", 146) if left else ("left", 454)
            if n == 0:
                sheet.put(x, y, str(k + 1), "aside", Face(size=8), align)
            else:
                sheet.put(x, y, part.name.lstrip("."), "aside", Face(size=7), align)
        sheet.put(534, 572, f"T40-3241-{n + 1}", "aside", Face(size=5), "right")
        sheet.put(306, 640, f"{('Brake Assembly', 'Master Cylinder', 'Parking Valve')[n]} - Exploded View",
                  face=Face("Helvetica-Bold", 11), align="center")  # fmt: skip
        sheet.put(
            306,
            655,
            f"Figure 20{1 + (n > 0)} (Sheet {1 + (n == 2)} of {2 - (n == 0)})",
            face=BOLD,
            align="center",
        )
    filled(book, 205, set_removal, BRAKES)


def foldout(book: Book) -> None:
    def folded(n):
        page = 201 + n
        job = FLAPS
        sheet = book.sheet(str(page), job.chapter, "foot", width=1224, height=792)
        sheet.put(48, 720, "Corvane T-40B Maintenance Manual", "head", Face(size=9), up=90)
        sheet.put(48, 252, job.title, "head", Face(size=9), "right", up=90)
        sheet.put(1176, 720, FICTITIOUS, "foot", Face(size=7), up=90)
        sheet.put(1152, 252, job.chapter, "foot", Face(size=9), "right", up=90)
        sheet.put(1164, 252, f"Page {page}", "foot", Face(size=9), "right", up=90)
        sheet.put(1176, 252, "Mar 31/2031", "foot", Face(size=9), "right", up=90)
        for k in range(10):
            x, y = 130 + k % 5 * 140, 120 + k // 5 * 240
            sheet.box(x, y, x + 90, y + 60)
            sheet.line(x + 90, y + 30, x + 140, y + 30)
            sheet.put(x + 45, y + 26, f"S{page - 200}{k:02}", "aside", Face(size=8), "center")
            sheet.put(x + 45, y + 40, f"27P{10 * n + k}A20", "aside", Face(size=8), "center")
        sheet.y = 110
        sheet.flow("NOTES", 880, 220, BOLD)
        for k, text in enumerate(job.general):
            sheet.flow(text, 880, 220, Face(size=9), label=f"{k + 1}.", hang=20, gap=6)
        sheet.put(480, 700, f"Flap Circuit - Schematic (Sheet {1 + (n > 1)} of 2)", face=BOLD, align="center")
        sheet.put(480, 716, "Figure 201", face=BOLD, align="center")

    filled(book, 201, set_general, FLAPS)
    folded(1)
    filled(book, 203, set_removal, FLAPS)
    folded(3)
    filled(book, 205, set_removal, PITOT)


def rotated(book: Book) -> None:
    filled(book, 601, set_general, GOVERNOR)
    for n, turn in enumerate((90, 90, 270, 90)):
        page = 602 + n
        sheet = book.sheet(str(page), GOVERNOR.chapter, "foot", width=792, height=612, turn=turn, floor=548)
        sheet.put(72, 48, "Corvane T-40B Maintenance Manual", "head", Face(size=9))
        sheet.put(720, 48, GOVERNOR.title, "head", Face(size=9), "right")
        sheet.put(72, 580, FICTITIOUS, "foot", Face(size=7))
        sheet.put(720, 556, GOVERNOR.chapter, "foot", Face(size=9), "right")
        sheet.put(720, 568, f"Page {page}", "foot", Face(size=9), "right")
        sheet.put(720, 580, "Mar 31/2031", "foot", Face(size=9), "right")
        sheet.y = 64
        sheet.heading(f"Fits and clearances, table {page}", 72, 648, Face("Helvetica-Bold", 12))
        rows = [("Item", "Part number", "Min.", "Max.", "Worn", "Remark")]
        rows += [LIMITS[(n * 4 + k) % len(LIMITS)] for k in range(11)]
        sheet.table(72, 92, (170, 130, 87, 87, 87, 87), rows, Face(size=9), 18, BOLD)
        sheet.y += 12
        for text in (GOVERNOR.general[n], ALTERNATOR.general[n], SELECTOR.general[n]):
            sheet.flow(text, 72, 648, Face(), gap=6)


def watermark(book: Book) -> None:
    def new_sheet(job):
        def make(n):
            sheet = book.sheet(str(201 + n), job.chapter, "foot", y=84, floor=704)
            sheet.put(130, 640, "SAMPLE", "behind", Face("Helvetica-Bold", 120, grey=0.88), up=52)
            sheet.put(72, 48, "Corvane T-40 Maintenance Manual", "head", Face(size=9))
            sheet.put(540, 48, job.title, "head", Face(size=9), "right")
            sheet.put(
                230, 40, "UNCONTROLLED WHEN PRINTED", "behind", Face("Helvetica-Bold", 8, grey=0.45), up=2
            )
            sheet.put(72, 740, FICTITIOUS, "foot", Face(size=7))
            sheet.put(306, 740, job.chapter, "foot", Face(size=9), "center")
            sheet.put(540, 740, f"Page {201 + n}", "foot", Face(size=9), "right")
            return sheet

        return make

    job_pages(book, new_sheet(DOOR), DOOR, Dress())
    job_pages(book, new_sheet(OXYGEN), OXYGEN, Dress(), parts=2)


CHECKLISTS = (
    ("BEFORE STARTING", (("Seats", "LOCKED"), ("Belts", "FASTENED"), ("Brakes", "SET"), ("Fuel", "BOTH"),
                         ("Master", "ON"), ("Avionics", "OFF"), ("Doors", "CLOSED"))),
    ("STARTING", (("Mixture", "RICH"), ("Throttle", "OPEN 1/4"), ("Primer", "LOCKED"), ("Area", "CLEAR"),
                  ("Starter", "ENGAGE"), ("Oil", "GREEN"))),
    ("BEFORE TAKEOFF", (("Controls", "FREE"), ("Trim", "SET"), ("Flaps", "15"), ("Magnetos", "CHECK"),
                        ("Governor", "CYCLE"), ("Gauges", "GREEN"),
                        ("Pitot heat", "ON"), ("Door lamp", "OUT"))),
    ("CRUISE", (("Power", "SET"), ("Mixture", "LEAN"), ("Fuel", "CHANGE"), ("Oxygen", "CHECK"))),
    ("BEFORE LANDING", (("Fuel", "BOTH"), ("Mixture", "RICH"), ("Belts", "FASTENED"), ("Flaps", "35"),
                        ("Brakes", "TEST"), ("Parking valve", "OFF"))),
    ("SHUTDOWN", (("Avionics", "OFF"), ("Mixture", "CUT OFF"), ("Magnetos", "OFF"), ("Master", "OFF"),
                  ("Chocks", "IN"))),
)  # fmt: skip


def large_checklist(book: Book) -> None:
    face = Face(size=20)
    for n, (title, items) in enumerate(CHECKLISTS):
        sheet = book.sheet(f"4-{3 + n}", width=396, height=612)
        sheet.put(198, 34, "NORMAL PROCEDURES", "head", Face("Helvetica-Bold", 12), "center")
        sheet.put(360, 592, f"4-{3 + n}", "foot", Face(size=12), "right")
        sheet.put(36, 592, FICTITIOUS, "foot", Face(size=8))
        sheet.box(36, 54, 360, 88, 0, fill=0)
        sheet.headings.append(title)
        sheet.put(198, 79, title, face=Face("Helvetica-Bold", 22, grey=1), align="center")
        for k, (item, response) in enumerate(items):
            y = 130 + k * 52
            sheet.put(36, y, item, face=face)
            left, right = 36 + face.width(item), 360 - face.width(response)
            count = int((right - left - 8) / face.width("."))
            sheet.put(right - 4, y, "." * count, "behind", face, "right")
            sheet.put(360, y, response, face=face, align="right")


def letter_spaced(book: Book) -> None:
    face = Face("Times-Roman", 11)
    dress = Dress(72, 468, face, label="{a}.")

    def small_capitals(sheet: Sheet, text: str) -> None:
        sheet.y += 34
        large, small, x = Face("Times-Bold", 13), Face("Times-Bold", 10), 72
        for word in text.split():
            sheet.put(x, sheet.y, word[0], face=large, truth=word)
            x += large.width(word[0])
            sheet.put(x, sheet.y, word[1:], face=small, truth="")
            x += small.width(word[1:]) + 5
        sheet.headings.append(text)

    for n, job in enumerate((BRAKES, DOOR, PITOT, OXYGEN, GOVERNOR)):
        sheet = book.sheet(f"5-{2 + n}", y=76, floor=724)
        sheet.put(306, 44, "SERVICE MANUAL", "head", Face(size=10, spacing=5), "center")
        sheet.put(540, 752, f"5-{2 + n}", "foot", Face(size=10), "right")
        sheet.put(72, 752, FICTITIOUS, "foot", Face("Times-Italic", 8))
        spaced = Face("Helvetica-Bold", 14, spacing=6)
        sheet.y += 26
        sheet.put(72, sheet.y, job.title, face=spaced)
        sheet.headings.append(job.title)
        sheet.flow(job.general[0], 72, 468, face, gap=8)
        typed = "   ".join(" ".join(word) for word in ("REMOVAL", "AND", "CHECK"))
        sheet.y += 30
        sheet.put(
            306, sheet.y, typed, face=Face("Helvetica-Bold", 11), align="center", truth="REMOVAL AND CHECK"
        )
        sheet.headings.append("REMOVAL AND CHECK")
        set_steps(book, sheet, dress, job.removal[:5])
        small_capitals(sheet, "INSTALLATION OF NEW PARTS")
        set_steps(book, sheet, dress, job.installation)
        sheet.flow(job.note, 72, 468, Face("Times-Italic", 11), gap=12)
        for text in (*job.general[1:], *JOBS[(n + 5) % 8].general):
            sheet.flow(text, 72, 468, face, gap=7)


def out_of_order(book: Book) -> None:
    def scattered(job, n):
        sheet = manual_sheet(book, job, 201 + n)
        sheet.scatter = True
        return sheet

    job_pages(book, lambda n: scattered(ALTERNATOR, n), ALTERNATOR, Dress())
    job_pages(book, lambda n: scattered(SELECTOR, n), SELECTOR, Dress(), parts=1)
    for sheet in book.sheets:
        # From the end, every third stroke in turn: nothing is painted where it is read.
        backward = sheet.strokes[::-1]
        sheet.strokes = backward[1::3] + backward[0::3] + backward[2::3]
