"""A run of OCR says every few seconds, to every process, that it lives and how far it is."""

import datetime
import os
import threading
from dataclasses import replace
from pathlib import Path

from indexer.library.ocr_records import RunState
from indexer.library.ocr_state import WRITE_EVERY_S, write_state

PAGES_FOR_AN_ESTIMATE = 3


class Telling:
    """Writes the state of a run until it ends. Use it as a context manager."""

    def __init__(self, folder: Path, engine: str):
        self._folder = folder
        self._lock = threading.Lock()
        self._state = RunState(os.getpid(), _now(), _now(), engine)
        self._over = threading.Event()
        self._thread = threading.Thread(target=self._tell_on, name="ocr-telling", daemon=True)

    def __enter__(self) -> "Telling":
        self._write()
        self._thread.start()
        return self

    def __exit__(self, kind: type[BaseException] | None, problem: BaseException | None, _: object) -> None:
        self._over.set()
        self._thread.join()
        with self._lock:
            broke_off = f"it broke off: {kind.__name__} {problem}".strip() if kind else ""
            ended = broke_off or self._state.ended or "done"
            self._state = replace(self._state, ended=ended, page="", seconds_left=None)
        self._write()

    @property
    def state(self) -> RunState:
        return self._state

    def change(self, **fields: object) -> RunState:
        """Change fields of the state; it is written within seconds."""
        with self._lock:
            self._state = replace(self._state, **fields)
            return self._state

    def _tell_on(self) -> None:
        while not self._over.wait(WRITE_EVERY_S):
            self._write()

    def _write(self) -> None:
        with self._lock:
            self._state = replace(self._state, at=_now())
            write_state(self._folder, self._state)


def seconds_left(done: int, took_s: float, left: int) -> float | None:
    """Until `left` pages are read at the speed of those done; None where too few are done to tell. Pure."""
    return took_s / done * left if done >= PAGES_FOR_AN_ESTIMATE else None


def _now() -> str:
    return datetime.datetime.now(datetime.UTC).isoformat(timespec="milliseconds")
