"""Worker processes for files that may crash, hang or eat all memory: each such file costs only itself.

A worker writes its result to a file and sends back only that it is there. So a worker that dies while it
hands over a large result leaves no half message and no held lock behind.
"""

import logging
import multiprocessing
import os
import pickle
import signal
import sys
import tempfile
import threading
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import FIRST_COMPLETED, Future, TimeoutError, wait
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import count, islice
from multiprocessing import resource_tracker
from multiprocessing.connection import wait as wait_for_handle
from pathlib import Path
from typing import Any

from pebble import ProcessExpired, ProcessPool

from indexer.errors import HangarleafError, ReadingCrashed, ReadingTooSlow, TooLarge
from indexer.settings import Settings

TASKS_PER_WORKER = 50  # then a fresh process takes over, so that what a library leaks is given back
_LOOK_EVERY_S = 1.0  # whether the pool still runs: one that broke may leave futures that never end
_BREAKS = 3  # of the whole pool, one after another with nothing done between, before it is given up

_log = logging.getLogger(__name__)


class WorkersCannotRun(HangarleafError):
    """No worker process stays alive, whatever the file: nothing can be read."""

    slug = "workers-cannot-run"

    def __init__(self, memory_mb: int):
        super().__init__(
            f"No worker process stays alive (each may use {memory_mb} MB).",
            "Free some memory, or raise the setting HANGARLEAF_WORKER_MEMORY_MB, then ingest again.",
        )


@dataclass(frozen=True, slots=True)
class Done:
    """What came of one item: `result`, or the `problem` for which it is refused."""

    item: Any
    result: Any = None
    problem: HangarleafError | None = None


class Workers:
    """A pool of worker processes. Use it as a context manager."""

    def __init__(
        self,
        settings: Settings,
        folder: Path,
        preload: Iterable[str] = (),
        number: int = 0,
        time_limit_s: float | None = None,
        waiting: int | None = None,
        niceness: int = 0,
    ):
        """`folder` takes the results on their way; `preload` names modules to load once for all workers.

        number        of workers; 0 = settings.workers, or one per core
        time_limit_s  for one item; None = settings.file_time_limit_s
        waiting       items drawn before a worker is free for them; None = one for each worker
        niceness      added to that of this process, where the system has it: 10 gives way to everything else
        """
        self._settings = settings
        self._number = number or settings.workers or os.cpu_count() or 1
        self._time_limit_s = settings.file_time_limit_s if time_limit_s is None else time_limit_s
        self._most_drawn = self._number + (self._number if waiting is None else waiting)
        self._niceness = niceness
        self._context = _context(preload)
        self._spool = tempfile.TemporaryDirectory(prefix="results-", dir=folder, ignore_cleanup_errors=True)
        self._names = count()
        self._pool = self._new_pool()
        self._breaks = 0

    def __enter__(self) -> "Workers":
        return self

    def __exit__(self, *_: object) -> None:
        self._pool.stop()
        self._pool.join()
        self._spool.cleanup()

    def each(
        self,
        function: Callable[..., Any],
        items: Iterable[Any],
        stopped: Callable[[], bool] = lambda: False,
    ) -> Iterator[Done]:
        """Run `function(item.path, settings, *item.given)` for every item, results as they come.

        `items` is drawn from as workers become free; each item has a `path`, and may have `given`, a tuple,
        and `times_longer`, the number of time limits that it may take.
        The function must be importable by name. Ends within a second or so when `stopped()`; what is at work
        then ends with the pool. Raises WorkersCannotRun.
        """
        remaining = iter(items)
        running: dict[Future, tuple[Any, Path]] = {}
        while not stopped():
            for item in islice(remaining, max(0, self._most_drawn - len(running))):
                self._start(running, function, item)
            if not running:
                return
            finished, _ = wait(running, timeout=_LOOK_EVERY_S, return_when=FIRST_COMPLETED)
            broken = not self._runs()
            for future in finished:
                if isinstance(future.exception(), BrokenProcessPool):
                    broken = True
                else:
                    self._breaks = 0
                    yield self._done(future, *running.pop(future))
            if broken:
                lost = [item for item, _ in running.values()]
                running.clear()
                self._renew_pool()
                for item in lost:
                    self._start(running, function, item)

    def _start(self, running: dict, function: Callable, item: Any) -> None:
        spooled = Path(self._spool.name) / str(next(self._names))
        try:
            with _interrupted_later():
                self._runs()  # asked for the first time, it starts
            future = self._pool.schedule(
                _work,
                args=(function, item.path, self._settings, getattr(item, "given", ()), spooled),
                timeout=self._limit_s(item),
            )
        except RuntimeError as problem:  # the pool broke just now, or did not start
            future = Future()
            future.set_exception(BrokenProcessPool(str(problem)))
        running[future] = (item, spooled)

    def _done(self, future: Future, item: Any, spooled: Path) -> Done:
        problem = future.exception()
        try:
            if problem is None:
                with spooled.open("rb") as file:
                    return Done(item, pickle.load(file))
            return Done(item, problem=self._refusal(item, problem))
        finally:
            spooled.unlink(missing_ok=True)

    def _limit_s(self, item: Any) -> float:
        return self._time_limit_s * getattr(item, "times_longer", 1.0)

    def _refusal(self, item: Any, problem: BaseException) -> HangarleafError:
        """What stopped a file, in our words."""
        file = str(item.path)
        if isinstance(problem, HangarleafError):
            return problem
        if isinstance(problem, TimeoutError):
            return ReadingTooSlow(file, self._limit_s(item))
        if isinstance(problem, MemoryError):
            limit = f"{self._settings.worker_memory_mb} MB"
            return TooLarge(file, "the memory needed to read it", limit, "HANGARLEAF_WORKER_MEMORY_MB")
        if isinstance(problem, ProcessExpired):
            return ReadingCrashed(file, _exit_in_words(problem.exitcode))
        _log.info("%s: reading it failed", file, exc_info=problem)  # the refusal says it to people
        return ReadingCrashed(file, f"{type(problem).__name__}: {problem}")

    def _new_pool(self) -> ProcessPool:
        return ProcessPool(
            max_workers=self._number,
            max_tasks=TASKS_PER_WORKER,
            initializer=_begin,
            initargs=(self._settings.worker_memory_mb, self._niceness),
            context=self._context,
        )

    def _runs(self) -> bool:
        try:
            return self._pool.active
        except BrokenProcessPool:
            return False

    def _renew_pool(self) -> None:
        """After the pool broke: every worker died while none had a file."""
        self._breaks += 1
        if self._breaks >= _BREAKS:
            raise WorkersCannotRun(self._settings.worker_memory_mb)
        self._pool.stop()
        self._pool.join()
        self._pool = self._new_pool()


def _context(preload: Iterable[str]) -> Any:
    """How workers are started: never by forking this process, whose threads may hold locks."""
    if "forkserver" not in multiprocessing.get_all_start_methods():
        return multiprocessing.get_context("spawn")
    context = multiprocessing.get_context("forkserver")
    context.set_forkserver_preload(list(preload))
    return context


@contextmanager
def _interrupted_later() -> Iterator[None]:
    """Hold Ctrl-C back while processes start, and keep it from them: this process ends them in order.

    One that is half started when its parent gives up finds nothing that it was promised, and says so at
    length. The terminal interrupts the whole group; what is blocked here stays blocked in what starts here.
    """
    if threading.current_thread() is not threading.main_thread() or signal.getsignal(signal.SIGINT) is None:
        yield
        return
    came: list[tuple] = []
    before = signal.signal(signal.SIGINT, lambda *given: came.append(given))
    mask = None
    if hasattr(signal, "pthread_sigmask"):  # not there on Windows
        resource_tracker.ensure_running()  # it unblocks the signal when it starts
        mask = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        if mask is not None:
            signal.pthread_sigmask(signal.SIG_SETMASK, mask)
        signal.signal(signal.SIGINT, before)
    if came and callable(before):
        before(*came[0])


def _begin(memory_mb: int, niceness: int) -> None:
    """In a new worker: end it when its parent is gone, let others go first, limit its memory (Linux).

    The thread comes first: one that gets no memory may never say that it has started, and is waited for.
    """
    threading.Thread(target=_end_with_parent, daemon=True).start()
    if niceness and hasattr(os, "nice"):  # not there on Windows
        os.nice(niceness)
    if memory_mb and sys.platform == "linux":
        import resource  # not there on Windows

        limit = memory_mb << 20
        if _address_space() > limit:  # with nothing read yet: no file may be blamed
            os._exit(1)
        resource.setrlimit(resource.RLIMIT_AS, (limit, limit))


def _address_space() -> int:
    """Bytes of this process (Linux): proc(5), statm, first field, in pages."""
    return int(Path("/proc/self/statm").read_text().split()[0]) * os.sysconf("SC_PAGESIZE")


def _end_with_parent() -> None:
    wait_for_handle([multiprocessing.parent_process().sentinel])
    os._exit(1)


def _work(function: Callable[..., Any], path: Path, settings: Settings, given: tuple, spooled: Path) -> None:
    result = function(path, settings, *given)
    with spooled.open("wb") as file:
        pickle.dump(result, file, pickle.HIGHEST_PROTOCOL)


def _exit_in_words(code: int | None) -> str:
    if code is not None and code < 0:
        try:
            return f"it was stopped by {signal.Signals(-code).name}"
        except ValueError:
            return f"it was stopped by signal {-code}"
    return f"it ended with code {code}"
