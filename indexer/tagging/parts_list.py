"""A publication's pages -> its parts list: figures, rows and the number index. Pure.

Only parts catalogs, component manuals (which end in an illustrated parts list) and publications of no known
type are looked at. A table counts when its heads name part numbers, names and either items or units; in a
manual it must stand under a figure or on a page that says "parts list".
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from indexer.reading.page import Page, TextState
from indexer.settings import OCR_FLOOR
from indexer.tagging.parts_callouts import with_callouts
from indexer.tagging.parts_cells import read_item
from indexer.tagging.parts_figures import FigureLine, figure_lines, page_number_words
from indexer.tagging.parts_grid import GridRow, GridTable, read_on, read_tables
from indexer.tagging.parts_head_words import Column
from indexer.tagging.parts_heads import find_heads
from indexer.tagging.parts_indenture import indentures
from indexer.tagging.parts_index import read_index_line
from indexer.tagging.parts_items import with_named_items
from indexer.tagging.parts_lines import PrintedRow, printed_rows
from indexer.tagging.parts_loose_lines import (
    LooseRow,
    as_loose,
    first_listed,
    is_front,
    loose_tables,
    may_hold_rows,
)
from indexer.tagging.parts_row_cells import parts_row
from indexer.tagging.parts_rows import IndexedNumber, PartsFigure, PartsList, PartsRow, RowFlag
from indexer.tagging.parts_sureness import with_number_doubts
from indexer.tagging.parts_tree import TreeMark, with_tree
from indexer.tagging.parts_usage import with_usage
from indexer.tagging.parts_usage_ties import with_assemblies
from indexer.tagging.parts_variants import with_variants
from indexer.trade.evidence import Origin
from indexer.trade.publication_types import PublicationType as Type

_LOOKED_AT = (Type.PARTS_CATALOG, Type.COMPONENT_MAINTENANCE_MANUAL, None)
_OTHER_LISTS = re.compile(
    r"\b(?:SPECIAL TOOLS?|TOOLS|TEST EQUIPMENT|CONSUMABLES?|MATERIALS|TORQUE|TROUBLE|LIMITS|BULLETINS?"
    r"|EFFECTIVE PAGES|HOW TO|EXAMPLE|SPECIMEN|TORQUES|EQUIPMENT LIST|INVOICE|TIME TABLE)\b",
    re.IGNORECASE,
)
_SAYS_PARTS_LIST = re.compile(r"\bPARTS\s+(?:LIST|CATALOG|BREAKDOWN)|\bIPL\b", re.IGNORECASE)
_ROWS_ABOVE = 4  # a head may be named by its title in so many rows above it
_FIGURE_WORDS = ("FIG", "PLAT", "IPL")
_NUMBER_WORDS = frozenset(["PART", "P/N", "P/N.", "PN"])  # first four letters, as those that follow
_NAME_WORDS = frozenset(
    ["NOME", "DESC", "NAME", "TITL", "FIG", "FIG.", "FIGU", "FIG-", "FIG/", "ITEM", "PLAT"]
)
_CALLOUT = re.compile(r"[0-9]{1,3}[A-Z]?|REF")
_FEWEST_CALLOUTS = 2


@dataclass(slots=True)
class _Figure:
    figure: str
    number: str
    title: str = ""
    art_pages: list[int] = field(default_factory=list)
    list_pages: list[int] = field(default_factory=list)


@dataclass(slots=True)
class _Reading:
    """What is read so far. rows: (figure's place, row); marks: how many rows stand before each."""

    figures: list[_Figure] = field(default_factory=list)
    rows: list[tuple[int, GridRow, GridTable, Origin]] = field(default_factory=list)
    marks: list[tuple[GridRow, int]] = field(default_factory=list)
    index: list[IndexedNumber] = field(default_factory=list)
    before: GridTable | None = None  # the last table read, and its page
    before_page: int = 0
    before_figure: int | None = None
    loose_from: int = 0  # 1-based page from which lines without a table may be rows; 0 = none may


def read_parts_list(kind: Type | None, pages: Sequence[Page], ocr_floor: float = OCR_FLOOR) -> PartsList:
    """Every row of every parts table on the pages; a row that could not be read whole is kept and flagged.

    ocr_floor  confidence, 0.0 to 1.0: cells that OCR read with less are flagged
    """
    if kind not in _LOOKED_AT:
        return PartsList()
    reading = _read(kind, pages, 0 if kind is None else first_listed(pages))
    if kind is None and reading.rows:  # a parts list after all
        reading = _read(kind, pages, first_listed(pages))
    if not reading.rows and not reading.index:
        return PartsList()
    return _assembled(reading, pages, ocr_floor)


def _read(kind: Type | None, pages: Sequence[Page], loose_from: int) -> _Reading:
    reading = _Reading(loose_from=loose_from)
    for page in pages:
        goes_on = reading.before is not None and reading.before_page >= page.pdf_page - 1
        loose = loose_from and page.pdf_page >= loose_from
        if page.state is TextState.TEXT and (goes_on or _may_matter(page) or (loose and may_hold_rows(page))):
            _read_page(reading, page, kind)
    return reading


def _may_matter(page: Page) -> bool:
    """Quick look: whether the page names a figure or has words of a head. OCR may have misread them."""
    if page.origin is not Origin.DIGITAL:
        return True
    lines = (*page.head, *page.body, *page.foot)
    if any(line.words[0].text[:4].upper().startswith(_FIGURE_WORDS) for line in lines if line.words):
        return True
    words = {word.text[:4].upper() for line in lines for word in line.words}
    return not words.isdisjoint(_NUMBER_WORDS) and not words.isdisjoint(_NAME_WORDS)


def _read_page(reading: _Reading, page: Page, kind: Type | None) -> None:
    rows = printed_rows(page)
    found = find_heads(rows, fuzzy=page.origin is not Origin.DIGITAL)
    heads = [head for head in found if head.is_number_index or not _is_other_list(rows, head.first)]
    tables = read_tables(page.pdf_page, rows, heads)
    if not heads and reading.before is not None and reading.before_page >= page.pdf_page - 1:
        tables = read_on(page.pdf_page, rows, reading.before)
    shown = figure_lines(rows)
    number = page_number_words(page, rows)
    above = 0.0
    listed = False
    if _may_have_loose_rows(reading, page, kind, rows, tables):
        others = {head.first for head in found if head not in heads}
        tables += loose_tables(page.pdf_page, rows, tables, others, shown)
        tables.sort(key=lambda table: table.top)
    for table in tables:
        if table.head.is_number_index:
            _take_index(reading, table, page)
        elif table.rows or table.goes_on:
            figure = _figure_of(reading, table, shown, number, above, page.pdf_page)
            if figure is None:
                if kind is not Type.PARTS_CATALOG and not any(
                    _SAYS_PARTS_LIST.search(row.text) for row in rows
                ):
                    continue
                figure = _named(reading, "", number, "")
            _take_table(reading, table, figure, page, number)
            listed = True
            above = table.top
        else:
            continue
        if table.head.heads:
            reading.before, reading.before_page = table, page.pdf_page
        elif reading.before_page == page.pdf_page - 1:
            reading.before_page = page.pdf_page  # the list goes on; the next page may show its columns again
    if shown and not any(table.head.is_number_index for table in tables):
        _note_art(reading, shown, number, rows, tables, page.pdf_page, listed)


def _may_have_loose_rows(
    reading: _Reading,
    page: Page,
    kind: Type | None,
    rows: Sequence[PrintedRow],
    tables: Sequence[GridTable],
) -> bool:
    """Whether lines outside the tables may be rows: not in front matter, on an index, in a manual's text."""
    if not reading.loose_from or page.pdf_page < reading.loose_from or is_front(page, rows):
        return False
    if any(table.head.is_number_index for table in tables):
        return False
    says = any(_SAYS_PARTS_LIST.search(row.text) for row in rows)
    return kind is Type.PARTS_CATALOG or says or any(table.rows for table in tables)


def _is_other_list(rows: Sequence[PrintedRow], first: int) -> bool:
    """Whether the lines right above a head name another list: of tools, materials, limits."""
    for row in reversed(rows[max(first - _ROWS_ABOVE, 0) : first]):
        if row.margin:
            continue
        if _OTHER_LISTS.search(row.text) and len(row.pieces) == 1:
            return True
        if re.match(r"(?:IPL )?(?:FIG|PLATE)", row.text, re.IGNORECASE):
            return False
    return False


def _figure_of(
    reading: _Reading,
    table: GridTable,
    shown: Sequence[FigureLine],
    number: str,
    above: float,
    pdf_page: int,
) -> int | None:
    """Place of the table's figure: named above it, in the running lines, or the figure that goes on."""
    over = [line for line in shown if not line.margin and above <= line.top <= table.top]
    running = [line for line in shown if line.margin]
    elsewhere = [line for line in shown if not line.margin and above == 0.0]
    for line in (*reversed(over), *running, *elsewhere):
        title = line.title or next(
            (each.title for each in shown if each.figure == line.figure and each.title), ""
        )
        return _named(reading, line.figure, number, title)
    if reading.before_figure is not None:
        last = reading.figures[reading.before_figure]
        if last.number == number or table.headless:
            return reading.before_figure
    return None


def _named(reading: _Reading, figure: str, number: str, title: str) -> int:
    """Place of the figure of this number; a new one when it is not known yet."""
    for place in range(len(reading.figures) - 1, -1, -1):
        known = reading.figures[place]
        if known.figure == figure and known.number == number:
            known.title = known.title or title
            return place
    reading.figures.append(_Figure(figure, number, title))
    return len(reading.figures) - 1


def _take_table(reading: _Reading, table: GridTable, figure: int, page: Page, number: str) -> None:
    if table.goes_on is not None:
        last = reading.rows[-1] if reading.rows else None
        follows = reading.before_page == page.pdf_page - 1 and reading.before_figure == figure
        ended = bool(reading.marks) and reading.marks[-1][1] == len(reading.rows)
        if last is not None and follows and not ended:
            for line, pdf_page in zip(table.goes_on.lines, table.goes_on.pages, strict=True):
                last[1].add(line, pdf_page)
        else:
            table.goes_on.flags.append(RowFlag.COLUMNS)
            reading.rows.append((figure, table.goes_on, table, page.origin))
    for row in table.rows:
        if row.mark is not None:
            reading.marks.append((row, len(reading.rows)))
            continue
        said = row.text(Column.FIGURE) or _figure_alone(row) or read_item(row.text(Column.ITEM)).figure
        said = said.strip(" -")
        if said and said != reading.figures[figure].figure:
            figure = _figure_said(reading, figure, said, number)
        if set(row.lines[0]) <= {Column.FIGURE} or _figure_alone(row):
            continue  # the number of the figure on a line of its own
        reading.rows.append((figure, row, table, page.origin))
        listed = reading.figures[figure].list_pages
        if page.pdf_page not in listed:
            listed.append(page.pdf_page)
    reading.before_figure = figure


def _figure_said(reading: _Reading, figure: int, said: str, number: str) -> int:
    """The figure that a row names: one known already; else the one without a number yet takes it."""
    current = reading.figures[figure]
    if any(known.figure == said and known.number == number for known in reading.figures):
        return _named(reading, said, number, "")
    if not current.figure:
        if not current.list_pages:
            current.figure = said
            return figure
    elif current.figure.endswith(f"-{said}") or said.endswith(f"-{current.figure}"):
        return figure
    return _named(reading, said, number, "")


def _figure_alone(row: GridRow) -> str:
    """The figure's number in the item column of a line that holds nothing else ("1-"); "" = no such line."""
    if len(row.lines) != 1 or set(row.lines[0]) != {Column.ITEM}:
        return ""
    text = row.text(Column.ITEM)
    return text if re.fullmatch(r"[0-9]{1,3}\s*[-–]|[0-9]{2}(?:-[0-9]{2}){2,3}-?", text) else ""


def _take_index(reading: _Reading, table: GridTable, page: Page) -> None:
    heads = [head.words for head in table.head.heads]
    before = ""
    for row in table.rows:
        for line, box in zip(row.lines, row.boxes(), strict=True):
            cells = [" ".join(word.text for word in line.get(head.column, ())) for head in table.head.heads]
            found = read_index_line(
                cells, pdf_page=page.pdf_page, box=box.box, heads=heads, before=before, origin=page.origin
            )
            if found is not None:
                reading.index.append(found)
                before = found.part_number


def _note_art(
    reading: _Reading,
    shown: Sequence[FigureLine],
    number: str,
    rows: Sequence[PrintedRow],
    tables: Sequence[GridTable],
    pdf_page: int,
    listed: bool,
) -> None:
    """Note the page as one that shows its figures: it holds no list, or callouts stand over the list."""
    if listed:
        top = min(table.top for table in tables)
        callouts = sum(
            bool(_CALLOUT.fullmatch(piece.text)) for row in rows if row.top < top for piece in row.pieces
        )
        if callouts < _FEWEST_CALLOUTS:
            return
    for line in shown:
        if line.margin and any(other.figure == line.figure and not other.margin for other in shown):
            continue
        figure = reading.figures[_named(reading, line.figure, number, line.title)]
        if pdf_page not in figure.art_pages:
            figure.art_pages.append(pdf_page)


def _assembled(reading: _Reading, pages: Sequence[Page], ocr_floor: float) -> PartsList:
    """Figures that have rows, in printed order, with their rows tied together."""
    used = sorted({figure for figure, *_ in reading.rows})
    ordinals = {place: ordinal for ordinal, place in enumerate(used)}
    figures = tuple(
        PartsFigure(
            ordinal,
            reading.figures[place].figure,
            reading.figures[place].number,
            reading.figures[place].title,
            tuple(reading.figures[place].art_pages),
            tuple(reading.figures[place].list_pages),
        )
        for place, ordinal in ordinals.items()
    )
    shown_by_place = indentures([(row, table, origin) for _, row, table, origin in reading.rows])
    rows: Sequence[PartsRow] = tuple(
        as_loose(part) if isinstance(row, LooseRow) else part
        for ordinal, (figure, row, table, origin) in enumerate(reading.rows)
        for part in [
            parts_row(ordinal, ordinals[figure], row, table, origin, shown_by_place[ordinal], ocr_floor)
        ]
    )
    marks = [TreeMark(row.mark, before) for row, before in reading.marks if row.mark is not None]
    rows = with_tree(rows, marks)
    rows = with_named_items(rows)
    rows = with_usage(rows, figures, pages)
    rows = with_variants(rows)
    rows = with_assemblies(rows, figures, pages)
    rows = with_callouts(figures, rows, pages)
    return PartsList(figures, with_number_doubts(rows, reading.index), tuple(reading.index))
