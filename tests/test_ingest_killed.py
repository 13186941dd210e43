"""An ingest that is killed on its way loses nothing, locks nobody out, and is simply run again."""

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import misbehaving
import pytest

from indexer.errors import NoLibrary
from indexer.ingest import ingest
from indexer.library.catalogue import Catalogue
from indexer.settings import Settings

TESTS = Path(__file__).parent
FILES = 60
pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="kills with SIGKILL and looks into /proc")


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    made = tmp_path_factory.mktemp("publications")
    for number in range(FILES):
        (made / f"{number:03}.pdf").write_text(f"words of {number}\nmore words")
    return made


@pytest.fixture(scope="module")
def uninterrupted(folder, tmp_path_factory):
    return finish(folder, tmp_path_factory.mktemp("library"))


def finish(folder, library) -> str:
    ingest([folder], library, Settings(workers=2), read=misbehaving.read_slowly)
    with Catalogue.open(library) as catalogue:
        assert catalogue.sweep() == 0
        return catalogue.dump()


def begin(folder, library) -> subprocess.Popen:
    return subprocess.Popen(
        [sys.executable, str(TESTS / "ingest_process.py"), str(folder), str(library)],
        env={**os.environ, "PYTHONPATH": os.pathsep.join([str(TESTS.parent), str(TESTS)])},
    )


def taken(library) -> int:
    try:
        with Catalogue.open(library) as catalogue:
            return len(catalogue.publications())
    except NoLibrary:
        return 0


def kill_when(process: subprocess.Popen, library, at_least: int) -> None:
    """Kill the process, and it alone, as soon as so many files are taken."""
    while taken(library) < at_least:
        assert process.poll() is None, "the ingest ended before it could be killed"
        time.sleep(0.02)  # leaves the processor to the ingest
    process.send_signal(signal.SIGKILL)
    process.wait()


def test_a_killed_ingest_resumes_and_ends_as_if_it_had_never_been_killed(folder, tmp_path, uninterrupted):
    for at_least in (1, 20):
        kill_when(begin(folder, tmp_path), tmp_path, at_least)
        assert at_least <= taken(tmp_path) < FILES
    assert finish(folder, tmp_path) == uninterrupted


def test_workers_end_with_the_ingest_that_started_them(folder, tmp_path):
    """Otherwise a hanging worker would outlive its ingest for good."""
    hanging = tmp_path / "in"
    hanging.mkdir()
    (hanging / "hang.pdf").write_text(str(tmp_path / "pid"))
    process = subprocess.Popen(
        [sys.executable, "-c", _HANG.format(folder=str(hanging), library=str(tmp_path / "library"))],
        env={**os.environ, "PYTHONPATH": os.pathsep.join([str(TESTS.parent), str(TESTS)])},
    )
    while not (tmp_path / "pid").exists() or not (tmp_path / "pid").read_text():
        assert process.poll() is None
    worker = int((tmp_path / "pid").read_text())
    assert _alive(worker)
    process.send_signal(signal.SIGKILL)
    process.wait()
    while _alive(worker):  # the suite's own time limit is the only one
        time.sleep(0.01)


_HANG = """
import sys
from pathlib import Path
import misbehaving
from indexer.ingest import ingest
from indexer.settings import Settings
if __name__ == "__main__":
    ingest([Path({folder!r})], Path({library!r}), Settings(workers=1), read=misbehaving.hang_and_tell)
"""


def _alive(pid: int) -> bool:
    try:
        state = Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[0]
    except (FileNotFoundError, ProcessLookupError):
        return False
    return state != "Z"  # a zombie has ended, and waits for its parent to look
