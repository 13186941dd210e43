"""The audit trail of source checks: it only grows, and adding to it changes nothing that readers see."""

import datetime
import sqlite3

import pytest

from indexer.library.catalogue import Catalogue
from indexer.library.checks import MOST_LISTED, count_checks, keep_check, kept_check, kept_checks
from indexer.library.problems import CheckUnknown

AT = datetime.datetime(2031, 6, 20, 14, 5, 6, 789000, datetime.UTC)


@pytest.fixture
def catalogue(tmp_path):
    with Catalogue.open(tmp_path / "library", create=True) as opened:
        yield opened


def keep(catalogue, text="IAW MM", answer=None):
    return keep_check(catalogue, text, "N12QZ", "minor", 7, answer or {"citations": []}, AT)


def test_a_check_is_read_back_as_it_was_kept(catalogue):
    answer = {"citations": [{"text": "§ «MM»", "pages": [1, 2], "none": None}], "on": None}
    kept = keep(catalogue, "IAW «MM»", answer)
    assert kept_check(catalogue, kept.id) == kept
    assert (kept.at, kept.text, kept.aircraft, kept.work, kept.generation) == (
        AT,
        "IAW «MM»",
        "N12QZ",
        "minor",
        7,
    )
    assert kept.answer == answer


def test_the_newest_stands_first_and_the_rest_page_by_page(catalogue):
    ids = [keep(catalogue, f"line {number}").id for number in range(5)]
    assert ids == sorted(ids) and len(set(ids)) == 5
    assert [each.id for each in kept_checks(catalogue, 2)] == [ids[4], ids[3]]
    assert [each.id for each in kept_checks(catalogue, 2, 4)] == [ids[0]]
    assert kept_checks(catalogue, 2, 5) == [] and kept_checks(catalogue, 0) == []
    assert len(kept_checks(catalogue, MOST_LISTED + 1)) == 5
    assert count_checks(catalogue) == 5


def test_nothing_in_the_trail_can_be_changed_or_taken_out(catalogue):
    kept = keep(catalogue)
    for statement in (
        "UPDATE source_check SET text = 'other'",
        "UPDATE source_check SET answer_json = '{}' WHERE id = 1",
        "DELETE FROM source_check",
    ):
        with (
            pytest.raises(sqlite3.DatabaseError, match="append only"),
            catalogue.database.writing() as connection,
        ):
            connection.execute(statement)
    assert kept_check(catalogue, kept.id) == kept


def test_asking_makes_no_new_generation_and_changes_nothing_else(catalogue):
    before = catalogue.generation, catalogue.status(), catalogue.history(), catalogue.dump()
    keep(catalogue)
    assert before == (catalogue.generation, catalogue.status(), catalogue.history(), catalogue.dump())


def test_a_check_that_is_not_there_says_so(catalogue):
    with pytest.raises(CheckUnknown) as told:
        kept_check(catalogue, 12)
    assert "12" in told.value.what and told.value.remedy


def test_the_trail_outlives_the_program(tmp_path):
    with Catalogue.open(tmp_path / "library", create=True) as catalogue:
        kept = keep(catalogue)
    with Catalogue.open(tmp_path / "library") as again:
        assert kept_check(again, kept.id) == kept
