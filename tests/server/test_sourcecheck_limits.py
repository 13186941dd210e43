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
