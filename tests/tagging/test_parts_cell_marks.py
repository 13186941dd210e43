"""Marks in cells that send the reader elsewhere. Common practice of typed and printed lists, no source."""

import pytest

from indexer.tagging.parts_cell_marks import (
    begins_with_ditto,
    holds_several,
    is_no_number,
    without_footnote_marks,
    without_or,
    without_side,
)


@pytest.mark.parametrize(
    ("cell", "plain", "marked"),
    [
        ("QZ74-1901-1*", "QZ74-1901-1", True),
        ("*QZ74-1901-1", "QZ74-1901-1", True),
        ("QZ74-1901-2\u2020", "QZ74-1901-2", True),
        ("CAM **", "CAM", True),
        ("QZ74-1907-1 (1)", "QZ74-1907-1", True),
        ("QZ74-1907-1(1)", "QZ74-1907-1(1)", False),  # of the number itself
        ("QZ74-1901-1", "QZ74-1901-1", False),
        ("SCREW (8-32)", "SCREW (8-32)", False),
        ("*", "*", False),  # nothing but the mark
        ("", "", False),
    ],
)
def test_footnote_marks(cell, plain, marked):
    assert without_footnote_marks(cell) == (plain, marked)


@pytest.mark.parametrize(
    ("cell", "ditto"),
    [
        ('"', True),
        ('"    clevis', True),
        ('"   -1004', True),
        ("do.", True),
        ("Do", True),
        ("-do-", True),
        ("Ditto, short", True),
        ('"O" RING', False),
        ('3/8" BOLT', False),
        ("DO NOT PAINT", False),
        ("DOME", False),
        ("", False),
    ],
)
def test_dittos(cell, ditto):
    assert begins_with_ditto(cell) is ditto


@pytest.mark.parametrize(
    ("cell", "words"),
    [
        ("FIG 3 REF", True),
        ("SEE FIG. 25", True),
        ("SEE NOTE 2", True),
        ("NO NUMBER", True),
        ("COMMERCIAL", True),
        ("NHA 24-1", True),
        ("REF-100", False),
        ("AN4-12A", False),
        ("QZ 32 441", False),
        ("NOT1-22", False),
        ("101", False),
        ("", False),
        ("-----", False),
    ],
)
def test_words_in_place_of_a_number(cell, words):
    assert is_no_number(cell) is words


def test_sides_and_other_numbers_are_no_part_of_a_number():
    assert without_side("QZ57-5501-1 (LH)") == ("QZ57-5501-1", "(LH)")
    assert without_side("QZ57-5505-( )") == ("QZ57-5505-( )", "")
    assert without_or("OR MS21919-DG8") == ("MS21919-DG8", True)
    assert without_or("(ALT AN4-12)") == ("AN4-12", True)
    assert without_or("ORBIT-5") == ("ORBIT-5", False)


@pytest.mark.parametrize(
    ("cell", "several"),
    [
        ("AN4-6A / AN4-7A", True),
        ("QZ57-1-1 & -2", True),
        ("QZ57-1-1 THRU -4", True),
        ("AN4-6A OR AN4-7A", True),
        ("AN4-6A, AN4-7A", True),
        ("M83248/1-012", False),
        ("AN 818 - 4D", False),
        ("A.G.S. 563/A/3", False),
        ("QZ 32 441", False),
    ],
)
def test_several_numbers_in_one_cell(cell, several):
    assert holds_several(cell) is several
