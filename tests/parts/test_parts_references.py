"""The drawn parts lists beside other tools: more rows right than pdfplumber, the same words as pdftotext."""

import shutil
from collections import Counter

import pytest
from parts_layouts import books
from parts_references import STRATEGIES, our_rows, pdfplumber_rows, pdftotext_words, right_rows, words_of

from indexer.reading.document import read_document
from indexer.settings import Settings
from indexer.tagging.parts_list import read_parts_list
from indexer.trade.publication_types import PublicationType

BOOKS = books()


@pytest.fixture(scope="module")
def drawn(tmp_path_factory):
    folder = tmp_path_factory.mktemp("drawn")
    made = []
    for book in BOOKS:
        path = book.write(folder)
        document = read_document(path, Settings())
        made.append((book, path, read_parts_list(PublicationType(book.kind), document.pages)))
    return made


@pytest.mark.parametrize("name", STRATEGIES)
def test_more_rows_are_right_than_with_pdfplumbers_own_tables(name, drawn):
    ours = {book.name: right_rows(book, our_rows(parts)) for book, _, parts in drawn}
    theirs = {book.name: right_rows(book, pdfplumber_rows(path, STRATEGIES[name])) for book, path, _ in drawn}
    rows = sum(len(book.rows) for book in BOOKS)
    print(f"{name}: {sum(theirs.values())} of {rows} rows right, ours {sum(ours.values())}; {theirs}")
    assert sum(theirs.values()) > 0, "the scorer must be able to see a row of theirs"
    assert all(ours[book.name] >= theirs[book.name] for book in BOOKS)
    assert sum(ours.values()) > sum(theirs.values())


@pytest.mark.poppler
@pytest.mark.skipif(shutil.which("pdftotext") is None, reason="pdftotext (poppler-utils) is missing")
def test_the_words_of_rows_are_those_of_pdftotext(drawn):
    ours_in_all, shared = 0, 0
    for _, path, parts in drawn:
        for page in sorted({row.pdf_page for row in parts.rows}):
            theirs = pdftotext_words(path, page)
            ours: Counter[str] = Counter()
            for row in parts.rows:
                if {box.pdf_page for box in row.boxes} == {page}:
                    ours += words_of(row.quote)
            ours_in_all += ours.total()
            shared += (ours & theirs).total()
    print(f"{shared} of {ours_in_all} words of rows are those of pdftotext -layout")
    assert ours_in_all > 3000
    assert shared / ours_in_all >= 0.99
