"""Looks up what a reference of a shop's record may mean: publications by key, and places inside one of them.

Read by key and by place, so that one line costs the same in a large library as in a small one. The rules of
what a place is are those of references between documents (relation_rules/places.py).
"""

import datetime
import json
import sqlite3
from collections.abc import Collection, Sequence
from dataclasses import dataclass

from indexer.library.catalogue import Catalogue
from indexer.library.codec import from_json
from indexer.library.holding import Texts, number
from indexer.library.records import PassageRecord, PublicationRecord
from indexer.library.relation_rules.held import HeldPassage
from indexer.library.relation_rules.places import Inside, InsidePassage, folded_page
from indexer.reading.page import PassageKind
from indexer.tagging.tags import Citation, Claim, StandingValue
from indexer.trade.chapters import ChapterNumber, Scheme

_STANDING = "COALESCE(entered_standing.value, directive_standing.value, standing.value)"


def publications_called(catalogue: Catalogue, names: Collection[str]) -> list[PublicationRecord]:
    """Publications with one of these keys (see reference_targets.names_of), replaced ones too, by id."""
    wanted = sorted(set(names))
    if not wanted:
        return []
    with catalogue.reading() as connection:
        found = connection.execute(
            "SELECT DISTINCT related.publication_id FROM related, json_each(names_json)"
            f" WHERE json_each.value IN ({_marks(wanted)})",
            wanted,
        )
        return catalogue.publications_with([row["publication_id"] for row in found.fetchall()])


def inside_of(catalogue: Catalogue, publication_id: str, citation: Citation) -> Inside:
    """The places of a publication that a reference may name: of its chapter, else of its page, else all.

    A number of the manual's own order may stand in headings alone, so such a manual is read whole.
    """
    with catalogue.reading() as connection:
        chapters = _chapters(citation.chapter_number)
        if chapters:
            # "+" keeps to the passages of this publication: the index of chapters has those of all manuals.
            marks = ",".join(f"?{place}" for place in range(2, 2 + len(chapters)))
            where = (
                " AND EXISTS (SELECT 1 FROM number_tag AS filed WHERE filed.passage_id = passage.id"
                f" AND +filed.chapter IN ({marks}))"
            )
            return Inside.of(_passages(connection, publication_id, where, chapters))
        if citation.page and not citation.chapter_number:
            pages = _pages_printed(connection, publication_id, citation.page)
            marks = ",".join(f"?{place}" for place in range(2, 2 + len(pages)))
            return Inside.of(
                _passages(connection, publication_id, f" AND passage.pdf_page IN ({marks})", pages)
            )
        return Inside.of(_passages(connection, publication_id))


def reads_whole(citation: Citation) -> bool:
    """Whether `inside_of` reads all of a publication for this reference."""
    return not _chapters(citation.chapter_number) and not (citation.page and not citation.chapter_number)


def holds_number(catalogue: Catalogue, publication_id: str, wanted: ChapterNumber) -> bool:
    """Whether a passage of the publication prints a number that is the one wanted or is covered by it."""
    chapters = _chapters(wanted)
    with catalogue.reading() as connection:
        found = connection.execute(
            "SELECT DISTINCT scheme, chapter, section, subject FROM passage"
            " CROSS JOIN number_tag ON number_tag.passage_id = passage.id"
            f" WHERE publication_id = ? AND +chapter IN ({_marks(chapters)})"
            """ AND evidence_json NOT LIKE '%"basis":"inferred"%'""",
            (publication_id, *chapters),
        )
        return any(_covers(wanted, number(*row)) for row in found)


def prints_page_date(
    catalogue: Catalogue, publication_id: str, date: datetime.date, printed_page: str
) -> bool:
    """Whether a page with this printed number prints this date as its own; "" = any page."""
    wanted = folded_page(printed_page.split(" through ")[0])
    with catalogue.reading() as connection:
        found = connection.execute(
            "SELECT printed_page FROM page_mark WHERE publication_id = ? AND date = ?",
            (publication_id, date.isoformat()),
        )
        return any(not wanted or folded_page(row["printed_page"]) == wanted for row in found)


def text_of(catalogue: Catalogue, publication_id: str) -> tuple[HeldPassage, ...]:
    """All passages of a publication, as the rules about paragraphs take them. For papers, not for manuals."""
    with catalogue.reading() as connection:
        return Texts(connection)[publication_id].passages


def limitations_of(catalogue: Catalogue, publication_id: str) -> list[PassageRecord]:
    """The passages of a publication that stand under a heading of airworthiness limitations, in order."""
    with catalogue.reading() as connection:
        found = connection.execute(
            "SELECT id FROM passage WHERE publication_id = ?"
            " AND heading_path_json LIKE '%airworthiness%limitation%' ORDER BY ordinal",
            (publication_id,),
        )
        ids = [row["id"] for row in found]
    return list(catalogue.passages(ids).values())


@dataclass(frozen=True, slots=True)
class StandingCount:
    """How many passages of a publication have a standing from one source, and the first of them."""

    value: StandingValue
    directive: str  # id of the directive that gave it, "" = none
    passages: int
    first: str  # passage id


def standing_counts(catalogue: Catalogue, publication_id: str) -> list[StandingCount]:
    """The standings that the passages of a publication have now; [] when it has no passage."""
    with catalogue.reading() as connection:
        found = connection.execute(
            f"SELECT {_STANDING} AS value, COALESCE(directive_standing.directive_id, '') AS directive,"
            " COUNT(*) AS passages, passage.id AS first, MIN(passage.ordinal)"
            " FROM passage JOIN standing ON standing.passage_id = passage.id"
            " LEFT JOIN directive_standing ON directive_standing.passage_id = passage.id"
            " LEFT JOIN entered_standing ON entered_standing.passage_id = passage.id"
            " WHERE passage.publication_id = ? GROUP BY 1, 2 ORDER BY 1, 2",
            (publication_id,),
        )
        return [
            StandingCount(StandingValue(row["value"]), row["directive"], row["passages"], row["first"])
            for row in found
        ]


def claims_on(catalogue: Catalogue, pieces: Collection[str]) -> list[tuple[str, int, Claim]]:
    """What publications on the shelf say of documents whose number holds all these pieces.

    pieces   letters and figures between the dashes, such as "XJ9", "53A0041": the caller compares the numbers
    Gives (publication id, ordinal of the claim, claim), in order.
    """
    if not pieces:
        return []
    holding = " AND ".join(["instr(upper(claim.document), ?) > 0"] * len(pieces))
    with catalogue.reading() as connection:
        found = connection.execute(
            "SELECT claim.publication_id, claim.ordinal, claim_json FROM claim"
            " JOIN publication ON publication.id = claim.publication_id"
            " JOIN copy ON copy.id = publication.copy_id AND copy.replaced_by IS NULL"
            f" WHERE {holding} ORDER BY claim.publication_id, claim.ordinal",
            [piece.upper() for piece in pieces],
        )
        return [(row["publication_id"], row["ordinal"], from_json(Claim, row["claim_json"])) for row in found]


def claim_of(catalogue: Catalogue, publication_id: str, ordinal: int) -> Claim | None:
    """One claim of a publication by its place among them."""
    with catalogue.reading() as connection:
        row = connection.execute(
            "SELECT claim_json FROM claim WHERE publication_id = ? AND ordinal = ?", (publication_id, ordinal)
        ).fetchone()
    return from_json(Claim, row["claim_json"]) if row else None


def _chapters(wanted: ChapterNumber | None) -> tuple[str, ...]:
    """Chapters that a number may be filed under; () for none, and for a manual's own order."""
    if wanted is None or wanted.scheme is Scheme.OWN:
        return ()
    ata = wanted.ata()
    return tuple(dict.fromkeys((wanted.chapter, ata.chapter if ata else wanted.chapter)))


def _covers(wanted: ChapterNumber, held: ChapterNumber) -> bool:
    return held.scheme is not Scheme.OWN and (held == wanted or wanted.covers(held))


def _pages_printed(connection: sqlite3.Connection, publication_id: str, page: str) -> tuple[int, ...]:
    """pdf pages, 1-based, that print the page named (the first of a range)."""
    wanted = folded_page(page.split(" through ")[0])
    found = connection.execute(
        "SELECT page.pdf_page, page.printed_page FROM publication JOIN page USING (copy_id)"
        " WHERE publication.id = ? AND pdf_page BETWEEN first_page AND last_page",
        (publication_id,),
    )
    return tuple(row["pdf_page"] for row in found if folded_page(row["printed_page"]) == wanted)


def _passages(
    connection: sqlite3.Connection, publication_id: str, where: str = "", values: Sequence = ()
) -> list[InsidePassage]:
    """Passages as places, in reading order. Numbers worked out from the text are no places."""
    given = (publication_id, *values)
    found = connection.execute(
        "SELECT passage.id, passage.pdf_page, page.printed_page, passage.kind, heading_path_json, text"
        " FROM passage JOIN publication ON publication.id = passage.publication_id"
        " JOIN page ON page.copy_id = publication.copy_id AND page.pdf_page = passage.pdf_page"
        f" WHERE passage.publication_id = ?1{where} ORDER BY passage.ordinal",
        given,
    ).fetchall()
    numbers: dict[str, tuple[ChapterNumber, ...]] = {}
    for row in connection.execute(
        "SELECT number_tag.passage_id, scheme, chapter, section, subject FROM passage"
        " CROSS JOIN number_tag ON number_tag.passage_id = passage.id"
        f""" WHERE passage.publication_id = ?1{where} AND evidence_json NOT LIKE '%"basis":"inferred"%'"""
        " ORDER BY passage_id, rank",
        given,
    ):
        passage, *parts = row
        numbers[passage] = (*numbers.get(passage, ()), number(*parts))
    return [
        InsidePassage(
            row["id"],
            row["pdf_page"],
            row["printed_page"],
            row["kind"] == PassageKind.FIGURE_TITLE.value,
            tuple(json.loads(row["heading_path_json"])),
            row["text"],
            numbers.get(row["id"], ()),
        )
        for row in found
    ]


def _marks(values: Collection) -> str:
    return ",".join("?" * len(values))
