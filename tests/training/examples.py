"""What the chapter model learns from, as (text, chapters) examples; all of it kept in data/ (SOURCES.md)."""

import csv
import hashlib
import lzma
import random
import re
from collections.abc import Iterator
from dataclasses import dataclass
from io import StringIO
from pathlib import Path

from indexer.tagging.inference import NO_SYSTEM
from indexer.trade.chapter_tables import chapter_rows, jasc_rows
from indexer.trade.chapters import ChapterNumber, Scheme, is_chapter
from tests.training.directive_subjects import subject_of

DATA = Path(__file__).parent / "data"
_HELD_OUT = 20  # of 100 parts by the SHA-1 of the row id: never trained on
_LISTS = 150  # made-up contents lists, so that many titles together speak for nothing


@dataclass(frozen=True, slots=True)
class Example:
    """A text and the one chapter it stands for (or NO_SYSTEM); a text of two chapters makes two examples."""

    text: str
    chapter: str
    source: str
    row: str  # of the source; what examples are split by
    weight: float


def rows_of(name: str) -> list[dict[str, str]]:
    text = lzma.decompress((DATA / f"{name}.csv.xz").read_bytes()).decode("utf-8")
    return list(csv.DictReader(StringIO(text)))


def part_of(row: str) -> int:
    """0 to 99, by the SHA-1 of the row's id."""
    return int(hashlib.sha1(row.encode()).hexdigest(), 16) % 100


def is_held_out(example: Example) -> bool:
    return example.source in ("narratives", "reports") and part_of(example.row) < _HELD_OUT


def jasc_chapter(code: str) -> str | None:
    """The ATA chapter of a JASC code: 8530 is 72, 1497 is none."""
    number = ChapterNumber(code[:2], code[2:], scheme=Scheme.JASC).ata()
    return number.chapter if number else None


def examples() -> list[Example]:
    """Every example, of the held-out rows too, in a fixed order."""
    return [
        *narratives(), *reports(), *definitions(), *titles(), *terms(),
        *directives(), *prose(), *regulations(), *lists(),
    ]  # fmt: skip


def narratives() -> Iterator[Example]:
    for row in rows_of("narratives"):
        yield Example(row["text_refs_masked"], row["chapter_excl_generic"], "narratives", row["row_id"], 1.0)


def reports(with_part: bool = False) -> Iterator[Example]:
    """The remarks alone; `with_part` puts the part and its place, fields of the same report, in front."""
    for row in rows_of("reports"):
        chapter = jasc_chapter(row["jasc"])
        if chapter:
            part = f"{row['part_name']} {row['part_location']}\n" if with_part else ""
            yield Example(part + row["text"], chapter, "reports", row["row_id"], 3.0)


def definitions() -> Iterator[Example]:
    for row in rows_of("definitions"):
        chapter = jasc_chapter(row["code"])
        if chapter:
            heading = row["heading_in_definitions"]
            text = f"{heading}\n{heading}\n{row['definition']}"
            yield Example(text, chapter, "definitions", row["code"], 1.0)


def titles() -> Iterator[Example]:
    for code, row in jasc_rows().items():
        chapter = jasc_chapter(code)
        if chapter:
            yield Example(row.title, chapter, "titles", code, 1.0)
    for chapter, row in chapter_rows().items():
        if is_chapter(chapter) and row.use == "assigned" and chapter != "00":
            yield Example(row.title.split("(")[0], chapter, "titles", f"chapter {chapter}", 1.0)


def terms() -> Iterator[Example]:
    for row in rows_of("thesaurus"):
        named = re.findall(r"\bch (\d\d)\b(?!/)|JASC (\d{4})", row["note"])
        chapters = {chapter or jasc_chapter(code) for chapter, code in named}
        if len(chapters) == 1 and None not in chapters:
            for term in (row["term"], *row["manual_term"].split("; ")):
                yield Example(term, next(iter(chapters)), "thesaurus", row["term"], 0.5)


def directives() -> Iterator[Example]:
    for row in rows_of("directives"):
        subject = subject_of(row["abstract"])
        if subject:
            yield Example(subject[1], subject[0], "directives", row["fr_doc"], 0.7)


def prose() -> Iterator[Example]:
    for number, line in enumerate((DATA / "prose.txt").read_text(encoding="utf-8").splitlines()):
        if line.startswith("#"):
            continue
        chapters, text = line.split(": ", 1)
        for chapter in chapters.split():
            yield Example(text, chapter, "prose", str(number), 2.0)


def regulations() -> Iterator[Example]:
    for number, row in enumerate(rows_of("regulations")):
        yield Example(row["text"], NO_SYSTEM, "regulations", str(number), 1.0)


def lists() -> Iterator[Example]:
    """Contents lists of mixed titles, made up; the same ones each time."""
    draw = random.Random(14)
    names = [row.title for row in jasc_rows().values()]
    for number in range(_LISTS):
        text = "\n".join(f"{draw.choice(names).title()} {draw.randint(1, 90)}" for _ in range(8))
        yield Example(text, NO_SYSTEM, "lists", str(number), 0.5)
