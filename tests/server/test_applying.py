"""Whether papers reach an aircraft of the fleet, level by level; and hiding what does not, honestly counted.

The rules for articles, alterations and text read by OCR are common practice, no source.
"""

import csv
import datetime
import io
import itertools
import json

import pytest
from asking import Client
from click.testing import CliRunner
from making import Made, Text, take

from indexer.errors import QueryProblem
from indexer.library import fleet
from indexer.library.catalogue import Catalogue
from indexer.library.fleet_records import Fitted, FittedKind
from indexer.library.problems import AircraftUnknown
from indexer.settings import Settings
from indexer.tagging.tags import ApplicabilityScope, StatedApplicability
from indexer.trade.applies import Applies
from indexer.trade.chapters import ChapterNumber
from indexer.trade.evidence import Basis, Evidence, Origin, Tag
from indexer.trade.publication_types import PublicationType as Type
from server.app import create_app
from server.applying import Applying
from server.cli import main
from server.facet_counts import facet_counts
from server.hiding import hides, to_hide
from server.opened import OpenedLibrary
from server.routes import models, system_models
from server.search import search
from server.system import everything_on
from server.system_csv import HIDDEN, system_csv

YES, NO, UNSURE = Applies.APPLIES, Applies.DOES_NOT_APPLY, Applies.CANNOT_TELL
INSIDE = (
    "This AD applies to Corvane Model C-220 airplanes, serial numbers CV-101 through CV-188, except CV-151."
)
OUTSIDE = "Corvane Model C-220 airplanes, serial numbers CV-201 through CV-240."
ENGINE = "This AD applies to Stanhope Model K-210 engines, serial numbers ML-0400 through ML-0500."
MAGNETO = "Orrery Model OM-4 magnetos, serial numbers M-100 through M-500."
NO_WORD = "Models affected: S-20, S-200, serial numbers 1001 through 1050."
LEFT = Fitted(FittedKind.ENGINE, "K-210", "ML-0417", "Stanhope", "left")
RIGHT = Fitted(FittedKind.ENGINE, "K-210", "ML-0600", "Stanhope", "right")


def said(text, origin=Origin.DIGITAL, page=None, passage=None):
    """One stated applicability: of the whole publication, of a page, or of a passage (by ordinal)."""
    scope = ApplicabilityScope.PUBLICATION
    if page:
        scope = ApplicabilityScope.PASSAGE if passage is not None else ApplicabilityScope.PAGE
    evidence = Evidence(Basis.PRINTED, "test", text, page or 1, origin=origin)
    return StatedApplicability(scope, Tag(text, evidence), page, passage)


def texts(count, words="Examine the brake lining"):
    return [
        Text(f"{words}, item {number}.", page=number + 1, number=ChapterNumber("32", "41"))
        for number in range(count)
    ]


class Shelf:
    """A library to put papers in and to ask about aircraft."""

    def __init__(self, place):
        self.place = place
        self.catalogue = Catalogue.open(place / "library", create=True)
        self.numbers = itertools.count(1)

    def paper(self, *stated, kind=Type.SERVICE_BULLETIN, count=1, words="Examine the brake lining", **rest):
        number = next(self.numbers)
        made = Made(
            f"paper-{number}.pdf",
            kind,
            f"SB 32-{number:04}",
            title=f"Paper {number}",
            texts=texts(count, words),
            pages=count,
            applicability=stated,
            **rest,
        )
        return take(self.catalogue, self.place / "files", made).publications[0]

    def aircraft(self, registration="QX-1AB", model="C-220", serial="CV-120", **rest):
        """An aircraft that was held against the list today, unless said otherwise."""
        told = {"confirmed_on": datetime.date.today(), **rest}
        return fleet.add(self.catalogue, registration, model, "R. Quill", serial, **told)

    def of(self, publication_id, row, today=None):
        with self.catalogue.reading():
            record = self.catalogue.publication(publication_id)
            return Applying(self.catalogue, row, today).of_publication(record)

    def of_passages(self, publication_id, row):
        with self.catalogue.reading():
            record = self.catalogue.publication(publication_id)
            applying = Applying(self.catalogue, row)
            passages = self.catalogue.passages_of(publication_id)
            return [applying.of_passage(record, passage).answer for passage in passages]

    def of_page(self, publication_id, row, page):
        with self.catalogue.reading():
            return Applying(self.catalogue, row).of_page(self.catalogue.publication(publication_id), page)


@pytest.fixture
def shop(tmp_path):
    made = Shelf(tmp_path)
    yield made
    made.catalogue.close()


@pytest.mark.parametrize(
    ("model", "serial", "answer"),
    [
        ("C-220", "CV-120", YES),
        ("C-220", "CV-151", NO),  # excepted
        ("C-220", "CV-189", NO),
        ("C-220", "", UNSURE),  # a serial not known proves nothing
        ("D-900", "11", NO),
    ],
)
def test_the_words_of_the_whole_paper_decide(shop, model, serial, answer):
    paper, row = shop.paper(said(INSIDE)), shop.aircraft(model=model, serial=serial)
    found = shop.of(paper, row)
    assert found.answer is answer and found.quote and found.why.endswith("(PDF page 1)")


def test_without_words_it_cannot_be_told_and_a_circular_is_tied_to_no_model(shop):
    row = shop.aircraft()
    assert shop.of(shop.paper(), row).why.startswith("Nothing was found in it that says")
    for kind in (Type.ADVISORY_CIRCULAR, Type.ORDER_OR_HANDBOOK, Type.REGULATION):
        found = shop.of(shop.paper(kind=kind), row)
        assert found.answer is UNSURE and "tied to no model" in found.why


@pytest.mark.parametrize("origin", [Origin.OCR, Origin.HIDDEN_OCR])
def test_text_read_by_ocr_never_leaves_anything_out(shop, origin):
    row = shop.aircraft(serial="CV-151")
    for stated in ([said(INSIDE, origin)], [said(OUTSIDE, origin, 1)], [said(OUTSIDE, origin, 1, 0)]):
        paper = shop.paper(*stated)
        assert shop.of_passages(paper, row) == [UNSURE]
        assert shop.of_page(paper, row, 1).answer is UNSURE
    assert shop.of_passages(shop.paper(said(INSIDE, origin)), shop.aircraft("QX-2CD")) == [YES]


def test_what_leaves_a_place_out_wins_over_what_does_not_level_by_level(shop):
    row = shop.aircraft()
    by_page = shop.paper(said(INSIDE), said(OUTSIDE, page=2), said(INSIDE, page=3), count=4)
    assert shop.of_passages(by_page, row) == [YES, NO, YES, YES]
    assert [shop.of_page(by_page, row, page).answer for page in (1, 2, 3, 4)] == [YES, NO, YES, YES]
    by_passage = shop.paper(said(INSIDE), said(OUTSIDE, page=2, passage=1), count=3)
    assert shop.of_passages(by_passage, row) == [YES, NO, YES]
    mixed = shop.of_page(by_passage, row, 2)
    assert mixed.answer is UNSURE and "words of their own" in mixed.why
    outside = shop.paper(said(OUTSIDE), said(INSIDE, page=1), said(INSIDE, page=2, passage=1), count=2)
    assert shop.of_passages(outside, row) == [NO, NO]
    unclear = shop.paper(said("As listed in Table 1 of the bulletin."), said(INSIDE, page=1), count=2)
    assert shop.of_passages(unclear, row) == [UNSURE, UNSURE]
    scanned = shop.paper(said(INSIDE), said(OUTSIDE, Origin.OCR, page=1), count=1)
    assert shop.of_passages(scanned, row) == [UNSURE]


def test_a_page_for_all_applies_only_where_the_paper_names_its_models(shop):
    row = shop.aircraft()
    alone = shop.of_page(shop.paper(said("EFFECTIVITY: ALL", page=1)), row, 1)
    assert alone.answer is UNSURE and "Nothing was found in it" in alone.why
    named = shop.paper(said(INSIDE), said("EFFECTIVITY: ALL", page=1))
    assert shop.of_page(named, row, 1).answer is YES


def test_words_at_one_place_must_agree_to_leave_it_out(shop):
    row = shop.aircraft()
    assert shop.of(shop.paper(said(OUTSIDE), said(INSIDE)), row).answer is UNSURE
    assert shop.of(shop.paper(said(OUTSIDE), said("See Table 1.")), row).answer is UNSURE
    assert shop.of(shop.paper(said(OUTSIDE), said(OUTSIDE.replace("240", "250"))), row).answer is NO


def test_a_passage_over_two_pages_is_out_only_when_both_are(shop):
    row = shop.aircraft()
    paper = shop.paper(said(OUTSIDE, page=1), said(OUTSIDE, page=2), count=3)
    with shop.catalogue.reading():
        applying, record = Applying(shop.catalogue, row), shop.catalogue.publication(paper)
        first = shop.catalogue.passages_of(paper)[0].id
        assert applying.of_place(record, first, (1, 2)).answer is NO
        assert applying.of_place(record, first, (2, 3)).answer is UNSURE
        several = [(first, (1,)), (shop.catalogue.passages_of(paper)[2].id, (3,))]
        assert "1 do not apply" in applying.of_several(record, several).why
        assert applying.of_several(record, several[:1]).answer is NO


@pytest.mark.parametrize(
    ("fitted", "answer", "says"),
    [
        ((), UNSURE, "the fleet list shows none on QX-1AB"),
        ((LEFT, RIGHT), YES, "engine left Stanhope K-210, serial ML-0417"),
        ((Fitted(FittedKind.ENGINE, "K-210", "ML-0600"),), NO, "all that the fleet list of"),
        ((Fitted(FittedKind.ENGINE, "T-5", "1"),), NO, "Model T-5 is not among"),
        ((RIGHT,), UNSURE, "may not name every engine"),  # of a twin only one is listed
        ((Fitted(FittedKind.ENGINE, "K-210"),), UNSURE, "serial not known"),
        ((Fitted(FittedKind.PROPELLER, "K-210", "ML-0417"),), UNSURE, "the fleet list shows none"),
    ],
)
def test_an_engine_paper_is_held_against_the_engines_and_never_the_airframe(shop, fitted, answer, says):
    row = shop.aircraft(model="K-210", serial="ML-0417", fitted=fitted)  # an airframe that would deceive
    found = shop.of(shop.paper(said(ENGINE)), row)
    assert (found.answer, says in found.why) == (answer, True), found.why


def test_a_list_of_appliances_is_never_taken_for_complete(shop):
    paper = shop.paper(said(MAGNETO))
    other = Fitted(FittedKind.APPLIANCE, "OM-9", "A-77", "Orrery")
    found = shop.of(paper, shop.aircraft(fitted=(other,)))
    assert found.answer is UNSURE and "may not name every appliance" in found.why
    reached = Fitted(FittedKind.APPLIANCE, "OM-4", "M-200", "Orrery")
    assert shop.of(paper, shop.aircraft("QX-2CD", fitted=(other, reached))).answer is YES


def test_the_kind_of_manual_says_whose_serials_its_words_are(shop):
    row = shop.aircraft(serial="1010", fitted=(Fitted(FittedKind.ENGINE, "S-20", "1200"),))
    bare = said("Serial numbers 1001 through 1050.")
    assert shop.of(shop.paper(bare, kind=Type.ENGINE_MANUAL), row).answer is NO
    assert shop.of(shop.paper(bare, kind=Type.PROPELLER_MANUAL), row).answer is UNSURE
    assert shop.of(shop.paper(bare, kind=Type.COMPONENT_MAINTENANCE_MANUAL), row).answer is UNSURE


def test_words_that_do_not_say_whose_serials_they_are_leave_no_aircraft_out(shop):
    row = shop.aircraft()
    found = shop.of(shop.paper(said(NO_WORD)), row)
    assert found.answer is UNSURE and "do not say whose" in found.why
    shop.aircraft("QX-7GH", model="S-200", serial="1010")  # now S-200 is known to be an aircraft
    assert shop.of(shop.paper(said(NO_WORD)), row).answer is NO
    foot = shop.paper(said(INSIDE), said("S/N CV-101 thru CV-110", page=1))
    assert shop.of_passages(foot, row) == [NO]  # the whole paper speaks of airplanes


def test_an_alteration_not_named_is_said_and_turns_no_answer(shop):
    hatch = Fitted(FittedKind.ALTERATION, "SA90412ZZ")
    plain, altered = shop.aircraft(), shop.aircraft("QX-2CD", fitted=(hatch,))
    for stated in (INSIDE, OUTSIDE):
        paper = shop.paper(said(stated))
        before, after = shop.of(paper, plain), shop.of(paper, altered)
        assert before.answer is after.answer
        assert "SA90412ZZ" in after.why and "SA90412ZZ" not in before.why
    named = shop.paper(said(INSIDE + " This includes airplanes altered by SA90412ZZ."))
    assert "may change" not in shop.of(named, altered).why


def test_a_row_confirmed_long_ago_is_said_beside_the_answer(shop):
    paper = shop.paper(said(INSIDE))
    row = shop.aircraft(confirmed_on="2024-03-04")
    assert "more than a year" not in shop.of(paper, row, datetime.date(2024, 12, 1)).why
    late = shop.of(paper, row, datetime.date(2025, 12, 1))
    assert late.answer is YES
    assert "fleet list confirmed on 4 March 2024 by R. Quill, more than a year ago" in late.why


def test_what_is_kept_of_the_words_follows_the_documents(shop):
    row = shop.aircraft()
    paper = shop.paper(said(OUTSIDE))
    assert shop.of(paper, row).answer is NO
    shop.catalogue.remove(paper.rsplit("-", 1)[0])
    again = shop.paper(said(INSIDE))
    assert shop.of(again, row).answer is YES


# Hiding ----------------------------------------------------------------------------------------------------


@pytest.fixture
def library(tmp_path):
    """Papers of every kind of answer for QX-1AB, each with passages on brakes."""
    shelf = Shelf(tmp_path)
    shelf.aircraft(fitted=(LEFT, RIGHT))
    shelf.paper(said(INSIDE), count=4)
    shelf.paper(said(OUTSIDE), count=5)
    shelf.paper(said(OUTSIDE, Origin.OCR), count=3)
    shelf.paper(count=2, kind=Type.ADVISORY_CIRCULAR)
    shelf.paper(said(INSIDE), said(OUTSIDE, page=2), said(OUTSIDE, page=3, passage=2), count=6)
    shelf.paper(said(ENGINE), count=2)
    shelf.paper(said(OUTSIDE), kind=Type.AIRWORTHINESS_DIRECTIVE, count=1, words="Replace the brake lining")
    shelf.catalogue.close()
    with OpenedLibrary.open(tmp_path / "library", Settings()) as opened:
        yield opened


@pytest.fixture
def web(library):
    return Client(create_app(library, Settings()))


def reached(library, **asked):
    """Every hit that can be reached chapter by chapter, as the page's links lead to them."""
    whole = search(library, "brake lining", limit=1000, aircraft="QX-1AB", **asked)
    return whole, [hit for group in whole.groups for hit in group.hits]


def test_counts_shown_are_hits_reachable_and_what_is_hidden_is_the_difference(library):
    everything, all_hits = reached(library)
    kept, hits = reached(library, hide_not_applying=True)
    assert everything.hidden is None and everything.total == len(all_hits) == 23
    out = {hit.passage.id for hit in all_hits if hit.applies.answer is NO}
    assert len(out) == 5 + 1 + 1 + 1
    assert kept.hidden == len(out) and kept.total == len(hits) == everything.total - kept.hidden
    assert {hit.passage.id for hit in hits} == {hit.passage.id for hit in all_hits} - out
    assert [hit.passage.id for hit in hits] == [
        hit.passage.id for hit in all_hits if hit.passage.id not in out
    ]
    assert sum(1 for hit in hits if hit.applies.answer is UNSURE) == 5  # nothing in doubt was hidden
    assert sum(kept.by_type.values()) == sum(kept.by_standing.values()) == kept.total
    for kind, count in facet_counts(library, kept)["type"].items():
        narrowed = search(
            library, "brake lining", types=[kind], aircraft="QX-1AB", hide_not_applying=True, limit=1000
        )
        assert narrowed.total == count == sum(len(group.hits) for group in narrowed.groups)
    directives = search(library, "brake lining", types=["AD"], aircraft="QX-1AB", hide_not_applying=True)
    assert (directives.total, directives.hidden) == (0, 1)


def test_hiding_counts_what_holds_all_words_and_what_holds_any(library):
    asked = {"aircraft": "QX-1AB", "limit": 1000}
    every = search(library, "replace brake zeppelin", **asked)
    kept = search(library, "replace brake zeppelin", hide_not_applying=True, **asked)
    assert every.any_word and kept.any_word and kept.hidden == every.total - kept.total == 8
    listed = search(library, "any of: replace lining", hide_not_applying=True, **asked)
    assert listed.with_all == 0 and search(library, "any of: replace lining", **asked).with_all == 1


def test_nothing_is_hidden_unless_asked_and_hiding_takes_an_aircraft(library, web):
    assert search(library, "brake lining").fields()["hidden_not_applying"] is None
    with pytest.raises(QueryProblem, match="no aircraft is chosen"):
        search(library, "brake", hide_not_applying=True)
    with pytest.raises(QueryProblem, match="nothing that can be hidden"):
        hides("everything")
    assert hides("not-applying") and not hides("")
    with pytest.raises(AircraftUnknown):
        search(library, "brake", aircraft="QX-9ZZ")
    assert web.get("/api/search?q=brake&hide=not-applying").status_code == 400
    assert web.get("/api/search?q=brake&hide=all&aircraft=QX-1AB").status_code == 400
    assert web.get("/?q=brake&hide=not-applying").status_code == 400


def test_the_json_says_of_each_hit_whether_it_applies_with_the_words(web):
    answer = web.get("/api/search?q=brake+lining&aircraft=qx1ab&limit=50").json()
    models.SearchAnswer.model_validate(answer)
    assert (answer["aircraft"]["registration"], answer["aircraft"]["serial"]) == ("QX-1AB", "CV-120")
    hits = [hit for group in answer["groups"] for hit in group["hits"]]
    assert {hit["applies"]["answer"] for hit in hits} == {"applies", "does not apply", "cannot tell"}
    assert all(hit["applies"]["quote"] for hit in hits if hit["applies"]["answer"] == "does not apply")
    hidden = web.get("/api/search?q=brake+lining&aircraft=QX-1AB&hide=not-applying").json()
    models.SearchAnswer.model_validate(hidden)
    assert (hidden["total"], hidden["hidden_not_applying"]) == (15, 8)
    for hit in hits:
        owner = hit["publication"]["id"]
        one = web.get(f"/api/publications/{owner}?aircraft=QX-1AB").json()
        models.PublicationAnswer.model_validate(one)
        boxes = web.get(f"/api/publications/{owner}/pages/{hit['pdf_page']}/boxes?aircraft=QX-1AB").json()
        models.PageAnswer.model_validate(boxes)
        marked = {each["passage"]: each["applies"] for each in boxes["passages"]}
        assert marked[hit["passage"]] == hit["applies"] and one["applies"] and boxes["applies"]


def test_the_page_marks_hits_in_words_and_says_what_is_hidden(web):
    page = web.get("/?q=brake+lining&chapter=32&aircraft=QX-1AB").text  # one chapter: every hit is shown
    for words in ("Applies to QX-1AB:", "Does not apply to QX-1AB:", "Cannot tell for QX-1AB:"):
        assert words in page
    assert "Hide what does not apply to QX-1AB" in page and "hide=not-applying" in page
    hidden = web.get("/?q=brake+lining&chapter=32&aircraft=QX-1AB&hide=not-applying").text
    assert "8 passages that do not apply to QX-1AB are hidden." in hidden and "Show everything" in hidden
    assert "Does not apply to" not in hidden and "15 passages" in hidden
    assert "Applies to" not in web.get("/?q=brake+lining").text


def test_a_listing_hides_passages_and_says_how_many_and_whether_directives_are_among_them(library, web):
    every = everything_on(library, "32-41", "QX-1AB")
    kept = everything_on(library, "32-41", "QX-1AB", hide_not_applying=True)
    assert every.hidden is None and len(kept.hidden.passages) == 8
    assert every.on.counts.passages - kept.on.counts.passages == 8
    assert kept.on.counts.passages == len({p.passage_id for line in kept.on.lines for p in line.passages})
    assert all(line.applies.answer is not NO for line in kept.on.lines)
    assert {line.applies.answer for line in every.on.lines} == {YES, NO, UNSURE}
    (named,) = kept.hidden.directives
    page = web.get("/system/32-41?aircraft=QX-1AB&hide=not-applying").text
    assert "8 passages that do not apply to QX-1AB are hidden, of 3 publications." in page
    assert f"Among them: 1 directive or proposal ({named})." in page
    assert "No airworthiness directive on it" not in page  # there is one: it is only hidden
    answer = web.get("/api/system/32-41?aircraft=QX-1AB&hide=not-applying").json()
    system_models.SystemAnswer.model_validate(answer)
    assert answer["hidden_not_applying"] == 8
    assert web.get("/system/32-41?aircraft=QX-1AB&print=1&hide=not-applying").text.count("are hidden") == 1
    rows = list(csv.DictReader(io.StringIO(system_csv(kept))))
    assert [row["passages"] for row in rows if row["part"] == HIDDEN] == ["8"]
    assert {row["applies"] for row in rows if row["part"] == "on the system"} == {"applies", "cannot tell"}
    csv_file = web.get("/api/system/32-41.csv?aircraft=QX-1AB").text
    assert "does not apply" in csv_file and "QX-1AB, C-220, serial CV-120" in csv_file
    assert everything_on(library, "32-41").on.lines[0].applies is None


def test_words_found_count_what_is_hidden_as_listed_and_not_as_elsewhere(library):
    every = everything_on(library, "brake lining", "QX-1AB").word_counts
    kept = everything_on(library, "brake lining", "QX-1AB", hide_not_applying=True).word_counts
    assert kept == every


def test_publication_and_page_are_marked(library, web):
    for owner in (record.id for record in library.publications()):
        with library.reading():
            row = fleet.aircraft(library.catalogue, "QX-1AB")
            found = Applying(library.catalogue, row).of_publication(library.publication(owner))
        lead = {YES: "Applies to", NO: "Does not apply to", UNSURE: "Cannot tell for"}[found.answer]
        assert f"{lead} QX-1AB:" in web.get(f"/publications/{owner}?aircraft=QX-1AB").text
        assert "QX-1AB:" in web.get(f"/publications/{owner}/pages/1?aircraft=QX-1AB").text
        assert "QX-1AB:" not in web.get(f"/publications/{owner}/pages/1").text


def test_what_is_to_be_hidden_is_worked_out_once_for_each_state_of_the_library(library):
    with library.reading():
        row = fleet.aircraft(library.catalogue, "QX-1AB")
        first = to_hide(library, Applying(library.catalogue, row))
        assert to_hide(library, Applying(library.catalogue, row)) is first
    changed = fleet.change(library.catalogue, "QX-1AB", "R. Quill", "plate read", serial="CV-210")
    with library.reading():
        after = to_hide(library, Applying(library.catalogue, changed))
    assert after != first and not set(after.publications) & set(first.publications)


def test_the_commands_mark_and_hide_as_the_pages_do(library, tmp_path):
    def run(*words):
        return CliRunner().invoke(main, [*words, "--library", str(tmp_path / "library")])

    marked = run("search", "brake lining", "--aircraft", "qx1ab", "--limit", "50").output
    assert "Marked for QX-1AB, C-220, serial CV-120; fleet list confirmed on" in marked
    for words in ("Applies to QX-1AB:", "Does not apply to QX-1AB:", "Cannot tell for QX-1AB:"):
        assert words in marked
    hidden = run("search", "brake lining", "--aircraft", "QX-1AB", "--hide-not-applying").output
    assert "15 passages found" in hidden and "8 passages that do not apply to QX-1AB are hidden." in hidden
    told = json.loads(run("search", "brake lining", "--aircraft", "QX-1AB", "--json").output)
    models.SearchAnswer.model_validate(told)
    listing = run("system", "32-41", "--aircraft", "QX-1AB", "--hide-not-applying").output
    assert "8 passages that do not apply to QX-1AB are hidden, of 3 publications." in listing
    assert "Applies to QX-1AB:" in listing and "Does not apply to" not in listing
    file = tmp_path / "system.csv"
    assert run("system", "32-41", "--aircraft", "QX-1AB", "--csv", str(file)).exit_code == 0
    assert "does not apply" in file.read_text(encoding="utf-8-sig")
    assert run("search", "brake", "--hide-not-applying").exit_code == 2
    assert run("system", "32", "--aircraft", "QX-9ZZ").exit_code == 2
