"""`hangarleaf ocr`, the end of an ingest, and the service's background: with an engine of the test's own."""

import datetime
import html
import json
import sys
import threading
from functools import partial
from pathlib import Path

import fake_ocr
import pytest
from asking import Client
from click.testing import CliRunner

from indexer.ingest import ingest
from indexer.library.catalogue import Catalogue
from indexer.library.lock import only_one_ocr
from indexer.library.ocr_pages import debt, keep_page, pages_to_read
from indexer.library.ocr_records import PageToRead, RunState
from indexer.library.ocr_state import last_state, write_state
from indexer.library.problems import OcrAtWork
from indexer.ocr_run import Limits, PageRead, recognize_pages
from indexer.reading.recognized import OcrReason
from indexer.settings import Settings
from server import ocr_debt, ocr_status, reading_scans, serving, shelf
from server.app import create_app
from server.cli import main
from server.ocr_background import OcrBackground
from server.ocr_words import WHY_NOT_PLACED
from server.opened import OpenedLibrary
from server.reading_scans import progress_words

SETTINGS = Settings(workers=2)
NONE = {"HANGARLEAF_OCR_ENGINE": "none"}


@pytest.fixture
def folder(tmp_path):
    made = tmp_path / "publications"
    made.mkdir()
    (made / "manual.pdf").write_text("MM-1 title\nscan:brake tie bolts\nscan:torque\nscan:unreadable")
    (made / "parts.pdf").write_text("PC-2 title\nscan:wheel half")
    return made


@pytest.fixture
def library(folder, tmp_path):
    ingest([folder], tmp_path / "library", SETTINGS, read=fake_ocr.read)
    return tmp_path / "library"


@pytest.fixture
def engine(monkeypatch):
    """The commands find this engine; what they run is the real run of OCR."""
    monkeypatch.setattr(
        reading_scans,
        "recognize_pages",
        partial(recognize_pages, recognize=fake_ocr.recognize, read=fake_ocr.read),
    )
    found = lambda settings: None if settings.ocr_engine == "none" else fake_ocr.Engine()  # noqa: E731
    for room in (reading_scans, ocr_status, sys.modules["indexer.reading.ocr"]):
        monkeypatch.setattr(room, "find_engine", found)


def run(*arguments, library, environment=None):
    words = [*(str(each) for each in arguments), "--library", str(library)]
    return CliRunner().invoke(main, words, env=environment or {})


def texts(library) -> list[str]:
    with Catalogue.open(library) as catalogue:
        records = catalogue.publications()
        return [each.text for record in records for each in catalogue.passages_of(record.id)]


def test_it_reads_what_waits_and_says_what_came_of_it(library, engine):
    done = run("ocr", library=library)
    assert done.exit_code == 1, "one page could not be read"
    assert "Read by OCR: 3 pages.\nCould not be read: 1 page.\n" in done.stdout
    assert "manual.pdf, PDF page 4: OCR could not read this page (as its line says)." in done.stderr
    assert "torque" in texts(library) and "wheel half" in texts(library)
    found = json.loads(run("search", "torque", "--json", library=library).stdout)
    assert found["total"] == 1


def test_it_ends_early_when_told(library, engine):
    done = run("ocr", "--pages", "1", "--json", library=library)
    answer = json.loads(done.stdout)
    assert done.exit_code == 0 and (answer["read"], answer["left"]) == (1, 3)
    assert json.loads(run("ocr", "--minutes", "0.00001", "--json", library=library).stdout)["read"] == 0


def test_the_status_says_what_is_owed_and_why_pages_failed(library, engine):
    said = run("ocr", "--status", library=library).stdout
    assert "4 pages not yet read." in said and "MM-1 (manual.pdf): 3 pages not yet read" in said
    assert "OCR engine: fake 1.0" in said and "No run yet. Start one: hangarleaf ocr" in said
    run("ocr", library=library)
    done = run("ocr", "--status", library=library)
    assert done.exit_code == 0
    assert "1 page not yet read." in done.stdout
    assert "3 pages read, 1 failed, 0 left; all pages are read." in done.stdout
    assert "(as its line says). Tried 1 time; tried again in the next run." in done.stdout
    run("ocr", library=library)
    run("ocr", library=library)
    said = run("ocr", "--status", library=library).stdout
    assert "0 pages not yet read.\n1 page could not be read." in said
    assert "Tried 3 times; read it as a picture." in said
    answer = json.loads(run("ocr", "--status", "--json", library=library).stdout)
    assert (answer["pages_not_read"], answer["pages_could_not_be_read"]) == (0, 1)
    assert answer["failed"][0]["tried_again"] is False and answer["running"] is False


def test_the_status_tells_of_a_run_of_another_process(library, engine):
    with OpenedLibrary.open(library, SETTINGS) as held:
        now = held.catalogue.status().changed_at.isoformat()
        at_work = RunState(1, now, now, "fake 1.0", "", "manual.pdf, PDF page 3", 40, 1, 1204, 3000.0)
        write_state(library, at_work)
        said = ocr_status.lines(ocr_status.status(held))[-1]
    assert said.startswith("A run is at work, begun ")
    assert "40 pages read, 1 failed, 1,204 left, about 50 minutes at the present speed." in said
    assert said.endswith("Now: manual.pdf, PDF page 3.")


def test_pages_are_read_anew_when_asked(library, engine, monkeypatch):
    run("ocr", library=library)
    monkeypatch.setattr(sys.modules["indexer.reading.ocr"], "find_engine", lambda _: fake_ocr.OtherEngine())
    done = run("ocr", "--again", "manual.pdf", "--first", "2", "--last", "3", library=library)
    assert done.exit_code == 0 and "Read by OCR: 2 pages." in done.stdout
    assert "TORQUE" in texts(library) and "wheel half" in texts(library)
    done = run("ocr", "--again", "manual.pdf", "--last", "1", library=library)
    assert done.exit_code == 2 and "Their own text will do." in done.stderr
    assert run("ocr", "--first", "2", library=library).exit_code == 2
    assert run("ocr", "--again", "no such manual", library=library).exit_code == 2


def test_without_an_engine_it_says_the_remedy_and_fails(library, engine, monkeypatch):
    monkeypatch.setattr(sys.modules["indexer.reading.ocr"], "find_engine", lambda _: None)
    done = run("ocr", library=library)
    assert done.exit_code == 2
    assert "no OCR engine is installed" in done.stderr and "pip install 'hangarleaf[ocr]'" in done.stderr
    done = run("ocr", library=library, environment=NONE)
    assert done.exit_code == 2 and "HANGARLEAF_OCR_ENGINE" in done.stderr


def test_a_second_run_is_refused(library, engine):
    with only_one_ocr(library):
        done = run("ocr", library=library)
    assert done.exit_code == 2 and "are being read already" in done.stderr


def test_an_ingest_goes_on_to_read_scanned_pages(library, folder, engine, monkeypatch):
    monkeypatch.setattr("server.taking_in.ingest", partial(ingest, read=fake_ocr.read))
    done = run("ingest", folder, "--no-ocr", library=library)
    assert done.exit_code == 0 and "OCR" not in done.output
    done = run("ingest", folder, library=library)
    assert done.exit_code == 0
    assert (
        "4 pages have no usable text; reading them, most wanted first. Stop any time with Ctrl-C;"
        " hangarleaf ocr goes on." in done.stderr
    )
    assert "Read by OCR: 3 pages." in done.stdout and "torque" in texts(library)
    with Catalogue.open(library) as catalogue:
        assert len(pages_to_read(catalogue)) == 1
    done = run("ingest", folder, "--json", library=library)
    assert json.loads(done.stdout)["already"] and "1 page has no usable text; reading it." in done.stderr


def test_an_ingest_without_an_engine_says_so_once_and_succeeds(library, folder, engine, monkeypatch):
    monkeypatch.setattr("server.taking_in.ingest", partial(ingest, read=fake_ocr.read))
    monkeypatch.setattr(reading_scans, "find_engine", lambda _: None)
    done = run("ingest", folder, library=library)
    assert done.exit_code == 0
    assert done.stderr.count("no OCR engine is installed") == 1
    assert done.stderr.startswith("4 pages have no usable text. Scanned pages cannot be read")
    done = run("ingest", folder, library=library, environment=NONE)
    assert done.exit_code == 0
    assert "4 pages have no usable text. OCR is switched off by the setting" in done.stderr
    with only_one_ocr(library):
        done = run("ingest", folder, library=library)
    assert done.exit_code == 0 and "are being read already" in done.stderr


@pytest.mark.parametrize(
    ("done", "left", "seconds_left", "words"),
    [
        (2, 1200, None, "2 read, 1,200 left"),
        (3, 1200, 2400.0, "3 read, 1,200 left: about 40 minutes at the present speed"),
        (3, 9, 20.0, "3 read, 9 left: less than a minute at the present speed"),
        (12, 0, 0.0, "12 read, 0 left"),
    ],
)
def test_an_estimate_is_given_once_one_can_be_made(done, left, seconds_left, words):
    state = RunState(1, "", "", "fake 1.0", done=done, left=left, seconds_left=seconds_left)
    page = PageToRead("c", 1, "a.pdf", OcrReason.NO_TEXT)
    assert progress_words(PageRead(page, 10, "", state)) == words


# In the background of the service -------------------------------------------------------------------------


def background(library, engine=fake_ocr.Engine) -> OcrBackground:
    return OcrBackground(
        library, SETTINGS, lambda _: engine() if engine else None, fake_ocr.recognize, fake_ocr.read
    )


def until(library, condition) -> None:
    """Wait until the catalogue is so; the suite's own time limit is the only one."""
    looked = threading.Event()
    with Catalogue.open(library) as catalogue:
        while not condition(catalogue):
            looked.wait(0.05)  # leaves the processor to the run


def test_the_background_reads_what_waits_and_what_comes_later(library, folder, monkeypatch):
    monkeypatch.setattr("server.ocr_background._LOOK_EVERY_S", 0.05)
    reading = background(library)
    reading.start()
    try:
        until(library, lambda catalogue: debt(catalogue).pages_unread == 1)
        assert "torque" in texts(library)
        with OpenedLibrary.open(library, SETTINGS) as held:
            until(library, lambda _: held.up_to_date())
        (folder / "late.pdf").write_text("LM-3 title\nscan:came later")
        ingest([folder], library, SETTINGS, read=fake_ocr.read)
        until(library, lambda catalogue: "came later" in texts(library))
    finally:
        reading.stop()
    with Catalogue.open(library) as catalogue:
        (failed,) = [each for each in pages_to_read(catalogue)]
        assert (failed.file, failed.pdf_page) == ("manual.pdf", 4)
        assert debt(catalogue).pages_unread == 1, "a page that failed is left for the next start"
    assert last_state(library).ended


def test_the_background_stops_at_once_and_starts_nothing_without_an_engine(library, folder):
    (folder / "hangs.pdf").write_text("scan:hang")
    ingest([folder], library, SETTINGS, read=fake_ocr.read)
    reading = background(library)
    reading.start()
    until(library, lambda _: (last_state(library) or RunState(0, "", "", "")).page)
    reading.stop()
    assert last_state(library).ended == "stopped"
    idle = background(library, None)
    idle.start()
    idle.stop()
    never_started = background(library)
    never_started.stop()


def test_the_background_leaves_the_pages_to_a_run_that_is_at_work(library, monkeypatch):
    refused = threading.Event()

    def tried(*given, **named):
        try:
            return recognize_pages(*given, **named)
        except OcrAtWork:
            refused.set()
            raise

    monkeypatch.setattr("server.ocr_background._LOOK_EVERY_S", 0.05)
    monkeypatch.setattr("server.ocr_background.recognize_pages", tried)
    reading = background(library)
    with only_one_ocr(library):
        reading.start()
        assert refused.wait(60)
        with Catalogue.open(library) as catalogue:
            assert debt(catalogue).pages_unread == 4
    try:
        until(library, lambda catalogue: debt(catalogue).pages_unread == 1)
    finally:
        reading.stop()


def test_the_service_reads_from_when_it_answers_until_it_ends(library, monkeypatch):
    noted = []

    class Noting:
        def __init__(self, folder, settings):
            assert folder == library

        def start(self):
            noted.append("started")

        def stop(self):
            noted.append("stopped")

    monkeypatch.setattr(serving, "OcrBackground", Noting)
    monkeypatch.setattr(serving.Service, "run", lambda service, sockets: service._answers())
    settings = Settings(library=str(library))
    serving.serve(settings, "127.0.0.1", 0, lambda address: noted.append("answers"), ocr=True)
    assert noted == ["answers", "started", "stopped"]
    noted.clear()
    serving.serve(settings, "127.0.0.1", 0)
    assert noted == ["stopped"], "serve alone reads nothing"


def test_the_scan_of_the_samples_is_found_once_it_is_read(tmp_path):
    """From the file to the hit, with the engine of this machine."""
    from indexer.reading.ocr import find_engine

    if find_engine(Settings()) is None:
        pytest.skip("no OCR engine is installed")
    scan = Path(__file__).parents[2] / "sample_docs" / "pdf" / "brake-component-manual-scan.pdf"
    done = run("ingest", scan, library=tmp_path / "library")
    assert done.exit_code == 0, done.stderr
    assert "2 pages have no usable text; reading them" in done.stderr
    found = json.loads(run("search", "anchor bolts", "--json", library=tmp_path / "library").stdout)
    assert found["total"] >= 1
    assert {hit["number"]["text"] for group in found["groups"] for hit in group["hits"]} == {"32-42-08"}


@pytest.mark.parametrize(
    ("pages", "said"),
    [
        (("--first", "3", "--last", "1"), "--first 3 comes after --last 1: give the lower page first."),
        (("--first", "5"), "--first 5: manual.pdf has PDF pages 1 to 4 of this publication."),
        (("--first", "2", "--last", "9"), "--last 9: manual.pdf has PDF pages 1 to 4 of this publication."),
        (("--first", "1", "--last", "1"), "none of the pages asked for is to be read by OCR"),
    ],
)
def test_pages_that_cannot_be_read_anew_are_refused_for_their_own_reason(library, engine, pages, said):
    result = CliRunner().invoke(main, ["ocr", "--library", str(library), "--again", "manual.pdf", *pages])
    assert result.exit_code == 2 and said in result.output


# What is owed, in every state ------------------------------------------------------------------------------


def nothing(library):
    return {}


def some(library):
    _run(library, limits=Limits(pages=2))


def all_of_them(library):
    _run(library)


def failing(library):
    for _ in range(3):
        _run(library)


def not_placed(library):
    _run(library, read=fake_ocr.read_badly)


def one_not_placed(library):
    _run(library, limits=Limits(pages=1), read=fake_ocr.read_badly)


def interrupted(library):
    """Killed after a page was kept and before its copy was put in place."""
    with Catalogue.open(library) as catalogue:
        page = next(page for page in pages_to_read(catalogue) if page.file == "parts.pdf")
        keep_page(
            catalogue,
            page.copy_id,
            fake_ocr.recognize(catalogue.copy_file(page.copy_id), SETTINGS, page.pdf_page, fake_ocr.Engine()),
        )
    write_state(
        library, RunState(1, "2031-03-04T10:00:00+00:00", "2031-03-04T10:00:05+00:00", "fake 1.0", left=3)
    )


def at_work_elsewhere(library):
    now = datetime.datetime.now(datetime.UTC).isoformat()
    write_state(library, RunState(1, now, now, "fake 1.0", left=4))


def _run(library, read=fake_ocr.read, **rest):
    recognize_pages(library, SETTINGS, fake_ocr.Engine(), recognize=fake_ocr.recognize, read=read, **rest)


@pytest.mark.parametrize(
    ("made", "unread", "in_place_not", "failed", "running", "ended"),
    [
        (nothing, 4, 0, 0, False, None),
        (some, 2, 0, 0, False, "stopped at its limit"),
        (all_of_them, 1, 0, 0, False, "all pages are read"),
        (failing, 0, 0, 1, False, "all pages are read"),
        (not_placed, 4, 3, 0, False, "2 files could not be put in place"),
        (one_not_placed, 4, 1, 0, False, "stopped at its limit"),
        (interrupted, 4, 1, 0, False, "it was broken off: start it again"),
        (at_work_elsewhere, 4, 0, 0, True, ""),
    ],
)
@pytest.mark.parametrize("installed", [True, False])
def test_every_door_says_the_same_of_what_ocr_owes(
    library, monkeypatch, made, unread, in_place_not, failed, running, ended, installed
):
    """`ocr --status`, `status`, /status and /api/status, with an engine and without one."""
    made(library)
    settings = Settings(ocr_engine="none")
    if installed:
        settings = Settings()
        for room in (ocr_status, ocr_debt):
            monkeypatch.setattr(room, "find_engine", lambda settings: fake_ocr.Engine())
        ocr_debt._remedy.cache_clear()
    with OpenedLibrary.open(library, settings) as opened:
        told, said = ocr_status.status(opened), shelf.status(opened)["ocr"]
        client = Client(create_app(opened, settings))
        page, api = client.get("/status").text, client.get("/api/status").json()["ocr"]
        words = "\n".join(ocr_status.lines(told))
    ocr_debt._remedy.cache_clear()
    for answer in (told, said, api):
        assert (answer["pages_not_read"], answer["pages_not_in_place"]) == (unread, in_place_not)
        assert (answer["pages_could_not_be_read"], answer["running"]) == (failed, running)
        for key, total in (
            ("pages_not_read", unread),
            ("pages_not_in_place", in_place_not),
            ("pages_could_not_be_read", failed),
        ):
            assert sum(each[key] for each in answer["publications"]) == total
        assert answer["not_in_place"] == told["not_in_place"]
        assert bool(told["not_in_place"]) == bool(in_place_not)
    assert (told["run"] or {"ended": None})["ended"] == ended
    first = words.split("\n")[0]
    waiting = unread - in_place_not
    assert (f"{waiting} page{'' if waiting == 1 else 's'} not yet read" in first) == (
        waiting > 0 or not unread
    )
    assert ("read but not in place" in first) == (in_place_not > 0)
    assert f"<dt>Not yet read by OCR</dt><dd>{waiting if waiting else 'no'} page" in page
    assert ("Read by OCR but not in place" in page) == (in_place_not > 0)
    for why in told["not_in_place"]:
        assert why in html.unescape(page) and why in words
    if in_place_not and not running:
        assert WHY_NOT_PLACED in said["words"]
    assert ("switched off" in said["words"]) == (not installed and waiting > 0 and not running)
