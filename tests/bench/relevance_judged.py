"""Questions and judged passages, read from data/, and what a judgement says of a passage of today's cut.

A judgement names a file, a page and the passage's opening words, so it outlives another cut of the
passages: it holds for the passage of that page in which those words stand. data/how_judged.md tells how
they were made.
"""

import csv
import hashlib
import unicodedata
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

DATA = Path(__file__).parent / "data"
OPENING = 80  # letters of a passage that a judgement quotes
CLASSES = ("number", "part", "phrase", "symptom", "slang", "typo", "own-order")
WORDS_DIFFER = ("slang", "typo", "own-order")  # the words asked are not the words printed


@dataclass(frozen=True, slots=True)
class Passage:
    """A passage of the library as judged: `file` by its name, `pdf_page` 1-based."""

    id: str
    file: str
    pdf_page: int
    heading: str
    text: str

    @property
    def opening(self) -> str:
        return plain(self.text)[:OPENING].strip()


@dataclass(frozen=True, slots=True)
class Judgement:
    """grade: 2 = answers the question, 1 = touches it, 0 = judged and of no use."""

    file: str
    pdf_page: int
    opening: str
    grade: int
    found: str  # "reading" or "pool"


@dataclass(frozen=True, slots=True)
class Question:
    """`chapter` is the right one, two digits; "" where none is."""

    id: str
    kind: str
    text: str
    chapter: str
    judgements: tuple[Judgement, ...]

    @property
    def held_out(self) -> bool:
        """In the half that weights are not tuned on: by the question's own hash."""
        return hashlib.sha1(self.text.encode()).digest()[0] % 2 == 1


def plain(text: str) -> str:
    """One blank between words, small letters, one form of each character."""
    return " ".join(unicodedata.normalize("NFKC", text).lower().split())


def read_questions(folder: Path = DATA) -> list[Question]:
    judged = defaultdict(list)
    for row in _rows(folder / "judgements.csv"):
        judged[row["question"]].append(
            Judgement(row["file"], int(row["pdf_page"]), row["opening"], int(row["grade"]), row["found"])
        )
    return [
        Question(row["id"], row["class"], row["question"], row["chapter"], tuple(judged[row["id"]]))
        for row in _rows(folder / "questions.csv")
    ]


def grades(question: Question, passages: Iterable[Passage]) -> tuple[dict[str, int], list[Judgement]]:
    """Passage id -> grade, for all that are judged; and the judgements for which no passage was found."""
    by_page = defaultdict(list)
    for passage in passages:
        by_page[passage.file, passage.pdf_page].append(passage)
    found: dict[str, int] = {}
    lost = []
    for judgement in question.judgements:
        there = [each for each in by_page[judgement.file, judgement.pdf_page] if _speaks_of(judgement, each)]
        for passage in there:
            found[passage.id] = max(judgement.grade, found.get(passage.id, 0))
        if not there:
            lost.append(judgement)
    return found, lost


def _speaks_of(judgement: Judgement, passage: Passage) -> bool:
    return judgement.opening in plain(passage.text)


def _rows(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))
