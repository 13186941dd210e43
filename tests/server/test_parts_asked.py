"""What a question about parts is taken for. The written forms are common practice, no source."""

import pytest

from indexer.errors import QueryProblem
from server.parts_asked import PartsKind, parts_asked
from server.parts_words import folded_number


@pytest.mark.parametrize(
    ("q", "section", "figure", "item"),
    [
        ("fig 14 item 7", "", "14", "7"),
        ("Fig. 14, item 7", "", "14", "7"),
        ("figure 5-2 item 3", "", "5-2", "3"),
        ("FIGURE 5-2 ITEM 15A", "", "5-2", "15A"),
        ("fig 14 sheet 2 item 7", "", "14", "7"),
        ("item 7 of fig 14", "", "14", "7"),
        ("item -7, figure 14", "", "14", "7"),  # "-" = not illustrated, and no part of the item
        ("figure 14", "", "14", ""),
        ("32-42-00 fig 1 item 15", "32-42-00", "1", "15"),
        ("32-42 figure 01, item 15", "32-42", "01", "15"),
        ("item 15A fig 1 32-42-00", "32-42-00", "1", "15A"),
        ("fig 1 32-42 item 15", "32-42", "1", "15"),
        ("fig 1, item 15 in section 32-42-00", "32-42-00", "1", "15"),
        ("32-42-00-01-15", "32-42-00", "01", "15"),
        ("32-42-00-01-15A", "32-42-00", "01", "15A"),
        ("32–42–00–01–15", "32-42-00", "01", "15"),
        ("32-42-00-01 item 15", "32-42-00", "01", "15"),
    ],
)
def test_a_place_is_told_in_every_written_form(q, section, figure, item):
    asked = parts_asked(q)
    assert asked.kind is PartsKind.PLACE
    assert (asked.section, asked.figure, asked.item) == (section, figure, item)


@pytest.mark.parametrize(
    ("q", "number"),
    [
        ("AN4-12A", "AN4-12A"),
        ("an4 12a", "an4 12a"),
        ("MS 20470-4", "MS 20470-4"),
        ("p/n 65-1234-1", "65-1234-1"),
        ("P/N: 65-1234", "65-1234"),
        ("part number QZ28-2210", "QZ28-2210"),
        ("1234", "1234"),
    ],
)
def test_a_number_is_told_from_words(q, number):
    asked = parts_asked(q)
    assert (asked.kind, asked.text) == (PartsKind.NUMBER, number)


@pytest.mark.parametrize(
    "q", ["brake lining", "jug", "hex bolt AN4", "part", "bolt 3/8 inch", "figure eight", "no 3 cylinder"]
)
def test_words_stay_words(q):
    assert parts_asked(q).kind is PartsKind.WORDS


def test_a_number_of_five_groups_may_be_a_part_number_as_well():
    assert parts_asked("32-42-00-01-15").number
    assert not parts_asked("32-42-00 fig 1 item 15").number


def test_figure_and_item_narrow_words_and_numbers():
    asked = parts_asked("AN4-12A", figure="14", item="7")
    assert (asked.kind, asked.figure, asked.item) == (PartsKind.NUMBER, "14", "7")
    assert parts_asked("", figure="14", item="7").kind is PartsKind.PLACE


@pytest.mark.parametrize(("q", "item"), [("", ""), ("  ", ""), ("-", ""), ("", "7"), ("x" * 501, "")])
def test_what_names_no_part_is_a_clear_error(q, item):
    with pytest.raises(QueryProblem) as problem:
        parts_asked(q, item=item)
    assert problem.value.remedy


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("01", "1", True),
        ("32-42-00", "32.42.00", True),
        ("15a", "15A", True),
        ("15", "15A", False),
        ("-15", "15", True),
        ("10", "1", False),
        ("5-2", "52", False),
        ("0", "", False),
    ],
)
def test_figures_and_items_are_one_however_they_are_written(one, other, same):
    assert (folded_number(one) == folded_number(other)) is same
