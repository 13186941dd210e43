"""How fast is a grouped search? Ours against SQLite FTS5 and tantivy, in the same run.

    python tests/bench/search.py --passages 100000
    python tests/bench/search.py --passages 100000 --kept FOLDER     builds once, is faster the next time

Then the same again with other words for every word, and slips of the finger (search_words.py).

Work of one search: the best 20 hits and the number of hits in every chapter, over all hits; ours also gives
the best 5 of each chapter and counts by type and standing. The machine is shared and noisy: trust ratios,
not milliseconds.

The corpus is shuffled sentences of public text (tests/library/passage_corpus.py), 45 chapters of 10
sections. Its vocabulary is that of the text given, so a smaller text makes every word more frequent and
every query dearer. Results: a table here, and every single time in tests/bench/runs/.
"""

import argparse
import datetime
import json
import os
import platform
import random
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from importlib.metadata import version
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
sys.path[:0] = [str(ROOT), str(ROOT / "tests" / "library")]

import psutil  # noqa: E402
from passage_corpus import TEXT_FOLDER, passages, sentences, text_files  # noqa: E402
from search_peers import TOP, Fts5, Tantivy  # noqa: E402
from search_words import OursWithSlips, slips, suggesting, with_others  # noqa: E402

from indexer.library.analysis import STOP_WORDS, tokens  # noqa: E402
from indexer.library.array_cache import ArrayCache  # noqa: E402
from indexer.library.fulltext import Filters, FullTextQuery, IndexedPassage  # noqa: E402
from indexer.library.whoosh_engine import WhooshEngine  # noqa: E402

PER_CHAPTER = 5
WORDS = 150
TARGETS = {"warm p50 ms": 3.0, "warm p95 ms": 20.0, "times faster than FTS5 at p50": 10.0}

COLD_START = """
import sys, time
sys.path[:0] = sys.argv[2:3]
from pathlib import Path
from indexer.library.fulltext import FullTextQuery
from indexer.library.whoosh_engine import WhooshEngine
start = time.perf_counter()
engine = WhooshEngine(Path(sys.argv[1]), 64)
engine.generation()
opened = time.perf_counter()
engine.search(FullTextQuery(words=("corrosion", "wing")), 20, 5)
print(opened - start, time.perf_counter() - opened)
"""


class Ours:
    name = "ours"

    def __init__(self, folder: Path, cache_mb: int):
        self.version = f"Whoosh {version('whoosh')}, numpy {version('numpy')}"
        self._folder = folder / "whoosh"
        self.engine = WhooshEngine(self._folder, cache_mb)

    @property
    def complete(self) -> bool:
        return self.engine.generation() is not None

    def build(self, found: Iterator[IndexedPassage]) -> None:
        self.engine.rebuild(1, found)

    def bytes(self) -> int:
        return sum(path.stat().st_size for path in self._folder.rglob("*") if path.is_file())

    def prepare(self, query: FullTextQuery) -> FullTextQuery:
        return query

    def search(self, query: FullTextQuery) -> tuple[list, dict[str, int]]:
        found = self.engine.search(query, TOP, PER_CHAPTER)
        return found.top, {group.chapter: group.count for group in found.chapters}

    def empty_cache(self) -> None:
        for cache in self._caches():
            cache.empty()

    def cache_mb(self) -> float:
        return sum(cache.bytes for cache in self._caches()) / 1e6

    def _caches(self) -> tuple[ArrayCache, ArrayCache]:
        reader = self.engine._newest().reader
        return reader._cache, reader._parts


def queries(source: list[str], count: int, seed: int) -> list[tuple[str, FullTextQuery]]:
    """(kind, query): of one to four words, phrases, any word, excluded words, filtered; words as often as
    in print."""
    chance = random.Random(seed)
    made = []
    while len(made) < count:
        kind = chance.choices(
            ["1 word", "2 words", "3 words", "4 words", "phrase", "any word", "excluded", "filtered"],
            weights=[3, 4, 3, 2, 3, 2, 1, 3],
        )[0]
        sentence = chance.choice(source).split()
        words = [word for word in sentence if word.lower() not in STOP_WORDS and tokens(word)]
        start = chance.randrange(max(1, len(sentence) - 3))
        quoted = " ".join(sentence[start : start + chance.randint(2, 3)])
        size = int(kind[0]) if kind[0].isdigit() else chance.randint(1, 3)
        if len(words) < size or len(tokens(quoted)) < 2:
            continue
        chosen = tuple(chance.sample(words, size))
        filters = (
            Filters(chapters=("32", "27"), standings=("approved",))
            if chance.random() < 0.5
            else Filters(("53",))
        )
        made.append(
            {
                "phrase": (kind, FullTextQuery(phrases=(quoted,))),
                "any word": (kind, FullTextQuery(words=chosen, any_word=True)),
                "excluded": (kind, FullTextQuery(words=chosen[:1], excluded=(chance.choice(words),))),
                "filtered": (kind, FullTextQuery(words=chosen[:2], filters=filters)),
            }.get(kind, (kind, FullTextQuery(words=chosen)))
        )
    return made


def timed(work: Callable[[], object]) -> tuple[float, object]:
    """Milliseconds, and what came out."""
    start = time.perf_counter()
    result = work()
    return (time.perf_counter() - start) * 1000, result


def percentile(values: list[float], share: float) -> float:
    return sorted(values)[min(len(values) - 1, round(share * (len(values) - 1)))]


def summary(times: list[float]) -> dict[str, float]:
    return {
        "p50": statistics.median(times),
        "p95": percentile(times, 0.95),
        "worst": max(times),
    }


def resident_mb() -> float:
    return psutil.Process().memory_info().rss / 1e6


def build(engine, corpus: Callable[[], Iterator[IndexedPassage]], count: int) -> float | None:
    """Passages per second; None when it was built before."""
    if engine.complete:
        return None
    print(f"building {engine.name} ...", flush=True)
    took, _ = timed(lambda: engine.build(corpus()))
    return count / took * 1000


def measure(engines: list, asked: list, rounds: int) -> dict[str, dict]:
    """Warm times of every query, and its counts. Engines take turns, so a busy machine hits all alike."""
    found = {}
    for engine in engines:
        prepared = [engine.prepare(query) for _, query in asked]
        answers = [engine.search(each) for each in prepared]  # warms what can be warmed
        found[engine.name] = {
            "prepared": prepared,
            "counts": [counts for _, counts in answers],
            "times": [[] for _ in prepared],
        }
    for _ in range(rounds):
        for engine in engines:
            mine = found[engine.name]
            for times, each in zip(mine["times"], mine["prepared"], strict=True):
                times.append(timed(lambda engine=engine, each=each: engine.search(each))[0])
    return found


def first_touch(ours: Ours, asked: list) -> list[float]:
    """Each query with nothing cached of it."""
    times = []
    for _, query in asked:
        ours.empty_cache()
        times.append(timed(lambda query=query: ours.search(query))[0])
    return times


def cold_start(folder: Path) -> list[list[float]]:
    """A fresh process each: milliseconds to open the index and to answer the first query; files in the page
    cache."""
    runs = []
    for _ in range(3):
        done = subprocess.run(
            [sys.executable, "-c", COLD_START, str(folder), str(ROOT)],
            check=True,
            capture_output=True,
            text=True,
        )
        runs.append([float(value) * 1000 for value in done.stdout.split()])
    return runs


def main() -> None:
    arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    arguments.add_argument("--passages", type=int, default=100_000)
    arguments.add_argument(
        "--text", type=Path, default=TEXT_FOLDER, help="folder of .txt files, a sentence or more a line"
    )
    arguments.add_argument("--kept", type=Path, help="folder for the indexes, used again when they are there")
    arguments.add_argument("--queries", type=int, default=240)
    arguments.add_argument("--rounds", type=int, default=5)
    arguments.add_argument("--cache-mb", type=int, default=64)
    arguments.add_argument("--vocabulary", type=int, default=200_000, help="made words to suggest among")
    arguments.add_argument("--no-tantivy", action="store_true", help="FTS5 alone as peer")
    arguments.add_argument("--runs", type=Path, default=ROOT / "tests" / "bench" / "runs")
    given = arguments.parse_args()
    with tempfile.TemporaryDirectory() as temporary:
        run(given, given.kept or Path(temporary))


def run(given: argparse.Namespace, folder: Path) -> None:
    folder = folder / f"{given.passages}-{given.text.name}"
    folder.mkdir(parents=True, exist_ok=True)
    source = sentences(text_files(given.text))
    asked = queries(source, given.queries, seed=7)

    def corpus():
        return passages(given.passages, WORDS, seed=1, source=source)

    before = resident_mb()
    ours = Ours(folder, given.cache_mb)
    peers = [Fts5(folder), *([] if given.no_tantivy else [Tantivy(folder)])]
    engines = [ours, *peers]
    rates = {engine.name: build(engine, corpus, given.passages) for engine in engines}
    started = cold_start(folder / "whoosh")
    touched = first_touch(ours, asked)
    ours.empty_cache()
    found = measure(engines, asked, given.rounds)
    cache_mb_used = ours.cache_mb()
    more = with_others(asked, source, seed=9)
    wrong = slips(more, ours, seed=10)
    correcting = OursWithSlips(ours, wrong)
    ours.empty_cache()
    touched_more = first_touch(ours, more)
    found_more = measure([correcting, *peers], more, given.rounds)
    suggested = suggesting(ours, wrong, given.vocabulary)
    record = {
        "date": datetime.date.today().isoformat(),
        "machine": {
            "cores": os.cpu_count(),
            "memory_mb": psutil.virtual_memory().total // 1_000_000,
            "load_average": os.getloadavg() if hasattr(os, "getloadavg") else None,
            "python": platform.python_version(),
            "system": platform.platform(),
        },
        "versions": {engine.name: engine.version for engine in engines},
        "corpus": {
            "passages": given.passages,
            "words_a_passage": WORDS,
            "text_files": [path.name for path in text_files(given.text)],
            "sentences": len(source),
        },
        "cache_mb_allowed": given.cache_mb,
        "cache_mb_used": cache_mb_used,
        "cache_mb_used_with_other_words": ours.cache_mb(),
        "resident_mb": {"before": before, "after": resident_mb()},
        "index_mb": {engine.name: engine.bytes() / 1e6 for engine in engines},
        "passages_indexed_a_second": rates,
        "cold_start_ms": {"open, first query": started},
        "queries": [
            {
                "kind": kind,
                "words": query.words,
                "phrases": query.phrases,
                "excluded": query.excluded,
                "filters": {"chapters": query.filters.chapters, "standings": query.filters.standings},
                "hits_by_chapter_added": sum(found["ours"]["counts"][place].values()),
                "first_touch_ms": touched[place],
                "warm_ms": {engine.name: found[engine.name]["times"][place] for engine in engines},
            }
            for place, (kind, query) in enumerate(asked)
        ],
        "different_counts": {engine.name: different(found, engine.name) for engine in peers},
        "with_other_words": {
            "queries": [
                {
                    "also": [(each.words, each.others) for each in query.also],
                    "slip": wrong[query].words if query in wrong else None,
                    "hits_by_chapter_added": sum(found_more["ours"]["counts"][place].values()),
                    "first_touch_ms": touched_more[place],
                    "warm_ms": {engine.name: found_more[engine.name]["times"][place] for engine in engines},
                }
                for place, (_, query) in enumerate(more)
            ],
            "slips": len(wrong),
            "slips_put_right": len(correcting.put_right),
            "different_counts": {engine.name: different(found_more, engine.name) for engine in peers},
        },
        "suggesting": suggested,
    }
    record["summary"] = summarise(record)
    given.runs.mkdir(parents=True, exist_ok=True)
    path = given.runs / f"{record['date']}-search-{given.passages // 1000}k{label(given.text)}.json"
    path.write_text(json.dumps(record, indent=1, default=str), encoding="utf-8")
    print(table(record))
    print(f"every time: {path}")


def different(found: dict[str, dict], peer: str) -> int:
    """How many queries have other counts than ours."""
    pairs = zip(found["ours"]["counts"], found[peer]["counts"], strict=True)
    return sum(mine != theirs for mine, theirs in pairs)


def label(text: Path) -> str:
    return "" if text == TEXT_FOLDER else f"-{text.name}"


def summarise(record: dict) -> dict:
    warm = {
        name: summary([each for query in record["queries"] for each in query["warm_ms"][name]])
        for name in record["versions"]
    }
    kinds = sorted({query["kind"] for query in record["queries"]})
    more = record["with_other_words"]["queries"]
    return {
        "with_other_words": {
            "warm_ms": {
                name: summary([each for query in more for each in query["warm_ms"][name]])
                for name in record["versions"]
            },
            "with_slip_ms": summary(
                [each for query in more if query["slip"] for each in query["warm_ms"]["ours"]]
            ),
            "first_touch_ms": summary([query["first_touch_ms"] for query in more]),
        },
        "suggest_ms": summary(record["suggesting"]["suggest_ms"]),
        "suggest_among_large_ms": summary(record["suggesting"]["suggest_among_large_ms"]),
        "warm_ms": warm,
        "first_touch_ms": summary([query["first_touch_ms"] for query in record["queries"]]),
        "warm_ms_by_kind": {
            kind: {
                name: summary(
                    [
                        each
                        for query in record["queries"]
                        if query["kind"] == kind
                        for each in query["warm_ms"][name]
                    ]
                )
                for name in record["versions"]
            }
            for kind in kinds
        },
        "ratio_p50": {name: warm[name]["p50"] / warm["ours"]["p50"] for name in warm},
        "ratio_p95": {name: warm[name]["p95"] / warm["ours"]["p95"] for name in warm},
    }


def table(record: dict) -> str:
    totals = record["summary"]
    lines = [
        "",
        f"machine  {record['machine']['cores']} cores, {record['machine']['memory_mb'] // 1000} GB; Python "
        f"{record['machine']['python']}; load {record['machine']['load_average']}",
        f"corpus   {record['corpus']['passages']} passages of about {WORDS} words from "
        f"{record['corpus']['sentences']} sentences; {len(record['queries'])} queries, warm, "
        f"{len(record['queries'][0]['warm_ms']['ours'])} rounds",
        "work     best 20 and hits of every chapter (ours: also best 5 of each, types, standings)",
        "",
        f"{'':22}{'p50 ms':>9}{'p95 ms':>9}{'worst':>9}{'p50 /ours':>11}"
        f"{'index MB':>10}{'docs/s':>9}{'counts differ':>15}",
    ]
    for name, warm in totals["warm_ms"].items():
        rate = record["passages_indexed_a_second"][name]
        lines.append(
            f"{name:22}{warm['p50']:9.2f}{warm['p95']:9.2f}{warm['worst']:9.2f}{totals['ratio_p50'][name]:11.1f}"
            f"{record['index_mb'][name]:10.0f}{f'{rate:.0f}' if rate else 'kept':>9}"
            f"{record['different_counts'].get(name, ''):>15}"
        )
    touch = totals["first_touch_ms"]
    lines.append(f"{'ours, first touch':22}{touch['p50']:9.2f}{touch['p95']:9.2f}{touch['worst']:9.2f}")
    lines.append("")
    for kind, by_name in totals["warm_ms_by_kind"].items():
        shown = "   ".join(f"{name} {warm['p50']:.2f} / {warm['p95']:.2f}" for name, warm in by_name.items())
        lines.append(f"{kind:12} p50 / p95 ms   {shown}")
    lines += ["", *table_of_other_words(record), ""]
    opened = statistics.median(run[0] for run in record["cold_start_ms"]["open, first query"])
    first = statistics.median(run[1] for run in record["cold_start_ms"]["open, first query"])
    lines += [
        "",
        f"cold start   open {opened:.0f} ms, first query {first:.0f} ms (new process, files in page cache)",
        f"memory       cache {record['cache_mb_used']:.0f} of {record['cache_mb_allowed']} MB; process "
        f"{record['resident_mb']['before']:.0f} -> {record['resident_mb']['after']:.0f} MB, peers included",
    ]
    met = {
        "warm p50 ms": totals["warm_ms"]["ours"]["p50"],
        "warm p95 ms": totals["warm_ms"]["ours"]["p95"],
        "times faster than FTS5 at p50": totals["ratio_p50"]["SQLite FTS5"],
    }
    for target, wanted in TARGETS.items():
        good = met[target] >= wanted if "faster" in target else met[target] <= wanted
        lines.append(
            f"target       {target}: {met[target]:.2f} (wanted {wanted:g}) {'met' if good else 'MISSED'}"
        )
    return "\n".join(lines)


def table_of_other_words(record: dict) -> list[str]:
    totals = record["summary"]
    more = record["with_other_words"]
    lines = [
        "with 2 other words, one a phrase, for every word; one question in ten has a slip, which ours finds",
        f"{'':22}{'p50 ms':>9}{'p95 ms':>9}{'worst':>9}{'p50 / without':>15}{'p95 / without':>15}"
        f"{'counts differ':>15}",
    ]
    for name, warm in totals["with_other_words"]["warm_ms"].items():
        before = totals["warm_ms"][name]
        lines.append(
            f"{name:22}{warm['p50']:9.2f}{warm['p95']:9.2f}{warm['worst']:9.2f}"
            f"{warm['p50'] / before['p50']:15.1f}{warm['p95'] / before['p95']:15.1f}"
            f"{more['different_counts'].get(name, ''):>15}"
        )
    for name, times in (
        ("ours, with a slip", totals["with_other_words"]["with_slip_ms"]),
        ("ours, first touch", totals["with_other_words"]["first_touch_ms"]),
        (f"suggest, {record['suggesting']['terms']} terms", totals["suggest_ms"]),
        (f"  {record['suggesting']['terms_of_large']} terms", totals["suggest_among_large_ms"]),
    ):
        lines.append(f"{name:22}{times['p50']:9.2f}{times['p95']:9.2f}{times['worst']:9.2f}")
    lines.append(
        f"slips put right at the first suggestion: {more['slips_put_right']} of {more['slips']}; reading all "
        f"terms once {record['suggesting']['reading_terms_ms']:.0f} ms; cache with other words "
        f"{record['cache_mb_used_with_other_words']:.0f} MB"
    )
    return lines


if __name__ == "__main__":
    main()
