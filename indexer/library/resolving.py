"""Keeps where references lead: loads citations and places for the rules, writes the rows that changed."""

import json
import re
import sqlite3
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from indexer.library.codec import from_json, to_json
from indexer.library.holding import number
from indexer.library.records import Supersession, SupersessionKind
from indexer.library.related import note_names
from indexer.library.relation_rules.held import Held, Shelf
from indexer.library.relation_rules.places import Inside, InsidePassage
from indexer.library.relation_rules.reference_places import Found, Source
from indexer.library.relation_rules.reference_targets import names_in
from indexer.library.relation_rules.references import OWN_PLACES, Resolver
from indexer.reading.page import PassageKind
from indexer.tagging.tags import Citation
from indexer.trade.chapters import ChapterNumber

_OWN_PLACES = frozenset(kind.value for kind in OWN_PLACES)
_OFFSETS = re.compile(r'"start":[0-9]+,"end":[0-9]+,?')
_NEWER = frozenset({SupersessionKind.NEWER_REVISION, SupersessionKind.STATED})


def newer_held(supersessions: Iterable[Supersession]) -> frozenset[str]:
    """Ids of publications of which a newer revision is held."""
    return frozenset(each.older_id for each in supersessions if each.kind in _NEWER)


def keep_references(
    connection: sqlite3.Connection, held: Iterable[Held], older: frozenset[str], sources: Iterable[str]
) -> bool:
    """Work out the references of some publications anew; True when a row changed.

    older    what newer_held gives
    sources  ids of publications held; one that is off the shelf loses the references it had
    """
    insides = _Insides(connection)
    resolver = Resolver(Shelf(held), older, insides)
    changed = False
    for publication in sorted(sources):
        names: set[str] = set()
        changed |= _write(
            connection, publication, _resolved(connection, publication, resolver, insides, names)
        )
        note_names(connection, publication, names)
    return changed


@dataclass(frozen=True, slots=True)
class _Row:
    """One reference as it is kept."""

    passage_id: str
    ordinal: int
    found: Found
    record_json: str


def _resolved(
    connection: sqlite3.Connection, publication: str, resolver: Resolver, insides: "_Insides", names: set[str]
) -> Iterator[_Row]:
    """One row for each citation; adds to `names` what they can mean other publications by.

    Most citations repeat others of their paper and are read only once.
    """
    cited = connection.execute(
        "SELECT citation.passage_id, citation.ordinal, citation.kind, citation_json, passage.publication_id,"
        " passage.pdf_page, page.printed_page FROM publication"
        " JOIN copy ON copy.id = publication.copy_id AND copy.replaced_by IS NULL"
        " JOIN passage ON passage.publication_id = publication.id"
        " JOIN citation ON citation.passage_id = passage.id"
        " JOIN page ON page.copy_id = publication.copy_id AND page.pdf_page = passage.pdf_page"
        " WHERE publication.id = ? ORDER BY passage.ordinal, citation.ordinal",
        (publication,),
    ).fetchall()
    known: dict[tuple, tuple[Found, str]] = {}
    for row in cited:
        numbers = insides.numbers(publication).get(row["passage_id"], ())
        here = (row["pdf_page"], row["printed_page"], numbers) if row["kind"] in _OWN_PLACES else ()
        key = (here, _OFFSETS.sub("", row["citation_json"], count=1))
        if key not in known:
            source = Source(publication, row["pdf_page"], row["printed_page"], numbers)
            citation = from_json(Citation, row["citation_json"])
            found = resolver.find(source, citation)
            names |= names_in(citation)
            known[key] = found, _tail(found)
        found, tail = known[key]
        yield _Row(row["passage_id"], row["ordinal"], found, _record(row, tail))


def _record(row: sqlite3.Row, tail: str) -> str:
    """The JSON text of the Reference, put together around that of its citation."""
    name, publication = json.dumps(row["passage_id"]), json.dumps(row["publication_id"])
    return (
        f'{{"passage_id":{name},"ordinal":{row["ordinal"]},"publication_id":{publication},'
        f'"citation":{row["citation_json"]},{tail}'
    )


def _tail(found: Found) -> str:
    """The fields of a Reference after its citation, as codec.py writes them."""
    return to_json(found)[1:]


class _Insides(Mapping[str, Inside]):
    """The places of publications, each read when a rule first looks into it."""

    def __init__(self, connection: sqlite3.Connection):
        self._connection = connection
        self._read: dict[str, Inside] = {}
        self._numbers: dict[str, dict[str, tuple[ChapterNumber, ...]]] = {}

    def __getitem__(self, publication_id: str) -> Inside:
        if publication_id not in self._read:
            passages = _passages(self._connection, publication_id, self.numbers(publication_id))
            self._read[publication_id] = Inside.of(passages)
        return self._read[publication_id]

    def __iter__(self) -> Iterator[str]:
        return (row["id"] for row in self._connection.execute("SELECT id FROM publication"))

    def __len__(self) -> int:
        return self._connection.execute("SELECT COUNT(*) FROM publication").fetchone()[0]

    def numbers(self, publication_id: str) -> dict[str, tuple[ChapterNumber, ...]]:
        """Passage id -> the numbers it has from its own paper, without those inferred from its words."""
        if publication_id not in self._numbers:
            self._numbers[publication_id] = _printed_numbers(self._connection, publication_id)
        return self._numbers[publication_id]


def _passages(
    connection: sqlite3.Connection, publication_id: str, numbers: Mapping[str, tuple[ChapterNumber, ...]]
) -> Iterator[InsidePassage]:
    found = connection.execute(
        "SELECT passage.id, passage.pdf_page, page.printed_page, passage.kind, heading_path_json, text"
        " FROM passage JOIN publication ON publication.id = passage.publication_id"
        " JOIN page ON page.copy_id = publication.copy_id AND page.pdf_page = passage.pdf_page"
        " WHERE passage.publication_id = ? ORDER BY passage.ordinal",
        (publication_id,),
    ).fetchall()
    for row in found:
        yield InsidePassage(
            row["id"],
            row["pdf_page"],
            row["printed_page"],
            row["kind"] == PassageKind.FIGURE_TITLE.value,
            tuple(json.loads(row["heading_path_json"])),
            row["text"],
            numbers.get(row["id"], ()),
        )


def _printed_numbers(
    connection: sqlite3.Connection, publication_id: str
) -> dict[str, tuple[ChapterNumber, ...]]:
    numbers: dict[str, tuple[ChapterNumber, ...]] = {}
    for row in connection.execute(
        "SELECT passage_id, scheme, chapter, section, subject FROM passage"
        " JOIN number_tag ON number_tag.passage_id = passage.id"
        """ WHERE publication_id = ? AND evidence_json NOT LIKE '%"basis":"inferred"%'"""
        " ORDER BY passage_id, rank",
        (publication_id,),
    ):
        passage, *parts = row
        numbers[passage] = (*numbers.get(passage, ()), number(*parts))
    return numbers


def _write(connection: sqlite3.Connection, publication: str, found: Iterable[_Row]) -> bool:
    """Make the tables hold exactly these references of a publication, touching only the rows that differ."""
    before = {
        (row["passage_id"], row["ordinal"]): (row["record_json"], row["targets"])
        for row in connection.execute(
            "SELECT passage_id, ordinal, record_json, (SELECT COUNT(*) FROM reference_target AS held"
            " WHERE held.passage_id = reference.passage_id AND held.ordinal = reference.ordinal) AS targets"
            " FROM reference WHERE passage_id > ?1 || '-' AND passage_id < ?1 || '.'",
            (publication,),
        )
    }
    fresh: list[_Row] = []
    for each in found:
        # A target that was taken out took its row with it: the record alone does not show that.
        if before.get((each.passage_id, each.ordinal)) == (each.record_json, len(each.found.targets)):
            del before[each.passage_id, each.ordinal]
        else:
            fresh.append(each)
    gone = list(before)
    connection.executemany("DELETE FROM reference_target WHERE passage_id = ? AND ordinal = ?", gone)
    connection.executemany("DELETE FROM reference WHERE passage_id = ? AND ordinal = ?", gone)
    connection.executemany(
        "INSERT INTO reference VALUES (?, ?, ?, ?)",
        ((each.passage_id, each.ordinal, each.found.state.value, each.record_json) for each in fresh),
    )
    connection.executemany(
        "INSERT INTO reference_target VALUES (?, ?, ?, ?, ?)",
        ((each.passage_id, each.ordinal, *target) for each in fresh for target in each.found.targets),
    )
    return bool(gone or fresh)
