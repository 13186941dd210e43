"""An entry's sources on the sample documents: what is meant, what is said of it, what is never said.

Facts of the documents: sample_docs/README.md and its truth files. Rules: named beside each check.
"""

import datetime
import json
import re

import pytest

from indexer.library import fleet
from indexer.library.problems import AircraftUnknown
from server.sourcecheck import MOST_TEXT, NOTHING_CITED, CheckRefused, again, check, kept, kept_list

YES, NO, CANNOT_TELL = "yes", "no", "cannot tell"
BEFORE, AFTER = (
    datetime.date(2031, 5, 1),
    datetime.date(2031, 6, 1),
)
# of 12 May 2031, the day on which AD 2031-07-11 takes effect


@pytest.fixture(scope="module")
def twin(samples):
    """A QZ62 with a serial that the directive's list holds, entered in the fleet list."""
    fleet.add(samples.catalogue, "N62QZ", "QZ62", "R. Quill", "QZ-077", "Aldermoor")
    fleet.add(samples.catalogue, "N14PW", "H-14", "R. Quill", "H-120", "Pellworth")
    return "N62QZ"


def found(library, text, aircraft="", work="", on=None):
    return check(library, text, aircraft, work, on, keep=False).fields()


def one(library, text, aircraft="", work="", on=None):
    citations = found(library, text, aircraft, work, on)["citations"]
    assert len(citations) == 1, [each["text"] for each in citations]
    return citations[0]


def answers(finding):
    return {work: each["answer"] for work, each in finding["enough"].items()}


# What is meant ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "name", "revision", "pages"),
    [
        ("IAW QZM-62-2 Rev 6, 32-42-00 pg 401", "QZM-62-2", "6", [35]),
        ("IAW Maintenance Manual P/N QZM-62-2, Rev 6, 14 Mar 2031, 32-42-00 page 402", "QZM-62-2", "6", [36]),
        ("C/W SB QZ62-32-0114 Rev B, Part 2", "SB QZ62-32-0114", "B", [3]),
        ("C/W Service Bulletin QZ62-32-0114, Revision C", "SB QZ62-32-0114", "C", []),
        ("C/W AD 2031-07-11, paragraph (g)", "AD 2031-07-11", "", [2]),
        ("Adjusted IAW Pellworth H-14 Service Manual, paragraph 5-12", "SERVICE MANUAL", "", [9]),
    ],
)  # fmt: skip
def test_a_reference_leads_to_the_revision_and_the_place_it_names(samples, text, name, revision, pages):
    resolved = one(samples, text)["resolved"]
    assert resolved["name"].startswith(name) and resolved["revision"] == revision
    assert resolved["pdf_pages"] == pages


def test_without_a_revision_and_with_two_held_none_is_chosen(samples):
    finding = one(samples, "C/W SB QZ62-32-0114")
    assert finding["resolved"] is None and "revision and date" in finding["missing"]
    assert [each["revision"] for each in finding["candidates"]] == ["C", "B"]
    assert "newest" in finding["candidates"][0]["why"]
    assert set(answers(finding).values()) == {CANNOT_TELL}


def test_a_revision_that_is_not_held_is_not_taken_for_one_that_is(samples):
    finding = one(samples, "C/W SB QZ62-32-0114 Rev D")
    assert finding["resolved"] is None and finding["standing"]["value"] == "undetermined"
    assert {each["revision"] for each in finding["candidates"]} == {"B", "C"}
    older = one(samples, "IAW QZM-62-2 Rev 5, 32-42-00 page 401")
    assert older["resolved"] is None and older["current"]["state"] == "superseded"


@pytest.mark.parametrize(
    "text",
    [
        "IAW QZM-99-2 Rev 6, 32-42-00 pg 401",  # another number, a chapter that is held
        "IAW Maintenance Manual MM-X9, 32-42-00 page 401",
        "C/W AD 2031-07-12",
        "C/W SB QZ62-32-0115 Rev B",
    ],
)
def test_a_number_that_is_not_held_never_leads_to_another_document(samples, text):
    finding = one(samples, text)
    assert finding["resolved"] is None
    assert "not in this library" in " ".join(finding["notes"]).casefold()
    assert set(answers(finding).values()) == {CANNOT_TELL}


def test_a_manual_named_by_its_kind_is_told_by_the_aircraft_and_said_so(samples, twin):
    unsure = one(samples, "IAW AMM 32-42-00 p 401")
    assert any("only" in note for note in unsure["notes"]) and answers(unsure)["minor"] == CANNOT_TELL
    sure = one(samples, "IAW AMM 32-42-00 p 401", twin)
    assert sure["resolved"]["name"].startswith("QZM-62-2")
    assert any("N62QZ" in note for note in sure["notes"])


def test_an_incomplete_reference_says_what_it_lacks(samples, twin):
    """14 CFR 43.9(a)(1): a reference must lead to the data."""
    finding = one(samples, "Replaced tire IAW MM.", twin)
    assert finding["resolved"] is None and len(finding["missing"]) == 3
    assert set(answers(finding).values()) == {CANNOT_TELL}
    assert "[" in finding["wording"] or not finding["wording"]


def test_a_page_that_is_not_there_is_not_found_elsewhere(samples):
    finding = one(samples, "IAW QZM-62-2 Rev 6, 32-42-00 page 499")
    assert set(answers(finding).values()) == {CANNOT_TELL}
    assert any("not found" in note for note in finding["notes"])


def test_words_without_a_source_say_what_a_reference_needs(samples):
    answer = found(samples, "Cleaned and lubricated the nose wheel bearing.")
    assert answer["citations"] == [] and answer["notes"] == [NOTHING_CITED]


# What is said of it ----------------------------------------------------------------------------------------


def test_a_manual_without_approval_words_is_enough_for_minor_work_only(samples, twin):
    """14 CFR 43.13(a); 8900.1 v4 ch9 s1 for the other position."""
    finding = one(samples, "IAW QZM-62-2 Rev 6, 32-42-00 pg 401", twin)
    assert finding["standing"]["value"] == "acceptable" and finding["standing"]["quote"]
    assert answers(finding)["major"] == CANNOT_TELL
    assert any("8900.1" in note for note in finding["notes"])


def test_a_page_under_a_temporary_revision_sends_to_it(samples):
    finding = one(samples, "IAW QZM-62-2 Rev 6, 32-42-00 pg 402")
    assert any("TR 32-07" in note for note in finding["notes"])
    assert finding["current"]["state"] == "superseded" and answers(finding)["minor"] == NO


def test_the_limitations_chapter_is_approved_inside_a_manual_that_is_not(samples):
    """14 CFR part 23, A23.4."""
    finding = one(samples, "IAW QZM-62-2 Rev 6, 04-00-00")
    assert finding["standing"]["value"] == "approved"
    assert finding["standing"]["mandatory"] == "Airworthiness Limitations section"


def test_a_directive_makes_the_part_it_names_of_the_revision_it_names_mandatory(samples, twin):
    """14 CFR 39.27. AD 2031-07-11 requires Part 2 of Revision B."""
    finding = one(samples, "C/W SB QZ62-32-0114 Rev B, Part 2", work="directive")
    assert finding["standing"]["mandatory"] == "AD 2031-07-11"
    required = [each for each in finding["directives"] if each["level"] == "required"]
    assert [(each["number"], each["reaches"]) for each in required] == [("AD 2031-07-11", YES)]
    assert answers(finding)["directive"] == CANNOT_TELL
    assert "choose the aircraft" in finding["enough"]["directive"]["why"]


def test_what_depends_on_a_part_that_is_fitted_is_left_open(samples, twin):
    """The directive reaches airplanes that have a brake assembly with a part number it names."""
    finding = one(samples, "C/W SB QZ62-32-0114 Rev B, Part 2", twin, "directive")
    assert answers(finding)["directive"] == CANNOT_TELL
    assert "QZ32-4410-1" in " ".join(each["note"] for each in finding["directives"])


@pytest.mark.parametrize("text", ["C/W SB QZ62-32-0114 Rev C, Part 2", "C/W SB QZ62-32-0114 Rev D, Part 2"])
def test_another_revision_shows_no_compliance(samples, twin, text):
    """14 CFR 39.19, 39.27; 1 CFR 51.1(f)."""
    finding = one(samples, text, twin, "directive")
    assert answers(finding)["directive"] == NO
    assert not finding["standing"]["mandatory"]
    why = finding["enough"]["directive"]["why"]
    assert "revision B" in why and "39.19" in why


def test_a_directive_raises_nothing_for_an_aircraft_it_does_not_reach(samples, twin):
    finding = one(samples, "C/W SB QZ62-32-0114 Rev B, Part 2", "N14PW", "directive")
    assert not [each for each in finding["directives"] if each["reaches"] == YES]
    assert YES not in answers(finding).values()


def test_a_directive_binds_from_its_day(samples):
    line = "C/W SB QZ62-32-0114 Rev B, Part 2"
    in_force = one(samples, line, "", "directive", AFTER)
    assert "names it: choose the aircraft" in in_force["enough"]["directive"]["why"]
    early = one(samples, line, "", "directive", BEFORE)
    assert answers(early)["directive"] != YES
    assert "choose the aircraft" not in early["enough"]["directive"]["why"]
    assert any(
        each["status"] == "effective from 12 May 2031: not in force on 1 May 2031"
        for each in early["directives"]
    )


def test_credit_is_for_work_before_the_directive_only(samples, twin):
    """The credit paragraph of AD 2031-07-11: the original issue and Revision A, before its effective date."""
    line = "C/W SB QZ62-32-0114 Rev A, Part 2"
    levels = {each["level"]: each for each in one(samples, line, twin, "directive", BEFORE)["directives"]}
    assert "credited" in levels["credit"]["note"]
    late = one(samples, line, twin, "directive", AFTER)
    assert "No credit" in " ".join(each["note"] for each in late["directives"])
    assert answers(late)["directive"] == NO
    unsaid = one(samples, line, twin, "directive")
    assert answers(unsaid)["directive"] != YES


def test_no_directive_found_is_never_none_applies(samples):
    finding = one(samples, "Adjusted IAW Pellworth H-14 Service Manual, paragraph 5-12")
    assert finding["directives"] == []
    assert finding["directives_note"].startswith("None among the directives held here")
    assert "none applies" not in finding["directives_note"].replace("mean that none applies", "")


# The aircraft ----------------------------------------------------------------------------------------------


def test_without_an_aircraft_nothing_is_said_to_apply(samples):
    applies = one(samples, "IAW QZM-62-2 Rev 6, 32-42-00 pg 401")["applies"]
    assert (applies["answer"], applies["why"]) == (CANNOT_TELL, "No aircraft is given.")


def test_an_entry_that_names_an_aircraft_of_the_fleet_is_held_against_it(samples, twin):
    answer = found(samples, "N62QZ: C/W AD 2031-07-11")
    assert any("N62QZ" in fact for fact in answer["facts"])
    assert answer["aircraft"] == "" and answer["citations"][0]["applies"]["answer"] != "does not apply"


def test_a_registration_that_is_not_in_the_fleet_list_is_no_serial(samples):
    finding = one(samples, "N62481: C/W AD 2031-07-11")
    assert finding["applies"]["answer"] == CANNOT_TELL and "serial" in finding["applies"]["why"]


def test_an_aircraft_that_is_not_in_the_fleet_list_is_an_error(samples):
    with pytest.raises(AircraftUnknown):
        check(samples, "IAW MM", "N404XX", keep=False)


# What is refused -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "work", "words"),
    [
        ("  \n ", "", "Nothing was given"),
        ("x" * (MOST_TEXT + 1), "", "20,000"),
        ("IAW MM", "great", "no class of work"),
    ],
)
def test_what_cannot_be_checked_says_why_and_what_to_do(samples, text, work, words):
    with pytest.raises(CheckRefused) as told:
        check(samples, text, work=work)
    assert words in told.value.what and told.value.remedy


# Words for the record --------------------------------------------------------------------------------------


def test_the_words_for_a_record_name_what_was_found_and_invent_nothing(samples, twin):
    words = one(samples, "IAW QZM-62-2 Rev 6, 32-42-00 pg 401", twin)["wording"]
    for part in ("QZM-62-2", "Rev 6", "14 March 2031", "32-42-00", "page 401", "N62QZ", "S/N QZ-077"):
        assert part in words
    lacking = one(samples, "C/W SB QZ62-32-0114")["wording"]
    assert "[revision?]" in lacking and "Rev" not in lacking.replace("[revision?]", "")


@pytest.mark.parametrize(
    ("work", "words"),
    [
        ("", "43.9(a)"),
        ("minor", "43.9(a)"),
        ("major", "Form 337"),
        ("inspection", "43.11(a)"),
        ("directive", "91.417"),
    ],
)
def test_the_record_is_reminded_of_what_the_class_of_work_needs(samples, work, words):
    assert any(words in each for each in found(samples, "IAW MM", work=work)["reminders"])


def test_every_answer_carries_the_cautions_and_the_state_of_the_library(samples):
    answer = found(samples, "IAW MM")
    assert len(answer["cautions"]) == 8
    assert answer["library_state"]["generation"] == samples.catalogue.generation


# No false yes ----------------------------------------------------------------------------------------------

MANY = (
    "IAW QZM-62-2 Rev 6, 32-42-00 pg 401",
    "IAW QZM-62-2, 04-00-00",
    "IAW AMM 24-31-00",
    "C/W SB QZ62-32-0114 Rev B",
    "C/W SB QZ62-32-0114 Rev B, Part 1",
    "C/W SB QZ62-32-0114 Rev C, Part 2",
    "C/W AD 2031-07-11",
    "IAW TR 32-07",
    "IAW H-14 Service Manual section V",
    "IAW manufacturer's instructions",
    "IAW AC 43.13-1B chapter 4 paragraph 4-58",
    "Installed FAA-PMA part with 8130-3 tag",
    "IAW 14 CFR 43.13(a)",
)


@pytest.mark.parametrize("text", MANY)
@pytest.mark.parametrize("registration", ["", "N62QZ", "N14PW"])
def test_a_yes_stands_beside_quoted_words_and_their_page(samples, twin, text, registration):
    for finding in found(samples, text, registration, "major")["citations"]:
        if YES not in answers(finding).values():
            continue
        standing = finding["standing"]
        assert finding["resolved"] and standing["quote"] and standing["pdf_page"]
        assert finding["applies"]["answer"] != "does not apply"
        if answers(finding)["major"] == YES:
            assert standing["value"] == "approved"


def test_the_order_of_the_references_changes_no_finding(samples, twin):
    lines = [f"{text}." for text in MANY[:7]]

    def told(order):
        answer = found(samples, "\n".join(order), twin)
        return sorted(
            json.dumps(
                {name: value for name, value in each.items() if name not in ("start", "end")}, sort_keys=True
            )
            for each in answer["citations"]
        )

    assert told(lines) == told(lines[::-1])


# The trail -------------------------------------------------------------------------------------------------


def test_what_was_answered_is_kept_and_can_be_asked_again(samples, twin):
    generation = samples.catalogue.generation
    made = check(samples, "IAW QZM-62-2 Rev 6, 32-42-00 pg 401", twin, "minor", AFTER)
    assert made.id and samples.catalogue.generation == generation
    assert kept(samples, made.id) == made.fields()
    line = kept_list(samples, 1)["checks"][0]
    assert (line["id"], line["aircraft"], line["work"]) == (made.id, twin, "minor")
    asked = again(samples, made.id)
    assert asked.differences == () and asked.kept == made.fields()


def test_what_changed_since_is_named_and_the_old_answer_stays(samples, twin):
    made = check(samples, "N88QZ: C/W AD 2031-07-11", work="directive")
    assert re.search("N88QZ", made.fields()["citations"][0]["applies"]["why"])
    fleet.add(samples.catalogue, "N88QZ", "QZ62", "R. Quill", "QZ-077", "Aldermoor")
    asked = again(samples, made.id)
    assert asked.differences and asked.kept == made.fields()
    fleet.remove(samples.catalogue, "N88QZ", "R. Quill", "entered for a test")
    assert again(samples, made.id).differences == ()
