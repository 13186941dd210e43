"""The sample fleet held against the whole sample library: marks by hand, and hiding with honest counts."""

import pytest

from indexer.ingest import ingest
from indexer.library import fleet
from indexer.settings import Settings
from indexer.trade.applies import Applies
from server.applying import Applying
from server.demo import SAMPLES, enter_fleet
from server.facet_counts import facet_counts
from server.opened import OpenedLibrary
from server.search import search
from server.system import everything_on

YES, NO, UNSURE = Applies.APPLIES, Applies.DOES_NOT_APPLY, Applies.CANNOT_TELL
FLEET = ("QX-1AB", "QX-2CD", "QX-3EF", "QX-4GH", "QX-5JK", "QX-6LM")
# By hand, from the words of each paper (draw/) and the rows of fleet.csv; in the order of FLEET.
BY_HAND = {
    "2031-07-11": (UNSURE, NO, UNSURE, NO, NO, NO),  # only with certain brake assemblies; QZ-151 is excepted
    "2032-03-05": (YES, YES, YES, NO, NO, NO),
    "2029-22-08": (YES, NO, YES, NO, NO, NO),
    "2030-19-04": (NO, NO, NO, NO, YES, NO),  # H-144 is excepted
    "QZ62-24-0102": (YES, YES, UNSURE, NO, NO, NO),  # the survey version only with a certain alternator
    "QZ62-52-0087": (YES, NO, YES, NO, NO, NO),
    "QZ62-52-0093": (YES, YES, YES, NO, NO, NO),
    "QZ62-35A0031": (UNSURE, UNSURE, UNSURE, NO, NO, NO),  # only with valves of a certain lot
    "21": (NO, NO, NO, YES, NO, NO),
    "24": (NO, NO, NO, YES, NO, NO),
    "27": (NO, NO, NO, YES, YES, NO),
    "HSH-3": (UNSURE,) * 6,  # a handbook is tied to no model
}
QUESTIONS = ("brake", "door latch", "fuel selector", "alternator", "any of: oxygen brake inspection", "tire")


@pytest.fixture(scope="module")
def library(tmp_path_factory):
    folder = tmp_path_factory.mktemp("fleet") / "library"
    assert not ingest([SAMPLES / "pdf"], folder, Settings(library=str(folder))).refused
    enter_fleet(folder)
    with OpenedLibrary.open(folder, Settings()) as opened:
        yield opened


def answer(library, number, registration):
    with library.reading():
        record = next(each for each in library.publications() if each.number == number)
        return Applying(library.catalogue, fleet.aircraft(library.catalogue, registration)).of_publication(
            record
        )


def test_the_demo_enters_the_whole_fleet(library):
    rows = fleet.fleet(library.catalogue)
    assert tuple(row.registration for row in rows) == FLEET
    assert all(
        row.registration.startswith("Q") for row in rows
    )  # no country has Q (ITU call sign table, from memory)
    assert {len(row.fitted) for row in rows} == {0, 1, 2, 3, 4}


@pytest.mark.parametrize("number", BY_HAND)
def test_papers_apply_to_the_fleet_as_a_person_reads_them(library, number):
    found = tuple(answer(library, number, registration) for registration in FLEET)
    assert tuple(each.answer for each in found) == BY_HAND[number]
    assert all(each.quote and "PDF page" in each.why for each in found if each.answer is NO)


@pytest.mark.parametrize(
    ("registration", "says"),
    [
        ("QX-2CD", "AD 2031-07-11, which makes this approved data, does not apply to QX-2CD"),
        ("QX-1AB", "Whether AD 2031-07-11, which makes this approved data, reaches QX-1AB cannot be told."),
    ],
)
def test_what_a_directive_approves_it_approves_for_the_aircraft_it_reaches(library, registration, says):
    found = search(library, "replace four tie bolts", types=["SB"], aircraft=registration, limit=1000)
    hits = [hit for group in found.groups for hit in group.hits if hit.publication.revision == "B"]
    raised = [hit for hit in hits if hit.passage.standing.mandatory]
    assert raised and all(says in hit.applies.why for hit in raised)
    others = [hit for hit in hits if not hit.passage.standing.mandatory]
    assert not any("makes this approved data" in hit.applies.why for hit in others)
    line = everything_on(library, "32", registration).on.lines
    assert any(says in each.applies.why for each in line)


@pytest.mark.parametrize("registration", FLEET)
def test_what_is_hidden_is_just_what_does_not_apply(library, registration):
    hidden = 0
    for question in QUESTIONS:
        asked = {"aircraft": registration, "limit": 1000}
        whole = search(library, question, **asked)
        kept = search(library, question, hide_not_applying=True, **asked)
        everything = [hit for group in whole.groups for hit in group.hits]
        shown = [hit for group in kept.groups for hit in group.hits]
        assert len(everything) == whole.total and len(shown) == kept.total
        out = {hit.passage.id for hit in everything if hit.applies.answer is NO}
        assert kept.hidden == len(out) == whole.total - kept.total
        assert {hit.passage.id for hit in shown} == {hit.passage.id for hit in everything} - out
        assert sum(kept.by_type.values()) == sum(kept.by_standing.values()) == kept.total
        for chapter, count in facet_counts(library, kept)["chapter"].items():
            one = search(library, question, [chapter or "none"], hide_not_applying=True, **asked)
            assert one.total == count
        hidden += len(out)
    assert hidden


@pytest.mark.parametrize("registration", FLEET)
@pytest.mark.parametrize("system", ["32", "28", "52-10"])
def test_a_listing_hides_just_the_passages_that_do_not_apply(library, registration, system):
    whole = everything_on(library, system, registration)
    kept = everything_on(library, system, registration, hide_not_applying=True)

    def passages(found):
        return {each.passage_id for part in found.sections for line in part.lines for each in line.passages}

    assert passages(whole) - passages(kept) == kept.hidden.passages
    assert passages(kept) < passages(whole) or not kept.hidden.passages
    with library.reading():
        applying = Applying(library.catalogue, fleet.aircraft(library.catalogue, registration))
        records = library.catalogue.passages(passages(whole))
        found = {
            each.id: applying.of_passage(library.publication(each.publication_id), each).answer
            for each in records.values()
        }
    assert {each for each, said in found.items() if said is NO} == kept.hidden.passages
    for part in kept.sections:
        assert part.counts.passages == len({p.passage_id for line in part.lines for p in line.passages})
