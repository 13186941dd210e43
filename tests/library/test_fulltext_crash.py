"""Stopped at any moment, or damaged on disk: the index never claims a generation it does not hold."""

import errno
import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from indexer.library import index_files
from indexer.library.fulltext import FullTextQuery, IndexedPassage, NoIndex
from indexer.library.whoosh_engine import WhooshEngine

ROOT = Path(__file__).parent.parent.parent
BRAKE = FullTextQuery(words=("brake",))


def shelf(generation):
    """What the catalogue holds at a generation: as many passages on brakes as the generation's number."""
    return [
        IndexedPassage(
            f"book{number}-1", f"book{number}", "", f"Brake number {number}.", ("32",), (), "", "approved"
        )
        for number in range(generation)
    ]


@pytest.fixture
def folder(tmp_path):
    folder = tmp_path / "index"
    WhooshEngine(folder, 1).rebuild(3, shelf(3))
    return folder


def held(folder):
    """The generation claimed and the number of passages found; they are to be the same number."""
    engine = WhooshEngine(folder, 1)
    generation = engine.generation()
    if generation is None:
        with pytest.raises(NoIndex):
            engine.search(BRAKE, 5, 5)
        return None, None
    result = engine.search(BRAKE, 5, 5)
    assert result.generation == generation
    return generation, result.total


# Each replaces one function of the writing process by one that kills it, before or after doing its work.
MOMENTS = {
    "while documents are added": ("whoosh.writing", "SegmentWriter.add_document", "before"),
    "while the segment is written": ("whoosh.writing", "SegmentWriter._flush_segment", "before"),
    "when the segment is written": ("whoosh.writing", "SegmentWriter._assemble_segment", "after"),
    "before the commit is put in place": ("indexer.library.index_files", "put_in_place", "before"),
    "before its generation is written": ("indexer.library.index_files", "file_facts", "before"),
    "between its generation and its contents": ("os", "replace", "last"),
    "when it is in place": ("indexer.library.index_files", "put_in_place", "after"),
    "before old files are removed": ("indexer.library.whoosh_writer", "clean_files", "before"),
    "before old generations are removed": ("indexer.library.index_files", "remove_old_generations", "before"),
}
DONE = {"when it is in place", "before old files are removed", "before old generations are removed"}

KILLER = """
import importlib, os, signal, sys
from pathlib import Path
module, name, when, folder, change = sys.argv[1:]
owner = importlib.import_module(module)
*classes, name = name.split(".")
for part in classes:
    owner = getattr(owner, part)
work = getattr(owner, name)
calls = 0
# os.replace puts the marker of a new index, the generation and the contents in place: the last one is meant
last = 3 if change == "rebuild" else 2

def die(*given, **named):
    global calls
    calls += 1
    if when == "after" or when == "last" and calls < last:
        work(*given, **named)
    if when == "last" and calls < last:
        return
    os.kill(os.getpid(), getattr(signal, "SIGKILL", signal.SIGTERM))

setattr(owner, name, die)
from indexer.library.whoosh_engine import WhooshEngine
sys.path.insert(0, str(Path("tests/library").resolve()))
from test_fulltext_crash import shelf
engine = WhooshEngine(Path(folder), 1)
if change == "apply":
    engine.apply(5, ["book0", "book1", "book2"], shelf(5))
else:
    engine.rebuild(5, shelf(5))
"""


@pytest.mark.parametrize("change", ["apply", "rebuild"])
@pytest.mark.parametrize("moment", MOMENTS)
def test_killed_at_any_moment_of_a_change(folder, moment, change):
    run = subprocess.run(
        [sys.executable, "-c", KILLER, *MOMENTS[moment], str(folder), change],
        cwd=ROOT,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )
    assert run.returncode != 0, "the writer was to be killed"
    assert held(folder) == ((5, 5) if moment in DONE else (3, 3))
    engine = WhooshEngine(folder, 1)
    generation = engine.generation()
    engine.apply(6, [f"book{number}" for number in range(generation)], shelf(6))
    assert held(folder) == (6, 6), "the lock is free and the next change works"
    engine.rebuild(2, shelf(2))
    assert held(folder) == (2, 2)
    assert [path.name for path in folder.iterdir() if path.is_dir()] == [index_folder(folder).name]


def index_folder(folder):
    return index_files.newest_commit(folder).folder


def files(folder):
    return sorted(path for path in index_folder(folder).iterdir() if path.suffix in (".seg", ".toc", ".json"))


KINDS = [".seg", ".toc", "generation-1.json", "hangarleaf.json"]
DAMAGES = {
    "removed": lambda path: path.unlink(),
    "emptied": lambda path: path.write_bytes(b""),
    "cut in half": lambda path: path.write_bytes(path.read_bytes()[: path.stat().st_size // 2]),
    "cut by one byte": lambda path: path.write_bytes(path.read_bytes()[:-1]),
    "one byte changed": lambda path: path.write_bytes(changed(path.read_bytes())),
    "noise": lambda path: path.write_bytes(bytes(range(256)) * 8),
}


def changed(content):
    middle = len(content) // 2
    return content[:middle] + bytes([content[middle] ^ 0x20]) + content[middle + 1 :]


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("damage", DAMAGES)
def test_a_damaged_file_makes_the_index_unusable_and_a_rebuild_makes_it_whole(folder, kind, damage):
    (path,) = (path for path in files(folder) if path.name.endswith(kind))
    DAMAGES[damage](path)
    assert held(folder) == (None, None)
    with pytest.raises(NoIndex):
        WhooshEngine(folder, 1).apply(4, [], [])
    WhooshEngine(folder, 1).rebuild(4, shelf(4))
    assert held(folder) == (4, 4)


def test_a_claim_changed_by_hand_is_not_believed(folder):
    path = index_folder(folder) / "generation-1.json"
    claim = json.loads(path.read_text(encoding="utf-8"))
    path.write_text(json.dumps({**claim, "generation": 9}), encoding="utf-8")
    assert held(folder) == (None, None)


@pytest.mark.parametrize("change", ["apply", "rebuild"])
def test_a_full_disk_leaves_the_index_as_it_was(folder, change, monkeypatch):
    engine = WhooshEngine(folder, 1)
    work = index_files.put_in_place

    def full(*_):
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(index_files, "put_in_place", full)
    with pytest.raises(OSError, match="No space"):
        engine.rebuild(5, shelf(5)) if change == "rebuild" else engine.apply(5, [], shelf(5)[3:])
    assert held(folder) == (3, 3)
    monkeypatch.setattr(index_files, "put_in_place", work)
    engine.apply(5, [], shelf(5)[3:])
    assert held(folder) == (5, 5)


def test_an_index_that_is_not_ours_is_never_opened(folder, tmp_path):
    """Opening one would unpickle it, and a pickle can run anything."""
    path = index_folder(folder) / "_MAIN_1.toc"
    witness = tmp_path / "opened"
    path.write_bytes(b"cos\nsystem\n(S'touch " + str(witness).encode() + b"'\ntR.")
    marker = index_folder(folder) / "hangarleaf.json"
    for content in [b"{}", b'{"made_by": "somebody else", "format": 1}', b"[]", b"\xff"]:
        marker.write_bytes(content)
        assert held(folder) == (None, None)
    assert not witness.exists()


def test_an_index_of_another_format_is_not_used(folder):
    marker = index_folder(folder) / "hangarleaf.json"
    written = json.loads(marker.read_text(encoding="utf-8"))
    marker.write_text(json.dumps({**written, "format": written["format"] + 1}), encoding="utf-8")
    assert held(folder) == (None, None)


def test_a_claim_without_its_commit_is_not_believed(folder):
    index = index_folder(folder)
    claim = json.loads((index / "generation-1.json").read_text(encoding="utf-8"))
    (index / "generation-2.json").write_text(json.dumps({**claim, "generation": 9}), encoding="utf-8")
    assert held(folder) == (3, 3)


def test_a_commit_without_its_claim_is_not_used(folder):
    (index_folder(folder) / "generation-1.json").unlink()
    assert held(folder) == (None, None)


def test_a_deleted_index_is_noticed_while_the_service_runs(folder):
    engine = WhooshEngine(folder, 1)
    assert engine.generation() == 3
    shutil.rmtree(folder)
    assert engine.generation() is None
    with pytest.raises(NoIndex):
        engine.search(BRAKE, 5, 5)
    other = WhooshEngine(folder, 1)
    other.rebuild(8, shelf(8))
    assert engine.generation() == 8, "a new index of the same name is not taken for the old one"
    assert engine.search(BRAKE, 5, 5).total == 8


@pytest.mark.parametrize("content", ["", "a file, not a folder"])
def test_a_folder_without_an_index(tmp_path, content):
    folder = tmp_path / "index"
    if content:
        folder.write_text(content, encoding="utf-8")
    else:
        folder.mkdir()
    assert held(folder) == (None, None)
