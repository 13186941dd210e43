"""Layouts 10 to 15: warnings and cautions in every dress, deep steps, page breaks, marks of change."""

from content import BOLD, Dress, boxed, centred, fill, job_pages, set_general, set_heading, set_steps
from fiction import ALTERNATOR, BRAKES, DOOR, FICTITIOUS, FLAPS, GOVERNOR, OXYGEN, PITOT, SELECTOR
from sheet import Book, Face, Sheet, wrap


def manual_sheet(book: Book, job, page: int, date: str = "Mar 31/2031") -> Sheet:
    """The plain dress that these layouts share: manual at the left of the head, address at the right foot."""
    sheet = book.sheet(str(page), job.chapter, "foot", y=84, floor=704)
    sheet.put(72, 48, "Corvane T-40B Maintenance Manual", "head", Face(size=9))
    sheet.put(540, 48, job.title, "head", Face(size=9), "right")
    sheet.put(72, 752, FICTITIOUS, "foot", Face(size=7))
    sheet.put(540, 728, job.chapter, "foot", Face(size=9), "right")
    sheet.put(540, 740, f"Page {page}", "foot", Face(size=9), "right")
    sheet.put(540, 752, date, "foot", Face(size=9), "right")
    return sheet


def warning_box(book: Book) -> None:
    dress = Dress(head=Face("Helvetica-Bold", 12), warn=boxed)
    job_pages(book, lambda n: manual_sheet(book, SELECTOR, 201 + n), SELECTOR, dress)
    job_pages(book, lambda n: manual_sheet(book, GOVERNOR, 201 + n), GOVERNOR, dress, parts=3)


def caution_centred(book: Book) -> None:
    dress = Dress(warn=centred, label="{a}.", face=Face("Times-Roman", 11), head=Face("Times-Bold", 11.5))
    job_pages(book, lambda n: manual_sheet(book, ALTERNATOR, 401 + n), ALTERNATOR, dress)
    job_pages(book, lambda n: manual_sheet(book, DOOR, 401 + n), DOOR, dress, parts=3)


def warning_cell(book: Book) -> None:
    face, bold = Face(size=9), Face("Helvetica-Bold", 9)
    x, widths = 60, (70, 342, 80)
    for n, job in enumerate((BRAKES, OXYGEN, PITOT, FLAPS, GOVERNOR)):
        sheet = manual_sheet(book, job, 401 + n)
        sheet.heading(f"REMOVAL OF THE {job.title}", x, 492, Face("Helvetica-Bold", 12))
        sheet.y += 12
        rows: list[list[str]] = []

        def row(cells, first=face, sheet=sheet, rows=rows):
            lines = wrap(cells[1], face, widths[1] - 8)
            height = len(lines) * 11.5 + 7
            warned = len(cells) == 2
            if warned:
                sheet.box(x, sheet.y, x + widths[0], sheet.y + height, 0.7, fill=0.85)
                sheet.box(x + widths[0], sheet.y, x + sum(widths), sheet.y + height, 0.7)
            else:
                left = x
                for width in widths:
                    sheet.box(left, sheet.y, left + width, sheet.y + height, 0.7)
                    left += width
            place = "either" if cells[0] == "Step" else "body"
            sheet.put(x + 4, sheet.y + 12, cells[0], place, first)
            for k, text in enumerate(lines):
                sheet.put(
                    x + widths[0] + 4,
                    sheet.y + 12 + k * 11.5,
                    text,
                    place,
                    first if place == "either" else face,
                )
                if k == 0 and len(cells) == 3 and cells[2]:
                    sheet.put(x + widths[0] + widths[1] + 4, sheet.y + 12, cells[2], place, first)
            sheet.y += height
            rows.append(list(cells) if not warned else [*cells, ""])

        row(("Step", "Action", "Sign-off"), bold)
        for k, step in enumerate(job.removal):
            if k == job.guarded:
                row(("WARNING", job.warning), bold)
                book.guard("WARNING", job.warning, step, sheet)
            row((str(k + 1), step, ""))
        sheet.tables.append(rows)
        for other in (job, FLAPS if n != 3 else BRAKES, PITOT if n != 2 else OXYGEN):
            sheet.flow(" ".join(other.general), x, 492, Face(), gap=14)


def deep_steps(book: Book) -> None:
    face = Face(size=10)

    def item(sheet, level, mark, text):
        sheet.flow(text, 60 + 18 * level, 492 - 18 * level, face, label=mark, hang=24, gap=5)

    for n, job in enumerate((OXYGEN, DOOR, FLAPS, SELECTOR, BRAKES)):
        sheet = manual_sheet(book, job, 201 + n)
        sheet.headings.append(f"{n + 1}. {job.title}")
        sheet.flow(job.title, 60, 492, BOLD, label=f"{n + 1}.", hang=24)
        item(sheet, 1, "A.", job.general[0])
        item(sheet, 1, "B.", job.general[1])
        item(sheet, 2, "(1)", job.removal[0])
        item(sheet, 2, "(2)", job.removal[1])
        item(sheet, 3, "(a)", job.removal[2])
        item(sheet, 3, "(b)", job.removal[3])
        inset = Dress(60 + 18 * 3, 492 - 18 * 3, face)
        inset.warn(sheet, inset, "WARNING", job.warning)
        sheet.y += 4
        item(sheet, 3, "(c)", job.removal[job.guarded])
        book.guard("WARNING", job.warning, job.removal[job.guarded], sheet)
        item(sheet, 4, "<1>", job.installation[0])
        item(sheet, 4, "<2>", job.installation[1])
        deeper = Dress(60 + 18 * 4, 492 - 18 * 4, face)
        deeper.warn(sheet, deeper, "CAUTION", job.caution)
        sheet.y += 4
        item(sheet, 4, "<3>", job.installation[job.careful])
        book.guard("CAUTION", job.caution, job.installation[job.careful], sheet)
        item(sheet, 3, "(d)", job.test[0])
        item(sheet, 2, "(3)", job.test[1])
        noted = Dress(60 + 18 * 2, 492 - 18 * 2, face)
        noted.warn(sheet, noted, "NOTE", job.note)
        item(sheet, 1, "C.", job.general[2])
        for k, step in enumerate(job.installation):
            item(sheet, 2, f"({k + 1})", step)
        item(sheet, 1, "D.", job.general[3])


def page_break_warning(book: Book) -> None:
    dress = Dress()
    job = PITOT

    def footnote(sheet, text):
        sheet.line(72, 682, 160, 682, 0.5)
        sheet.put(72, 694, text, face=Face(size=8))

    first = manual_sheet(book, job, 201)
    set_general(book, first, job, dress)
    for text in BRAKES.general[:2]:
        first.flow(f"{text[:-1]}*.", dress.x, dress.width, dress.face, gap=7)
    first.floor = 670
    fill(book, first, dress, job, 2)
    footnote(first, "* Airplanes before serial number 0031 have no such part.")

    second = manual_sheet(book, job, 202)
    set_heading(second, dress, 2, "Removal")
    set_steps(book, second, dress, job.removal[:2])
    second.floor = 640
    fill(book, second, dress, job, 0)
    second.floor, second.y = 704, 660
    dress.warn(second, dress, "WARNING", job.warning)

    third = manual_sheet(book, job, 203)
    set_heading(third, dress, 2, "Removal (continued)")
    third.flow(job.removal[2], dress.x, dress.width, dress.face, label="(3)", hang=24, gap=6)
    book.guard("WARNING", job.warning, job.removal[2], second, third)
    for n, step in enumerate(job.removal[3:]):
        third.flow(step, dress.x, dress.width, dress.face, label=f"({n + 4})", hang=24, gap=5)
    set_heading(third, dress, 3, "Installation")
    set_steps(book, third, dress, job.installation[:4])
    third.floor = 630
    fill(book, third, dress, job, 3)
    third.floor, third.y = 704, 650
    dress.warn(third, dress, "CAUTION", job.caution)
    third.put(306, 700, "(continued)", face=Face("Helvetica-Oblique", 9), align="center")

    fourth = manual_sheet(book, job, 204)
    set_heading(fourth, dress, 3, "Installation (continued)")
    fourth.flow(job.installation[4], dress.x, dress.width, dress.face, label="(5)", hang=24, gap=6)
    book.guard("CAUTION", job.caution, job.installation[4], third, fourth)
    fourth.flow(job.installation[5], dress.x, dress.width, dress.face, label="(6)", hang=24, gap=5)
    set_heading(fourth, dress, 4, "Test")
    set_steps(book, fourth, dress, job.test)
    footnote(fourth, "** The current is read with the head cold.")

    fifth = manual_sheet(book, OXYGEN, 201)
    set_general(book, fifth, OXYGEN, dress)
    fill(book, fifth, dress, OXYGEN, 1)


def revision_bars(book: Book) -> None:
    def barred(n):
        return manual_sheet(book, FLAPS, 201 + n, "Oct 31/2031")

    start = len(book.sheets)
    dress = Dress(84, 456)
    job_pages(book, barred, FLAPS, dress, parts=3)
    for sheet, (top, bottom) in zip(book.sheets[start:], ((150, 190), (230, 300), (120, 140)), strict=True):
        sheet.line(70, top, 70, bottom, 1.6)

    def lettered(n):
        return manual_sheet(book, GOVERNOR, 201 + n)

    start = len(book.sheets)
    old = Dress(
        84, 456, Face("Courier", 10), Face("Courier-Bold", 10), Face("Courier-Bold", 12), label="{n}."
    )
    job_pages(book, lettered, GOVERNOR, old, parts=3)
    for n, sheet in enumerate(book.sheets[start:]):
        for k in range(3 + n):
            # Lines of this face stand 12.2 points apart; the marks stand on lines of text.
            sheet.put(64, sheet.y - (5 + k) * old.face.line, "R", "aside", old.face)
