"""Chapter numbers in running text: what is one, what only looks like one."""

import csv
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from indexer.trade.chapters import find_numbers

# Narratives of FAA service difficulty reports; the numbers expected were read out of them by a person.
NARRATIVES = Path(__file__).parent / "data" / "sdr_cited_numbers.csv"
ROWS = list(csv.DictReader(NARRATIVES.read_text(encoding="utf-8").splitlines()))


def printed(text):
    return [(str(found.number), found.number.scheme.value) for found in find_numbers(text)]


# Subject lines of airworthiness directives, as the Federal Register prints them.
SUBJECT_LINES = [
    # document 2017-11001, proposed directive
    ("Air Transport Association (ATA) of America Code 57, Wings.", [("57", "ATA")]),
    # document 2018-02354, AD 2018-03-07
    ("Air Transport Association (ATA) of America Code 92, Electrical system installation.", [("92", "ATA")]),
    # document 2024-02724, proposed directive
    ("Air Transport Association (ATA) of America Code 51, Standard practices/structures.", [("51", "ATA")]),
    # document 2024-02930, AD 2024-03-04
    (
        "(d) Subject\n\nAir Transport Association (ATA) of America Code 27, Flight controls.\n\n(e) Unsafe "
        "Condition\n\nThis AD was prompted by reports",
        [("27", "ATA")],
    ),
    # document 2020-17221, proposed directive, lines as set in its column
    (
        "Air Transport Association (ATA) of\nAmerica Code 22, Auto flight; 27, Flight\ncontrols; and 31, "
        "Indicating/recording\nsystems.\n(e) Unsafe Condition",
        [("22", "ATA"), ("27", "ATA"), ("31", "ATA")],
    ),
    # AD 2024-25-51
    ("Joint Aircraft System Component (JASC) Code 6700, Rotorcraft Flight Control.", [("6700", "JASC")]),
    # forms that other directives print (common practice, no source)
    (
        "Joint Aircraft System Component (JASC)/Air Transport Association (ATA) of America Code 32, "
        "Landing Gear",
        [("32", "ATA")],
    ),
    ("JASC/ATA of America Code 32, Landing Gear", [("32", "ATA")]),
    ("Joint Aircraft Service Component (JASC) Code 2760, Drag Control System.", [("2760", "JASC")]),
    ("Joint Aircraft System/Component (JASC) Code 6220, Main Rotor Head.", [("6220", "JASC")]),
    (
        "Joint Aircraft System Component (JASC) Code 6200, Main Rotor System; and 6300, Main Rotor Drive.",
        [("6200", "JASC"), ("6300", "JASC")],
    ),
    ("JASC Codes 5341, 5712, and 5714.", [("5341", "JASC"), ("5712", "JASC"), ("5714", "JASC")]),
    ("Air Transport Association (ATA) of America Codes 27 and 32.", [("27", "ATA"), ("32", "ATA")]),
]

FORMS = [
    # ATA Spec 100 / iSpec 2200
    ("32-41-00", "32-41-00", "chapter-section-subject"),
    ("32–41–00", "32-41-00", "chapter-section-subject"),
    ("32‑41‑00", "32-41-00", "chapter-section-subject"),
    ("32−41−00", "32-41-00", "chapter-section-subject"),
    ("See 32-41-00.", "32-41-00", "chapter-section-subject"),
    ("(32-41-00)", "32-41-00", "chapter-section-subject"),
    ("32-41-00/401", "32-41-00", "chapter-section-subject"),
    ("24-11-00", "24-11-00", "chapter-section-subject"),
    ("AMM32-41-00", "32-41-00", "chapter-section-subject"),
    ("SRM 53-10-51-2R-17", "53-10-51", "chapter-section-subject"),
    ("05-10-00 Page 1", "05-10-00", "chapter-section-subject"),
    ("12-20-01\nPage 301\nJan 15/98", "12-20-01", "chapter-section-subject"),
    ("refer to 05-20-00", "05-20-00", "chapter-section-subject"),
    ("AMM (Rev 3) 05-20-00", "05-20-00", "chapter-section-subject"),
    ("32-41", "32-41", "chapter-section"),
    ("AMM 32-41", "32-41", "chapter-section"),
    ("Maintenance Manual, Section 32-41", "32-41", "chapter-section"),
    ("ATA 32", "32", "ata chapter words"),
    ("(ATA 27)", "27", "ata chapter words"),
    ("ATA: 53-10", "53-10", "ata chapter words"),
    ("ATA Chapter 32-41-00", "32-41-00", "ata chapter words"),
    ("ATA 32.41.00", "32-41-00", "ata chapter words"),
    ("ATA 32 41 00", "32-41-00", "ata chapter words"),
    ("ATA Spec 100, Chapter 32", "32", "ata chapter words"),
    ("ATA 3241", "32", "ata chapter words"),  # 32-41 or JASC 3241: only the chapter is sure
    ("chapter 32", "32", "chapter words"),
    ("Chapter 32-41", "32-41", "chapter words"),
    ("Ch. 32-41-00", "32-41-00", "chapter words"),
    ("CHAPTER 32\nLANDING GEAR", "32", "chapter words"),
    ("CHAPTER 05 TIME LIMITS/MAINTENANCE CHECKS", "05", "chapter words"),
    ("see chapter 12, paragraph 4", "12", "chapter words"),
    # task numbers (AMTOSS)
    ("TASK 32-41-00-400-801-A01", "32-41-00", "task"),
    ("SUBTASK 32-41-00-020-050", "32-41-00", "task"),
    ("task 25-66-01-400-80A-F00", "25-66-01", "task"),
    # S1000D
    ("DMC-XXXX-A-32-41-00-00A-520A-D", "32-41-00", "data module code"),
    ("DMC-XXXX-A-32-4-1-00-00A-520A-D", "32-41-00", "data module code"),
    ("DMC-EX2-AAAA-32-41-0000-00A-040A-D", "32-41-0000", "data module code"),
    # parts lists: figure and item after the number
    ("32-41-00-01-15", "32-41-00", "figure-item"),
    ("32-41-00-01A-15B", "32-41-00", "figure-item"),
]

TRAPS = [
    # dates
    "2021-03-01",
    "06-12-98",
    "12-05-2004",
    "12-05-04",
    "dated 24-11-00",
    "effective 27-10-01",
    "Monday 21-10-02",
    "25-06-97",
    "92-01-05",
    "06-12-98 Page 3",
    # directives (numbers as printed in the Federal Register and in older directives)
    "AD 89-24-09",
    "89-24-09 BEECH: Amendment 39-6381.",
    "47-51-08 REPUBLIC: Applies to All Model RC-3 aircraft.",
    "2019-07-05",
    "2018–03–08 Airbus: Amendment 39–19181; Docket No. FAA–2018–0069;",
    "AD 79-13-08",
    "ADs 79-13-08, 80-13-10, and 82-27-13 R1",
    "Airworthiness Directive (AD) 75-23-03",
    "A.D. No. 77-04-06",
    "82-27-13 R1",
    "amendment 39-22419",
    "Amendment 39–19181",
    # telephones, dockets, regulations, orders, circulars
    "202-493-2251",
    "Fax: 202–493–2251.",
    "telephone +33 5 61 93 36 96",
    "phone 61-93-36",
    "Docket No. FAA–2018–0030",
    "Product Identifier 2014–NM–161–AD",
    "RIN 2120–AA64",
    "AC 43-13",
    "AC 43.13-1B",
    "43.13-1B",
    "14 CFR 21-20",
    "14 CFR 43.13(a)",
    "FAA Order 8900.1, Volume 4, Chapter 09",
    "Chapter 11 of this handbook",
    "Chapter 10\nEngine Maintenance & Operation",  # FAA-H-8083-32, table of contents
    "title 49, chapter 44",
    "ATA Spec 100",
    "ATA iSpec 2200",
    "ATA 2200",
    "ATA 2024",
    # parts, serials, cards, bulletins
    "MS20470-4",
    "AN4-12A",
    "123-45-678",
    "P/N 32-41-00",
    "part number 28-10-05",
    "S/N 30-12-45",
    "serial numbers 30-12-45 through 30-12-99",
    "drawing 53-10-02",
    "card 51-00-05",
    "SB 32-0012",
    "SB 72-41-03",
    "Service Bulletin A300-27-0204",
    "MEL 25-53-01",
    # document 2020-17221: items of a minimum equipment list
    "Master Minimum Equipment List (MMEL) items 22–10–01B,\n22–10–02, 22–10–03, 22–11–01,\n22–11–05–02B",
    # scheduled maintenance items (common practice, no source)
    "32-110-00",
    "28-AWL-05",
    # amounts, ranges, pages, paragraphs, steps
    "10-15 psi",
    "torque 20-30",
    "$32-41",
    "12-24-36 months",
    "at 20-30-40 hours",
    "page 2-14",
    "5-12",
    "paragraph 5-12",
    "figure 32-41",
    "serial 208-00001 and on",
    "MB-1 through MB-816",
    "stations 727-747",
    "00-00-00",
    "02-10-05",
    "17-10-00",
    "19-20-21",
    "SUBTASK 870-001-002",
    "32-41-000",
    "132-41-00",
    "32-41-00.5",
    "A32-41-00B",
    "X-32-41-00",
    "3241",
    "32",
    "",
]


@pytest.mark.parametrize(("line", "numbers"), SUBJECT_LINES)
def test_subject_lines_of_directives(line, numbers):
    assert printed(line) == numbers


@pytest.mark.parametrize(("text", "number", "form"), FORMS)
def test_forms(text, number, form):
    assert [(str(found.number), found.form) for found in find_numbers(text)] == [(number, form)]


@pytest.mark.parametrize("text", TRAPS)
def test_traps(text):
    assert find_numbers(text) == []


@pytest.mark.parametrize("trap", TRAPS)
def test_a_number_beside_a_trap_is_still_found(trap):
    text = f"{trap}\n\nRemove the wheel (AMM 32-41-07).\n\n{trap}"
    assert "32-41-07" in [str(found.number) for found in find_numbers(text)]


@pytest.mark.parametrize(
    ("text", "numbers"),
    [
        ("27-31-00 and 27-31-01", ["27-31-00", "27-31-01"]),
        ("chapters 21, 24 and 32-41", ["21", "24", "32-41"]),
        ("Chapters 51-57", ["51", "57"]),
        ("ATA chapters 21, 22, and 23", ["21", "22", "23"]),
        # FAA JASC Code Table and Definitions, 27 October 2008, definition of rotor codes
        ("which is covered in the Structures JASC Chapters\n55 or 57.", ["55", "57"]),
        ("As required by AD 2019-07-05, do AMM 32-41-00", ["32-41-00"]),
        ("On 12-05-04 removed wheel per 32-41-11", ["32-41-11"]),
    ],
)
def test_several(text, numbers):
    assert [str(found.number) for found in find_numbers(text)] == numbers


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["row_id"])
def test_service_difficulty_reports(row):
    expected = row["numbers"].split("|") if row["numbers"] else []
    assert [str(found.number) for found in find_numbers(row["text"])] == expected, row["why"]


def test_the_text_is_the_printed_one():
    text = "See  32–41–00\u00a0and DMC-XXXX-A-32-41-00-00A-520A-D."
    for found in find_numbers(text):
        assert text[found.start : found.end] == found.text
    assert [found.text for found in find_numbers(text)] == ["32–41–00", "DMC-XXXX-A-32-41-00-00A-520A-D"]


_BITS = [
    "32-41-00",
    "AD ",
    "ATA ",
    "chapter ",
    " and ",
    "-",
    "–",
    "12",
    "2021",
    "\n",
    ", ",
    "JASC Code ",
    "page ",
    "TASK ",
    "R1",
]


@settings(deadline=None)  # how long it takes is measured elsewhere
@given(st.lists(st.sampled_from(_BITS) | st.text(max_size=3), max_size=12).map("".join))
def test_found_numbers_lie_in_order_inside_the_text(text):
    end = 0
    for found in find_numbers(text):
        assert end <= found.start < found.end <= len(text)
        assert text[found.start : found.end] == found.text
        end = found.end
