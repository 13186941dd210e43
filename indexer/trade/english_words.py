"""Whether English text consists of known words (tables/english_words.csv), to tell text that was read badly.

The table holds the words of four letters and more that stand at least twice in papers of the US government
(advisory circulars, rules, directives, the powerplant handbook's index, accident reports), or forty times in
service difficulty reports.
"""

import re
from collections.abc import Iterable
from functools import cache

from indexer.trade.chapter_tables import read_table

# The commonest words of English; a page in another language holds hardly any. From memory.
_SMALL_WORDS = frozenset(
    "the of and to in is for on with by be are or that as this from at it an not must when if all".split()
)
_ENGLISH = (
    0.08  # of the small-letter words of a text are such words: a manual's text has 0.2, a German page 0.03
)
_PLAIN = re.compile(r"[\"'(\[‘“]*([A-Za-z]?[a-z]+)[\"')\].,;:!?’”]*")
_JUDGED = 4  # letters; a shorter word is too easily another one
_ENDINGS = ("s", "es", "ed", "d", "ing", "ly", "er", "or", "al", "able", "ness", "ment")


def is_english(words: Iterable[str]) -> bool:
    """Whether enough of a text's words are the commonest words of English."""
    plain = [match[1].lower() for match in map(_PLAIN.fullmatch, words) if match]
    small = sum(word in _SMALL_WORDS for word in plain)
    return bool(plain) and small >= _ENGLISH * len(plain)


def unknown_words(words: Iterable[str]) -> tuple[int, int]:
    """Of the words in small letters, or with one capital: how many are unknown, and how many there are."""
    plain = [match[1].lower() for match in map(_PLAIN.fullmatch, words) if match and len(match[1]) >= _JUDGED]
    return sum(not _is_known(word) for word in plain), len(plain)


@cache
def _known() -> frozenset[str]:
    return frozenset(row["word"] for row in read_table("english_words.csv"))


def _is_known(word: str) -> bool:
    known = _known()
    return word in known or any(
        word.endswith(ending) and (word[: -len(ending)] in known or f"{word[: -len(ending)]}e" in known)
        for ending in _ENDINGS
    )
