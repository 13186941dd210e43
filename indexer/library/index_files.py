"""The files of a full-text index: which one is newest, whose it is, which generation it holds, whether it
is whole.

    folder/
      writing.lock               held by whoever writes
      1/                         one index; a rebuild makes the next number, the old one serves until then
        hangarleaf.json          says that the index is ours and in which format; written first
        _MAIN_4.toc              the engine's own table of contents of its commit 4; written last, by renaming
        generation-4.json        what commit 4 holds; written before the table of contents

The newest commit is the highest table of contents in the highest numbered folder that has one beyond the
empty one. Because its generation file lies there before it appears, a crash at any moment leaves either the
old commit with its own generation or the new one with its own. Files are forced to disk before the table of
contents names them.
"""

import json
import os
import re
import shutil
import zlib
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

MADE_BY = "Hangarleaf full-text index"
_MARKER = "hangarleaf.json"
_CONTENTS = re.compile(r"_MAIN_(\d+)\.toc")


class IndexNotWhole(Exception):
    """This index may not be opened: not ours, another format, or files missing, cut short or changed."""


@dataclass(frozen=True, slots=True)
class Commit:
    """One commit of one index on disk."""

    folder: Path
    number: int


@dataclass(frozen=True, slots=True)
class FileFacts:
    size: int
    crc32: int


def newest_commit(folder: Path) -> Commit | None:
    """The commit to read; None when there is none. Lists two folders and opens nothing."""
    for index in sorted(_index_folders(folder), key=lambda index: int(index.name), reverse=True):
        number = _newest_contents(index)
        if number:
            return Commit(index, number)
    return None


def _index_folders(folder: Path) -> list[Path]:
    try:
        with os.scandir(folder) as entries:
            return [Path(entry.path) for entry in entries if entry.name.isdecimal() and entry.is_dir()]
    except (FileNotFoundError, NotADirectoryError):
        return []


def _newest_contents(index: Path) -> int:
    """Number of the newest table of contents; 0 = only the empty one or none."""
    try:
        names = os.listdir(index)
    except FileNotFoundError:
        return 0
    return max((int(found[1]) for name in names if (found := _CONTENTS.fullmatch(name))), default=0)


def new_index_folder(folder: Path, format: int) -> Path:
    """A new numbered folder, marked as ours."""
    folder.mkdir(parents=True, exist_ok=True)
    number = max((int(index.name) for index in _index_folders(folder)), default=0) + 1
    index = folder / str(number)
    index.mkdir()
    _write_json(index / _MARKER, {"made_by": MADE_BY, "format": format})
    return index


def check_ours(index: Path, format: int) -> None:
    """Raises IndexNotWhole. To be called before anything else in the folder is read: the engine unpickles."""
    marker = _read_json(index / _MARKER)
    if marker.get("made_by") != MADE_BY:
        raise IndexNotWhole(f"{index} was not made by us")
    if marker.get("format") != format:
        raise IndexNotWhole(f"{index} has format {marker.get('format')}, this version reads {format}")


def write_generation(commit: Commit, generation: int, names: Iterable[str]) -> None:
    """Put beside a coming commit what it will hold: the generation and its files, the new ones forced to
    disk.

    A file is never changed once it is written, so what the commit before says of one still holds.
    """
    before = Commit(commit.folder, commit.number - 1)
    files = read_generation(before)[1] if before.number else {}
    facts = {}
    for name in names:
        facts[name] = files.get(name) or file_facts(commit.folder / name)
        if name not in files:
            _force_to_disk(commit.folder / name)
    found = {name: [fact.size, fact.crc32] for name, fact in facts.items()}
    _write_json(_generation_file(commit), {"generation": generation, "files": found})


def read_generation(commit: Commit) -> tuple[int, dict[str, FileFacts]]:
    """What a commit holds: the catalogue's generation and its files. Raises IndexNotWhole."""
    found = _read_json(_generation_file(commit))
    try:
        files = {name: FileFacts(int(size), int(crc32)) for name, (size, crc32) in found["files"].items()}
        return int(found["generation"]), files
    except (KeyError, TypeError, ValueError, AttributeError) as problem:
        raise IndexNotWhole(f"{_generation_file(commit)}: {problem!r}") from problem


def check_files(commit: Commit, files: dict[str, FileFacts], known: dict[str, FileFacts]) -> None:
    """Raises IndexNotWhole unless every file is as it was committed. Those in `known` were checked before."""
    for name, facts in files.items():
        if known.get(name) != facts and file_facts(commit.folder / name) != facts:
            raise IndexNotWhole(f"{commit.folder / name} is not what was committed")


def file_facts(path: Path) -> FileFacts:
    """Size and checksum. Raises IndexNotWhole when the file is missing."""
    size = crc32 = 0
    try:
        with open(path, "rb") as file:
            while block := file.read(1 << 20):
                size += len(block)
                crc32 = zlib.crc32(block, crc32)
    except FileNotFoundError as problem:
        raise IndexNotWhole(f"{path} is missing") from problem
    return FileFacts(size, crc32)


def remove_other_indexes(folder: Path, kept: Path) -> None:
    """Remove our other indexes. One that another process holds open (on Windows) stays until the next
    time."""
    for index in _index_folders(folder):
        if index != kept and _is_marked(index):
            shutil.rmtree(index, ignore_errors=True)


def remove_old_generations(commit: Commit) -> None:
    for path in commit.folder.glob("generation-*.json"):
        if path != _generation_file(commit):
            path.unlink(missing_ok=True)


def commit_is_on_disk(commit: Commit) -> None:
    """Force the table of contents and the folder's entries to disk."""
    _force_to_disk(commit.folder / f"_MAIN_{commit.number}.toc")
    if os.name != "nt":  # Windows cannot open a folder
        _force_to_disk(commit.folder)


def _is_marked(index: Path) -> bool:
    try:
        return _read_json(index / _MARKER).get("made_by") == MADE_BY
    except IndexNotWhole:
        return False


def _generation_file(commit: Commit) -> Path:
    return commit.folder / f"generation-{commit.number}.json"


def _read_json(path: Path) -> dict:
    try:
        found = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError) as problem:
        raise IndexNotWhole(f"{path} cannot be read: {problem}") from problem
    if not isinstance(found, dict):
        raise IndexNotWhole(f"{path} holds something else")
    return found


def _write_json(path: Path, value: dict) -> None:
    """Atomically: a reader sees the old file or the new one, whole."""
    beside = path.with_suffix(".new")
    beside.write_text(json.dumps(value), encoding="utf-8")
    _force_to_disk(beside)
    os.replace(beside, path)


def _force_to_disk(path: Path) -> None:
    handle = os.open(path, os.O_RDONLY if path.is_dir() else os.O_RDWR)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
