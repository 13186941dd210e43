"""The librarian's queue over a large catalogue, against fetching and grouping every passage.

    python tests/bench/desk.py --passages 100000 [--doubtful 0.3] [--save FILE]

The catalogue is filled row by row with invented passages of shuffled words, without PDF files. The peer gives
less: it reads the numbers of all passages and finds the runs of neighbours among those that are in doubt.
"""

import argparse
import json
import platform
import random
import statistics
import tempfile
import time
from itertools import groupby
from pathlib import Path

from indexer.library.catalogue import Catalogue
from indexer.library.doubts import asked_and_left_out
from indexer.library.review import queue

PER_PUBLICATION, PER_PAGE, PER_RUN = 200, 2, 5
PRINTED = '{"basis":"printed","rule":"number in foot","quote":"32-41-00","pdf_page":3}'
OTHER = '[{"value":{"chapter":"27"},"evidence":{"basis":"printed","rule":"number in heading"}}]'
WORDS = "brake wheel pump valve filter bolt drain check torque lever cable rib spar tank pin hose".split()


def fill(catalogue: Catalogue, passages: int, doubtful: float, dice: random.Random) -> None:
    """Publications of PER_PUBLICATION passages; a fourth of them have an order of their own."""
    kinds = ("maintenance-manual", "service-bulletin", "advisory-circular", "parts-catalog")
    pages = PER_PUBLICATION // PER_PAGE
    with catalogue.database.writing() as connection:
        connection.execute("INSERT INTO work VALUES ('w', 'maintenance-manual', '', '')")
        connection.execute("INSERT INTO revision VALUES ('r', 'w', '', NULL)")
        for number in range(passages // PER_PUBLICATION):
            copy_id = f"{number:016x}"
            kind, own = kinds[number % 4], number % 4 == 0
            identity = json.dumps({"type": {"value": kind}, "revision": {"value": "1"}})
            connection.execute(
                "INSERT INTO copy (id, sha256, file, size, pages, properties_json, notes_json, taken_at)"
                " VALUES (?, ?, ?, 0, ?, '{}', '[]', '2031-01-01T00:00:00+00:00')",
                (copy_id, copy_id * 4, f"{number}.pdf", pages),
            )
            connection.execute(
                "INSERT INTO publication VALUES (?, ?, 'r', 1, ?, ?, '', '', ?, ?, 0)",
                (f"{copy_id}-1", copy_id, pages, kind, identity, PER_PUBLICATION),
            )
            connection.executemany(
                "INSERT INTO page VALUES (?, ?, 'text', '', '', 612, 792, 0, 'digital', '')",
                ((copy_id, page) for page in range(1, pages + 1)),
            )
            for ordinal in range(PER_PUBLICATION):
                if ordinal % PER_RUN == 0:
                    chance, chapter = dice.random(), dice.choice(("24", "27", "28", "32", "52", "71"))
                add_passage(connection, copy_id, ordinal, chance / doubtful, chapter, own, dice)


def add_passage(connection, copy_id, ordinal, chance, chapter, own, dice) -> None:
    passage_id, tags = f"{copy_id}-1-{ordinal}", []
    if chance < 0.6:
        why = json.dumps({"basis": "inferred", "rule": "model", "confidence": 0.9}, separators=(",", ":"))
        tags.append(("ATA", chapter, None, None, why, "[]"))
    elif chance < 0.75:
        tags.append(("ATA", chapter, "41", "00", PRINTED, OTHER))
    elif chance >= 1:
        tags.append(("ATA", chapter, "41", "00", PRINTED, "[]"))
    if own:
        tags.append(("OWN", str(ordinal // 20 + 1), None, None, PRINTED, "[]"))
    text = " ".join(dice.choices(WORDS, k=150))
    place = (passage_id, f"{copy_id}-1", ordinal, ordinal // PER_PAGE + 1)
    heading = json.dumps([f"Part {ordinal // 20}"])
    connection.execute(
        "INSERT INTO passage VALUES (?, ?, ?, ?, 'text', 'digital', ?, ?, '[]', NULL)",
        (*place, heading, text),
    )
    connection.executemany(
        "INSERT INTO number_tag VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
        ((passage_id, rank, *each) for rank, each in enumerate(tags)),
    )


def peer(connection) -> int:
    """Runs of neighbours in doubt, from all passages."""
    found = connection.execute(
        "SELECT publication_id, ordinal, chapter, evidence_json, others_json FROM passage"
        " LEFT JOIN number_tag ON passage_id = id AND rank = 0 ORDER BY publication_id, ordinal"
    ).fetchall()

    def told(row):
        sure = row["evidence_json"] and "inferred" not in row["evidence_json"] and row["others_json"] == "[]"
        return row["publication_id"], None if sure else (row["chapter"], row["others_json"])

    return sum(key[1] is not None for key, _ in groupby(found, key=told))


def timed(times: int, work) -> dict[str, float]:
    """On the wall, and of the processor: the second tells more where other work runs beside it."""
    wall_ms, cpu_ms = [], []
    for _ in range(times):
        begun, spent = time.perf_counter(), time.process_time()
        work()
        wall_ms.append((time.perf_counter() - begun) * 1000)
        cpu_ms.append((time.process_time() - spent) * 1000)
    return {
        "median_ms": round(statistics.median(wall_ms), 1),
        "worst_ms": round(max(wall_ms), 1),
        "cpu_median_ms": round(statistics.median(cpu_ms), 1),
    }


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--passages", type=int, default=100_000)
    parser.add_argument("--doubtful", type=float, default=0.3, help="Share of the passages in doubt.")
    parser.add_argument("--times", type=int, default=5)
    parser.add_argument("--save", type=Path)
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder, Catalogue.open(Path(folder), create=True) as catalogue:
        fill(catalogue, given.passages, given.doubtful, random.Random(1))
        first = queue(catalogue)
        with catalogue.reading() as connection:
            result = {
                "machine": f"{platform.machine()}, Python {platform.python_version()}",
                "passages": given.passages,
                "in doubt": sum(first.passages.values()) + sum(first.left_out.values()),
                "questions": first.found,
                "queue, anew": timed(given.times, lambda: asked_and_left_out(connection)),
                "peer: every passage": timed(given.times, lambda: peer(connection)),
            }
        result["queue, nothing changed"] = timed(given.times, lambda: queue(catalogue, offset=100))
    for name, value in result.items():
        print(f"{name:24} {value}")
    if given.save:
        given.save.write_text(json.dumps(result, indent=2) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
