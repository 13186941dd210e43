"""Words of a system for a search among what has no number.

Outside check: titles of the FAA's JASC Code Table and Definitions, 27 October 2008. The choice of words is
common practice, no source.
"""

import pytest

from indexer.library.folding import singular
from indexer.trade.chapter_tables import chapter_rows, jasc_rows, read_table
from indexer.trade.telling_words import telling_words


def test_every_row_is_of_a_chapter_and_has_a_few_words_once():
    rows = read_table("telling_words.csv")
    assert len({row["number"] for row in rows}) == len(rows)
    for row in rows:
        words = row["words"].split()
        assert row["number"][:2] in chapter_rows() and row["source"]
        assert 2 <= len(words) == len(set(words)) <= 7


@pytest.mark.parametrize(
    "chapter", ["21", "24", "27", "28", "29", "32", "34", "35", "52", "57", "61", "74", "79"]
)
def test_some_words_stand_in_the_titles_of_the_jasc_table(chapter):
    titles = " ".join(row.title for code, row in jasc_rows().items() if code.startswith(chapter)).casefold()
    said = {singular(word.strip("/,()")) for word in titles.replace("/", " ").split()}
    assert {singular(word) for word in telling_words(chapter)} & said


def test_a_section_has_its_own_words_or_those_of_its_chapter():
    assert telling_words("32", "40") == ("brake", "wheel", "tire", "lining")
    assert telling_words("32", "45") == telling_words("32", "40")  # 32-45 is a part of 32-40
    assert telling_words("27", "10") == telling_words("27")
    assert "controls" in telling_words("27") and "aileron" in telling_words("27")
    assert telling_words("00") == ()
