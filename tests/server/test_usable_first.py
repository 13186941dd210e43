"""Hits that are superseded, blocked or not for the aircraft in hand stand after the others: checked from what
each hit says of itself, with the library's own answers without them as the measure of the order."""

import pytest

from indexer.library import fleet
from indexer.settings import Settings
from indexer.tagging.tags import StandingValue
from indexer.trade.applies import Applies
from server.demo import fill
from server.not_current import not_current
from server.opened import OpenedLibrary
from server.search import MOST, search

QUESTIONS = (
    "brake", "brake lining", "wheel", "inspection", "torque", "brake pedal spongy",
    "any of: brake lining torque", "AD", "serial", "32-41", "maintenance manual revision",
)  # fmt: skip


@pytest.fixture(scope="module")
def samples(tmp_path_factory):
    """The whole demonstration: with its fleet and its register more is of no use."""
    folder = tmp_path_factory.mktemp("demonstration") / "library"
    assert fill(folder, Settings()) == 0
    with OpenedLibrary.open(folder, Settings()) as opened:
        yield opened


@pytest.fixture(scope="module")
def aircraft(samples):
    return fleet.fleet(samples.catalogue)[1].registration


def is_of_no_use(library, hit) -> bool:
    with library.reading():
        out = not_current(library)
    return (
        hit.publication.id in out.publications
        or hit.passage.id in out.passages
        or hit.passage.standing.value is StandingValue.BLOCKED
        or (hit.applies is not None and hit.applies.answer is Applies.DOES_NOT_APPLY)
    )


def in_order(answer):
    return sorted((hit for group in answer.groups for hit in group.hits), key=lambda hit: hit.place)


def ids(hits):
    return [hit.passage.id for hit in hits]


@pytest.mark.parametrize("in_hand", [False, True])
@pytest.mark.parametrize("question", QUESTIONS)
def test_in_every_group_those_of_no_use_stand_last_and_both_parts_are_best_first(
    samples, aircraft, question, in_hand
):
    answer = search(samples, question, limit=MOST, aircraft=aircraft if in_hand else "")
    assert sum(len(group.hits) for group in answer.groups) == answer.total
    if answer.any_word and answer.with_all:
        return  # those with all the words stand first: the test below
    for hits in (in_order(answer), *(group.hits for group in answer.groups)):
        marks = [is_of_no_use(samples, hit) for hit in hits]
        assert marks == sorted(marks)
        for part in (False, True):
            scored = [
                (-hit.score, hit.passage.id) for hit, mark in zip(hits, marks, strict=True) if mark == part
            ]
            assert scored == sorted(scored)


def test_some_question_of_these_finds_each_kind_with_a_better_score_than_one_of_use(samples, aircraft):
    """So that the tests of this file can fail: ranked by score alone, such hits would stand between."""
    between = 0
    for question in QUESTIONS:
        for group in search(samples, question, limit=MOST, aircraft=aircraft).groups:
            marks = [
                is_of_no_use(samples, hit)
                for hit in sorted(group.hits, key=lambda hit: (-hit.score, hit.place))
            ]
            between += marks != sorted(marks)
    assert between > 5


@pytest.mark.parametrize("question", QUESTIONS)
def test_a_group_has_the_place_of_its_first_hit(samples, aircraft, question):
    answer = search(samples, question, limit=MOST, aircraft=aircraft)
    with_hits = [group for group in answer.groups if group.hits]
    assert answer.groups[: len(with_hits)] == tuple(with_hits)
    places = [group.hits[0].place for group in with_hits]
    assert places == sorted(places)


@pytest.mark.parametrize("question", QUESTIONS)
def test_fewer_hits_are_the_beginning_of_more(samples, aircraft, question):
    whole = search(samples, question, limit=MOST, aircraft=aircraft)
    everything = ids(in_order(whole))
    assert len(set(everything)) == whole.total
    for limit in (1, 2, 5, 20):
        fewer = search(samples, question, limit=limit, aircraft=aircraft)
        assert ids(in_order(fewer)) == everything[:limit]
        of_each = search(samples, question, limit=MOST, per_chapter=limit, aircraft=aircraft)
        assert [(each.chapter, each.count) for each in of_each.groups] == [
            (each.chapter, each.count) for each in whole.groups
        ]
        for few, many in zip(of_each.groups, whole.groups, strict=True):
            assert ids(few.hits) == ids(many.hits[:limit])


def test_nothing_is_left_out_and_no_count_changes(samples, aircraft):
    marked, plain = (
        search(samples, "brake", limit=MOST, aircraft=aircraft),
        search(samples, "brake", limit=MOST),
    )
    assert set(ids(in_order(marked))) == set(ids(in_order(plain)))
    assert (marked.total, marked.by_chapter, marked.by_type) == (plain.total, plain.by_chapter, plain.by_type)


def test_with_any_word_hits_with_all_of_them_still_stand_first(samples, aircraft):
    for question in ("brake pedal spongy", "any of: brake lining torque"):
        answer = search(samples, question, limit=MOST, aircraft=aircraft)
        whole = search(samples, question.removeprefix("any of: "), limit=MOST, aircraft=aircraft)
        with_all = [hit for hit in in_order(answer)[: answer.with_all]]
        assert answer.any_word and answer.with_all
        if not whole.any_word:
            assert set(ids(with_all)) == set(ids(in_order(whole)))
        for part in (with_all, in_order(answer)[answer.with_all :]):
            marks = [is_of_no_use(samples, hit) for hit in part]
            assert marks == sorted(marks)


def test_a_filter_on_what_is_blocked_alone_shows_it(samples):
    answer = search(samples, "", standings=["blocked"], limit=MOST)
    assert answer.total and len(in_order(answer)) == answer.total
