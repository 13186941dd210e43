"""How well a page was read: character error rate, words found, and whether doubt fell on the wrong words."""

import os
import re
import shutil
import subprocess
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from PIL import Image
from rapidfuzz.distance import Levenshtein

from indexer.reading.recognized import RecognizedWord

_ONE_FORM = str.maketrans({"‘": "'", "’": "'", "“": '"', "”": '"', "—": "-", "–": "-", "‐": "-"})


@dataclass(frozen=True, slots=True)
class Score:
    """Counts of one page or, added up, of many."""

    characters: int = 0
    character_errors: int = 0
    words: int = 0
    words_found: int = 0
    numbers: int = 0
    numbers_found: int = 0

    def __add__(self, other: "Score") -> "Score":
        return Score(*(getattr(self, name) + getattr(other, name) for name in Score.__slots__))

    @property
    def error_rate(self) -> float:
        return self.character_errors / max(self.characters, 1)

    @property
    def word_recall(self) -> float:
        return self.words_found / max(self.words, 1)

    @property
    def number_recall(self) -> float:
        return self.numbers_found / max(self.numbers, 1)


def scored(truth: str, read: str) -> Score:
    """Text against text. Blanks, and the shapes of quotes and dashes, do not count as errors."""
    truth, read = _plain(truth), _plain(read)
    words, numbers = truth.split(), [word for word in truth.split() if is_number(word)]
    found = Counter(words) & Counter(read.split())
    return Score(
        len(truth),
        Levenshtein.distance(truth, read),
        len(words),
        found.total(),
        len(numbers),
        sum(count for word, count in found.items() if is_number(word)),
    )


def is_number(word: str) -> bool:
    """Part numbers, codes, values: words with a digit."""
    return bool(re.search(r"\d", word))


def wrong_words(truth: str, words: Iterable[RecognizedWord]) -> list[tuple[RecognizedWord, bool]]:
    """Each word read, and whether the page holds no such word (any more: each counts once)."""
    left = Counter(_plain(truth).split())
    judged = []
    for word in words:
        text = _plain(word.text)
        judged.append((word, left[text] <= 0))
        left[text] -= 1
    return judged


def bare_tesseract(folder: Path, picture: np.ndarray, dpi: int) -> str:
    """What tesseract's command line reads of the same picture when nothing else is done."""
    program = shutil.which("tesseract")
    path = folder / "picture.png"
    Image.fromarray(picture).save(path, dpi=(dpi, dpi), compress_level=1)
    command: Sequence[str] = [program, str(path), "stdout"]
    environment = {**os.environ, "OMP_THREAD_LIMIT": "1"}
    return subprocess.run(command, capture_output=True, check=True, env=environment).stdout.decode()


def _plain(text: str) -> str:
    return " ".join(text.translate(_ONE_FORM).split())
