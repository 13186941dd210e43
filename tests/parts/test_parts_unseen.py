"""What is read of layouts that nothing was made for: a row is right, or it is flagged.

Truth first, then the pages, then the reading (unseen_pages.txt; invented, common practice, no source). At
first sight, before any rule was mended:

first 29 books  184 rows: 92 right, 20 flagged, 46 wrong and not flagged, 26 lost; 25 lines that are no rows,
                most of them of lists of other things, were taken for rows, and 17 more were, flagged
next 11 books   50 rows: 30 right, 10 flagged, 10 wrong and not flagged, 0 lost; 2 lines were taken for rows

The last 4 books were drawn together with the rules that they hold, and had no first sight, but for the list
that goes on over three pages: of its 11 rows 3 were lost.

The numbers below are those of mended rules, and no longer of a first sight.
"""

from collections import Counter

import pytest
from parts_unseen import Verdict, judge, unseen_books

from indexer.reading.document import read_document
from indexer.settings import Settings
from indexer.tagging.parts_list import read_parts_list
from indexer.trade.publication_types import PublicationType

BOOKS = {book.name: book for book in unseen_books()}
RIGHT_AT_LEAST = 175  # of 255 rows; the others are flagged


@pytest.fixture(scope="module")
def judged(tmp_path_factory):
    folder = tmp_path_factory.mktemp("unseen")
    made = {}
    for name, unseen in BOOKS.items():
        pages = read_document(unseen.book.write(folder), Settings()).pages
        made[name] = judge(unseen, read_parts_list(PublicationType.PARTS_CATALOG, pages))
    return made


@pytest.mark.parametrize("name", BOOKS)
def test_a_row_is_right_or_flagged_and_none_is_lost_or_made_up(name, judged):
    _, faults = judged[name]
    assert faults == []


def test_most_rows_are_right_and_not_only_flagged(judged):
    verdicts = sum((verdicts for verdicts, _ in judged.values()), Counter())
    assert sum(len(book.truth) for book in BOOKS.values()) == 255
    assert verdicts[Verdict.RIGHT] >= RIGHT_AT_LEAST, verdicts
