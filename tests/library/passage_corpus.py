"""Passages for the search tests and the search benchmark: sentences of public text, shuffled by a seeded
generator.

The text is real (tests/data/SOURCES.md), so word frequencies, numbers and part numbers are; which sentences
stand together, and every tag, is chance.
"""

import random
import re
from collections.abc import Iterator, Sequence
from pathlib import Path

from indexer.library.fulltext import IndexedPassage
from indexer.tagging.tags import StandingValue
from indexer.trade.publication_types import PublicationType

TEXT_FOLDER = Path(__file__).parent.parent / "data" / "text"
_CHAPTERS = [
    f"{number:02}" for number in (*range(5, 13), *range(20, 39), 49, *range(51, 58), *range(70, 81))
][:45]
_TYPES = ["", *list(PublicationType)[:12]]
_STANDINGS = list(StandingValue)
_PASSAGES_A_PUBLICATION = 60


def sentences(files: Sequence[Path]) -> list[str]:
    """Every sentence of four words or more, in the order of the files."""
    found = []
    for path in files:
        for line in path.read_text(encoding="utf-8").splitlines():
            found += [part for part in re.split(r"(?<=[.;:])\s+", line) if len(part.split()) >= 4]
    return found


def text_files(folder: Path = TEXT_FOLDER) -> list[Path]:
    return sorted(folder.glob("*.txt"))


def passages(
    count: int, words: int, seed: int, source: Sequence[str], first: int = 0
) -> Iterator[IndexedPassage]:
    """`count` passages of about `words` words, numbered from `first`; the same for the same arguments.

    One in ten carries no chapter, one in ten carries two. Passages of one publication share its type.
    """
    chance = random.Random(seed)
    for number in range(first, first + count):
        publication = f"book{number // _PASSAGES_A_PUBLICATION:05}"
        chapters = _some_chapters(chance)
        yield IndexedPassage(
            passage_id=f"{publication}-{number % _PASSAGES_A_PUBLICATION}",
            publication_id=publication,
            heading=" ".join(chance.choice(source).split()[: chance.randint(2, 7)]),
            text=_text(words, chance, source),
            chapters=chapters,
            sections=tuple(f"{chapter}-{chance.randint(0, 9)}0" for chapter in chapters),
            type=_TYPES[number // _PASSAGES_A_PUBLICATION % len(_TYPES)],
            standing=chance.choice(_STANDINGS),
        )


def _some_chapters(chance: random.Random) -> tuple[str, ...]:
    draw = chance.random()
    if draw < 0.1:
        return ()
    return tuple(chance.sample(_CHAPTERS, 2 if draw > 0.9 else 1))


def _text(words: int, chance: random.Random, source: Sequence[str]) -> str:
    wanted = chance.randint(words // 2, words + words // 2)
    parts: list[str] = []
    length = 0
    while length < wanted:
        parts.append(chance.choice(source))
        length += len(parts[-1].split())
    return " ".join(parts)
