"""What pages print of their own state in head or foot: number, page, date, revision."""

import datetime
from pathlib import Path

import pytest
from made_documents import page

from indexer.reading.document import read_document
from indexer.settings import Settings
from indexer.tagging.page_dates import written_order
from indexer.tagging.page_marks import page_marks
from indexer.tagging.publication import tag_document

ROOT = Path(__file__).parents[2]
BODY = "Remove the wheel nut.\nSlide the wheel off."


def mark(head=(), foot=(), printed="401", month_first=None):
    (found,) = page_marks([page(9, BODY, head, foot, printed)], month_first)
    return found


def day(text):
    return datetime.date.fromisoformat(text) if text else None


@pytest.mark.parametrize(
    ("head", "foot", "date"),
    [
        ((), ("32-41-00", "Page 401", "Mar 14/2031"), "2031-03-14"),
        ((), ("32-41-00", "Page 401", "June 1/61"), "1961-06-01"),
        ((), ("14 Mar 2031",), "2031-03-14"),
        (("Revision 6, Mar 14/2031",), ("32-41-00", "Page 401", "Jun 02/2028"), "2028-06-02"),
        (("32-41-00", "Page 401", "Jun 02/2028"), ("Mar 14/2031",), "2028-06-02"),
        ((), ("Page 401", "Printed 27 November 2032"), None),
        ((), ("Page 401", "Uncontrolled when printed 27 Nov 2032"), None),
        ((), ("Page 401", "Supersedes page dated Jun 02/2028"), None),
        ((), ("Page 401", "Copyright 14 March 2031"), None),
        ((), ("Page 401", "Jun 02/2028", "Mar 14/2031"), None),  # two: nobody can tell
        ((), ("Page 401", "03/04/2031"), None),  # can be read two ways
        ((), ("32-41-00", "Page 401"), None),
    ],
)
def test_the_date_of_a_page(head, foot, date):
    found = mark(head, foot)
    assert (found.date.value if found.date else None) == day(date)


@pytest.mark.parametrize(("month_first", "date"), [(True, "2031-03-04"), (False, "2031-04-03"), (None, None)])
def test_figures_are_read_as_the_work_writes_them(month_first, date):
    found = mark(foot=("Page 401", "03/04/2031"), month_first=month_first)
    assert (found.date.value if found.date else None) == day(date)


def test_number_page_revision_and_the_words_they_rest_on():
    found = mark(foot=("32-41-00", "Page 401", "Rev 6", "Mar 14/2031"))
    assert (found.pdf_page, found.number, found.printed_page) == (9, "32-41-00", "401")
    assert (found.revision.value, found.revision.evidence.quote) == ("6", "Rev 6")
    assert (found.date.evidence.quote, found.date.evidence.pdf_page) == ("Mar 14/2031", 9)


def test_a_date_that_the_heads_of_all_pages_print_is_the_manuals_not_the_pages():
    pages = [page(n, BODY, ("Revision 6, Mar 14/2031",), (f"Page {n}",), str(n)) for n in range(1, 6)]
    assert [found.date for found in page_marks(pages)] == [None] * 5


def test_a_date_in_the_head_that_changes_from_page_to_page_is_the_pages():
    dates = ("Mar 14/2031", "Jun 02/2028", "Mar 14/2031", "Jun 02/2028")
    pages = [page(n, BODY, (date,), (), str(n)) for n, date in enumerate(dates, 1)]
    assert [str(found.date.value) for found in page_marks(pages)][:2] == ["2031-03-14", "2028-06-02"]


def test_a_page_that_prints_nothing_of_itself_has_no_mark():
    assert page_marks([page(1, BODY)]) == ()


def test_the_number_of_a_directive_is_no_date_of_its_pages():
    """2031-07-11 has the form of a date and stands in the running line of every page."""
    (directive,) = tag_document(read_document(ROOT / "sample_docs/pdf/ad-2031-07-11.pdf", Settings()))
    assert directive.page_marks == ()


def test_ac_43_9c_change_1_marks_the_pages_that_its_page_control_chart_puts_in():
    """FAA AC 43-9C Change 1: the pages whose heads print "CHG 1" and 4/7/17 are those that the chart on its
    first page puts in (1 thru 3, 5, 7, 9); the others keep 6/8/98, but for the sheet of the appendix. Source:
    tests/data/SOURCES.md."""
    document = read_document(ROOT / "tests/data/real/AC-43-9C_CHG_1.pdf", Settings())
    marks = page_marks(document.pages, written_order(document.pages))
    changed = [found.printed_page for found in marks if found.revision and found.revision.value == "1"]
    assert changed == ["", "2", "3", "5", "7", "9"]  # page 1 prints no number
    dated = {found.printed_page: str(found.date.value) for found in marks if found.date}
    assert {dated[each] for each in ("2", "3", "5", "7", "9")} == {"2017-04-07"}
    assert {dated[each] for each in ("4", "6", "8")} == {"1998-06-08"}
