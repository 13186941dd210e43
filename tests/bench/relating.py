"""What does one change cost? Relating after it, against working out everything, in the same run.

    python tests/bench/relating.py FOLDER              makes relating_library.py there, or takes what is there
    python tests/bench/relating.py FOLDER --scale 0.1

Each change is made and related; then everything is worked out again from nothing: the peer. Both catalogues
are compared whole. Times are of the processor (the machine is shared) and of the clock. Results: a table
here, and every number in tests/bench/runs/.
"""

import argparse
import datetime
import hashlib
import json
import os
import platform
import time
from collections.abc import Callable
from pathlib import Path

import relating_library as library
from making import take

from indexer.library import related, shop_map
from indexer.library.catalogue import Catalogue
from indexer.library.generations import set_meta
from indexer.library.records import EntryKind
from indexer.library.relations import relate
from indexer.library.shop_entries import add_entry, undo_entry

RUNS = Path(__file__).parent / "runs"
WHO, WHY = "R. Quill", "looked at the page"


def main() -> None:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("folder", type=Path)
    parser.add_argument("--scale", type=float, default=1.0, help="1.0 = 2,020 publications")
    options = parser.parse_args()
    with Catalogue.open(options.folder / "library", create=True) as catalogue:
        if not catalogue.publications():
            for made in library.publications(options.scale):
                take(catalogue, options.folder / "in", made)
        relate(catalogue)
        status = catalogue.status()
        print(f"{status.publications} publications, {status.passages} passages")
        times = _changes(catalogue, options.folder / "in")
        one_by_one = _digest(catalogue)
        _forget(catalogue)
        times["everything worked out again (peer)"] = _timed(lambda: relate(catalogue))
        equal = one_by_one == _digest(catalogue)
    for name, (cpu_s, clock_s) in times.items():
        print(f"{name:40}{cpu_s:8.2f} s processor{clock_s:8.2f} s clock")
    print("both catalogues are equal" if equal else "THE CATALOGUES DIFFER")
    result = {
        "date": datetime.date.today().isoformat(),
        "machine": {
            "cores": os.cpu_count(),
            "load": os.getloadavg()[0],
            "python": platform.python_version(),
        },
        "library": {"publications": status.publications, "passages": status.passages},
        "equal": equal,
        "times_s": {name: {"processor": cpu, "clock": clock} for name, (cpu, clock) in times.items()},
    }
    path = RUNS / f"{result['date']}-relating.json"
    path.write_text(json.dumps(result, indent=1) + "\n", encoding="utf-8")
    if not equal:
        raise SystemExit(1)


def _changes(catalogue: Catalogue, folder: Path) -> dict[str, tuple[float, float]]:
    """Seconds that relating takes after each change; every other one takes the one before back."""
    times = {}

    def after(name: str, act: Callable):
        made = act()
        times[name] = _timed(lambda: relate(catalogue))
        return made

    after("nothing changed", lambda: None)
    for name, made in (
        ("a bulletin", library.bulletin(1, "C-011", 99)),
        ("a manual", library.manual(1, "C-011", "5")),
    ):
        taken = after(f"{name} added", lambda made=made: take(catalogue, folder, made))
        after(f"{name} removed", lambda taken=taken: catalogue.remove(taken.copy_id))
    copy_id = library.manual(1, "C-011").document().sha256[:16]
    for name, kind, value in (
        ("an entry on chapters", EntryKind.CHAPTERS, "24"),
        ("an entry on a number", EntryKind.NUMBER, "MM-0"),
    ):
        asked = (catalogue, copy_id, 12, WHO, WHY, kind, value)
        entry = after(name, lambda asked=asked: add_entry(*asked))
        after(f"{name} undone", lambda entry=entry: undo_entry(catalogue, entry.id, WHO, WHY))
    line = (library.own_number(0), "3", "5", "32", WHO, WHY)
    row = after("a line of the map", lambda: shop_map.add_row(catalogue, *line))
    after("a line of the map removed", lambda: shop_map.remove_row(catalogue, row.id, WHO, WHY))
    return times


def _forget(catalogue: Catalogue) -> None:
    with catalogue.database.writing() as connection:
        for table in ("reference", "supersession", "tie", "page_override", "directive_standing", "filing"):
            connection.execute(f"DELETE FROM {table}")
        related.forget(connection)
        set_meta(connection, "related_rules", 0)


def _digest(catalogue: Catalogue) -> str:
    return hashlib.sha256(catalogue.dump().encode()).hexdigest()


def _timed(act: Callable) -> tuple[float, float]:
    cpu, clock = time.process_time(), time.monotonic()
    act()
    return round(time.process_time() - cpu, 3), round(time.monotonic() - clock, 3)


if __name__ == "__main__":
    main()
