"""Every table of the trade names the source of each of its rows."""

from importlib import resources

import pytest

from indexer.trade.chapter_tables import read_table
from indexer.trade.publication_types import PublicationType, parse_type, type_row

TABLES = sorted(path.name for path in resources.files("indexer.trade").joinpath("tables").iterdir())


def test_the_tables_are_there():
    assert {"chapters.csv", "jasc.csv", "page_blocks.csv", "task_functions.csv"} <= set(TABLES)


@pytest.mark.parametrize("name", TABLES)
def test_each_row_has_a_source_and_every_column(name):
    rows = read_table(name)
    assert rows
    for row in rows:
        assert None not in row and None not in row.values(), row
        assert row["source"].strip(), row


@pytest.mark.parametrize("kind", list(PublicationType))
def test_each_type_has_a_row_and_its_names_lead_back_to_it(kind):
    row = type_row(kind)
    assert row.usual_standing in {"approved", "acceptable", "information", "undetermined"}
    for name in (row.title, *row.also, *([row.short] if row.short else [])):
        assert parse_type(name) is kind, name
