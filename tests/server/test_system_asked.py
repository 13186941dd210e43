"""What a question for a system is taken to mean, and how far numbers reach.

Outside check: the FAA's JASC Code Table and Definitions of 27 October 2008 and its preface (three digits at
most agree with ATA; 85 and 3418 stand elsewhere); the S1000D numbering list for 14 and 85. Which word means
which system: common practice, no source, unless a title of the JASC table has it.
"""

import pytest

from indexer.errors import UnknownChapter
from indexer.trade.chapters import ChapterNumber, Scheme, parse_number
from server.system_asked import number_name, numbers_meant, system_title
from server.system_scope import Reach, chapters_to_read, reach
from server.system_words import UnknownSystem, is_title, no_systems, systems_meant


def number(text):
    if text.startswith("SNS "):
        return parse_number(text[4:], Scheme.SNS)
    return parse_number(text)


@pytest.mark.parametrize(
    ("asked", "taken", "others"),
    [
        ("32", "32", []),
        ("ATA 32", "32", []),
        ("chapter 32", "32", []),
        ("Chapter 5", "05", []),
        ("32-41", "32-41", ["JASC 3241", "32"]),
        ("32.41.00", "32-41-00", ["32"]),
        ("324100", "32-41-00", ["32"]),
        ("32 41", "32-41", ["JASC 3241", "32"]),
        ("ATA 32-41-05", "32-41-05", ["32"]),
        ("3245", "JASC 3245", ["32-45", "32"]),
        ("JASC 3245", "JASC 3245", ["32-45", "32"]),
        ("ATA 3245", "32-45", ["JASC 3245", "32"]),
        ("3299", "32-99", ["32"]),  # no JASC code
        ("85", "JASC 85", ["85", "SNS 85", "72"]),  # piston engine to the FAA
        ("ATA 85", "85", ["JASC 85", "SNS 85"]),
        ("14", "JASC 14", ["SNS 14"]),  # hardware; ATA Spec 100 has no 14
        ("3418", "JASC 3418", ["34-18", "27"]),  # stall warning: ATA 27
        ("SNS 32-41", "SNS 32-41", ["JASC 3241", "32"]),
        ("TASK 32-41-00-400-801", "32-41-00", ["32"]),
    ],
)
def test_a_number_written_any_way_says_what_it_was_taken_for_and_what_else_it_could_be(asked, taken, others):
    first, *rest = numbers_meant(asked)
    assert number_name(first.number) == taken
    assert [number_name(meaning.number) for meaning in rest] == others
    assert all(meaning.reason for meaning in (first, *rest))


@pytest.mark.parametrize("asked", ["17", "ATA 14", "chapter 99x", "JASC 9900", "SNS x", "1717"])
def test_a_chapter_that_there_is_not_is_refused_or_left_to_the_words(asked):
    try:
        assert numbers_meant(asked) == ()
    except UnknownChapter as problem:
        assert asked in problem.what


@pytest.mark.parametrize("asked", ["brakes", "main wheel", "torque 32 in-lb", "MS20470-4"])
def test_words_are_no_number(asked):
    assert numbers_meant(asked) == ()


@pytest.mark.parametrize(
    ("asked", "held", "expected"),
    [
        ("32", "32-41-05", Reach.ON),
        ("32", "3245", Reach.ON),
        ("32", "SNS 32-41", Reach.ON),
        ("32-40", "32-41", Reach.ON),
        ("32-41", "32-41-00", Reach.ON),
        ("32-41-00", "32-41-05", Reach.ON),
        ("32-41", "32", Reach.WIDER),
        ("32-41", "32-00-00", Reach.WIDER),
        ("32-41", "32-40", Reach.WIDER),
        ("3245", "32", Reach.WIDER),
        ("32-41", "3200", Reach.WIDER),
        ("32-41", "3241", Reach.WITH_CARE),  # the brake anti-skid section of JASC is not 32-41
        ("32-41", "3297", Reach.WITH_CARE),  # wiring of the whole system
        ("3245", "32-42-00", Reach.WITH_CARE),
        ("32-41", "SNS 32-41", Reach.WITH_CARE),
        ("57-10", "5730", Reach.WITH_CARE),  # structure: the third digit says nothing
        ("27-30", "3418", Reach.WITH_CARE),
        ("32-41", "32-21", Reach.ELSEWHERE),
        ("32-41", "3222", Reach.ELSEWHERE),
        ("3245", "32-21-00", Reach.ELSEWHERE),
        ("72", "8530", Reach.ON),  # ATA keeps both kinds of engine in 72
        ("27", "3418", Reach.ON),
        ("34", "3418", Reach.OUTSIDE),
        ("32", "33-40-00", Reach.OUTSIDE),
        ("72", "7200", Reach.ON),
    ],
)
def test_how_near_a_number_stands_to_the_one_asked_for(asked, held, expected):
    assert reach(number(asked), number(held)) is expected


def test_a_manuals_own_numbers_are_no_chapter():
    own = ChapterNumber("32", scheme=Scheme.OWN)
    assert reach(number("32"), own) is Reach.OUTSIDE


def test_numbers_of_other_groups_are_read_where_their_chapter_is_asked_for():
    assert set(chapters_to_read(number("72"))) == {"72", "85"}
    assert "34" in chapters_to_read(number("27"))


@pytest.mark.parametrize(
    ("words", "taken"),
    [
        ("landing gear", "32"),  # title of the chapter
        ("brakes", "32-40"),  # JASC 3240 landing gear brake system, 3242 brake
        ("Brake", "32-40"),
        ("tire", "32-40"),  # JASC 3244
        ("jug", "72"),  # a cylinder: JASC 8530, under ATA 72
        ("stall warning", "27-30"),  # JASC 3418
        ("magneto", "74-10"),  # JASC 7414 magneto/distributor
        ("oxygen", "35"),
    ],
)
def test_words_lead_to_the_system_that_the_lists_of_the_trade_have_them_under(words, taken):
    first = systems_meant(words, {})[0]
    assert number_name(first.number) == taken
    assert first.reason


def test_an_abbreviation_stands_for_the_systems_of_its_meanings_and_for_no_other():
    found = systems_meant("TR", {"32": 40})  # temporary revisions of chapter 32
    assert [number_name(meaning.number) for meaning in found] == ["78", "24"]
    assert found[0].reason == "TR can mean thrust reverser."
    assert no_systems("TR") == ("temporary revision",) and no_systems("brakes") == ()
    with pytest.raises(UnknownSystem):
        systems_meant("DER", {})  # a person, or the end of a runway


def test_a_chapter_of_that_very_title_comes_first():
    assert number_name(systems_meant("engine", {})[0].number) == "72"
    assert is_title(number("72"), "engines") and not is_title(number("76"), "engine")
    assert is_title(number("32"), "landing gear") and not is_title(number("32-40"), "brakes")


def test_what_is_done_and_where_is_no_part_of_a_systems_name():
    for words, subject in (
        ("bleed the brakes", ()),
        ("brakes Hedgeling", ("brakes",)),
        ("replace brakes Hedgeling", ("replace", "brakes")),
    ):
        found = systems_meant(words, {"05": 9}, each_word=True, subject=subject)
        assert number_name(found[0].number) == "32-40"


def test_several_systems_are_offered_with_the_reason_of_each():
    numbers = [number_name(meaning.number) for meaning in systems_meant("brakes", {})]
    assert "63-20" in numbers, "JASC 6321, main rotor brake"


def test_where_this_library_has_the_words_counts():
    assert number_name(systems_meant("fuel pump", {"73": 9, "28": 1})[0].number).startswith("73")
    assert number_name(systems_meant("fuel pump", {"73": 1, "28": 9})[0].number).startswith("28")
    only_here = systems_meant("zeppelin", {"52": 4})
    assert number_name(only_here[0].number) == "52" and "4 of 4 passages" in only_here[0].reason


def test_words_that_lead_nowhere_say_so():
    with pytest.raises(UnknownSystem) as problem:
        systems_meant("zeppelin", {})
    assert "zeppelin" in problem.value.what and "search" in problem.value.remedy
    assert systems_meant("oxygen zeppelin", {}, each_word=True)[0].number == number("35")


@pytest.mark.parametrize(
    ("text", "title"),
    [
        ("32", "Landing gear"),
        ("32-40", "Landing gear: brake system"),
        ("3245", "Tire tube"),
        ("72", "Engine"),
    ],
)
def test_the_title_of_a_system(text, title):
    assert system_title(number(text)) == title
