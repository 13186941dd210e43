"""Chapter numbers in a question, in every form people write, and what each is taken for.

3241 and 3245 are codes of the FAA's JASC table (JASC Code Table and Definitions, 27 October 2008): brake
anti-skid section, and tire tube. By its preface a code agrees with ATA Spec 100 by three digits at most, and
85 is the piston engine that ATA Spec 100 has in 72.
"""

import pytest

from indexer.library.fulltext import Filters
from server.number_reading import read_numbers
from server.question import parse_question

HELD = {"32", "72", "32-41", "25-00", "05-10"}


def held(number):
    """A library with something under these ATA chapters and sections, and nothing under JASC codes."""
    if number.section is None:
        ata = number.ata()
        return ata is not None and ata.chapter in HELD
    return number.scheme.value == "ATA" and f"{number.chapter}-{number.section}" in HELD


def read(text, filters=Filters()):  # noqa: B008
    return read_numbers(parse_question(text), filters, held)


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("32-41", ("32-41",)),
        ("32-41-05", ("32-41-05",)),
        ("32\u201341", ("32\u201341",)),  # an en dash, as a tablet's keyboard writes it
        ("ATA 32\u201341", ("32-41",)),
        ("ATA\u00a032-41 ", ("32-41",)),
        ("32.41.00", ("32.41.00",)),  # the engine reads the dots
        ("324100", ("324100",)),
        ("32 41 00", ("32-41-00",)),
        ("32 41", ("32-41",)),
        ("32.41", ("32-41",)),
        ("3241", ("32-41",)),
        ("ATA 32-41", ("32-41",)),
        ("ATA32-41", ("32-41",)),
        ("ata 3241", ("32-41",)),
        ("section 32-41", ("32-41",)),
        ("chapter 32-41-05", ("32-41-05",)),
        ("ch. 32-41", ("32-41",)),
        ("ch 32 41", ("32-41",)),
        ("ATA chapter 32.41", ("32-41",)),
        ("JASC 3245", ("3245",)),
        ("JASC code 3245", ("3245",)),
        ("brakes 32-41", ("brakes", "32-41")),
        ("ATA 32-41 brakes", ("32-41", "brakes")),
        ("section 32-41, brakes", ("32-41", "brakes")),
        ("05 10 00", ("05-10-00",)),
    ],
)
def test_a_number_is_understood_however_it_is_written(typed, words):
    found = read(typed)
    assert found.question.words == words and found.filters == Filters()
    assert found.numbers


@pytest.mark.parametrize(
    ("typed", "words", "rest"),
    [
        ("32", (), ""),
        ("ATA 32", (), ""),
        ("chapter 32", (), ""),
        ("ch. 32", (), ""),
        ("ch32", (), ""),
        ("JASC 32", (), ""),
        ("brakes chapter 32", ("brakes",), "brakes"),
        ("ch 32 oleo strut", ("oleo", "strut"), "oleo strut"),
        ("Chapter 32 Oleo", ("Oleo",), "Oleo"),
        ('ch 32 "tie bolt" -nose', (), '"tie bolt" -nose'),
    ],
)
def test_a_chapter_becomes_a_filter_and_the_other_words_stay(typed, words, rest):
    found = read(typed)
    assert found.filters == Filters(("32",))
    assert (found.question.words, found.question.text) == (words, rest)
    (taken,) = found.taken
    assert taken.taken_as == "chapter 32 Landing gear"


@pytest.mark.parametrize(
    "typed",
    [
        "2031-07-11",  # a directive
        "AD 2031-07-11",
        "SB 32-0114",
        "D4410-1",
        "MS20470-4",
        "06 12 98",  # may be a date
        "17",  # no chapter of ATA Spec 100
        "chapter 5",
        "section 5",  # of a manual with its own order
        "section V",
        "section 32",
        "AC 43.13-1B chapter 32",  # a chapter of another book
        '"3241"',
        '"chapter 32"',
        "tire -3241",
        "torque 2500 psi",
        "45 lb",
        "10-32 screw",
        "no 8 screw",
    ],
)
def test_other_numbers_are_looked_for_as_typed(typed):
    found, asked = read(typed), parse_question(typed)
    assert (found.question, found.filters, found.taken) == (asked, Filters(), ())


def test_a_bare_number_says_what_it_was_taken_for_and_offers_the_other():
    (taken,) = read("3241").taken
    assert taken.taken_as == "ATA 32-41" and "32-41" in taken.why
    assert [(way.words, way.question, way.as_typed) for way in taken.other] == [
        ("JASC code 3241 (brake anti-skid section)", "JASC 3241", False),
        ("3241 as printed", "3241", True),
    ]


def test_a_jasc_code_offers_the_ata_numbers_it_goes_with():
    (taken,) = read("JASC 3245").taken
    assert taken.taken_as == "JASC code 3245 (tire tube)"
    assert "not ATA 32-45" in taken.why
    assert ("ATA 32", "ATA 32") in [(way.words, way.question) for way in taken.other]


def test_85_is_a_piston_engine_where_no_chapter_85_is_held():
    found = read("85")
    (taken,) = found.taken
    assert found.filters == Filters(("72",)) and taken.taken_as == "JASC group 85"
    assert any(way.question == "ATA 85" for way in taken.other)


@pytest.mark.parametrize(
    ("typed", "why"),
    [
        ("2031", "It may be a year."),
        ("4410", "Nothing here is filed under ATA 44-10."),
        ("27", "Nothing here is filed under chapter 27 Flight controls."),
        ("chapter 27", "Nothing here is filed under chapter 27, so it was looked for as typed."),
        ("JASC 9999", "It is not in the JASC table, so it was looked for as printed."),
    ],
)
def test_a_number_that_stands_for_nothing_here_is_looked_for_as_printed_and_that_is_said(typed, why):
    found = read(typed)
    (taken,) = found.taken
    assert taken.why == why and "as " in taken.taken_as and found.filters == Filters()


def test_four_digits_beside_words_stay_and_the_other_reading_is_offered():
    found = read("cable 2500")
    (taken,) = found.taken
    assert found.question.words == ("cable", "2500") and taken.taken_as == "2500 as printed"
    assert [way.question for way in taken.other] == ["cable ATA 25-00"]


def test_a_chapter_typed_beside_another_one_chosen_is_not_taken():
    found = read("brakes chapter 32", Filters(("24",)))
    assert found.filters == Filters(("24",)) and found.question.words == ("brakes", "chapter", "32")
    assert "chosen" in found.taken[0].why
    same = read("brakes chapter 32", Filters(("32",)))
    assert same.filters == Filters(("32",)) and same.question.words == ("brakes",)


def test_a_question_of_numbers_alone_is_known():
    assert read("32-41").alone and read("chapter 32").alone and read("JASC 3245").alone
    assert not read("brakes 32-41").alone and not read("brakes").alone and not read("4410").alone
