"""Source checks beside life limits, temporary revisions and pages that print that they are not approved.

Documents: sample_docs/README.md and its truth files. 14 CFR 43.16 and 91.403(c): an airworthiness limitation
is changed by its own revision or an approved alternative. What mechanics write: common practice, no source.
"""

import datetime

import pytest
from worked.shelf import SAMPLES

from indexer.ingest import ingest
from indexer.library import fleet, register
from indexer.library.catalogue import Catalogue
from indexer.library.day import make_demonstration, today
from indexer.library.whoosh_engine import WhooshEngine
from indexer.settings import Settings
from server.checking.paragraph_ranges import lies_inside
from server.demo import DAY
from server.opened import OpenedLibrary, index_folder
from server.sourcecheck import check

TWIN = "QX-1AB"
FILES = (
    "qz62-maintenance-manual.pdf",
    "qz62-structural-repair-manual.pdf",
    "sb-qz62-32-0114-rev-b.pdf",
    "sb-qz62-32-0114-rev-c.pdf",
    "sb-qz62-52-0093-rev-a.pdf",
    "qz62-temporary-revision-32-07.pdf",
    "ad-2031-07-11.pdf",
    "ad-2032-03-05.pdf",
)
REV_C = "SB QZ62-32-0114 Rev C"


@pytest.fixture(scope="module")
def shelf(tmp_path_factory):
    place = tmp_path_factory.mktemp("limits")
    with Catalogue.open(place / "library", create=True) as catalogue:
        make_demonstration(catalogue, DAY)
    settings = Settings(library=str(place / "library"))
    engine = WhooshEngine(index_folder(place / "library"), settings.search_cache_mb)
    report = ingest([SAMPLES / name for name in FILES], place / "library", settings, engine=engine)
    assert not report.refused
    with OpenedLibrary.open(place / "library", Settings()) as library:
        fleet.add(library.catalogue, TWIN, "QZ62", "R. Quill", "QZ-077", "Aldermoor")
        manual = next(each for each in library.publications() if each.number == "QZM-62-2")
        day = today(library.catalogue)
        register.record_check(
            library.catalogue, manual.id, "6", manual.date, "Aldermoor index", day, "R. Quill", 365
        )
        yield library


def findings(library, text, work="", on=None):
    return check(library, text, TWIN, work, on, keep=False).fields()["citations"]


def said(finding, work="minor"):
    return finding["enough"][work]["answer"], finding["enough"][work]["why"]


# A life limit beside a bulletin ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    [
        f"Extended wing attach bolt replacement time 6,000 to 6,500 hours IAW {REV_C}",
        f"Wing attach bolts retained to 6,500 hours IAW {REV_C} in place of QZM-62-2 chapter 04-00-00",
        f"Elevator trim actuator rod ends continued in service to 4,000 hrs IAW {REV_C}",
        f"P/N QZ57-1120-9 reinstalled IAW {REV_C}",
        f"Trunnion pin run beyond 12,000 landings IAW {REV_C}",
        f"TBO extension to 2,200 hours IAW {REV_C}",
        f"Brake bolts replaced IAW {REV_C} and QZM-62-2 Rev 6 04-00-00 page 1",
    ],
)
def test_a_bulletin_beside_a_life_limit_is_no_yes(shelf, text):
    bulletin = next(each for each in findings(shelf, text, "inspection") if "0114" in each["text"])
    assert {each["answer"] for each in bulletin["enough"].values()}.isdisjoint({"yes"})
    assert "43.16, 91.403(c)" in said(bulletin)[1]


def test_the_limitation_is_quoted_with_its_page(shelf):
    (found,) = findings(shelf, f"Wing attach bolt replacement time extended IAW {REV_C}")
    why = said(found, "major")[1]
    assert "QZ57-1120-9 6,000 hours»" in why and "of QZM-62-2" in why and "PDF page 9" in why


@pytest.mark.parametrize(
    "text",
    [
        f"Brake tie bolts replaced at 1,500 hours IAW {REV_C}",
        f"Tie bolts worn beyond limits, replaced IAW {REV_C}; sealant cured 4 to 6 hours",
    ],
)
def test_hours_and_wear_alone_touch_no_life_limit(shelf, text):
    """What the tests above differ from."""
    (found,) = findings(shelf, text)
    assert said(found)[0] == "yes"


# Temporary revisions ---------------------------------------------------------------------------------------

PAGE = "QZM-62-2 Rev 6, 32-42-00 pg"


def test_the_page_and_the_temporary_revision_that_changes_it_are_cited_together(shelf):
    text = f"Tie bolts torqued IAW {PAGE} 402, as changed by TR 32-07 dated June 30, 2031"
    page, change = findings(shelf, text)
    assert page["current"]["state"] == "current as checked" and "With TR 32-07" in page["current"]["why"]
    assert said(page)[0] == "yes" and said(change)[0] == "yes"
    assert change["applies"]["answer"] == "applies"
    assert "page 402, as changed by TR 32-07 dated 30 June 2031" in page["wording"]
    assert "[" not in change["wording"]


@pytest.mark.parametrize("text", [f"IAW {PAGE} 402", f"IAW {PAGE} 402, TR 32-07 not used"])
def test_the_changed_page_alone_is_no_source(shelf, text):
    found = findings(shelf, text)[0]
    answer, why = said(found)
    assert answer == "no" and why.startswith("Not by itself: this page is changed by TR 32-07")
    assert "cite both" in why and "history" not in why.casefold()


@pytest.mark.parametrize("page", ["401", "403"])
def test_another_page_of_the_task_is_read_with_the_temporary_revision(shelf, page):
    (found,) = findings(shelf, f"Tie bolts torqued IAW {PAGE} {page}")
    assert found["current"]["why"].startswith("Another page of this task, 402, is changed by TR 32-07")
    answer, why = said(found)
    assert answer == "yes" and "read with TR 32-07, which changes page 402" in why.split(":")[0]


def test_a_page_of_another_block_is_another_task(shelf):
    (found,) = findings(shelf, f"Pedal travel checked IAW {PAGE} 201")
    assert "TR 32-07" not in found["current"]["why"] and "TR 32-07" not in said(found)[1]


def test_before_the_temporary_revision_was_out_nothing_is_said_of_it(shelf):
    (found,) = findings(shelf, f"Tie bolts torqued IAW {PAGE} 401", on=datetime.date(2031, 5, 20))
    assert "read with TR" not in said(found)[1]


# Pages that print that they are not approved ---------------------------------------------------------------


@pytest.mark.parametrize(
    ("place", "words", "pdf_page"),
    [
        ("52-10-00 pg 201", "This page is outside the approval of page AP-1.", 5),
        ("53-60-00 pg 201", "THIS PAGE IS NOT FAA APPROVED.", 10),
    ],
)
def test_the_printed_denial_is_quoted_first_and_major_work_hears_of_it(shelf, place, words, pdf_page):
    (found,) = findings(shelf, f"Skin repaired IAW QZM-62-3 Rev 2 {place}")
    standing = found["standing"]
    assert (standing["quote"], standing["pdf_page"]) == (words, pdf_page)
    assert standing["value"] == "acceptable"
    if found["applies"]["answer"] == "applies":
        answer, why = said(found, "major")
        assert answer == "cannot tell" and why.startswith(
            "Not shown as approved data. The page itself says «"
        )
        assert said(found)[0] == "yes"


def test_a_page_that_denies_nothing_stays_approved(shelf):
    (found,) = findings(shelf, "Skin repaired IAW QZM-62-3 Rev 2 53-10-00 pg 101")
    assert found["standing"]["value"] == "approved" and said(found, "major")[0] == "yes"


# Directives ------------------------------------------------------------------------------------------------

REQUIRED = "paragraphs 3.B through 3.D"


@pytest.mark.parametrize("cited", ["3.B through 3.D", "3.B thru 3.C", "3.C", "3.D.(2)"])
def test_a_range_inside_the_one_named(cited):
    assert lies_inside(cited, [REQUIRED])


@pytest.mark.parametrize("cited", ["3.A through 3.C", "3.E", "2.C", "3", "3.D through 3.B", "B", "3.C and 4"])
def test_a_range_partly_outside_or_not_read(cited):
    assert not lies_inside(cited, [REQUIRED])


def test_the_paragraphs_that_a_directive_requires_are_compliance(shelf):
    """relations_truth.csv: AD 2032-03-05 requires paragraphs 3.B through 3.D of revision A."""
    text = "Pins installed IAW SB QZ62-52-0093 Rev A para 3.{} thru 3.D"
    (found,) = findings(shelf, text.format("B"), "directive")
    assert said(found, "directive")[0] == "yes" and "2032-03-05" in said(found, "directive")[1]
    (partly,) = findings(shelf, text.format("A"), "directive")
    assert said(partly, "directive")[0] == "cannot tell"


def test_credit_is_decided_from_the_directive_and_the_day_of_the_work(shelf):
    text = "Tie bolts replaced IAW SB QZ62-32-0114 Rev A dated December 9, 2030"
    (before,) = findings(shelf, text, "directive", datetime.date(2031, 3, 1))
    assert said(before, "directive")[0] == "yes" and "credited" in said(before, "directive")[1]
    (after,) = findings(shelf, text, "directive", datetime.date(2031, 5, 12))
    assert said(after, "directive")[0] == "no"
    (undated,) = findings(shelf, text, "directive")
    answer, why = said(undated, "directive")
    assert answer == "cannot tell"
    assert "Say on which day the work was done: credit only before 12 May 2031" in why
