"""What passages refer to, and what refers to a place: read from the catalogue. Copies on the shelf only.

References are worked out by `relations.relate`; the rules are in relation_rules/references.py.
"""

from indexer.library.catalogue import Catalogue
from indexer.library.codec import from_json
from indexer.library.records import Reference, ReferenceState
from indexer.trade.chapters import ChapterNumber, Scheme

_FROM_SHELF = """
    SELECT DISTINCT reference.record_json, passage.publication_id, passage.ordinal AS place, reference.ordinal
    FROM reference
    JOIN passage ON passage.id = reference.passage_id
    JOIN publication ON publication.id = passage.publication_id
    JOIN copy ON copy.id = publication.copy_id AND copy.replaced_by IS NULL
"""
_IN_ORDER = " ORDER BY passage.publication_id, passage.ordinal, reference.ordinal"


def references_from(
    catalogue: Catalogue, publication_id: str, pdf_page: int | None = None
) -> list[Reference]:
    """What a publication refers to, in order of place; with `pdf_page`, the passages that begin there."""
    where = "WHERE passage.publication_id = ?1 AND (?2 IS NULL OR passage.pdf_page = ?2)"
    return _references(catalogue, where, (publication_id, pdf_page))


def references_to(catalogue: Catalogue, publication_id: str, pdf_page: int | None = None) -> list[Reference]:
    """Who refers to a publication; with `pdf_page`, to that page of it or to a passage there.

    References with several possible targets are among them: their state says CANNOT_TELL.
    """
    where = """
        JOIN reference_target
            ON reference_target.passage_id = reference.passage_id
            AND reference_target.ordinal = reference.ordinal
        WHERE reference_target.target_id = ?1 AND (?2 IS NULL OR reference_target.pdf_page = ?2)
    """
    return _references(catalogue, where, (publication_id, pdf_page))


def references_to_number(catalogue: Catalogue, number: ChapterNumber) -> list[Reference]:
    """Every reference that names a chapter number covered by `number`, whether or not it leads anywhere.

    Numbers of a manual's own order (scheme OWN) are never compared across manuals: they give [].
    """
    if number.scheme is Scheme.OWN:
        return []
    where = """
        JOIN citation ON citation.passage_id = reference.passage_id AND citation.ordinal = reference.ordinal
        WHERE citation.scheme IS NOT NULL AND citation.scheme <> 'OWN'
    """
    ata = number.ata()
    chapters = tuple({number.chapter, ata.chapter if ata else number.chapter})
    marks = ",".join("?" * len(chapters))
    found = _references(catalogue, f"{where} AND citation.chapter IN ({marks})", chapters)
    return [each for each in found if _covers(number, each.citation.chapter_number)]


def unresolved(catalogue: Catalogue, publication_id: str | None = None) -> list[Reference]:
    """References that lead nowhere here, or of which cannot be told where: of one publication, or all."""
    where = "WHERE reference.state <> ?1 AND (?2 IS NULL OR passage.publication_id = ?2)"
    return _references(catalogue, where, (ReferenceState.RESOLVED.value, publication_id))


def _references(catalogue: Catalogue, where: str, values: tuple) -> list[Reference]:
    with catalogue.reading() as connection:
        found = connection.execute(f"{_FROM_SHELF} {where} {_IN_ORDER}", values)
        return [from_json(Reference, row["record_json"]) for row in found]


def _covers(number: ChapterNumber, named: ChapterNumber | None) -> bool:
    return named is not None and number.covers(named)
