"""Pictures of pages kept on disk. Anything here may be deleted at any time: it is drawn again."""

import contextlib
import logging
import os
import tempfile
import threading
from pathlib import Path

LIMIT_MB = 2000  # then the oldest pictures go
TIDY_EVERY = 500  # pictures kept between two looks at how much there is
_AFTER_TIDYING = 0.8  # of the limit

log = logging.getLogger(__name__)


class PictureCache:
    """One folder of pictures, by the content of the file, page and size: dots per inch or the name of a tile.

    Safe for threads.
    """

    def __init__(self, folder: Path, limit_mb: float = LIMIT_MB):
        self._folder = folder
        self._limit = limit_mb * 1_000_000
        self._since_tidied = 0
        self._lock = threading.Lock()

    def kept(self, copy_id: str, pdf_page: int, size: int | str) -> bytes | None:
        """The picture, or None when it is not here."""
        with contextlib.suppress(OSError):  # never drawn, or emptied meanwhile
            return self._place(copy_id, pdf_page, size).read_bytes()
        return None

    def keep(self, copy_id: str, pdf_page: int, size: int | str, jpeg: bytes) -> None:
        """Write whole or not at all. A full disk costs the keeping only."""
        place = self._place(copy_id, pdf_page, size)
        try:
            _write(place, jpeg)
        except OSError as problem:
            log.warning("the picture %s was not kept: %s", place, problem)
            return
        with self._lock:
            self._since_tidied += 1
            due = self._since_tidied >= TIDY_EVERY
            if due:
                self._since_tidied = 0
        if due:
            self.tidy()

    def tidy(self) -> int:
        """Delete the oldest pictures while there are more than the limit allows; gives how many went."""
        held = []
        for path in self._folder.glob("*/*.jpg"):
            with contextlib.suppress(OSError):  # deleted meanwhile
                facts = path.stat()
                held.append((facts.st_mtime, facts.st_size, path))
        total = sum(size for _, size, _ in held)
        if total <= self._limit:
            return 0
        gone = 0
        for _, size, path in sorted(held):
            if total <= self._limit * _AFTER_TIDYING:
                break
            with contextlib.suppress(
                OSError
            ):  # Windows will not delete what is being read; the next tidying will
                path.unlink()
                total -= size
                gone += 1
        return gone

    def _place(self, copy_id: str, pdf_page: int, size: int | str) -> Path:
        return self._folder / copy_id / f"{pdf_page}-{size}.jpg"


def _write(place: Path, jpeg: bytes) -> None:
    place.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=place.parent, suffix=".part")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(jpeg)
        os.replace(name, place)
    except OSError:
        os.unlink(name)
        raise
