"""One ingest at a time per library: a lock that the operating system lets go of when its holder dies."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO

from indexer.errors import LibraryBusy

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
    """Hold the library in `folder` for this process. Raises LibraryBusy.

    The lock is on the open file, not on its existence: what a dead process left behind locks nobody out.
    """
    folder.mkdir(parents=True, exist_ok=True)
    with (folder / "ingest.lock").open("ab") as file:
        try:
            _lock(file)
        except OSError as problem:
            raise LibraryBusy(str(folder)) from problem
        yield
