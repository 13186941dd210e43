"""Files taken in the background of the service: their turn, a busy library, a stop, what is left behind."""

import os
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import misbehaving
import pytest
import small_library

from indexer.ingest import ingest
from indexer.library.catalogue import Catalogue
from indexer.library.lock import only_one
from indexer.settings import Settings
from server import incoming, ingest_background
from server.ingest_background import IngestBackground
from server.ingest_state import Doing, Source
from server.opened import OpenedLibrary

ROOT = Path(__file__).parents[2]
SAMPLE = ROOT / "sample_docs" / "pdf" / "sl-0219.pdf"


def wait_until(what, seconds=300):
    """Looks again and again; a test that waits in vain fails."""
    end = time.monotonic() + seconds
    while not what():
        assert time.monotonic() < end, "waited in vain"
        time.sleep(0.02)


@pytest.fixture
def folder(tmp_path):
    small_library.make(tmp_path / "library", tmp_path / "files")
    return tmp_path / "library"


@pytest.fixture
def background(folder):
    """Makes them, with a reader that does what a file's name says, and ends them."""
    made = []

    def make(read=misbehaving.read, start=True, **settings):
        one = IngestBackground(folder, Settings(workers=1, **settings), read)
        made.append(one)
        if start:
            one.start()
        return one

    yield make
    for one in made:
        one.stop()


def sent(library, name, text=""):
    """A file that was sent to the service and is whole."""
    part = incoming.new_part(library, name)
    part.write_text(f"%PDF-1.4 {text or name}")
    return incoming.accept(part)


def all_through(one, files):
    """Wait until so many files are through and nothing is at work."""
    wait_until(
        lambda: len(one.state().outcomes) == files and not one.state().at_work and not one.state().waiting
    )


def came(one):
    return {outcome.name: outcome.came for outcome in one.state().outcomes}


def test_what_was_sent_is_taken_and_incoming_is_emptied_of_it(folder, background):
    one = background()
    path = sent(folder, "a.pdf", "Zeppelin moorings")
    one.add([path])
    all_through(one, 1)
    assert came(one) == {"a.pdf": "taken"} and not one.state().at_work
    assert list(incoming.incoming_folder(folder).iterdir()) == []
    with Catalogue.open(folder) as catalogue:
        (copy,) = [copy for copy in catalogue.copies() if copy.file == "a.pdf"]
        assert "Zeppelin" in catalogue.copy_file(copy.id).read_text(), "the library keeps its own copy"


def test_the_opened_library_finds_it_without_being_told(folder, background):
    with OpenedLibrary.open(folder, Settings()) as opened:
        before = opened.catalogue.generation
        one = background()
        one.add([sent(folder, "a.pdf", "Zeppelin moorings")])
        all_through(one, 1)
        assert opened.catalogue.generation > before and opened.up_to_date()
        assert any(record.file == "a.pdf" for record in opened.publications())


def test_a_refused_file_stays_with_what_and_remedy_and_a_crash_costs_that_file_only(folder, background):
    one = background(start=False)
    damaged, crash = sent(folder, "damaged.pdf"), sent(folder, "segfault.pdf")
    one.add([damaged, crash, sent(folder, "good.pdf")])
    one.start()
    all_through(one, 3)
    assert came(one) == {"damaged.pdf": "refused", "segfault.pdf": "refused", "good.pdf": "taken"}
    slugs = {outcome.name: outcome.slug for outcome in one.state().outcomes}
    assert slugs["damaged.pdf"] == "damaged-pdf" and slugs["segfault.pdf"] == "reading-crashed"
    assert damaged.exists() and crash.exists()
    with Catalogue.open(folder) as catalogue:
        assert {each.path for each in catalogue.refused()} == {str(damaged), str(crash)}
        assert all(each.what and each.remedy for each in catalogue.refused())


def test_a_better_file_sent_in_its_place_takes_the_refused_one_away(folder, background):
    damaged, other = sent(folder, "damaged.pdf"), sent(folder, "damaged.pdf", "another one")
    one = background()  # it takes up what waits
    all_through(one, 2)
    part = incoming.new_part(folder, "again-damaged.pdf", damaged)  # no better yet
    part.write_text("%PDF-1.4 y")
    worse = incoming.accept(part)
    one.add([worse])
    wait_until(lambda: "again-damaged.pdf" in came(one) and not one.state().at_work)
    assert damaged.exists() and worse.exists()
    part = incoming.new_part(folder, "well.pdf", worse)
    part.write_text("%PDF-1.4 z")
    one.add([incoming.accept(part)])
    wait_until(lambda: "well.pdf" in came(one) and not one.state().at_work)
    assert not damaged.exists() and not worse.exists()
    assert other.exists(), "a file of the same name that has nothing to do with it stays"
    with Catalogue.open(folder) as catalogue:
        assert [each.path for each in catalogue.refused()] == [str(other)]


def test_a_busy_library_is_waited_for_and_said(folder, background, monkeypatch):
    monkeypatch.setattr(ingest_background, "_BUSY_AGAIN_S", 0.05)
    one = background(start=False)
    with only_one(folder):  # as another ingest would
        one.add([sent(folder, "a.pdf"), sent(folder, "b.pdf", "other words")])
        one.start()
        wait_until(lambda: one.state().doing is Doing.WAITING)
        assert one.state().words == (
            "2 files wait: another ingest is at work in this library. "
            "It goes on by itself when that one ends."
        )
        assert not one.state().outcomes
    all_through(one, 2)
    assert came(one) == {"a.pdf": "taken", "b.pdf": "taken"}


def test_a_command_that_holds_the_library_is_waited_for(folder, background, tmp_path, monkeypatch):
    monkeypatch.setattr(ingest_background, "_BUSY_AGAIN_S", 0.05)
    pid = tmp_path / "pid"
    hanging = tmp_path / "hanging.pdf"
    hanging.write_text(str(pid))
    run = f"import sys; sys.path[:0] = {[str(ROOT / 'tests'), str(ROOT)]!r}\n" + (
        "from pathlib import Path\nimport misbehaving\nfrom indexer.ingest import ingest\n"
        "from indexer.settings import Settings\n"
        f"ingest([Path({str(hanging)!r})], Path({str(folder)!r}), Settings(workers=1),"
        " read=misbehaving.hang_and_tell)\n"
    )
    process = subprocess.Popen([sys.executable, "-c", run], stderr=subprocess.DEVNULL)
    try:
        wait_until(lambda: pid.exists() and pid.read_text())
        one = background()
        one.add([sent(folder, "a.pdf")])
        wait_until(lambda: one.state().doing is Doing.WAITING)
    finally:
        process.kill()
        process.wait()
    all_through(one, 1)
    assert came(one) == {"a.pdf": "taken"}


def test_a_stop_in_the_middle_does_not_wait_for_the_file_and_loses_nothing(folder, background):
    """Had it waited for the time that a file may take, the file would be refused and no longer wait."""
    for name in ("a.pdf", "b-hang.pdf", "c.pdf"):
        sent(folder, name)
    one = background()
    wait_until(lambda: came(one).get("a.pdf") == "taken" and "b-hang.pdf" in one.state().reading)
    one.stop()
    assert came(one) == {"a.pdf": "taken"}
    left = [path.name for path in incoming.waiting(folder)]
    assert left == ["b-hang.pdf", "c.pdf"]
    (incoming.waiting(folder)[0]).rename(incoming.waiting(folder)[0].with_name("b.pdf"))
    again = background()  # the next service takes up what waits
    all_through(again, 2)
    assert came(again) == {"b.pdf": "taken", "c.pdf": "taken"}
    with OpenedLibrary.open(folder, Settings()) as opened:
        assert opened.up_to_date()
        assert {"a.pdf", "b.pdf", "c.pdf"} <= {record.file for record in opened.publications()}


@pytest.mark.skipif(os.name == "nt", reason="no SIGKILL on Windows")
def test_a_service_that_is_killed_during_an_ingest_loses_nothing(folder, tmp_path):
    """The whole program, killed while a file is being read; the next start takes it in."""
    path = sent(folder, "unused.pdf")
    shutil.copy(SAMPLE, path)
    command = [sys.executable, "-m", "server.cli", "serve", "--port", "0", "--library", str(folder)]
    env = {**os.environ, "PYTHONUNBUFFERED": "1", "HANGARLEAF_WORKERS": "1"}

    def copies():
        with Catalogue.open(folder) as catalogue:
            return [copy.file for copy in catalogue.copies()]

    process = subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, env=env, text=True)
    try:
        process.stdout.readline()
        wait_until(lambda: list(folder.glob("results-*")) or "unused.pdf" in copies())
    finally:
        process.send_signal(signal.SIGKILL)
        process.communicate(timeout=120)
    process = subprocess.Popen(
        command,
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env=env,
        text=True,
        start_new_session=True,
    )
    try:
        wait_until(lambda: "unused.pdf" in copies() and not path.exists())
    finally:
        os.killpg(process.pid, signal.SIGINT)  # as a terminal does: to the whole group
        _, complaints = process.communicate(timeout=120)
    assert "Traceback" not in complaints
    assert not path.parent.exists()


def test_what_a_killed_service_was_receiving_is_swept_and_what_is_received_now_is_not(folder):
    old, new = incoming.new_part(folder, "old.pdf"), incoming.new_part(folder, "new.pdf")
    for part in (old, new):
        part.write_bytes(b"%PDF-1.4")
    os.utime(old, (1e9, 1e9))
    assert incoming.sweep(folder) == 1
    assert not old.parent.exists() and new.exists()


def test_content_that_is_held_is_not_read_again_and_goes_from_incoming(folder, background):
    one = background()
    first = sent(folder, "a.pdf", "same words")
    one.add([first])
    all_through(one, 1)
    one.add([sent(folder, "b.pdf", "same words")])
    wait_until(lambda: "b.pdf" in came(one) and not one.state().at_work)
    assert came(one)["b.pdf"] == "already" and not incoming.waiting(folder)


def test_an_ingest_that_breaks_down_is_said_and_the_others_go_on(folder, background, monkeypatch):
    monkeypatch.setattr(ingest_background, "_TROUBLE_AGAIN_S", 0.05)

    def breaks(paths, *more, **named):
        if any("poison" in path.name for path in paths):
            raise RuntimeError("a mistake of ours")
        return ingest(paths, *more, **named)

    monkeypatch.setattr(ingest_background, "ingest", breaks)
    one = background(start=False)
    poison = sent(folder, "poison.pdf")
    one.add([poison, sent(folder, "good.pdf", "other")])
    one.start()
    wait_until(lambda: came(one).get("good.pdf") == "taken")
    wait_until(lambda: "a mistake of ours" in one.state().problem)
    assert poison.exists() and "kept" in one.state().problem


def test_a_file_that_was_removed_before_its_turn_is_passed_over(folder, background):
    one = background(start=False)
    path = sent(folder, "a.pdf")
    one.add([path])
    incoming.drop(folder, path)
    one.add([sent(folder, "b.pdf", "other")])
    one.start()
    all_through(one, 1)
    assert came(one) == {"b.pdf": "taken"}
    with Catalogue.open(folder) as catalogue:
        assert catalogue.refused() == ()


def test_the_watched_folder_is_taken_in(folder, background, tmp_path):
    watched = tmp_path / "watched"
    watched.mkdir()
    (watched / "a.pdf").write_text("%PDF-1.4 Zeppelin")
    (watched / "damaged.pdf").write_text("%PDF-1.4")
    one = background(watch_folder=str(watched), watch_every_s=1.0)
    wait_until(lambda: len(one.state().outcomes) == 2)
    assert came(one) == {"a.pdf": "taken", "damaged.pdf": "refused"}
    assert {outcome.source for outcome in one.state().outcomes} == {Source.WATCHED}
    assert (watched / "a.pdf").exists(), "what lies in the watched folder is left alone"
    looked = one.state().watch.looked_at
    wait_until(lambda: one.state().watch.looked_at > looked)
    assert len(one.state().outcomes) == 2, "what is held or was refused unchanged is not read again"
    (watched / "damaged.pdf").rename(watched / "x.txt")
    (watched / "damaged.pdf").mkdir()  # odd, and no file
    (watched / "b.PDF").write_text("%PDF-1.4 more")
    wait_until(lambda: "b.PDF" in came(one))
    assert came(one)["b.PDF"] == "taken"
