"""Draws lists of effective pages in the forms that manuals print, each with its truth. Our own fiction.

A layout is a list of (x, top, text) to draw on one page or several, and the lines a person reads there:
"number|page|date|revision". The forms are common practice, no source.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from reportlab.pdfgen.canvas import Canvas

HEIGHT, WIDTH = 792, 612
ROW = 14


@dataclass
class Sheet:
    """One page: words with their places, and rulings."""

    words: list[tuple[float, float, str]] = field(default_factory=list)
    rules: list[tuple[float, float, float, float]] = field(default_factory=list)
    bold: list[tuple[float, float, str]] = field(default_factory=list)

    def title(self, text: str = "LIST OF EFFECTIVE PAGES", top: float = 80) -> "Sheet":
        self.bold.append((220, top, text))
        return self

    def row(self, top: float, *cells: tuple[float, str]) -> "Sheet":
        self.words += [(x, top, text) for x, text in cells]
        return self

    def foot(self, number: str, page: str, date: str) -> "Sheet":
        self.words += [(480, 728, number), (480, 741, f"Page {page}"), (480, 754, date)]
        return self

    def grid(self, xs: list[float], tops: list[float]) -> "Sheet":
        self.rules += [(xs[0], top, xs[-1], top) for top in tops]
        self.rules += [(x, tops[0], x, tops[-1]) for x in xs]
        return self


def draw(path: Path, sheets: list[Sheet]) -> Path:
    canvas = Canvas(str(path), pagesize=(WIDTH, HEIGHT), invariant=1)
    for sheet in sheets:
        canvas.setLineWidth(0.6)
        for x0, y0, x1, y1 in sheet.rules:
            canvas.line(x0, HEIGHT - y0, x1, HEIGHT - y1)
        for size, font, words in ((14, "Helvetica-Bold", sheet.bold), (10, "Helvetica", sheet.words)):
            canvas.setFont(font, size)
            for x, top, text in words:
                canvas.drawString(x, HEIGHT - top - size, text)
        canvas.showPage()
    canvas.save()
    return path


LAYOUTS: dict[str, tuple[Callable[[], list[Sheet]], list[str]]] = {}


def layout(*truth: str):
    def keep(make: Callable[[], list[Sheet]]) -> Callable[[], list[Sheet]]:
        LAYOUTS[make.__name__] = (make, [line for each in truth for line in each.split("; ")])
        return make

    return keep


def rows(sheet: Sheet, top: float, xs: list[float], lines: list[str], step: float = ROW) -> float:
    """Rows of cells parted by "|"; an empty cell draws nothing. Gives the top of the next row."""
    for line in lines:
        sheet.row(
            top, *((x, text.strip()) for x, text in zip(xs, line.split("|"), strict=False) if text.strip())
        )
        top += step
    return top


@layout(
    "32-41-00|401|2031-03-14|; 32-41-00|402|2031-03-14|; 32-41-00|403|2028-06-02|; 32-42-00|1|2029-11-08|",
    "32-42-00|2|2029-11-08|; |LEP-1|2031-03-14|",
)
def one_group_unruled() -> list[Sheet]:
    sheet = Sheet().title()
    lines = ["Number|Page|Date", "32-41-00|401 thru 402|Mar 14/2031", "32-41-00|403|Jun 02/2028"]
    lines += ["32-42-00|1 thru 2|Nov 08/2029", "Front matter|LEP-1|Mar 14/2031"]
    rows(sheet, 120, [80, 200, 320], lines)
    return [sheet.foot("", "LEP-1", "Mar 14/2031")]


@layout("32-41-00|401|2031-03-14|; 32-41-00|402|2028-06-02|; 32-42-00|1|2029-11-08|")
def ruled() -> list[Sheet]:
    sheet = Sheet().title()
    lines = ["Chapter-Section-Subject|Page|Date", "32-41-00|401|14 Mar 2031", "32-41-00|402|2 Jun 2028"]
    rows(sheet, 124, [80, 240, 340], [*lines, "32-42-00|1|8 Nov 2029"], 20)
    return [sheet.grid([74, 234, 334, 440], [120, 140, 160, 180, 200])]


@layout(
    "24-31-00|401|2029-11-08|; 24-31-00|402|2029-11-08|; 24-31-00|501|2031-03-14|; 27-30-00|1|2028-06-02|",
    "27-30-00|2|2028-06-02|; 32-41-00|401|2031-03-14|",
)
def two_groups_with_headings() -> list[Sheet]:
    """The heading of the chapter holds below it; the last one of the left group goes on at the right."""
    sheet = Sheet().title()
    left = ["Page|Date", "24-31-00|", "401|Nov 08/29", "402|Nov 08/29", "501|Mar 14/31", "27-30-00|"]
    right = ["Page|Date", "1|Jun 02/28", "2|Jun 02/28", "32-41-00|", "401|Mar 14/31"]
    rows(sheet, 120, [80, 170], left)
    rows(sheet, 120, [340, 430], right)
    return [sheet]


@layout(
    "05-10-00|1|2031-03-14|; 05-10-00|2|2031-03-14|; 05-20-00|1|2028-06-02|; 12-10-00|301|2029-11-08|",
    "12-10-00|302|2029-11-08|; 12-20-00|301|2028-06-02|; 20-00-00|201|2028-06-02|; 21-10-00|401|2031-03-14|",
    "21-10-00|402|2031-03-14|",
)
def three_groups() -> list[Sheet]:
    sheet = Sheet().title("LIST OF EFFECTIVE PAGES")
    groups = [
        ["Subject|Page|Date", "05-10-00|1|Mar 14/31", "|2|Mar 14/31", "05-20-00|1|Jun 02/28"],
        ["Subject|Page|Date", "12-10-00|301|Nov 08/29", "|302|Nov 08/29", "12-20-00|301|Jun 02/28"],
        ["Subject|Page|Date", "20-00-00|201|Jun 02/28", "21-10-00|401|Mar 14/31", "|402|Mar 14/31"],
    ]
    for place, lines in enumerate(groups):
        rows(sheet, 120, [60 + 180 * place, 115 + 180 * place, 150 + 180 * place], lines)
    return [sheet]


@layout(
    "32-41-00|401|2031-03-14|; 32-41-00|402|2031-03-14|; 32-41-00|403|2028-06-02|; 32-41-00|404|2028-06-02|",
    "32-42-00|1|2029-11-08|; 32-42-00|2|2029-11-08|; 32-42-00|3|2029-11-08|",
)
def headings_over_all_groups() -> list[Sheet]:
    """Read row by row under each heading: a heading stands over all the groups."""
    sheet = Sheet().title()
    rows(sheet, 120, [80, 150, 240, 310], ["Page|Date|Page|Date"])
    rows(sheet, 140, [80], ["32-41-00 MAIN WHEEL"])
    rows(sheet, 154, [80, 150, 240, 310], ["401|Mar 14/31|402|Mar 14/31", "403|Jun 02/28|404|Jun 02/28"])
    rows(sheet, 190, [80], ["32-42-00 BRAKES"])
    rows(sheet, 204, [80, 150, 240, 310], ["1|Nov 08/29|2|Nov 08/29", "3|Nov 08/29||"])
    return [sheet]


@layout(
    "|5-11|1958-11-01|; |5-12|1961-06-01|; |5-13|1961-06-01|; |5-14|1961-06-01|",
    "|6-1|1958-11-01|; |6-2|1958-11-01|",
)
def own_order_old_dates() -> list[Sheet]:
    """A manual of the 1950s: pages counted by section, dates as June 1/61."""
    sheet = Sheet().title("LIST OF EFFECTIVE PAGES")
    lines = [
        "Page|Date",
        "5-11|Nov. 1/58",
        "5-12|June 1/61",
        "5-13 thru 5-14|June 1/61",
        "6-1 to 6-2|Nov. 1/58",
    ]
    rows(sheet, 120, [80, 200], lines)
    pages = [Sheet().row(100, (80, "Turn the drum by hand and look at the lining.")) for _ in range(4)]
    for page, printed in zip(pages, ("5-11", "5-12", "6-1", "6-2"), strict=True):
        page.row(740, (300, printed))
    return [sheet, *pages]


@layout(
    "|i|2028-06-02|; |ii|2028-06-02|; |iii|2028-06-02|; |iv|2031-03-14|; |1-1|2028-06-02|; |1-2|2031-03-14|"
)
def roman_front_matter() -> list[Sheet]:
    sheet = Sheet().title("LIST OF EFFECTIVE PAGES")
    lines = [
        "Page|Date",
        "i thru iii|June 2, 2028",
        "iv|March 14, 2031",
        "1-1|June 2, 2028",
        "1-2|March 14, 2031",
    ]
    rows(sheet, 120, [80, 200], lines)
    pages = [Sheet().row(100, (80, "Wash the wheel and look for cracks.")) for _ in range(3)]
    for page, printed in zip(pages, ("1-1", "1-2", "1-3"), strict=True):
        page.row(740, (300, printed))
    return [sheet, *pages]


@layout(
    "32-41-00|401|2031-03-14|; 32-41-00|402|2031-03-14|; 32-41-00|404|2028-06-02|; 32-42-00|1|2031-03-14|"
)
def marks_of_change() -> list[Sheet]:
    """* changed, A added, R revised; D deleted is no page of the book any more."""
    sheet = Sheet().title()
    lines = ["|Subject|Page|Date", "*|32-41-00|401|Mar 14/2031", "R|32-41-00|402|Mar 14/2031"]
    lines += ["D|32-41-00|403|Deleted", "|32-41-00|404|Jun 02/2028", "A|32-42-00|1|Mar 14/2031"]
    rows(sheet, 120, [60, 80, 200, 320], lines)
    return [sheet.row(400, (80, "* = changed   A = added   D = deleted   R = revised"))]


@layout(
    "52-11-00|401|2029-11-08|; 52-11-00|402|2031-03-14|; 52-11-00|403|2031-03-14|; 61-10-00|401|2028-06-02|"
)
def marks_behind_the_date() -> list[Sheet]:
    sheet = Sheet().title()
    left = ["Subject|Page|Date|", "52-11-00|401|Nov 08/29|", "52-11-00|402|Mar 14/31|R"]
    right = ["Subject|Page|Date|", "52-11-00|403|Mar 14/31|A", "61-10-00|401|Jun 02/28|"]
    rows(sheet, 120, [70, 140, 180, 238], left)
    rows(sheet, 120, [320, 390, 430, 488], right)
    return [sheet]


@layout(
    "32-41-00|401|2031-03-14|; 32-41-00|402|2031-03-14|; 32-41-00|403|2031-03-14|",
    "32-41-00|404|2031-03-14|blank",
)
def blank_backs() -> list[Sheet]:
    sheet = Sheet().title()
    lines = [
        "Subject|Page|Date",
        "32-41-00|401|Mar 14/2031",
        "|402|Mar 14/2031",
        "|403/(404 blank)|Mar 14/2031",
    ]
    rows(sheet, 120, [80, 200, 320], lines)
    return [sheet]


@layout("32-41-00|401|2031-03-14|6; 32-41-00|402|2029-11-08|4; 32-42-00|1|2028-06-02|original")
def revision_column() -> list[Sheet]:
    sheet = Sheet().title()
    lines = ["Subject|Page|Rev|Date", "32-41-00|401|6|Mar 14/2031", "32-41-00|402|4|Nov 08/2029"]
    rows(sheet, 120, [80, 180, 240, 300], [*lines, "32-42-00|1|Original|Jun 02/2028"])
    return [sheet]


@layout("|1-1|None|0; |1-2|None|0; |1-3|None|2; |2-1|None|1; |2-2|None|1")
def change_numbers_without_dates() -> list[Sheet]:
    """The older form: each page with the number of the change that last touched it."""
    sheet = Sheet().title("LIST OF EFFECTIVE PAGES")
    lines = ["Page No.|Change No.", "1-1 thru 1-2|0", "1-3|2", "2-1 thru 2-2|1"]
    rows(sheet, 120, [80, 220], lines)
    pages = [Sheet().row(100, (80, "Fill the tank slowly and look for leaks.")) for _ in range(3)]
    for page, printed in zip(pages, ("1-1", "1-2", "1-3"), strict=True):
        page.row(740, (300, printed))
    return [sheet, *pages]


@layout("32-41-00|401|2031-03-14|; 32-41-00|402|2031-03-14|; 32-42-00|1|2028-06-02|")
def chapter_section_subject_in_three_columns() -> list[Sheet]:
    sheet = Sheet().title("EFFECTIVE PAGES")
    lines = ["Chapter|Section|Subject|Page|Date", "32|41|00|401|03/14/2031", "32|41|00|402|03/14/2031"]
    rows(sheet, 120, [80, 130, 190, 250, 310], [*lines, "32|42|00|1|06/02/2028"])
    return [sheet]


@layout(
    "32-41-00|401|2031-03-14|; 32-41-00|402|2031-03-14|; 32-42-00|1|2028-06-02|; 32-42-00|2|2028-06-02|",
    "32-43-00|201|2031-03-14|; 32-43-00|202|2031-03-14|; 33-40-00|401|2028-06-02|",
)
def list_over_two_pages() -> list[Sheet]:
    """The second page bears no title; the heading at the foot of the first holds for its first lines."""
    first, second = Sheet().title(), Sheet()
    rows(first, 120, [80, 200], ["32-41-00|", "401|Mar 14/31", "402|Mar 14/31", "32-42-00|", "1|Jun 02/28"])
    rows(second, 120, [80, 200], ["2|Jun 02/28", "32-43-00|", "201|Mar 14/31", "202|Mar 14/31", "33-40-00|"])
    rows(second, 120 + 5 * ROW, [80, 200], ["401|Jun 02/28"])
    third = Sheet().row(100, (80, "Remove the wheel nut and slide the wheel off the axle of the leg."))
    return [first.foot("", "LEP-1", "Mar 14/31"), second.foot("", "LEP-2", "Mar 14/31"), third]


@layout("32-41-00|401|2031-03-14|; 32-41-00|402|2031-03-14|; 32-42-00|1|2028-06-02|; ||None|total")
def totals_and_sentences() -> list[Sheet]:
    """What else such a page prints is no line of the list."""
    sheet = Sheet().title()
    sheet.row(
        104, (80, "All pages listed are active. Compare the date at the foot of each page with this list.")
    )
    sheet.row(118, (80, "Revision 6, Mar 14/2031"))
    lines = ["Subject|Page|Date", "32-41-00|401 thru 402|Mar 14/2031", "32-42-00|1|Jun 02/2028"]
    end = rows(sheet, 150, [80, 200, 320], lines)
    sheet.row(end + 20, (80, "Total number of pages in this manual: 3"))
    return [
        sheet.row(end + 40, (80, "This list was issued on March 14, 2031 and replaces all earlier lists."))
    ]


@layout("|Title|2031-03-14|; |A|2031-03-14|; |B|2031-03-14|; |1|2028-06-02|; |2|2028-06-02|")
def title_page_and_letters() -> list[Sheet]:
    sheet = Sheet().title()
    lines = ["Page|Date", "Title|14 March 2031", "A|14 March 2031", "B|14 March 2031", "1 and 2|2 June 2028"]
    rows(sheet, 120, [80, 200], lines)
    return [sheet]


@layout(
    "32-41-00|401|2031-03-14|; 32-41-00|402|2031-03-14|; 32-41-00|403|2031-03-14|; 32-42-00|201|2028-06-02|"
)
def dotted_leaders() -> list[Sheet]:
    sheet = Sheet().title()
    lines = [
        "32-41-00 Page 401 thru 403 ............. Mar 14/2031",
        "32-42-00 Page 201 ......... Jun 02/2028",
    ]
    for place, text in enumerate(lines):
        sheet.row(120 + ROW * place, (80, text))
    return [sheet]


@layout("32-41-00|401|None|; 32-41-00|402|2031-03-25|")
def dates_that_can_be_read_two_ways() -> list[Sheet]:
    """12/13/2030 shows that the month stands first only where the work has such a date; here none has."""
    sheet = Sheet().title()
    rows(sheet, 120, [80, 200, 320], ["32-41-00|401|03/04/2031", "32-41-00|402|25 Mar 2031"])
    return [sheet]
