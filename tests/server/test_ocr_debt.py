"""What OCR owes is said wherever results are shown, each page once; it is noted what is wanted first."""

import csv
import io

import ocr_shelf
import pytest
from asking import Client

from indexer.library.ocr_pages import keep_failure, pages_to_read
from indexer.settings import Settings
from indexer.trade.evidence import Origin
from server.app import create_app
from server.ocr_debt import owed
from server.ocr_words import WHY_NOT_PLACED, HowRead, Owed, doubt_words, duration, ocr_label
from server.opened import OpenedLibrary
from server.search import search
from server.sourcecheck import check
from server.system import everything_on
from server.system_csv import system_csv

NO_ENGINE = Settings(ocr_engine="none")


@pytest.fixture
def scans(tmp_path):
    ids = ocr_shelf.make(tmp_path / "library", tmp_path / "files")
    with OpenedLibrary.open(tmp_path / "library", Settings()) as opened:
        yield opened, ids


@pytest.fixture
def failed(scans):
    """Page 6 of the scanned manual failed in three runs."""
    library, ids = scans
    (page,) = [each for each in pages_to_read(library.catalogue) if each.pdf_page == 6]
    for _ in range(3):
        assert keep_failure(library.catalogue, page, "engine 1", "it would not be read")
    return library, ids


def rows(library, table):
    with library.reading(), library.catalogue.reading() as connection:
        return [tuple(row)[:2] for row in connection.execute(f"SELECT * FROM {table} ORDER BY 1, 2")]


@pytest.mark.parametrize(
    ("owing", "words"),
    [
        (Owed(), ""),
        (Owed(1), "1 page not yet read."),
        (Owed(1204), "1,204 pages not yet read."),
        (Owed(310, in_library=1204), "1,204 pages not yet read, 310 of them in these publications."),
        (Owed(0, in_library=1204), "1,204 pages not yet read, none of them in these publications."),
        (Owed(5, 2), "5 pages not yet read. 2 pages could not be read by OCR."),
        (
            Owed(5, running=True, seconds_left=5400),
            "5 pages not yet read. They are being read now: about 2 hours left.",
        ),
        (Owed(5, running=True), "5 pages not yet read. They are being read now."),
        (Owed(5, remedy="Install an engine."), "5 pages not yet read. Install an engine."),
        (Owed(0, remedy="Install an engine."), ""),
        (Owed(1, not_placed=1), f"1 page read but not in place. {WHY_NOT_PLACED}"),
        (Owed(5, not_placed=2), f"3 pages not yet read, 2 pages read but not in place. {WHY_NOT_PLACED}"),
    ],
)
def test_the_debt_in_words(owing, words):
    assert owing.words == words


def test_an_estimate_is_no_more_exact_than_it_is():
    said = [duration(seconds) for seconds in (4, 61, 600, 5400, 7200, 200000)]
    assert said == [
        "less than a minute", "about 1 minute", "about 10 minutes", "about 2 hours", "about 2 hours",
        "about 2 days",
    ]  # fmt: skip


def test_how_text_was_read_in_words():
    assert ocr_label([Origin.DIGITAL]) == ""
    assert ocr_label([Origin.DIGITAL, Origin.HIDDEN_OCR]) == "Read by OCR, from a hidden text layer"
    assert ocr_label([Origin.HIDDEN_OCR, Origin.OCR]) == "Read by OCR"
    assert doubt_words(["175", "68-3204", "175"]) == (
        "Cannot tell: read the page. OCR was not certain of: 175, 68-3204."
    )
    assert doubt_words(["QZ32-4421-3,,", "(QZ32-4421-5).", "QZ-188..", "QZ32-4421-3"]) == (
        "Cannot tell: read the page. OCR was not certain of: QZ32-4421-3, (QZ32-4421-5), QZ-188."
    )
    assert HowRead(Origin.OCR).doubtful == ()


def test_the_debt_stands_with_every_answer(failed):
    library, ids = failed
    client = Client(create_app(library, Settings()))
    scanned, digital = ids["scanned"], ids["digital"]
    said = "2 pages not yet read. 1 page could not be read by OCR."
    for address in ("/?q=brake", "/publications", "/system/32", "/system/32?print=1"):
        assert "2 pages not yet read" in client.get(address).text, address
        assert "no text that can be searched" not in client.get(address).text, address
    page = client.get("/?q=brake").text
    assert said in page and page.count("not yet read") == 1
    apart = client.get(f"/?q=torque&publication={digital}").text
    assert "2 pages not yet read, none of them in these publications." in apart
    assert "2 pages not yet read" in client.get(f"/publications/{scanned}").text
    assert "not yet read" not in client.get(f"/publications/{digital}").text
    status = client.get("/status").text
    assert "2 pages not yet read, 1 page could not be read by OCR" in status
    for address in ("/api/search?q=brake", "/api/publications", "/api/status", "/api/system/32"):
        ocr = client.get(address).json()["ocr"]
        if address != "/api/system/32":  # of the publications that are listed
            assert (ocr["pages_not_read"], ocr["pages_could_not_be_read"]) == (2, 1), address
        assert ocr["pages_not_read_in_library"] == 2, address
    assert client.get(f"/api/publications/{scanned}").json()["pages_not_read"] == 2
    assert client.get("/api/search?q=brake").json()["not_searched"]["pages_without_text"] == 0
    found = check(library, "IAW OW9-MM page 3", keep=False).fields()
    assert any("2 pages not yet read" in note for note in found["notes"])
    rows = list(csv.DictReader(io.StringIO(system_csv(everything_on(library, "32")), newline="")))
    assert [row["why here"] for row in rows if "not yet read" in row["why here"]]


def test_a_page_that_is_not_read_says_so_and_is_read_next(scans):
    library, ids = scans
    client = Client(create_app(library, Settings()))
    page = client.get(f"/publications/{ids['scanned']}/pages/4").text
    assert "This page is a scan that has not been read yet" in page
    assert "most often it is a scan" not in page
    assert client.get(f"/api/publications/{ids['scanned']}/pages/5/boxes").json()["not_read"]
    assert client.get(f"/api/publications/{ids['scanned']}/pages/1/boxes").json()["not_read"] is None
    client.get(f"/publications/{ids['scanned']}/pages/1")
    copy_id = ids["scanned"].split("-")[0]
    assert rows(library, "wanted_page") == [(copy_id, 4), (copy_id, 5)]


def test_a_search_that_hardly_finds_anything_is_noted_once_a_time(scans):
    library, _ = scans
    client = Client(create_app(library, Settings()))
    client.get("/?q=magneto+timing")
    client.get("/api/search?q=timing+magneto")
    assert rows(library, "missed_search") == [("magneto timing", 2)]
    search(library, "any of: propeller governor")  # not asked by a person at a door
    assert rows(library, "missed_search") == [("magneto timing", 2)]


def test_without_an_engine_the_remedy_is_said(scans):
    library, _ = scans
    library.settings = NO_ENGINE
    with library.reading():
        assert "HANGARLEAF_OCR_ENGINE" in owed(library).words


def test_what_ocr_read_is_said_of_listing_lines(scans):
    library, _ = scans
    client = Client(create_app(library, Settings()))
    hit = client.get("/api/search?q=t0rque").json()["groups"][0]["hits"][0]
    assert (hit["origin"], hit["read_by_ocr"], hit["doubtful"]) == ("ocr", True, ["175"])
    assert hit["cannot_tell"] == "Cannot tell: read the page. OCR was not certain of: 175."
    page = client.get("/?q=t0rque").text
    assert "Read by OCR" in page and "OCR was not certain of: 175" in page
    hidden = client.get("/?q=bracket").text
    assert "Read by OCR, from a hidden text layer" in hidden
    born = client.get("/api/search?q=hose").json()["groups"][0]["hits"][0]
    assert (born["read_by_ocr"], born["cannot_tell"]) == (False, None)
