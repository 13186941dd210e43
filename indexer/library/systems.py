"""What the listing of a system reads: everything filed under some chapters, and everything that names them.

Complete, never the best few. Copies on the shelf only. One statement for each kind of thing, none for each
row: a chapter of thousands of passages is read in a few statements.
"""

import re
import sqlite3
from collections import defaultdict
from collections.abc import Callable, Collection, Iterable, Iterator
from dataclasses import dataclass
from functools import cache, lru_cache, wraps
from typing import Any, TypeVar
from weakref import WeakKeyDictionary

from indexer.library.catalogue import Catalogue
from indexer.library.codec import from_json
from indexer.library.records import Reference
from indexer.library.rows import standing_now
from indexer.tagging.tags import Citation, Standing
from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.evidence import Evidence, Tag

_BATCH = 500  # SQLite takes 999 parameters in its smallest build
_PAGE_OF_BOX = re.compile(r'"pdf_page":([0-9]+)')
_FIGURE_TITLE = re.compile(r"Figure [0-9][0-9A-Z-]*\.? [A-Z][^\n]{2,80}")
_NUMBER_COLUMNS = "passage_id, rank, scheme, chapter, section, subject, evidence_json, others_json"
_PLACE_COLUMNS = """
    passage.id, passage.publication_id, passage.ordinal, passage.pdf_page, passage.heading_path_json,
    passage.boxes_json, passage.page_block_json, page.printed_page,
    CASE WHEN publication.type = 'parts-catalog' AND instr(passage.text, 'Figure ')
        THEN substr(passage.text, instr(passage.text, 'Figure '), 120) END AS figure,
    COALESCE(
        entered_standing.standing_json, directive_standing.standing_json, standing.standing_json
    ) AS standing_json,
    IIF(entered_identity.publication_id IS NULL, NULL, publication.type) AS entered_type
"""
_PLACE_JOINS = """
    JOIN publication ON publication.id = passage.publication_id
    JOIN copy ON copy.id = publication.copy_id AND copy.replaced_by IS NULL
    JOIN page ON page.copy_id = publication.copy_id AND page.pdf_page = passage.pdf_page
    JOIN standing ON standing.passage_id = passage.id
    LEFT JOIN directive_standing ON directive_standing.passage_id = passage.id
    LEFT JOIN entered_standing ON entered_standing.passage_id = passage.id
    LEFT JOIN entered_identity ON entered_identity.publication_id = publication.id
"""
_IN_ORDER = "ORDER BY passage.publication_id, passage.ordinal"


Kept = TypeVar("Kept")
_KEPT: WeakKeyDictionary[Catalogue, dict[str, tuple[int, Any]]] = WeakKeyDictionary()


def _kept(read: Callable[[Catalogue], Kept]) -> Callable[[Catalogue], Kept]:
    """What one pass over the whole catalogue gives, kept for as long as the generation lasts."""

    @wraps(read)
    def kept(catalogue: Catalogue) -> Kept:
        with catalogue.reading():
            generation = catalogue.generation
            held = _KEPT.setdefault(catalogue, {})
            if held.get(read.__name__, (None,))[0] != generation:
                held[read.__name__] = (generation, read(catalogue))
            return held[read.__name__][1]

    return kept


@dataclass(frozen=True, slots=True)
class Place:
    """One passage, without its text."""

    passage_id: str
    publication_id: str
    ordinal: int  # 0-based in the file
    pdf_page: int  # 1-based; the page it begins on
    printed_page: str  # of the page it begins on; "" = none
    pages: tuple[int, ...]  # every page it has a part on, in order
    heading_path: tuple[str, ...]
    page_block: str  # "" = none
    standing: Standing  # what holds now
    figure: str  # "Figure 1. Alternator Installation" of a parts catalog's page; "" = none


@dataclass(frozen=True, slots=True)
class Filed:
    """A passage and one of the numbers that hold for it now; a passage with two numbers comes twice."""

    place: Place
    number: ChapterNumber
    evidence: Evidence
    others: tuple[ChapterNumber, ...]  # what readings that disagree would file it under, best first


@dataclass(frozen=True, slots=True)
class Naming:
    """A passage and a reference in it that names a chapter number."""

    place: Place
    ordinal: int  # of the citation in its passage
    citation: Citation


@dataclass(frozen=True, slots=True)
class Remainder:
    """Passages that no chapter lists, by publication id.

    own        of a manual with its own order, whose section no one has mapped
    unknown    without any number: the text says too little
    """

    own: dict[str, int]
    unknown: dict[str, int]


@dataclass(frozen=True, slots=True)
class HeldNumber:
    """A number that holds for passages on the shelf."""

    number: ChapterNumber
    passages: int


def filed(
    catalogue: Catalogue, chapters: Collection[str], wanted: Callable[[ChapterNumber], bool]
) -> list[Filed]:
    """Every passage with a number that is wanted, in order of place; a manual's own numbers are left out.

    chapters   first two digits of the numbers looked at, in any scheme
    """
    marks = _marks(chapters)
    sql = f"""
        WITH now AS MATERIALIZED (
            SELECT {_NUMBER_COLUMNS} FROM number_tag
            WHERE chapter IN ({marks}) AND scheme <> 'OWN'
                AND NOT EXISTS (SELECT 1 FROM filing WHERE filing.passage_id = number_tag.passage_id)
            UNION ALL
            SELECT {_NUMBER_COLUMNS} FROM filed_number WHERE chapter IN ({marks}) AND scheme <> 'OWN'
        )
        SELECT now.*, {_PLACE_COLUMNS} FROM now JOIN passage ON passage.id = now.passage_id
        {_PLACE_JOINS} {_IN_ORDER}, now.rank
    """
    found = []
    places, read = _Places(), Decoded()
    numbers: dict[tuple, tuple[ChapterNumber, bool]] = {}
    with catalogue.reading() as connection:
        for row in connection.execute(sql, (*chapters, *chapters)):
            key = (row["chapter"], row["section"], row["subject"], row["scheme"])
            if key not in numbers:
                number = _number(row)
                numbers[key] = (number, wanted(number))
            number, is_wanted = numbers[key]
            if is_wanted:
                others = () if row["others_json"] == "[]" else read.others(row["others_json"])
                found.append(Filed(places.of(row), number, read.evidence(row["evidence_json"]), others))
    return found


@_kept
def read_two_ways(catalogue: Catalogue) -> list[Filed]:
    """Every passage of which readings of the number disagree, with its numbers and those readings."""
    sql = f"""
        WITH now AS MATERIALIZED (SELECT * FROM number_now WHERE others_json <> '[]' AND scheme <> 'OWN')
        SELECT now.*, {_PLACE_COLUMNS} FROM now JOIN passage ON passage.id = now.passage_id
        {_PLACE_JOINS} {_IN_ORDER}, now.rank
    """
    read, known = _Places(), Decoded()
    with catalogue.reading() as connection:
        return [
            Filed(
                read.of(row),
                _number(row),
                known.evidence(row["evidence_json"]),
                known.others(row["others_json"]),
            )
            for row in connection.execute(sql)
        ]


def naming(
    catalogue: Catalogue, chapters: Collection[str], wanted: Callable[[ChapterNumber], bool]
) -> list[Naming]:
    """Every reference in a passage that names a number that is wanted, in order of place."""
    sql = f"""
        WITH said AS MATERIALIZED (
            SELECT * FROM citation WHERE chapter IN ({_marks(chapters)}) AND scheme <> 'OWN'
        )
        SELECT said.scheme, said.chapter, said.section, said.subject, said.citation_json,
            said.ordinal AS citation_ordinal, {_PLACE_COLUMNS}
        FROM said JOIN passage ON passage.id = said.passage_id {_PLACE_JOINS} {_IN_ORDER}, said.ordinal
    """
    found = []
    places, read = _Places(), Decoded()
    with catalogue.reading() as connection:
        for row in connection.execute(sql, tuple(chapters)):
            if wanted(_number(row)):
                citation = read.citation(row["citation_json"])
                found.append(Naming(places.of(row), row["citation_ordinal"], citation))
    return found


def places(catalogue: Catalogue, passage_ids: Iterable[str]) -> dict[str, Place]:
    """Passages on the shelf by id; ids that are not here are left out."""
    return {place.passage_id: place for place in _places(catalogue, "passage.id", passage_ids)}


def places_in(catalogue: Catalogue, publication_ids: Iterable[str]) -> dict[str, list[Place]]:
    """The passages of publications on the shelf, in reading order."""
    found: dict[str, list[Place]] = defaultdict(list)
    for place in _places(catalogue, "passage.publication_id", publication_ids):
        found[place.publication_id].append(place)
    return dict(found)


def _places(catalogue: Catalogue, column: str, ids: Iterable[str]) -> Iterator[Place]:
    read = _Places()
    for row in _batches(
        catalogue,
        f"SELECT {_PLACE_COLUMNS} FROM passage {_PLACE_JOINS} WHERE {column} IN (?) {_IN_ORDER}",
        ids,
    ):
        yield read.of(row)


def begun_pages(catalogue: Catalogue, publication_ids: Iterable[str]) -> set[tuple[str, int]]:
    """(publication id, pdf page) of every page on which a passage begins."""
    sql = "SELECT DISTINCT publication_id, pdf_page FROM passage WHERE publication_id IN (?)"
    return {(row["publication_id"], row["pdf_page"]) for row in _batches(catalogue, sql, publication_ids)}


def numbers_of(catalogue: Catalogue, passage_ids: Iterable[str]) -> dict[str, tuple[ChapterNumber, ...]]:
    """Passage id -> the numbers that hold for it now, in order; passages without any are left out."""
    sql = "SELECT * FROM number_now WHERE passage_id IN (?) ORDER BY passage_id, rank"
    found: dict[str, tuple[ChapterNumber, ...]] = {}
    for row in _batches(catalogue, sql, passage_ids):
        found[row["passage_id"]] = (*found.get(row["passage_id"], ()), _number(row))
    return found


def printed_pages(catalogue: Catalogue, publication_ids: Iterable[str]) -> dict[tuple[str, int], str]:
    """(publication id, pdf page) -> the page number as printed; pages without one are left out."""
    sql = """
        SELECT publication.id, page.pdf_page, page.printed_page FROM publication
        JOIN page ON page.copy_id = publication.copy_id
            AND page.pdf_page BETWEEN publication.first_page AND publication.last_page
        WHERE page.printed_page <> '' AND publication.id IN (?)
    """
    return {
        (row["id"], row["pdf_page"]): row["printed_page"] for row in _batches(catalogue, sql, publication_ids)
    }


def references_in(
    catalogue: Catalogue, passage_ids: Iterable[str], read: "Decoded | None" = None
) -> dict[str, list[Reference]]:
    """What passages refer to, by passage id, in order of place."""
    read = Decoded() if read is None else read
    sql = """
        SELECT passage_id, ordinal, record_json FROM reference WHERE passage_id IN (?)
        ORDER BY passage_id, ordinal
    """
    found: dict[str, list[Reference]] = defaultdict(list)
    for row in _batches(catalogue, sql, passage_ids):
        found[row["passage_id"]].append(read.reference(row))
    return dict(found)


def references_into(
    catalogue: Catalogue, publication_ids: Iterable[str], read: "Decoded | None" = None
) -> list[Reference]:
    """What passages on the shelf refer to, where that is one of these publications or a place in it."""
    # The keys alone are made distinct: a reference with many targets is long.
    sql = """
        WITH meant AS MATERIALIZED (
            SELECT DISTINCT passage_id, ordinal FROM reference_target WHERE target_id IN (?)
        )
        SELECT reference.record_json, meant.passage_id, meant.ordinal FROM meant
        CROSS JOIN passage ON passage.id = meant.passage_id
        JOIN publication ON publication.id = passage.publication_id
        JOIN copy ON copy.id = publication.copy_id AND copy.replaced_by IS NULL
        JOIN reference ON reference.passage_id = meant.passage_id AND reference.ordinal = meant.ordinal
        ORDER BY meant.passage_id, meant.ordinal
    """
    read = Decoded() if read is None else read
    found = {}
    for row in _batches(catalogue, sql, publication_ids):
        found.setdefault((row["passage_id"], row["ordinal"]), read.reference(row))
    return list(found.values())


@_kept
def numbers_held(catalogue: Catalogue) -> list[HeldNumber]:
    """Every number that holds for a passage on the shelf, in order; a manual's own numbers are left out."""
    sql = """
        SELECT scheme, chapter, section, subject, COUNT(*) AS passages FROM number_now
        JOIN passage ON passage.id = number_now.passage_id
        JOIN publication ON publication.id = passage.publication_id
        JOIN copy ON copy.id = publication.copy_id AND copy.replaced_by IS NULL
        WHERE scheme <> 'OWN' GROUP BY 1, 2, 3, 4
    """
    with catalogue.reading() as connection:
        found = [HeldNumber(_number(row), row["passages"]) for row in connection.execute(sql)]
    return sorted(found, key=lambda held: held.number)


@_kept
def own_order(catalogue: Catalogue) -> frozenset[str]:
    """Ids of publications that have numbers of their own order."""
    sql = """
        SELECT DISTINCT passage.publication_id FROM number_now
        JOIN passage ON passage.id = number_now.passage_id WHERE scheme = 'OWN'
    """
    with catalogue.reading() as connection:
        return frozenset(row["publication_id"] for row in connection.execute(sql))


@_kept
def remainder(catalogue: Catalogue) -> Remainder:
    """The passages on the shelf that are in the listing of no chapter."""
    passages = """
        WITH numbered AS MATERIALIZED (SELECT DISTINCT passage_id FROM number_now WHERE scheme <> 'OWN'),
            sectioned AS MATERIALIZED (SELECT DISTINCT passage_id FROM number_now WHERE scheme = 'OWN')
        SELECT passage.publication_id, sectioned.passage_id IS NOT NULL AS own, COUNT(*) AS passages
        FROM passage
        JOIN publication ON publication.id = passage.publication_id
        JOIN copy ON copy.id = publication.copy_id AND copy.replaced_by IS NULL
        LEFT JOIN numbered ON numbered.passage_id = passage.id
        LEFT JOIN sectioned ON sectioned.passage_id = passage.id
        WHERE numbered.passage_id IS NULL GROUP BY 1, 2 ORDER BY 1
    """
    own: dict[str, int] = {}
    unknown: dict[str, int] = {}
    with catalogue.reading() as connection:
        for row in connection.execute(passages):
            (own if row["own"] else unknown)[row["publication_id"]] = row["passages"]
    return Remainder(own, unknown)


class Decoded:
    """JSON texts that come again are read once; one may serve all that one answer reads."""

    def __init__(self) -> None:
        self._references: dict[tuple[str, int], Reference] = {}
        self.evidence = cache(lambda text: from_json(Evidence, text))
        self.citation = cache(lambda text: from_json(Citation, text))
        self.others = cache(
            lambda text: tuple(tag.value for tag in from_json(tuple[Tag[ChapterNumber], ...], text))
        )

    def reference(self, row: sqlite3.Row) -> Reference:
        key = (row["passage_id"], row["ordinal"])
        if key not in self._references:
            self._references[key] = from_json(Reference, row["record_json"])
        return self._references[key]


class _Places:
    """Rows -> places; a passage that comes again is read once."""

    def __init__(self) -> None:
        self._read: dict[str, Place] = {}
        self._standing = cache(
            lambda text, entered_type: standing_now(from_json(Standing, text), entered_type)
        )
        self._headings = cache(lambda text: from_json(tuple[str, ...], text))
        self._block = cache(lambda text: from_json(Tag[str], text).value if text else "")

    def of(self, row: sqlite3.Row) -> Place:
        passage_id = row["id"]
        if passage_id not in self._read:
            boxes = {int(page) for page in _PAGE_OF_BOX.findall(row["boxes_json"])}
            self._read[passage_id] = Place(
                passage_id,
                row["publication_id"],
                row["ordinal"],
                row["pdf_page"],
                row["printed_page"],
                tuple(sorted({row["pdf_page"], *boxes})),
                self._headings(row["heading_path_json"]),
                self._block(row["page_block_json"]),
                self._standing(row["standing_json"], row["entered_type"]),
                _figure(row["figure"] or ""),
            )
        return self._read[passage_id]


def _figure(text: str) -> str:
    """The title of a figure, where the text begins with one."""
    match = _FIGURE_TITLE.match(text)
    return match[0] if match else ""


def _number(row: sqlite3.Row) -> ChapterNumber:
    return _chapter_number(row["chapter"], row["section"], row["subject"], row["scheme"])


@lru_cache(maxsize=8192)
def _chapter_number(chapter: str, section: str | None, subject: str | None, scheme: str) -> ChapterNumber:
    return ChapterNumber(chapter, section, subject, Scheme(scheme))


def _batches(catalogue: Catalogue, sql: str, values: Iterable[str]) -> Iterator[sqlite3.Row]:
    """The rows of a statement with one `IN (?)`, asked in as many parts as the values need."""
    wanted = list(dict.fromkeys(values))
    with catalogue.reading() as connection:
        for start in range(0, len(wanted), _BATCH):
            batch = wanted[start : start + _BATCH]
            yield from connection.execute(sql.replace("IN (?)", f"IN ({_marks(batch)})"), batch).fetchall()


def _marks(values: Collection[str]) -> str:
    return ",".join("?" * len(values))
