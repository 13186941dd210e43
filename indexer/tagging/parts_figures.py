"""Which figure a page of a parts catalog shows or lists: its number and title as printed, and the chapter or
group that the page prints."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from indexer.reading.page import Page
from indexer.tagging.parts_lines import PrintedRow

_NUMBER = r"[0-9]{1,2}(?:-[0-9]{1,3}){1,4}[A-Z]?|[0-9]{1,4}[A-Z]?"
_LINE = re.compile(
    rf"(?:IPL\s+)?(?:FIGURE|FIG\.?|PLATE)\s*(?:NO\.?\s*)?(?P<number>{_NUMBER})(?![0-9A-Z])[.:,]?\s*[-–—]?\s*(?P<title>.*)",
    re.IGNORECASE,
)
_NAMED = re.compile(r"\b(?:IPL\s+)?(?:FIGURE|FIG|PLATE)\b.*", re.IGNORECASE)
_AFTER_TITLE = re.compile(
    r"[\s,.(-]*(?:\(?\s*\b(?:SHEET|SHT)\.?\s*[0-9]+(?:\s*OF\s*[0-9]+)?\s*\)?|\(?\s*\bCONT(?:INUED|'?D|\.)?(?!\w)\s*\)?|\bPAGE\s*[0-9]+[A-Z]?)\s*",
    re.IGNORECASE,
)
_CHAPTER = re.compile(r"(?<![0-9-])[0-9]{2}-[0-9]{2}-[0-9]{2}(?![0-9-])")
_GROUP = re.compile(r"(?:GROUP|SECTION)\s+[0-9]{1,3}[A-Z]?(?![0-9.-])", re.IGNORECASE)
_LONGEST_TITLE = 90


@dataclass(frozen=True, slots=True)
class FigureLine:
    """figure: the number as printed, "5-2"; title "" when the line prints none; top: points, upright."""

    figure: str
    title: str
    top: float = 0.0
    margin: bool = False


def read_figure_line(text: str) -> FigureLine | None:
    """A line that is the name of a figure: "Figure 1. Main Wheel (Sheet 2)", "Plate 5-2. Wheel brake"."""
    found = _LINE.fullmatch(text.strip())
    if not found:
        return None
    title = found["title"].strip()
    while True:
        shorter = _AFTER_TITLE.sub("", title).strip(" -–—.,")
        if shorter == title:
            break
        title = shorter
    if len(title) > _LONGEST_TITLE or re.match(r"[a-z(]", title):
        return None  # a sentence that speaks of a figure
    return FigureLine(found["number"], title)


def figure_lines(rows: Sequence[PrintedRow]) -> list[FigureLine]:
    """The names of figures on a page, from top to bottom; those of the running lines are marked."""
    found: list[FigureLine] = []
    for place, row in enumerate(rows):
        for piece in row.pieces if row.margin else ():
            named = _NAMED.search(piece.text)
            line = read_figure_line(named.group()) if named else None
            if line:
                found.append(FigureLine(line.figure, line.title, row.top, True))
        if row.margin or len(row.pieces) > 2:
            continue
        line = read_figure_line(row.text)
        if line and not line.title and place + 1 < len(rows) and _may_be_title(rows[place + 1], row):
            line = FigureLine(line.figure, rows[place + 1].text.strip())
        elif line and not line.title and place and _may_be_title(row, rows[place - 1]):
            above = rows[place - 1]
            if len(above.pieces) == 1 and not above.margin and sum(c.isalpha() for c in above.text) > 3:
                line = FigureLine(line.figure, above.text.strip())
        if line:
            found.append(FigureLine(line.figure, line.title, row.top))
    return found


def _may_be_title(row: PrintedRow, above: PrintedRow) -> bool:
    """Whether the line under "FIGURE 3" is its title: one piece close below, of words."""
    close = row.middle - above.middle <= 2.2 * max(above.bottom - above.top, 1.0)
    return close and len(row.pieces) == 1 and sum(c.isalpha() for c in row.text) > 3 and not row.margin


def page_number_words(page: Page, rows: Sequence[PrintedRow]) -> str:
    """The chapter-section-subject of the running lines, else the group of the page: "32-41-00", "Group 5"."""
    margins = [row.text for row in rows if row.margin]
    for text in margins:
        found = _CHAPTER.search(text)
        if found:
            return found.group()
    for text in (*margins, *(row.text for row in rows[:4])):
        found = _GROUP.search(text)
        if found:
            return found.group().title()
    return ""
