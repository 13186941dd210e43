"""Airworthiness directive numbers: found where announced, written one way, authorities told apart."""

import pytest

from indexer.trade.directive_numbers import find_directive_numbers, normalised_directive

FOUND = [
    # Federal Register, document 2018-02352
    ("We are superseding Airworthiness Directive (AD) 2005–19–28, which applied to", [("2005-19-28", "FAA")]),
    (
        "This AD replaces AD 2005–19–28, Amendment 39–14293 (70 FR 57493, October 3, 2005)",
        [("2005-19-28", "FAA")],
    ),
    ("2018–03–08 Airbus: Amendment 39–19181; Docket No. FAA–2018–0069;", [("2018-03-08", "FAA")]),
    ("has issued EASA AD 2013–0101, dated April 30, 2013", [("2013-0101", "EASA")]),
    (
        "DGAC France issued AD 2001–268(B)R1 and AD 2001–269(B)",
        [("2001-268(B)R1", "DGAC"), ("2001-269(B)", "DGAC")],
    ),
    # document 2024-02724
    ("Transport Canada AD CF–2023–37, dated May 30, 2023", [("CF-2023-37", "Transport Canada")]),
    # document 2024-02930
    (
        "[Docket No. FAA–2024–0224; Project Identifier AD–2024–00055–T; Amendment 39–22673; AD 2024–03–04]",
        [("2024-03-04", "FAA")],
    ),
    # document 2019-27928
    (
        "Airworthiness Directives (ADs) 2015-14-07, 2016-07-10, and 2016-24-09, which apply",
        [("2015-14-07", "FAA"), ("2016-07-10", "FAA"), ("2016-24-09", "FAA")],
    ),
    # older directives, as printed
    ("47-51-08 REPUBLIC: Applies to All Model RC-3 aircraft.", [("47-51-08", "FAA")]),
    ("89-24-09 BEECH: Amendment 39-6381. Applicability: The airplanes", [("89-24-09", "FAA")]),
    # common practice, no source
    ("AD 2024-25-51", [("2024-25-51", "FAA")]),
    ("A.D. No. 96-12-02", [("96-12-02", "FAA")]),
    ("AD: 82-27-13 R1", [("82-27-13R1", "FAA")]),
    ("AD 82-27-13R1", [("82-27-13R1", "FAA")]),
    ("AD 82-27-13-R1", [("82-27-13R1", "FAA")]),
    ("ADs 64-09-03 and 80-13-12R1", [("64-09-03", "FAA"), ("80-13-12R1", "FAA")]),
    ("EASA AD 2024-0237-E", [("2024-0237-E", "EASA")]),
    ("EASA Emergency AD No.: 2023-0093R1", [("2023-0093R1", "EASA")]),
    ("AD 2023-0093R1", [("2023-0093R1", "EASA")]),
    ("Brazilian AD 2021-05-01", [("2021-05-01", "Brazilian")]),  # the FAA's shape, another authority
    # not a directive
    ("2021-03-01", []),
    ("revised 2019-07-05", []),
    ("32-41-00", []),
    ("AMM 32-41-00", []),
    ("06-12-98", []),
    ("12-05-2004", []),
    ("Amendment 39-22419", []),
    ("Docket No. FAA-2023-1409", []),
    ("Project Identifier AD-2024-00055-T", []),
    ("AD and 32-41-00", []),
    ("LEAD 2024-25-51", []),
    ("", []),
]


@pytest.mark.parametrize(("text", "numbers"), FOUND)
def test_find_directive_numbers(text, numbers):
    found = find_directive_numbers(text)
    assert [(one.number, one.authority) for one in found] == numbers
    assert all(text[one.start : one.end] == one.text for one in found)


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("AD 82-27-13-R1", "82-27-13R1"),
        ("82-27-13 R1", "82-27-13R1"),
        ("82–27–13R1", "82-27-13R1"),
        ("1989-24-09", "89-24-09"),  # two digits of the year before 2000
        ("2024-25-51", "2024-25-51"),
        ("AD No. 2024-25-51", "2024-25-51"),
        ("2023-0093 R1", "2023-0093R1"),
        ("CF-2023-37", "CF-2023-37"),
        ("see AD 2024-25-51", None),
        ("32-41", None),
        ("39-22419", None),
        ("", None),
    ],
)
def test_normalised_directive(text, number):
    assert normalised_directive(text) == number


@pytest.mark.parametrize(
    ("text", "emergency", "revision"),
    [
        ("AD 2024-25-51", True, ""),  # third group 51 and up (AD 2024-25-51 is an emergency directive)
        ("AD 2024-25-50", False, ""),
        ("AD 2018-23-51 R2", True, "2"),
        ("EASA AD 2024-0237-E", True, ""),
        ("EASA AD 2023-0093R1", False, "1"),
    ],
)
def test_emergency_and_revision(text, emergency, revision):
    (found,) = find_directive_numbers(text)
    assert (found.emergency, found.revision) == (emergency, revision)
