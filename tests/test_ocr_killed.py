"""A run of OCR that is killed on its way loses the pages in work and no more, and is simply run again."""

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import fake_ocr
import pytest

from indexer.ingest import ingest
from indexer.library.catalogue import Catalogue
from indexer.library.ocr_pages import debt, pages_to_read, waiting_copies
from indexer.library.ocr_state import last_state
from indexer.ocr_run import recognize_pages
from indexer.settings import Settings

TESTS = Path(__file__).parent
SETTINGS = Settings(workers=2)
PAGES = 60
pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="kills with SIGKILL and stops with SIGINT")


@pytest.fixture
def folder(tmp_path):
    made = tmp_path / "publications"
    made.mkdir()
    for name in "ab":
        lines = [f"{name.upper()}-1 title", *(f"scan:slow words of {number}" for number in range(PAGES // 2))]
        (made / f"{name}.pdf").write_text("\n".join(lines))
    return made


def taken(folder, library):
    ingest([folder], library, SETTINGS, read=fake_ocr.read)
    return library


def finish(library) -> tuple[int, str]:
    """How many pages were still to be read, and the catalogue at the end."""
    report = recognize_pages(
        library, SETTINGS, fake_ocr.Engine(), recognize=fake_ocr.recognize, read=fake_ocr.read
    )
    assert report.left == 0 and not report.failed
    with Catalogue.open(library) as catalogue:
        assert debt(catalogue).pages_unread == 0
        return report.read, catalogue.dump()


def begin(library) -> subprocess.Popen:
    return subprocess.Popen(
        [sys.executable, str(TESTS / "ocr_process.py"), str(library)],
        env={**os.environ, "PYTHONPATH": os.pathsep.join([str(TESTS.parent), str(TESTS)])},
    )


def begin_in_a_terminal(library) -> subprocess.Popen:
    """A run in a process group of its own, which Ctrl-C interrupts as a whole."""
    return subprocess.Popen(
        [sys.executable, str(TESTS / "ocr_process.py"), str(library)],
        env={**os.environ, "PYTHONPATH": os.pathsep.join([str(TESTS.parent), str(TESTS)])},
        start_new_session=True,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )


def kept(library) -> int:
    with Catalogue.open(library) as catalogue:
        return PAGES - len(pages_to_read(catalogue))


def when(process: subprocess.Popen, library, at_least: int) -> None:
    """Wait until so many pages are kept."""
    while kept(library) < at_least:
        assert process.poll() is None, "the run ended before it could be stopped"
        time.sleep(0.02)  # leaves the processor to the run


def test_a_killed_run_loses_only_the_pages_in_work(folder, tmp_path):
    library = taken(folder, tmp_path / "library")
    for at_least in (1, 20):
        process = begin(library)
        when(process, library, at_least)
        process.send_signal(signal.SIGKILL)
        process.wait()
        assert at_least <= kept(library) < PAGES
    there = kept(library)
    read, dump = finish(library)
    assert read == PAGES - there, "what was kept is not read again"
    _, uninterrupted = finish(taken(folder, tmp_path / "other"))
    assert dump == uninterrupted


def test_a_run_stopped_by_the_reader_puts_in_place_what_it_read(folder, tmp_path):
    library = taken(folder, tmp_path / "library")
    process = begin(library)
    when(process, library, 5)
    process.send_signal(signal.SIGINT)
    assert process.wait() == 0
    with Catalogue.open(library) as catalogue:
        assert waiting_copies(catalogue) == []
        there = PAGES - debt(catalogue).pages_unread
    assert 5 <= there < PAGES and there == kept(library)


@pytest.mark.parametrize("pages", [0, 0, 1, 5])
def test_interrupting_a_run_leaves_no_traceback(folder, tmp_path, pages):
    """Also while its workers start: 0 = as soon as the run has found its pages."""
    library = taken(folder, tmp_path / "library")
    process = begin_in_a_terminal(library)
    assert process.stdout.readline() == "found\n"
    when(process, library, pages)
    os.killpg(process.pid, signal.SIGINT)
    _, said = process.communicate(timeout=120)
    assert (process.returncode, said) == (0, "")
    assert last_state(library).ended == "stopped"
