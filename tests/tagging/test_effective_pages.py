"""Lists of effective pages in the forms that manuals print, read exactly; and real page control charts."""

from pathlib import Path

import list_papers
import pytest

from indexer.reading.document import read_document
from indexer.settings import Settings
from indexer.tagging.effective_pages import BLANK, INSERTED, INSERTED_BLANK, TOTAL, UNREAD, listed_pages
from indexer.tagging.listed_lines import Layout, expand, read_line
from indexer.tagging.page_dates import month_first, written_order
from indexer.tagging.publication import tag_document

ROOT = Path(__file__).parents[2]
REAL = ROOT / "tests" / "data" / "real"


def read(path):
    document = read_document(path, Settings())
    return listed_pages(document.pages, written_order(document.pages))


def said(line):
    last = {BLANK: "blank", TOTAL: "total"}.get(line.evidence.rule, line.revision)
    return f"{line.number}|{line.printed_page}|{line.date}|{last}"


@pytest.mark.parametrize("name", list_papers.LAYOUTS)
def test_a_list_is_read_exactly(name, tmp_path):
    make, truth = list_papers.LAYOUTS[name]
    found = read(list_papers.draw(tmp_path / f"{name}.pdf", make()))
    assert [said(line) for line in found] == truth


def test_every_line_names_the_words_it_rests_on(tmp_path):
    make, _ = list_papers.LAYOUTS["two_groups_with_headings"]
    found = read(list_papers.draw(tmp_path / "list.pdf", make()))
    assert {line.evidence.quote for line in found} == {
        "401 Nov 08/29", "402 Nov 08/29", "501 Mar 14/31", "1 Jun 02/28", "2 Jun 02/28", "401 Mar 14/31",
    }  # fmt: skip
    assert all(line.evidence.pdf_page == 1 and line.evidence.box for line in found)


def test_the_sample_manual_lists_every_page_it_has():
    """Its truth: pages, numbers and dates drawn by sample_docs/draw."""
    (manual,) = tag_document(read_document(ROOT / "sample_docs/pdf/qz62-maintenance-manual.pdf", Settings()))
    listed = {(each.number, each.printed_page): each.date for each in manual.listed_pages}
    printed = {(each.number, each.printed_page): each.date.value for each in manual.page_marks}
    assert len(listed) == len(manual.listed_pages) == 51
    assert listed == printed


def test_a_line_that_is_not_understood_is_kept_as_unread(tmp_path):
    sheet = list_papers.Sheet().title()
    list_papers.rows(
        sheet, 120, [80, 200, 320], ["32-41-00|401|Mar 14/2031", "32-41-00|40? ~ 403|Mar 14/2031"]
    )
    found = read(list_papers.draw(tmp_path / "list.pdf", [sheet]))
    assert [(line.printed_page, line.evidence.rule == UNREAD) for line in found] == [
        ("401", False),
        ("", True),
    ]


@pytest.mark.parametrize(
    "text",
    [
        "Revision 6, Mar 14/2031",
        "All pages of this list are in force.",
        "Total pages 84",
        "Reissued 14 March 2031",
        "This list is effective as of March 14, 2031",
        "Change 2 of 4 May 2030 is included",
        "Page 1 of 3",
        "12",
        "See 32-41-00, page 401",
    ],
)
def test_what_is_no_line_of_a_list(text):
    assert read_line(text, Layout()) is None


@pytest.mark.parametrize(
    ("first", "last", "pages"),
    [
        ("401", "403", "401 402 403"),
        ("LEP-1", "LEP-2", "LEP-1 LEP-2"),
        ("LEP-1", "2", "LEP-1 LEP-2"),
        ("5-9", "5-11", "5-9 5-10 5-11"),
        ("iii", "vi", "iii iv v vi"),
        ("12A", "12C", "12A 12B 12C"),
        ("403", "401", ""),  # backwards: not read
        ("5-9", "6-2", ""),  # over two sections: nobody can tell how many
        ("1", "9999", ""),
    ],
)
def test_ranges_of_pages(first, last, pages):
    assert expand(first, last) == tuple(pages.split())


@pytest.mark.parametrize(
    ("texts", "expected"),
    [
        (["6/8/98", "3/29/07"], True),
        (["29/3/07"], False),
        (["6/8/98"], None),
        (["29/3/07", "3/29/07"], None),
        ([], None),
    ],
)
def test_dates_in_figures_are_read_where_the_work_shows_the_order(texts, expected):
    assert month_first(texts) is expected


def test_page_control_chart_of_ac_43_9c_change_1():
    """Read by eye from the circular's first page (FAA, 7 April 2017): remove pages 2 and 3, 5, 8, 10 dated
    6/8/98; insert pages 1 thru 3, 5, 7, 9 (and 10) dated 4/7/17. Source: tests/data/SOURCES.md."""
    found = read(REAL / "AC-43-9C_CHG_1.pdf")
    assert {line.evidence.rule for line in found} == {INSERTED, INSERTED_BLANK}
    assert [line.printed_page for line in found] == ["1", "2", "3", "5", "7", "9", "10"]
    assert {str(line.date) for line in found} == {"2017-04-07"}


def test_page_control_chart_of_ac_43_11_change_1():
    """Read by eye: remove 1 thru 4 dated 04/07/76, insert 1 thru 4 dated 3/29/07."""
    found = read(REAL / "AC-43-11_CHG1.pdf")
    assert [(line.printed_page, str(line.date)) for line in found] == [
        (page, "2007-03-29") for page in ("1", "2", "3", "4")
    ]


@pytest.mark.parametrize("name", sorted(path.name for path in REAL.glob("*.pdf")))
def test_no_list_is_found_in_papers_that_have_none(name):
    if name not in ("AC-43-9C_CHG_1.pdf", "AC-43-11_CHG1.pdf"):
        assert read(REAL / name) == ()
