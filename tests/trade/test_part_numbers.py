"""Part numbers: which two ways of writing are one number, and which are two parts.

Standards notation (AN, MS, NAS, NASM, M): from memory and common practice, no source.
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from indexer.trade.part_numbers import Match, compare, find_part_numbers, loose_key, normalised

PAIRS = [
    # the same, apart from blanks around it
    ("AN4-12A", "AN4-12A", "exact"),
    (" AN4-12A ", "AN4-12A", "exact"),
    ("MS20470AD4-6", "MS20470AD4-6", "exact"),
    ("D1234-5-13", "D1234-5-13\n", "exact"),
    # the same, written another way
    ("an4-12a", "AN4-12A", "normalised"),
    ("AN 4-12A", "AN4-12A", "normalised"),
    ("AN4–12A", "AN4-12A", "exact"),  # the dash of print
    ("AN4/12A", "AN4-12A", "normalised"),
    ("AN412A", "AN4-12A", "normalised"),  # no separator at all on one side
    ("MS20470 AD 4-6", "MS20470AD4-6", "normalised"),
    ("MS20470-AD4-6", "MS20470AD4-6", "normalised"),
    ("MS 20470 AD4-6", "MS20470AD4-6", "normalised"),
    ("MS20470AD46", "MS20470AD4-6", "normalised"),
    ("MS21044-N3", "MS21044N3", "normalised"),
    ("MS21044 N3", "MS21044N3", "normalised"),
    ("MS24665-132", "MS 24665-132", "normalised"),
    ("MS24665-132", "MS24665 132", "normalised"),
    ("NAS1149F0363P", "NAS1149-F0363P", "normalised"),
    ("NAS 1149F0363P", "NAS1149F0363P", "normalised"),
    ("NAS1305-10D", "NAS1305 10D", "normalised"),
    ("AN960-416L", "AN960 416L", "normalised"),
    ("AN960-416L", "AN960416L", "normalised"),
    ("AN365-428A", "an365 - 428a", "normalised"),
    ("M83248/1-906", "M83248-1-906", "normalised"),
    ("M83248/1-906", "M83248/1 906", "normalised"),
    ("65-12345-2", "65 12345 2", "normalised"),
    ("65-12345-2", "65123452", "normalised"),
    ("146A7500-1", "146A7500.1", "normalised"),
    ("D.4410-1", "D4410-1", "normalised"),
    # the same only if letters and digits that look alike are one
    ("AN4-I2A", "AN4-12A", "loose"),
    ("AN4-l2A", "AN4-12A", "loose"),
    ("MS2O470AD4-6", "MS20470AD4-6", "loose"),
    ("NAS1149FO363P", "NAS1149F0363P", "loose"),
    ("M83248/I-9O6", "M83248/1-906", "loose"),
    ("1O1-384O15-3", "101-384015-3", "loose"),
    ("C165OO1-0101", "C165001-0101", "loose"),
    ("IO-540-C4B5", "10-540-C4B5", "loose"),
    # two parts: the dash number, the letter or the size is another
    ("AN4-12A", "AN4-12", "different"),  # A: no cotter hole (AN bolts)
    ("AN4-H12A", "AN4-12A", "different"),  # H: drilled head
    ("AN4H12A", "AN4-12A", "different"),
    ("AN4C12A", "AN4-12A", "different"),  # C: corrosion-resistant steel
    ("AN4DD12A", "AN4-12A", "different"),  # DD: aluminium alloy
    ("AN4-12", "AN41-2", "different"),  # 1/4 inch bolt; a dash moved makes another standard
    ("AN4-12", "AN4-1-2", "different"),
    ("AN4-12A", "AN5-12A", "different"),
    ("AN4-12A", "AN4-13A", "different"),
    ("AN4-12A", "AN4-120A", "different"),
    ("AN4-12A", "AN14-12A", "different"),
    ("AN960-416L", "AN960-416", "different"),  # L: thin washer
    ("AN960-416", "AN960-4-16", "different"),
    ("AN960C416", "AN960-416", "different"),
    ("AN960PD416", "AN960-416", "different"),
    ("AN365-428A", "AN365-428", "different"),
    ("AN365-428A", "MS20365-428A", "different"),  # superseding standards are not the same number
    ("AN4-12A", "NAS6604-12", "different"),
    ("MS20470AD4-6", "MS20470AD4-7", "different"),  # rivet length
    ("MS20470AD4-6", "MS20470AD5-6", "different"),  # rivet diameter
    ("MS20470AD4-6", "MS20470DD4-6", "different"),  # rivet alloy
    ("MS20470AD4-6", "MS20426AD4-6", "different"),  # universal and countersunk head
    ("MS20470AD4-6", "NAS1097AD4-6", "different"),
    ("MS20470-4", "MS2047-04", "different"),
    ("MS20470AD4-16", "MS20470AD41-6", "different"),
    ("MS24665-132", "MS24665-134", "different"),
    ("MS21044N3", "MS21044C3", "different"),
    ("MS21044N3", "MS21042-3", "different"),
    ("NAS1149F0363P", "NAS1149F0332P", "different"),  # washer thickness
    ("NAS1149F0363P", "NAS1149C0363R", "different"),
    ("NAS1305-10D", "NAS1305-10", "different"),
    ("NAS1305-10", "NAS1305-1-0", "different"),
    ("M83248/1-906", "M83248/2-906", "different"),
    ("M83248/1-906", "M83248/19-06", "different"),
    ("65-12345-1", "65-12345-2", "different"),  # left and right, by habit
    ("65-12345-2", "65-1234-52", "different"),
    ("C165001-0101", "C165001-0102", "different"),
    ("D4410-1", "D4410-01", "different"),  # leading zeros: cannot tell, so never the same
    ("D4410", "D4410-1", "different"),
    ("", "AN4-12A", "different"),
    ("", "", "different"),
    ("-", "-", "different"),
]


def test_there_are_enough_pairs():
    assert len({frozenset(pair[:2]) for pair in PAIRS}) >= 60


@pytest.mark.parametrize(("a", "b", "match"), PAIRS)
def test_pairs(a, b, match):
    assert compare(a, b) is Match(match)
    assert compare(b, a) is Match(match)


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


NUMBERS = st.text(alphabet="AN4120OIl-/. 7", min_size=1, max_size=10)


@settings(deadline=None)  # how long it takes is measured elsewhere
@given(NUMBERS, NUMBERS)
def test_what_agrees_shares_the_loose_key(a, b):
    if compare(a, b) is not Match.DIFFERENT:
        assert loose_key(a) == loose_key(b)


@settings(deadline=None)  # how long it takes is measured elsewhere
@given(NUMBERS, NUMBERS)
def test_order_does_not_matter(a, b):
    assert compare(a, b) is compare(b, a)


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
