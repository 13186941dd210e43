"""Layouts 1 to 9: where the running head and foot stand, and what they say."""

from content import BOLD, Dress, fill, job_pages, label, set_heading, set_steps
from fiction import (
    ALTERNATOR,
    BRAKES,
    DOOR,
    FICTITIOUS,
    FLAPS,
    GOVERNOR,
    JOBS,
    OXYGEN,
    PITOT,
    SELECTOR,
)
from sheet import Book, Face, Sheet, wrap

SMALL = Face(size=7.5)


def foot_centre(book: Book) -> None:
    def new_sheet(job, n):
        sheet = book.sheet(str(201 + n), job.chapter, "foot", y=84, floor=716)
        sheet.put(72, 46, "Corvane Aircraft Company T-40 Maintenance Manual", "head", Face(size=9))
        for y, text in ((736, job.chapter), (748, f"Page {201 + n}"), (760, "Apr 30/31")):
            sheet.put(306, y, text, "foot", Face(size=9), "center")
        sheet.put(306, 774, FICTITIOUS, "foot", Face(size=6.5), "center")
        return sheet

    job_pages(book, lambda n: new_sheet(BRAKES, n), BRAKES, Dress())
    job_pages(book, lambda n: new_sheet(DOOR, n), DOOR, Dress(), parts=2)


def foot_outer_mirrored(book: Book) -> None:
    job = ALTERNATOR

    def new_sheet(n):
        page = 401 + n
        sheet = book.sheet(str(page), job.chapter, "foot", y=80, floor=720)
        odd = page % 2
        sheet.put(540 if not odd else 72, 44, "T-40 AND T-40A", "head", BOLD, "left" if odd else "right")
        sheet.put(
            72 if not odd else 540, 44, "MAINTENANCE MANUAL", "head", Face(size=9), "right" if odd else "left"
        )
        outer, align = (540, "right") if odd else (72, "left")
        sheet.put(outer, 740, job.chapter, "foot", Face(size=9), align)
        sheet.put(outer, 752, f"Page {page}", "foot", Face(size=9), align)
        sheet.put(outer, 764, "June 15, 2031", "foot", Face(size=8), align)
        sheet.put(72 if odd else 540, 764, FICTITIOUS, "foot", Face(size=7), "left" if odd else "right")
        return sheet

    def with_blank(n):
        if n < 3:
            return new_sheet(n)
        blank = new_sheet(3)
        blank.put(306, 390, "THIS PAGE INTENTIONALLY LEFT BLANK", "body", Face(size=11), "center")
        return new_sheet(4)

    job_pages(book, with_blank, job, Dress(label="{A}.", face=Face("Times-Roman", 11)))


def head_box(book: Book) -> None:
    def new_sheet(n):
        sheet = book.sheet(str(201 + n), OXYGEN.chapter, "head", y=122, floor=756)
        sheet.box(54, 36, 558, 92, 1)
        sheet.line(200, 36, 200, 92, 1)
        sheet.line(430, 36, 430, 92, 1)
        sheet.put(127, 56, "CORVANE AIRCRAFT", "head", Face("Helvetica-Bold", 11), "center")
        sheet.put(127, 70, "MODEL T-40", "head", Face(size=9), "center")
        sheet.put(127, 84, FICTITIOUS, "head", Face(size=6.5), "center")
        sheet.put(315, 60, "MAINTENANCE MANUAL", "head", Face(size=10), "center")
        sheet.put(315, 77, "OXYGEN", "head", Face("Helvetica-Bold", 12), "center")
        sheet.put(494, 54, OXYGEN.chapter, "head", Face("Helvetica-Bold", 11), "center")
        sheet.put(494, 69, f"Page {201 + n}", "head", Face(size=9), "center")
        sheet.put(494, 83, "Revised: Aug 2/31", "head", Face(size=8), "center")
        return sheet

    job_pages(book, new_sheet, OXYGEN, Dress(54, 504))


def effectivity_foot(book: Book) -> None:
    reach = ("ALL", "001-024, 031", "025-030, 032-999", "ALL")

    def new_sheet(job, n):
        sheet = book.sheet(str(501 + n), job.chapter, "foot", y=86, floor=690)
        sheet.put(306, 40, "AIRCRAFT MAINTENANCE MANUAL", "head", Face("Helvetica-Bold", 12), "center")
        sheet.line(60, 706, 552, 706, 1.2)
        sheet.box(60, 712, 240, 748, 0.8)
        sheet.put(64, 723, "EFFECTIVITY:", "foot", SMALL)
        sheet.put(70, 740, reach[n], "foot", BOLD)
        sheet.put(552, 724, job.chapter, "foot", Face("Helvetica-Bold", 14), "right")
        sheet.put(552, 738, f"Page {501 + n}", "foot", Face(size=9), "right")
        sheet.put(552, 750, "Nov 01/2031", "foot", Face(size=9), "right")
        sheet.put(306, 772, f"Copyright 2031 Corvane Aircraft Company. {FICTITIOUS}", "foot", SMALL, "center")
        return sheet

    dress = Dress(60, 492, title_align="center")
    job_pages(book, lambda n: new_sheet(PITOT, n), PITOT, dress)
    job_pages(book, lambda n: new_sheet(SELECTOR, n), SELECTOR, dress, parts=2)


def own_order(book: Book) -> None:
    dress = Dress(80, 452, Face("Times-Roman", 11), Face("Times-Bold", 11), label="{a}.")
    paragraph = 31
    for n in range(5):
        page = 14 + n
        sheet = book.sheet(f"2-{page}", "SECTION 2", "head", y=104, floor=730)
        sheet.put(306, 48, "SECTION 2", "head", Face("Times-Bold", 12), "center")
        sheet.put(306, 63, "GROUND HANDLING AND SERVICING", "head", Face("Times-Bold", 11), "center")
        sheet.put(306, 76, FICTITIOUS, "head", Face("Times-Italic", 8), "center")
        odd = page % 2
        sheet.put(
            532 if odd else 80, 756, f"2-{page}", "foot", Face("Times-Roman", 11), "right" if odd else "left"
        )
        for job in (JOBS[n], JOBS[(n + 3) % 8], JOBS[(n + 6) % 8]):
            sheet.heading(f"2-{paragraph}. {job.title}.", dress.x, dress.width, dress.head, gap=14)
            text = f"{job.general[0]} {job.general[1]} See paragraph 2-{paragraph + 4}."
            sheet.flow(text, dress.x, dress.width, dress.face, gap=4)
            set_steps(book, sheet, dress, job.removal[:3])
            paragraph += 1
        dress.warn(sheet, dress, "WARNING", job.warning)
        step = job.removal[job.guarded]
        sheet.flow(step, dress.x, dress.width, dress.face, label="d.", hang=dress.hang, gap=5)
        book.guard("WARNING", job.warning, step, sheet)
        sheet.flow(job.general[3], dress.x, dress.width, dress.face, gap=6)


def page_at_head_corner(book: Book) -> None:
    def new_sheet(n):
        page = 201 + n
        sheet = book.sheet(str(page), FLAPS.chapter, "foot", y=110, floor=724)
        odd = page % 2
        outer, align = (552, "right") if odd else (60, "left")
        sheet.put(outer, 44, str(page), "head", Face("Helvetica-Bold", 14), align)
        sheet.put(outer, 58, "Jan 12/2032", "head", Face(size=8), align)
        sheet.put(306, 744, FLAPS.chapter, "foot", Face(size=10), "center")
        sheet.put(60, 766, FICTITIOUS, "foot", Face(size=7))
        return sheet

    job_pages(book, new_sheet, FLAPS, Dress(60, 492, Face(size=11), label="{n}.", heading="{text}"))


def side_tab(book: Book) -> None:
    def new_sheet(job, tab, n):
        sheet = book.sheet(str(201 + n), job.chapter[:2], "aside", y=86, floor=716)
        sheet.put(72, 44, "Corvane T-40 Maintenance Manual", "head", Face("Helvetica-Oblique", 9))
        top = 120 if job is GOVERNOR else 300
        sheet.box(578, top, 606, top + 150, 0, fill=0)
        sheet.put(592, top + 18, job.chapter[:2], "aside", Face("Helvetica-Bold", 14, grey=1), "center")
        sheet.put(588, top + 30, tab, "aside", Face("Helvetica-Bold", 10, grey=1), up=-90)
        sheet.put(306, 748, f"{job.chapter[:5]} Page {201 + n}", "foot", Face(size=9), "center")
        sheet.put(306, 766, FICTITIOUS, "foot", Face(size=7), "center")
        return sheet

    job_pages(book, lambda n: new_sheet(GOVERNOR, "PROPELLERS", n), GOVERNOR, Dress())
    job_pages(book, lambda n: new_sheet(SELECTOR, "FUEL", n), SELECTOR, Dress(), parts=2)


def typewriter(book: Book) -> None:
    face = Face("Courier", 12, 14)
    x, width = 84, 62 * 7.2

    def typed(sheet: Sheet, text: str, indent: int = 0, label: str = "") -> None:
        for n, piece in enumerate(wrap(text, face, width - indent * 7.2)):
            sheet.y += face.line
            if n == 0 and label:
                sheet.put(x + (indent - len(label) - 1) * 7.2, sheet.y, label, face=face)
            sheet.put(x + indent * 7.2, sheet.y, piece.replace(". ", ".  "), face=face)
        if sheet.y > 750:
            raise ValueError("typed below the page")

    def struck(sheet: Sheet, text: str) -> None:
        sheet.heading(text, x, width, face, gap=14)
        sheet.put(x, sheet.y, "_" * len(text), "behind", face)
        sheet.y += 7

    for n, job in enumerate((BRAKES, DOOR, FLAPS, GOVERNOR, SELECTOR)):
        sheet = book.sheet(str(14 + n), y=80)
        sheet.put(306, 44, f"- {14 + n} -", "head", face, "center")
        sheet.put(x, 60, "PELLWICK 108.  FICTITIOUS.  NOT FOR FLIGHT.", "head", face)
        struck(sheet, job.title)
        for text in job.general[:3]:
            typed(sheet, text)
            sheet.y += 7
        struck(sheet, "TO REMOVE")
        for k, step in enumerate(job.removal[:4]):
            typed(sheet, step, 4, f"{k + 1}.")
        sheet.y += 7
        typed(sheet, job.warning, 10, "WARNING:")
        sheet.y += 7
        step = job.removal[job.guarded]
        typed(sheet, step, 4, "5.")
        book.guard("WARNING", job.warning, step, sheet)
        struck(sheet, "TO INSTALL")
        for k, step in enumerate(job.installation[:4]):
            typed(sheet, step, 4, f"{k + 1}.")


def data_module(book: Book) -> None:
    dress = Dress(60, 492, label="{n}", heading="{text}", head=Face("Helvetica-Bold", 11), hang=30)
    for code, task, steps, alert in (
        ("520A", "Remove", BRAKES.removal, ("WARNING", BRAKES.warning, BRAKES.guarded)),
        ("720A", "Install", BRAKES.installation, ("CAUTION", BRAKES.caution, BRAKES.careful)),
    ):
        dmc = f"DMC-CORVT40-A-32-41-00-00A-{code}-A"

        def new_sheet(page, dmc=dmc):
            sheet = book.sheet(str(page), "32-41-00", "head", y=96, floor=706)
            sheet.put(60, 44, "Applicability: All", "head", SMALL)
            sheet.put(552, 44, dmc, "head", SMALL, "right")
            sheet.line(60, 52, 552, 52)
            sheet.line(60, 728, 552, 728)
            sheet.put(60, 740, dmc, "foot", SMALL)
            sheet.put(60, 752, FICTITIOUS, "foot", SMALL)
            sheet.put(380, 740, "2031-04-30", "foot", SMALL)
            sheet.put(552, 740, f"Page {page}", "foot", SMALL, "right")
            return sheet

        first = new_sheet(1)
        first.heading(f"Wheel brakes - {task}", 60, 492, Face("Helvetica-Bold", 14), align="center")
        set_heading(first, dress, 0, "Common information")
        for text in BRAKES.general[:3]:
            first.flow(text, 60, 492, dress.face, gap=7)
        set_heading(first, dress, 0, "Preliminary requirements")
        first.flow(
            "Required persons: one. Support equipment: jack 40T0701-1, chocks.", 60, 492, dress.face, gap=7
        )
        fill(book, first, dress, BRAKES, 1)
        second = new_sheet(2)
        set_heading(second, dress, 0, "Procedure")
        set_steps(book, second, dress, steps, alert)
        fill(book, second, dress, BRAKES, 2)
        third = new_sheet(3)
        set_heading(third, dress, 0, "Requirements after job completion")
        for n, text in enumerate((*BRAKES.test, BRAKES.note)):
            third.flow(text, 60, 492, dress.face, label=label("{n}", n + 1), hang=30, gap=6)
        third.flow("End of data module", 60, 492, BOLD, align="center", gap=24)
