"""The files of a full-text index: which one is newest, whose it is, which generation it holds, whether it
is whole.

    home/
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
    """One commit of one index. `written_ns` tells it from one of the same name in an index deleted since."""

    home: Path  # the folder of all indexes
    index: int
    number: int
    written_ns: int = 0

    @property
    def folder(self) -> Path:
        """The folder of its index."""
        return self.home / str(self.index)

    @property
    def contents(self) -> Path:
        """Its table of contents."""
        return self.folder / f"_MAIN_{self.number}.toc"


@dataclass(frozen=True, slots=True)
class FileFacts:
    size: int
    crc32: int


def newest_commit(home: Path) -> Commit | None:
    """The commit to read; None when there is none. Two listings and no file opened: cheap, so ask often."""
    for index in sorted(_indexes(home), reverse=True):
        number = _newest_contents(f"{home}/{index}")
        if number:
            try:
                written_ns = os.stat(f"{home}/{index}/_MAIN_{number}.toc").st_mtime_ns
            except FileNotFoundError:
                return newest_commit(home)  # another process has just replaced it with a newer one
            return Commit(home, index, number, written_ns)
    return None


def _indexes(home: Path) -> list[int]:
    try:
        return [int(name) for name in os.listdir(home) if name.isdecimal() and not name.startswith("0")]
    except (FileNotFoundError, NotADirectoryError):
        return []


def _newest_contents(folder: str) -> int:
    """Number of the newest table of contents; 0 = only the empty one or none."""
    try:
        names = os.listdir(folder)
    except (FileNotFoundError, NotADirectoryError):
        return 0
    return max((int(found[1]) for name in names if (found := _CONTENTS.fullmatch(name))), default=0)


def new_index(home: Path, format: int) -> Path:
    """The folder of a new index, marked as ours."""
    home.mkdir(parents=True, exist_ok=True)
    folder = home / str(max(_indexes(home), default=0) + 1)
    folder.mkdir()
    _write_json(folder / _MARKER, {"made_by": MADE_BY, "format": format})
    return folder


def check_ours(folder: Path, format: int) -> None:
    """Raises IndexNotWhole. To be called before anything else in the folder is read: the engine unpickles."""
    marker = _read_json(folder / _MARKER)
    if marker.get("made_by") != MADE_BY:
        raise IndexNotWhole(f"{folder} was not made by us")
    if marker.get("format") != format:
        raise IndexNotWhole(f"{folder} has format {marker.get('format')}, this version reads {format}")


def put_in_place(commit: Commit, staged: Path, generation: int, names: Iterable[str]) -> None:
    """Make a commit the newest: say what it holds, then move its staged table of contents to its place.

    names   files that the table of contents names; those that the commit before had are not read again,
            because a file is never changed once it is written
    """
    before = Commit(commit.home, commit.index, commit.number - 1)
    known = read_generation(before)[1] if before.number else {}
    files = {}
    for name in names:
        if name not in known:
            _force_to_disk(commit.folder / name)
        files[name] = known.get(name) or file_facts(commit.folder / name)
    files[commit.contents.name] = file_facts(staged)
    found = {name: [facts.size, facts.crc32] for name, facts in sorted(files.items())}
    held = {"generation": generation, "files": found}
    _write_json(_generation_file(commit), {**held, "crc32": _crc32(held)})
    _force_to_disk(staged)
    os.replace(staged, commit.contents)
    if os.name != "nt":  # Windows cannot open a folder
        _force_to_disk(commit.folder)


def read_generation(commit: Commit) -> tuple[int, dict[str, FileFacts]]:
    """What a commit holds: the catalogue's generation and its files. Raises IndexNotWhole."""
    found = _read_json(_generation_file(commit))
    if found.pop("crc32", None) != _crc32(found):
        raise IndexNotWhole(f"{_generation_file(commit)} is not what was written")
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


def remove_other_indexes(kept: Commit) -> None:
    """Remove our other indexes. One that another process holds open (on Windows) stays until next time."""
    for index in _indexes(kept.home):
        folder = kept.home / str(index)
        if index != kept.index and _is_marked(folder):
            shutil.rmtree(folder, ignore_errors=True)


def remove_old_generations(commit: Commit) -> None:
    for path in commit.folder.glob("generation-*.json"):
        if path != _generation_file(commit):
            path.unlink(missing_ok=True)


def _is_marked(folder: Path) -> bool:
    try:
        return _read_json(folder / _MARKER).get("made_by") == MADE_BY
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


def _crc32(value: dict) -> int:
    return zlib.crc32(json.dumps(value).encode())


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
