"""A list of effective pages held against the pages that are there. Common practice, no source."""

from pathlib import Path

import pytest
from listed_manual import Manual, line, mark, take_manual

from indexer.library.catalogue import Catalogue
from indexer.library.effective_pages import check_list, list_check, page_key
from indexer.library.list_check_records import PageState
from indexer.library.records import PageRecord
from indexer.reading.document import read_document
from indexer.reading.page import TextState
from indexer.settings import Settings
from indexer.tagging.effective_pages import BLANK, INSERTED, TOTAL, UNREAD
from indexer.tagging.publication import tag_document
from indexer.trade.evidence import Origin

RIGHT, WRONG, MISSING, EXTRA, CANNOT_TELL = PageState


def sheet(pdf_page, state=TextState.TEXT):
    return PageRecord("c", pdf_page, state, "", "", 612, 792, 0, Origin.DIGITAL, "")


def states(check):
    return [(finding.number, finding.printed_page, finding.state) for finding in check.findings]


def held(lines, marks, revision_date=None, pages=None):
    sheets = pages or [sheet(n) for n in range(1, max((each.pdf_page for each in marks), default=1) + 1)]
    return check_list(lines, [mark(1, "LEP-1", "2031-03-14", ""), *marks], sheets, revision_date)


def test_right_wrong_missing_and_extra():
    check = held(
        [line("401", "2031-03-14"), line("402", "2031-03-14"), line("403", "2028-06-02")],
        [mark(2, "401", "2031-03-14"), mark(3, "402", "2028-06-02"), mark(4, "404", "2028-06-02")],
    )
    assert states(check) == [
        ("32-41-00", "401", RIGHT),
        ("32-41-00", "402", WRONG),
        ("32-41-00", "403", MISSING),
        ("32-41-00", "404", EXTRA),
    ]
    wrong = check.of_page(3)
    assert wrong.why == "this page prints 2 June 2028, the list gives 14 March 2031"
    assert (wrong.listed.evidence.quote, wrong.mark.date.evidence.pdf_page) == ("32-41-00 402 2031-03-14", 3)
    assert check.complete and check.notes == ()


def test_a_page_older_than_the_revision_is_right_when_the_list_gives_it_that_date():
    """Common practice, no source: a page of 1998 in a manual at revision 12 of 2009."""
    lines = [line("1", "1998-05-04"), line("2", "2009-02-10")]
    marks = [mark(1, "LEP-1", "2009-02-10", ""), mark(2, "1", "1998-05-04"), mark(3, "2", "2009-02-10")]
    check = check_list(lines, marks, [sheet(n) for n in (1, 2, 3)], marks[0].date.value)
    assert [finding.state for finding in check.findings] == [RIGHT, RIGHT]
    assert check.of_page(2).why == "dated 4 May 1998, as listed"


def test_a_page_number_alone_is_enough_where_it_names_one_page():
    check = held([line("5-12", "1961-06-01", "")], [mark(2, "5-12", "1961-06-01", "")])
    assert states(check) == [("", "5-12", RIGHT)]
    twice = held(
        [line("1", "1961-06-01", "")], [mark(2, "1", "1961-06-01"), mark(3, "1", "1961-06-01", "32-42-00")]
    )
    assert MISSING in [state for *_, state in states(twice)]  # which of the two is meant cannot be said


def test_page_one_of_two_subjects_is_told_apart_by_its_number():
    check = held(
        [line("1", "2031-03-14", "32-41-00"), line("1", "2028-06-02", "32-42-00")],
        [mark(2, "1", "2031-03-14", "32-41-00"), mark(3, "1", "2031-03-14", "32-42-00")],
    )
    assert [state for *_, state in states(check)] == [RIGHT, WRONG]


def test_a_blank_back_is_not_missing():
    assert states(held([line("402", "2031-03-14", rule=BLANK)], [])) == []


def test_nothing_is_missing_for_sure_where_a_page_has_no_number_that_could_be_read():
    check = held(
        [line("401", "2031-03-14"), line("402", "2031-03-14")],
        [mark(2, "401", "2031-03-14")],
        pages=[sheet(1), sheet(2), sheet(3, TextState.NO_TEXT)],
    )
    assert [state for *_, state in states(check)] == [RIGHT, CANNOT_TELL]
    assert not check.complete and "PDF page 3" in check.notes[0]


def test_lines_that_could_not_be_read_make_the_comparison_incomplete():
    check = held(
        [line("401", "2031-03-14"), line("", "", "", UNREAD, quote="40? Mar 14/31")],
        [mark(2, "401", "2031-03-14"), mark(3, "402", "2031-03-14")],
    )
    assert [state for *_, state in states(check)] == [RIGHT, CANNOT_TELL]
    assert not check.complete and check.notes == ("Not complete: 1 line of the list could not be read.",)


@pytest.mark.parametrize(("total", "complete"), [("1", True), ("2", False)])
def test_a_total_that_does_not_agree_is_said(total, complete):
    lines = [line("401", "2031-03-14"), line("", "", "", TOTAL, quote=f"Total number of pages: {total}")]
    check = held(lines, [mark(2, "401", "2031-03-14")])
    assert check.complete is complete and bool(check.notes) is not complete


def test_what_was_read_by_ocr_is_never_right():
    check = held([line("401", "2031-03-14")], [mark(2, "401", "2031-03-14", origin=Origin.OCR)])
    assert states(check) == [("32-41-00", "401", CANNOT_TELL)]


def test_dates_that_could_not_be_read_leave_it_open():
    check = held([line("401"), line("402", "2031-03-14")], [mark(2, "401", "2031-03-14"), mark(3, "402")])
    assert [state for *_, state in states(check)] == [CANNOT_TELL, CANNOT_TELL]


def test_a_page_listed_with_two_dates_is_left_open():
    lines = [line("401", "2031-03-14"), line("401", "2028-06-02")]
    assert {state for *_, state in states(held(lines, [mark(2, "401", "2031-03-14")]))} == {CANNOT_TELL}


def test_a_list_of_change_numbers_is_held_against_the_changes_pages_print():
    lines = [line("1-1", "", "", revision="2"), line("1-2", "", "", revision="2")]
    marks = [mark(2, "1-1", "", "", revision="2"), mark(3, "1-2", "", "", revision="1")]
    assert [state for *_, state in states(held(lines, marks))] == [RIGHT, WRONG]


@pytest.mark.parametrize(
    ("list_date", "age", "word"),
    [("2029-11-08", -1, "older"), ("2032-01-05", 1, "newer"), ("2031-03-14", 0, "")],
)
def test_a_list_of_another_revision_says_so(list_date, age, word):
    lines, marks = (
        [line("401", "2028-06-02")],
        [mark(1, "LEP-1", list_date, ""), mark(2, "401", "2028-06-02")],
    )
    check = check_list(lines, marks, [sheet(1), sheet(2)], mark(1, "x", "2031-03-14").date.value)
    assert check.age == age and (word in " ".join(check.notes)) is bool(word or not check.notes)


def test_an_old_list_says_nothing_of_a_page_that_came_after_it():
    marks = [mark(1, "LEP-1", "2029-11-08", ""), mark(2, "401", "2031-03-14"), mark(3, "405", "2031-03-14")]
    check = check_list([line("401", "2028-06-02")], marks, [sheet(n) for n in (1, 2, 3)], marks[1].date.value)
    assert [state for *_, state in states(check)] == [CANNOT_TELL, CANNOT_TELL]


def test_the_chart_of_a_change_says_nothing_of_the_pages_it_does_not_put_in():
    check = held(
        [line("1", "2031-03-14", "", INSERTED)], [mark(2, "1", "2031-03-14", ""), mark(3, "4", "", "")]
    )
    assert states(check) == [("", "1", RIGHT)] and not check.whole


def test_no_list_no_check():
    assert check_list([], [mark(1, "401")], [sheet(1)], None) is None


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (("32-41", "401"), ("32-41-00", "401")),
        (("", "LEP-1"), ("", "lep-1")),
        (("", "5\u201312"), ("", "5-12")),
        (("Section V", "5-12"), ("", "5-12")),
    ],
)
def test_one_page_written_two_ways(one, other):
    assert page_key(*one) == page_key(*other)


def test_kept_and_read_back_from_the_catalogue(tmp_path):
    pages = [("32-41-00", "401", "2031-03-14"), ("32-41-00", "402", "2028-06-02")]
    with Catalogue.open(tmp_path / "library", create=True) as catalogue:
        listed = [("32-41-00", "401", "2031-03-14"), ("32-41-00", "402", "2031-03-14")]
        publication = take_manual(catalogue, tmp_path, Manual("6", "2031-03-14", pages, listed))
        check = list_check(catalogue, catalogue.publication(publication))
    assert [finding.state for finding in check.findings] == [RIGHT, WRONG]
    assert (check.listed, check.date.isoformat()) == (2, "2031-03-14")


def test_the_real_pages_of_ac_43_9c_are_as_its_page_control_chart_has_them(tmp_path):
    """FAA AC 43-9C Change 1, as published (tests/data/SOURCES.md): its chart puts in pages 1 thru 3, 5, 7 and
    9 (and 10) of 4/7/17, and those pages print that date; 4, 6 and 8 keep 6/8/98 and are not in the chart."""
    file = Path(__file__).parents[1] / "data" / "real" / "AC-43-9C_CHG_1.pdf"
    document = read_document(file, Settings())
    with Catalogue.open(tmp_path / "library", create=True) as catalogue:
        publication = catalogue.take(file, document, tag_document(document)).publications[0]
        check = list_check(catalogue, catalogue.publication(publication))
    right = [finding.printed_page for finding in check.findings if finding.state is RIGHT]
    assert right == ["2", "3", "5", "7", "9"]
    assert {finding.state for finding in check.findings} == {RIGHT, CANNOT_TELL}
    assert not check.whole and {"4", "6", "8"}.isdisjoint(each.printed_page for each in check.findings)
