"""Look-alikes folded into one (the confusions of OCR: common practice, no source)."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from indexer.trade.misreadings import LOOK_ALIKES, folded, looks_like


@pytest.mark.parametrize("group", LOOK_ALIKES)
def test_every_member_of_a_group_is_one(group):
    assert len({folded(f"x{member}x") for member in group}) == 1
    assert len({looks_like(f"x{member}x") for member in group}) == 1


@pytest.mark.parametrize(
    ("printed", "read"),
    [
        ("O-ring", "0-rlng"),
        ("solenoid", "5o1enoid"),
        ("turn", "tum"),
        ("MS20470AD4-6", "M52O47OAD4-6"),
        ("washer, 1/8", "wa5her, l/B"),
    ],
)
def test_what_is_read_wrong_folds_to_what_is_printed(printed, read):
    assert folded(printed) == folded(read)
    assert looks_like(printed) == looks_like(read)


@pytest.mark.parametrize(
    ("a", "b"), [("AN4-12", "AN4-13"), ("2", "Z"), ("6", "G"), ("D", "0"), ("C", "G"), ("turn", "torn")]
)
def test_other_characters_stay_apart(a, b):
    assert folded(a) != folded(b)


def test_a_capital_l_looks_like_no_figure():
    assert looks_like("AN960-416L") != looks_like("AN960-4161")
    assert looks_like("AN960-416l") == looks_like("AN960-4161")
    assert folded("AN960-416L") == folded("AN960-4161")  # a key only


@given(st.text(alphabet="OoIilL|1SsBb058rnRNmM-x "))
def test_folding_twice_changes_nothing_and_case_is_lost(text):
    assert folded(folded(text)) == folded(text)
    assert folded(text.lower()) == folded(text) == folded(text.upper())
    assert folded(looks_like(text)) == folded(text)
