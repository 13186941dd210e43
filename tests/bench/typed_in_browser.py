"""How soon do results stand after the last key? In a real browser, over 100,000 passages.

    python tests/bench/typed_in_browser.py FOLDER               makes a library of 100,000 passages there
    python tests/bench/typed_in_browser.py FOLDER --scale 0.2 --questions 20

Questions are typed letter by letter as a person does (seeded intervals of 90 to 260 ms; two passes), and the
clock runs from the last key of each until the results for just these words are painted: the list and the
address of the page are those of the words, and the second frame after that begins. Peer in the same run: the
bare JSON of the same words from the service (`/api/search`, 20 hits), asked from the same page.

Service and browser share this machine with whatever else runs on it: see the load beside the times.
"""

import argparse
import datetime
import json
import os
import random
import statistics
import sys
import urllib.request
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests" / "browser"), str(ROOT / "tests" / "bench")]

TARGET_MS = 150
RUNS = Path(__file__).parent / "runs"
QUESTIONS = (
    "brake valve", "hydraulic line", "MM-C-001", "SB C001-32-0003", "32-10-00", "bearing wheel tire",
    "landing gear brake", "fuel pump filter", "fig 3 item 12", "remove strut bolt", "fuel", "wheel",
    "inspect engine mount", "torque", "propeller", "replace seal", "oil filter", "rudder cable",
    "electrical wire", "32-40",
)  # fmt: skip

# Waits until the list for `words` stands, then for two frames; gives performance.now() there.
SHOWN = """(words) => new Promise((done) => {
  const found = document.getElementById("found");
  const drawn = () => requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now())));
  const stands = () => new URLSearchParams(location.search).get("q") === words;
  const look = () => (stands() ? (watch.disconnect(), drawn()) : undefined);
  const watch = new MutationObserver(look);
  watch.observe(found, {childList: true});
})"""
NOTE_KEYS = """() => addEventListener("keydown", (event) => {
  window.lastKey = performance.now();
}, true)"""
JSON_ASKED = """async (words) => {
  const begun = performance.now();
  await (await fetch(`/api/search?${new URLSearchParams({q: words, limit: 20})}`)).json();
  return performance.now() - begun;
}"""


def typed(page: Any, words: str, chance: random.Random) -> float:
    """Milliseconds from the last key to the painted list."""
    box = page.locator('form.ask input[name="q"]')
    box.fill("")
    page.wait_for_url(lambda url: "?" not in url)
    for letter in words[:-1]:
        page.keyboard.type(letter)
        page.wait_for_timeout(chance.uniform(90, 260))
    page.evaluate(f"(words) => {{ window.shown = ({SHOWN})(words) }}", words)
    page.keyboard.type(words[-1])
    return page.evaluate("async () => (await window.shown) - window.lastKey")


def measured(address: str, questions: list[str], passes: int) -> tuple[list[float], list[float]]:
    """Milliseconds of our list, and of the bare JSON, for each question of each pass."""
    from in_chromium import TABLET, chromium_open

    chance = random.Random(5)
    ours, peer = [], []
    with chromium_open() as browser:
        context = browser.new_context(
            viewport={"width": TABLET[0], "height": TABLET[1]}, service_workers="block"
        )
        page = context.new_page()
        page.goto(address, wait_until="load", timeout=120_000)
        page.evaluate(NOTE_KEYS)
        for _ in range(passes):
            for words in questions:
                ours.append(typed(page, words, chance))
                peer.append(page.evaluate(JSON_ASKED, words))
        context.close()
    return ours, peer


def words_of(times: list[float]) -> str:
    ordered = sorted(times)
    high = ordered[min(len(ordered) - 1, int(len(ordered) * 0.95))]
    middle = statistics.median(ordered)
    return f"p50 {middle:4.0f}  p95 {high:4.0f}  worst {ordered[-1]:4.0f} ms  of {len(times)}"


def main() -> None:
    from in_chromium import answering
    from marks import build

    given = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    given.add_argument("folder", type=Path)
    given.add_argument("--scale", type=float, default=1.0, help="1.0 = 100,000 passages")
    given.add_argument("--questions", type=int, default=len(QUESTIONS))
    given.add_argument("--passes", type=int, default=2)
    given.add_argument("--save", default="", help='name of the run that is kept; "" = none')
    asked = given.parse_args()
    if not (asked.folder / "lib").exists():
        build(asked.folder, asked.scale)
    load = os.getloadavg()[0]
    address, end = answering(asked.folder / "lib")
    try:
        with urllib.request.urlopen(f"{address}/api/status", timeout=60) as answer:
            passages = json.load(answer)["passages"]
        ours, peer = measured(address, list(QUESTIONS[: asked.questions]), asked.passes)
    finally:
        end()
    print(f"last key to painted list, {passages} passages, machine load {load:.1f}")
    print(f"ours       {words_of(ours)}; within {TARGET_MS} ms: {sum(ms <= TARGET_MS for ms in ours)}")
    print(f"bare JSON  {words_of(peer)}")
    if asked.save:
        kept = {
            "date": datetime.date.today().isoformat(),
            "machine": {"cores": os.cpu_count(), "load": load},
            "passages": passages,
            "ours_ms": [round(ms, 1) for ms in ours],
            "bare_json_ms": [round(ms, 1) for ms in peer],
        }
        path = RUNS / f"{kept['date']}-{asked.save}.json"
        path.write_text(json.dumps(kept, indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
