"""What does one key in the search box cost? The part of the page below the box, against SQLite FTS5.

    python tests/bench/while_typing.py FOLDER               makes a library of 100,000 passages there
    python tests/bench/while_typing.py FOLDER --scale 0.1

Every beginning of two letters and more of several questions is asked as it is typed, over the library of
marks_library.py. Ours is the whole answer of /find: hits with marks, standing and snippets, exact counts for
every filter, what a number leads straight to, as HTML. The peer gives less: the best 20 rows by bm25 of an
FTS5 prefix query, each with a snippet, and the number of hits; no filters, no marks, no page.

The machine is shared: times are of the processor. "First" is the first key after the service started.
"""

import argparse
import sqlite3
from collections.abc import Iterator
from pathlib import Path

from marks import build
from starlette.requests import Request
from times import Times, shown, timed

from indexer.settings import Settings
from server.app import create_app
from server.opened import OpenedLibrary
from server.routes import search_pages

QUESTIONS = (
    "brake valve", "hydraulic line", "MM-C-001", "SB C001-32-0003", "32-10-00", "bearing wheel tire",
    "landing gear brake", "fuel pump filter", "fig 3 item 12", "remove strut bolt", "2031-02-05",
)  # fmt: skip
SHOWN = 20
TARGET_MS = 80.0  # of the processor, of 95 keys in 100


def main() -> None:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("folder", type=Path)
    parser.add_argument("--scale", type=float, default=1.0, help="1.0 = 100,000 passages")
    options = parser.parse_args()
    if not (options.folder / "lib").exists():
        build(options.folder, options.scale)
    with OpenedLibrary.open(options.folder / "lib", Settings()) as opened:
        print(f"{opened.catalogue.status().passages} passages")
        app = create_app(opened, Settings())
        fts5 = peer(opened)
        first, _ = timed(ask, app, "br")
        ours = [timed(ask, app, typed)[0] for typed in keys()]
        theirs = [timed(ask_peer, fts5, typed)[0] for typed in keys()]
    print(f"first    processor {first.processor:.0f} ms")
    print(f"ours   {shown(ours)}")
    print(f"fts5   {shown(theirs)}")
    print(f"target   p95 {p95(ours):.1f} ms of the processor (wanted at most {TARGET_MS:g})")


def keys() -> Iterator[str]:
    for question in QUESTIONS:
        for end in range(2, len(question) + 1):
            yield question[:end]


def ask(app, typed: str) -> bytes:
    """The answer of /find without the web server around it."""
    scope = {
        "type": "http", "method": "GET", "path": "/find", "query_string": b"", "headers": [], "app": app,
        "scheme": "http", "server": ("127.0.0.1", 80), "client": ("127.0.0.1", 5000), "state": {},
    }  # fmt: skip
    asked = search_pages.asked_here(
        typed, [], [], [], [], False, "", "", True, False, not typed.endswith(" ")
    )
    return search_pages.find(Request(scope), asked).body


def peer(opened: OpenedLibrary) -> sqlite3.Connection:
    connection = sqlite3.connect(":memory:")
    connection.execute("CREATE VIRTUAL TABLE passage USING fts5 (heading, text, prefix = '2 3')")
    with opened.catalogue.reading() as held:
        rows = held.execute("SELECT heading_path_json, text FROM passage")
        connection.executemany("INSERT INTO passage VALUES (?, ?)", (tuple(row) for row in rows))
    connection.execute("INSERT INTO passage (passage) VALUES ('optimize')")
    return connection


def ask_peer(connection: sqlite3.Connection, typed: str) -> tuple[list, int]:
    words = [f'"{word}"' for word in typed.split()]
    query = " ".join(words) + ("" if typed.endswith(" ") else "*")
    rows = connection.execute(
        "SELECT snippet(passage, 1, '', '', '...', 30) FROM passage WHERE passage MATCH ?"
        f" ORDER BY rank LIMIT {SHOWN}",
        (query,),
    ).fetchall()
    total = connection.execute("SELECT count(*) FROM passage WHERE passage MATCH ?", (query,)).fetchone()
    return rows, total[0]


def p95(times: list[Times]) -> float:
    ordered = sorted(each.processor for each in times)
    return ordered[min(len(ordered) - 1, int(len(ordered) * 0.95))]


if __name__ == "__main__":
    main()
