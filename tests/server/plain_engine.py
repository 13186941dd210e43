"""A search engine that is slow and plain, for tests of what stands in front of one."""

import re
from collections import Counter

from indexer.errors import NothingToSearchFor
from indexer.library.confusions import LookAlikes
from indexer.library.fulltext import (
    NOT_NUMBERED,
    ChapterHits,
    Filters,
    FullTextResult,
    ScoredPassage,
    ScorePart,
)

STOP_WORDS = {"the", "of", "and", "a", "to"}
_WORD = re.compile(r"[^\W_]+(?:[-/.][^\W_]+)*")


def words_of(text):
    return [word for word in _WORD.findall(text.casefold()) if word not in STOP_WORDS]


def _one_slip(word, other):
    """Whether one is the other with one letter more, one less or another, or two neighbours swapped."""
    if len(word) > len(other):
        word, other = other, word
    same = [pair[0] == pair[1] for pair in zip(word, other, strict=False)]
    start = same.index(False) if False in same else len(word)
    if len(word) < len(other):
        return word[start:] == other[start + 1 :]
    swapped = word[start + 1 : start + 2] + word[start : start + 1] + word[start + 2 :]
    return word[start + 1 :] == other[start + 1 :] or swapped == other[start:]


class PlainEngine:
    """Implements indexer.library.fulltext.FullText in memory; a score is how often the words stand there, or
    their other words by weight."""

    def __init__(self):
        self._generation = None
        self._held = {}

    def generation(self):
        return self._generation

    def apply(self, generation, removed, added):
        gone = set(removed)
        kept = {key: passage for key, passage in self._held.items() if passage.publication_id not in gone}
        self._held = kept | {passage.passage_id: passage for passage in added}
        self._generation = generation

    def rebuild(self, generation, passages):
        self._held = {}
        self.apply(generation, (), passages)

    def search(self, query, limit, per_chapter):
        if not (query.words or query.phrases) and query.filters == Filters():
            raise NothingToSearchFor("")
        wanted = [words_of(part) for part in (*query.words, *query.phrases)]
        if wanted and not any(wanted):
            raise NothingToSearchFor(" ".join((*query.words, *query.phrases)))
        found = []
        for passage in self._held.values():
            if not self._lets_through(query.filters, passage):
                continue
            text = f" {' '.join(words_of(passage.heading + ' ' + passage.text))} "
            counts = [score for _, score in self._parts(query, text)]
            if any(f" {' '.join(words_of(part))} " in text for part in query.excluded):
                continue
            if not any(wanted) or (any(counts) if query.any_word else all(counts)):
                found.append((passage, float(sum(counts))))
        found.sort(key=lambda pair: (-pair[1], pair[0].passage_id))
        chapters = {}
        for passage, score in found:
            chapter = passage.chapters[0] if passage.chapters else NOT_NUMBERED
            chapters.setdefault(chapter, []).append(ScoredPassage(passage.passage_id, score))
        return FullTextResult(
            self._generation,
            len(found),
            tuple(
                ChapterHits(chapter, len(hits), tuple(hits[:per_chapter]))
                for chapter, hits in chapters.items()
            ),
            tuple(ScoredPassage(passage.passage_id, score) for passage, score in found[:limit]),
            Counter(passage.type for passage, _ in found),
            Counter(passage.standing for passage, _ in found),
        )

    @staticmethod
    def _parts(query, text):
        """Name and score of each thing asked for, 0 when it is not there."""
        for asked in (*query.words, *query.phrases):
            if not words_of(asked):
                continue
            ways = [(asked, text.count(f" {' '.join(words_of(asked))} "))]
            for also in query.also:
                if asked in also.words and set(also.words) <= set(query.words):
                    for other in also.others:
                        count = text.count(f" {' '.join(words_of(other))} ")
                        name = f"{other}, looked for with {' '.join(also.words)}"
                        ways.append((name, count * also.weight / len(also.words)))
            yield max(ways, key=lambda way: way[1])

    def explain(self, query, passage_id):
        hits = self.search(query, len(self._held), 0).top
        if passage_id not in {scored.passage_id for scored in hits}:
            return ()
        passage = self._held[passage_id]
        text = f" {' '.join(words_of(passage.heading + ' ' + passage.text))} "
        parts = [ScorePart(name, float(score)) for name, score in self._parts(query, text) if score]
        return sorted(parts, key=lambda part: -part.score)

    def knows(self, word):
        wanted = set(words_of(word))
        return bool(wanted) and wanted <= self._vocabulary()

    def suggest(self, word, limit=5):
        """Words with one letter left out, put in or changed, or two that changed places."""
        if self.knows(word):
            return ()
        near = [
            other for other in self._vocabulary() if other.isalpha() and _one_slip(word.casefold(), other)
        ]
        return tuple(sorted(near)[:limit])

    def beginning_with(self, typed, limit=8):
        begun = [word for word in self._vocabulary() if word.startswith(typed.casefold()) and len(typed) > 1]
        return tuple(sorted(word for word in begun if word != typed.casefold())[:limit])

    def look_alikes(self, word):
        return tuple(LookAlikes(self._vocabulary()).of(word))

    def _vocabulary(self):
        return {
            word for passage in self._held.values() for word in words_of(f"{passage.heading} {passage.text}")
        }

    @staticmethod
    def _lets_through(filters, passage):
        if filters.chapters or filters.sections:
            chapters = passage.chapters or (NOT_NUMBERED,)
            if not (set(chapters) & set(filters.chapters) or set(passage.sections) & set(filters.sections)):
                return False
        return (
            (not filters.types or passage.type in filters.types)
            and (not filters.standings or passage.standing in filters.standings)
            and (not filters.publications or passage.publication_id in filters.publications)
            and passage.publication_id not in filters.without_publications
            and passage.passage_id not in filters.without_passages
        )

    def marks(self, query, text):
        marks = []
        others = [other for also in query.also for other in also.others]
        for part in (*query.words, *query.phrases, *others):
            pattern = r"\W+".join(re.escape(word) for word in words_of(part))
            if pattern:
                marks += [match.span() for match in re.finditer(rf"\b{pattern}\b", text, re.IGNORECASE)]
        return sorted(set(marks))
