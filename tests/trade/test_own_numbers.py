"""Numbers of manuals with their own order: forms, order and ranges.

The forms are common practice of manuals from the 1940s to 1960s, no source. Outside check: Unicode's Roman
figures, each with its value and its letters (Unicode Character Database, U+2160 to U+216C).
"""

import unicodedata

import pytest

from indexer.trade.chapters import ChapterNumber, Scheme, parse_number
from indexer.trade.own_numbers import OwnNumber, in_range, parse_own_number, roman_value


@pytest.mark.parametrize(
    "text, section, paragraph",
    [
        ("V", 5, ""),
        ("5", 5, ""),
        ("05", 5, ""),
        ("Section V", 5, ""),
        ("SEC. 5", 5, ""),
        ("Group 5", 5, ""),
        ("Appendix A", "A", ""),
        ("5A", "5A", ""),
        ("5-12", 5, "12"),
        ("5.12", 5, "12"),
        ("5–12.", 5, "12"),  # an en dash, and the full stop of a heading
        ("V-12", 5, "12"),
        ("2-14A", 2, "14A"),
        ("para. 5-12", 5, "12"),
        ("Section 5-12", 5, "12"),
        ("section V paragraph 5-12", 5, "12"),
        ("Section V, par. 12", 5, "12"),
        ("paragraph 12", "", "12"),  # of which section, the words do not say
        ("5-12(b)", 5, "12.(B)"),
        ("2.2.1", 2, "2.1"),
    ],
)
def test_every_written_form_of_a_number(text, section, paragraph):
    assert parse_own_number(text) == OwnNumber(section, paragraph)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "Section",
        "landing gear",
        "page 5-3",  # a page
        "5-12 to 5-20",  # a range
        "section V, paragraph 6-3",  # contradicts itself
        "IIX",
        "13-1407",  # a part number
        "2.B",
    ],
)
def test_what_is_no_such_number(text):
    assert parse_own_number(text) is None


@pytest.mark.parametrize("letter", [chr(code) for code in range(0x2160, 0x216C)])
def test_roman_figures_have_the_values_that_unicode_gives_them(letter):
    assert roman_value(unicodedata.normalize("NFKC", letter)) == unicodedata.numeric(letter)


@pytest.mark.parametrize("text, value", [("XIV", 14), ("XVII", 17), ("XXIX", 29), ("XLIV", 44), ("XLIX", 49)])
def test_longer_roman_figures(text, value):
    assert roman_value(text) == value


@pytest.mark.parametrize("text", ["", "VV", "IC", "XXXX", "IVI", "C", "L"])
def test_letters_that_are_no_roman_figure_of_a_section(text):
    assert roman_value(text) is None


def test_numbers_stand_in_the_order_of_the_manual():
    printed = [
        "I",
        "2",
        "2-9",
        "2-14",
        "2-14A",
        "2-15",
        "V",
        "5-2",
        "5-12",
        "5-12(b)",
        "IX",
        "10-1",
        "Appendix A",
    ]
    numbers = [parse_own_number(text) for text in printed]
    assert sorted(reversed(numbers)) == numbers


@pytest.mark.parametrize(
    "number, first, last, inside",
    [
        ("5-12", "V", "V", True),
        ("V", "5", "5", True),
        ("5-12", "II", "VI", True),
        ("5-12", "5-10", "5-20", True),
        ("5-12", "5-12", "5-12", True),
        ("5-2", "5-10", "5-20", False),  # two is before ten
        ("12-5", "5-10", "5-20", False),
        ("5-12(b)", "5-10", "5-12", True),  # a part of the last paragraph
        ("2-14A", "2-10", "2-14", False),  # a paragraph put in behind the last
        ("2-14A", "2-10", "2-15", True),
        ("V", "5-1", "5-20", False),  # a whole section is more than its paragraphs
        ("IX", "8", "10", True),
        ("landing gear", "1", "20", False),
        ("5", "", "", False),
    ],
)
def test_which_numbers_a_range_holds(number, first, last, inside):
    assert in_range(number, first, last) is inside


def test_a_tag_of_a_manual_s_own_order_prints_as_the_manual_does_and_meets_the_other_spelling():
    section, paragraph = (ChapterNumber(*parts, scheme=Scheme.OWN) for parts in (["V"], ["5", "12"]))
    assert (str(section), str(paragraph)) == ("V", "5-12")
    assert parse_number("5-12", Scheme.OWN) == paragraph
    assert section.covers(paragraph) and not paragraph.covers(section)
    assert sorted([ChapterNumber("X", scheme=Scheme.OWN), paragraph, section]) == [
        section,
        paragraph,
        ChapterNumber("X", scheme=Scheme.OWN),
    ]
