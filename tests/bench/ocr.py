"""OCR over worn scans of real public text, beside tesseract's bare command line on the same pictures.

    nice python -m tests.bench.ocr [--every N] [--engine rapidocr] [--out FILE.json]

Eight pages by eleven kinds of wear (tests/reading/public_pages.py, degrade.py); --every 3 takes each third
pair. Prints character error rate, words and numbers found, seconds of processor time a page, and how many of
the words read are wrong at or above each floor of confidence. Every page's counts go to the file.
"""

import argparse
import json
import os
import tempfile
from collections import defaultdict
from dataclasses import asdict
from pathlib import Path

from indexer.reading.ocr import find_engine, recognize_page
from indexer.settings import Settings
from tests.reading.degrade import WEARS, drawn, scanned_pdf, worn
from tests.reading.ocr_measure import Score, bare_tesseract, is_number, scored, wrong_words
from tests.reading.public_pages import public_pages

FLOORS = (0.5, 0.6, 0.7, 0.8, 0.85, 0.9, 0.95)


def processor_seconds() -> float:
    """Of this process and of the programs it has run: other work on the machine does not count."""
    times = os.times()
    return times.user + times.system + times.children_user + times.children_system


def measured(folder: Path, every: int, settings: Settings) -> list[dict]:
    engine = find_engine(settings)
    rows = []
    pairs = [(page, wear) for page in public_pages(folder) for wear in WEARS]
    for page, wear in pairs[::every]:
        picture = worn(drawn(page.path, 1), wear)
        scan = scanned_pdf(folder / "scan.pdf", [picture], wear.dpi)
        began = processor_seconds()
        bare = bare_tesseract(folder, picture, wear.dpi)
        between = processor_seconds()
        read = recognize_page(scan, 1, settings, engine)
        judged = wrong_words(page.text, read.words)
        rows.append(
            {
                "page": page.name,
                "wear": wear.name,
                "engine": read.engine,
                "turned": read.turned,
                "skew": read.skew,
                "confidence": round(read.confidence, 4),
                "ours": asdict(scored(page.text, read.text)),
                "bare": asdict(scored(page.text, bare)),
                "seconds": round(processor_seconds() - between, 2),
                "bare_seconds": round(between - began, 2),
                "words": [
                    [round(word.confidence, 3), int(wrong), int(is_number(word.text))]
                    for word, wrong in judged
                ],
            }
        )
        print(
            _line(f"{page.name}, {wear.name}", Score(**rows[-1]["ours"]), Score(**rows[-1]["bare"])),
            flush=True,
        )
    return rows


def _line(name: str, ours: Score, bare: Score) -> str:
    parts = [
        f"{100 * score.error_rate:7.2f} {100 * score.word_recall:7.2f} {100 * score.number_recall:7.2f}"
        for score in (ours, bare)
    ]
    return f"{name:38} {parts[0]}   {parts[1]}"


def report(rows: list[dict]) -> None:
    print(f"\n{'':38} {'ours: errors, words, numbers %':25} tesseract's bare command line")
    for key in ("wear", "page"):
        sums = defaultdict(lambda: [Score(), Score()])
        for row in rows:
            for name in (row[key], "all"):
                sums[name][0] += Score(**row["ours"])
                sums[name][1] += Score(**row["bare"])
        for name, (ours, bare) in sorted(sums.items(), key=lambda item: item[0] == "all"):
            print(_line(name, ours, bare))
    count = len(rows)
    print(
        f"processor seconds a page: {sum(row['seconds'] for row in rows) / count:.1f}, "
        f"bare {sum(row['bare_seconds'] for row in rows) / count:.1f} ({count} pages)"
    )
    for kind in ("words", "numbers"):
        judged = [word for row in rows for word in row["words"] if kind == "words" or word[2]]
        wrong = sum(word[1] for word in judged)
        print(f"{len(judged)} {kind} read, {wrong} wrong")
        for floor in FLOORS:
            above = [word[1] for word in judged if word[0] >= floor]
            below = [word[1] for word in judged if word[0] < floor]
            passed = 100 * sum(above) / max(len(above), 1)
            caught = 100 * sum(below) / max(wrong, 1)
            needless = 100 * (len(below) - sum(below)) / max(len(judged) - wrong, 1)
            print(
                f"  floor {floor:.2f}: wrong of those at or above {passed:6.3f} %; wrong ones caught "
                f"{caught:5.1f} %; right ones called doubtful {needless:5.2f} %"
            )


def main() -> None:
    parser = argparse.ArgumentParser()
    parser.add_argument("--every", type=int, default=1)
    parser.add_argument("--engine", default="tesseract")
    parser.add_argument("--out", type=Path)
    given = parser.parse_args()
    settings = Settings(ocr_engine=given.engine, ocr_page_time_limit_s=3600.0)
    with tempfile.TemporaryDirectory() as folder:
        rows = measured(Path(folder), given.every, settings)
    report(rows)
    if given.out:
        given.out.write_text(json.dumps(rows, separators=(",", ":")) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
