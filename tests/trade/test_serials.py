"""Serial numbers: taking one apart, comparing two, and lists read into ranges.

The set logic is held against the interval library `portion`, which knows nothing of serials. Forms of print:
the trade facts on effectivity, of which only "MB-1 through MB-816, except MB-814" was read in a published
directive (AD 89-24-09); the rest is common practice, no source.
"""

import portion
import pytest
from hypothesis import given
from hypothesis import strategies as some

from indexer.trade.evidence import Answer
from indexer.trade.serial_lists import starts_serials, take_serials
from indexer.trade.serials import Serial, compare_serials, is_registration, parse_serial

YES, NO, CANNOT_TELL = Answer.YES, Answer.NO, Answer.CANNOT_TELL


@pytest.mark.parametrize(
    ("text", "prefix", "joint", "digits", "suffix"),
    [
        ("MB-814", "MB", "-", "814", ""),
        ("qz-001", "QZ", "-", "001", ""),
        ("44-7990001", "44", "-", "7990001", ""),
        ("28R-30005", "28R", "-", "30005", ""),
        ("28-E13", "28-E", "", "13", ""),
        ("17280001", "", "", "17280001", ""),
        ("A1520809", "A", "", "1520809", ""),
        ("172RG0001", "172RG", "", "0001", ""),
        ("62-0101", "62", "-", "0101", ""),
        ("40.006", "40", ".", "006", ""),
        ("1234A", "", "", "1234", "A"),
        ("P\N{EN DASH}12", "P", "-", "12", ""),
    ],
)
def test_a_serial_has_prefix_number_and_suffix(text, prefix, joint, digits, suffix):
    assert parse_serial(text) == Serial(prefix, joint, digits, suffix)


@pytest.mark.parametrize("text", ["", "ALL", "QZ", "12 through 14", "QZ-1, QZ-2"])
def test_what_is_no_single_serial_is_not_taken_apart(text):
    assert parse_serial(text) is None


@pytest.mark.parametrize(
    ("a", "b", "match"),
    [
        ("MB-814", "mb-814", "exact"),
        ("MB\N{EN DASH}814", "MB-814", "exact"),
        ("MB-814", "MB-0814", "loose"),  # leading zeros
        ("QZ077", "QZ-077", "loose"),  # dash
        ("QZ-O77", "QZ-077", "loose"),  # O for 0
        ("I0-150", "10-150", "loose"),  # I for 1
        ("447990001", "44-7990001", "loose"),
        ("MB-814", "MB-815", "different"),
        ("MB-814", "MA-814", "different"),
        ("MB-814", "MB-814A", "different"),
        ("28-4378", "28R-4378", "different"),
    ],
)
def test_two_serials_are_the_same_only_as_written(a, b, match):
    assert compare_serials(a, b) == compare_serials(b, a) == match


@pytest.mark.parametrize(
    ("text", "is_mark"),
    [("N123AB", True), ("N1", True), ("G-ABCD", True), ("QZ-077", False), ("1234", False), ("N-123", False)],
)
def test_a_registration_is_told_from_a_serial(text, is_mark):
    assert is_registration(text) is is_mark


LISTS = [
    ("MB-1 through MB-816, except MB-814", "MB-814", NO),
    ("MB-1 through MB-816, except MB-814", "MB-816", YES),
    ("MB-1 through MB-816, except MB-814", "MB-817", NO),
    ("MB-1 through MB-816, except MB-814", "MD-3", NO),
    ("MB-1 through MB-816, except MB-814", "MB-0010", CANNOT_TELL),
    ("MB-1 through MB-816, except MB-814", "MB-10A", CANNOT_TELL),
    ("MB-1 through MB-816, except MB-814", "814", CANNOT_TELL),  # a number without its prefix
    ("MB-1 through 816", "MB-5", YES),
    ("MB-1 through 816", "MB-900", CANNOT_TELL),  # the end has no prefix: nothing is shut out
    ("MB-1 through MC-5", "MB-3", CANNOT_TELL),  # a range across two prefixes is not a range
    ("MB-1 through MC-5", "ZZ-3", CANNOT_TELL),
    ("44-7990001 to 44-8490112 inclusive", "44-7995000", YES),
    ("44-7990001 to 44-8490112 inclusive", "44-8000001", YES),  # the year 1980
    ("44-7990001 to 44-8490112 inclusive", "44-799000", CANNOT_TELL),  # a digit is missing
    ("44-7990001 to 44-8490112 inclusive", "44-8500001", NO),
    ("1234/1250", "1240", YES),
    ("1234-1250", "1250", YES),
    ("1234-1250", "1251", NO),
    ("1234-1250, 1234-1301", "1240", CANNOT_TELL),  # 1234 is a prefix here
    ("62-0101 and on", "62-0100", NO),
    ("62-0101 and on", "63-0001", CANNOT_TELL),  # prefixes change by year
    ("QZ-001 and on; QZS-001 and on", "QZS-004", YES),
    ("QZ-001 and on; QZS-005 and on", "QZS-004", NO),
    ("prior to 1050", "1050", NO),
    ("up to and including 1050", "1050", YES),
    ("after 1050", "1050", NO),
    ("1050 and prior", "1049", YES),
    ("S/N 1001, 1003 and S/N 1005", "1005", YES),
    ("S/N 1001, 1003 and S/N 1005", "1004", NO),
]


@pytest.mark.parametrize(("text", "serial", "answer"), LISTS)
def test_a_printed_list_holds_a_serial_or_cannot_tell(text, serial, answer):
    taken = take_serials(text, 0)
    assert taken is not None
    assert not text[taken.end :].strip(" ,;.")
    assert taken.serials.holds(parse_serial(serial)) is answer


@pytest.mark.parametrize(
    "text", ["Model QZ62 airplanes", "PA-28-150/160 Cherokee", "airplanes", "except those with", ""]
)
def test_other_words_begin_no_list(text):
    assert not starts_serials(text, 0)


def test_the_list_ends_where_the_next_row_of_a_table_begins():
    text = "MB-1 through MB-816, except MB-814 23, A23 M-1 through M-1879"
    taken = take_serials(text, 0)
    assert text[taken.end :] == " 23, A23 M-1 through M-1879"


numbers = some.integers(min_value=1, max_value=400)
pairs = some.tuples(numbers, numbers).map(sorted)
JOINED = some.sampled_from([" through ", " thru ", " to ", " - "])
OPEN_UP = some.sampled_from([" and on", " & up", " and subsequent", " and after"])


def written(number: int, zeros: bool) -> str:
    return f"QZ-{number:04d}" if zeros else f"QZ-{number}"


@some.composite
def lists(draw) -> tuple[str, portion.Interval, portion.Interval, bool]:
    """A printed list with one prefix, and the same sets in the interval library: included, excepted."""
    zeros = draw(some.booleans())
    words, included = [], portion.empty()
    for low, high in draw(some.lists(pairs, min_size=1, max_size=4)):
        form = draw(some.sampled_from(["range", "range", "single", "up", "before", "until"]))
        if form == "range":
            words.append(written(low, zeros) + draw(JOINED) + written(high, zeros))
            included |= portion.closed(low, high)
        elif form == "single":
            words.append(written(low, zeros))
            included |= portion.singleton(low)
        elif form == "up":
            words.append(written(low, zeros) + draw(OPEN_UP))
            included |= portion.closedopen(low, portion.inf)
        elif form == "before":
            words.append(f"prior to {written(high, zeros)}")
            included |= portion.open(-portion.inf, high)
        else:
            words.append(f"up to and including {written(high, zeros)}")
            included |= portion.openclosed(-portion.inf, high)
    text, excepted = "; ".join(words), portion.empty()
    if draw(some.booleans()):
        out = draw(some.lists(pairs, min_size=1, max_size=3))
        text += ", except " + ", ".join(f"{written(a, zeros)} through {written(b, zeros)}" for a, b in out)
        for a, b in out:
            excepted |= portion.closed(a, b)
    return text, included, excepted, zeros


@given(lists(), some.integers(min_value=1, max_value=500))
def test_membership_agrees_with_the_interval_library(made, number):
    text, included, excepted, zeros = made
    taken = take_serials(text, 0)
    assert taken is not None and not text[taken.end :].strip()
    wanted = YES if number in included - excepted else NO
    if number in excepted and number not in included:
        wanted = CANNOT_TELL  # an exception to nothing proves nothing
    assert taken.serials.holds(parse_serial(written(number, zeros))) is wanted


@given(lists(), some.integers(min_value=1, max_value=500))
def test_written_loosely_a_serial_is_never_shut_out_that_is_in_the_list(made, number):
    text, included, excepted, zeros = made
    loose = parse_serial(f"QZ{number}" if zeros else f"QZ-{number:05d}")
    answer = take_serials(text, 0).serials.holds(loose)
    if number in included - excepted:
        assert answer is not NO
    else:
        assert answer is not YES


@given(some.text(max_size=60))
def test_any_text_can_be_asked_about(text):
    parse_serial(text)
    starts_serials(text, 0)
    take_serials(text, 0)
