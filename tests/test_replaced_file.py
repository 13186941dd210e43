"""A file is overwritten by another edition of it: what the shop entered follows, or somebody is asked."""

import shutil
from pathlib import Path

import pypdfium2
import pytest

from indexer.ingest import ingest
from indexer.library import decisions, review
from indexer.library.catalogue import Catalogue
from indexer.library.records import EntryKind, EntryState, ReviewCause
from indexer.library.relations import relate
from indexer.library.shop_entries import entries
from indexer.settings import Settings

MANUAL = Path(__file__).parent.parent / "sample_docs" / "pdf" / "h-14-service-manual.pdf"
SETTINGS = Settings(workers=1)


def without_page(path: Path, pdf_page: int) -> None:
    with pypdfium2.PdfDocument(path) as document:
        document.del_page(pdf_page - 1)
        document.save(path.with_suffix(".cut"))
    path.with_suffix(".cut").replace(path)


def filed(catalogue) -> set[str]:
    """Headings on the shelf that the shop's entry files under 32-41."""
    return {
        " > ".join(passage.heading_path)
        for record in catalogue.publications()
        for passage in catalogue.passages_of(record.id)
        if passage.numbers and str(passage.numbers[0].value) == "32-41"
    }


@pytest.mark.parametrize("whole_section", [True, False], ids=["another page cut", "the section cut"])
def test_a_decision_follows_the_file_or_is_asked_about_again(tmp_path, whole_section):
    folder, library = tmp_path / "in", tmp_path / "library"
    folder.mkdir()
    path = Path(shutil.copy(MANUAL, folder))
    ingest([folder], library, SETTINGS)
    with Catalogue.open(library) as catalogue:
        item = next(
            item
            for item in review.queue(catalogue, None, 500).items
            if item.section in ("5", "V") and item.cause is not ReviewCause.NO_TEXT
        )
        decisions.decide(catalogue, item.id, EntryKind.CHAPTERS, "32-41", "R. Quill", "read on the page")
        relate(catalogue)
        before, (entry,) = filed(catalogue), entries(catalogue)
        pages = {
            passage.pdf_page
            for record in catalogue.publications()
            for passage in catalogue.passages_of(record.id)
            if passage.numbers and str(passage.numbers[0].value) == "32-41"
        }
        last = catalogue.copies()[0].pages
        assert before and last not in pages
    for page in [last] if whole_section else sorted(pages, reverse=True):
        without_page(path, page)
    ingest([folder], library, SETTINGS)
    with Catalogue.open(library) as catalogue:
        (held,) = catalogue.publications()
        assert held.copy_id != entry.copy_id
        (now,) = entries(catalogue)
        asked = [item.entry_id for item in review.queue(catalogue, [ReviewCause.CHECK_AGAIN]).items]
        if whole_section:
            assert (filed(catalogue), now.state, asked) == (before, EntryState.IN_FORCE, [])
        else:
            assert (filed(catalogue), now.state, asked) == (set(), EntryState.CHECK_AGAIN, [entry.id])
