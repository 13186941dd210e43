"""A search engine that is slow and plain, for tests of what stands in front of one."""

import re
from collections import Counter

from indexer.errors import NothingToSearchFor
from indexer.library.fulltext import NOT_NUMBERED, ChapterHits, Filters, FullTextResult, ScoredPassage

STOP_WORDS = {"the", "of", "and", "a", "to"}
_WORD = re.compile(r"[^\W_]+(?:[-/.][^\W_]+)*")


def words_of(text):
    return [word for word in _WORD.findall(text.casefold()) if word not in STOP_WORDS]


class PlainEngine:
    """Implements indexer.library.fulltext.FullText in memory; a score is how often the words stand there."""

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
            counts = [text.count(f" {' '.join(part)} ") for part in wanted if part]
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
    def _lets_through(filters, passage):
        if filters.chapters or filters.sections:
            chapters = passage.chapters or (NOT_NUMBERED,)
            if not (set(chapters) & set(filters.chapters) or set(passage.sections) & set(filters.sections)):
                return False
        return (
            (not filters.types or passage.type in filters.types)
            and (not filters.standings or passage.standing in filters.standings)
            and (not filters.publications or passage.publication_id in filters.publications)
        )

    def marks(self, query, text):
        marks = []
        for part in (*query.words, *query.phrases):
            pattern = r"\W+".join(re.escape(word) for word in words_of(part))
            if pattern:
                marks += [match.span() for match in re.finditer(rf"\b{pattern}\b", text, re.IGNORECASE)]
        return sorted(set(marks))
