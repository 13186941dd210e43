"""Scanned pages read in the background of the service: a thread that starts runs of OCR while pages wait.

Its workers give way to everything else. What the service answers does not wait for it.
"""

import logging
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any

from indexer.errors import HangarleafError
from indexer.ingest import Read, read_and_tag
from indexer.library.catalogue import Catalogue
from indexer.library.ocr_pages import pages_to_read, waiting_copies
from indexer.library.ocr_queue import queue_state
from indexer.library.problems import OcrAtWork
from indexer.library.whoosh_engine import WhooshEngine
from indexer.ocr_run import Limits, Recognize, recognize, recognize_pages
from indexer.reading.ocr import find_engine
from indexer.settings import Settings
from server.opened import index_folder

_LOOK_EVERY_S = 5.0  # for pages that an ingest brought in

_log = logging.getLogger(__name__)


class OcrBackground:
    """Reads the scanned pages of a library from `start` to `stop`."""

    def __init__(
        self,
        folder: Path,
        settings: Settings,
        find: Callable[[Settings], Any] = find_engine,
        recognize: Recognize = recognize,
        read: Read = read_and_tag,
    ):
        self._folder = folder
        self._settings = settings
        self._find = find
        self._how = {"recognize": recognize, "read": read}
        self._stopped = threading.Event()
        self._thread = threading.Thread(target=self._run, name="ocr-background")

    def start(self) -> None:
        self._thread.start()

    def stop(self) -> None:
        """End within seconds: what was read is kept, the page in work is read anew another time."""
        self._stopped.set()
        if self._thread.is_alive():
            self._thread.join()

    def _run(self) -> None:
        try:
            engine = self._find(self._settings)
            if engine is None:
                _log.info("no OCR engine: scanned pages wait")
                return
            self._read_on(engine)
        except HangarleafError as problem:
            _log.error("scanned pages are no longer read: %s", problem)

    def _read_on(self, engine: Any) -> None:
        failed: set[tuple[str, int]] = set()  # tried again when the service is started the next time
        seen = None
        with Catalogue.open(self._folder) as catalogue:
            while not self._stopped.is_set():
                state = queue_state(catalogue)
                if state != seen and (
                    any((page.copy_id, page.pdf_page) not in failed for page in pages_to_read(catalogue))
                    or waiting_copies(catalogue)
                ):
                    try:
                        failed |= self._one_run(engine, failed)
                        seen = queue_state(catalogue)
                    except OcrAtWork:
                        pass  # another process reads them; looked at again below
                self._stopped.wait(_LOOK_EVERY_S)

    def _one_run(self, engine: Any, failed: set[tuple[str, int]]) -> set[tuple[str, int]]:
        report = recognize_pages(
            self._folder,
            self._settings,
            engine,
            WhooshEngine(index_folder(self._folder), self._settings.search_cache_mb),
            limits=Limits(stopped=self._stopped, skip=frozenset(failed)),
            background=True,
            **self._how,
        )
        for _, problem in report.failed:
            _log.warning("%s", problem)
        return {(page.copy_id, page.pdf_page) for page, _ in report.failed}
