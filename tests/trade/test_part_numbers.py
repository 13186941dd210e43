"""Part numbers: which two ways of writing are one number, and which are two parts.

The pairs stand in data/part_number_pairs.csv; data/SOURCES.md says for each group what it rests on.
"""

import csv
import random
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from indexer.trade.dashes import plain_dashes
from indexer.trade.part_numbers import (
    Match,
    compare,
    find_part_numbers,
    loose_key,
    match_with,
    normalised,
    without_words,
)

DATA = Path(__file__).parent / "data"


def pairs():
    """Rows of the table; what cannot be seen in a text file is written \\u00a0 there."""
    with open(DATA / "part_number_pairs.csv", encoding="ascii", newline="") as table:
        for row in csv.DictReader(table):
            a, b = (row[side].encode("ascii").decode("unicode_escape") for side in "ab")
            yield pytest.param(a, b, Match(row["match"]), id=f"{row['a']} {row['b']}")


PAIRS = list(pairs())


def test_there_are_enough_pairs_and_no_pair_stands_twice():
    found = [frozenset(pair.values[:2]) for pair in PAIRS]
    assert len(set(found)) == len(found) >= 150


def test_every_group_says_what_it_rests_on():
    with open(DATA / "part_number_pairs.csv", encoding="ascii", newline="") as table:
        groups = {row["group"] for row in csv.DictReader(table)}
    sources = (DATA / "SOURCES.md").read_text(encoding="utf-8")
    assert [group for group in sorted(groups) if f"| {group} |" not in sources] == []


@pytest.mark.parametrize(("a", "b", "match"), PAIRS)
def test_pairs(a, b, match):
    assert compare(a, b) is match
    assert compare(b, a) is match


@pytest.mark.parametrize(("a", "b", "match"), PAIRS)
def test_what_ocr_read_is_never_better_than_loose(a, b, match):
    assert match_with(a, b, read_by_ocr=False) is match
    capped = Match.DIFFERENT if match is Match.DIFFERENT else Match.LOOSE
    assert match_with(a, b, read_by_ocr=True) is capped


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("P/N AN4-12A", "AN4-12A"),
        ("p/n:an4-12a ", "an4-12a"),
        ("P/N NAS6604-12", "NAS6604-12"),
        ("PART NO. S1450-5", "S1450-5"),
        ("PN. 4410", "4410"),
        ("PN4410", "PN4410"),
        ("NSN 5365-01-343-0789", "5365-01-343-0789"),
        ("PARTNER-1", "PARTNER-1"),
    ],
)
def test_without_words(text, number):
    assert without_words(text) == number


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("an4-12a", "AN4-12A"),
        ("MS 20470-AD4 6", "MS20470AD4-6"),
        ("M83248/1-906", "M83248-1-906"),
        ("65.12345.2", "65-12345-2"),
        ("AN412A", "AN412A"),
    ],
)
def test_normalised(text, key):
    assert normalised(text) == key


NUMBERS = st.text(alphabet="ANM4120OILl|S5B8RrnN-/. 7\u2013\u00a0", min_size=1, max_size=10)
WRITTEN = st.one_of(NUMBERS, NUMBERS.map("P/N {}".format), NUMBERS.map("PN{}".format))


@st.composite
def alike(draw):
    """Two numbers that may well agree: the second is the first, some characters written otherwise."""
    a = draw(WRITTEN)
    swaps = {
        "0": "O-0",
        "1": "lI|-1",
        "5": "S-5",
        "8": "B-8",
        "O": "0",
        "S": "5",
        "B": "8",
        "l": "1",
        "-": " /",
    }
    return a, "".join(draw(st.sampled_from([c, *swaps.get(c, ""), c.lower()])) for c in a)


@settings(deadline=None)  # how long it takes is measured elsewhere
@given(st.one_of(st.tuples(WRITTEN, WRITTEN), alike()))
def test_what_agrees_shares_the_loose_key(two):
    a, b = two
    if compare(a, b) is not Match.DIFFERENT:
        assert loose_key(a) == loose_key(b)


@settings(deadline=None)  # how long it takes is measured elsewhere
@given(st.one_of(st.tuples(WRITTEN, WRITTEN), alike()))
def test_order_does_not_matter(two):
    a, b = two
    assert compare(a, b) is compare(b, a)


@settings(deadline=None)  # how long it takes is measured elsewhere
@given(st.one_of(st.tuples(WRITTEN, WRITTEN), alike()))
def test_exact_means_the_same_characters(two):
    a, b = two
    if compare(a, b) is Match.EXACT:
        assert plain_dashes(a).strip() == plain_dashes(b).strip()


@settings(deadline=None)  # how long it takes is measured elsewhere
@given(NUMBERS)
def test_a_number_is_itself(a):
    expected = Match.EXACT if loose_key(a) else Match.DIFFERENT
    assert compare(a, a) is expected


@settings(deadline=None)  # how long it takes is measured elsewhere
@given(
    st.from_regex(r"AN[0-9]{1,3}-[0-9]{1,3}A?", fullmatch=True),
    st.from_regex(r"AN[0-9]{1,3}-[0-9]{1,3}A?", fullmatch=True),
)
def test_two_bolts_written_with_their_dash_are_one_only_when_equal(a, b):
    assert (compare(a, b) is Match.DIFFERENT) == (a != b)


CONFUSED = {"0": "O", "1": "Il", "5": "S", "8": "B", "O": "0", "I": "1", "S": "5", "B": "8", "M": ["rn"]}
MADE = ["AN{a}-{b}A", "MS{c}AD{a}-{b}", "NAS{c}-{a}D", "QZ{b}-{c}-{a}", "M{c}/{a}-{b}", "B{c}S{a}"]


def degraded(number, chance):
    """The number with one character or more read wrong; as it stands when none of them looks like another."""
    at = [i for i, character in enumerate(number) if character in CONFUSED]
    wrong = set(chance.sample(at, k=chance.randint(1, len(at)))) if at else set()
    return "".join(chance.choice(CONFUSED[c]) if i in wrong else c for i, c in enumerate(number))


def test_of_2000_degraded_rows_none_is_exact_or_normalised():
    chance = random.Random(20)
    rows = 0
    while rows < 2000:
        number = chance.choice(MADE).format(
            a=chance.randint(1, 20), b=chance.randint(1, 99), c=chance.randint(1000, 99999)
        )
        read = degraded(number, chance)
        if read == number:
            continue
        rows += 1
        assert compare(number, read) is Match.LOOSE, (number, read)
        assert loose_key(number) == loose_key(read)
        assert match_with(number, read, read_by_ocr=True) is Match.LOOSE
        assert match_with(number, number, read_by_ocr=True) is Match.LOOSE  # nor when nothing was misread


@pytest.mark.parametrize(
    ("text", "numbers"),
    [
        ("Install bolt AN4-12A and rivets MS20470AD4-6.", ["AN4-12A", "MS20470AD4-6"]),
        ("washer NAS1149F0363P, O-ring M83248/1-906", ["NAS1149F0363P", "M83248/1-906"]),
        ("Order P/N D4410-1 (2 off)", ["D4410-1"]),
        ("Part Number: C165001-0101.", ["C165001-0101"]),
        ("part numbers 65-12345-1", ["65-12345-1"]),
        ("P/N MS24665-132", ["MS24665-132"]),
        ("P/N UNKNOWN", []),
        ("AS350B2 helicopters", []),
        ("AN-24 airplane, AND so on, MS office", []),
        ("AD 2024-25-51", []),
        ("AN" + "1" * 60 + "_", []),
    ],
)
def test_find_part_numbers(text, numbers):
    assert [found.text for found in find_part_numbers(text)] == numbers
    for found in find_part_numbers(text):
        assert text[found.start : found.end] == found.text
