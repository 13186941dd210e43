"""Abbreviations with several meanings, told apart by their company. Common practice, no source."""

import pytest

from indexer.trade.abbreviations import abbreviations, meanings, told_apart
from indexer.trade.chapters import is_chapter


def test_each_has_two_meanings_or_more_and_no_word_speaks_for_all():
    for word, several in abbreviations().items():
        assert word == word.upper()
        assert len({meaning.words for meaning in several}) == len(several) >= 2, word
        assert not frozenset.intersection(*(meaning.context for meaning in several)), word
        assert all(is_chapter(chapter) for meaning in several for chapter in meaning.chapters), word


@pytest.mark.parametrize(
    ("word", "beside", "chapters", "number_follows", "meant"),
    [
        ("TR", ["door", "stow"], (), False, "thrust reverser"),
        ("TR", ["volt"], (), False, "transformer rectifier"),
        ("TR", [], ("24",), False, "transformer rectifier"),
        ("TR", [], ("78",), False, "thrust reverser"),
        ("TR", [], (), True, "temporary revision"),
        ("tr", ["yellow", "page"], (), False, "temporary revision"),
        ("MP", ["gauge"], (), False, "manifold pressure"),
        ("MP", ["crack"], (), False, "magnetic particle inspection"),
        ("MP", ["interval"], (), False, "maintenance program"),
        ("TSO", ["hour", "engine"], (), False, "time since overhaul"),
        ("TSO", ["article"], (), False, "technical standard order"),
        ("AD", ["compliance"], (), False, "airworthiness directive"),
        ("AD", ["computer"], ("34",), False, "air data"),
        ("SB", [], (), True, "service bulletin"),
        ("SB", ["compass"], (), False, "standby"),
        ("MM", ["diameter", "wear"], (), False, "millimeter"),
        ("MM", ["chapter"], (), False, "maintenance manual"),
        ("DER", ["8110-3"], (), False, "designated engineering representative"),
        ("DER", ["runway"], (), False, "departure end of runway"),
        ("IA", ["signature", "holder"], (), False, "inspection authorization"),
        ("HSI", ["turbine"], (), False, "hot section inspection"),
        ("HSI", [], ("34",), False, "horizontal situation indicator"),
        ("FCU", ["autopilot"], (), False, "flight control unit"),
        ("CB", ["panel"], (), False, "circuit breaker"),
    ],
)
def test_the_company_tells(word, beside, chapters, number_follows, meant):
    taken = told_apart(word, beside, chapters, number_follows)
    assert taken is not None and taken.meaning.words == meant
    assert taken.why


@pytest.mark.parametrize(
    ("word", "beside"),
    [("TR", []), ("TSO", ["brake"]), ("AD", []), ("TR", ["page", "volt"]), ("SB", ["wing"])],
)
def test_without_company_or_with_company_of_both_it_is_not_told_apart(word, beside):
    assert told_apart(word, beside) is None


def test_other_words_have_no_meanings():
    assert meanings("brake") == () and told_apart("brake", ["lining"]) is None
