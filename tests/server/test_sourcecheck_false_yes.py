"""Entries that invite a wrong "yes": another document, revision, date, page or aircraft than the entry names.

Documents: sample_docs/README.md and its truth files; the bulletin on the side brace bolt is drawn for the
worked questions. What mechanics write and mean: common practice, no source, where no rule is named.
"""

import datetime
import re

import pytest
from worked import bulletins
from worked.shelf import SAMPLES

from indexer.ingest import ingest
from indexer.library import fleet, register
from indexer.library.catalogue import Catalogue
from indexer.library.day import make_demonstration, today
from indexer.library.whoosh_engine import WhooshEngine
from indexer.settings import Settings
from sample_docs.draw.book import draw_book
from server.commands.check_console import check_lines
from server.demo import DAY
from server.opened import OpenedLibrary, index_folder
from server.routes.check_view import check_view
from server.sourcecheck import check

TWIN, SINGLE = "N62QZ", "N14PW"
FILES = (
    "qz62-maintenance-manual.pdf",
    "sb-qz62-32-0114-rev-b.pdf",
    "sb-qz62-52-0093-rev-a.pdf",
    "sb-qz62-32-0114-rev-c.pdf",
    "qz62-temporary-revision-32-07.pdf",
    "ad-2032-03-05.pdf",
    "ad-2030-19-04.pdf",
    "pellworth-service-bulletins-bound.pdf",
    "h-14-service-manual.pdf",
)
MANUAL = "QZM-62-2 Rev 6, 32-42-00 pg 401"


@pytest.fixture(scope="module")
def shelf(tmp_path_factory):
    place = tmp_path_factory.mktemp("false_yes")
    topics = bulletins.longer_life()
    drawn = place / topics[0].facts.publication.file
    draw_book(drawn, topics)
    with Catalogue.open(place / "library", create=True) as catalogue:
        make_demonstration(catalogue, DAY)
    settings = Settings(library=str(place / "library"))
    engine = WhooshEngine(index_folder(place / "library"), settings.search_cache_mb)
    report = ingest([drawn, *(SAMPLES / name for name in FILES)], place / "library", settings, engine=engine)
    assert not report.refused
    with OpenedLibrary.open(place / "library", Settings()) as library:
        fleet.add(library.catalogue, TWIN, "QZ62", "R. Quill", "QZ-077", "Aldermoor")
        fleet.add(library.catalogue, "N410QZ", "QZ62", "R. Quill", "QZ-010", "Aldermoor")
        fleet.add(library.catalogue, SINGLE, "H-14", "R. Quill", "H-120", "Pellworth")
        manual = next(each for each in library.publications() if each.number == "QZM-62-2")
        day = today(library.catalogue)
        register.record_check(
            library.catalogue, manual.id, "6", manual.date, "Aldermoor index", day, "R. Quill", 365
        )
        yield library


@pytest.fixture(scope="module")
def directed(tmp_path_factory):
    """The bulletin at revision C beside the directive that names revision B, on their own."""
    place = tmp_path_factory.mktemp("directed") / "library"
    with Catalogue.open(place, create=True) as catalogue:
        make_demonstration(catalogue, DAY)
    settings = Settings(library=str(place))
    engine = WhooshEngine(index_folder(place), settings.search_cache_mb)
    names = ("sb-qz62-32-0114-rev-c.pdf", "ad-2031-07-11.pdf")
    assert not ingest([SAMPLES / name for name in names], place, settings, engine=engine).refused
    with OpenedLibrary.open(place, Settings()) as library:
        fleet.add(library.catalogue, TWIN, "QZ62", "R. Quill", "QZ-077", "Aldermoor")
        yield library


def findings(library, text, aircraft="", work="", on=None):
    return check(library, text, aircraft, work, on, keep=False).fields()["citations"]


def the_one(library, text, aircraft="", work="", on=None):
    (found,) = findings(library, text, aircraft, work, on)
    return found


def answers(finding):
    return {answer["answer"] for answer in finding["enough"].values()}


def first_sentence(why):
    return re.split(r"(?<=[a-z»)0-9])[.:] ", why)[0]


def test_the_manual_itself_is_enough_for_minor_work(shelf):
    """What all below differs from."""
    found = the_one(shelf, f"Brake linings replaced IAW {MANUAL}", TWIN)
    assert found["enough"]["minor"]["answer"] == "yes" and found["current"]["state"] == "current as checked"


# Another document or revision than the one named -----------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    [
        "IAW Aldermoor KX-9 Rev 1, 32-42-00 pg 401",
        "IAW Aldermoor QZM-62-9, 32-42-00 pg 401",
        "IAW Aldermoor Rev 5, 32-42-00 pg 401",
        "IAW Rev 5, 32-42-00 pg 401",
        "Rev 5 of the manual, 32-42-00 pg 401",
        "Used QZM-62-9, 32-42-00 pg 401.",
        "2. QZM-62-9 Rev 6 32-42-00 pg 401",
    ],
)
def test_words_beside_a_bare_chapter_that_name_something_else_leave_it_open(shelf, text):
    for found in findings(shelf, text, TWIN):
        assert answers(found) == {"cannot tell"}, found
        assert found["resolved"] is None and "QZM-62-2" not in found["wording"]


@pytest.mark.parametrize(
    "text",
    [
        "Brakes overhauled IAW 32-42-00 pg 401",
        "Replaced P/N QZ32-4410-1, S/N B-1207, IAW MM 32-42-00 pg 401",
        "2. QZM-62-2 Rev 6 32-42-00 pg 401",
        "Brakes of N62QZ, 32-42-00 pg 401",
        "Brakes of QZ62 S/N QZ-077 IAW Aldermoor 32-42-00 pg 401",
    ],
)
def test_words_that_name_the_same_manual_a_part_or_an_aircraft_leave_nothing_open(shelf, text):
    found = the_one(shelf, text, TWIN)
    assert found["resolved"]["name"].startswith("QZM-62-2") and found["enough"]["minor"]["answer"] == "yes"


@pytest.mark.parametrize("text", ["AD 2032-03-05 Rev 1", "AD 2032-03-05 R1", "AD 2032-03-05, Revision 2"])
def test_a_revised_directive_is_not_the_one_it_revises(shelf, text):
    """14 CFR part 39: a revised directive carries R and a figure behind its number."""
    found = the_one(shelf, f"C/W {text}", TWIN, "directive")
    assert answers(found) == {"cannot tell"} and found["resolved"] is None
    assert "Amendment" not in found["wording"]


@pytest.mark.parametrize("beside", ["dated 1 Jan 1999", "Amendment 39-99999", "Amdt. 39-99999"])
def test_a_directive_with_another_date_or_amendment_beside_it_says_so(shelf, beside):
    found = the_one(shelf, f"C/W AD 2032-03-05, {beside}", TWIN, "directive")
    assert any("15 March 2032" in note or "39-30126" in note for note in found["notes"])
    assert "yes" not in answers(found)


def test_the_directive_with_its_own_amendment_and_date_is_taken(shelf):
    found = the_one(
        shelf, "C/W AD 2032-03-05, Amendment 39-30126, effective March 15, 2032", TWIN, "directive"
    )
    assert found["enough"]["directive"]["answer"] == "yes"


# A date with two readings ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "held"),
    [
        ("Adjusted IAW Pellworth SB 24 dated 4-3-56", "3 April 1956"),
        ("Adjusted IAW Pellworth SB 24 dated 3-4-56", "3 April 1956"),
        ("Adjusted IAW H-14 Service Manual dated 11-1-58 paragraph 5-12", "1 November 1958"),
    ],
)
def test_a_date_that_can_be_read_two_ways_tells_no_revision(shelf, text, held):
    found = the_one(shelf, text)
    assert found["resolved"] is None and answers(found) == {"cannot tell"}
    assert held not in found["wording"] and re.search(r"\[date\?", found["wording"])
    assert any("can be read" in note for note in found["notes"])
    assert found["candidates"]


def test_a_date_that_can_be_read_two_ways_does_no_harm_beside_a_revision_that_fits_one(shelf):
    found = the_one(shelf, "IAW SB QZ62-52-0093 Rev A dated 11/14/31", TWIN)
    assert found["resolved"]["revision"] == "A"
    named = the_one(shelf, "IAW QZM-62-2 Rev 6 dated 4/3/31, 32-42-00 pg 401", TWIN)
    assert named["resolved"] is None  # 14 March 2031 is neither reading


# What the entry says of the source -------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    [
        f"not IAW {MANUAL}",
        f"Work was not performed in accordance with {MANUAL}",
        f"Brakes replaced. IAW {MANUAL} was not used.",
        f"Brakes replaced, {MANUAL}, not followed",
        "AD 2032-03-05 N/A by S/N",
        "AD 2032-03-05 not complied with",
        "AD 2032-03-05 does not apply to this aircraft",
    ],
)
def test_no_yes_for_a_source_that_the_entry_says_was_not_used(shelf, text):
    for found in findings(shelf, text, TWIN, "directive"):
        assert "yes" not in answers(found), found["enough"]
        assert any("The entry says" in answer["why"] for answer in found["enough"].values())


@pytest.mark.parametrize(
    "text",
    [
        f"Part not damaged; linings replaced IAW {MANUAL}",
        f"No defects found. Inspected IAW {MANUAL}",
        f"Linings replaced IAW {MANUAL}. Old linings not used again.",
    ],
)
def test_a_not_that_speaks_of_the_work_takes_nothing_away(shelf, text):
    assert findings(shelf, text, TWIN)[0]["enough"]["minor"]["answer"] == "yes"


# Which aircraft --------------------------------------------------------------------------------------------


@pytest.mark.parametrize("text", ["N62QZ and N14PW: brakes IAW", "N41OQZ: brakes IAW", "N4I0QZ: brakes IAW"])
def test_several_aircraft_or_one_that_is_nearly_ours_leave_it_open(shelf, text):
    """The letters I and O stand in no US registration (14 CFR 47.15)."""
    found = the_one(shelf, f"{text} {MANUAL}")
    assert answers(found) == {"cannot tell"}
    assert "choose one" in found["applies"]["why"] or "N410QZ" in found["applies"]["why"]


# The conditions of a yes -----------------------------------------------------------------------------------


@pytest.mark.parametrize("work", ["minor", "major", "directive", "inspection"])
@pytest.mark.parametrize("aircraft", ["", TWIN])
@pytest.mark.parametrize(
    "text",
    [
        f"IAW {MANUAL}",
        "IAW QZM-62-2, 32-42-00 pg 401",
        "IAW QZM-62-2 Rev 6, 04-10-00",
        "C/W SB QZ62-32-0114 Rev B",
        "C/W AD 2032-03-05 by SB QZ62-52-0093 Rev A",
        "IAW H-14 Service Manual paragraph 5-12",
    ],
)
def test_a_yes_carries_its_conditions_in_its_first_sentence(shelf, text, aircraft, work):
    for found in findings(shelf, text, aircraft, work):
        for name, answer in found["enough"].items():
            if answer["answer"] != "yes":
                continue
            said = first_sentence(answer["why"])
            assert ("if it applies to the aircraft" in said) == (found["applies"]["answer"] != "applies")
            if name != "directive" and found["current"]["state"] != "current as checked":
                assert "if this revision is current" in said or "if no later directive" in said
            if found["missing"] and "revision" in " ".join(found["missing"]):
                assert "held here" in said


def test_a_yes_without_a_revision_says_which_one_was_looked_at(shelf):
    found = the_one(shelf, "IAW QZM-62-2, 32-42-00 pg 401", TWIN)
    assert "if revision 6, held here, was used" in found["enough"]["minor"]["why"]
    assert "[Rev 6, dated 14 March 2031 is held here: was it used?]" in found["wording"]


# The words suggested for a record --------------------------------------------------------------------------


def test_no_page_is_suggested_that_the_document_does_not_have(shelf):
    found = the_one(shelf, "IAW QZM-62-2 Rev 6, 32-42-00 pg 999", TWIN)
    assert "page 999" not in found["wording"] and "[page?]" in found["wording"]
    elsewhere = the_one(shelf, "IAW QZM-62-2 Rev 6, 21-99-00 pg 401", TWIN)
    assert "21-99-00" not in elsewhere["wording"] and "[chapter, page or paragraph?]" in elsewhere["wording"]


@pytest.mark.parametrize("document", ["QZM-62-2 Rev 6", "AMM"])
def test_a_task_that_is_not_printed_is_no_place(shelf, document):
    """Chapter 35 of the sample manual prints tasks 35-10-00-610-801 and 35-10-00-790-802."""
    there = the_one(shelf, f"IAW {document} TASK 35-10-00-610-801", TWIN)
    assert there["enough"]["minor"]["answer"] == "yes"
    gone = the_one(shelf, f"IAW {document} TASK 35-10-00-610-809", TWIN)
    assert answers(gone) == {"cannot tell"} and "610-809" not in gone["wording"]


def test_a_revision_is_suggested_as_the_document_prints_it(shelf):
    assert "Rev C" in the_one(shelf, "IAW SB QZ62-32-0114 rev c", TWIN)["wording"]


# A directive that the entry says was complied with ---------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    [
        "C/W AD 2032-03-05 by SB QZ62-52-0093 Rev A paragraphs 3.B through 3.D",
        "C/W SB QZ62-52-0093 Rev A in compliance with AD 2032-03-05",
        "AD 2032-03-05 complied with by SB QZ62-52-0093 Rev A",
    ],
)
def test_an_entry_that_speaks_of_compliance_is_answered_for_the_directive_too(shelf, text):
    for found in findings(shelf, text, TWIN):
        assert set(found["enough"]) == {"minor", "major", "directive"}


def test_the_page_says_at_its_head_what_each_is_enough_for_with_the_directive(shelf):
    asked = check(shelf, "C/W AD 2032-03-05 by SB QZ62-52-0093 Rev A", TWIN, keep=False)
    for view in check_view(asked.fields()).findings:
        questions = [row.question for row in view.rows[: view.first]]
        assert questions[2:] == ["Enough for work for a directive?"]


def test_an_entry_without_compliance_is_answered_as_before(shelf):
    assert set(the_one(shelf, f"Brakes IAW {MANUAL}", TWIN)["enough"]) == {"minor", "major"}


# A life limit stretched by a bulletin ----------------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    [
        "Side brace bolt left in service IAW SB QZ62-32-0133",
        "C/W ALS per SB QZ62-32-0133",
        "Bolt IAW QZM-62-2 Rev 6 chapter 04 and SB QZ62-32-0133",
    ],
)
def test_a_bulletin_that_stretches_a_replacement_time_is_no_yes(shelf, text):
    """14 CFR 43.16, 91.403(c): a limitation is changed by its own revision or an approved alternative."""
    found = next(each for each in findings(shelf, text, TWIN, "inspection") if "0133" in each["text"])
    assert "yes" not in answers(found)
    assert "43.16" in found["enough"]["minor"]["why"]


# The day of the work ---------------------------------------------------------------------------------------


def test_what_came_after_the_day_of_the_work_supersedes_nothing_on_it(shelf):
    """Revision C is of 6 October 2031 and the temporary revision of 30 June 2031 (sample_docs/README.md)."""
    line = "Tie bolts replaced IAW SB QZ62-32-0114 Rev B, Part 2"
    before = the_one(shelf, line, TWIN, on=datetime.date(2031, 4, 1))
    assert before["current"]["state"] == "unknown"
    assert "6 October 2031, after 1 April 2031" in before["current"]["why"]
    after = the_one(shelf, line, TWIN, on=datetime.date(2031, 10, 6))
    assert after["current"]["state"] == "superseded" == the_one(shelf, line, TWIN)["current"]["state"]
    page = "Brakes IAW QZM-62-2 Rev 6, 32-42-00 pg 402"
    early = the_one(shelf, page, TWIN, on=datetime.date(2031, 4, 1))
    assert early["current"]["state"] == "unknown" and "30 June 2031" in early["current"]["why"]
    assert the_one(shelf, page, TWIN, on=datetime.date(2031, 7, 1))["current"]["state"] == "superseded"


def test_no_yes_for_a_revision_that_did_not_exist_on_the_day_of_the_work(shelf):
    """Revision 6 is of 14 March 2031."""
    found = the_one(shelf, f"Brakes IAW {MANUAL}", TWIN, on=datetime.date(2031, 3, 13))
    assert answers(found) == {"cannot tell"}
    assert "14 March 2031" in found["enough"]["minor"]["why"]
    assert "yes" in answers(the_one(shelf, f"Brakes IAW {MANUAL}", TWIN, on=datetime.date(2031, 3, 14)))


def test_a_bulletin_approved_through_a_directive_is_enough_for_its_actions_only(shelf):
    found = the_one(shelf, "C/W Pellworth SB 27 dated May 6, 1957", SINGLE)
    assert found["enough"]["major"]["answer"] == "yes"
    assert "for the actions of AD 2030-19-04 only" in first_sentence(found["enough"]["major"]["why"])


def test_a_register_that_writes_the_word_is_not_made_to_say_it_twice(shelf):
    manual = next(each for each in shelf.publications() if each.number == "QZ62-52-0093")
    day = today(shelf.catalogue)
    register.record_check(shelf.catalogue, manual.id, "Rev. a", None, "list", day, "R. Quill", 30)
    found = the_one(shelf, "IAW SB QZ62-52-0093 Rev A", TWIN)
    assert found["current"]["state"] == "current as checked"
    assert found["current"]["why"].startswith("Revision a is current per list")


# A directive that names another revision -------------------------------------------------------------------


def test_a_directive_that_names_another_revision_is_never_said_to_require_this_one(directed):
    """14 CFR 39.27: the directive's words govern, and these name revision B."""
    answer = check(
        directed, "Torqued tie bolts per SB QZ62-32-0114 Rev C", TWIN, "directive", keep=False
    ).fields()
    (found,) = answer["citations"]
    assert found["standing"]["value"] == "approved"
    assert "FAA approved" in found["standing"]["quote"]  # its own words, not the directive's
    assert found["enough"]["directive"]["answer"] in ("no", "cannot tell")
    raising = [each for each in found["directives"] if each["level"] in ("required", "incorporated")]
    assert raising and all(
        "revision B" in each["says"] and "not this one (revision C)" in each["says"] for each in raising
    )
    (view,) = check_view(answer).findings
    (row,) = [each for each in view.rows if each.question == "Directive?"]
    assert "Requires revision B" in row.answer and "not this one (revision C)" in row.answer
    assert "Requires it" not in row.answer and "Incorporates it" not in row.answer
    lines = "\n".join(check_lines(answer))
    assert "Requires revision B" in lines and "07-11: required" not in lines


def test_a_revision_that_is_not_held_is_not_required_either(directed):
    for found in findings(directed, "Torqued tie bolts per SB QZ62-32-0114 Rev D", TWIN, "directive"):
        assert "yes" not in answers(found)
        for each in found["directives"]:
            if each["level"] in ("required", "incorporated"):
                assert "not this one (revision D)" in each["says"]
