"""Writing a Whoosh index: commits that name the catalogue generation they hold, and merging of segments."""

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path

from whoosh.filedb.filestore import FileStorage
from whoosh.index import TOC, FileIndex, clean_files
from whoosh.reading import IndexReader, SegmentReader
from whoosh.util.filelock import FileLock
from whoosh.writing import SegmentWriter

from indexer.errors import LibraryBusy
from indexer.library import index_files
from indexer.library.fulltext import IndexedPassage
from indexer.library.index_files import Commit
from indexer.library.whoosh_codec import ArrayCodec
from indexer.library.whoosh_schema import FORMAT, document, exact, schema

_TIER = 8  # so many segments of one size are merged; the next size is so many times larger
_SMALLEST_TIER = 64  # documents


@contextmanager
def writing(folder: Path) -> Iterator[None]:
    """Hold the folder's lock. Raises LibraryBusy when another writer, in whatever process, holds it."""
    folder.mkdir(parents=True, exist_ok=True)
    lock = FileLock(str(folder / "writing.lock"))
    if not lock.acquire():
        raise LibraryBusy(str(folder))
    try:
        yield
    finally:
        lock.release()


def open_index(folder: Path) -> FileIndex:
    """The index in a folder that index_files.check_ours has passed."""
    return FileIndex(FileStorage(str(folder)), schema=schema())


def open_reader(commit: Commit) -> IndexReader:
    """Exactly this commit, whatever has been committed since. The same condition holds."""
    index = open_index(commit.folder)
    contents = TOC.read(index.storage, index.indexname, gen=commit.number, schema=schema())
    return FileIndex._reader(index.storage, contents.schema, contents.segments, commit.number)


def create_index(folder: Path) -> FileIndex:
    return FileIndex.create(FileStorage(str(folder)), schema())


def build(home: Path, generation: int, passages: Iterable[IndexedPassage], limit_mb: int) -> Commit:
    """A new index of `passages` beside the others, complete when this returns; `limit_mb` as for change."""
    index = create_index(index_files.new_index(home, FORMAT))
    return change(index, generation, (), passages, limit_mb)


def change(
    index: FileIndex, generation: int, removed: Iterable[str], added: Iterable[IndexedPassage], limit_mb: int
) -> Commit:
    """One commit: remove publications by id, add passages, hold `generation`.

    An error leaves the index as it was.
    limit_mb   room for postings before they are sorted to disk; real memory is about twice as much
    """
    writer = _CommitWriter(index, generation, limitmb=limit_mb)
    try:
        with writer.searcher() as searcher:
            for publication in removed:
                writer.delete_by_term("publication", exact(publication), searcher=searcher)
        for passage in added:
            writer.add_document(**document(passage))
        writer.commit(mergetype=_merge)
    except BaseException:
        if not writer.is_closed:
            writer.cancel()
        raise
    index_files.remove_old_generations(writer.coming)
    return writer.coming


class _CommitWriter(SegmentWriter):
    """Commits through index_files, which says what a commit holds before it becomes the newest."""

    def __init__(self, index: FileIndex, generation: int, **options):
        index.storage.temp_storage(f"{index.indexname}.tmp").destroy()  # left by a writer that was killed
        super().__init__(index, codec=ArrayCodec(), **options)
        folder = Path(index.storage.folder)
        self.coming = Commit(folder.parent, int(folder.name), self.generation)
        self._catalogue_generation = generation

    def _commit_toc(self, segments):
        names = [name for segment in segments for name in segment.list_files(self.storage)]
        TOC(self.schema, segments, self.generation).write(self._tempstorage, self.indexname)
        staged = Path(self._tempstorage.folder) / self.coming.contents.name
        index_files.put_in_place(self.coming, staged, self._catalogue_generation, names)
        clean_files(self.storage, self.indexname, self.generation, segments)


def _merge(writer: SegmentWriter, segments: list) -> list:
    """A merge policy for Whoosh: gives what stays as it is, and copies the rest into the new segment.

    Segments of one size are merged when there are _TIER of them, so each passage is copied a few times at
    most and a term is looked up in few places. One that is more than half deleted is merged alone.
    """
    tiers: dict[int, list] = {}
    for segment in segments:
        live = segment.doc_count_all() - segment.deleted_count()
        if live * 2 < segment.doc_count_all():
            _copy(writer, segment, live)
        else:
            tiers.setdefault(_tier(live), []).append(segment)
    kept = []
    for tier in tiers.values():
        if len(tier) < _TIER:
            kept += tier
        else:
            for segment in tier:
                _copy(writer, segment, segment.doc_count_all() - segment.deleted_count())
    return [segment for segment in segments if segment in kept]


def _tier(documents: int) -> int:
    tier = 0
    while documents > _SMALLEST_TIER * _TIER**tier:
        tier += 1
    return tier


def _copy(writer: SegmentWriter, segment, live: int) -> None:
    if live:
        reader = SegmentReader(writer.storage, writer.schema, segment)
        writer.add_reader(reader)
        reader.close()
