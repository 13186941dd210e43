"""The same questions with other words for every word, and one in ten with a slip: for search.py.

Other words are drawn from the same text: for each word one other word and one phrase of two. A slip is found
as the program finds it: the search comes out empty, the engine is asked what was meant, and searched again.
The peers have no suggestions; they are asked the right words at once.
"""

import random
import string
import time
from collections.abc import Sequence
from dataclasses import replace

from indexer.library.analysis import STOP_WORDS, tokens
from indexer.library.fulltext import Also, FullTextQuery
from indexer.library.slips import Vocabulary

WEIGHT = 0.6
Asked = list[tuple[str, FullTextQuery]]


def with_others(asked: Asked, source: Sequence[str], seed: int) -> Asked:
    """Every word of every query with two alternatives, one of them a phrase."""
    chance = random.Random(seed)

    def others() -> tuple[str, str]:
        while True:
            words = chance.choice(source).split()
            start = chance.randrange(max(1, len(words) - 1))
            phrase = words[start : start + 2]
            if len(words) > 1 and all(tokens(word) and word.lower() not in STOP_WORDS for word in phrase):
                return chance.choice(phrase), " ".join(phrase)

    return [
        (kind, replace(query, also=tuple(Also((word,), others(), WEIGHT) for word in query.words)))
        for kind, query in asked
    ]


def slips(asked: Asked, ours, seed: int) -> dict[FullTextQuery, FullTextQuery]:
    """For one query in ten, the same with a slip in its longest word, such that it is no word held here."""
    chance = random.Random(seed)
    made = {}
    for _, query in asked:
        words = [word for word in query.words if word.isalpha() and len(word) >= 5]
        if words and not query.any_word and len(made) < len(asked) // 10:
            meant = max(words, key=len)
            while ours.engine.knows(slip := _slipped(meant, chance)):
                pass
            words = tuple(slip if word == meant else word for word in query.words)
            made[query] = replace(query, words=words)
    return made


def _slipped(word: str, chance: random.Random) -> str:
    at = chance.randrange(1, len(word) - 1)
    letter = chance.choice(string.ascii_lowercase)
    return chance.choice(
        [
            word[:at] + word[at + 1 :],
            word[:at] + letter + word[at:],
            word[:at] + letter + word[at + 1 :],
            word[:at] + word[at + 1] + word[at] + word[at + 2 :],
        ]
    )


class OursWithSlips:
    """Ours, asked some questions with slips, which it finds and puts right."""

    def __init__(self, ours, made: dict[FullTextQuery, FullTextQuery]):
        self.name = ours.name
        self._ours = ours
        self._made = made
        self.right = {slipped: query for query, slipped in made.items()}
        self.put_right: set[FullTextQuery] = set()

    def prepare(self, query: FullTextQuery) -> FullTextQuery:
        return self._made.get(query, query)

    def search(self, query: FullTextQuery) -> tuple[list, dict[str, int]]:
        found = self._ours.search(query)
        if found[1] or query not in self.right:
            return found
        engine = self._ours.engine
        words = tuple(next(iter(engine.suggest(word, 1)), word) for word in query.words)
        if replace(query, words=words) == self.right[query] or self._folded_alike(words, query):
            self.put_right.add(query)
        return self._ours.search(replace(query, words=words))

    def _folded_alike(self, words: tuple[str, ...], query: FullTextQuery) -> bool:
        """Suggestions come in lower case and without a plural s."""
        right = self.right[query].words
        return all(
            [token.text for token in tokens(one)] == [token.text for token in tokens(other)]
            for one, other in zip(words, right, strict=True)
        )


def suggesting(ours, made: dict[FullTextQuery, FullTextQuery], vocabulary: int) -> dict:
    """Milliseconds of one suggestion: here, and among so many made words; and of reading all terms once."""
    reader = ours.engine._newest().reader
    wrong = [word for query, slip in made.items() for word in slip.words if word not in query.words]
    start = time.perf_counter()
    held = reader._segments.frequencies(("heading", "text"))
    read = (time.perf_counter() - start) * 1000
    chance = random.Random(3)
    words = sorted(word for word in held if word.isalpha() and len(word) > 3)
    many = dict(held)
    while len(many) < vocabulary:  # halves of words put together: as long as words are, and as much alike
        one, other = chance.choice(words), chance.choice(words)
        many[one[: len(one) // 2 + 1] + other[len(other) // 2 :]] = 1
    large = Vocabulary(many)
    times, large_times = [], []
    for word in wrong * 5:
        start = time.perf_counter()
        ours.engine.suggest(word)
        middle = time.perf_counter()
        large.near(word.lower())
        times.append((middle - start) * 1000)
        large_times.append((time.perf_counter() - middle) * 1000)
    return {
        "terms": len(held),
        "reading_terms_ms": read,
        "suggest_ms": times,
        "terms_of_large": len(many),
        "suggest_among_large_ms": large_times,
    }
