"""Reads every PDF under the folders given and says what came of each, one line a file, with totals.

    python tests/bench/whole_set.py FOLDER... [--save tests/bench/runs/2031-04-30-whole-set.csv] [--workers 2]

Each file is read in an isolated worker, as ingest does it. Beside it stands what pdftotext (the peer, same
run) makes of the file, so that a wrong outcome shows itself: a file refused that pdftotext opens, a page said
to hold no text on which pdftotext finds words, letters that were not found. Exit code 1 when there is any.
A word divided at a line end, or glued to leader dots, by one of the two is no fault: so letters decide, and
the share of words only informs.
"""

import argparse
import csv
import os
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from indexer.reading.document import read_document
from indexer.reading.page import TextState
from indexer.settings import Settings
from indexer.workers import Done, Workers

COLUMNS = (
    "file", "outcome", "pages", "words", "pdftotext_words", "words_found", "letters_found", "states",
    "wordless_pages_with_words", "passages", "seconds", "pdftotext_seconds", "message",
)  # fmt: skip
WORDLESS = (TextState.NO_TEXT, TextState.BLANK, TextState.FAILED)


@dataclass(frozen=True, slots=True)
class Item:
    path: Path
    name: str  # relative to the folder given, with the folder's name


@dataclass(frozen=True, slots=True)
class Survey:
    """What reading gave for one file."""

    states: tuple[TextState, ...]
    words: tuple[Counter, ...]  # of each page
    passages: int
    seconds: float


def survey(path: Path, settings: Settings) -> Survey:
    """In a worker: read one file and count."""
    start = time.perf_counter()
    document = read_document(path, settings)
    seconds = time.perf_counter() - start
    words = tuple(
        Counter(word for line in (*page.head, *page.body, *page.foot) for word in line.text.split())
        for page in document.pages
    )
    return Survey(tuple(page.state for page in document.pages), words, len(document.passages), seconds)


def pdftotext(path: Path) -> tuple[list[Counter] | None, float]:
    """Each page's words by pdftotext, and its seconds; None when it does not open the file."""
    start = time.perf_counter()
    run = subprocess.run(["pdftotext", "-enc", "UTF-8", str(path), "-"], capture_output=True, timeout=600)
    seconds = time.perf_counter() - start
    if run.returncode:
        return None, seconds
    # A form feed closes each page.
    pages = run.stdout.decode("utf-8", "replace").split("\f")[:-1]
    return [Counter(page.split()) for page in pages], seconds


def letters(words: Counter) -> Counter:
    """Letters and digits: alike whether a word is divided at a line end or stands beside leader dots."""
    return Counter(letter for word in words.elements() for letter in word if letter.isalnum())


def share(pages: Iterable[tuple[Counter, Counter]]) -> float:
    """How much of the peer's is in ours, page by page; 1.0 when the peer has nothing."""
    pages = list(pages)
    wanted = sum(theirs.total() for _, theirs in pages)
    return round(sum((ours & theirs).total() for ours, theirs in pages) / wanted, 4) if wanted else 1.0


def row(done: Done) -> dict[str, object]:
    """One file's line of the table."""
    peer, peer_seconds = pdftotext(done.item.path)
    line: dict[str, object] = dict.fromkeys(COLUMNS, "")
    line |= {"file": done.item.name, "pdftotext_seconds": round(peer_seconds, 3)}
    if peer is not None:
        line["pdftotext_words"] = sum(page.total() for page in peer)
    if done.problem:
        what = done.problem.what.removeprefix(f"{done.item.path}: ")
        return line | {"outcome": done.problem.slug, "message": f"{what} {done.problem.remedy}"}
    read: Survey = done.result
    line |= {
        "outcome": "taken",
        "pages": len(read.states),
        "words": sum(page.total() for page in read.words),
        "states": " ".join(f"{state.name.lower()}:{count}" for state, count in Counter(read.states).items()),
        "passages": read.passages,
        "seconds": round(read.seconds, 3),
    }
    if peer:
        pages = list(zip(read.states, read.words, peer, strict=False))
        line["words_found"] = share((ours, theirs) for _, ours, theirs in pages)
        line["letters_found"] = share((letters(ours), letters(theirs)) for _, ours, theirs in pages)
        line["wordless_pages_with_words"] = " ".join(
            str(n) for n, (state, _, theirs) in enumerate(pages, start=1) if state in WORDLESS and theirs
        )
    return line


def is_doubtful(line: dict[str, object]) -> bool:
    """Whether a person should look: pdftotext got more out of the file than we did."""
    if line["outcome"] != "taken":
        return line["pdftotext_words"] != ""
    return bool(line["wordless_pages_with_words"]) or (
        line["letters_found"] != "" and line["letters_found"] < 0.99
    )


def find_items(folders: Iterable[Path]) -> list[Item]:
    return [
        Item(path, f"{folder.name}/{path.relative_to(folder).as_posix()}")
        for folder in folders
        for path in sorted(folder.rglob("*"))
        if path.suffix.casefold() == ".pdf" and path.is_file()
    ]


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folders", nargs="+", type=Path)
    parser.add_argument("--save", type=Path, help="write the table as CSV")
    parser.add_argument("--workers", type=int, default=os.cpu_count() or 1)
    given = parser.parse_args()
    lines = []
    start = time.perf_counter()
    with (
        tempfile.TemporaryDirectory() as spool,
        Workers(Settings(workers=given.workers), Path(spool)) as workers,
    ):
        for done in workers.each(survey, find_items(given.folders)):
            line = row(done)
            lines.append(line)
            mark = "?" if is_doubtful(line) else " "
            told = line["message"] or (
                f"{line['pages']} pages, {line['words']} words ({line['pdftotext_words']} by pdftotext; "
                f"found {line['words_found']}, of the letters {line['letters_found']}), {line['states']}"
            )
            print(
                f"{mark} {line['outcome']:15} {line['seconds'] or 0:7.2f} s  {line['file']}: {told}",
                flush=True,
            )
    seconds = time.perf_counter() - start
    lines.sort(key=lambda line: line["file"])
    if given.save:
        given.save.parent.mkdir(parents=True, exist_ok=True)
        with given.save.open("w", encoding="utf-8", newline="") as file:
            writer = csv.DictWriter(file, COLUMNS, lineterminator="\n")
            writer.writeheader()
            writer.writerows(lines)
    report(lines, seconds)
    return int(any(map(is_doubtful, lines)))


def report(lines: list[dict[str, object]], seconds: float) -> None:
    outcomes = Counter(line["outcome"] for line in lines)
    taken = [line for line in lines if line["outcome"] == "taken"]
    sums = {name: sum(line[name] for line in taken) for name in ("pages", "words", "passages")}
    reading, peer = (sum(line[name] for line in taken) for name in ("seconds", "pdftotext_seconds"))
    print(f"\n{len(lines)} files: {', '.join(f'{count} {name}' for name, count in outcomes.most_common())}")
    print(", ".join(f"{count} {name}" for name, count in sums.items()))
    print(f"{seconds:.0f} s in all; reading {reading:.1f} s, pdftotext {peer:.1f} s on the same files")
    doubtful = [line["file"] for line in lines if is_doubtful(line)]
    print(f"{len(doubtful)} to look at{':' if doubtful else ''}")
    for name in doubtful:
        print(f"    {name}")


if __name__ == "__main__":
    sys.exit(main())
