"""Entries that name a document without the usual words, or another maker's: what they mean, never another's.

Documents: sample_docs/README.md and its truth files. How mechanics write: common practice, no source, where
no rule is named.
"""

import pytest
from worked.shelf import SAMPLES

from indexer.ingest import ingest
from indexer.library import fleet, register
from indexer.library.catalogue import Catalogue
from indexer.library.day import make_demonstration, today
from indexer.library.whoosh_engine import WhooshEngine
from indexer.settings import Settings
from server.demo import DAY
from server.opened import OpenedLibrary, index_folder
from server.routes.finding_view import lead_words
from server.sourcecheck import check

TWIN, SINGLE = "N62QZ", "N14PW"
OTHER_TWIN = "QX-1AB"
NAMED_AS_PRINTED = "N15PW"  # its maker stands in the fleet list as the manual prints it
FILES = (
    "qz62-maintenance-manual.pdf",
    "qz62-structural-repair-manual.pdf",
    "sb-qz62-32-0114-rev-b.pdf",
    "sb-qz62-32-0114-rev-c.pdf",
    "ad-2031-07-11.pdf",
    "amoc-letter-2031-07-11.pdf",
    "nprm-faa-2032-9127.pdf",
    "h-14-service-manual.pdf",
    "h-14-parts-list.pdf",
)
PLACE = "32-42-00 pg 401"
HELD_MANUAL = "QZM-62-2: MAINTENANCE MANUAL"


@pytest.fixture(scope="module")
def shelf(tmp_path_factory):
    place = tmp_path_factory.mktemp("resolving") / "library"
    with Catalogue.open(place, create=True) as catalogue:
        make_demonstration(catalogue, DAY)
    settings = Settings(library=str(place))
    engine = WhooshEngine(index_folder(place), settings.search_cache_mb)
    report = ingest([SAMPLES / name for name in FILES], place, settings, engine=engine)
    assert not report.refused
    with OpenedLibrary.open(place, Settings()) as library:
        fleet.add(library.catalogue, TWIN, "QZ62", "R. Quill", "QZ-077", "Aldermoor")
        fleet.add(library.catalogue, SINGLE, "H-14", "R. Quill", "H-120", "Pellworth")
        fleet.add(library.catalogue, OTHER_TWIN, "QZ62", "R. Quill", "QZ-078", "Aldermoor")
        maker = "Pellworth Aeroplane Company"
        fleet.add(library.catalogue, NAMED_AS_PRINTED, "H-14", "R. Quill", "H-121", maker)
        manual = next(each for each in library.publications() if each.number == "QZM-62-2")
        day = today(library.catalogue)
        register.record_check(
            library.catalogue, manual.id, "6", manual.date, "Aldermoor index", day, "R. Quill", 365
        )
        yield library


def findings(library, text, aircraft=TWIN, work=""):
    return check(library, text, aircraft, work, keep=False).fields()["citations"]


def one(library, text, aircraft=TWIN, work=""):
    found = findings(library, text, aircraft, work)
    assert len(found) == 1, [each["text"] for each in found]
    return found[0]


def answers(finding):
    return {answer["answer"] for answer in finding["enough"].values()}


def never_yes(library, text, aircraft=TWIN):
    found = findings(library, text, aircraft)
    assert "yes" not in {answer for each in found for answer in answers(each)}, text
    return found


# A number held here is known wherever it stands -------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    [
        f"QZM-62-2 Rev 6 {PLACE}",
        f"Used QZM-62-2 Rev 6, {PLACE}",
        f"Brakes: QZM-62-2 Rev 6, {PLACE}",
        f"Replaced linings QZM-62-2 Rev 6, {PLACE}",
        f"REPLACED LININGS QZM-62-2 REV 6, {PLACE.upper()}",
        f"replaced linings qzm-62-2 rev 6 {PLACE}",
        f"IAW Aldermoor QZM-62-2 Rev 6, {PLACE}",
        f"using manual QZM-62-2 rev 6, {PLACE}",
        f"Rev 6 of QZM-62-2, {PLACE}",
        f"{PLACE}, QZM-62-2 Rev 6",
        f"{PLACE} of QZM-62-2 Rev 6",
        f"{PLACE} ({'QZM-62-2'} Rev 6)",
        f"Ref QZM-62-2/6, {PLACE}",
        f"QZM-62-2 dated 14 March 2031, {PLACE}",
        f"Replaced linings.\nQZM-62-2 Rev 6\n{PLACE}",
    ],
)
def test_a_number_held_here_is_read_without_a_word_that_leads_to_it(shelf, text):
    found = one(shelf, text)
    assert found["resolved"]["name"] == HELD_MANUAL and found["resolved"]["pdf_pages"] == [35]
    assert found["number"] == "QZM-62-2" and found["enough"]["minor"]["answer"] == "yes"
    assert "Rev 6" in found["wording"] and "[Rev" not in found["wording"]


@pytest.mark.parametrize("mark", ["5", "7"])
@pytest.mark.parametrize(
    "words",
    [
        "QZM-62-2 Rev {} 32-42-00 pg 401",
        "QZM-62-2 Rev {}, 32-42-00 pg 401",
        "Used QZM-62-2 Rev {}, 32-42-00 pg 401",
        "Brakes: QZM-62-2 Rev {}, 32-42-00 pg 401",
        "Replaced linings QZM-62-2 Rev {}, 32-42-00 pg 401",
        "IAW Aldermoor QZM-62-2 Rev {}, 32-42-00 pg 401",
        "using manual QZM-62-2 rev {}, 32-42-00 pg 401",
        "Rev {} of QZM-62-2, 32-42-00 pg 401",
        "32-42-00 pg 401, QZM-62-2 Rev {}",
        "32-42-00 pg 401 (QZM-62-2 Rev {})",
        "Ref QZM-62-2/{}, 32-42-00 pg 401",
        "QZM-62-2 issue {}, brakes, 32-42-00 pg 401",
        "Manual at Rev {}. Linings replaced IAW 32-42-00 pg 401",
        "MM 32-42-00 pg 401. Manual was at Rev {}.",
    ],
)
def test_another_revision_than_the_one_held_is_never_taken_for_it(shelf, words, mark):
    for found in never_yes(shelf, words.format(mark)):
        assert found["current"]["state"] != "current as checked"
        assert "Rev 6" not in found["wording"]


def test_a_bulletin_is_known_by_its_number_alone(shelf):
    found = one(shelf, "QZ62-32-0114 Rev B Part 2")
    assert found["resolved"]["name"].startswith("SB QZ62-32-0114") and found["resolved"]["revision"] == "B"
    found = one(shelf, "QZ62-32-0114 Rev D Part 2")
    assert found["resolved"] is None and {each["revision"] for each in found["candidates"]} == {"B", "C"}


def test_the_repair_manual_is_known_by_its_number_alone(shelf):
    found = one(shelf, "Aldermoor QZM-62-3 Rev 2 53-10-00")
    assert found["resolved"]["name"].startswith("QZM-62-3") and found["resolved"]["pdf_pages"]


def test_a_number_with_what_is_no_reference_beside_it_stays_what_it_is(shelf):
    """A part that has the form of a number, and one that stands for a part."""
    (found,) = findings(shelf, f"Installed bolt QZ32-4410-1 IAW QZM-62-2 Rev 6, {PLACE}")
    assert found["enough"]["minor"]["answer"] == "yes"


# What was not understood beside a place stops a yes ---------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "quoted"),
    [
        (f"QZM-62-9 Rev 7 {PLACE}", "QZM-62-9 Rev 7"),
        (f"Linings QZM-62-9 replaced IAW {PLACE}", "QZM-62-9"),
        (f"{PLACE}, QZM-62-9", "QZM-62-9"),
        (f"IAW MM {PLACE}, book QB/7 Rev 4", "Rev 4"),
        (f"Rev 4 book open on bench. IAW MM {PLACE}", "Rev 4"),
        (f"Manual dated 3 May 2019 at hand. IAW MM {PLACE}", "dated 3 May 2019"),
        (f"Seventh revision of QZM-62-2, {PLACE}", "Seventh revision"),
        (f"IAW old copy of QZM-62-2, {PLACE}", "old copy"),
        (f"Photocopy of QZM-62-2 from 2019, {PLACE}", "Photocopy of QZM-62-2"),
        (f"QZM-62-2 draft copy {PLACE}", "draft copy"),
        (f"MM {PLACE} 2019 edition", "2019 edition"),
        (f"Removed wheel.\nRev 5\nIAW MM {PLACE}", "Rev 5"),
        (f"Doc 4417-B, per MM {PLACE}", "4417-B"),
    ],
)
def test_words_that_were_not_understood_beside_a_place_leave_it_open(shelf, text, quoted):
    found = never_yes(shelf, text)
    said = " ".join(each["enough"]["minor"]["why"] for each in found)
    assert quoted in said or "not in this library" in said


@pytest.mark.parametrize(
    "text",
    [
        f"Replaced brake linings IAW MM {PLACE}",
        f"Replaced brake linings P/N 66-105A IAW AMM ch {PLACE}. W/O 2031-0456, TT 1234.5",
        f"Installed AN3-5A bolts and O-ring MS28775-222 IAW MM {PLACE}",
        f"IAW MM {PLACE}, new tie bolts AN3-5A",
        f"IAW Aldermoor QZ62 Maintenance Manual, {PLACE}",
        f"IAW QZ-62 Maintenance Manual {PLACE}",
        f"per landing gear section of MM, {PLACE}",
        f"IAW Aldermoor Aircraft Corp. QZ62 MM QZM-62-2 Revision 6 dated March 14, 2031, {PLACE}",
        f"Need to check brakes IAW MM {PLACE}",
        f"Replaced without damage IAW MM {PLACE}",
        f"Removed old linings, installed new linings IAW MM {PLACE}",
        f"REPLACED BRAKE LININGS IAW AIRCRAFT MAINTENANCE MANUAL CHAPTER {PLACE.upper()}",
    ],
)
def test_parts_and_orders_beside_a_place_leave_it_as_it_is(shelf, text):
    assert one(shelf, text)["enough"]["minor"]["answer"] == "yes"


# Used, or not -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    [
        f"Did NOT use QZM-62-2 Rev 6, {PLACE}",
        f"Did not use the Aldermoor manual QZM-62-2 Rev 6, {PLACE}",
        f"Didn't follow QZM-62-2 Rev 6, {PLACE}",
        f"Not IAW QZM-62-2 Rev 6, {PLACE}",
        f"Used the old book instead of QZM-62-2 Rev 6, {PLACE}",
        f"Shop practice in lieu of QZM-62-2 Rev 6, {PLACE}",
        f"Done from memory rather than QZM-62-2 Rev 6, {PLACE}",
        f"Done without MM {PLACE}",
        f"Did not refer to MM {PLACE}",
        f"should have used MM {PLACE}",
        f"Deviated from MM {PLACE}",
        f"MM {PLACE} was not consulted",
        f"MM {PLACE} does not cover this",
        f"MM {PLACE} unavailable, done from memory",
    ],
)
def test_a_source_that_was_not_used_is_no_source(shelf, text):
    for found in never_yes(shelf, text):
        assert not found["wording"]


@pytest.mark.parametrize(
    "text",
    [
        f"not using QZM-62-2 Rev 6 but shop notes, {PLACE}",
        f"QZM-62-2 Rev 6 was not used, {PLACE}",
    ],
)
def test_a_place_beside_a_source_that_was_not_used_is_open(shelf, text):
    never_yes(shelf, text)


# Another maker's manual -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "named"),
    [
        (f"Replaced linings IAW Brindlecross 58 MM {PLACE}", "Brindlecross 58"),
        (f"REPLACED LININGS IAW BRINDLECROSS 58 MM {PLACE.upper()}", "BRINDLECROSS 58"),
        (f"replaced linings iaw brindlecross 58 mm {PLACE}", "brindlecross 58"),
        ("Tarn R44 maintenance manual chapter 32-42-00", "Tarn R44"),
        ("Quelford manual chapter 32-42-00", "Quelford"),
        (f"IAW Quelford {PLACE}", "Quelford"),
        (f"Quelford MM {PLACE}", "Quelford"),
        (f"QUELFORD MM {PLACE.upper()}", "QUELFORD"),
        (f"IAW Pellworth MM {PLACE}", "Pellworth"),
        (f"IAW Quelford brake MM {PLACE}", "Quelford"),
        (f"IAW the Quelford, {PLACE}", "Quelford"),
        (f"{PLACE} of the Brindlecross 58 manual", "Brindlecross 58"),
        (f"IAW MM {PLACE} for the Tarn R44", "Tarn R44"),
        (f"IAW KX-58 MM {PLACE}", "KX-58"),
        (f"IAW 58 MM {PLACE}", "58"),
        (f"IAW MM for Tarn R44, {PLACE}", "Tarn R44"),
        (f"IAW MM (Tarn R44) {PLACE}", "Tarn R44"),
        (f"Used Tarnby manual for QZ62, {PLACE}", "Tarnby"),
        (f"IAW MM {PLACE} (Brindlecross)", "Brindlecross"),
        (f"IAW QZ62X MM {PLACE}", "QZ62X"),
    ],
)
def test_another_makers_manual_is_never_taken_for_one_held_here(shelf, text, named):
    found = never_yes(shelf, text)
    assert all(not each["resolved"] or each["resolved"]["name"] != HELD_MANUAL for each in found)
    assert not any("Rev 6" in each["wording"] for each in found)


def test_the_words_that_name_another_product_are_quoted(shelf):
    (found,) = never_yes(shelf, f"IAW Brindlecross QZM-62-2 Rev 6 {PLACE}")
    assert "«Brindlecross»" in found["enough"]["minor"]["why"]
    found = one(shelf, f"Replaced linings IAW Brindlecross 58 MM {PLACE}")
    said = "The words name «Brindlecross 58», which no manual held here is for"
    assert said in found["enough"]["minor"]["why"]


# A service manual is not a maintenance manual ---------------------------------------------------------------

SERVICE_MANUAL = "SERVICE MANUAL, H-14, H-14B"


@pytest.mark.parametrize("text", ["Serviced strut per service manual sec V", f"IAW service manual {PLACE}"])
def test_a_maintenance_manual_is_not_taken_for_a_service_manual(shelf, text):
    for found in never_yes(shelf, text, OTHER_TWIN):
        assert_not_told(found)
        listed = {each["name"]: each["why"] for each in found["candidates"]}
        assert listed[HELD_MANUAL].startswith("a maintenance manual, not a service manual")
        assert listed[SERVICE_MANUAL].startswith("a service manual; nothing shows that it is meant")


def test_a_service_manual_is_not_taken_for_a_maintenance_manual(shelf):
    (found,) = never_yes(shelf, "Serviced strut per H-14 maintenance manual sec V", SINGLE)
    assert_not_told(found)
    assert SERVICE_MANUAL in {each["name"] for each in found["candidates"]}


@pytest.mark.parametrize(
    ("text", "aircraft", "name"),
    [
        ("Serviced strut per maintenance manual sec V", OTHER_TWIN, HELD_MANUAL),
        ("Serviced strut per H-14 service manual sec IX", SINGLE, SERVICE_MANUAL),
    ],
)
def test_a_manual_without_the_section_named_is_not_taken(shelf, text, aircraft, name):
    (found,) = never_yes(shelf, text, aircraft)
    assert_not_told(found)
    assert [each["name"] for each in found["candidates"]] == [name]


@pytest.mark.parametrize(
    ("text", "aircraft"),
    [
        ("Serviced strut per H-14 service manual sec V", SINGLE),
        ("Serviced strut per service manual sec V", NAMED_AS_PRINTED),
    ],
)
def test_a_service_manual_for_the_model_with_the_section_is_found(shelf, text, aircraft):
    found = one(shelf, text, aircraft)
    assert found["resolved"]["name"] == SERVICE_MANUAL and found["resolved"]["pdf_pages"]
    assert found["applies"]["answer"] == "applies" and "section V" in found["wording"]


def assert_not_told(found):
    assert found["resolved"] is None and lead_words(found) == "Which one is meant cannot be told"
    assert found["standing"]["value"] == "undetermined" and found["current"]["state"] == "unknown"
    assert found["applies"]["answer"] == "cannot tell"
    assert not any(each in found["wording"] for each in ("QZM-62-2", "ALDERMOOR", "PELLWORTH", "Rev 6"))


# A place belongs to the document just named -----------------------------------------------------------------


def test_a_group_is_of_the_parts_list_just_named(shelf):
    found = one(shelf, "Replaced shock cord IAW H-14 parts list Group 13, P/N 13-1407", SINGLE)
    assert found["resolved"]["name"].startswith("PARTS LIST") and "yes" not in answers(found)


@pytest.mark.parametrize(
    "text", ["Replaced shock cord IAW Group 13", "IAW Section 5", "See item 13", "Section V"]
)
def test_a_group_or_section_without_a_document_leads_nowhere(shelf, text):
    for found in never_yes(shelf, text, SINGLE):
        assert found["resolved"] is None


# Suggested words --------------------------------------------------------------------------------------------


def test_a_circulars_chapter_stays_a_chapter(shelf):
    found = one(shelf, "Repaired skin IAW AC 43.13-1B chapter 2 page 2-15 para 2-42")
    assert found["wording"].startswith("IAW AC 43.13-1B, chapter 2, page 2-15, paragraph 2-42")
    found = one(shelf, "Adjusted brakes IAW Pellworth H-14 Service Manual, section V, page 5-2", SINGLE)
    assert "section V" in found["wording"]


def test_a_revision_that_the_entry_does_not_name_is_marked_as_found_here(shelf):
    found = one(shelf, f"IAW MM {PLACE}")
    assert "[Rev 6, dated 14 March 2031 is held here: was it used?]" in found["wording"]
    found = one(shelf, f"IAW MM Rev 6 {PLACE}")
    assert "Rev 6" in found["wording"] and "[dated 14 March 2031 as held here]" in found["wording"]
    found = one(shelf, f"IAW QZM-62-2 Rev 6 {PLACE}")
    assert "Rev 6, dated 14 March 2031" in found["wording"]


def test_no_words_are_suggested_for_what_is_not_to_be_cited(shelf):
    found = one(shelf, "C/W NPRM FAA-2032-9127")
    assert answers(found) == {"no"} and found["wording"] == ""
    assert any(each.startswith("Not to be cited: ") for each in found["notes"])
    found = one(shelf, f"IAW QZM-62-2 Rev 6, {PLACE}", SINGLE)
    assert answers(found) == {"no"} and found["wording"] == ""


# A letter about a directive ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    [
        "C/W AD 2031-07-11 IAW AMOC letter dated November 3, 2031",
        "AMOC letter dated 11/3/2031 to AD 2031-07-11",
        "AMOC letter of 3 Nov 2031, AD 2031-07-11 para (g)",
    ],
)
def test_a_letter_is_told_by_its_directive_and_its_date(shelf, text):
    (found,) = [each for each in findings(shelf, text) if "AMOC" in each["text"]]
    assert found["resolved"] and "AMOC" in found["resolved"]["name"].upper()
    assert "yes" not in answers(found)


@pytest.mark.parametrize(
    "text",
    [
        "C/W AD 2031-07-11 IAW AMOC letter dated November 4, 2031",
        "C/W AD 2031-07-12 IAW AMOC letter dated November 3, 2031",
    ],
)
def test_a_letter_of_another_day_or_directive_is_another(shelf, text):
    (found,) = [each for each in findings(shelf, text) if "AMOC" in each["text"]]
    assert found["resolved"] is None


@pytest.mark.parametrize("entry", ["C/W SB QZ62-32-0114 Rev B, {}", "SB QZ62-32-0114 Rev B and {}"])
def test_the_mark_of_an_aircraft_after_a_bulletin_is_no_second_bulletin(shelf, entry):
    made = check(shelf, entry.format(OTHER_TWIN), keep=False).fields()
    assert [each["text"] for each in made["citations"]] == ["SB QZ62-32-0114 Rev B"]
    assert any(OTHER_TWIN in fact for fact in made["facts"])
    assert made["citations"][0]["applies"]["why"] != "No aircraft is given."
