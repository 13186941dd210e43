"""The pages that wait for OCR in their order, and what the order follows from, read from the catalogue."""

from indexer.library.catalogue import Catalogue
from indexer.library.fleet import fleet
from indexer.library.ocr_order import in_order
from indexer.library.ocr_pages import debt_by_publication, pages_to_read
from indexer.library.ocr_records import WANTED, PageToRead, Shelved, Wanted


def queue(catalogue: Catalogue) -> list[PageToRead]:
    """Every page that waits for OCR, the most wanted first."""
    with catalogue.reading():
        return in_order(pages_to_read(catalogue), _shelf(catalogue), wanted(catalogue))


def queue_state(catalogue: Catalogue) -> tuple[int, int]:
    """What the order follows from, but for the pages that were read since: a new value after each change."""
    with catalogue.reading():
        return catalogue.generation, catalogue.own_number(WANTED)


def wanted(catalogue: Catalogue) -> Wanted:
    """What the shop looks for, and the models it keeps."""
    with catalogue.reading() as connection:
        opened = connection.execute(
            "SELECT copy_id, pdf_page FROM wanted_page ORDER BY last_at DESC, copy_id, pdf_page"
        ).fetchall()
        missed = connection.execute("SELECT words, times FROM missed_search ORDER BY words").fetchall()
        return Wanted(
            tuple((row["copy_id"], row["pdf_page"]) for row in opened),
            tuple((row["words"], row["times"]) for row in missed),
            _models(catalogue),
        )


def _models(catalogue: Catalogue) -> tuple[str, ...]:
    """Each once: of the aircraft, of their engines, propellers and appliances, and numbers of alterations."""
    found = (
        model for each in fleet(catalogue) for model in (each.model, *(one.model for one in each.fitted))
    )
    return tuple(dict.fromkeys(model for model in found if model.strip()))


def _shelf(catalogue: Catalogue) -> list[Shelved]:
    """The publications with pages that are not read yet."""
    return [
        Shelved(
            copy_id=each.copy_id,
            first_page=each.first_page,
            last_page=each.last_page,
            known=bool(each.type or each.number or each.title),
            names=" ".join((each.number, each.title, each.file)),
            models=each.models,
        )
        for each in catalogue.publications_with(list(debt_by_publication(catalogue)))
    ]
