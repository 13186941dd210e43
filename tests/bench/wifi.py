"""How soon a page is readable over a hangar's wifi, by the clock: Chromium through a proxy that loses bytes.

    python tests/bench/wifi.py FOLDER [--runs 20] [--bits 1000000] [--round-trip-ms 300] [--loss 0.05]

FOLDER is a library, as `hangarleaf demo --library FOLDER` makes one. The proxy carries TCP by the rules of
tests/browser/poor_wifi.py, with losses drawn: both ways share one line of so many bits a second; a connection
takes a round trip before its first byte; an answer goes out in flights of 10, 20, 40 ... segments, one for
each round trip; a lost segment comes a round trip later, the end of an answer and a lost request a second
later, and everything behind it in the same connection waits. Peer in the same run: the model's expected time.

Readable = what the page is for stands painted: the first contentful paint, by the browser's own clock, from
the moment that the address is entered.
"""

import argparse
import asyncio
import random
import statistics
import sys
import threading
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests" / "browser")]

PATHS = ("/", "/?q=brake")
PAINTED = """() => new Promise((done) => new PerformanceObserver(
  (list) => done(list.getEntriesByName("first-contentful-paint")[0].startTime)
).observe({type: "paint", buffered: true}))"""


class Line:
    """One radio line that both ways share: bytes go out one after the other."""

    def __init__(self, wifi, chance):
        self.wifi, self.chance = wifi, chance
        self._free_at = 0.0

    async def send(self, size):
        """Returns when the last bit has left."""
        loop = asyncio.get_running_loop()
        self._free_at = max(self._free_at, loop.time()) + size * 8 / self.wifi.bits_per_s
        await asyncio.sleep(self._free_at - loop.time())

    def is_lost(self):
        return self.chance.random() < self.wifi.loss


async def carry(line, reader, writer, flights):
    """Carry bytes one way, in order; `flights` = under a window that opens (the answers)."""
    from poor_wifi import FIRST_TIMER_S, FIRST_WINDOW, SEGMENT

    loop = asyncio.get_running_loop()
    under_way = asyncio.Queue()

    async def arrive():
        while (sent := await under_way.get()) is not None:
            at, data = sent
            await asyncio.sleep(max(0.0, at - loop.time()))
            writer.write(data)
            await writer.drain()
        writer.close()

    arriving = asyncio.create_task(arrive())
    window, in_flight, begun, behind = FIRST_WINDOW, 0, loop.time(), 0.0
    while data := await reader.read(SEGMENT):
        if flights and in_flight == window:
            await asyncio.sleep(max(0.0, begun + line.wifi.round_trip_s - loop.time()))
            window, in_flight, begun = window * 2, 0, loop.time()
        await line.send(len(data))
        in_flight += 1
        repair = 0.0
        if line.is_lost():
            is_last = not flights or len(data) < SEGMENT
            repair = FIRST_TIMER_S if is_last else line.wifi.round_trip_s
        behind = max(behind, loop.time() + line.wifi.round_trip_s / 2 + repair)
        under_way.put_nowait((behind, data))
    under_way.put_nowait(None)
    await arriving


async def proxy(line, port, ready, stop):
    """Listen on a free port and carry every connection to `port`; gives the own port to `ready`."""
    from poor_wifi import FIRST_TIMER_S

    async def connect(reader, writer):
        lost = line.is_lost() + line.is_lost()
        await asyncio.sleep(line.wifi.round_trip_s + lost * FIRST_TIMER_S)
        onward = await asyncio.open_connection("127.0.0.1", port)
        await asyncio.gather(
            carry(line, reader, onward[1], False),
            carry(line, onward[0], writer, True),
            return_exceptions=True,
        )

    server = await asyncio.start_server(connect, "127.0.0.1", 0)
    ready(server.sockets[0].getsockname()[1])
    async with server:
        await asyncio.to_thread(stop.wait)


def measured(wifi, port, runs, seed):
    """Seconds to the first contentful paint of each run, by path, cold each time; and the model's."""
    from in_chromium import TABLET, chromium_open

    ports, heard, stop = [], threading.Event(), threading.Event()
    line = Line(wifi, random.Random(seed))

    def ready(own):
        ports.append(own)
        heard.set()

    thread = threading.Thread(target=lambda: asyncio.run(proxy(line, port, ready, stop)))
    thread.start()
    heard.wait()
    address, found = f"http://127.0.0.1:{ports[0]}", {}
    try:
        with chromium_open() as browser:
            for path in PATHS:
                found[path] = []
                for _ in range(runs):
                    context = browser.new_context(
                        viewport={"width": TABLET[0], "height": TABLET[1]}, service_workers="block"
                    )
                    page = context.new_page()
                    page.goto(address + path, wait_until="load", timeout=60_000)
                    found[path].append(page.evaluate(PAINTED) / 1000)
                    context.close()
    finally:
        stop.set()
        thread.join()
    return found


def expected(address):
    """The model's seconds by path, from the bytes of a load without the proxy."""
    from in_chromium import chromium_open
    from poor_wifi import HANGAR, first_useful_answer
    from test_weight import Loaded

    found = {}
    with chromium_open() as browser:
        for path in PATHS:
            context = browser.new_context(service_workers="block")
            loaded = Loaded(context, address + path)
            page, styles = loaded.bytes_of("Document"), loaded.bytes_of("Stylesheet")
            found[path] = first_useful_answer(HANGAR, page, styles, loaded.total - page - styles)
            context.close()
    return found


def main():
    from in_chromium import answering
    from poor_wifi import Wifi

    given = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    given.add_argument("library", type=Path)
    given.add_argument("--runs", type=int, default=20)
    given.add_argument("--bits", type=float, default=1e6)
    given.add_argument("--round-trip-ms", type=float, default=300)
    given.add_argument("--loss", type=float, default=0.05)
    given.add_argument("--draw", type=int, default=1, help="of the losses; the same number draws the same")
    asked = given.parse_args()
    wifi = Wifi(asked.bits, asked.round_trip_ms / 1000, asked.loss)
    address, end = answering(asked.library)
    try:
        model = expected(address)
        found = measured(wifi, int(address.rpartition(":")[2]), asked.runs, asked.draw)
    finally:
        end()
    print(
        f"{asked.bits / 1e6} Mbit/s, {asked.round_trip_ms} ms, {asked.loss:.0%} loss, {asked.runs} runs, cold"
    )
    for path, times in found.items():
        ordered = sorted(times)
        high = ordered[min(len(ordered) - 1, int(len(ordered) * 0.95))]
        print(
            f"{path:12} p50 {statistics.median(ordered):.2f}  p95 {high:.2f}  worst {ordered[-1]:.2f} s"
            f"  within 3 s: {sum(each <= 3 for each in times)} of {len(times)};  model {model[path]:.2f} s"
        )


if __name__ == "__main__":
    main()
