"""What every search needs of a state of the library, worked out beforehand: at the start, and after a change.

The first key after either would otherwise wait for it. Nothing here changes an answer: what is not yet worked
out when it is asked for is worked out then.
"""

import datetime
import logging
import threading

from indexer.library.day import today
from server.not_current import not_current
from server.opened import OpenedLibrary

LOOK_EVERY_S = 2.0  # for a change, which may be another program's

State = tuple[int, datetime.date]  # generation and day: what is not current follows from both

_log = logging.getLogger(__name__)


class Warming:
    """Works from `start` to `stop` in a thread of its own.

    `warmed`  the state last worked out; None = none yet
    """

    def __init__(self, library: OpenedLibrary, every_s: float = LOOK_EVERY_S):
        self._library = library
        self._every_s = every_s
        self._stopped = threading.Event()
        self._thread = threading.Thread(target=self._run, name="warming")
        self._failed: State | None = None  # said once for a state, and not tried again
        self.warmed: State | None = None

    def start(self) -> None:
        self._thread.start()

    def stop(self) -> None:
        """Returns when nothing reads the library any more."""
        self._stopped.set()
        if self._thread.is_alive():
            self._thread.join()

    def look(self) -> None:
        """Work out what a change has made unknown. While an ingest is at work the next change is near: no."""
        if not self._library.up_to_date():
            return
        with self._library.reading() as status:
            state = (status.generation, today(self._library.catalogue))
            if state not in (self.warmed, self._failed):
                self._failed = state
                not_current(self._library)
                self.warmed, self._failed = state, None

    def _run(self) -> None:
        while not self._stopped.is_set():
            try:
                self.look()
            except Exception as problem:  # the answers that need it will say what is wrong
                _log.error("searches were not prepared for", exc_info=problem)
            self._stopped.wait(self._every_s)
