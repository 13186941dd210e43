"""Publications as the rules across documents take them, loaded from the catalogue part by part."""

import json
import re
import sqlite3
from collections.abc import Iterator, Mapping
from functools import cached_property, lru_cache

from indexer.library.codec import from_json
from indexer.library.relation_rules.held import Held, HeldPassage
from indexer.tagging.tags import Claim, DirectiveFacts, Identity, Standing
from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.evidence import Basis, Origin

_PAGE_OF_BOX = re.compile(r'"pdf_page":([0-9]+)')


def held_publications(connection: sqlite3.Connection, identities: Mapping[str, Identity]) -> list[Held]:
    """Every publication of the catalogue, with the identities given by its id."""
    claims: dict[str, list[Claim]] = {}
    for row in connection.execute(
        "SELECT publication_id, claim_json FROM claim ORDER BY publication_id, ordinal"
    ):
        claims.setdefault(row["publication_id"], []).append(from_json(Claim, row["claim_json"]))
    texts: dict[str, list[str]] = {}
    for row in connection.execute(
        "SELECT passage.publication_id, passage.text FROM directive JOIN passage USING (publication_id)"
        " ORDER BY passage.publication_id, passage.ordinal"
    ):
        texts.setdefault(row["publication_id"], []).append(row["text"])
    found = connection.execute(
        "SELECT publication.id, facts_json, replaced_by FROM publication"
        " JOIN copy ON copy.id = publication.copy_id LEFT JOIN directive ON publication_id = publication.id"
    )
    return [
        Held(
            id=row["id"],
            on_shelf=row["replaced_by"] is None,
            identity=identities[row["id"]],
            claims=tuple(claims.get(row["id"], ())),
            directive=from_json(DirectiveFacts, row["facts_json"]) if row["facts_json"] else None,
            text="\n".join(texts.get(row["id"], ())),
        )
        for row in found
    ]


class Texts(Mapping[str, "_Text"]):
    """The inside of every publication, as held.HeldText."""

    def __init__(self, connection: sqlite3.Connection):
        self._connection = connection
        self._held: dict[str, _Text] = {}

    def __getitem__(self, publication_id: str) -> "_Text":
        if publication_id not in self._held:
            self._held[publication_id] = _Text(self._connection, publication_id)
        return self._held[publication_id]

    def __iter__(self) -> Iterator[str]:
        return (row["id"] for row in self._connection.execute("SELECT id FROM publication"))

    def __len__(self) -> int:
        return self._connection.execute("SELECT COUNT(*) FROM publication").fetchone()[0]


# A number worked out from the text is a guess: no temporary revision is laid over a page by one.
_SAID = f"""evidence_json NOT LIKE '%"basis":"{Basis.INFERRED.value}"%'"""


class _Text:
    """The inside of one publication. Texts and boxes are long; many rules look at numbers on pages only."""

    def __init__(self, connection: sqlite3.Connection, publication_id: str):
        self._connection = connection
        self._id = publication_id

    def _rows(self, select: str) -> list[sqlite3.Row]:
        return self._connection.execute(select, (self._id,)).fetchall()

    @cached_property
    def printed_pages(self) -> Mapping[int, str]:
        found = self._rows(
            "SELECT pdf_page, printed_page FROM publication JOIN page USING (copy_id)"
            " WHERE publication.id = ? AND pdf_page BETWEEN first_page AND last_page"
        )
        return {row["pdf_page"]: row["printed_page"] for row in found}

    @cached_property
    def passages(self) -> tuple[HeldPassage, ...]:
        found = self._rows(
            "SELECT * FROM passage JOIN standing ON passage_id = id WHERE publication_id = ? ORDER BY ordinal"
        )
        return tuple(
            HeldPassage(
                id=row["id"],
                pages=tuple(pages_of(row["pdf_page"], row["boxes_json"])),
                heading_path=tuple(json.loads(row["heading_path_json"])),
                text=row["text"],
                numbers=self._numbers.get(row["id"], ()),
                standing=_standing(row["standing_json"]),
                origin=Origin(row["origin"]),
            )
            for row in found
        )

    @cached_property
    def _numbers(self) -> dict[str, tuple[ChapterNumber, ...]]:
        """Passage id -> its numbers, those worked out from its text left out."""
        numbers: dict[str, tuple[ChapterNumber, ...]] = {}
        for row in self._rows(
            "SELECT passage_id, scheme, chapter, section, subject FROM passage"
            f" JOIN number_tag ON passage_id = passage.id AND {_SAID} WHERE publication_id = ?"
            " ORDER BY passage_id, rank"
        ):
            passage, *parts = row
            numbers[passage] = (*numbers.get(passage, ()), number(*parts))
        return numbers

    def numbers_on(self, pdf_page: int) -> frozenset[ChapterNumber]:
        if pdf_page in self._begun:
            return frozenset(self._begun[pdf_page])
        touching = self._touches.get(pdf_page, ())
        return frozenset(each for passage in touching for each in self._numbers.get(passage, ()))

    @cached_property
    def _begun(self) -> dict[int, set[ChapterNumber]]:
        """Page -> the numbers of the passages that begin there; pages on which none begins are left out."""
        found: dict[int, set[ChapterNumber]] = {}
        for row in self._rows(
            "SELECT DISTINCT pdf_page, scheme, chapter, section, subject FROM passage"
            f" LEFT JOIN number_tag ON passage_id = passage.id AND {_SAID} WHERE publication_id = ?"
        ):
            page, *parts = row
            numbers = found.setdefault(page, set())
            if parts[0] is not None:
                numbers.add(number(*parts))
        return found

    @cached_property
    def _touches(self) -> dict[int, list[str]]:
        """Page -> the passages that lie on it."""
        found: dict[int, list[str]] = {}
        for row in self._rows("SELECT id, pdf_page, boxes_json FROM passage WHERE publication_id = ?"):
            for page in pages_of(row["pdf_page"], row["boxes_json"]):
                found.setdefault(page, []).append(row["id"])
        return found


def pages_of(pdf_page: int, boxes_json: str) -> dict[int, None]:
    """The pages that a passage lies on, in order, the one it begins on first."""
    return dict.fromkeys((pdf_page, *map(int, _PAGE_OF_BOX.findall(boxes_json))))


@lru_cache(65536)
def number(scheme: str, chapter: str, section: str | None, subject: str | None) -> ChapterNumber:
    """A chapter number from its columns: a library holds few that differ."""
    return ChapterNumber(chapter, section, subject, Scheme(scheme))


@lru_cache(4096)
def _standing(text: str) -> Standing:
    """Most passages of a publication have the same."""
    return from_json(Standing, text)
