"""Ingest with a reader that does to each file what its name says: what is taken, set aside, and said."""

import sqlite3
import threading
from dataclasses import replace
from pathlib import Path

import misbehaving
import pytest

from indexer.errors import LibraryBusy, NothingToIngest
from indexer.ingest import (
    FileAlready,
    FileBegun,
    FileTaken,
    Found,
    Refused,
    Stage,
    find_files,
    ingest,
    times_longer,
)
from indexer.library.catalogue import Catalogue
from indexer.library.copies import copy_path
from indexer.library.lock import only_one
from indexer.settings import Settings
from indexer.workers import WorkersCannotRun

SETTINGS = Settings(workers=2, file_time_limit_s=20, worker_memory_mb=800)


@pytest.fixture
def folder(tmp_path):
    made = tmp_path / "publications"
    made.mkdir()
    return made


@pytest.fixture
def library(tmp_path):
    return tmp_path / "library"


def write(folder: Path, *names: str) -> None:
    for name in names:
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(f"words of {name}\nmore words")


def run(folder, library, settings=SETTINGS, **rest):
    return ingest([folder], library, settings, read=misbehaving.read, **rest)


def names(paths) -> list[str]:
    return [Path(path).name for path in paths]


def slugs(report) -> dict[str, str]:
    return {refused.path.name: refused.slug for refused in report.refused}


def test_files_are_taken_and_taken_once(folder, library):
    write(folder, "a.pdf", "deep/er/b.PDF")
    report = run(folder, library)
    assert names(event.path for event in report.taken) == ["a.pdf", "b.PDF"]
    assert report.already == report.refused == []
    again = run(folder, library)
    assert names(again.already) == ["a.pdf", "b.PDF"] and again.taken == []
    assert again.generation == report.generation
    with Catalogue.open(library) as catalogue:
        assert len(catalogue.publications()) == 2
        assert not catalogue.status().relations_pending


def test_one_crash_one_hang_and_one_bomb_among_200_good_files_cost_three_files(folder, library):
    write(folder, *(f"good-{number:03}.pdf" for number in range(200)), "exit.pdf", "hang.pdf", "bomb.pdf")
    report = run(folder, library, replace(SETTINGS, file_time_limit_s=5))
    assert slugs(report) == {
        "bomb.pdf": "too-large",
        "exit.pdf": "reading-crashed",
        "hang.pdf": "reading-too-slow",
    }
    assert len(report.taken) == 200
    with Catalogue.open(library) as catalogue:
        assert names(refused.path for refused in catalogue.refused()) == ["bomb.pdf", "exit.pdf", "hang.pdf"]
        assert all(refused.sha256 and refused.remedy for refused in catalogue.refused())
        assert catalogue.status().publications == 200


def test_every_way_to_fail_is_named_and_the_rest_go_on(folder, library):
    write(folder, "damaged.pdf", "good.pdf", "mistake.pdf", "segfault.pdf", "vanish.pdf")
    report = run(folder, library)
    assert names(event.path for event in report.taken) == ["good.pdf"]
    assert slugs(report) == {
        "damaged.pdf": "damaged-pdf",
        "mistake.pdf": "reading-crashed",
        "segfault.pdf": "reading-crashed",
        "vanish.pdf": "file-vanished",
    }
    said = {refused.path.name: refused.what for refused in report.refused}
    assert "SIGSEGV" in said["segfault.pdf"] and "a mistake of ours" in said["mistake.pdf"]
    assert all(str(refused.path) in refused.what and refused.remedy for refused in report.refused)


def test_a_file_over_the_size_limit_is_not_even_read(folder, library):
    write(folder, "small.pdf")
    (folder / "exit-large.pdf").write_bytes(bytes(2_100_000))
    report = run(folder, library, replace(SETTINGS, max_file_mb=2))
    assert slugs(report) == {"exit-large.pdf": "too-large"}
    assert "HANGARLEAF_MAX_FILE_MB" in report.refused[0].remedy


def test_a_refused_file_is_tried_again_and_forgiven(folder, library):
    write(folder, "damaged.pdf", "good.pdf")
    run(folder, library)
    assert slugs(run(folder, library)) == {"damaged.pdf": "damaged-pdf"}
    mended = ingest([folder], library, SETTINGS, read=misbehaving.read_slowly)
    assert names(event.path for event in mended.taken) == ["damaged.pdf"]
    with Catalogue.open(library) as catalogue:
        assert catalogue.refused() == ()


def test_a_changed_file_is_taken_as_a_new_copy(folder, library):
    write(folder, "a.pdf")
    run(folder, library)
    (folder / "a.pdf").write_text("other words")
    (taken,) = run(folder, library).taken
    assert taken.taken.replaced
    with Catalogue.open(library) as catalogue:
        assert catalogue.copy(taken.taken.replaced).replaced.copy_id == taken.taken.copy_id
        assert catalogue.status().copies == catalogue.status().replaced_copies == 1


def test_one_content_under_several_names_is_taken_once(folder, library):
    for name in ("a.pdf", "b.pdf", "c.pdf"):
        (folder / name).write_text("the same words")
    report = run(folder, library)
    assert len(report.taken) == 1 and len(report.already) == 2
    with Catalogue.open(library) as catalogue:
        (copy,) = catalogue.copies()
        assert names(copy.paths) == ["a.pdf", "b.pdf", "c.pdf"] and copy.file == "a.pdf"


def test_the_librarys_own_copy_serves_when_the_file_is_gone(folder, library):
    write(folder, "a.pdf")
    (taken,) = run(folder, library).taken
    (folder / "a.pdf").unlink()
    with Catalogue.open(library) as catalogue:
        assert catalogue.copy_file(taken.taken.copy_id).read_text() == "words of a.pdf\nmore words"


def test_progress_is_told_in_order(folder, library):
    write(folder, "a.pdf", "damaged.pdf")
    events = []
    run(folder, library, progress=events.append)
    assert events[0] == Found(2)
    begun = [event.path.name for event in events if isinstance(event, FileBegun)]
    assert sorted(begun) == ["a.pdf", "damaged.pdf"]
    for done in events:
        if isinstance(done, (FileTaken, Refused)):
            assert events.index(FileBegun(done.path)) < events.index(done)
    told = [event for event in events[1:] if not isinstance(event, FileBegun)]
    assert {type(event) for event in told[:2]} == {FileTaken, Refused}
    assert told[2:] == [Stage("relating")] and events[-1] == told[-1]
    events.clear()
    run(folder, library, progress=events.append)
    assert [type(event) for event in events if not isinstance(event, FileBegun)] in (
        [Found, FileAlready, Refused, Stage],
        [Found, Refused, FileAlready, Stage],
    )


class Engine:
    """Notes what it is fed."""

    at = None

    def generation(self):
        return self.at

    def rebuild(self, generation, passages):
        self.at, self.texts = generation, sorted(each.text for each in passages)


def test_the_index_is_fed_at_the_end(folder, library):
    write(folder, "a.pdf")
    engine, events = Engine(), []
    report = run(folder, library, engine=engine, progress=events.append)
    assert engine.texts == ["more words", "words of a.pdf"]
    assert engine.at == report.generation
    assert events[-1] == Stage("indexing")


# What is looked at -----------------------------------------------------------------------------------------


def test_folders_are_searched_through_and_hidden_and_temporary_files_passed_over(folder, library):
    write(
        folder,
        "b.pdf",
        "A.Pdf",
        "x/c.PDF",
        "notes.txt",
        ".hidden.pdf",
        "~lock.pdf",
        ".git/d.pdf",
        "e.pdf.part",
    )
    found, gone = find_files([folder], library)
    assert [str(path.relative_to(folder)) for path in found] == ["A.Pdf", "b.pdf", str(Path("x/c.PDF"))]
    assert gone == []


def test_a_file_that_is_named_is_taken_whatever_its_name_and_once(folder, library):
    write(folder, "scan", "b.pdf")
    found, _ = find_files([folder / "scan", folder, folder / "b.pdf"], library)
    assert names(found) == ["b.pdf", "scan"]


def test_the_library_does_not_take_its_own_copies(folder):
    write(folder, "a.pdf")
    inside = folder / "library"
    assert len(ingest([folder], inside, SETTINGS, read=misbehaving.read).taken) == 1
    again = ingest([folder], inside, SETTINGS, read=misbehaving.read)
    assert names(again.already) == ["a.pdf"]


def test_a_place_that_is_not_there_is_refused_and_the_rest_go_on(folder, library):
    write(folder, "a.pdf")
    report = ingest([folder / "no-such", folder], library, SETTINGS, read=misbehaving.read)
    assert slugs(report) == {"no-such": "file-vanished"}
    assert len(report.taken) == 1


def test_a_folder_without_pdf_files_is_said_and_no_library_is_made(folder, library):
    write(folder, "notes.txt")
    with pytest.raises(NothingToIngest, match="publications"):
        run(folder, library)
    assert not library.exists()


# The library while it is worked on -------------------------------------------------------------------------


def test_a_second_ingest_changes_nothing_and_says_busy(folder, library):
    write(folder, "a.pdf")
    with only_one(library), pytest.raises(LibraryBusy):
        run(folder, library)
    assert not (library / "catalogue.sqlite").exists()
    assert len(run(folder, library).taken) == 1


def test_readers_see_whole_publications_all_through_an_ingest(folder, library):
    write(folder, *(f"{number:03}.pdf" for number in range(60)))
    Catalogue.open(library, create=True).close()
    stop = threading.Event()
    seen, problems = set(), []

    def read():
        with Catalogue.open(library) as catalogue:
            while not stop.is_set():
                try:
                    with catalogue.reading():
                        records = catalogue.publications()
                        passages = [len(catalogue.passages_of(record.id)) for record in records]
                except sqlite3.Error as problem:
                    problems.append(problem)
                    return
                problems.extend(number for number in passages if number != 2)
                seen.add(len(records))

    readers = [threading.Thread(target=read) for _ in range(3)]
    for reader in readers:
        reader.start()
    try:
        ingest([folder], library, SETTINGS, read=misbehaving.read_slowly)
    finally:
        stop.set()
        for reader in readers:
            reader.join()
    assert problems == []
    assert len(seen) > 3, "the readers saw the library grow"


def test_nothing_but_the_library_is_left_behind(folder, library):
    write(folder, "a.pdf", "damaged.pdf")
    run(folder, library)
    with Catalogue.open(library) as catalogue:
        kept = copy_path(library, catalogue.copies()[0].sha256)
    files = {path.relative_to(library) for path in library.rglob("*") if path.is_file()}
    assert files == {kept.relative_to(library), Path("catalogue.sqlite"), Path("ingest.lock")}


def test_workers_that_cannot_live_are_given_up_and_no_file_is_blamed(folder, library):
    write(folder, "a.pdf", "b.pdf")
    with pytest.raises(WorkersCannotRun, match="HANGARLEAF_WORKER_MEMORY_MB"):
        run(folder, library, replace(SETTINGS, worker_memory_mb=1))
    with Catalogue.open(library) as catalogue:
        assert catalogue.refused() == () and catalogue.publications() == []


@pytest.mark.parametrize("pages, times", [(1, 1.0), (300, 1.0), (1500, 5.0), (20_000, 20_000 / 300)])
def test_a_long_file_may_take_as_many_times_longer(pages, times):
    assert times_longer(pages) == times
