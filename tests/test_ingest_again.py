"""The library's own copies read again: those of older rules, each kept as it was where reading fails."""

import misbehaving
import pytest

from indexer.errors import NoLibrary
from indexer.ingest import FileTaken, Found, Refused, Stage, ingest, read_again
from indexer.library import taking
from indexer.library.catalogue import Catalogue
from indexer.library.copies import copy_path, sha256_of
from indexer.library.records import EntryKind
from indexer.library.shop_entries import add_entry, entries
from indexer.settings import Settings

SETTINGS = Settings(workers=2, file_time_limit_s=20, worker_memory_mb=800)


@pytest.fixture
def folder(tmp_path):
    made = tmp_path / "publications"
    made.mkdir()
    for name in ("a.pdf", "b.pdf"):
        (made / name).write_text(f"words of {name}\nmore words")
    return made


@pytest.fixture
def library(tmp_path, folder, monkeypatch):
    """A library whose files an older version of the program has read."""
    monkeypatch.setattr(taking, "RULES", taking.RULES - 1)
    ingest([folder], tmp_path / "library", SETTINGS, read=misbehaving.read)
    monkeypatch.undo()
    return tmp_path / "library"


def again(library, **rest):
    return read_again(library, SETTINGS, read=misbehaving.read, **rest)


def test_copies_of_older_rules_are_read_again_and_the_others_are_not(folder, library):
    (folder / "c.pdf").write_text("words of c")
    ingest([folder], library, SETTINGS, read=misbehaving.read)
    with Catalogue.open(library) as catalogue:
        assert catalogue.status().copies_read_by_older_rules == 2
        copy_id = catalogue.copies()[0].id
        entry = add_entry(catalogue, copy_id, 1, "R. Quill", "as read", EntryKind.CHAPTERS, "32")
        before = catalogue.dump()
    events = []
    report = again(library, progress=events.append)
    assert [event.path for event in report.taken] == [folder / "a.pdf", folder / "b.pdf"]
    assert report.refused == []
    assert events[0] == Found(2) and events[-1] == Stage("relating")
    assert sum(isinstance(event, FileTaken) for event in events) == 2
    with Catalogue.open(library) as catalogue:
        assert [each.id for each in entries(catalogue)] == [entry.id]
        assert catalogue.passages_of(f"{copy_id}-1")[0].numbers[0].evidence.source == "R. Quill"
        assert catalogue.status().copies_read_by_older_rules == 0
        assert catalogue.dump().split("== entry_state")[0] != before  # the entry took effect
        assert not catalogue.status().relations_pending
    assert again(library).taken == []
    assert len(again(library, everything=True).taken) == 3


def test_files_that_are_gone_from_their_place_are_read_from_the_library(folder, library):
    for path in folder.iterdir():
        path.unlink()
    assert len(again(library).taken) == 2


def test_a_copy_that_cannot_be_read_any_more_stays_as_it_was(folder, library):
    sha256 = sha256_of(folder / "a.pdf")
    copy_path(library, sha256).unlink()
    with Catalogue.open(library) as catalogue:
        before = [each.text for each in catalogue.passages_of(f"{taking.copy_id_of(sha256)}-1")]
    events = []
    report = again(library, progress=events.append)
    assert [event.path.name for event in report.taken] == ["b.pdf"]
    (refused,) = report.refused
    assert refused.path == folder / "a.pdf" and "stays as it was" in refused.remedy
    assert any(isinstance(event, Refused) for event in events)
    with Catalogue.open(library) as catalogue:
        assert [each.text for each in catalogue.passages_of(f"{taking.copy_id_of(sha256)}-1")] == before
        assert catalogue.status().copies_read_by_older_rules == 1


def test_there_must_be_a_library(tmp_path):
    (tmp_path / "none").mkdir()
    with pytest.raises(NoLibrary):
        again(tmp_path / "none")
