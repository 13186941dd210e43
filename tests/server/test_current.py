"""Whether a publication or a page is known to be current. Facts: 14 CFR 43.13(a), 145.109(d)."""

import datetime
from dataclasses import replace
from pathlib import Path

import pytest
from revision_shelf import WHEELS, Manual, take_temporary

from indexer.library.catalogue import Catalogue
from indexer.library.effective_pages import list_check
from indexer.library.register import DIRECTIVE_LIST, record_check, undo_check
from indexer.library.register_records import CurrencyState
from indexer.library.relations import relate
from indexer.library.works import DIRECTIVES
from indexer.reading.document import read_document
from indexer.settings import Settings
from indexer.tagging.publication import tag_document
from indexer.trade.evidence import Basis, Evidence, Origin, Tag
from server.current import Current, currency_of, current_words, identity_doubt, kept_list_check, page_currency

CURRENT, SUPERSEDED, EXPIRED, UNKNOWN = CurrencyState
PDFS = Path(__file__).parents[2] / "sample_docs" / "pdf"
DAY = datetime.date
TODAY, CHECKED = DAY(2032, 1, 10), DAY(2032, 1, 5)
PAGES = [(WHEELS, "401", "2031-03-14"), (WHEELS, "402", "2028-06-02"), (WHEELS, "403", "2031-03-14")]
SIX = Manual("6", "2031-03-14", PAGES)


@pytest.fixture
def catalogue(tmp_path):
    (tmp_path / "files").mkdir()
    with Catalogue.open(tmp_path / "library", create=True) as opened:
        yield opened


@pytest.fixture
def take(catalogue, tmp_path):
    def taken(*manuals):
        ids = [manual.take(catalogue, tmp_path / "files") for manual in manuals]
        relate(catalogue)
        return ids[0] if len(ids) == 1 else ids

    return taken


def check(catalogue, publication, revision="6", date="2031-03-14", on=CHECKED, days=90):
    day = DAY.fromisoformat(date) if date else None
    return record_check(
        catalogue, publication, revision, day, "Maker's list", on, "L. Onda", days, today=TODAY
    )


def found(catalogue, publication, on=TODAY):
    return currency_of(catalogue, catalogue.publication(publication), on)


def page(catalogue, publication, pdf_page, on=TODAY):
    return page_currency(catalogue, catalogue.publication(publication), pdf_page, on)


def test_a_file_alone_never_proves_that_it_is_current(catalogue, take):
    finding = found(catalogue, take(SIX))
    assert (finding.state, finding.why) == (UNKNOWN, "Nobody has checked which revision is current.")


def test_current_as_checked_says_by_whom_against_what_when_and_until_when(catalogue, take):
    publication = take(SIX)
    check(catalogue, publication)
    finding = found(catalogue, publication)
    assert finding.state is CURRENT
    assert finding.why == (
        "Revision 6 of 14 March 2031 is current per Maker's list on 5 January 2032 by L. Onda. "
        "Review due 4 April 2032."
    )
    assert finding.check.revision == "6"


def test_revision_7_announced_and_6_on_the_shelf(catalogue, take):
    """14 CFR 145.109(d): data must be current when the work is done; a superseded revision is not."""
    publication = take(SIX)
    check(catalogue, publication, "7", "")
    finding = found(catalogue, publication)
    assert finding.state is SUPERSEDED
    assert finding.why == (
        "Revision 7 is current per Maker's list on 5 January 2032 by L. Onda; "
        "held here: revision 6 of 14 March 2031."
    )


@pytest.mark.parametrize(("on", "state"), [(DAY(2032, 4, 3), CURRENT), (DAY(2032, 4, 4), EXPIRED)])
def test_a_check_counts_until_its_review_is_due(catalogue, take, on, state):
    """90 days from 5 January 2032 is 4 April 2032."""
    publication = take(SIX)
    check(catalogue, publication)
    assert found(catalogue, publication, on).state is state
    if state is EXPIRED:
        assert "A new check was due on 4 April 2032." in found(catalogue, publication, on).why


def test_a_check_says_nothing_of_the_days_before_it(catalogue, take):
    publication = take(SIX)
    check(catalogue, publication)
    assert found(catalogue, publication, DAY(2032, 1, 4)).state is UNKNOWN


def test_an_undone_check_does_not_count(catalogue, take):
    publication = take(SIX)
    undo_check(catalogue, check(catalogue, publication).id, "B. Marsh", "of another manual")
    assert found(catalogue, publication).state is UNKNOWN


def test_a_later_revision_stays_later_when_the_check_has_run_out(catalogue, take):
    publication = take(SIX)
    check(catalogue, publication, "7", "")
    assert found(catalogue, publication, DAY(2033, 1, 1)).state is SUPERSEDED


def test_a_newer_file_beside_a_check_of_the_older_one_is_a_conflict_and_both_are_said(catalogue, take):
    older, newer = take(SIX, Manual("7", "2031-12-01", PAGES))
    check(catalogue, older)
    six, seven = found(catalogue, older), found(catalogue, newer)
    assert six.state is SUPERSEDED and seven.state is UNKNOWN
    assert "revision 7 of 1 December 2031" in six.why and "do not agree" in six.why
    assert "Revision 6 of 14 March 2031 is current per" in seven.why
    assert "held here: revision 7 of 1 December 2031" in seven.why and "do not agree" in seven.why


def test_a_newer_file_held_supersedes_without_any_check(catalogue, take):
    older, newer = take(SIX, Manual("7", "2031-12-01", PAGES))
    assert (found(catalogue, older).state, found(catalogue, newer).state) == (SUPERSEDED, UNKNOWN)


def test_a_replaced_copy_is_superseded(catalogue, take):
    longer = [*PAGES, (WHEELS, "404", "2031-12-01")]
    older, _ = take(replace(SIX, name="mm"), Manual("7", "2031-12-01", longer, name="mm"))
    assert catalogue.publication(older).replaced
    assert found(catalogue, older).state is SUPERSEDED


@pytest.mark.parametrize(
    ("revision", "date", "state"),
    [
        ("6", "2031-03-14", CURRENT),
        ("6", "", CURRENT),
        ("Rev 6", "", CURRENT),
        ("", "2031-03-14", CURRENT),
        ("6", "2031-04-01", UNKNOWN),  # the same revision with another date
        ("5", "", UNKNOWN),  # the file is later than the register
        ("", "2030-01-01", UNKNOWN),
        ("7", "", SUPERSEDED),
        ("", "2031-12-01", SUPERSEDED),
        ("7", "2030-01-01", UNKNOWN),  # mark and date do not agree on which is later
        ("B", "", UNKNOWN),  # letters and numbers do not sort together
        ("B", "2031-12-01", UNKNOWN),
    ],
)
def test_only_the_same_revision_for_sure_is_current(catalogue, take, revision, date, state):
    publication = take(SIX)
    check(catalogue, publication, revision, date)
    assert found(catalogue, publication).state is state


def test_a_revision_read_by_ocr_is_never_current(catalogue, take):
    publication = take(replace(SIX, origin=Origin.OCR))
    check(catalogue, publication)
    finding = found(catalogue, publication)
    assert finding.state is UNKNOWN and "read by OCR" in finding.why


def test_a_file_that_prints_two_revisions_is_never_current(catalogue, take):
    publication = take(replace(SIX, others=("5",)))
    check(catalogue, publication)
    assert found(catalogue, publication).state is UNKNOWN


def test_a_file_that_prints_two_dates_is_not_matched_by_its_date(catalogue, take):
    publication = take(replace(SIX, other_dates=("2030-01-01",)))
    check(catalogue, publication, "6", "")
    assert found(catalogue, publication).state is CURRENT  # by its revision
    check(catalogue, publication, "", "2031-03-14", on=DAY(2032, 1, 6))
    finding = found(catalogue, publication)
    assert finding.state is UNKNOWN and "14 March 2031 and also 1 January 2030" in finding.why


@pytest.mark.parametrize("basis", [Basis.DOCUMENT_PROPERTIES, Basis.INFERRED, Basis.OUTLINE])
def test_a_revision_that_is_not_printed_is_never_matched(catalogue, take, basis):
    record = catalogue.publication(take(SIX))
    guessed = Tag("6", Evidence(basis, "test", "6"))
    assert not identity_doubt(record)
    assert "not printed" in identity_doubt(
        replace(record, identity=replace(record.identity, revision=guessed))
    )


def test_a_file_without_revision_and_date_is_not_matched(catalogue, take):
    publication = take(replace(SIX, revision="", date=""))
    check(catalogue, publication)
    assert found(catalogue, publication).state is UNKNOWN


# Pages -----------------------------------------------------------------------------------------------------


def test_an_old_page_that_the_list_gives_is_current_within_the_revision(catalogue, take):
    """Common practice, no source: page of 1998, manual at revision 12 of 2009, the list says 1998."""
    pages = [(WHEELS, "401", "1998-05-04"), (WHEELS, "402", "2009-02-10")]
    publication = take(Manual("12", "2009-02-10", pages))
    unchecked = page(catalogue, publication, 2)
    assert unchecked.state is UNKNOWN  # within revision 12; whether 12 is current, nobody has checked
    words = "This page is dated 4 May 1998, as listed in the list of effective pages of revision 12."
    assert unchecked.why == f"{words} Nobody has checked which revision is current."
    check(catalogue, publication, "12", "2009-02-10")
    checked = page(catalogue, publication, 2)
    assert checked.state is CURRENT and checked.why.startswith(words)


def test_a_page_older_than_its_list_says_is_superseded(catalogue, take):
    listed = [(WHEELS, "401", "2031-03-14"), (WHEELS, "402", "2031-03-14"), (WHEELS, "403", "2031-03-14")]
    publication = take(replace(SIX, listed=listed))
    check(catalogue, publication)
    finding = page(catalogue, publication, 3)
    assert finding.state is SUPERSEDED
    assert "this page prints 2 June 2028, the list gives 14 March 2031" in finding.why
    assert page(catalogue, publication, 2).state is CURRENT
    assert "1 page with another date than listed" in found(catalogue, publication).why


@pytest.mark.parametrize(
    "manual",
    [
        replace(SIX, listed=PAGES[:2]),  # page 403 is not on the list
        replace(SIX, listed=[*PAGES[:2], (WHEELS, "403", "2030-01-01")]),  # later than the list says
        replace(SIX, pages=[*PAGES[:2], (WHEELS, "403", "")], listed=PAGES),  # prints no date
        replace(SIX, list_date="2029-11-08", pages=[*PAGES[:2], (WHEELS, "403", "2028-06-02")]),  # old list
        replace(SIX, list_date="2032-01-02"),  # the list is of a later revision than the title page
    ],
)
def test_a_page_that_its_list_does_not_bear_out_is_not_current(catalogue, take, manual):
    publication = take(manual)
    check(catalogue, publication)
    assert page(catalogue, publication, 4).state is UNKNOWN


def test_without_a_list_a_page_is_as_current_as_its_manual_and_it_is_said(catalogue, take):
    publication = take(replace(SIX, listed=()))
    check(catalogue, publication)
    finding = page(catalogue, publication, 2)
    assert finding.state is CURRENT and "no list of effective pages was read here" in finding.why


def test_a_temporary_revision_in_force_stands_before_the_page(catalogue, take, tmp_path):
    publication = take(SIX)
    take_temporary(catalogue, tmp_path / "files", "32-07", "2031-06-30", (WHEELS, "401"))
    relate(catalogue)
    check(catalogue, publication)
    finding = page(catalogue, publication, 2)
    assert finding.state is SUPERSEDED
    assert finding.why.startswith("Overridden by TR 32-07: read that page first.")
    assert page(catalogue, publication, 3).state is CURRENT
    assert found(catalogue, publication).state is CURRENT


def test_a_temporary_revision_that_may_be_taken_in_leaves_the_page_open(catalogue, take, tmp_path):
    publication = take(SIX)
    take_temporary(catalogue, tmp_path / "files", "32-05", "2030-06-30", (WHEELS, "401"))
    relate(catalogue)
    check(catalogue, publication)
    finding = page(catalogue, publication, 2)
    assert finding.state is UNKNOWN and "cannot tell whether the manual already includes it" in finding.why


def test_a_passage_is_as_current_as_the_pages_it_stands_on(catalogue, take, tmp_path):
    publication = take(replace(SIX, listed=[(WHEELS, "401", "2031-03-14"), (WHEELS, "402", "2031-03-14")]))
    check(catalogue, publication)
    record = catalogue.publication(publication)
    current = Current(catalogue, TODAY)
    states = [current.of_passage(record, passage).state for passage in catalogue.passages_of(publication)]
    assert states == [CURRENT, SUPERSEDED, UNKNOWN]


# Directives ------------------------------------------------------------------------------------------------


def test_directives_are_unknown_by_default_and_say_what_was_looked_at(library, ids):
    directive = library.catalogue.publication(ids["directive"])
    finding = currency_of(library.catalogue, directive, TODAY)
    assert finding.state is UNKNOWN
    assert finding.why.startswith("Among those held here: effective since 1 May 2031.")
    assert finding.why.endswith("Nobody has checked the authority's list of directives.")


def test_a_look_at_the_authoritys_list_is_said_and_proves_no_single_directive(shelf):
    opened, _ = shelf
    directive = next(each for each in opened.publications() if each.type in DIRECTIVES)
    record_check(
        opened.catalogue, DIRECTIVE_LIST, "", None, "Authority's page", CHECKED, "L. Onda", 14, today=TODAY
    )
    finding = currency_of(opened.catalogue, directive, TODAY)
    assert finding.state is UNKNOWN and "looked at on 5 January 2032 by L. Onda" in finding.why
    late = currency_of(opened.catalogue, directive, DAY(2032, 2, 1))
    assert "a new look was due on 19 January 2032" in late.why


def test_a_directive_that_another_held_here_replaces_is_superseded_from_that_day(catalogue):
    """AD 2029-22-08 is replaced in sample_docs by AD 2032-03-05: see sample_docs/relations_truth.csv."""
    old, new = (
        catalogue.take(path, document, tag_document(document)).publications[0]
        for path in (PDFS / "ad-2029-22-08.pdf", PDFS / "ad-2032-03-05.pdf")
        for document in [read_document(path, Settings())]
    )
    relate(catalogue)
    old, new = catalogue.publication(old), catalogue.publication(new)
    day = new.directive.effective.value
    assert currency_of(catalogue, old, day).state is SUPERSEDED
    assert "2032-03-05" in currency_of(catalogue, old, day).why
    assert currency_of(catalogue, old, day - datetime.timedelta(1)).state is UNKNOWN
    assert currency_of(catalogue, new, day).state is UNKNOWN
    before = old.directive.effective.value - datetime.timedelta(1)  # not yet, and replaced by what is held
    assert currency_of(catalogue, old, before).state is SUPERSEDED


# Cost ------------------------------------------------------------------------------------------------------


def test_the_register_is_read_once_for_many_publications(catalogue, take):
    publications = [
        catalogue.publication(each)
        for each in take(*(replace(SIX, number=f"D-{n}", name=f"d-{n}") for n in range(5)))
    ]
    current = Current(catalogue, TODAY)
    current.prepare(publications)
    asked = []
    with catalogue.reading() as connection:
        connection.set_trace_callback(lambda sql: asked.append(sql) if "revision_check" in sql else None)
        states = {current.of_publication(each).state for each in publications}
        connection.set_trace_callback(None)
    assert states == {UNKNOWN} and asked == []


def test_a_list_is_held_against_its_pages_once_while_the_documents_stay_the_same(catalogue, take):
    record = catalogue.publication(take(SIX))
    first = kept_list_check(catalogue, record)
    assert kept_list_check(catalogue, record) is first
    check(catalogue, record.id)
    assert kept_list_check(catalogue, record) is first == list_check(catalogue, record)
    take(replace(SIX, number="D-2", name="d-2"))
    again = kept_list_check(catalogue, record)
    assert again is not first and again == first
    other_day = replace(record.identity.date, value=DAY(2030, 1, 1))
    other_date = replace(record, identity=replace(record.identity, date=other_day))
    assert kept_list_check(catalogue, other_date) == list_check(catalogue, other_date) != first


def test_on_the_screen_what_is_said_already_is_not_said_twice_and_the_warning_stays(
    catalogue, take, tmp_path
):
    publication = take(SIX)
    take_temporary(catalogue, tmp_path / "files", "32-07", "2031-06-30", (WHEELS, "401"))
    relate(catalogue)
    finding = page(catalogue, publication, 2)
    whole = current_words(finding)
    assert whole.alarm and whole.words.startswith("Superseded. Overridden by TR 32-07: read that page first.")
    rest = current_words(finding, ["Overridden by TR 32-07: read that page first."])
    assert rest.words.startswith("As for the revision: ") and "Overridden" not in rest.words
    assert current_words(found(catalogue, publication)).words == (
        "Not known to be current. Nobody has checked which revision is current."
    )
