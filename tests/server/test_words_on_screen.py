"""Standing in words: approval is said only where words that grant it are quoted; a habit is no finding."""

import datetime
import itertools
from collections import namedtuple

import pytest

from indexer.tagging.tags import Standing, StandingValue
from indexer.trade.evidence import Basis, Evidence, Origin
from indexer.trade.publication_types import PublicationType
from server.words import (
    CAUTIONS,
    basis_words,
    date_words,
    not_searched_words,
    numbered,
    publication_kind,
    publication_name,
    standing_words,
)

QUOTED = Evidence(Basis.PRINTED, "approval words", "FAA APPROVED 12 May 2031", 3)


@pytest.mark.parametrize(
    ("value", "lead"),
    [
        (StandingValue.APPROVED, "Approved data"),
        (StandingValue.ACCEPTABLE, "Acceptable data"),
        (StandingValue.INFORMATION, "Information only"),
        (StandingValue.BLOCKED, "Blocked"),
        (StandingValue.UNDETERMINED, "Not determined"),
    ],
)
def test_each_standing_has_its_plain_word_and_its_reason(value, lead):
    words = standing_words(Standing(value, StandingValue.ACCEPTABLE, QUOTED, "page"))
    assert words.lead == lead
    assert words.why and words.quote == "FAA APPROVED 12 May 2031" and words.quote_place == "PDF page 3"


@pytest.mark.parametrize("usual", StandingValue)
def test_a_usual_standing_never_reads_like_a_finding(usual):
    words = standing_words(Standing(StandingValue.UNDETERMINED, usual))
    assert words.lead == "Not determined"
    assert "no approval words found here" in words.why.casefold()
    if usual in (StandingValue.APPROVED, StandingValue.ACCEPTABLE, StandingValue.INFORMATION):
        assert words.why.startswith("Usually") and "(by type)" in words.why


@pytest.mark.parametrize(
    ("value", "usual"),
    [pair for pair in itertools.product(StandingValue, StandingValue) if pair[0] != "approved"],
)
def test_approved_data_is_said_of_nothing_else(value, usual):
    words = standing_words(Standing(value, usual, QUOTED, "page"))
    assert "approved data" not in " ".join((words.lead, words.why, *words.notes)).casefold()


def test_words_read_by_ocr_are_said_to_be():
    read = Evidence(Basis.PRINTED, "approval words", "FAA APPROVED", 3, origin=Origin.OCR)
    assert "read by OCR" in standing_words(Standing(StandingValue.APPROVED, StandingValue.APPROVED, read)).why
    assert basis_words(read) == "printed, read by OCR"


def test_a_directive_is_named_where_it_requires():
    tied = Evidence(Basis.LINKED_DIRECTIVE, "tie", "do Part 3", 1, source="AD 2031-04-07")
    words = standing_words(
        Standing(StandingValue.APPROVED, StandingValue.ACCEPTABLE, tied, "passage", True, ("Only Part 3.",))
    )
    assert words.notes == ("Required by AD 2031-04-07.", "Only Part 3.")
    assert "AD 2031-04-07" in words.why
    assert words.quote_place == "PDF page 1 of AD 2031-04-07"


@pytest.mark.parametrize(
    ("kind", "number", "shown"),
    [
        (PublicationType.SERVICE_BULLETIN, "32-0012", "SB 32-0012"),
        (PublicationType.SERVICE_BULLETIN, "SB 32-0012", "SB 32-0012"),
        (PublicationType.SERVICE_BULLETIN, "ASB 32-0012", "ASB 32-0012"),
        (PublicationType.AIRWORTHINESS_DIRECTIVE, "2031-04-07", "AD 2031-04-07"),
        (PublicationType.MAINTENANCE_MANUAL, "OW12-MM", "OW12-MM"),
        (None, "77", "77"),
        (PublicationType.SERVICE_BULLETIN, "", ""),
    ],
)
def test_a_number_is_called_as_the_trade_calls_it(kind, number, shown):
    assert numbered(kind, number) == shown


Called = namedtuple("Called", "type number title file models")


def name(kind, number, title, models=()):
    return publication_name(Called(kind, number, title, "a.pdf", models))


def test_a_title_that_any_airplanes_manual_has_is_told_from_others():
    manual = PublicationType.SERVICE_MANUAL
    assert name(manual, "", "SERVICE MANUAL", ("H-14", "H-14B")) == "SERVICE MANUAL, H-14, H-14B"
    assert name(manual, "", "SERVICE MANUAL") == "SERVICE MANUAL (a.pdf)"
    assert name(manual, "", "Shop Manual", tuple("ABCD")) == "Shop Manual (a.pdf)"
    assert name(manual, "", "H-14 Service Manual", ("H-14",)) == "H-14 Service Manual"
    assert name(manual, "KM-12", "SERVICE MANUAL", ("H-14",)) == "KM-12: SERVICE MANUAL"


def test_a_publication_is_called_by_what_it_has():
    bulletin = PublicationType.SERVICE_BULLETIN
    assert name(bulletin, "32-0012", "Brakes") == "SB 32-0012: Brakes"
    assert name(bulletin, "", "Brakes") == "Brakes"
    assert name(bulletin, "32-0012", "") == "SB 32-0012"
    assert name(None, "", "") == "a.pdf"
    assert publication_kind(None, "", None) == "Type of publication not determined, no revision found"
    assert (
        publication_kind(bulletin, "2", datetime.date(2031, 3, 4))
        == "Service bulletin, revision 2, 4 March 2031"
    )
    assert publication_kind(bulletin, "original", None) == "Service bulletin, original"
    entered = publication_kind(bulletin, "2", None, ("type", "number", "revision"))
    assert entered == "Service bulletin, revision 2 (type, number and revision entered by the shop)"


def test_a_date_cannot_be_read_two_ways():
    assert date_words(datetime.date(2031, 4, 3)) == "3 April 2031"


def test_what_was_not_searched_is_said_in_words():
    assert not_searched_words(0, 0, True) == ""
    assert "1 page has no text" in not_searched_words(1, 0, False)
    assert "12 pages have" in not_searched_words(12, 5, False)
    assert "5 passages have no chapter number" in not_searched_words(0, 5, True)
    assert not_searched_words(0, 5, False) == ""  # only a chapter filter leaves them out


def test_all_eight_cautions_are_printed():
    said = " ".join(CAUTIONS)
    assert len(CAUTIONS) == 8
    for point in (
        "major or minor",
        "temporary revisions",
        "none applies",
        "not approved",
        "scans",
        "United States",
    ):
        assert point in said
