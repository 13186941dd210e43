"""The watched folder: what is taken and when, what is left alone, a drive that goes away."""

import os
import shutil

import pytest

from server.watched_folder import NOTES, WatchedFolder, WatchFolderRefused


@pytest.fixture
def places(tmp_path):
    library, folder = tmp_path / "library", tmp_path / "watched"
    library.mkdir()
    folder.mkdir()
    return library, folder


def names(paths):
    return [path.name for path in paths]


def test_a_file_is_taken_once_it_is_the_same_at_two_looks(places):
    library, folder = places
    watched = WatchedFolder(library, folder, 30)
    file = folder / "a.pdf"
    file.write_bytes(b"%PDF-1.4 half")
    assert watched.look() == [] and watched.state.settling == 1
    file.write_bytes(b"%PDF-1.4 half and more")  # still being copied
    assert watched.look() == [] and watched.state.settling == 1
    os.utime(file, ns=(1, 10**18))  # as large as before, and written to again
    assert watched.look() == []
    assert watched.look() == [file] and watched.state.settling == 0
    assert watched.look() == [], "it is given out once"


def test_what_is_held_or_was_refused_is_not_given_out_again_unless_it_changes(places):
    library, folder = places
    for name in ("held.pdf", "bad.pdf"):
        (folder / name).write_bytes(b"%PDF-1.4")
    watched = WatchedFolder(library, folder, 30)
    watched.look()
    assert names(watched.look()) == ["bad.pdf", "held.pdf"]
    watched.came_of(folder / "held.pdf", "taken")
    watched.came_of(folder / "bad.pdf", "damaged-pdf")
    watched.look()
    assert watched.look() == []
    later = WatchedFolder(library, folder, 30)  # the service was started anew
    later.look()
    assert later.look() == []
    (folder / "bad.pdf").write_bytes(b"%PDF-1.4 a better one")
    later.look()
    assert names(later.look()) == ["bad.pdf"]


def test_a_file_that_could_not_be_opened_is_tried_again_after_a_while(places):
    library, folder = places
    (folder / "a.pdf").write_bytes(b"%PDF-1.4")
    now = [0.0]
    watched = WatchedFolder(library, folder, 30, clock=lambda: now[0])
    watched.look()
    watched.look()
    watched.came_of(folder / "a.pdf", "file-not-readable")
    assert watched.look() == []
    now[0] = 601.0
    assert names(watched.look()) == ["a.pdf"]


def test_a_folder_that_goes_away_is_said_and_comes_back_without_being_read_anew(places):
    library, folder = places
    (folder / "a.pdf").write_bytes(b"%PDF-1.4")
    watched = WatchedFolder(library, folder, 30)
    watched.look()
    watched.look()
    watched.came_of(folder / "a.pdf", "taken")
    folder.rename(folder.with_name("gone"))
    assert watched.look() == [] and "not there now" in watched.state.problem
    folder.with_name("gone").rename(folder)
    watched.look()
    assert watched.look() == [] and watched.state.problem == "" and watched.state.files == 1


def test_a_folder_that_is_not_there_yet_is_waited_for(places):
    library, folder = places
    watched = WatchedFolder(library, folder / "share", 30)
    watched.look()
    assert "not there now" in watched.state.problem
    (folder / "share").mkdir()
    (folder / "share" / "a.pdf").write_bytes(b"%PDF-1.4")
    watched.look()
    assert names(watched.look()) == ["a.pdf"]


def test_hidden_and_other_files_and_every_library_are_left_alone(places):
    _, folder = places
    library = folder / "library"  # in the watched folder itself
    for place in (library / "copies" / "ab", folder / "other" / "copies", folder / "sub", folder / ".trash"):
        place.mkdir(parents=True)
        (place / "a.pdf").write_bytes(b"%PDF-1.4")
    (folder / "other" / "catalogue.sqlite").write_bytes(b"another library")
    for name in ("~lock.pdf", ".x.pdf", "a.txt", "b.PDF"):
        (folder / name).write_bytes(b"%PDF-1.4")
    watched = WatchedFolder(library, folder, 30)
    watched.look()
    found = [path.relative_to(folder).as_posix() for path in watched.look()]
    assert found == ["b.PDF", "sub/a.pdf"]


@pytest.mark.parametrize("place", ["", "incoming", "copies/ab"])
def test_a_folder_of_the_library_cannot_be_watched(places, place):
    library, _ = places
    with pytest.raises(WatchFolderRefused, match="in the library itself"):
        WatchedFolder(library, library / place, 30)


def test_a_file_cannot_be_watched(places):
    library, folder = places
    (folder / "a.pdf").write_bytes(b"x")
    with pytest.raises(WatchFolderRefused, match="it is a file"):
        WatchedFolder(library, folder / "a.pdf", 30)


def test_notes_that_cannot_be_read_cost_one_look_only(places):
    library, folder = places
    (library / NOTES).write_text('["no", 5]')
    (folder / "a.pdf").write_bytes(b"%PDF-1.4")
    watched = WatchedFolder(library, folder, 30)
    watched.look()
    assert names(watched.look()) == ["a.pdf"]
    watched.came_of(folder / "a.pdf", "already")
    shutil.rmtree(folder)
    assert watched.look() == []


@pytest.mark.skipif(os.name == "nt", reason="links need a right of their own there")
def test_a_link_that_leads_outside_is_not_followed_and_a_pipe_is_left_alone(places):
    library, folder = places
    outside = folder.parent / "pay.pdf"
    outside.write_bytes(b"%PDF-1.4 nobody else may read this")
    (folder / "a.pdf").write_bytes(b"%PDF-1.4")
    (folder / "inside.pdf").symlink_to(folder / "a.pdf")
    (folder / "manual.pdf").symlink_to(outside)
    os.mkfifo(folder / "pipe.pdf")
    watched = WatchedFolder(library, folder, 30)
    watched.look()
    assert names(watched.look()) == ["a.pdf", "inside.pdf"]
    assert "manual.pdf" in watched.state.problem and "link" in watched.state.problem
