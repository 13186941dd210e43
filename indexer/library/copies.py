"""The library's own copies of the files it has taken: copies/ab/abcd....pdf, named by their sha256."""

import hashlib
import os
from collections.abc import Collection
from pathlib import Path

from indexer.errors import FileNotReadable, FileVanished

_PIECE = 1 << 20


def copy_path(folder: Path, sha256: str) -> Path:
    """Where the library in `folder` keeps the file with this content."""
    return folder / "copies" / sha256[:2] / f"{sha256}.pdf"


def sha256_of(path: Path) -> str:
    """Hex digest of a file. Raises FileVanished or FileNotReadable."""
    try:
        with path.open("rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()
    except OSError as problem:
        raise as_refusal(path, problem) from problem


def keep_copy(folder: Path, source: Path, sha256: str) -> int:
    """Put a copy of `source` into the library, whole or not at all, and return its size in bytes.

    Raises FileNotReadable when `source` no longer holds what was read, FileVanished when it is gone.
    """
    kept = copy_path(folder, sha256)
    kept.parent.mkdir(parents=True, exist_ok=True)
    unfinished = kept.with_suffix(".unfinished")
    digest, size = hashlib.sha256(), 0
    try:
        opened = source.open("rb")
    except OSError as problem:
        raise as_refusal(source, problem) from problem
    try:
        with opened, unfinished.open("wb") as target:
            while piece := _read(opened, source):
                digest.update(piece)
                size += len(piece)
                target.write(piece)
            target.flush()
            os.fsync(target.fileno())
        if digest.hexdigest() != sha256:
            raise FileNotReadable(str(source), "it changed while it was being read")
        unfinished.replace(kept)
    finally:
        unfinished.unlink(missing_ok=True)
    _sync_folder(kept.parent)
    return size


def drop_copy(folder: Path, sha256: str) -> None:
    """Delete a copy. Windows does not delete a file that is open in a viewer: the next sweep will."""
    try:
        copy_path(folder, sha256).unlink(missing_ok=True)
    except PermissionError:
        if os.name != "nt":
            raise


def sweep(folder: Path, held: Collection[str]) -> int:
    """Delete what no catalogue row speaks of (a run was stopped between file and row); return how many."""
    swept = 0
    for path in sorted((folder / "copies").glob("*/*")):
        if path.suffix == ".unfinished" or path.stem not in held:
            path.unlink() if path.suffix == ".unfinished" else drop_copy(folder, path.stem)
            swept += 1
    return swept


def as_refusal(path: Path, problem: OSError) -> FileVanished | FileNotReadable:
    """An operating system's complaint about a file to be read, in our words."""
    if isinstance(problem, FileNotFoundError):
        return FileVanished(str(path))
    return FileNotReadable(str(path), problem.strerror or type(problem).__name__)


def _read(opened, source: Path) -> bytes:
    try:
        return opened.read(_PIECE)
    except OSError as problem:
        raise as_refusal(source, problem) from problem


def _sync_folder(folder: Path) -> None:
    if os.name == "nt":
        return  # Windows has no handle for a folder; renames are journalled by the file system
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
