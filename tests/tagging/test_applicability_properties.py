"""What may never happen when words are added to a printed applicability, or less is known of the aircraft."""

import csv
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from indexer.tagging.applicability import read_applicability
from indexer.trade.applies import Applies

FORMS = Path(__file__).parent / "data" / "applicability_forms.csv"
with FORMS.open(encoding="utf-8", newline="") as file:
    ROWS = [row for row in csv.DictReader(file) if row["text"]]

# Clauses that reach more than what stands before them: after them nothing is shut out.
WIDER = [
    " This AD also applies to airplanes with kit 9 installed.",
    " Also any airplane with part number ZZ-55 installed.",
    " (99) Any airplane with a part from the affected lot.",
    ", and those airplanes modified by Service Bulletin 7",
    "; and any airplane with kit 9",
    ", including but not limited to airplanes with kit 9",
    " Other airplanes may be affected.",
    " Spare parts of the same kind are affected too.",
]
# Words that narrow: after them nothing simply applies. At the end of the last numbered item they narrow that
# item only.
NARROWER = [
    ", that have kit 9 installed",
    ", unless modified by Service Bulletin 7",
    ", as identified in Service Bulletin 7",
    ", on which Modification 7 has not been done",
    ", manufactured before June 1, 1999",
    ", with frobnicated widgets",
    " This does not concern airplanes with kit 9.",
]


def asked(row: dict[str, str], text: str) -> Applies:
    return read_applicability(text).applies(row["model"], row["serial"]).answer


def added(text: str, more: str) -> str:
    text = text.rstrip(" .,;")
    return f"{text}.{more}" if more.startswith(" ") else f"{text}{more}"


@pytest.mark.parametrize("more", WIDER)
def test_words_that_reach_more_leave_nothing_shut_out(more):
    wrong = [row for row in ROWS if asked(row, added(row["text"], more)) is Applies.DOES_NOT_APPLY]
    assert wrong == []


@pytest.mark.parametrize("more", NARROWER)
def test_words_that_narrow_leave_nothing_that_simply_applies(more):
    whole = [row for row in ROWS if "(1)" not in row["text"]]
    wrong = [row for row in whole if asked(row, added(row["text"], more)) is Applies.APPLIES]
    assert wrong == []


@pytest.mark.parametrize("more", NARROWER)
def test_words_that_narrow_shut_out_nothing_that_was_in_or_in_doubt(more):
    wrong = [
        row
        for row in ROWS
        if row["answer"] != Applies.DOES_NOT_APPLY
        and asked(row, added(row["text"], more)) is Applies.DOES_NOT_APPLY
    ]
    assert wrong == []


def test_an_unknown_serial_shuts_out_only_what_the_model_alone_shuts_out():
    for row in ROWS:
        answer = read_applicability(row["text"]).applies(row["model"], "")
        if answer.answer is Applies.DOES_NOT_APPLY:
            assert row["answer"] != Applies.APPLIES, row
            assert "Model" in answer.why


def test_an_unknown_aircraft_is_never_shut_out():
    for row in ROWS:
        assert read_applicability(row["text"]).applies("", "").answer is not Applies.DOES_NOT_APPLY, row


def test_a_registration_in_place_of_a_serial_is_as_good_as_none():
    for row in ROWS:
        applicability = read_applicability(row["text"])
        with_mark = applicability.applies(row["model"], "N123AB").answer
        without = applicability.applies(row["model"], "").answer
        assert with_mark is without, row


@settings(max_examples=300)
@given(
    some.sampled_from(ROWS),
    some.lists(
        some.sampled_from(["zorp", "quibbly", "nexting", "of parts", "flanges"]), min_size=1, max_size=3
    ),
    some.floats(min_value=0, max_value=1),
)
def test_words_nobody_knows_prove_nothing_wherever_they_stand(row, unknown, share):
    pieces = row["text"].split(" ")
    place = round(share * len(pieces))
    text = " ".join([*pieces[:place], *unknown, *pieces[place:]])
    answer = asked(row, text)
    if row["answer"] != Applies.DOES_NOT_APPLY:
        assert answer is not Applies.DOES_NOT_APPLY
    if row["answer"] != Applies.APPLIES:
        assert answer is not Applies.APPLIES


ANYWHERE = ["and any airplane with kit 9", "or any airplane modified by SB 7", "and all other models"]


@settings(max_examples=500)
@given(some.sampled_from(ROWS), some.sampled_from(ANYWHERE), some.floats(min_value=0, max_value=1))
def test_words_that_reach_more_leave_nothing_shut_out_wherever_they_stand(row, more, share):
    pieces = row["text"].split(" ")
    place = max(1, round(share * len(pieces)))
    text = " ".join([*pieces[:place], more, *pieces[place:]])
    assert asked(row, text) is not Applies.DOES_NOT_APPLY


@pytest.mark.parametrize("more", ["and any airplane with kit 9", "; any airplane repaired with kit 9;"])
def test_a_sample_of_every_form_with_words_that_reach_more_shuts_nothing_out(more):
    """Each eleventh place of each form; bench/applicability_sweep.py takes every place and more words."""
    wrong = []
    for row in {row["text"]: row for row in ROWS if row["answer"] == "does not apply"}.values():
        pieces = row["text"].split(" ")
        for place in range(1, len(pieces) + 1, 11):
            text = " ".join([*pieces[:place], more, *pieces[place:]])
            if asked(row, text) is Applies.DOES_NOT_APPLY:
                wrong.append(text)
    assert wrong == []


@settings(max_examples=500)
@given(some.text(max_size=120), some.text(max_size=12), some.text(max_size=12))
def test_any_text_can_be_asked_and_gets_a_reason(text, model, serial):
    assert read_applicability(text).applies(model, serial).why


LETTERS = some.text(alphabet="QZHMOI018SBG -,.;()/andthruexcept", max_size=80)


@settings(max_examples=500)
@given(LETTERS)
def test_text_like_an_applicability_never_shuts_out_a_model_it_prints(text):
    printed = f"{text} QZ62"
    assert read_applicability(printed).applies("QZ62", "").answer is not Applies.DOES_NOT_APPLY
