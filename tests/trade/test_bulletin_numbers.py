"""Bulletin numbers: found after their words, written one way, with the chapter where the style prints it."""

import datetime

import pytest

from indexer.trade.bulletin_numbers import bulletin_chapter, find_bulletin_numbers, normalised_bulletin

FOUND = [  # text, then number, chapter, revision, date of each
    # document 2017-11001
    (
        "Bombardier Service Bulletin 601–0636, Revision 01, dated May 10, 2016.",
        [("601-0636", None, "01", (2016, 5, 10))],
    ),
    ("Service Bulletin 604–57–005, dated September 9, 2014.", [("604-57-005", "57", "", (2014, 9, 9))]),
    # document 2018-02354
    (
        "Service Bulletin (SB) A330–92–3125, or SB A340–92–4097, as applicable.",
        [("A330-92-3125", "92", "", None), ("A340-92-4097", "92", "", None)],
    ),
    # document 2020-17221, number broken by the end of the line
    (
        "Service Bulletin 737–\n27–1318, Revision 1, dated June 24,\n2020.",
        [("737-27-1318", "27", "1", (2020, 6, 24))],
    ),
    # document 2024-02724
    (
        "Service Bulletin (SB) BD500–530011, Issue 002, dated 06 December 2022",
        [("BD500-530011", "53", "002", (2022, 12, 6))],
    ),
    # number styles of the trade (seen on bulletins), with invented numbers where marked
    ("Alert Service Bulletin DC10-76A048", [("DC10-76A048", "76", "", None)]),
    ("ASB A900-53A0078 Rev 3", [("A900-53A0078", "53", "3", None)]),  # invented
    ("SB A300-27-0204", [("A300-27-0204", "27", "", None)]),
    ("SB A601R-32-088", [("A601R-32-088", "32", "", None)]),
    ("SB V2500-E5-72-0015", [("V2500-E5-72-0015", "72", "", None)]),
    ("SB CFM56-5C 78-A0072", [("CFM56-5C-78-A0072", "78", "", None)]),
    ("SB V2500-ENG-72-0713 Rev 1", [("V2500-ENG-72-0713", "72", "1", None)]),
    ("SB B787-81205-SB380021-00 Issue 001", [("B787-81205-SB380021-00", "38", "001", None)]),
    ("Service Bulletin No. 2198, dated April 1989", [("2198", None, "", None)]),
    ("Service Bulletin No. 17, Supplement No. 2", [("17", None, "", None)]),
    ("SB 32-0012 Rev B", [("32-0012", "32", "B", None)]),
    ("SB 32-0012, Rev N/C", [("32-0012", "32", "N/C", None)]),
    ("SB 32-0012, Original Issue, dated 3 March 2001", [("32-0012", "32", "original", (2001, 3, 3))]),
    ("SL 12-001 and SL 12-002", [("SL-12-001", "12", "", None), ("SL-12-002", "12", "", None)]),
    (
        "Alert Service Bulletins XJ9-53A0041, Revision 3, dated May 1, 2098, and XJ9-53A0042",  # invented
        [("XJ9-53A0041", "53", "3", (2098, 5, 1)), ("XJ9-53A0042", "53", "", None)],
    ),
    # none
    ("The service bulletin is mandatory.", []),
    ("Service Bulletin\n\n34. Standard data package", []),
    ("si 10-30", []),
    ("AMM 32-41-00", []),
    ("USB 3-001", []),
]


@pytest.mark.parametrize(("text", "bulletins"), FOUND)
def test_find_bulletin_numbers(text, bulletins):
    found = find_bulletin_numbers(text)
    assert [(one.number, one.chapter and str(one.chapter), one.revision, one.date) for one in found] == [
        (number, chapter, rev, date and datetime.date(*date)) for number, chapter, rev, date in bulletins
    ]
    assert all(text[one.start : one.end] == one.text for one in found)


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("SB 32-0012", "32-0012"),
        ("Service Bulletin No. 32–0012", "32-0012"),
        ("sb32-0012", "32-0012"),
        ("32-0012", "32-0012"),
        ("CFM56-5C 78-A0072", "CFM56-5C-78-A0072"),
        ("Alert Service Bulletin 737-57A1234", "737-57A1234"),  # the number itself has the A
        ("ASB 53-001", "ASB-53-001"),  # another series than SB 53-001
        ("Service Letter 32-01", "SL-32-01"),
        ("SL-32-01", "SL-32-01"),
        ("Service Instruction 1001", "SI-1001"),
        ("MSB-7", "MSB-7"),
        ("Mandatory Service Bulletin 632", "632"),
        ("Service Bulletin", None),
        ("", None),
    ],
)
def test_normalised_bulletin(text, number):
    assert normalised_bulletin(text) == number


@pytest.mark.parametrize(
    ("number", "chapter"),
    [
        ("A300-27-0204", "27"),
        ("32-0012", "32"),
        ("737-57A1234", "57"),
        ("DC10-76A048", "76"),
        ("2198", None),
        ("95-3", None),  # a year and a running number, as some makers print
        ("600-0768", None),
        ("737-00-1028", None),  # 00 is no system
        ("X-17-0001", None),  # 17 is no chapter
    ],
)
def test_bulletin_chapter(number, chapter):
    found = bulletin_chapter(number)
    assert (found and str(found)) == chapter
