"""The revision register: kept, taken back, run out, written and read as CSV."""

import datetime

import pytest
from listed_manual import Manual, take_manual
from making import Made, take

from indexer.library.catalogue import Catalogue
from indexer.library.problems import EntryRefused, EntryUnknown
from indexer.library.register import (
    DIRECTIVE_LIST,
    checks,
    latest_checks,
    overdue,
    record_check,
    undo_check,
)
from indexer.library.register_lists import export_csv, import_csv
from indexer.trade.publication_types import PublicationType as Type

DAY = datetime.date
TODAY, JANUARY_5 = DAY(2032, 1, 10), DAY(2032, 1, 5)


@pytest.fixture
def catalogue(tmp_path):
    with Catalogue.open(tmp_path / "library", create=True) as opened:
        yield opened


@pytest.fixture
def manual(catalogue, tmp_path):
    return take_manual(catalogue, tmp_path, Manual("6", "2031-03-14", [("32-41-00", "401", "2031-03-14")]))


def check(catalogue, publication, revision="6", on=JANUARY_5, **rest):
    given = {
        "date": None,
        "source": "Maker's list of revisions",
        "who": "L. Onda",
        "recheck_days": 90,
        **rest,
    }
    return record_check(catalogue, publication, revision, checked_on=on, today=TODAY, **given)


def test_a_check_is_kept_as_given_and_stands_in_the_history(catalogue, manual):
    kept = check(catalogue, manual, note="by telephone", date=DAY(2031, 3, 14))
    assert checks(catalogue) == [kept]
    assert (kept.revision, kept.who, kept.note) == ("6", "L. Onda", "by telephone")
    assert kept.publication == "D4410-1 Maintenance Manual"
    assert kept.review_due == DAY(2032, 4, 4)  # 90 days after 5 January, of which 2032 has one day more
    (told,) = [each for each in catalogue.history() if each.event == "revision checked"]
    assert "L. Onda" in told.detail and "revision 6 of 2031-03-14" in told.detail


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({"who": " "}, "no name"),
        ({"source": " "}, "no source"),
        ({"source": "--"}, "no source"),
        ({"revision": ""}, "neither revision nor date"),
        ({"on": DAY(2032, 1, 11)}, "has not come yet"),
        ({"recheck_days": 0}, "no interval"),
        ({"recheck_days": 40000}, "no interval"),
    ],
)
def test_what_is_not_complete_is_refused_and_nothing_is_kept(catalogue, manual, given, words):
    with pytest.raises(EntryRefused, match=words):
        check(catalogue, manual, **given)
    assert checks(catalogue) == []


def test_a_check_makes_a_new_state_of_the_library(catalogue, manual):
    before = catalogue.generation
    check(catalogue, manual)
    assert catalogue.generation == before + 1


def test_the_newest_check_of_a_work_counts_and_an_undone_one_does_not(catalogue, manual):
    work = catalogue.publication(manual).work_id
    first = check(catalogue, manual, "5", DAY(2031, 12, 1))
    second = check(catalogue, manual, "6", DAY(2032, 1, 5))
    assert latest_checks(catalogue, [work], TODAY) == {work: second}
    assert latest_checks(catalogue, [work], DAY(2031, 12, 24)) == {work: first}
    undone = undo_check(catalogue, second.id, "B. Marsh", "typed for another manual")
    assert (undone.undone_by, undone.undone_why) == ("B. Marsh", "typed for another manual")
    assert latest_checks(catalogue, [work], TODAY) == {work: first}
    assert len(checks(catalogue)) == 2  # nothing is unsaid
    with pytest.raises(EntryUnknown):
        undo_check(catalogue, second.id, "B. Marsh", "again")


def test_undoing_takes_a_name_and_a_reason(catalogue, manual):
    kept = check(catalogue, manual)
    for who, why in (("", "wrong"), ("B. Marsh", " ")):
        with pytest.raises(EntryRefused):
            undo_check(catalogue, kept.id, who, why)


def test_the_overdue_list_holds_what_has_run_out_the_longest_first(catalogue, manual, tmp_path):
    other = take_manual(
        catalogue, tmp_path, Manual("2", "2030-05-17", [("51-10-00", "1", "2030-05-17")], number="D4410-7")
    )
    check(catalogue, other, "2", DAY(2031, 6, 1), recheck_days=30)
    check(catalogue, manual, "6", DAY(2031, 9, 1), recheck_days=90)
    last_day = DAY(2031, 11, 29)  # 90 days from 1 September: the check counts up to this day
    assert [each.revision for each in overdue(catalogue, last_day)] == ["2"]
    assert [each.revision for each in overdue(catalogue, last_day + datetime.timedelta(1))] == ["2", "6"]
    check(catalogue, manual, "6", DAY(2032, 1, 5))
    assert [each.revision for each in overdue(catalogue, TODAY)] == ["2"]


def test_a_check_outlives_the_copy_and_meets_the_next_revision(catalogue, manual, tmp_path):
    check(catalogue, manual)
    work = catalogue.publication(manual).work_id
    catalogue.remove(catalogue.publication(manual).copy_id)
    assert latest_checks(catalogue, [work], TODAY)[work].revision == "6"
    newer = take_manual(catalogue, tmp_path, Manual("7", "2032-01-02", [("32-41-00", "401", "2032-01-02")]))
    assert catalogue.publication(newer).work_id == work


def test_csv_goes_out_and_comes_back(catalogue, manual, tmp_path):
    check(catalogue, manual, date=DAY(2031, 3, 14), note="seen, with \u201cquotes\u201d")
    record_check(
        catalogue, DIRECTIVE_LIST, "", None, "The authority's list", TODAY, "L. Onda", 14, today=TODAY
    )
    text = export_csv(catalogue)
    assert import_csv(catalogue, text, "B. Marsh", 90, TODAY).already == 2
    for each in checks(catalogue):
        undo_check(catalogue, each.id, "B. Marsh", "to take the list anew")
    taken = import_csv(catalogue, text, "B. Marsh", 90, TODAY)
    assert (taken.added, taken.problems) == (2, ())
    assert export_csv(catalogue) == text


def test_a_list_with_one_wrong_line_is_not_taken_at_all(catalogue, manual):
    text = "publication,revision,source,checked_on\nD4410-1,6,Maker's list,2032-01-05\n"
    text += "D9999-1,2,List,2032-01-05\nD4410-1,6,,2032-01-05\n"
    text += "D4410-1,6,List,05.01.2032\nD4410-1,6,List,2033-01-05\n"
    taken = import_csv(catalogue, text, "B. Marsh", 90, TODAY)
    assert [problem.line for problem in taken.problems] == [3, 4, 5, 6]
    assert (taken.added, checks(catalogue)) == (0, [])


def test_a_name_that_may_be_two_works_is_not_taken(catalogue, tmp_path):
    for maker in ("Corvane", "Dellmore"):
        made = Made(
            f"{maker}.pdf", Type.MAINTENANCE_MANUAL, "MM-2", "1", DAY(2031, 1, 1), maker, "Maintenance Manual"
        )
        take(catalogue, tmp_path, made)
    text = "publication,revision,source,checked_on\nMM-2,1,List,2032-01-05\nDellmore.pdf,1,List,2032-01-05\n"
    (problem,) = import_csv(catalogue, text, "B. Marsh", 90, TODAY).problems
    assert problem.line == 2 and "Corvane.pdf, Dellmore.pdf" in problem.what


def test_lines_without_name_or_interval_take_those_of_the_import(catalogue, manual):
    text = "publication,revision,source,checked_on\nD4410-1,6,Maker's list,2032-01-05\n"
    import_csv(catalogue, text, "B. Marsh", 45, TODAY)
    (kept,) = checks(catalogue)
    assert (kept.who, kept.recheck_days) == ("B. Marsh", 45)
