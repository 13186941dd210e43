"""Number, title, maker, models, revision and date as a publication prints them of itself.

Publications are invented; the circulars are the FAA's (tests/data/SOURCES.md).
"""

import datetime
from pathlib import Path

import pytest
from made_documents import document, document_of_lines, page

from indexer.tagging.identity_maker import models_in
from indexer.tagging.publication import tag_document
from indexer.trade.evidence import Basis

TITLE_PAGES = Path(__file__).parent.parent / "data" / "title_pages"


def identity(*pages, **properties):
    return tag_document(document(*pages, properties=properties))[0].identity


def value(tag):
    return tag.value if tag else None


@pytest.mark.parametrize(
    "file, number, title, date",
    [
        (
            "AC-43-6D.txt",
            "43-6D",
            "Altitude Reporting Equipment and Transponder System Maintenance and Inspection Practices",
            datetime.date(2017, 2, 15),
        ),
        (
            "AC-43-207.txt",
            "43-207",
            "CORRELATION, OPERATION, DESIGN, AND MODIFICATION OF TURBOFAN/JET ENGINE TEST CELLS",
            datetime.date(2002, 12, 26),
        ),
    ],
)
def test_a_circular_is_named_by_its_number_subject_and_date(file, number, title, date):
    found = tag_document(document_of_lines((TITLE_PAGES / file).read_text(encoding="utf-8")))[0].identity
    assert (found.number.value, found.title.value, found.date.value) == (number, title, date)
    assert found.maker is None


def test_a_number_that_a_scan_spoiled_is_not_guessed():
    """AC 43-14 was read as "43-1*"."""
    text = (TITLE_PAGES / "AC-43-14.txt").read_text(encoding="utf-8")
    assert "43-1*" in text
    found = tag_document(document_of_lines(text))[0].identity
    assert value(found.number) in (None, "43-14")


def test_an_accident_s_day_is_not_the_report_s_date():
    text = (TITLE_PAGES / "Report_ERA09IA240.txt").read_text(encoding="utf-8")
    found = tag_document(document_of_lines(text))[0].identity
    assert (found.number.value, found.date) == ("ERA09IA240", None)


TITLE_PAGE = """# MAINTENANCE MANUAL
Manual No. D88-2
Models C88 and C88A
Original issue: March 1, 2020
Revision 6: March 14, 2031
Corrigan Aircraft Company"""


def test_a_manual_s_title_page_gives_all_of_its_identity():
    found = identity(page(1, TITLE_PAGE), page(2, "Text"))
    assert found.number.value == "D88-2"
    assert found.maker.value == "Corrigan Aircraft Company"
    assert [model.value for model in found.models] == ["C88", "C88A"]
    assert (found.revision.value, found.date.value) == ("6", datetime.date(2031, 3, 14))
    assert found.revision.evidence.quote == "Revision 6: March 14, 2031"
    assert found.revision.evidence.pdf_page == 1
    assert found.revision.evidence.box is not None


@pytest.mark.parametrize(
    "lines, revision, date",
    [
        ("Revision 10\nJune 1, 2030\nRevision 9\nJune 1, 2029", "10", datetime.date(2030, 6, 1)),
        ("ORIGINAL ISSUE\nMay 4, 1999", "original", datetime.date(1999, 5, 4)),
        ("Rev. C dated 12 May 2004", "C", datetime.date(2004, 5, 12)),
        ("Issued March 1, 1954\nRevised November 1, 1958", None, datetime.date(1958, 11, 1)),
        ("Supersedes Revision 5 dated May 4, 1999", None, None),
        ("Date 5/12/04", None, None),  # may be 5 December
    ],
)
def test_revision_and_date(lines, revision, date):
    found = identity(page(1, f"# MAINTENANCE MANUAL\n{lines}"))
    assert (value(found.revision), value(found.date)) == (revision, date)


def test_heads_that_print_another_revision_stay_beside_the_title_page_s():
    pages = [page(number, "Text", foot=["Rev 5"]) for number in (2, 3, 4)]
    found = identity(page(1, "# MAINTENANCE MANUAL\nRevision 6"), *pages)
    assert found.revision.value == "6"
    assert [other.value for other in found.revision.others] == ["5"]


def test_an_older_date_in_a_foot_is_no_disagreement_and_a_newer_one_is():
    def dated(foot):
        return identity(
            page(1, "# MAINTENANCE MANUAL\nRevision 6\nMarch 14, 2031"), page(2, "Text", foot=[foot])
        ).date

    assert dated("Jun 02/2028").others == ()
    assert [other.value for other in dated("Jun 02/2032").others] == [datetime.date(2032, 6, 2)]


@pytest.mark.parametrize(
    "lines, number",
    [
        ("# SERVICE BULLETIN\nService Bulletin No. C88-32-0012", "C88-32-0012"),
        ("# SERVICE BULLETIN\nSB 32-0012 Rev B", "SB 32-0012"),
        ("# SERVICE BULLETIN No. 17", "17"),
        ("# SERVICE LETTER\nService Letter No. SL-0219", "SL-0219"),
        ("# TEMPORARY REVISION No. 32-07\nMaintenance Manual D88-2", "32-07"),
        ("# TYPE CERTIFICATE DATA SHEET NO. A99ZZ", "A99ZZ"),
        ("# AIRPLANE FLIGHT MANUAL SUPPLEMENT No. 4\nSupplement number F88-S4", "F88-S4"),
        ("# SERVICE BULLETIN\nReference: Service Bulletin No. 12", None),
        ("# MAINTENANCE MANUAL\nSupersedes Manual No. D88-1", None),
        ("# MAINTENANCE MANUAL\n1954", None),
    ],
)
def test_a_number_is_taken_only_where_the_paper_gives_it_to_itself(lines, number):
    assert value(identity(page(1, lines)).number) == number


@pytest.mark.parametrize(
    "text, models",
    [
        ("Model A330-301, -321, and -322 airplanes", ["A330-301", "A330-321", "A330-322"]),
        ("MODELS C88 AND C88A", ["C88", "C88A"]),
        ("Model Tern T-4", ["T-4"]),
        ("Model years of service", []),
        ("The 88 series", []),
    ],
)
def test_models_after_their_word(text, models):
    assert models_in(text) == models


def test_models_before_their_serial_numbers():
    body = "# SERVICE BULLETIN No. 14\nEffectivity:\nC88 and C88A airplanes, serial numbers 88-001 and on."
    assert [model.value for model in identity(page(1, body)).models] == ["C88", "C88A"]


def test_the_stored_title_stands_beside_the_printed_one():
    found = identity(page(1, TITLE_PAGE), Title="Scan of a binder")
    assert found.title.value == "MAINTENANCE MANUAL"
    (other,) = found.title.others
    assert (other.value, other.evidence.basis) == ("Scan of a binder", Basis.DOCUMENT_PROPERTIES)


def test_a_bulletin_set_without_a_subject_label_is_named_by_its_largest_line():
    body = "SERVICE BULLETIN No. 14\n# BRAKES - REPLACEMENT OF TIE BOLTS\nATA 32\nText"
    assert identity(page(1, body)).title.value == "BRAKES - REPLACEMENT OF TIE BOLTS"


@pytest.mark.parametrize(
    "lines, number",
    [
        ("# MAINTENANCE MANUAL C88", None),  # the model stands there, not a number
        ("# MAINTENANCE MANUAL D88-2-11", "D88-2-11"),
        ("# COMPONENT MAINTENANCE MANUAL\nPart No. 4410-1\n32-42-08", "32-42-08"),
        ("# INSTRUCTIONS FOR CONTINUED AIRWORTHINESS\nSTC SA999ZZ\nDocument No. ICA-88-01", "ICA-88-01"),
        ("# SPECIAL AIRWORTHINESS INFORMATION BULLETIN\nSAIB: CE-20-01", "CE-20-01"),
    ],
)
def test_models_and_part_numbers_are_not_taken_for_the_paper_s_own_number(lines, number):
    assert value(identity(page(1, lines)).number) == number
