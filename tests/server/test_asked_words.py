"""A question's way through words, numbers and slips to its hits, over the samples and a small library."""

import re

import pytest

from indexer.library.fulltext import Filters
from server.facet_counts import facet_counts
from server.looking import look
from server.question import parse_question
from server.search import search
from server.system import everything_on
from server.system_asked import number_name
from server.understood import notes_on


def hits(answer):
    return [hit.passage.id for group in answer.groups for hit in group.hits]


@pytest.mark.parametrize(
    "typed",
    ["zeppelin", "aluminum", '"brake lining"', "MS20470", "wheel -nose", '"master cylinder"', "psi"],
)
def test_what_no_list_knows_is_answered_as_the_engine_answers_it(samples, typed):
    asked = parse_question(typed)
    plain = asked.query(Filters())
    found = look(samples, asked, Filters(), 50, 1)
    assert found.wording.also == () and not found.any_word
    assert found.query == plain and found.result == samples.engine.search(plain, 50, 1)


def test_as_typed_asks_the_engine_for_nothing_else(samples):
    asked = parse_question("brake pads torqued 3241 chapter 32")
    found = look(samples, asked, Filters(), 50, 1, as_typed=True)
    assert found.query == asked.query(Filters(), any_word=True)


def test_quoted_words_are_answered_as_the_engine_answers_them(samples):
    asked = parse_question('"brake lining"')
    assert look(samples, asked, Filters(), 50, 1).result == samples.engine.search(
        asked.query(Filters()), 50, 1
    )


def test_the_manuals_words_are_found_by_the_mechanics(library):
    pads, linings = search(library, "brake pads"), search(library, '"brake lining"')
    assert pads.total and set(hits(pads)) == set(hits(linings))
    assert search(library, "brake pads", as_typed=True).any_word  # nothing holds both words


def test_what_was_typed_stands_before_what_was_looked_for_beside_it(samples):
    answer = search(samples, "brake lining", limit=200)
    first = answer.groups[0].hits[0].passage
    assert "lining" in f"{first.text} {' '.join(first.heading_path)}".casefold()


def test_a_slip_goes_before_a_shorter_form_of_another_word(samples):
    answer = search(samples, "brake lineing")
    assert [(slip.typed, slip.taken) for slip in answer.slips] == [("lineing", "lining")]
    assert set(hits(answer)) == set(hits(search(samples, "brake lining")))
    forms = [each for each in search(samples, "brake torqued").wording.also if each.words == ("torqued",)]
    assert forms and "torque" in forms[0].others  # spelled as it should be: no slip


def test_a_slip_is_put_right_only_when_nothing_else_is_found_and_that_is_said(library):
    answer = search(library, "brake linning")
    assert answer.total and not answer.any_word
    (slip,) = answer.slips
    assert (slip.typed, slip.taken) == ("linning", "lining")
    note = notes_on(answer)[0]
    assert note.words == "No passage has «linning». Looked for «lining» instead."
    assert note.ways[0].as_typed and note.ways[0].question == "brake linning"
    exactly = search(library, "brake linning", as_typed=True)
    assert exactly.any_word and not exactly.slips


@pytest.mark.parametrize(
    "typed",
    [
        "brake",  # it is there
        "brake lining zeppelin",  # nothing like it is there
        "32-42 brake",  # a number, one digit from 32-41
        "SB 32-0013",  # a bulletin, one digit from 32-0012
        '"linning"',  # in quotes
    ],
)
def test_no_slip_is_seen_where_there_may_be_none(library, typed):
    assert search(library, typed).slips == ()


def test_a_word_that_the_thesaurus_knows_is_no_slip(library):
    answer = search(library, "jug")  # the library has neither a jug nor a cylinder assembly
    assert answer.slips == () and answer.total == 0


def test_a_number_is_taken_for_what_the_library_has(library):
    answer = search(library, "3241")
    assert answer.total and [taken.taken_as for taken in answer.numbers.taken] == ["ATA 32-41"]
    everywhere = search(library, "32-41")
    assert hits(answer) == hits(everywhere)
    assert search(library, "3241", as_typed=True).total == 0


def test_a_chapter_named_in_the_question_is_a_filter(library):
    answer = search(library, "lining chapter 32")
    assert answer.filters == Filters(("32",)) and hits(answer) == hits(search(library, "lining", ["32"]))
    assert [system.number.chapter for system in search(library, "chapter 32").systems] == ["32"]


def test_a_system_named_in_words_offers_its_listing(library):
    numbers = [str(system.number) for system in search(library, "brakes").systems]
    assert numbers[:2] == ["32-40", "32"]
    assert search(library, '"brakes"').systems == ()
    assert search(library, "alternator tension").systems == ()


def test_words_that_only_frame_a_question_are_left_out_and_that_is_said(library, client):
    answer, plain = search(library, "brakes on this aircraft"), search(library, "brakes")
    assert answer.left_out == ("on this aircraft",) and answer.fields()["left_out"] == ["on this aircraft"]
    assert hits(answer) == hits(plain) and answer.systems == plain.systems
    said = [note.words for note in notes_on(answer)]
    assert "Left out, because it only frames the question: «on this aircraft»." in said
    exactly = search(library, "brakes on this aircraft", as_typed=True)
    assert exactly.left_out == () and exactly.total != plain.total
    page = client.get("/?q=brakes+on+this+aircraft").text
    assert "only frames the question: «on this aircraft»" in page
    assert 'href="/?q=brakes+on+this+aircraft&amp;as_typed=1"' in page


@pytest.mark.parametrize(
    ("typed", "offered"),
    [
        ("brakes on the Hedgeling", "32-40"),
        ("how do I bleed the brakes", "32-40"),
        ("everything on the landing gear", "32"),
        ("where is the brake on my airplane?", "32-40"),
        ("engine", "72"),  # 76, engine controls, is another
        ("3245", "JASC 3245"),
        ("85", "JASC 85"),
        ("72", "72"),
        ("27", "27"),
    ],
)
def test_the_system_that_is_named_is_offered_whatever_was_found(library, typed, offered):
    assert number_name(search(library, typed).systems[0].number) == offered


def test_any_of_several_words_is_enough_where_that_is_asked(samples, sample_client):
    answer, strict = search(samples, "any of: brake zeppelin"), search(samples, "brake")
    assert answer.any_word and answer.with_all == 0 and set(hits(answer)) == set(hits(strict))
    both = search(samples, "any of: brake tire", limit=500)
    assert both.any_word and both.with_all == search(samples, "brake tire").total
    assert both.total > max(search(samples, "brake").total, search(samples, "tire").total)
    loose = search(samples, "any of: brake tire", ["none"])
    counts = facet_counts(samples, both)["chapter"]
    assert loose.total == counts[""] and both.systems == ()
    page = sample_client.get("/?q=any+of%3A+brake+tire&chapter=none").text
    assert 'value="any of: brake tire"' in page


@pytest.mark.parametrize(
    ("asked", "taken", "look_for"),
    [
        ("flight controls", "27", "any of: controls aileron elevator rudder flap trim"),
        ("everything on 32-41", "32-41", "any of: brake wheel tire lining"),
        ("324100", "32-41-00", "any of: brake wheel tire lining"),
        ("brake on this aircraft", "32-40", "brake"),
        ("TR", "78", "TR"),
    ],
)
def test_a_listing_is_asked_for_as_a_search_is(samples, asked, taken, look_for):
    answer = everything_on(samples, asked)
    assert number_name(answer.taken.number) == taken and answer.look_for == look_for
    assert answer.no_systems == (("temporary revision",) if asked == "TR" else ())


def test_the_page_of_a_listing_says_how_it_was_asked(sample_client):
    page = sample_client.get("/system/TR").text
    assert "It could also mean what is no system" in page and 'href="/?q=temporary+revision"' in page
    assert "Hangar words: TR" not in page
    framed = sample_client.get("/system?q=brake+on+this+aircraft").text
    assert "only frames the question: «on this aircraft»" in framed
    assert sample_client.get("/api/system/TR").json()["no_systems"] == ["temporary revision"]


def test_a_year_and_a_part_number_name_no_system(library):
    for typed in ("2031", "MS20470-4", "2031-07-11"):
        assert search(library, typed).systems == ()


def test_counts_beside_filters_are_those_their_links_would_give(samples):
    for typed in ("brake pads chapter 32", "brake pads", "TR 32-07"):
        answer = search(samples, typed)
        rest = answer.numbers.question.text
        for chapter, count in facet_counts(samples, answer)["chapter"].items():
            if chapter:
                assert search(samples, rest, [chapter]).total == count


def test_the_page_says_how_the_question_was_read_and_links_the_other_ways(client):
    page = client.get("/?q=brake+pads").text
    assert "Also looked for: brake lining." in page and 'href="/?q=brake+pads&amp;as_typed=1"' in page
    only = client.get("/?q=brake+pads&as_typed=1").text
    assert "Also looked for" not in only and "Only as typed" in only
    number = client.get("/?q=3241").text
    assert "«3241» was taken as ATA 32-41." in number and "JASC code 3241 (brake anti-skid section)" in number
    slip = client.get("/?q=brake+linning").text
    assert (
        "No passage has «linning». Looked for «lining» instead." in slip and "Search exactly as typed" in slip
    )
    unsure = client.get("/?q=TR+brake").text
    assert "can mean several things" in unsure and 'href="/?q=thrust+reverser+brake"' in unsure
    named = client.get("/?q=brakes").text
    assert 'href="/system/32-40"' in named


def test_what_was_typed_is_never_markup(client):
    page = client.get("/?q=%3Cb%3Elinning").text
    assert "<b>linning" not in page


def test_a_chapter_taken_as_a_filter_can_be_taken_away(client):
    page = client.get("/?q=lining+chapter+32").text
    assert 'value="lining"' in page and "Chapter 32 Landing gear" in page
    assert 'href="/?q=lining"' in page


def test_each_hit_says_why_it_is_here(library, client):
    page = client.get("/?q=brake+pads").text
    address = re.search(r'href="(/passages/[^"]+/why[^"]*)"', page)[1].replace("&amp;", "&")
    why = client.get(address).text
    assert "Why is this here?" in why and "brake lining, looked for with brake pads" in why
    assert "32-41" in why and "printed" in why
    assert 'href="/?q=brake+pads"' in why


def test_the_parts_of_a_score_add_up(samples, sample_client):
    answer = search(samples, "brake lining wear").fields()
    hit = answer["groups"][0]["hits"][0]
    told = sample_client.get(f"/api/passages/{hit['passage']}/why?q=brake+lining+wear").json()
    assert told["is_hit"] and told["parts"]
    assert sum(part["score"] for part in told["parts"]) == pytest.approx(hit["score"], abs=0.01)
    assert told["how_known"]["basis"] == hit["number"]["basis"]
    other = sample_client.get(f"/api/passages/{hit['passage']}/why?q=zeppelin").json()
    assert not other["is_hit"] and other["parts"] == []
