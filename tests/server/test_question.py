"""What a technician types, and what is looked for."""

import pytest

from indexer.errors import QueryProblem, UnclosedQuote, UnknownChapter, UnknownStanding, UnknownType
from indexer.library.fulltext import NOT_NUMBERED, Filters
from indexer.trade.publication_types import PublicationType
from server.question import must_ask, parse_chapter_filter, parse_filters, parse_question, parse_type_filter


@pytest.mark.parametrize(
    ("typed", "words", "phrases", "excluded"),
    [
        ("brake lining", ("brake", "lining"), (), ()),
        ("  brake\tlining\n", ("brake", "lining"), (), ()),
        ('"master cylinder"', (), ("master cylinder",), ()),
        ('brake "master cylinder" leak', ("brake", "leak"), ("master cylinder",), ()),
        ("“master cylinder”", (), ("master cylinder",), ()),  # a tablet's keyboard writes curly quotes
        ("tire -nose", ("tire",), (), ("nose",)),
        ('tire -"nose wheel"', ("tire",), (), ("nose wheel",)),
        ("tire −nose", ("tire",), (), ("nose",)),  # a real minus sign
        ("32-41-00", ("32-41-00",), (), ()),  # the hyphens of a number exclude nothing
        ("MS20470AD4-4 rivet", ("MS20470AD4-4", "rivet"), (), ()),
        ("32 - 41", ("32", "41"), (), ()),  # a minus with room around it is a dash
        ('3/8" bolt', ("3/8", "bolt"), (), ()),  # an inch mark
        ('bolt 3/8"', ("bolt", "3/8"), (), ()),
        ('"3/8 bolt"', (), ("3/8 bolt",), ()),
        ('"torque 45" nut', ("nut",), ("torque 45",), ()),  # a quote that closes after a digit
        ("brake, lining.", ("brake,", "lining."), (), ()),  # the engine's analyzer takes the commas off
        ("??? brake", ("brake",), (), ()),
        ('"" brake', ("brake",), (), ()),
        ("", (), (), ()),
        ("bremsbelag für", ("bremsbelag", "für"), (), ()),
    ],
)
def test_the_search_box_is_taken_apart(typed, words, phrases, excluded):
    question = parse_question(typed)
    assert (question.words, question.phrases, question.excluded) == (words, phrases, excluded)


@pytest.mark.parametrize("typed", ['"master cylinder', 'brake "master', '-"nose wheel', 'brake"', '"a" "b'])
def test_a_quote_left_open_is_said_so(typed):
    with pytest.raises(UnclosedQuote) as problem:
        parse_question(typed)
    assert "does not close it" in problem.value.what
    assert "Close the quote" in problem.value.remedy


@pytest.mark.parametrize(
    ("given", "chapter", "section"),
    [
        ("32", "32", None),
        (" 32 ", "32", None),
        ("05", "05", None),
        ("32-41", "32", "41"),
        ("32-41-00", "32", "41"),  # subject 00 is the whole section
        ("ATA 32", "32", None),
        ("Chapter 32", "32", None),
        ("32.41", "32", "41"),
        ("none", NOT_NUMBERED, None),
        ("Not numbered", NOT_NUMBERED, None),
    ],
)
def test_chapter_filters(given, chapter, section):
    assert parse_chapter_filter(given) == (chapter, section)


@pytest.mark.parametrize(
    "given", ["", "landing gear", "3", "320", "3241", "32-4", "32-41-05", "32-", "٣٢", "32-00-00-00"]
)
def test_what_is_not_a_chapter_is_refused(given):
    with pytest.raises(UnknownChapter) as problem:
        parse_chapter_filter(given)
    assert given in problem.value.what
    assert "32-41" in problem.value.remedy


@pytest.mark.parametrize(
    "given", ["maintenance-manual", "AMM", "aircraft maintenance manual", "Maintenance manual", "MM"]
)
def test_a_type_goes_by_any_of_its_names(given):
    assert parse_type_filter(given) is PublicationType.MAINTENANCE_MANUAL


def test_an_unknown_type_or_standing_names_the_known_ones():
    with pytest.raises(UnknownType) as problem:
        parse_filters(types=["cookbook"])
    assert "service-bulletin" in problem.value.remedy
    with pytest.raises(UnknownStanding) as problem:
        parse_filters(standings=["fine"])
    assert "approved, acceptable, information, blocked, undetermined" in problem.value.remedy


def test_filters_come_together():
    assert parse_filters(["32", "24", "32"], ["SB"], ["Approved"], ["a-1"]) == Filters(
        ("32", "24"), (), ("service-bulletin",), ("approved",), ("a-1",)
    )


@pytest.mark.parametrize("typed", ["", "   ", "-nose", "???"])
def test_a_search_must_say_what_to_look_for(typed):
    with pytest.raises(QueryProblem) as problem:
        must_ask(parse_question(typed), Filters())
    assert problem.value.remedy
    must_ask(parse_question(typed), Filters(chapters=("32",)))  # a chapter alone may be leafed through


def test_chapters_and_sections_are_not_mixed_in_silence():
    with pytest.raises(QueryProblem) as problem:
        parse_filters(["32", "24-30"])
    assert "together" in problem.value.what
