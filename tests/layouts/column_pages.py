"""Layouts 16 to 21: columns, lists in columns, and the numbered paragraphs of directives and bulletins."""

from content import BOLD, Dress, boxed
from fiction import (
    ALTERNATOR,
    BRAKES,
    BULLETIN,
    DIRECTIVE,
    DOOR,
    FICTITIOUS,
    FLAPS,
    GOVERNOR,
    INDEX_TERMS,
    JOBS,
    OXYGEN,
    PITOT,
    SELECTOR,
)
from sheet import Book, Face, PageFull, Sheet, wrap


def set_columns(sheet: Sheet, lines: list[tuple[str, Face]], lefts: tuple[float, ...], top: float) -> float:
    """Set lines down columns of equal length, as even as they go; gives the lowest baseline."""
    share = -(-len(lines) // len(lefts))
    lowest = top
    for n, left in enumerate(lefts):
        y = top
        for text, face in lines[n * share : (n + 1) * share]:
            y += face.line
            if text:
                sheet.put(left, y, text, face=face)
        lowest = max(lowest, y)
    return lowest


def two_column_box(book: Book) -> None:
    face = Face("Times-Roman", 10)
    bold = Face("Times-Bold", 10, face.line)
    for n, job in enumerate((DOOR, OXYGEN, FLAPS, GOVERNOR, SELECTOR)):
        sheet = book.sheet(str(201 + n), job.chapter, "foot", floor=720)
        sheet.put(54, 44, "T-40 MAINTENANCE MANUAL", "head", Face("Times-Bold", 9))
        sheet.put(558, 44, FICTITIOUS, "head", Face("Times-Italic", 8), "right")
        sheet.put(54, 752, job.chapter, "foot", Face("Times-Roman", 9))
        sheet.put(306, 752, f"Page {201 + n}", "foot", Face("Times-Roman", 9), "center")
        sheet.put(558, 752, "May 4/2031", "foot", Face("Times-Roman", 9), "right")
        sheet.y = 78
        sheet.heading(job.title, 54, 504, Face("Times-Bold", 15), align="center")

        def paragraphs(texts):
            lines = []
            for text in texts:
                lines += [(piece, face) for piece in wrap(text, face, 240)]
            return lines

        numbered = [f"{k + 1}. {step}" for k, step in enumerate(job.removal)]
        upper = [("General", bold), *paragraphs(job.general), ("Removal", bold)]
        upper += paragraphs(numbered[: job.guarded])
        sheet.headings += ["General", "Removal"]
        sheet.y = set_columns(sheet, upper, (54, 318), sheet.y + 10)
        dress = Dress(54, 504, face, Face("Times-Bold", 12), warn=boxed)
        boxed(sheet, dress, "WARNING", job.warning)
        book.guard("WARNING", job.warning, job.removal[job.guarded], sheet)
        lower = paragraphs(numbered[job.guarded :])
        lower += [
            ("Installation", bold),
            *paragraphs(job.installation),
            ("Test", bold),
            *paragraphs(job.test),
        ]
        sheet.headings += ["Installation", "Test"]
        other = JOBS[n]
        lower += [(other.title.capitalize(), bold), *paragraphs((*other.general, *other.removal))]
        sheet.headings.append(other.title.capitalize())
        if set_columns(sheet, lower, (54, 318), sheet.y + 8) > sheet.floor:
            raise PageFull(f"page {sheet.pdf_page}: the columns run into the foot")


DIVIDED = {
    "alternator": "alter-nator", "pressure": "pres-sure", "cylinder": "cylin-der", "engine": "en-gine",
    "aircraft": "air-craft", "regulator": "regu-lator", "governor": "gov-ernor", "overnight": "over-night",
    "temperature": "temper-ature", "dimension": "dimen-sion", "inspection": "inspec-tion",
    "reservoir": "reser-voir",
    "firewall": "fire-wall", "position": "posi-tion", "selector": "selec-tor", "breaker": "break-er",
    "actuator": "actu-ator", "measured": "meas-ured", "switches": "switch-es", "propeller": "propel-ler",
}  # fmt: skip


def divide(text: str, face: Face, width: float) -> tuple[list[str], list[str]]:
    """Lines with words divided at their ends where DIVIDED allows it; and "word before, whole word"."""
    lines, line, joined, words = [], "", [], text.split()
    for n, word in enumerate(words):
        longer = f"{line} {word}".strip()
        if face.width(longer) <= width or not line:
            line = longer
            continue
        first, _, second = DIVIDED.get(word, "").partition("-")
        if first and face.width(f"{line} {first}-") <= width:
            lines.append(f"{line} {first}-")
            joined.append(f"{words[n - 1]} {word}")
            line = second
        else:
            lines.append(line)
            line = word
    return [*lines, line], joined


def narrow_gutter(book: Book) -> None:
    face = Face("Times-Roman", 9)
    lefts, width = (66, 312), 234

    def justified(sheet, left, text):
        lines, joined = divide(text, face, width)
        book.joined += joined
        sheet.y += 4
        for k, line in enumerate(lines):
            sheet.y += face.line
            words = line.split()
            last = k == len(lines) - 1
            space = (
                face.width(" ") if last else (width - sum(map(face.width, words))) / max(1, len(words) - 1)
            )
            x = left
            for word in words:
                sheet.put(x, sheet.y, word, face=face)
                x += face.width(word) + space

    for n in range(5):
        sheet = book.sheet(f"3-{7 + n}", "3", "foot", floor=720)
        sheet.put(306, 42, "PELLWICK 108 SERVICE MANUAL", "head", Face("Times-Bold", 9), "center")
        sheet.put(66, 750, f"3-{7 + n}", "foot", Face("Times-Roman", 9))
        sheet.put(546, 750, FICTITIOUS, "foot", Face("Times-Roman", 7), "right")
        jobs = [JOBS[(n * 2 + k) % len(JOBS)] for k in range(4)]
        sheet.y = 62
        sheet.heading(f"3-{10 + n}. {jobs[0].title}", lefts[0], width, Face("Times-Bold", 10), gap=2)
        for text in (*jobs[0].general, *jobs[1].general[:2]):
            justified(sheet, lefts[0], text)
        top = sheet.y + 12
        sheet.box(lefts[0], top, lefts[0] + width, top + 150, 0.6)
        sheet.circle(lefts[0] + 80, top + 75, 50)
        sheet.circle(lefts[0] + 80, top + 75, 22)
        sheet.line(lefts[0] + 130, top + 75, lefts[0] + 200, top + 40)
        sheet.put(lefts[0] + 204, top + 42, "1", "aside", Face(size=8))
        sheet.line(lefts[0] + 102, top + 75, lefts[0] + 200, top + 110)
        sheet.put(lefts[0] + 204, top + 112, "2", "aside", Face(size=8))
        sheet.y = top + 152
        figure = f"Figure 3-{4 + n}. {jobs[1].title.title()}"
        sheet.flow(figure, lefts[0], width, Face("Times-Bold", 9), align="center", gap=2)
        for text in jobs[1].general[2:]:
            justified(sheet, lefts[0], text)
        sheet.y = 62
        sheet.heading(f"3-{11 + n}. {jobs[2].title}", lefts[1], width, Face("Times-Bold", 10), gap=2)
        for text in (*jobs[2].general, *jobs[3].general, " ".join(jobs[2].test), " ".join(jobs[3].test)):
            justified(sheet, lefts[1], text)


def effective_pages(book: Book) -> None:
    face, bold = Face(size=7.5), Face("Helvetica-Bold", 7.5)
    chapters = (
        "05-11-00",
        "12-11-00",
        "20-11-00",
        "24-31-00",
        "27-51-00",
        "28-21-00",
        "30-31-00",
        "32-41-00",
    )
    dates = ("Apr 30/31", "Apr 30/31", "Aug 2/31", "Nov 1/31")
    row = 0
    for n in range(4):
        sheet = book.sheet(f"LEP-{n + 1}")
        sheet.put(54, 44, "Corvane Aircraft Company T-40 Maintenance Manual", "head", Face(size=9))
        sheet.put(306, 744, f"LEP-{n + 1}", "foot", Face(size=9), "center")
        sheet.put(306, 756, "Nov 1/31", "foot", Face(size=9), "center")
        sheet.put(306, 770, FICTITIOUS, "foot", Face(size=6.5), "center")
        sheet.y = 66
        sheet.put(306, 86, "LIST OF EFFECTIVE PAGES", "either", Face("Helvetica-Bold", 13), "center")
        for column in range(4):
            left = 54 + column * 129
            for x, text in ((0, "Chapter"), (58, "Page"), (82, "Date")):
                sheet.put(left + x, 106, text, "either", bold)
            for k in range(48):
                y = 120 + k * 12
                chapter = chapters[row // 40 % 8]
                chapter = f"{chapter[:3]}{int(chapter[3]) + row // 320}{chapter[4:]}"
                sheet.put(left, y, chapter, face=face)
                changed = row % 4 > 1
                if changed:
                    sheet.put(left + 50, y, "*", face=face)
                sheet.put(left + 58, y, str((1, 201, 401, 501)[row // 10 % 4] + row % 10), face=face)
                sheet.put(left + 82, y, dates[row % 4], face=face)
                row += 1
        sheet.put(54, 714, "* The asterisk marks pages changed, added or deleted.", "either", face)


MORE_ENTRIES = ("cleaning", "inspection", "limits", "lubrication", "storage", "tools")


def index_three_columns(book: Book) -> None:
    face, bold = Face("Times-Roman", 10, 13), Face("Times-Bold", 11, 13)
    lines, letter = [], ""
    for term, *entries in INDEX_TERMS:
        if term[0] != letter:
            letter = term[0]
            lines.append((0, letter, bold))
        if len(entries) == 1 and len(term) < 8:
            lines.append((0, f"{term}, {entries[0][0]}, {entries[0][1]}", face))
            continue
        lines.append((0, term, face))
        lines += [(10, f"{entry}, {place}", face) for entry, place in entries]
        lines += [(10, f"{entry}, {entries[0][1][:-1]}{k}", face) for k, entry in enumerate(MORE_ENTRIES)]
    deep = 46
    for n in range(-(-len(lines) // (3 * deep))):
        sheet = book.sheet(f"INDEX-{n + 1}")
        sheet.put(306, 46, "ALPHABETICAL INDEX", "head", Face("Times-Bold", 14), "center")
        sheet.put(558, 740, f"INDEX-{n + 1}", "foot", Face("Times-Roman", 10), "right")
        sheet.put(54, 740, FICTITIOUS, "foot", Face("Times-Roman", 8))
        sheet.put(306, 740, "May 4/2031", "foot", Face("Times-Roman", 8), "center")
        for column in range(3):
            begin = (n * 3 + column) * deep
            for k, (inset, text, kind) in enumerate(lines[begin : begin + deep]):
                if len(text) == 1:
                    sheet.headings.append(text)
                sheet.put(54 + column * 172 + inset, 90 + k * 13.6, text, face=kind)


def directive(book: Book) -> None:
    # Typed with an open line between the lines, as directives sent by letter are.
    face, bold = Face("Times-Roman", 11, 27), Face("Times-Bold", 11, 27)

    def new_sheet():
        page = len(book.sheets) + 1
        sheet = book.sheet(str(page), y=84, floor=724)
        sheet.put(72, 46, "Civil Airworthiness Directorate of Ostrand", "head", Face("Times-Roman", 9))
        sheet.put(540, 46, "AD 2031-04-07", "head", Face("Times-Roman", 9), "right")
        sheet.put(306, 752, f"Page {page} of 4", "foot", Face("Times-Roman", 9), "center")
        sheet.put(306, 766, FICTITIOUS, "foot", Face("Times-Italic", 8), "center")
        return sheet

    def set_paragraph(sheet, mark, title, text):
        if title:
            sheet.headings.append(f"{mark} {title}")
            sheet.flow(title, 72, 468, bold, label=mark, hang=24, gap=12)
            sheet.flow(text, 96, 444, face)
        else:
            level = 1 if mark[1].isdigit() else 2
            sheet.flow(text, 78 + 18 * level, 462 - 18 * level, face, label=mark, hang=24, gap=6)

    sheet = new_sheet()
    sheet.heading("AIRWORTHINESS DIRECTIVE", 72, 468, Face("Times-Bold", 15), align="center")
    sheet.flow(
        "2031-04-07 Corvane Aircraft Company: Amendment 39-90417; Docket No. CAD-2031-0112.",
        72,
        468,
        face,
        gap=12,
    )
    for paragraph in DIRECTIVE:
        mark = sheet.mark()
        try:
            set_paragraph(sheet, *paragraph)
        except PageFull:
            sheet.back_to(mark)
            sheet = new_sheet()
            set_paragraph(sheet, *paragraph)
        if paragraph[1] == "Subject":
            sheet.chapter, sheet.chapter_place = "32", "body"
    sheet = new_sheet()
    appendix = (*BRAKES.removal, *BRAKES.installation, *BRAKES.test, *BRAKES.general)
    sheet.heading("Appendix 1 to AD 2031-04-07", 72, 468, bold)
    for n, text in enumerate(appendix, start=1):
        mark = sheet.mark()
        try:
            sheet.flow(text, 72, 468, face, label=f"{n}.", hang=24)
        except PageFull:
            sheet.back_to(mark)
            sheet = new_sheet()
            sheet.flow(text, 72, 468, face, label=f"{n}.", hang=24)
    if len(book.sheets) != 4:
        raise ValueError(f"the feet say four pages, and there are {len(book.sheets)}")


def bulletin(book: Book) -> None:
    face = Face(size=11, leading=19)

    def new_sheet():
        page = len(book.sheets) + 1
        sheet = book.sheet(str(page), y=76, floor=716)
        if page == 1:
            sheet.put(72, 48, "CORVANE AIRCRAFT COMPANY", "either", Face("Helvetica-Bold", 14))
            sheet.put(72, 62, "14 Slipway Lane, Tarn Harbour", "either", Face(size=9))
            sheet.y = 96
        sheet.put(72, 744, "April 30, 2031", "foot", Face(size=9))
        sheet.put(306, 744, "SB T40-32-0012", "foot", Face(size=9), "center")
        sheet.put(540, 744, f"Page {page} of 5", "foot", Face(size=9), "right")
        sheet.put(306, 762, FICTITIOUS, "foot", Face(size=7), "center")
        return sheet

    sheet = new_sheet()
    sheet.heading("SERVICE BULLETIN", 72, 468, Face("Helvetica-Bold", 18), align="center")
    sheet.flow("Number: T40-32-0012, Original Issue", 72, 468, BOLD, gap=10)
    sheet.flow("Subject: Landing gear, wheel brakes, replacement of the anchor bolts", 72, 468, BOLD, gap=4)
    sheet.line(72, sheet.y + 8, 540, sheet.y + 8, 1)
    sheet.y += 10
    warning = ""
    for page, mark, text in BULLETIN:
        while page > len(book.sheets):
            sheet = new_sheet()
        if mark.endswith(".") and mark[:-1].isdigit():
            sheet.heading(f"{mark} {text}", 72, 468, Face("Helvetica-Bold", 12), gap=14)
        elif mark == "WARNING":
            warned = Dress(108, 432, face)
            warned.warn(sheet, warned, mark, text)
            sheet.y += 4
            warning = text
        else:
            level = 1 if mark[0].isalpha() else 2
            sheet.flow(text, 72 + 18 * level, 468 - 18 * level, face, label=mark, hang=26, gap=7)
            if warning:
                book.guard("WARNING", warning, text, sheet)
                warning = ""
    closing = book.sheets[-1]
    for job in (ALTERNATOR, PITOT):
        closing.flow(job.note, 72, 468, face, gap=10)
