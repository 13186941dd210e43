"""What do the marks on every answer cost? Answers with marks against the same answers without any.

    python tests/bench/marks.py FOLDER               makes a library of 100,000 passages there
    python tests/bench/marks.py FOLDER --scale 0.1

Both in the same run, over the library of marks_library.py. A mark says whether a hit is current and whether
it applies to the aircraft in hand. The peer is the same search whose hits bear none: nothing is read of
relations, register, lists of effective pages and applicability. Then the pages that mark all they list.
"First" is the first answer after a change of the library, with nothing of it at hand.

The machine is shared: times are of the processor. Statements are those of SQL that one answer ran. Results: a
table here, and every single time in tests/bench/runs/.
"""

import argparse
import datetime
import json
import os
import platform
import random
import statistics
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, NamedTuple
from unittest import mock

import marks_library
import relating_library as plain
from fastapi.testclient import TestClient
from making import take
from source_check import lines

import server.search
from indexer.ingest import settle
from indexer.library import fleet, rows
from indexer.library.catalogue import Catalogue
from indexer.library.generations import change
from indexer.library.register_records import CurrencyFinding, CurrencyState
from indexer.library.whoosh_engine import WhooshEngine
from indexer.settings import Settings
from server import register
from server.app import create_app
from server.facet_counts import facet_counts
from server.opened import OpenedLibrary, index_folder
from server.routes.page_view import page_view
from server.search import search
from server.sourcecheck import check
from server.system import everything_on

RUNS = Path(__file__).parent / "runs"
QUESTIONS, ROUNDS = 30, 3
LINES = 28  # of records, four of each kind
SHOWN = 50  # hits of one answer, as on the search page
TARGETS = {"times the plain answer": 1.5, "own share ms": 5.0, "first hiding ms": 2000.0, "hiding ms": 10.0}


class Spent(NamedTuple):
    """Milliseconds of the processor, and statements of SQL."""

    processor: float
    statements: int


class Bare:
    """Stands in for what marks hits, and says nothing."""

    def __init__(self, *_: object, **__: object):
        self.finding = CurrencyFinding(CurrencyState.UNKNOWN, "")

    def prepare(self, *_: object) -> None: ...

    def of_passage(self, *_: object) -> Any:
        return self.finding


@contextmanager
def bare() -> Iterator[None]:
    """Searches inside mark nothing."""
    with mock.patch.multiple(server.search, Currency=Bare, Current=Bare):
        yield


def main() -> None:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("folder", type=Path)
    parser.add_argument("--scale", type=float, default=1.0, help="1.0 = 100,000 passages")
    parser.add_argument("--questions", type=int, default=QUESTIONS)
    parser.add_argument("--save", default="marks", help='name of the run that is kept; "" = none')
    options = parser.parse_args()
    build(options.folder, options.scale)
    with OpenedLibrary.open(options.folder / "lib", Settings()) as opened:
        status = opened.catalogue.status()
        print(f"{status.publications} publications, {status.passages} passages")
        found = measured(opened, options.questions)
    for name, spent in found.items():
        print(f"{name:44}{shown(spent)}")
    totals = summary(found)
    for name, wanted in TARGETS.items():
        print(f"target  {name}: {totals[name]:.2f} (wanted at most {wanted:g})")
    if not options.save:
        return
    kept = {
        "date": datetime.date.today().isoformat(),
        "machine": {
            "cores": os.cpu_count(),
            "load": os.getloadavg()[0],
            "python": platform.python_version(),
            "shared": "with other work: compare times of one run with one another only",
        },
        "library": {"publications": status.publications, "passages": status.passages},
        "summary": totals,
        "spent": {
            name: [[round(each.processor, 3), each.statements] for each in spent]
            for name, spent in found.items()
        },
    }
    path = RUNS / f"{kept['date']}-{options.save}.json"
    path.write_text(json.dumps(kept, indent=1) + "\n", encoding="utf-8")


def build(folder: Path, scale: float) -> None:
    with Catalogue.open(folder / "lib", create=True) as catalogue:
        if not catalogue.publications():
            for made in marks_library.publications(scale):
                take(catalogue, folder / "in", made)
        if not fleet.fleet(catalogue):
            marks_library.fill_shop(catalogue, scale)
        settle(catalogue, WhooshEngine(index_folder(folder / "lib"), Settings().search_cache_mb))


def measured(opened: OpenedLibrary, count: int) -> dict[str, list[Spent]]:
    catalogue = opened.catalogue
    mark = marks_library.registration(0)
    manual = next(each for each in catalogue.publications() if each.number == "MM-C-001")
    ways: dict[str, Callable[[str], Any]] = {
        "search, marks": lambda asked: search(opened, asked, limit=SHOWN, per_chapter=5),
        "search, marks for an aircraft": lambda asked: search(
            opened, asked, limit=SHOWN, per_chapter=5, aircraft=mark
        ),
        "search, hiding": lambda asked: search(
            opened, asked, limit=SHOWN, per_chapter=5, aircraft=mark, hide_not_applying=True
        ),
    }
    found: dict[str, list[Spent]] = {}

    def note(name: str, work: Callable, *given: Any) -> Any:
        spent, answer = timed(catalogue, work, *given)
        found.setdefault(name, []).append(spent)
        return answer

    asked = questions()[:count]
    for question in asked:  # the index and the pages of SQLite in memory for all
        with bare():
            ways["search, marks"](question)
    for name, work in ways.items():
        new_state(opened)
        note(f"{name}: first", work, asked[0])
    for question in asked:
        for _ in range(ROUNDS):
            with bare():
                note("search, peer: no marks", ways["search, marks"], question)
            for name, work in ways.items():
                answer = note(name, work, question)
        note("facet counts, hiding", facet_counts, opened, answer)
    for name, given in {"everything on 32": (), "everything on 32 for an aircraft": (mark,)}.items():
        for each in ("first", *range(ROUNDS)):
            if each == "first":
                new_state(opened)
            note(f"{name}{': first' if each == 'first' else ''}", everything_on, opened, "32", *given)
    row = fleet.aircraft(catalogue, mark)
    for each in ("first", *range(ROUNDS)):
        if each == "first":
            new_state(opened)
        with catalogue.reading():
            name = f"page view for an aircraft{': first' if each == 'first' else ''}"
            note(name, lambda: page_view(opened, manual.id, 20, aircraft=row))
    large = f"Done IAW {marks_library.LARGE_NUMBER} paragraph 50-7."
    cited = [("large manual of its own order", large, "", ""), *lines(1.0)[:LINES]]
    new_state(opened)
    for line in (large, cited[1][1]):
        note("source check: first", check, opened, line, mark, "", None, False)
    for _ in range(ROUNDS):
        for kind, line, _, aircraft in cited:
            note(f"source check, {kind}", check, opened, line, aircraft, "", None, False)
    client = TestClient(create_app(opened, Settings()), base_url="http://localhost")
    for address in ("/publications", "/register", "/desk"):
        for each in ("first", *range(ROUNDS)):
            if each == "first":
                new_state(opened)
            answer = note(f"{address}{': first' if each == 'first' else ''}", client.get, address)
            assert answer.status_code == 200, answer.text
        print(f"{address}: {len(answer.content):,} bytes")
    note("the register as plain data", register.register, opened)
    return found


def questions() -> list[str]:
    chance = random.Random("questions")
    return [" ".join(chance.sample(plain._WORDS, 2)) for _ in range(QUESTIONS)]


def new_state(opened: OpenedLibrary) -> None:
    """A change of the library that touches no document, such as a check of the register."""
    with opened.catalogue.database.writing() as connection:
        change(connection, rows.now(), ())
    opened.catch_up()
    opened.catalogue.status()


def timed(catalogue: Catalogue, work: Callable, *given: Any) -> tuple[Spent, Any]:
    statements: list[str] = []
    connection = catalogue.database.connection()
    connection.set_trace_callback(statements.append)
    processor = time.process_time()
    answer = work(*given)
    spent = (time.process_time() - processor) * 1000
    connection.set_trace_callback(None)
    return Spent(spent, len(statements)), answer


def summary(found: dict[str, list[Spent]]) -> dict[str, float]:
    middle = {name: statistics.median(each.processor for each in spent) for name, spent in found.items()}
    peer, marked = middle["search, peer: no marks"], middle["search, marks for an aircraft"]
    return {
        "times the plain answer": marked / peer,
        "own share ms": marked - peer,
        "first hiding ms": middle["search, hiding: first"],
        "hiding ms": middle["search, hiding"] - marked,
    }


def shown(spent: list[Spent]) -> str:
    times = sorted(each.processor for each in spent)
    high = times[min(len(times) - 1, int(len(times) * 0.95))]
    count = statistics.median(each.statements for each in spent)
    return (
        f"p50 {statistics.median(times):8.1f}  p95 {high:8.1f}  worst {times[-1]:8.1f} ms"
        f"   {count:6.0f} statements   of {len(times)}"
    )


if __name__ == "__main__":
    main()
