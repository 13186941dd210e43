"""Hands the search engine what changed in the catalogue since it was last fed, as one commit."""

from collections.abc import Iterable, Iterator

from indexer.library.catalogue import Catalogue
from indexer.library.filing import chapters_of, sections_of
from indexer.library.fulltext import FullText, IndexedPassage
from indexer.library.generations import meta, set_meta
from indexer.library.records import PassageRecord, PublicationRecord
from indexer.trade.publication_types import type_row

MOST_MODELS = 6


def feed(catalogue: Catalogue, engine: FullText) -> None:
    """Bring the index to the catalogue's generation; rebuild it when it is not at the one last handed to it.

    An index of another library, one beside a restored backup, and one that was stopped between its commit and
    our note of it all show a generation that is not the one noted here: none of them is built upon.
    """
    with catalogue.reading() as connection:
        generation = meta(connection, "generation")
        noted = meta(connection, "indexed_generation")
        changed = [
            row["publication_id"] for row in connection.execute("SELECT DISTINCT publication_id FROM outbox")
        ]
        if noted == 0 or engine.generation() != noted:
            engine.rebuild(generation, _indexed(catalogue, catalogue.publications()))
        elif changed:
            held = [each for each in catalogue.publications_with(sorted(changed)) if each.replaced is None]
            engine.apply(generation, sorted(changed), _indexed(catalogue, held))
        else:
            return
    with catalogue.database.writing() as connection:
        set_meta(connection, "indexed_generation", generation)
        connection.execute("DELETE FROM outbox WHERE generation <= ?", (generation,))


def is_current(catalogue: Catalogue, engine: FullText) -> bool:
    """True when the index holds all that the catalogue holds."""
    with catalogue.reading() as connection:
        waiting = connection.execute("SELECT 1 FROM outbox LIMIT 1").fetchone()
        return waiting is None and engine.generation() == meta(connection, "indexed_generation") != 0


def _indexed(catalogue: Catalogue, publications: Iterable[PublicationRecord]) -> Iterator[IndexedPassage]:
    for publication in publications:
        for passage in catalogue.passages_of(publication.id):
            yield indexed_passage(publication, passage)


def indexed_passage(publication: PublicationRecord, passage: PassageRecord) -> IndexedPassage:
    """A passage as an engine takes it.

    The numbers it is filed under and its publication's number are searched like headings: who types 32-41
    means the pages of 32-41 first, and only then the pages that refer to it. So are the models that its
    publication is for: who types a model means its manuals, and few of their pages print it.
    """
    filed = (str(tag.value) for tag in passage.numbers)
    parts = (_called(publication), publication.title, *_models(publication), *passage.heading_path, *filed)
    return IndexedPassage(
        passage_id=passage.id,
        publication_id=publication.id,
        heading="\n".join(part for part in parts if part),
        text=passage.text,
        chapters=chapters_of(passage.numbers),
        sections=sections_of(passage.numbers),
        type=publication.type.value if publication.type else "",
        standing=passage.standing.value.value,
    )


def _models(publication: PublicationRecord) -> tuple[str, ...]:
    """None where they are many: what is for all of them is about none."""
    models = tuple(tag.value for tag in publication.identity.models)
    return models if len(models) <= MOST_MODELS else ()


def _called(publication: PublicationRecord) -> str:
    """The number as people type it, "SB 32-0012", with the short word of the type before it."""
    number = publication.number
    short = type_row(publication.type).short if publication.type else ""
    return number if not number or number.upper().startswith(short) else f"{short} {number}"
