"""The embedded full-text engine: a Whoosh index on disk, read through numpy.

Each commit names the catalogue generation it holds (index_files.py says how, and why a crash cannot make it
lie). A search takes one commit and stays with it. Before each search the newest commit is looked up, which
is two folder listings, so what another process has committed is found at once; it is then opened anew and
swapped in, and never refreshed (Whoosh 2.7.4's refresh brings deleted documents back). Searches still at
work keep the old one, whose files stay open to them.
"""

import logging
import threading
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from indexer.library import index_files, whoosh_writer
from indexer.library.fulltext import FullTextQuery, FullTextResult, IndexedPassage, NoIndex, ScorePart
from indexer.library.index_files import Commit, FileFacts
from indexer.library.marking import marks
from indexer.library.posting_arrays import PostingArrays
from indexer.library.search_plan import plan
from indexer.library.whoosh_plain import PlainSearch
from indexer.library.whoosh_postings import Segments
from indexer.library.whoosh_schema import FORMAT

_log = logging.getLogger(__name__)
_CHANGE_LIMIT_MB = 64
_BUILD_LIMIT_MB = 256


@dataclass(frozen=True, slots=True)
class _Held:
    """An opened commit."""

    commit: Commit
    files: dict[str, FileFacts]
    reader: PostingArrays | PlainSearch


class WhooshEngine:
    """Implements fulltext.FullText. Safe for threads; several processes may read while one writes.

    folder     holds the index and nothing else; made when it is first written to
    cache_mb   room for posting arrays; beside it each generation keeps about 130 bytes a passage
    fast       False answers through Whoosh's own matchers and scorer, to compare with
    """

    def __init__(self, folder: Path, cache_mb: int, fast: bool = True):
        self._folder = Path(folder)
        self._cache_mb = cache_mb
        self._fast = fast
        self._opening = threading.Lock()
        self._held: _Held | None = None

    def generation(self) -> int | None:
        held = self._newest()
        return held.reader.generation if held else None

    def apply(self, generation: int, removed: Iterable[str], added: Iterable[IndexedPassage]) -> None:
        with whoosh_writer.writing(self._folder):
            held = self._newest()
            if held is None:
                raise NoIndex(str(self._folder))
            index = whoosh_writer.open_index(held.commit.folder)
            whoosh_writer.change(index, generation, removed, added, _CHANGE_LIMIT_MB)

    def rebuild(self, generation: int, passages: Iterable[IndexedPassage]) -> None:
        with whoosh_writer.writing(self._folder):
            commit = whoosh_writer.build(self._folder, generation, passages, _BUILD_LIMIT_MB)
            index_files.remove_other_indexes(commit)

    def search(self, query: FullTextQuery, limit: int, per_chapter: int) -> FullTextResult:
        return self._reader().search(plan(query), limit, per_chapter)

    def marks(self, query: FullTextQuery, text: str) -> Sequence[tuple[int, int]]:
        return marks(query, text)

    def explain(self, query: FullTextQuery, passage_id: str) -> Sequence[ScorePart]:
        return self._reader().explain(plan(query), passage_id)

    def knows(self, word: str) -> bool:
        return self._reader().knows(word)

    def suggest(self, word: str, limit: int = 5) -> Sequence[str]:
        return self._reader().suggest(word, limit)

    def beginning_with(self, typed: str, limit: int = 8) -> Sequence[str]:
        return self._reader().beginning_with(typed, limit)

    def look_alikes(self, word: str) -> Sequence[str]:
        return self._reader().look_alikes(word)

    def _reader(self) -> PostingArrays | PlainSearch:
        """Of the newest commit. Raises NoIndex."""
        held = self._newest()
        if held is None:
            raise NoIndex(str(self._folder))
        return held.reader

    def _newest(self) -> _Held | None:
        """The newest commit, opened; None when there is none that can be used."""
        commit = index_files.newest_commit(self._folder)
        held = self._held
        if held and held.commit == commit:
            return held
        with self._opening:
            return self._open_newest()

    def _open_newest(self) -> _Held | None:
        """Open and hold the newest commit. While one is opened, another process may make a newer one."""
        while (commit := index_files.newest_commit(self._folder)) is not None:
            if self._held and self._held.commit == commit:
                return self._held
            try:
                self._held = self._open(commit, self._held)
            except Exception as problem:  # of any kind: a damaged pickle can raise what it likes
                if index_files.newest_commit(self._folder) == commit:
                    _log.warning("the search index at %s cannot be used: %r", commit.folder, problem)
                    break
        self._held = None
        return None

    def _open(self, commit: Commit, before: _Held | None) -> _Held:
        """Raises whatever a missing, foreign or damaged file makes go wrong."""
        known = before.files if before and before.commit.folder == commit.folder else {}
        index_files.check_ours(commit.folder, FORMAT)
        generation, files = index_files.read_generation(commit)
        index_files.check_files(commit, files, known)
        reader = whoosh_writer.open_reader(commit)
        if self._fast:
            return _Held(commit, files, PostingArrays(Segments(reader), generation, self._cache_mb))
        return _Held(commit, files, PlainSearch(reader, generation))
