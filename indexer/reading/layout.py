"""Raw pages -> pages: running heads and feet, tables, columns, headings; lines in reading order."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from indexer.reading.columns import reading_order
from indexer.reading.frame import displayed_box, turned_lines
from indexer.reading.headings import body_style, mark_headings
from indexer.reading.page import Line, Page, Table
from indexer.reading.printed_page import Candidate, candidates, printed_pages
from indexer.reading.raw_page import ASKEW, RawPage
from indexer.reading.rows import Run, line_of, printed_runs, run_of
from indexer.reading.running import Margins, running_rows
from indexer.reading.sheets import Sheet, sheets_of
from indexer.reading.tables import FoundTable, find_tables
from indexer.reading.usable_text import judged
from indexer.trade.evidence import Origin

_CELL_MOST_ROWS = 3  # a table row whose cells are longer is read cell by cell
_TABLE_ROW_MOST_WORDS = 60
_STAMP_SIZE = 20.0  # points; slanting words this large are laid over the page, not part of its text
_TITLE_WHITE = 2.0  # times the line's height, between a table and its title
_TITLE_CENTRED = 6.0  # points off the table's middle
_MARGIN_GAP = 2.0  # times the line's height


def lay_out(raw_pages: list[RawPage | Page]) -> tuple[Page, ...]:
    """Lay out all pages of one file. A page that failed to parse is passed through; one that was read by OCR
    keeps the boxes of the page as straightened.

    Empties `raw_pages` as it goes: a long file does not fit in memory twice.
    """
    sheets = [sheets_of(raw) if isinstance(raw, RawPage) else () for raw in raw_pages]
    flat = [sheet for page in sheets for sheet in page]
    running = running_rows(flat, len(raw_pages))
    margins = {id(sheet): found for sheet, found in zip(flat, running, strict=True)}
    del flat, running  # nothing may hold on to the pages that are laid out
    labels = printed_pages([_label_candidates(page, margins) for page in sheets])
    laid: list[_Laid] = []
    for index, raw in enumerate(raw_pages):
        laid.append(_lay_out_page(raw, sheets[index], margins, labels[index]))
        for sheet in sheets[index]:
            del margins[id(sheet)]
        raw_pages[index] = sheets[index] = None
    return _with_headings(laid)


@dataclass(slots=True)
class _Laid:
    """A page, and which of its body lines are no headings whatever they look like: rows of ruled tables."""

    page: Page
    fixed: frozenset[int] = frozenset()  # id() of each Line


def _with_headings(laid: Sequence[_Laid]) -> tuple[Page, ...]:
    fixed = frozenset(line for each in laid for line in each.fixed)
    body = body_style(line for each in laid for line in each.page.body if id(line) not in fixed)
    marked = mark_headings([each.page.body for each in laid], fixed, body)
    return tuple(
        replace(each.page, body=tuple(lines)) if each.page.body else each.page
        for each, lines in zip(laid, marked, strict=True)
    )


def _label_candidates(sheets: Sequence[Sheet], margins: dict[int, Margins]) -> list[Candidate]:
    """Labels that may be the page number, those of the foot first: there the trade prints it."""
    found = []
    for sheet in sheets:
        running = margins[id(sheet)]
        found += candidates(list(reversed(running.foot)), sheet.width)
        found += candidates(running.head, sheet.width)
    return found


def _lay_out_page(
    raw: RawPage | Page, sheets: Sequence[Sheet], margins: dict[int, Margins], printed_page: str
) -> _Laid:
    if isinstance(raw, Page):
        return _Laid(raw)
    verdict = raw.judged or judged(raw)
    head: list[Line] = []
    foot: list[Line] = []
    body: list[Line] = []
    tables: list[Table] = []
    fixed: list[Line] = []
    for sheet in sheets:
        if sheet.direction == ASKEW:
            stamps, rest = _askew(sheet)
            head += stamps
            body += rest
            fixed += rest
            continue
        turn = displayed_box(sheet.direction, raw.width, raw.height)
        running = margins[id(sheet)]
        head += turned_lines(_margin_lines(running.head), turn)
        foot += turned_lines(_margin_lines([*running.foot, *running.marks]), turn)
        for lines, table in _body(sheet, running):
            lines = turned_lines(lines, turn)
            body += lines
            if table is not None:
                tables.append(Table(turn(table.box), _cell_texts(table)))
                fixed += lines
    page = Page(
        pdf_page=raw.pdf_page,
        width=raw.width,
        height=raw.height,
        rotation=raw.rotation,
        state=verdict.state,
        label=raw.label,
        printed_page=printed_page,
        head=tuple(head),
        foot=tuple(foot),
        body=tuple(body),
        tables=tuple(tables),
        origin=_origin(raw),
        problem=verdict.problem,
        ocr_reason=verdict.ocr_reason,
    )
    return _Laid(page, frozenset(map(id, fixed)))


def _origin(raw: RawPage) -> Origin:
    if raw.straightening is not None:
        return Origin.OCR
    return Origin.HIDDEN_OCR if raw.hidden else Origin.DIGITAL


def _askew(sheet: Sheet) -> tuple[list[Line], list[Line]]:
    """Slanting words in the order of the file: stamps over the page ("FOR REFERENCE ONLY"), and the rest."""
    stamps: list[Line] = []
    rest: list[Line] = []
    for size, words in groupby(sheet.words, key=lambda word: word.font_size):
        line = line_of([run_of(list(words))])
        (stamps if size >= _STAMP_SIZE else rest).append(line)
    return stamps, rest


def _margin_lines(rows: Sequence[Sequence[Run]]) -> list[Line]:
    """The rows of a head or foot, each cut where its left, middle and right parts stand far apart."""
    lines = []
    for row in rows:
        parts = [[row[0]]]
        for run in row[1:]:
            if run.x0 - parts[-1][-1].x1 > _MARGIN_GAP * max(run.height, 1.0):
                parts.append([])
            parts[-1].append(run)
        lines += [line_of(part, column) for column, part in enumerate(parts)]
    return lines


def _body(sheet: Sheet, running: Margins) -> Iterator[tuple[list[Line], FoundTable | None]]:
    """The sheet's lines in reading order, in groups: the rows of one table, or lines of text."""
    taken = {id(run) for row in (*running.head, *running.foot, *running.marks) for run in row}
    runs = [run for run in sheet.runs if id(run) not in taken]
    words = [word for run in runs for word in run.words]
    tables = find_tables(sheet.rulings, words) if words else []
    if tables:
        in_table = frozenset().union(*(table.words for table in tables))
        runs = printed_runs([word for word in words if id(word) not in in_table])
    holders = [_place_holder(table) for table in tables]
    places = {id(holder): table for holder, table in zip(holders, tables, strict=True)}
    for holder in holders:
        _widen_title(holder, runs)
    for column, row in reading_order([*runs, *holders]):
        table = places.get(id(row[0]))
        if table is None:
            yield [line_of(row, column)], None
        else:
            yield list(_table_lines(table, column)), table


def _place_holder(table: FoundTable) -> Run:
    """Stands for a table while the page's columns are found."""
    runs = [run for cells in table.rows for cell in cells for row in cell.rows for run in row]
    words = [word for run in runs for word in run.words]
    box = table.box
    return Run(words, box.x0, box.top, box.x1, box.bottom, solid=True)


def _widen_title(holder: Run, runs: Sequence[Run]) -> None:
    """Let the title centred over a table reach as far as the table does, so that no column keeps it."""
    middle = (holder.x0 + holder.x1) / 2
    for run in runs:
        over = 0 <= holder.top - run.bottom <= _TITLE_WHITE * max(run.height, 1.0)
        if over and abs((run.x0 + run.x1) / 2 - middle) <= _TITLE_CENTRED and run.x0 > holder.x0:
            run.x0, run.x1 = holder.x0, holder.x1


def _table_lines(table: FoundTable, column: int) -> Iterator[Line]:
    """A line for each row of short cells; where cells hold whole paragraphs, cell after cell."""
    for cells in table.rows:
        if sum(cell.word_count for cell in cells) == 0:
            continue
        if (
            max(len(cell.rows) for cell in cells) <= _CELL_MOST_ROWS
            and sum(cell.word_count for cell in cells) <= _TABLE_ROW_MOST_WORDS
        ):
            yield line_of([run for cell in cells for row in cell.rows for run in row], column)
        else:
            for cell in cells:
                for row in cell.rows:
                    yield line_of(row, column)


def _cell_texts(table: FoundTable) -> tuple[tuple[str, ...], ...]:
    return tuple(tuple(cell.text for cell in row) for row in table.rows)
