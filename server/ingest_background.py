"""Files taken in the background of the service: those that were sent to it, and those of a watched folder.

One ingest at a time, by the same `ingest` as the command, in isolated workers that give way to everything
else. Nothing that goes wrong here ends the service: it is said in `state`, logged, and tried again.
"""

import logging
import signal
import threading
import time
from collections import deque
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path

from indexer.errors import HangarleafError, LibraryBusy, NothingToIngest
from indexer.ingest import (
    Event,
    FileAlready,
    FileBegun,
    FileTaken,
    Found,
    Read,
    Refused,
    Stage,
    ingest,
    read_and_tag,
)
from indexer.library.catalogue import Catalogue
from indexer.library.whoosh_engine import WhooshEngine
from indexer.settings import Settings
from server import incoming
from server.ingest_state import Doing, IngestState, Outcome, Source, now
from server.opened import index_folder
from server.watched_folder import WatchedFolder

AT_ONCE = 25  # files of one ingest: what is sent meanwhile waits no longer than for these
_OUTCOMES = 200
_BUSY_AGAIN_S = 2.0
_TROUBLE_AGAIN_S = 30.0
_DOING = {"relating": Doing.RELATING, "indexing": Doing.INDEXING}

_log = logging.getLogger(__name__)


class IngestBackground:
    """Takes files from `start` to `stop`. Everything else may be called from any thread, also before."""

    def __init__(self, library: Path, settings: Settings, read: Read = read_and_tag):
        """Raises WatchFolderRefused."""
        self._library = library
        self._settings = settings
        self._read = read
        self._watched = (
            WatchedFolder(library, Path(settings.watch_folder), settings.watch_every_s)
            if settings.watch_folder
            else None
        )
        self._queue: dict[str, Source] = {}
        self._batch: dict[str, Source] = {}  # of the ingest at work, without those that are through
        self._one_by_one = False  # after an ingest broke down, so that one file costs only itself
        self._outcomes: deque[Outcome] = deque(maxlen=_OUTCOMES)
        self._state = IngestState()
        self._reading: dict[str, None] = {}
        self._changed = threading.Condition()
        self._stopped = threading.Event()
        self._thread = threading.Thread(target=self._run, name="ingest-background")

    def start(self) -> None:
        self._thread.start()

    def stop(self) -> None:
        """End within seconds: what was taken is kept, the rest of what was sent waits in incoming/."""
        self._stopped.set()
        with self._changed:
            self._changed.notify_all()
        if self._thread.is_alive():
            self._thread.join()

    def add(self, paths: Iterable[Path], source: Source = Source.SENT) -> None:
        """Have files taken in their turn."""
        with self._changed:
            for path in map(str, paths):
                if source is Source.WATCHED or path not in self._batch:  # what was sent never changes
                    self._queue[path] = source
            self._changed.notify_all()

    def forget(self, path: Path) -> None:
        """Take a file out of the queue, where it is in it."""
        with self._changed:
            self._queue.pop(str(path), None)

    def note(self, outcome: Outcome) -> None:
        """Keep what came of a file that never got as far as an ingest."""
        with self._changed:
            self._outcomes.appendleft(outcome)

    def state(self) -> IngestState:
        with self._changed:
            begun = self._state.begun_at
            return replace(
                self._state,
                reading=tuple(Path(path).name for path in self._reading),
                waiting=len(self._queue),
                seconds=(now() - begun).total_seconds() if begun else 0.0,
                outcomes=tuple(self._outcomes),
                watch=self._watched.state if self._watched else None,
            )

    # The thread --------------------------------------------------------------------------------------------

    def _run(self) -> None:
        if hasattr(signal, "pthread_sigmask"):  # not there on Windows
            # Ctrl-C reaches the whole group: workers that start here leave it to the service to end them.
            signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
        next_look, begun = 0.0, False
        while not self._stopped.is_set():
            try:
                if not begun:
                    self._take_up()
                    begun = True
                if self._watched and time.monotonic() >= next_look:
                    self.add(self._watched.look(), Source.WATCHED)
                    next_look = time.monotonic() + self._watched.every_s
                if not self._next_batch():
                    self._rest(next_look - time.monotonic() if self._watched else None)
                    continue
                self._ingest()
            except LibraryBusy:
                self._put_back()
                self._update(doing=Doing.WAITING)
                self._stopped.wait(_BUSY_AGAIN_S)
            except NothingToIngest:  # every one of them is gone again
                self._batch.clear()
            except HangarleafError as problem:
                _log.error("nothing is taken in now: %s", problem)
                self._in_trouble(f"{problem.what} {problem.remedy}".strip())
            except Exception as problem:
                _log.error("an ingest broke down", exc_info=problem)
                self._in_trouble(
                    f"Taking files in failed ({type(problem).__name__}: {problem}); what was sent is kept. "
                    "It is tried again every half minute; the lines that the service printed say more."
                )

    def _take_up(self) -> None:
        """What was sent before and neither taken nor refused, after what a service that was ended left."""
        incoming.sweep(self._library)
        with Catalogue.open(self._library) as catalogue:
            refused = [Path(each.path) for each in catalogue.refused()]
        self.add(incoming.waiting(self._library, refused))

    def _next_batch(self) -> bool:
        """Move files from the queue into the batch: what was sent before what is watched."""
        with self._changed:
            for source in Source:
                for path in [path for path, from_where in self._queue.items() if from_where is source]:
                    if len(self._batch) >= (1 if self._one_by_one else AT_ONCE):
                        break
                    del self._queue[path]
                    if source is Source.SENT and not Path(path).exists():
                        continue  # removed by a person, or taken by another service
                    self._batch[path] = source
                if self._batch:
                    break
            self._state = replace(
                self._state, doing=Doing.READING if self._batch else Doing.NOTHING, total=len(self._batch)
            )
            return bool(self._batch)

    def _rest(self, seconds: float | None) -> None:
        with self._changed:
            if not self._queue and not self._stopped.is_set():
                self._changed.wait(None if seconds is None else max(0.0, seconds))

    def _ingest(self) -> None:
        """Raises what `ingest` raises; what is through by then is noted and out of the batch."""
        try:
            ingest(
                [Path(path) for path in self._batch],
                self._library,
                self._settings,
                self._told,
                WhooshEngine(index_folder(self._library), self._settings.search_cache_mb),
                self._read,
                self._stopped.is_set,
                background=True,
            )
        finally:
            with self._changed:
                self._reading.clear()
        with self._changed:
            self._queue = {**self._batch, **self._queue}  # none, unless it was stopped
            self._batch.clear()
            self._one_by_one = False
            self._state = IngestState(ended_at=now())

    def _put_back(self) -> None:
        with self._changed:
            self._queue = {**self._batch, **self._queue}
            self._batch.clear()

    def _in_trouble(self, words: str) -> None:
        """The files of the batch come last now, each by itself."""
        with self._changed:
            self._queue.update(self._batch)
            self._batch.clear()
            self._one_by_one = True
            self._state = IngestState(problem=words, ended_at=self._state.ended_at)
        self._stopped.wait(_TROUBLE_AGAIN_S)

    def _update(self, **changes: object) -> None:
        with self._changed:
            self._state = replace(self._state, **changes)

    def _told(self, event: Event) -> None:
        """In the thread of the ingest, which is this one."""
        if isinstance(event, Found):
            self._update(doing=Doing.READING, total=event.files, done=0, begun_at=now(), problem="")
        elif isinstance(event, Stage):
            self._update(doing=_DOING.get(event.name, Doing.READING))
        elif isinstance(event, FileBegun):
            with self._changed:
                self._reading[str(event.path)] = None
        elif isinstance(event, FileTaken):
            self._through(
                event.path, "taken", pages=event.taken.pages, publications=tuple(event.taken.publications)
            )
        elif isinstance(event, FileAlready):
            self._through(event.path, "already")
        elif isinstance(event, Refused):
            self._through(event.path, "refused", slug=event.slug, what=event.what, remedy=event.remedy)

    def _through(self, path: Path, came: str, **more: object) -> None:
        """One file is through. The library has its own copy of what was taken: incoming/ lets go of it."""
        with self._changed:
            source = self._batch.pop(str(path), Source.SENT)
            self._reading.pop(str(path), None)
            self._outcomes.appendleft(Outcome(path.name, str(path), source, came, now(), **more))
            self._state = replace(self._state, done=self._state.done + 1)
        if self._watched and source is Source.WATCHED:
            self._watched.came_of(path, str(more.get("slug") or came))
        if came == "refused":
            return
        incoming.drop(self._library, path)
        self._drop_worse(path)

    def _drop_worse(self, path: Path) -> None:
        """The refused file in whose place this one was sent is not wanted any more."""
        if not incoming.is_incoming(self._library, path):
            return
        with Catalogue.open(self._library) as catalogue:
            for refused in catalogue.refused():
                older = Path(refused.path)
                if incoming.is_incoming(self._library, older) and incoming.is_better_than(path, older):
                    catalogue.forget_refusal(older)
                    incoming.drop(self._library, older)
