"""Ruled tables: their cells, and their words in the run of the text."""

from pathlib import Path

import pdfplumber
import pytest
from paper import Paper, prose

from indexer.reading.document import read_document
from indexer.reading.page import PassageKind
from indexer.settings import Settings

SETTINGS = Settings()
DATA = Path(__file__).parent.parent / "data"


def _page(paper):
    return read_document(paper.save(), SETTINGS).pages[0]


def _ruled(paper, top, rows, xs):
    tops = [top + 18 * number for number in range(len(rows) + 1)]
    paper.grid(xs, tops)
    for number, row in enumerate(rows):
        for x, cell in zip(xs, row, strict=False):
            paper.text(x + 4, tops[number] + 3, cell, size=9)


ROWS = [
    ["Fastener", "Inch-pounds", "Note"],
    ["Tie bolt", "92 to 98", "dry"],
    ["Axle nut", "25", "then to the next hole"],
    ["Bleeder", "", "see text"],
]


def test_a_ruled_table_gives_its_cells(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.lines(72, 100, prose(30, 10))
    _ruled(paper, 200, ROWS, [72, 200, 320, 500])
    paper.lines(72, 300, prose(30, 10, start=40))
    page = _page(paper)
    assert [list(row) for row in page.tables[0].rows] == ROWS
    box = page.tables[0].box
    assert (box.x0, box.top, box.x1, box.bottom) == pytest.approx((72, 200, 500, 272), abs=1)


def test_a_tables_words_stay_in_the_run_of_the_text(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    before, after = prose(30, 10), prose(30, 10, start=40)
    paper.lines(72, 100, before)
    _ruled(paper, 200, ROWS, [72, 200, 320, 500])
    paper.lines(72, 300, after)
    lines = [line.text for line in _page(paper).body]
    assert lines == [*before, *(" ".join(filter(None, row)) for row in ROWS), *after]


def test_cells_of_several_lines_are_read_cell_by_cell(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.grid([72, 200, 500], [200, 260, 320])
    for row, top in enumerate((200, 260)):
        paper.lines(76, top + 4, [f"Left cell {row}", "second line"], size=9)
        paper.lines(204, top + 4, [f"Right cell {row}", "more text", "and the end"], size=9)
    lines = [line.text for line in _page(paper).body]
    assert lines == [
        "Left cell 0 second line Right cell 0 more text and the end",
        "Left cell 1 second line Right cell 1 more text and the end",
    ]


def test_a_table_is_a_passage_of_its_own_with_its_title(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.lines(72, 100, prose(70, 10))
    paper.text(72, 230, "Table 201. Torque values", bold=True)
    _ruled(paper, 260, ROWS, [72, 200, 320, 500])
    paper.lines(72, 360, prose(70, 10, start=40))
    document = read_document(paper.save(), SETTINGS)
    tables = [passage for passage in document.passages if passage.kind is PassageKind.TABLE]
    assert len(tables) == 1
    assert tables[0].text.splitlines()[0] == "Table 201. Torque values"
    assert tables[0].text.splitlines()[-1] == "Bleeder see text"


def test_a_table_open_at_its_sides(tmp_path):
    """Rulings across and between the columns, none at the left and right ends."""
    paper = Paper(tmp_path / "a.pdf")
    for top in (200, 218, 236, 254, 272):
        paper.canvas.line(72, paper.height - top, 500, paper.height - top)
    for x in (200, 320):
        paper.canvas.line(x, paper.height - 200, x, paper.height - 272)
    for number, row in enumerate(ROWS):
        for x, cell in zip((72, 200, 320), row, strict=True):
            paper.text(x + 4, 203 + 18 * number, cell, size=9)
    assert [list(row) for row in _page(paper).tables[0].rows] == ROWS


def test_a_table_ruled_only_between_its_columns(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    for top in (200, 218):
        paper.canvas.line(72, paper.height - top, 500, paper.height - top)
    for x in (200, 320):
        paper.canvas.line(x, paper.height - 200, x, paper.height - 280)
    rows = [ROWS[0], ROWS[1], ROWS[2], ["Bleeder", "60", "wet"]]
    for number, row in enumerate(rows):
        for x, cell in zip((72, 200, 320), row, strict=True):
            paper.text(x + 4, 203 + 18 * number, cell, size=9)
    page = _page(paper)
    assert [list(row) for row in page.tables[0].rows] == rows
    assert [line.text for line in page.body] == [" ".join(row) for row in rows]


def test_a_frame_round_the_page_is_no_table(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.grid([40, 570], [40, 80, 700, 750])
    paper.canvas.line(300, 792 - 700, 300, 792 - 750)
    body = prose(200, 10)
    paper.lines(72, 110, body)
    page = _page(paper)
    assert page.tables == ()
    assert [line.text for line in page.body] == body


def test_graph_paper_is_no_table(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.grid(list(range(100, 500, 20)), list(range(200, 600, 20)))
    paper.text(250, 620, "PRESSURE ALTITUDE")
    assert _page(paper).tables == ()


def test_a_parts_list_is_known_by_its_header(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    rows = [["Item", "Part number", "Nomenclature"], ["1", "WR28-2201-1", "HANDLE"], ["2", "AN4-7A", "BOLT"]]
    _ruled(paper, 200, rows, [72, 140, 260, 500])
    document = read_document(paper.save(), SETTINGS)
    assert [passage.kind for passage in document.passages] == [PassageKind.PARTS_ROW]


@pytest.mark.parametrize("number", [2, 3])
def test_cells_are_those_that_pdfplumber_finds_with_its_own_parser(number):
    """Against the outside: pdfplumber (MIT) reads the same pages by itself, glyph by glyph."""
    path = DATA / "real" / "AC_43-210A_pages_8_30_33.pdf"
    with pdfplumber.open(path) as pdf:
        page = pdf.pages[number - 1]
        theirs = [cell for table in page.extract_tables() for row in table for cell in row if cell]
        page.close()
    tables = read_document(path, SETTINGS).pages[number - 1].tables
    ours = {"".join(cell.split()) for table in tables for row in table.rows for cell in row}
    assert theirs, "the page has no table to compare"
    assert {"".join(cell.split()) for cell in theirs} - ours == set()


def test_the_columns_of_a_real_table_add_up_to_its_printed_totals():
    """FBI NICS background checks, November 2015 (US government work): a turned page, 55 rows by 25 columns.

    Its rulings part groups of rows; the last row holds the totals of each column.
    """
    path = DATA / "robustness" / "pdfplumber__nics-background-checks-2015-11-rotated.pdf"
    (table,) = read_document(path, SETTINGS).pages[0].tables
    rows = [row for row in table.rows if len(row) == 25]
    states, totals = rows[:-1], rows[-1]
    assert (states[0][0], states[-1][0], totals[0]) == ("Alabama", "Wyoming", "Totals")
    assert len(states) == 55  # 50 states, the District of Columbia, and four territories
    for column in range(1, 25):
        assert sum(_figure(row[column]) for row in states) == _figure(totals[column])


def _figure(cell):
    """California's row is printed with spaces in place of commas."""
    return int(cell.replace(",", "").replace(" ", "") or 0)
