"""Where a run of OCR stands, for every process to see: a small file that a run writes every few seconds.

A file and not a row: a run must be able to say that it lives while an ingest holds the catalogue.
"""

import datetime
import logging
import os
from pathlib import Path

from indexer.library.codec import from_json, to_json
from indexer.library.ocr_records import RunState

WRITE_EVERY_S = 5.0
_SILENT_S = 30.0  # a run that has not written for so long is taken to be dead
_NAME = "ocr-state.json"

_log = logging.getLogger(__name__)


def write_state(folder: Path, state: RunState) -> None:
    """Put the state in place whole: a reader sees the one before or this one."""
    unfinished = folder / f"{_NAME}.{os.getpid()}"
    unfinished.write_text(to_json(state), encoding="utf-8")
    try:
        unfinished.replace(folder / _NAME)
    except PermissionError:  # Windows, while another process reads it: the next state is written in seconds
        _log.info("%s is being read; its newest state is not written", folder / _NAME)


def last_state(folder: Path) -> RunState | None:
    """What the newest run wrote last; None before the first run, or where the file is damaged."""
    try:
        return from_json(RunState, (folder / _NAME).read_text(encoding="utf-8"))
    except FileNotFoundError:
        return None
    except (ValueError, TypeError, KeyError):
        _log.warning("%s is damaged; the next run writes it anew", folder / _NAME)
        return None


def at_work(state: RunState | None, now: datetime.datetime | None = None) -> bool:
    """Whether the run that wrote this is still at work: it has not ended, and wrote a moment ago."""
    if state is None or state.ended:
        return False
    now = now or datetime.datetime.now(datetime.UTC)
    return abs((now - datetime.datetime.fromisoformat(state.at)).total_seconds()) < _SILENT_S
