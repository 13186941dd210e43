"""The truth files that follow from the drawing: truth.csv (pages) and publications_truth.csv."""

import csv
from itertools import groupby
from pathlib import Path

from sample_docs.draw.facts import PageFacts
from sample_docs.draw.library import all_pages

PAGE_COLUMNS = [
    *("file", "pdf_page", "printed_page", "publication_type", "publication_number", "revision", "date"),
    *("chapter", "section", "subject", "scheme", "page_block", "text_state"),
    *("data_standing", "directive_standing", "filed_under", "note"),
]
PUBLICATION_COLUMNS = [
    *("file", "first_page", "last_page", "type", "number", "title", "maker", "models", "revision", "date")
]


def write_truth(folder: Path, drawn: dict[str, list[PageFacts]]) -> None:
    """Write both files into `folder`."""
    pages = list(all_pages(drawn))
    _write(folder / "truth.csv", PAGE_COLUMNS, [_page_row(*page) for page in pages])
    _write(folder / "publications_truth.csv", PUBLICATION_COLUMNS, _publication_rows(pages))


def _page_row(file: str, pdf_page: int, facts: PageFacts) -> tuple:
    publication = facts.publication
    final = facts.final_standing or facts.data_standing
    return (
        file,
        pdf_page,
        facts.printed_page,
        publication.type,
        publication.number,
        publication.revision,
        publication.date or "",
        *facts.number_parts,
        facts.scheme,
        facts.page_block,
        facts.text_state,
        facts.data_standing,
        f"{final}; {facts.directive}" if facts.directive else final,
        facts.filed_under,
        facts.note,
    )


def _publication_rows(pages: list[tuple[str, int, PageFacts]]) -> list[tuple]:
    rows = []
    for (file, publication), group in groupby(pages, key=lambda page: (page[0], page[2].publication)):
        numbers = [pdf_page for _, pdf_page, _ in group]
        rows.append(
            (
                file,
                numbers[0],
                numbers[-1],
                publication.type,
                publication.number,
                publication.title,
                publication.maker,
                "; ".join(publication.models),
                publication.revision,
                publication.date or "",
            )
        )
    return rows


def _write(path: Path, columns: list[str], rows: list[tuple]) -> None:
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(columns)
        writer.writerows(rows)
