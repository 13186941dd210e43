"""What the workers of test_workers.py do."""

import os
import time
from pathlib import Path

from indexer.reading.ocr_engine import PageNotRead
from indexer.settings import Settings


def tell(path: Path, settings: Settings, *given: object) -> tuple:
    return given


def niceness(path: Path, settings: Settings) -> int:
    return os.nice(0)


def hang(path: Path, settings: Settings) -> None:
    while True:
        time.sleep(1)


def fail(path: Path, settings: Settings, number: int) -> None:
    if number == 1:
        raise PageNotRead("a.pdf", 12, "no luck")
    raise KeyError("a mistake of ours")


def sleep(path: Path, settings: Settings, seconds: float) -> None:
    time.sleep(seconds)
