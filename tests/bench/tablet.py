"""How soon does a page stand on a slow tablet? The largest contentful paint, the processor four times slower.

    python tests/bench/tablet.py FOLDER [--loads 9] [--save tablet]

FOLDER is a library; where there is none, the demonstration is made there. Each load is cold (nothing is kept
by the browser) in a browser that is warm. Times of a load:

    paint    the largest contentful paint by the clock, from the moment that the address is entered
    browser  of the processor: the main thread of the page from then to that paint, as slowed
    service  of the processor: what the service took to answer the page, not slowed

By the clock, other work on the machine counts too; "browser" and "service" together are what the page itself
costs. Peer in the same run: the words of the same page as a bare HTML file, without style and script.
"""

import argparse
import datetime
import json
import os
import sys
import threading
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import asdict, dataclass
from html import escape
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from statistics import median
from typing import Any

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests" / "browser")]

SLOWER = 4  # times, the processor
TARGET_MS = 1000
RUNS = Path(__file__).parent / "runs"
LARGEST_PAINT = """() => new Promise((done) => new PerformanceObserver(
  (list) => done(list.getEntries().at(-1).startTime)
).observe({type: "largest-contentful-paint", buffered: true}))"""
PAINTED = ("firstContentfulPaint", "largestContentfulPaint::Candidate")
TRACED = {
    "traceConfig": {
        "includedCategories": ["devtools.timeline", "disabled-by-default-devtools.timeline", "loading"]
    }
}


@dataclass(frozen=True)
class Load:
    """Milliseconds; see above."""

    paint: float
    browser: float
    service: float


def main_thread(events: list[dict[str, Any]], paint_ms: float) -> float:
    """Milliseconds of the processor that the page's main thread took from navigation to the paint.

    Of the events of a trace (times in microseconds): tasks of the thread that said last that it painted.
    """
    painted = [event for event in events if event["name"] in PAINTED]
    if not painted:
        raise RuntimeError("the trace holds no paint")
    last = max(painted, key=lambda event: event["ts"])
    tasks = [
        event
        for event in events
        if event["name"] == "RunTask"
        and (event["pid"], event["tid"]) == (last["pid"], last["tid"])
        and last["ts"] - paint_ms * 1000 <= event["ts"] <= last["ts"]
    ]
    if not tasks:
        raise RuntimeError("the trace holds no task of the page")
    return sum(event.get("tdur", 0) for event in tasks) / 1000


def service_ms(address: str) -> float:
    """Of the processor of this process, in which the service runs."""
    begun = time.process_time()
    with urllib.request.urlopen(address, timeout=60) as answer:
        answer.read()
    return (time.process_time() - begun) * 1000


def loaded(browser: Any, page: Any, address: str) -> Load:
    service = service_ms(address)
    events: list[dict[str, Any]] = []
    complete: list[object] = []
    session = browser.new_browser_cdp_session()
    session.on("Tracing.dataCollected", lambda event: events.extend(event["value"]))
    session.on("Tracing.tracingComplete", lambda event: complete.append(event))
    session.send("Tracing.start", TRACED)
    page.goto(address, wait_until="load", timeout=120_000)
    paint = page.evaluate(LARGEST_PAINT)
    session.send("Tracing.end")
    while not complete:
        page.evaluate("1")  # Playwright hears events while it waits for an answer
    session.detach()
    return Load(paint, main_thread(events, paint), service)


def bare(words: str) -> bytes:
    lines = "".join(f"<p>{escape(line)}</p>\n" for line in words.splitlines() if line.strip())
    head = '<!doctype html><html lang="en"><meta charset="utf-8"><title>Words</title>'
    return f"{head}<body>{lines}</body></html>".encode()


@contextmanager
def plain_server(files: dict[str, bytes]) -> Iterator[str]:
    """Serves bytes by path, each as HTML; gives the address."""

    class Plain(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            body = files[self.path]
            self.send_response(200)
            self.send_header("Content-Type", "text/html; charset=utf-8")
            self.send_header("Content-Length", str(len(body)))
            self.end_headers()
            self.wfile.write(body)

        def log_message(self, *_: object) -> None: ...

    server = ThreadingHTTPServer(("127.0.0.1", 0), Plain)
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_address[1]}"
    finally:
        server.shutdown()
        thread.join()
        server.server_close()


def paths(address: str) -> dict[str, str]:
    """What is looked at, by name."""
    with urllib.request.urlopen(f"{address}/api/search?q=brake&limit=1", timeout=60) as answer:
        hit = json.load(answer)["groups"][0]["hits"][0]
    page = f"/publications/{hit['publication']['id']}/pages/{hit['pdf_page']}?q=brake"
    return {"/": "/", "/?q=brake": "/?q=brake", "a page": page, "/system/32": "/system/32"}


def measured(address: str, loads: int) -> dict[str, dict[str, list[Load]]]:
    """Loads by name of the page, and by "ours" and "bare"; taken in turns."""
    from in_chromium import TABLET, chromium_open

    files: dict[str, bytes] = {"/favicon.ico": b""}
    with chromium_open() as browser, plain_server(files) as other:
        context = browser.new_context(
            viewport={"width": TABLET[0], "height": TABLET[1]}, service_workers="block"
        )
        page = context.new_page()
        asked = paths(address)
        for number, path in enumerate(asked.values()):
            page.goto(address + path, wait_until="load", timeout=120_000)
            files[f"/{number}"] = bare(page.evaluate("document.body.innerText"))
        session = context.new_cdp_session(page)
        session.send("Network.setCacheDisabled", {"cacheDisabled": True})
        session.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
        found: dict[str, dict[str, list[Load]]] = {name: {"ours": [], "bare": []} for name in asked}
        for _ in range(loads):
            for number, (name, path) in enumerate(asked.items()):
                found[name]["ours"].append(loaded(browser, page, address + path))
                found[name]["bare"].append(loaded(browser, page, f"{other}/{number}"))
        context.close()
    return found


def main() -> None:
    from in_chromium import answering

    from indexer.settings import Settings
    from server.demo import fill

    given = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    given.add_argument("library", type=Path)
    given.add_argument("--loads", type=int, default=9)
    given.add_argument("--save", default="", help='name of the run that is kept; "" = none')
    asked = given.parse_args()
    if not asked.library.exists() and fill(asked.library, Settings()):
        raise SystemExit("the demonstration could not be made")
    load_before = os.getloadavg()[0]
    address, end = answering(asked.library)
    try:
        found = measured(address, asked.loads)
    finally:
        end()
    print(
        f"largest paint, processor {SLOWER} times slower, {asked.loads} loads, machine load {load_before:.1f}"
    )
    for name, both in found.items():
        for whose, loads in both.items():
            each = {key: [asdict(load)[key] for load in loads] for key in ("paint", "browser", "service")}
            print(
                f"{name:12} {whose}  paint p50 {median(each['paint']):5.0f} best {min(each['paint']):5.0f}"
                f"  of the processor: browser {median(each['browser']):4.0f}"
                + (f"  service {median(each['service']):4.0f}" if whose == "ours" else "")
                + " ms"
            )
        own = median(load.browser + load.service for load in both["ours"])
        print(f"{'':12} together {own:.0f} ms of the processor (wanted under {TARGET_MS})")
    if asked.save:
        today = datetime.date.today().isoformat()
        kept = {
            "date": today,
            "machine": {"cores": os.cpu_count(), "load": load_before},
            "slower": SLOWER,
            "loads": {
                name: {
                    whose: [{key: round(ms, 1) for key, ms in asdict(load).items()} for load in loads]
                    for whose, loads in both.items()
                }
                for name, both in found.items()
            },
        }
        path = RUNS / f"{today}-{asked.save}.json"
        path.write_text(json.dumps(kept, indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
