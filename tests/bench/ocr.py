"""OCR over worn scans of real public text, beside tesseract's bare command line on the same pictures.

    nice python -m tests.bench.ocr [--pages N] [--engine rapidocr] [--out FILE.json]

Eight settings of a page by eleven kinds of wear (tests/reading/public_pages.py, degrade.py); --pages 16
takes sixteen of the 88 pairs, spread over both. Prints character error rate, words and numbers found, seconds
of processor time a page, and how many of the words read are wrong at or above each floor of confidence. A
floor is also chosen on half of the settings and told on the other half. Every page's counts go to the file.
"""

import argparse
import json
import os
import tempfile
from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import asdict
from itertools import islice
from pathlib import Path

from indexer.reading.ocr import find_engine, recognize_page
from indexer.settings import Settings
from tests.reading.degrade import WEARS, Wear, drawn, scanned_pdf, worn
from tests.reading.ocr_measure import Score, bare_tesseract, is_number, scored, wrong_words
from tests.reading.public_pages import SetPage, public_pages

FLOORS = (50, 60, 70, 80, 85, 90, 95)  # hundredths of confidence
TO_CATCH = 0.9  # of the wrong words, by a floor that is chosen
Words = Counter[tuple[int, bool, bool]]  # hundredths of confidence, wrong, with a digit


def processor_seconds() -> float:
    """Of this process and of the programs it has run: other work on the machine does not count."""
    times = os.times()
    return times.user + times.system + times.children_user + times.children_system


def pairs(folder: Path) -> Iterator[tuple[SetPage, Wear]]:
    """Each page under each wear, once: eight and eleven have no common divisor, so both go round at once."""
    pages = public_pages(folder)
    for number in range(len(pages) * len(WEARS)):
        yield pages[number % len(pages)], WEARS[number % len(WEARS)]


def measured(folder: Path, pages: int, settings: Settings) -> list[dict]:
    engine = find_engine(settings)
    rows = []
    for page, wear in islice(pairs(folder), pages):
        picture = worn(drawn(page.path, 1), wear)
        scan = scanned_pdf(folder / "scan.pdf", [picture], wear.dpi)
        began = processor_seconds()
        bare_text = bare_tesseract(folder, picture, wear.dpi)
        between = processor_seconds()
        read = recognize_page(scan, 1, settings, engine)
        ended = processor_seconds()
        ours, bare = scored(page.text, read.text), scored(page.text, bare_text)
        words: Words = Counter(
            (int(100 * word.confidence), wrong, is_number(word.text))
            for word, wrong in wrong_words(page.text, read.words)
        )
        rows.append(
            {
                "page": page.name,
                "wear": wear.name,
                "engine": read.engine,
                "turned": read.turned,
                "skew": read.skew,
                "confidence": round(read.confidence, 4),
                "ours": asdict(ours),
                "bare": asdict(bare),
                "seconds": round(ended - between, 2),
                "bare_seconds": round(between - began, 2),
                "words": [[*map(int, kind), count] for kind, count in sorted(words.items())],
            }
        )
        seconds = f"{ended - between:5.1f} s, {between - began:5.1f} s"
        print(f"{_line(f'{page.name}, {wear.name}', ours, bare)}   {seconds}", flush=True)
    return rows


def _line(name: str, ours: Score, bare: Score) -> str:
    parts = [
        f"{100 * score.error_rate:7.2f} {100 * score.word_recall:7.2f} {100 * score.number_recall:7.2f}"
        for score in (ours, bare)
    ]
    return f"{name:38} {parts[0]}   {parts[1]}"


def report(rows: Sequence[dict]) -> None:
    print(f"\n{'':38} {'ours: errors, words, numbers %':25} tesseract's bare command line")
    for key in ("wear", "page"):
        sums = defaultdict(lambda: [Score(), Score()])
        for row in rows:
            sums[row[key]][0] += Score(**row["ours"])
            sums[row[key]][1] += Score(**row["bare"])
        for name, (ours, bare) in sums.items():
            print(_line(name, ours, bare))
    print(_line("all", *(sum((Score(**row[side]) for row in rows), Score()) for side in ("ours", "bare"))))
    count = len(rows)
    print(
        f"processor seconds a page: {sum(row['seconds'] for row in rows) / count:.1f}, "
        f"bare {sum(row['bare_seconds'] for row in rows) / count:.1f} ({count} pages)"
    )
    for kind in ("words", "numbers"):
        words = words_of(rows, only_numbers=kind == "numbers")
        wrong = sum(count for (_, is_wrong, _), count in words.items() if is_wrong)
        print(f"{words.total()} {kind} read, {wrong} wrong")
        for floor in FLOORS:
            print(f"  floor {floor / 100:.2f}: {_at_floor(words, floor)}")
    report_held_out(rows)


def report_held_out(rows: Sequence[dict]) -> None:
    """A floor chosen on one half of the settings, told on the other; both ways round."""
    names = list(dict.fromkeys(row["page"] for row in rows))
    halves = names[::2], names[1::2]
    for chosen_on, told_on in (halves, halves[::-1]):
        here, there = (
            words_of([row for row in rows if row["page"] in half]) for half in (chosen_on, told_on)
        )
        floor = chosen_floor(here)
        print(f"lowest floor that catches {TO_CATCH:.0%} of the wrong words of {', '.join(chosen_on)}:")
        print(f"  {floor / 100:.2f}; there: {_at_floor(here, floor)}")
        print(f"  on the other half: {_at_floor(there, floor)}")


def words_of(rows: Sequence[dict], only_numbers: bool = False) -> Words:
    words: Words = Counter()
    for row in rows:
        for confidence, wrong, number, count in row["words"]:
            if number or not only_numbers:
                words[confidence, bool(wrong), bool(number)] += count
    return words


def chosen_floor(words: Words) -> int:
    """The lowest floor, in hundredths, below which at least TO_CATCH of the wrong words lie."""
    wrong = sum(count for (_, is_wrong, _), count in words.items() if is_wrong)
    for floor in range(101):
        below = sum(count for (sure, is_wrong, _), count in words.items() if is_wrong and sure < floor)
        if below >= TO_CATCH * wrong:
            return floor
    return 101


def _at_floor(words: Words, floor: int) -> str:
    counts = Counter()
    for (confidence, wrong, _), count in words.items():
        counts[confidence >= floor, wrong] += count
    above, wrong = counts[True, False] + counts[True, True], counts[True, True] + counts[False, True]
    right = words.total() - wrong
    passed, caught = counts[True, True] / max(above, 1), counts[False, True] / max(wrong, 1)
    return (
        f"wrong of those at or above {100 * passed:6.3f} % ({counts[True, True]} of {above}); "
        f"wrong ones caught {100 * caught:5.1f} % ({counts[False, True]} of {wrong}); "
        f"right ones called doubtful {100 * counts[False, False] / max(right, 1):5.2f} %"
    )


def main() -> None:
    parser = argparse.ArgumentParser()
    parser.add_argument("--pages", type=int, default=88)
    parser.add_argument("--engine", default="tesseract")
    parser.add_argument("--out", type=Path)
    given = parser.parse_args()
    settings = Settings(ocr_engine=given.engine, ocr_page_time_limit_s=3600.0)
    with tempfile.TemporaryDirectory() as folder:
        rows = measured(Path(folder), given.pages, settings)
    report(rows)
    if given.out:
        lines = ",\n".join(json.dumps(row, ensure_ascii=False) for row in rows)
        given.out.write_text(f"[\n{lines}\n]\n", encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
