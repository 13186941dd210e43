"""The demonstration: the sample library taken into a fresh folder, served, and opened in a browser.

Its invented documents are dated 2029 to 2032, so that their numbers meet no real ones. The library carries a
day of its own after the last of them that is a rule, and every answer says so.
"""

import csv
import datetime
import os
import shutil
import signal
import sys
import tempfile
import threading
import webbrowser
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

from indexer.errors import HangarleafError
from indexer.library.catalogue import Catalogue
from indexer.library.day import make_demonstration, today
from indexer.library.fleet_list import import_csv
from indexer.library.register_lists import COLUMNS
from indexer.library.register_lists import import_csv as import_checks
from indexer.library.shop_lists import written
from indexer.settings import Settings
from server.serving import Encryption, serve
from server.taking_in import take_in

_CONFIRMED_BY = "I. Harrowgate-Pym"  # invented, as all of the samples
DAY = datetime.date(2032, 6, 1)  # the newest directive is in force, the proposal still open for comments
SAMPLES = Path(__file__).parent.parent / "sample_docs"


class NoSamples(HangarleafError):
    """The program was installed without its sample documents."""

    slug = "no-samples"

    def __init__(self, place: Path):
        super().__init__(
            f"{place}: the sample documents are not here.",
            "Run the demo from the project's own folder, or take in your own files: hangarleaf ingest FOLDER",
        )


class NotFresh(HangarleafError):
    """The demo was told to use a folder that holds something."""

    slug = "not-fresh"

    def __init__(self, folder: Path):
        super().__init__(
            f"{folder}: this folder is not empty, and the demo changes no library that is there.",
            "Name a new folder, or leave --library out to use a temporary one.",
        )


def demo(
    library: str | None, settings: Settings, lan: bool, port: int, browser: bool, https: bool = False
) -> int:
    """Take in the samples, fleet and register, serve them until stopped; gives how many files were refused.

    Scanned samples are read while it is served, where an OCR engine is installed.

    library  a folder to make; None = a temporary one, gone when the demo ends
    lan      True = open to the local network, for a tablet
    https    True = encrypted, by an authority that is gone with a temporary library
    Raises NoSamples, NotFresh, AddressTaken.
    """
    if not any(SAMPLES.rglob("*.pdf")):
        raise NoSamples(SAMPLES)
    with _fresh(library) as folder:
        refused = fill(folder, settings)
        if not lan:
            print("For a tablet in the same network, run: hangarleaf demo --lan")
        elif https and library is None:
            print("The demo's certificate authority ends with it: take the trust back on each tablet.")
        ours = replace(settings, library=str(folder))
        host = "0.0.0.0" if lan else "127.0.0.1"
        serve(ours, host, port, _show if browser else None, ocr=True, encryption=Encryption(shop=https))
    return refused


def fill(folder: Path, settings: Settings) -> int:
    """Make the demonstration's library in a folder; gives how many samples were refused."""
    with Catalogue.open(folder, create=True) as catalogue:
        make_demonstration(catalogue, DAY)
    refused = take_in([SAMPLES], replace(settings, library=str(folder)))
    enter_fleet(folder)
    enter_register(folder)
    return refused


def enter_fleet(folder: Path) -> None:
    """The invented aircraft of the samples, as if a person of the shop had confirmed them on the library's
    day; other samples may come without."""
    if not (SAMPLES / "fleet.csv").exists():
        return
    text = (SAMPLES / "fleet.csv").read_text(encoding="utf-8")
    with Catalogue.open(folder) as catalogue:
        taken = import_csv(catalogue, text, _CONFIRMED_BY, confirmed_on=today(catalogue))
    if taken.problems:
        raise ValueError(f"the sample fleet has mistakes: {taken.problems}")


def enter_register(folder: Path) -> None:
    """The invented checks of the samples, each made so many days before the library's day, so that one of
    them is always overdue; other samples may come without."""
    if not (SAMPLES / "register.csv").exists():
        return
    with Catalogue.open(folder) as catalogue:
        day = today(catalogue)
        with (SAMPLES / "register.csv").open(encoding="utf-8", newline="") as file:
            lines = [
                {**line, "checked_on": str(day - datetime.timedelta(int(line["days_ago"])))}
                for line in csv.DictReader(file)
            ]
        text = written(COLUMNS, ([line[name] for name in COLUMNS] for line in lines))
        taken = import_checks(catalogue, text, _CONFIRMED_BY, Settings().recheck_days)
    if taken.problems:
        raise ValueError(f"the sample register has mistakes: {taken.problems}")


@contextmanager
def _fresh(library: str | None) -> Iterator[Path]:
    if library is None:
        folder = Path(tempfile.mkdtemp(prefix="hangarleaf-demo-"))
        try:
            with _ending_in_order():
                yield folder
        finally:
            shutil.rmtree(folder, ignore_errors=True)  # on Windows a file may still be open for a moment
        return
    folder = Path(library).expanduser()
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise NotFresh(folder)
    yield folder


@contextmanager
def _ending_in_order() -> Iterator[None]:
    """Told to end, or left alone by a closed terminal: leave by the front door, so the folder is removed."""
    handlers = {signal.SIGTERM: _leave}
    if hasattr(signal, "SIGHUP"):  # Windows has none
        handlers[signal.SIGHUP] = lambda *_: signal.raise_signal(signal.SIGTERM)  # which the service heeds
    before = {number: signal.signal(number, handler) for number, handler in handlers.items()}
    try:
        yield
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)


def _leave(number: int, _: object) -> None:
    sys.exit(128 + number)


def _show(address: str) -> None:
    """Open the page where there is a screen; a text browser would take the terminal over."""
    on_unix = os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")
    if sys.platform in ("win32", "darwin") or on_unix:
        threading.Thread(target=webbrowser.open, args=(address,), daemon=True).start()
