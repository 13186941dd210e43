"""Chapter numbers: every code of the FAA's table and every chapter of ATA Spec 100 parse, print and order."""

import re
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from indexer.trade.chapter_tables import chapter_rows, jasc_groups, jasc_rows
from indexer.trade.chapters import (
    ChapterNumber,
    Scheme,
    all_chapters,
    chapter_group,
    chapter_title,
    is_chapter,
    jasc_title,
    parse_number,
)

# The code table's own pages, as pdftotext reads them: FAA JASC Code Table and Definitions, 27 October 2008.
FAA_TABLE = (Path(__file__).parent / "data" / "faa_jasc_table_2008.txt").read_text(encoding="utf-8")
FAA_CODES = dict(re.findall(r"(?m)(?:^|\s{2,})(\d{4})\s+([A-Z][A-Z0-9 /().,&'-]+?)(?=\s{2,}|$)", FAA_TABLE))

# ATA Spec 100 chapters as two public lists give them.
ATA_CHAPTERS = [
    f"{chapter:02}"
    for chapter in (
        *range(5, 13),
        18,
        *range(20, 43),
        *(44, 45, 46, 47, 49),
        *range(50, 58),
        *range(60, 68),
        *range(70, 85),
        *(91, 92),
    )
]


def test_the_code_table_is_the_faas():
    assert len(FAA_CODES) == 547
    assert {code: row.title for code, row in jasc_rows().items()} == FAA_CODES


@pytest.mark.parametrize("code", FAA_CODES)
def test_every_jasc_code_parses_and_prints(code):
    number = parse_number(code)
    assert number == ChapterNumber(code[:2], code[2:], scheme=Scheme.JASC)
    assert str(number) == code
    assert jasc_title(code) == FAA_CODES[code]
    assert parse_number(str(number), Scheme.JASC) == number


def test_jasc_codes_order_as_printed():
    numbers = [parse_number(code) for code in FAA_CODES]
    assert [str(number) for number in sorted(reversed(numbers))] == sorted(FAA_CODES)
    assert all(one < other for one, other in pairwise(sorted(numbers)))


def test_the_51_groups_of_the_table():
    # FAA JASC table: nothing for 04 to 10, 20, 39, 50, 60, 66, 70, 84, 91.
    assert len(jasc_groups()) == 51
    assert not jasc_groups() & {"04", "05", "10", "20", "39", "50", "60", "66", "70", "84", "91"}


@pytest.mark.parametrize("chapter", ATA_CHAPTERS)
def test_every_chapter_parses_prints_and_has_a_title(chapter):
    number = parse_number(chapter)
    assert number == ChapterNumber(chapter)
    assert str(number) == chapter
    assert is_chapter(chapter)
    assert chapter_title(chapter)
    assert chapter_group(chapter)


def test_chapters_stand_in_order():
    assert list(all_chapters()) == sorted(all_chapters())
    assert len(chapter_rows()) == 100
    assert set(ATA_CHAPTERS) <= set(all_chapters())


@pytest.mark.parametrize(
    ("chapter", "title", "group"),
    [  # ATA Spec 100 chapter list
        ("05", "Time limits / maintenance checks", "Aircraft general"),
        ("12", "Servicing", "Aircraft general"),
        ("27", "Flight controls", "Airframe systems"),
        ("32", "Landing gear", "Airframe systems"),
        ("35", "Oxygen", "Airframe systems"),
        ("52", "Doors", "Structure"),
        ("57", "Wings", "Structure"),
        ("61", "Propellers/propulsors", "Propeller/rotor"),
        ("74", "Ignition", "Power plant"),
    ],
)
def test_titles_and_groups(chapter, title, group):
    assert chapter_title(chapter) == title
    assert chapter_group(chapter) == group


@pytest.mark.parametrize("text", ["17", "19", "68", "87", "14", "4", "100", "", "ab", "٣٢"])
def test_what_is_no_chapter(text):
    assert not is_chapter(text)


@pytest.mark.parametrize(
    ("text", "printed", "scheme"),
    [
        ("32", "32", Scheme.ATA),
        ("32-41", "32-41", Scheme.ATA),
        ("32-41-00", "32-41-00", Scheme.ATA),
        ("32–41–00", "32-41-00", Scheme.ATA),  # en dashes, as the Federal Register prints
        ("32.41.00", "32-41-00", Scheme.ATA),
        ("32 41 00", "32-41-00", Scheme.ATA),
        (" ATA 32-41 ", "32-41", Scheme.ATA),
        ("Chapter 32", "32", Scheme.ATA),
        ("3241", "3241", Scheme.JASC),
        ("JASC 3241", "3241", Scheme.JASC),
        ("JASC Code 6700", "6700", Scheme.JASC),
    ],
)
def test_fields_parse(text, printed, scheme):
    number = parse_number(text)
    assert (str(number), number.scheme) == (printed, scheme)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "4",
        "324",
        "3200a",
        "9999",
        "32-4",
        "32-41-0",
        "32-41-000",
        "32-41.00",
        "2021-03-01",
        "AN4-12A",
        "page 2",
    ],
)
def test_what_is_no_number(text):
    assert parse_number(text) is None


def test_a_field_of_known_scheme():
    assert parse_number("32-4-1", Scheme.SNS) == ChapterNumber("32", "41", scheme=Scheme.SNS)
    assert parse_number("32-41-0010", Scheme.SNS) == ChapterNumber("32", "41", "0010", Scheme.SNS)
    assert parse_number("Section 5", Scheme.OWN) == ChapterNumber("Section 5", scheme=Scheme.OWN)
    assert parse_number("3241", Scheme.ATA) is None
    assert parse_number("32-41", Scheme.JASC) is None


@pytest.mark.parametrize(
    "parts",
    [("4",), ("324",), ("",), ("32", "4"), ("32", None, "00"), ("32", "41", "0a"), ("32", ""), ("٣٢",)],
)
def test_nonsense_is_refused(parts):
    with pytest.raises(ValueError):
        ChapterNumber(*parts)


def test_a_jasc_code_has_no_subject():
    with pytest.raises(ValueError):
        ChapterNumber("32", "41", "00", Scheme.JASC)


COVERS = [  # (wide, narrow, covered)
    ("32", "32-41", True),
    ("32", "32-41-05", True),
    ("32", "33-41-05", False),
    ("32-41", "32-41-05", True),
    ("32-41", "32-42-05", False),
    ("32-41-00", "32-41-05", True),  # subject 00 is the whole subsystem (a maker's manual introduction)
    ("32-41-05", "32-41-00", False),
    ("32-00-00", "32-41-05", True),  # 00-00 is the whole system (same)
    (
        "32-40",
        "32-41-05",
        True,
    ),  # the first digit of the section is the subsystem (ATA Spec 100, from memory)
    ("32-41", "32-40", False),
    ("32-41-00", "32-41", True),
    ("32-41", "32", False),
]


@pytest.mark.parametrize(("wide", "narrow", "covered"), COVERS)
def test_covers(wide, narrow, covered):
    assert parse_number(wide).covers(parse_number(narrow)) is covered


def test_jasc_and_ata_agree_by_two_digits_only():
    # FAA JASC table, preface: the first three digits match ATA Spec 100, the fourth is the FAA's own.
    antiskid, ata_section = parse_number("3241"), parse_number("32-41")
    assert antiskid != ata_section
    assert not antiskid.covers(ata_section)
    assert not ata_section.covers(antiskid)
    assert antiskid.ata() == parse_number("32")
    assert parse_number("32").covers(antiskid)
    assert not parse_number("32-40").covers(antiskid)
    assert parse_number("3240") not in (parse_number("32-40"), parse_number("32-40-00"))


@pytest.mark.parametrize(
    ("code", "chapter"),
    [  # FAA JASC table of 27 October 2008, preface and notes
        ("3230", "32"),
        ("7200", "72"),
        ("8530", "72"),  # piston engines: 85 in JASC, 72 in ATA Spec 100
        ("3418", "27"),  # stall warning: ATA Spec 100 files it under 27-30
        ("3410", "34"),
        ("1410", None),  # hardware: no ATA chapter
    ],
)
def test_the_ata_chapter_of_a_jasc_code(code, chapter):
    assert parse_number(code).ata() == (ChapterNumber(chapter) if chapter else None)


def test_s1000d_numbers_that_mean_something_else():
    # S1000D numbering for air vehicles: 14, 39, 40, 43, 85, 86 and 90 to 99 differ from ATA Spec 100.
    assert parse_number("32-41-00", Scheme.SNS).ata() == ChapterNumber("32")
    assert parse_number("91-20-00", Scheme.SNS).ata() is None
    assert parse_number("14", Scheme.SNS).ata() is None
    assert not ChapterNumber("91").covers(parse_number("91-20-00", Scheme.SNS))
    assert ChapterNumber("Section 5", scheme=Scheme.OWN).ata() is None


_DIGITS = st.from_regex(r"[0-9]{2}", fullmatch=True)
_ATA = st.builds(lambda a, rest: ChapterNumber(a, *rest), _DIGITS, st.lists(_DIGITS, max_size=2).map(tuple))
_JASC = st.builds(lambda a, b: ChapterNumber(a, b, scheme=Scheme.JASC), _DIGITS, _DIGITS | st.none())


@settings(deadline=None)  # how long it takes is measured elsewhere
@given(_ATA)
def test_ata_round_trip(number):
    assert parse_number(str(number), Scheme.ATA) == number


@settings(deadline=None)  # how long it takes is measured elsewhere
@given(_JASC)
def test_jasc_round_trip(number):
    assert parse_number(str(number), Scheme.JASC) == number


@settings(deadline=None)  # how long it takes is measured elsewhere
@given(st.lists(_ATA | _JASC))
def test_any_numbers_can_be_ordered(numbers):
    for one, other in pairwise(sorted(numbers)):
        assert one <= other
        assert (one == other) == (not one < other)


@settings(deadline=None)  # how long it takes is measured elsewhere
@given(_ATA, _ATA, _ATA)
def test_covering_is_an_order(a, b, c):
    assert a.covers(a)
    if a.covers(b) and b.covers(c):
        assert a.covers(c)
