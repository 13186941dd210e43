"""The catalogue of one library: what is kept, and nothing but what is kept. All SQL readers need is here.

One instance serves many threads. Each change that readers can see makes a new generation; inside `reading()`
a thread sees one generation from beginning to end.
"""

import sqlite3
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

from indexer.errors import HangarleafError, PageUnknown, PublicationUnknown
from indexer.library import copies, places, rows, taking
from indexer.library.counts import Counts, count
from indexer.library.database import Database, open_database
from indexer.library.dump import dump_text
from indexer.library.generations import change, meta, note, unrelated_since
from indexer.library.problems import AlreadyHeld, PassageUnknown
from indexer.library.records import (
    CopyRecord,
    HistoryEntry,
    PageRecord,
    PassageRecord,
    PublicationRecord,
    RefusedRecord,
    Status,
)
from indexer.reading.page import Document
from indexer.tagging.tags import TaggedPublication

_BATCH = 500  # SQLite takes 999 parameters in its smallest build

_PUBLICATION = """
    SELECT publication.*, revision.work_id, copy.file, copy.replaced_by, copy.replaced_since,
        directive.facts_json AS directive_json, bulletin.facts_json AS bulletin_json,
        entered_identity.identity_json AS entered_json
    FROM publication
    JOIN copy ON copy.id = publication.copy_id
    JOIN revision ON revision.id = publication.revision_id
    LEFT JOIN directive ON directive.publication_id = publication.id
    LEFT JOIN bulletin ON bulletin.publication_id = publication.id
    LEFT JOIN entered_identity ON entered_identity.publication_id = publication.id
"""
_PASSAGE = """
    SELECT passage.*, publication.copy_id, page.printed_page, standing.standing_json,
        directive_standing.standing_json AS directive_standing_json,
        entered_standing.standing_json AS entered_standing_json,
        IIF(entered_identity.publication_id IS NULL, NULL, publication.type) AS entered_type
    FROM passage
    JOIN publication ON publication.id = passage.publication_id
    JOIN page ON page.copy_id = publication.copy_id AND page.pdf_page = passage.pdf_page
    JOIN standing ON standing.passage_id = passage.id
    LEFT JOIN directive_standing ON directive_standing.passage_id = passage.id
    LEFT JOIN entered_standing ON entered_standing.passage_id = passage.id
    LEFT JOIN entered_identity ON entered_identity.publication_id = publication.id
"""


@dataclass(frozen=True, slots=True)
class Taken:
    """What one file brought in."""

    copy_id: str
    publications: tuple[str, ...]
    pages: int
    passages: int
    replaced: str | None  # the copy that lay at the same path until now


class Catalogue:
    """Open one with `Catalogue.open`; use it as a context manager, or close it."""

    def __init__(self, database: Database):
        self.folder = database.folder
        self.database = database
        self._counted: tuple[int, Counts] | None = None

    @classmethod
    def open(cls, folder: Path, create: bool = False) -> "Catalogue":
        """The catalogue in `folder`. Raises NoLibrary, LibraryTooNew or LibraryDamaged."""
        return cls(open_database(Path(folder), create))

    def __enter__(self) -> "Catalogue":
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def close(self) -> None:
        self.database.close()

    def reading(self) -> AbstractContextManager[sqlite3.Connection]:
        """One unchanging state for every read this thread makes inside."""
        return self.database.reading()

    # What changes the library ------------------------------------------------------------------------------

    def take(
        self,
        path: Path,
        document: Document,
        publications: Sequence[TaggedPublication],
        source: Path | None = None,
    ) -> Taken:
        """Keep one read and tagged file: all of it in one transaction, or nothing.

        path    where it was found: another file taken from the same path before is marked as replaced by it
        source  where its bytes are, when not at `path`
        Raises AlreadyHeld (the path is noted all the same), FileVanished, FileNotReadable when the file is no
        longer what was read, ValueError when the parts do not fit together.
        """
        taking.check(document, publications)
        if self.seen_again(path, document.sha256):
            raise AlreadyHeld(str(path), taking.copy_id_of(document.sha256))
        size = copies.keep_copy(self.folder, source or path, document.sha256)
        at = rows.now()
        with self.database.writing() as connection:
            copy_id = taking.insert_copy(connection, document, size, at)
            ids = tuple(taking.insert_publication(connection, copy_id, each) for each in publications)
            note(connection, at, "taken", copy_id, str(path), f"{document.file}, sha256 {document.sha256}")
            before, changed = self._lay(connection, str(path), copy_id, at)
            connection.execute("DELETE FROM refused WHERE path = ?", (str(path),))
            change(connection, at, {*ids, *changed}, documents=True)
        passages = sum(len(publication.passages) for publication in publications)
        return Taken(copy_id, ids, len(document.pages), passages, before)

    def read_again(
        self,
        copy_id: str,
        document: Document,
        publications: Sequence[TaggedPublication],
        recognized: Mapping[int, str] = MappingProxyType({}),
    ) -> Taken:
        """Put what a copy is read as now in place of what it was read as: all in one transaction, or nothing.

        recognized  the pages (pdf_page) that it was read with as OCR read them, and when each was kept
        Its id, its name and its places stay, and so does all that people entered. Raises PublicationUnknown,
        ValueError when the parts do not fit together or are another file's.
        """
        taking.check(document, publications)
        if taking.copy_id_of(document.sha256) != copy_id:
            raise ValueError(f"{document.file} is not copy {copy_id}")
        at = rows.now()
        with self.database.writing() as connection:
            held, before = self.copy(copy_id), taking.rules_of(connection, copy_id)
            gone = self._given_by(connection, copy_id)
            taking.replace_contents(connection, document)
            ids = tuple(taking.insert_publication(connection, copy_id, each) for each in publications)
            taking.drop_empty_works(connection)
            taking.mark_used(connection, copy_id, recognized)
            said = f"{held.file}, by rules {taking.RULES} in place of {before}"
            if recognized:
                said += f", {len(recognized)} page{'s' if len(recognized) > 1 else ''} by OCR"
            note(connection, at, "read again", copy_id, "; ".join(held.paths), said)
            change(connection, at, gone.union(ids), documents=True)
        passages = sum(len(publication.passages) for publication in publications)
        return Taken(copy_id, ids, len(document.pages), passages, None)

    def read_by_older_rules(self) -> list[CopyRecord]:
        """Copies that were read by older rules than those of this program."""
        with self.reading() as connection:
            found = connection.execute(
                "SELECT id FROM copy WHERE rules < ? ORDER BY file, id", (taking.RULES,)
            )
            return [self.copy(row["id"]) for row in found.fetchall()]

    def seen_again(self, path: Path, sha256: str) -> bool:
        """True when this content is held; the place is noted, and the path is no longer listed as refused."""
        copy_id, name, at = taking.copy_id_of(sha256), str(path), rows.now()
        with self.reading() as connection:
            if not _held(connection, copy_id):
                return False
            if places.copy_at(connection, name) == copy_id and not _refused_at(connection, name):
                return True
        with self.database.writing() as connection:
            connection.execute("DELETE FROM refused WHERE path = ?", (name,))
            if places.copy_at(connection, name) != copy_id:
                note(connection, at, "seen again", copy_id, name, "")
                _, changed = self._lay(connection, name, copy_id, at)
                change(connection, at, changed, documents=bool(changed))
        return True

    def remove(self, copy_id: str) -> CopyRecord:
        """Take a copy out with all it gave, and return what it was. Shop entries and the history stay.

        Raises PublicationUnknown.
        """
        at = rows.now()
        with self.database.writing() as connection:
            gone = self.copy(copy_id)
            given = self._given_by(connection, copy_id)
            neighbours = places.sharing_paths(connection, copy_id) - {copy_id}
            taking.delete_copy(connection, copy_id)
            changed = self._settled(connection, neighbours) | given
            where = "; ".join(gone.paths)
            note(connection, at, "removed", copy_id, where, f"{gone.file}, sha256 {gone.sha256}")
            change(connection, at, changed, documents=True)
        copies.drop_copy(self.folder, gone.sha256)
        return gone

    def refuse(self, path: Path, problem: HangarleafError, sha256: str = "") -> None:
        """List a file as refused; a later refusal of the same path takes the place of the earlier one."""
        with self.database.writing() as connection:
            connection.execute(
                "INSERT OR REPLACE INTO refused VALUES (?, ?, ?, ?, ?, ?)",
                (str(path), problem.slug, problem.what, problem.remedy, sha256, rows.now()),
            )

    def forget_refusal(self, path: Path) -> bool:
        """Strike a file from the list of refused ones; False when it is not there."""
        with self.database.writing() as connection:
            struck = connection.execute("DELETE FROM refused WHERE path = ?", (str(path),))
            return struck.rowcount > 0

    def sweep(self) -> int:
        """Delete files that no row speaks of. Only for the one process that may take files now."""
        with self.reading() as connection:
            held = {row["sha256"] for row in connection.execute("SELECT sha256 FROM copy")}
        return copies.sweep(self.folder, held)

    # What readers ask --------------------------------------------------------------------------------------

    @property
    def generation(self) -> int:
        return self.own_number("generation")

    def own_number(self, key: str) -> int:
        """One of the numbers of generations.py; read once within `reading`, where it cannot change."""
        with self.reading() as connection:
            seen = self.database.seen
            if seen is None:
                return meta(connection, key)
            if key not in seen:
                seen[key] = meta(connection, key)
            return seen[key]

    def publications(self, replaced: bool = False) -> list[PublicationRecord]:
        """Every publication on the shelf, by id; with `replaced`, also those of replaced copies."""
        where = "" if replaced else "WHERE copy.replaced_by IS NULL"
        return self._publications(f"{where} ORDER BY publication.copy_id, publication.first_page")

    def publications_in(self, copy_id: str) -> list[PublicationRecord]:
        return self._publications("WHERE publication.copy_id = ? ORDER BY publication.first_page", (copy_id,))

    def publications_with(self, ids: Sequence[str]) -> list[PublicationRecord]:
        """Publications by id, also of replaced copies, in order; ids that are not here are left out."""
        found: list[PublicationRecord] = []
        for start in range(0, len(ids), _BATCH):
            batch = ids[start : start + _BATCH]
            found += self._publications(f"WHERE publication.id IN ({_marks(batch)})", batch)
        return sorted(found, key=lambda record: (record.copy_id, record.first_page))

    def publications_of(self, work_id: str) -> list[PublicationRecord]:
        """Every held revision of a work, oldest first; those without a date come first."""
        order = "ORDER BY revision.date IS NOT NULL, revision.date, publication.id"
        return self._publications(f"WHERE revision.work_id = ? {order}", (work_id,))

    def publication(self, publication_id: str) -> PublicationRecord:
        """Raises PublicationUnknown."""
        found = self._publications("WHERE publication.id = ?", (publication_id,))
        if not found:
            raise PublicationUnknown(publication_id)
        return found[0]

    def copy(self, copy_id: str) -> CopyRecord:
        """Raises PublicationUnknown."""
        with self.reading() as connection:
            row = connection.execute("SELECT * FROM copy WHERE id = ?", (copy_id,)).fetchone()
            if row is None:
                raise PublicationUnknown(copy_id)
            seen = connection.execute(
                "SELECT DISTINCT path FROM place WHERE copy_id = ? ORDER BY path", (copy_id,)
            )
            return rows.copy_record(row, (each["path"] for each in seen))

    def copies(self) -> list[CopyRecord]:
        """Every copy, replaced ones among them, by file name."""
        with self.reading() as connection:
            ids = [row["id"] for row in connection.execute("SELECT id FROM copy ORDER BY file, id")]
            return [self.copy(copy_id) for copy_id in ids]

    def copy_file(self, copy_id: str) -> Path:
        """The library's own copy of the PDF."""
        return copies.copy_path(self.folder, self.copy(copy_id).sha256)

    def pages(self, copy_id: str) -> list[PageRecord]:
        with self.reading() as connection:
            found = connection.execute("SELECT * FROM page WHERE copy_id = ? ORDER BY pdf_page", (copy_id,))
            return [rows.page_record(row) for row in found]

    def page(self, copy_id: str, pdf_page: int) -> PageRecord:
        """Raises PublicationUnknown, PageUnknown."""
        with self.reading() as connection:
            held = self.copy(copy_id)
            row = connection.execute(
                "SELECT * FROM page WHERE copy_id = ? AND pdf_page = ?", (copy_id, pdf_page)
            ).fetchone()
            if row is None:
                raise PageUnknown(held.file, pdf_page, held.pages)
            return rows.page_record(row)

    def passages_of(self, publication_id: str) -> list[PassageRecord]:
        """The passages of a publication in reading order; [] when there is no such publication."""
        with self.reading() as connection:
            found = connection.execute(
                f"{_PASSAGE} WHERE passage.publication_id = ? ORDER BY passage.ordinal", (publication_id,)
            ).fetchall()
            return list(_passage_records(connection, found))

    def passage(self, passage_id: str) -> PassageRecord:
        """Raises PassageUnknown."""
        found = self.passages([passage_id])
        if not found:
            raise PassageUnknown(passage_id)
        return found[passage_id]

    def passages(self, passage_ids: Iterable[str]) -> dict[str, PassageRecord]:
        """Passages by id; ids that are not here are left out."""
        wanted = list(dict.fromkeys(passage_ids))
        found: dict[str, PassageRecord] = {}
        with self.reading() as connection:
            for start in range(0, len(wanted), _BATCH):
                batch = wanted[start : start + _BATCH]
                held = connection.execute(
                    f"{_PASSAGE} WHERE passage.id IN ({_marks(batch)})", batch
                ).fetchall()
                found.update((record.id, record) for record in _passage_records(connection, held))
        return {passage_id: found[passage_id] for passage_id in wanted if passage_id in found}

    def refused(self) -> tuple[RefusedRecord, ...]:
        with self.reading() as connection:
            found = connection.execute("SELECT * FROM refused ORDER BY path")
            return tuple(rows.refused_record(row) for row in found)

    def history(self, copy_id: str | None = None) -> list[HistoryEntry]:
        """All that happened, oldest first; of one copy when it is named."""
        with self.reading() as connection:
            found = connection.execute(
                "SELECT * FROM history WHERE ?1 IS NULL OR copy_id = ?1 ORDER BY id", (copy_id,)
            )
            return [rows.history_entry(row) for row in found]

    def status(self) -> Status:
        with self.reading() as connection:
            generation = meta(connection, "generation")
            counted = self._counted
            if counted is None or counted[0] != generation:
                counted = self._counted = (generation, count(connection))
            changed_at = connection.execute("SELECT value FROM meta WHERE key = 'changed_at'").fetchone()
            return counted[1].status(
                generation=generation,
                changed_at=rows.moment(changed_at["value"]),
                relations_pending=any(unrelated_since(connection)),
                refused=self.refused(),
            )

    def dump(self) -> str:
        """Everything kept of the documents and all that follows from it, as canonical text without times.

        Two catalogues with the same documents give the same text, whatever happened on the way.
        """
        with self.reading() as connection:
            return dump_text(connection)

    # Inside ------------------------------------------------------------------------------------------------

    def _publications(self, tail: str, values: Sequence[str] = ()) -> list[PublicationRecord]:
        with self.reading() as connection:
            return [rows.publication_record(row) for row in connection.execute(_PUBLICATION + tail, values)]

    def _given_by(self, connection: sqlite3.Connection, copy_id: str) -> set[str]:
        """The publications of a copy, and those whose standing a directive among them changes."""
        ids = [record.id for record in self.publications_in(copy_id)]
        raised = connection.execute(
            "SELECT DISTINCT passage.publication_id FROM directive_standing"
            " JOIN passage ON passage.id = directive_standing.passage_id"
            f" WHERE directive_standing.directive_id IN ({_marks(ids)})",
            ids,
        ).fetchall()
        return {*ids, *(row["publication_id"] for row in raised)}

    def _lay(
        self, connection: sqlite3.Connection, path: str, copy_id: str, at: str
    ) -> tuple[str | None, set[str]]:
        """Put a copy at a path. Gives the copy that lay there, and the publications this changes."""
        before = places.copy_at(connection, path)
        places.put_at(connection, path, copy_id, at)
        if before:
            note(connection, at, "replaced", before, path, f"by copy {copy_id}")
        return before, self._settled(connection, {copy_id, before} - {None})

    def _settled(self, connection: sqlite3.Connection, copy_ids: set[str]) -> set[str]:
        """Publications of those copies that came to be replaced, or are no longer."""
        settled = places.settle(connection, copy_ids)
        return {record.id for copy_id in settled for record in self.publications_in(copy_id)}


def _passage_records(connection: sqlite3.Connection, found: Sequence[sqlite3.Row]) -> Iterator[PassageRecord]:
    numbers: dict[str, list] = {}
    for start in range(0, len(found), _BATCH):
        ids = [row["id"] for row in found[start : start + _BATCH]]
        tags = connection.execute(
            f"SELECT * FROM number_now WHERE passage_id IN ({_marks(ids)}) ORDER BY passage_id, rank", ids
        )
        for tag in tags:
            numbers.setdefault(tag["passage_id"], []).append(rows.number_tag(tag))
    return (rows.passage_record(row, numbers.get(row["id"], ())) for row in found)


def _marks(values: Sequence[str]) -> str:
    return ",".join("?" * len(values))


def _held(connection: sqlite3.Connection, copy_id: str) -> bool:
    return connection.execute("SELECT 1 FROM copy WHERE id = ?", (copy_id,)).fetchone() is not None


def _refused_at(connection: sqlite3.Connection, path: str) -> bool:
    return connection.execute("SELECT 1 FROM refused WHERE path = ?", (path,)).fetchone() is not None
