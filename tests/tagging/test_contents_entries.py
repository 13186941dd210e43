"""Printed contents pages: their entries, and the page that each of them means.

Outside check: the contents pages of FAA AC 43-207 and AC 43-210A (tests/data/SOURCES.md). The entries were
copied from the printed page, and the page of the file that bears each heading was looked up in the text that
pdftotext gives.
"""

from functools import cache
from pathlib import Path

import pytest
from made_documents import page

from indexer.reading.document import read_document
from indexer.settings import Settings
from indexer.tagging.contents_entries import contents_entries, contents_pages, resolve_entries, resolve_entry

REAL = Path(__file__).parent.parent / "data" / "real"
SAMPLES = Path(__file__).parent.parent.parent / "sample_docs" / "pdf"

AC_43_207 = """
CHAPTER 1|INTRODUCTION|1|5
100|General|1|5
101|Background|1|5
102|Calibration and Correlation Standards and Methods|2|6
103|Alternative Correlation Methods|2|6
104|Definitions of Terms|3|7
CHAPTER 2|CONFIGURATION AND CONSTRUCTION|5|9
200|General Design Considerations|5|9
201|Test Cell Configurations|5|9
Figure 2-1|Test Cell Configuration: "L" Type|6|10
Figure 2-2|Test Cell Configuration: "U" Type|7|11
Figure 2-3|Test Cell Configuration: Folded Inlet Type|7|11
202|Engine Test Cell Major Components/Systems|8|12
Figure 2-4|Typical Thrust Mount Design|9|13
CHAPTER 3|MEASUREMENT SYSTEMS, CALIBRATION, AND CORRELATION|11|15
300|Measurement Systems|11|15
301|Instrument Calibration|12|16
302|Thrust Calibration|12|16
303|Factors Influencing Correlation|13|17
304|Performance Measurement|13|17
305|Factors Affecting Performance|14|18
306|Data Acquisition|18|22
CHAPTER 4|TEST CELL CORRELATION|21|25
400|Correlation Accuracy Assurance|21|25
401|Correlation Procedures|22|26
402|Correlation Report|29|33
403|Maintaining Correlation|30|34
404|Facility Operations Manual|33|37
APPENDIX 1|RELATED TEST CELL PUBLICATIONS AND MATERIALS (2 pages)|1|39
APPENDIX 2|ENGINE TEST CELL APPROVAL SCHEDULE FLOW CHART (1 page)|1|41
APPENDIX 3|SAMPLE CORRELATION PLOTS (1 page)|1|43
APPENDIX 4|GLOSSARY OF ACRONYMS AND ABBREVIATIONS (1 page)|1|45
"""

# Pages 13 and 14 (figures 3-1 and 3-2) are not in the copy; those behind them stand two places earlier.
AC_43_210A = """
1|Introduction|1|4
1.1|Purpose|1|4
1.2|Applicability|1|4
1.3|Cancellation|1|4
1.4|Regulatory Basis|1|4
1.5|Repair and Alteration Classification|1|4
1.6|Responsibility for Obtaining Data|2|5
1.7|General Information|2|5
2|Data|2|5
2.1|Definition of Data as it Relates to a Repair or Alteration|2|5
2.2|Classification of Technical Data|2|5
3|Field Approval Process And Data Approval|6|9
3.1|General Information|6|9
3.2|Conduct Research|6|9
3.3|Evaluate the Data|8|11
3.4|Perform Repair or Alteration|12|15
4|Flight Manual Supplements|15|16
4.1|General Information|15|16
4.2|Aircraft Flight Manuals|15|16
4.3|Manual Supplements|15|16
4.4|Format and Content|15|16
4.5|Supplement Information Approval|16|17
4.6|Aircraft Certification Office Approval Process|17|18
4.7|Additional AFMS Considerations|17|18
5|Maintenance Information|18|19
5.1|Purpose of Maintenance Information for a Major Repair or Major Alteration|18|19
5.2|Benefits of Providing Maintenance Information for a Major Repair or Major Alteration|18|19
5.3|Maintenance Information as Part of the Major Repair or Major Alteration Data Package|18|19
5.4|Maintenance Information Under the Civil Air Regulations (CAR)|19|20
5.5|Maintenance Information Development|19|20
5.6|Maintenance Information Content|19|20
6|Administrative Matters|22|23
6.1|Acronyms|22|23
6.2|Related FAA Orders and Advisory Circulars|23|24
6.3|Obtaining Copies of Referenced Documents and This AC|24|25
Appendix A|Instructions for Completing the Field Approval Checklist|A-1|26
Appendix B|Instructions for Completing the Compliance Checklist|B-1|31
Figure 2-1|Possible Resources for Approved Data Relevant to Major Repairs or Major Alterations|5|8
Figure 3-1|Field Approval Process|13|
Figure 3-2|Determination of Major or Minor Alteration or Repair|14|
Figure 5-1|Major Repair or Major Alteration Maintenance Information Checklist|21|22
Figure A-1|Field Approval Checklist|A-3|28
Figure B-1|Compliance Checklist Format|B-1|31
"""

PAPERS = {"AC-43-207_pages_1-45.pdf": AC_43_207, "AC_43-210A_pages_1-15_18-34.pdf": AC_43_210A}


def rows(text):
    return [tuple(line.split("|")) for line in text.strip().splitlines()]


@cache
def pages_of(path):
    return read_document(path, Settings()).pages


@pytest.mark.parametrize("paper", PAPERS)
def test_every_entry_of_a_circular_is_read_as_printed(paper):
    found = contents_entries(pages_of(REAL / paper))
    assert [(each.number, each.title, each.page) for each in found] == [
        row[:3] for row in rows(PAPERS[paper])
    ]


@pytest.mark.parametrize("paper", PAPERS)
def test_every_entry_of_a_circular_leads_to_the_page_that_bears_its_heading(paper):
    pages = pages_of(REAL / paper)
    targets = resolve_entries(contents_entries(pages), pages)
    assert [str(target.pdf_page) if target else "" for target in targets] == [
        row[3] for row in rows(PAPERS[paper])
    ]


def test_only_one_title_of_the_circulars_stands_otherwise_over_its_text():
    """AC 43-210A: "Administrative Matters" in the contents, "ADMINISTRATIVE INFORMATION" on its page."""
    unlike = []
    for paper in PAPERS:
        pages = pages_of(REAL / paper)
        entries = contents_entries(pages)
        for entry, target in zip(entries, resolve_entries(entries, pages), strict=True):
            if target and not target.heading:
                unlike.append(entry.title)
    assert unlike == ["Administrative Matters"]


def test_the_sections_of_a_manual_with_its_own_order_without_leaders():
    pages = pages_of(SAMPLES / "h-14-service-manual.pdf")
    entries = contents_entries(pages)
    targets = resolve_entries(entries, pages)
    found = [(each.number, each.page, target.pdf_page) for each, target in zip(entries, targets, strict=True)]
    assert found == [
        ("I", "3", 3), ("II", "4", 4), ("III", "6", 6), ("V", "7", 7), ("VI", "10", 10),
        ("XII", "11", 11), ("XIII", "12", 12), ("XIV", "14", 14), ("XVII", "15", 15),
    ]  # fmt: skip
    assert entries[3].title == "Landing gear, wheels and brakes"
    assert entries[3].pdf_page == 2 and entries[3].quote == "V Landing gear, wheels and brakes 7"


def test_a_chapter_numbered_manual_tells_its_first_pages_apart_by_the_number_in_the_foot():
    pages = pages_of(SAMPLES / "qz62-maintenance-manual.pdf")
    entries = contents_entries(pages)
    found = dict(zip([each.number for each in entries], resolve_entries(entries, pages), strict=True))
    assert [found[number].pdf_page for number in ("00-00-00", "04-00-00", "05-50-00", "79-20-00")] == [
        8,
        9,
        13,
        51,
    ]
    assert all(found.values())


CONTENTS = """# CONTENTS
Foreword . . . . . . . . . . iii
1-1. Towing .............. 1-1
SECTION II. FUEL SYSTEM .......... 2-1
Appendix A. Torque values ........ A-1"""


def test_page_numbers_in_roman_figures_and_by_section():
    pages = [
        page(1, CONTENTS),
        page(2, "# FOREWORD\nText", printed_page="iii"),
        page(3, "# 1-1. TOWING\nText", printed_page="1-1"),
        page(4, "# SECTION II\n# FUEL SYSTEM\nText", printed_page="2-1"),
        page(5, "# APPENDIX A\n# TORQUE VALUES\nText", printed_page="A-1"),
    ]
    entries = contents_entries(pages)
    assert [(each.number, each.title, each.page) for each in entries] == [
        ("", "Foreword", "iii"),
        ("1-1", "Towing", "1-1"),
        ("SECTION II", "FUEL SYSTEM", "2-1"),
        ("Appendix A", "Torque values", "A-1"),
    ]
    assert [(target.pdf_page, bool(target.heading)) for target in resolve_entries(entries, pages)] == [
        (2, True), (3, True), (4, True), (5, True),
    ]  # fmt: skip


def test_an_entry_whose_page_is_not_in_the_file_leads_nowhere():
    pages = [page(1, CONTENTS), page(2, "# FOREWORD\nText", printed_page="iii")]
    targets = resolve_entries(contents_entries(pages), pages)
    assert [target.pdf_page if target else None for target in targets] == [2, None, None, None]


def test_two_pages_that_bear_the_title_and_print_no_number_decide_nothing():
    pages = [page(1, CONTENTS), page(2, "# 1-1. TOWING\nText"), page(3, "# 1-1. TOWING\nText")]
    assert resolve_entry(contents_entries(pages)[1], pages) is None


@pytest.mark.parametrize(
    "body",
    [
        "# INDEX\nBrakes ........ 5-12\nFuel ........ 13-1",  # alphabetical, at the back
        "# LIMITS\nTorque ........ 45\nGap ........ 3",  # a table of values
        "# CONTENTS OF THE KIT\nBolt, brake\nShim, brake",
    ],
)
def test_what_is_no_contents_page(body):
    assert contents_pages([page(1, body)]) == ()
