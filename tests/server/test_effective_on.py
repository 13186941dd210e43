"""What was effective on a day, page by page, among the revisions held."""

import datetime
from dataclasses import replace

import pytest
from revision_shelf import WHEELS, Manual, take_temporary

from indexer.errors import PublicationUnknown
from indexer.library.catalogue import Catalogue
from indexer.library.register import record_check
from indexer.library.relations import relate
from indexer.settings import Settings
from indexer.trade.evidence import Answer, Origin
from server.effective_on import effective_on
from server.opened import OpenedLibrary

DAY = datetime.date
FIVE = Manual("5", "2029-11-08", [(WHEELS, "401", "2028-06-02"), (WHEELS, "402", "2029-11-08")])
SIX = Manual(
    "6",
    "2031-03-14",
    [(WHEELS, "401", "2028-06-02"), (WHEELS, "402", "2031-03-14"), (WHEELS, "403", "2031-03-14")],
)


@pytest.fixture
def shelve(tmp_path):
    """Takes manuals into a fresh library; gives a function from a day to the pages of that day."""
    (tmp_path / "files").mkdir()
    with Catalogue.open(tmp_path / "library", create=True):
        pass
    with OpenedLibrary.open(tmp_path / "library", Settings()) as library:

        def taken(*manuals, temporary=(), check=None):
            ids = [manual.take(library.catalogue, tmp_path / "files") for manual in manuals]
            for number, date, *pages in temporary:
                take_temporary(library.catalogue, tmp_path / "files", number, date, *pages)
            relate(library.catalogue)
            if check:
                revision, date = check
                record_check(
                    library.catalogue, ids[0], revision, date and DAY.fromisoformat(date),
                    "Maker's list", DAY(2032, 1, 5), "L. Onda", 90, today=DAY(2032, 1, 10),
                )  # fmt: skip
            names = dict(zip(ids, (manual.revision or manual.date for manual in manuals), strict=True))

            def on(day):
                answer = effective_on(library, ids[0], DAY.fromisoformat(day))
                on.answer = answer
                return {
                    each.page.printed_page: names[each.page.record.id] if each.page.record else "?"
                    for each in answer.pages
                    if each.page.printed_page != "LEP-1"
                }

            return on

        yield taken


def test_each_page_is_the_one_of_the_newest_revision_of_that_day(shelve):
    on = shelve(FIVE, SIX)
    assert on("2030-06-01") == {"401": "5", "402": "5"}
    assert on("2031-03-14") == {"401": "6", "402": "6", "403": "6"}
    assert on.answer.revision.revision == "6"
    why = {each.page.printed_page: each.page.why for each in on.answer.pages}
    assert why["402"] == (
        "Dated 14 March 2031, in revision 6 of 14 March 2031, as its list of effective pages gives it."
    )


def test_a_page_that_a_later_revision_still_holds_with_its_old_date_was_effective_before(shelve):
    on = shelve(SIX)
    assert on("2030-06-01") == {"401": "6", "402": "?", "403": "?"}
    why = next(each.page.why for each in on.answer.pages if each.page.printed_page == "401")
    assert why == "Dated 2 June 2028, and revision 6 of 14 March 2031 still holds it so."
    assert "the first is of 14 March 2031" in on.answer.notes[0]
    assert set(on("2028-06-01").values()) == {"?"}


def test_a_revision_between_that_is_not_held_leaves_open_what_it_may_have_changed(shelve):
    """5 and 7 are held, 6 is not: page 401 is the same in both, 402 another, and 6 may have had a 403."""
    on = shelve(FIVE, replace(SIX, revision="7"))
    assert on("2030-06-01") == {"401": "5", "402": "?", "403": "?"}
    assert (
        on.answer.notes[0]
        == "Revision 6, between those held, is not held: cannot tell what it changed by that day."
    )


def test_a_later_revision_that_the_register_names_and_nobody_holds_leaves_all_open(shelve):
    on = shelve(SIX, check=("7", "2031-12-01"))
    assert set(on("2031-11-30").values()) == {"6"}
    assert set(on("2031-12-01").values()) == {"?"}
    assert on.answer.notes[0].startswith("Revision 7, which the register names, is not held")


def test_a_check_that_names_what_is_held_changes_nothing(shelve):
    assert set(shelve(SIX, check=("6", "2031-03-14"))("2031-12-01").values()) == {"6"}


def test_a_partial_revision_supplies_its_pages_and_its_list_says_which_others_stay(shelve):
    """Revision 7 is bound with page 402 alone; its list keeps 401 of revision 5 and drops 403."""
    partial = Manual(
        "7",
        "2031-12-01",
        [(WHEELS, "402", "2031-12-01")],
        listed=[(WHEELS, "401", "2028-06-02"), (WHEELS, "402", "2031-12-01"), (WHEELS, "404", "2030-02-02")],
    )
    on = shelve(SIX, partial)
    assert on("2032-01-01") == {"401": "6", "402": "7", "404": "?"}
    why = {each.page.printed_page: each.page.why for each in on.answer.pages}
    assert "lists it with its date, 2 June 2028; bound in revision 6" in why["401"]
    assert "lists it with 2 February 2030, and that page is not held" in why["404"]


def test_without_a_list_nobody_can_tell_whether_a_page_was_taken_out_or_kept(shelve):
    on = shelve(SIX, Manual("7", "2031-12-01", [(WHEELS, "402", "2031-12-01")], listed=()))
    assert on("2032-01-01") == {"401": "?", "402": "7", "403": "?"}


def test_a_page_with_another_date_than_its_list_gives_is_left_open(shelve):
    wrong = replace(SIX, listed=[(WHEELS, "401", "2031-03-14"), *SIX.pages[1:]])
    assert shelve(wrong)("2031-06-01") == {"401": "?", "402": "6", "403": "6"}


def test_a_revision_without_a_date_may_have_been_in_effect_any_day(shelve):
    on = shelve(SIX, Manual("7", "", [(WHEELS, "401", "2031-12-01")], listed=()))
    assert set(on("2032-01-01").values()) == {"?"}
    assert "its date was not read" in on.answer.notes[0]
    earlier = shelve(
        replace(SIX, number="D-2", name="d2"), Manual("5", "", [(WHEELS, "401", "")], listed=(), number="D-2")
    )
    assert set(earlier("2031-06-01").values()) == {"6"}  # 5 came before 6, whenever that was


def test_a_date_read_by_ocr_is_no_date(shelve):
    on = shelve(replace(SIX, date_origin=Origin.OCR))
    assert on("2031-06-01") == {}
    assert "Revision 6 is held here, and its date was not read for sure" in on.answer.notes[0]
    assert "No revision held here prints a date that was read for sure." in on.answer.notes


def test_replaced_copies_still_count_for_the_days_they_were_effective(shelve):
    on = shelve(replace(FIVE, name="mm"), replace(SIX, name="mm"))
    assert on("2030-06-01") == {"401": "5", "402": "5"}
    assert on.answer.held[0].replaced


@pytest.mark.parametrize(
    ("day", "answers"),
    [
        ("2031-06-29", []),  # not issued yet
        ("2031-06-30", [Answer.YES]),
        ("2031-12-31", [Answer.YES]),
    ],
)
def test_a_temporary_revision_counts_from_its_date(shelve, day, answers):
    on = shelve(SIX, temporary=[("32-07", "2031-06-30", (WHEELS, "402"))])
    on(day)
    page = next(each for each in on.answer.pages if each.page.printed_page == "402")
    assert [each.answer for each in page.temporary] == answers
    if answers:
        assert page.temporary[0].words == "TR 32-07 of 30 June 2031 was in force: read that page first."


@pytest.mark.parametrize(
    ("printed", "answer"),
    [
        ("402", Answer.CANNOT_TELL),  # changed by revision 6: it may have taken the change in
        ("401", Answer.CANNOT_TELL),  # not changed by revision 6: nobody can tell whether it was cancelled
    ],
)
def test_a_temporary_revision_before_the_revision_is_left_open(shelve, printed, answer):
    on = shelve(FIVE, SIX, temporary=[("32-05", "2030-01-01", (WHEELS, printed))])
    on("2031-06-01")
    page = next(each for each in on.answer.pages if each.page.printed_page == printed)
    assert [each.answer for each in page.temporary] == [answer]
    on("2030-06-01")
    page = next(each for each in on.answer.pages if each.page.printed_page == printed)
    assert [each.answer for each in page.temporary] == [Answer.YES]


def test_what_was_looked_at_is_always_said(shelve):
    on = shelve(SIX)
    on("2031-06-01")
    assert on.answer.notes[-1].startswith("Only what is held here was looked at")
    fields = on.answer.fields()
    assert fields["counts"] == {"yes": 4, "cannot tell": 0} and fields["pages"][0]["answer"] == "effective"


def test_a_publication_that_is_not_held(tmp_path, shelve):
    shelve(SIX)
    with OpenedLibrary.open(tmp_path / "library", Settings()) as library, pytest.raises(PublicationUnknown):
        effective_on(library, "nothing-1", DAY(2031, 1, 1))
