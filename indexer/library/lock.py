"""One ingest and one run of OCR at a time per library: locks that the operating system lets go of when their
holder dies."""

import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO

from indexer.errors import LibraryBusy
from indexer.library.problems import OcrAtWork

if os.name == "nt":
    import msvcrt

    def _lock(file: IO[bytes]) -> None:
        msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)

else:
    import fcntl

    def _lock(file: IO[bytes]) -> None:
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)


@contextmanager
def only_one(folder: Path) -> Iterator[None]:
    """Hold the library in `folder` for this process. Raises LibraryBusy."""
    with _held(folder / "ingest.lock", LibraryBusy):
        yield


@contextmanager
def only_one_ocr(folder: Path) -> Iterator[None]:
    """Be the one who reads the scanned pages of the library in `folder`. Raises OcrAtWork."""
    with _held(folder / "ocr.lock", OcrAtWork):
        yield


@contextmanager
def _held(path: Path, busy: Callable[[str], Exception]) -> Iterator[None]:
    """The lock is on the open file, not on its existence: what a dead process left locks nobody out."""
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("ab") as file:
        try:
            _lock(file)
        except OSError as problem:
            raise busy(str(path.parent)) from problem
        yield
