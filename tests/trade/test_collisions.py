"""Numbers that mean several things, and how far a JASC code goes.

Outside check: the FAA's JASC Code Table and Definitions of 27 October 2008 (tables/jasc.csv holds its codes
and titles) and what its preface says of engines, stall warning and the fourth digit.
"""

import pytest

from indexer.trade.chapter_tables import jasc_rows
from indexer.trade.chapters import ChapterNumber, Scheme, parse_number
from indexer.trade.collisions import collisions, warnings_for, widened


@pytest.mark.parametrize(
    "asked, said",
    [
        ("85", ("fuel cell", "piston engines", "72")),
        ("72", ("any engine", "turbine engines only", "85")),
        ("72-30", ("any engine",)),
        ("14", ("hardware", "S1000D")),
        ("92", ("military",)),
        ("91", ("S1000D",)),
        ("27", ("3418",)),
        ("27-31", ("3418",)),
        ("34", ("27-30",)),
        ("23", ("25-62", "2562")),
        ("25-62", ("23-24",)),
        ("04", ("05-10", "type certificate data sheet")),
        ("05-10-00", ("chapter 04",)),
        ("2562", ("23-24", "emergency locator beacon")),
        ("3418", ("27-30", "stall warning")),
        ("8530", ("72", "piston engines")),
    ],
)
def test_what_is_said_of_a_number_that_means_several_things(asked, said):
    sentences = " ".join(warnings_for(parse_number(asked)))
    assert all(words in sentences for words in said), sentences


@pytest.mark.parametrize("asked", ["32", "32-41", "27-10", "34-50", "05-20", "28-20-00", "61"])
def test_nothing_is_said_of_a_number_that_means_one_thing(asked):
    assert warnings_for(parse_number(asked)) == ()


def test_a_manual_s_own_section_is_no_collision():
    assert warnings_for(ChapterNumber("14", scheme=Scheme.OWN)) == ()
    assert widened(ChapterNumber("14", scheme=Scheme.OWN)) == ()


@pytest.mark.parametrize("code", sorted(jasc_rows()))
def test_each_code_of_the_table_is_named_and_goes_with_its_chapter(code):
    number = parse_number(code)
    assert jasc_rows()[code].title.lower() in warnings_for(number)[0]
    assert f"not ATA {code[:2]}-{code[2:]}" in warnings_for(number)[0] or code.startswith("14")
    stated = {"14": [], "85": ["72"]}.get(code[:2], ["27"] if code == "3418" else [code[:2]])
    assert [str(each) for each in widened(number)[-1:]] == stated
    for each in widened(number)[:-1]:
        assert code == "3418" or str(each) == f"{code[:2]}-{code[2]}0"
        assert not jasc_rows()[code].title.endswith("WIRING")


@pytest.mark.parametrize(
    "code, numbers",
    [
        ("3245", ["32-40", "32"]),  # a tire tube is of the wheels and brakes
        ("3200", ["32"]),
        ("3297", ["32"]),  # wiring
        ("3418", ["27-30", "27"]),  # the preface: stall warning was ATA 27-30
        ("5347", ["53"]),  # structure is broken down more finely than in ATA Spec 100
        ("7230", ["72"]),
        ("8530", ["72"]),
        ("1430", []),
    ],
)
def test_how_far_a_jasc_code_goes(code, numbers):
    assert [str(each) for each in widened(parse_number(code))] == numbers


def test_the_table_bears_out_what_is_said_of_engines_hardware_and_stall_warning():
    titles = {code: row.title for code, row in jasc_rows().items()}
    assert titles["3418"].startswith("STALL WARNING")
    assert not [title for code, title in titles.items() if code[:2] == "85" and "TURBINE" in title]
    assert not [title for code, title in titles.items() if code[:2] == "72" and "RECIP" in title]
    assert titles["1430"] == "FASTENERS"
    assert titles["2562"].startswith("EMERGENCY LOCATOR")


def test_an_ata_number_goes_with_itself():
    number = parse_number("32-41-00")
    assert widened(number) == (number,)


def test_each_sentence_has_its_source():
    assert all(each.source and each.sentence.endswith(".") for each in collisions())
