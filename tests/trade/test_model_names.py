"""Model names: which two are one model, which may be, and which are two.

Short forms and type names as printed in Federal Register titles of 2020 to 2026 (AD summaries); the rest is
common practice, no source.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as some

from indexer.trade.model_names import ModelMatch, compare_models, written_out

PAIRS = [
    ("QZ62S", "QZ62S", "same"),
    ("qz-62s", "QZ62S", "same"),
    ("AS 350 B3", "AS350B3", "same"),
    ("Aldermoor QZ62", "QZ62", "same"),
    ("QZ62", "QZ62 OUZEL", "same"),
    ("QZ62S", "QZ62S OUZEL SURVEY", "same"),
    ("PA-28-180", "PA-28-180 Archer II", "same"),
    ("QZ62S", "QZ62", "kin"),
    ("QZ62", "QZ62S", "kin"),
    ("172N", "172", "kin"),
    ("172", "R172K", "kin"),
    ("T182", "182", "kin"),
    ("PA-28", "PA-28-140", "kin"),
    ("28-140", "PA-28-140", "kin"),
    ("A330-301", "A330", "kin"),
    ("PA-28-160", "PA-28-150/160", "kin"),
    ("A330-200", "A330-200 Freighter", "kin"),
    ("100", "KODIAK 100", "kin"),
    ("Learjet 35", "35", "kin"),  # a popular name and a bare number: of another maker, perhaps
    ("King Air 350", "B300", "kin"),  # a popular name says nothing of the type's number
    ("Q262", "QZ62", "different"),
    ("IO-320", "10-320", "kin"),  # lookalike letters
    ("A35", "B35", "different"),
    ("A330-301", "A330-322", "different"),
    ("737-8", "737-800", "different"),
    ("177", "77", "different"),
    ("DC-9-81", "DC-9-82", "different"),
    ("TBM 700", "KODIAK 100", "different"),
    ("BD-700-1A10", "BD-500-1A10", "different"),
]


@pytest.mark.parametrize(("asked", "listed", "match"), PAIRS)
def test_two_names_are_one_model_kin_or_different(asked, listed, match):
    assert compare_models(asked, listed) == match


def test_a_maker_that_the_text_names_may_be_set_aside():
    assert compare_models("Cessna 172N", "210L", frozenset({"CESSNA"})) is ModelMatch.DIFFERENT
    assert compare_models("Cessna 172N", "210L") is ModelMatch.KIN


@pytest.mark.parametrize(
    ("short", "before", "whole"),
    [
        ("-8200", "737-8", "737-8200"),
        ("-321", "A330-301", "A330-321"),
        ("-1B64/P2", "GEnx-1B64/P1", "GEnx-1B64/P2"),
        ("-402", "DHC-8-401", "DHC-8-402"),
        ("-10F", "DC-10-10", "DC-10-10F"),
    ],
)
def test_a_short_form_leans_on_the_name_before(short, before, whole):
    assert written_out(short, before) == whole


@given(some.text(max_size=30), some.text(max_size=30))
def test_any_two_texts_can_be_compared(asked, listed):
    assert compare_models(asked, listed) in ModelMatch


@given(some.from_regex(r"[A-Z]{1,3}-?[0-9]{1,4}[A-Z]?", fullmatch=True))
def test_a_name_is_the_same_as_itself_however_it_is_spaced(name):
    assert compare_models(name.lower(), name.replace("-", " ")) is ModelMatch.SAME
