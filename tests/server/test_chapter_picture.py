"""The picture by chapters: its counts held against the catalogue counted another way, and the truth."""

import csv
import re
import sqlite3
from collections import defaultdict
from pathlib import Path

import pytest
from asking import Client

from indexer.library.records import EntryKind
from indexer.settings import Settings
from server import desk as librarian
from server.app import create_app
from server.chapter_picture import chapter_picture

ROOT = Path(__file__).parents[2]

# The same counts by SQL alone. Numbers of the ATA list as they are, JASC codes by their first two digits
# (its own table says that they follow the chapters); other schemes stand in neither.
BY_SQL = """
WITH lies AS (
    SELECT passage.id, passage.publication_id, box.value ->> '$.pdf_page' AS page
    FROM passage, json_each(passage.boxes_json) AS box
    UNION SELECT id, publication_id, pdf_page FROM passage
),
now AS (
    SELECT * FROM number_tag WHERE passage_id NOT IN (SELECT passage_id FROM filing)
    UNION ALL SELECT * FROM filed_number
),
shelf AS (SELECT publication.* FROM publication JOIN copy ON copy.id = copy_id WHERE replaced_by IS NULL)
SELECT now.chapter, lies.publication_id, lies.page, MAX(
    CASE evidence_json ->> '$.basis' WHEN 'shop entry' THEN 2 WHEN 'inferred' THEN 0 ELSE 1 END
) AS how
FROM lies JOIN now ON now.passage_id = lies.id JOIN shelf ON shelf.id = lies.publication_id
WHERE now.scheme IN ('ATA', 'JASC', 'SNS')
GROUP BY 1, 2, 3
"""


def counted_by_sql(folder):
    """{(chapter, publication): {pdf_page: how}}"""
    found = defaultdict(dict)
    with sqlite3.connect(folder / "catalogue.sqlite") as connection:
        for chapter, publication, page, how in connection.execute(BY_SQL):
            found[chapter[:2], publication][int(page)] = max(
                how, found[chapter[:2], publication].get(page, 0)
            )
        pages = connection.execute(
            "SELECT COUNT(*) FROM page JOIN publication ON publication.copy_id = page.copy_id AND pdf_page"
            " BETWEEN first_page AND last_page WHERE page.copy_id IN"
            " (SELECT id FROM copy WHERE replaced_by IS NULL)"
        ).fetchone()[0]
    return found, pages


def hold_against_sql(library):
    with library.reading():
        picture = chapter_picture(library)
    by_sql, pages = counted_by_sql(library.folder)
    ours = {
        (row.chapter, each.publication_id): (
            each.counted.inferred, each.counted.printed, each.counted.entered, each.first_page
        )
        for row in picture.chapters
        for each in row.publications
    }  # fmt: skip
    ways = {key: list(held.values()) for key, held in by_sql.items()}
    assert ours == {
        key: (*(ways[key].count(how) for how in range(3)), min(held)) for key, held in by_sql.items()
    }
    for row in picture.chapters:
        assert row.counted.pages == sum(each.counted.pages for each in row.publications)
    once = {(publication, page) for (_, publication), held in by_sql.items() for page in held}
    assert picture.filed.pages == len(once)
    assert picture.pages == pages, "no page is left out, none counts twice"
    return picture


def test_the_samples_are_counted_as_sql_counts_them(samples):
    picture = hold_against_sql(samples)
    assert picture.chapters and picture.filed.printed and picture.filed.inferred


def test_the_small_library_is_counted_as_sql_counts_it(library):
    hold_against_sql(library)


def test_the_samples_stand_where_the_truth_has_them(samples):
    """truth.csv was written with the samples: chapters printed on each page."""
    with samples.reading():
        picture = chapter_picture(samples)
    files = {record.id: record.file for record in samples.publications()}
    held = {
        (files[each.publication_id], row.chapter) for row in picture.chapters for each in row.publications
    }
    with (ROOT / "sample_docs" / "truth.csv").open(encoding="utf-8", newline="") as file:
        printed = {
            (line["file"], line["chapter"][:2])
            for line in csv.DictReader(file)
            if line["file"] in files.values() and re.match(r"\d\d", line["chapter"])
        }
    assert printed and printed <= held, printed - held


def test_what_the_shop_enters_is_counted_as_entered_at_once(shelf, own_manual):
    opened, _ = shelf
    before = hold_against_sql(opened)
    assert before.filed.entered == 0
    place = librarian.Place(own_manual, 4)
    librarian.enter(opened, place, EntryKind.CHAPTERS, "24", "R. Quill", "Read on the page")
    after = hold_against_sql(opened)
    (row,) = [row for row in after.chapters if row.chapter == "24"]
    mine = next(each for each in row.publications if each.publication_id == own_manual)
    assert (mine.counted.entered, mine.counted.inferred, mine.first_page) == (1, 0, 4)


@pytest.fixture
def page(sample_client):
    answer = sample_client.get("/chapters")
    assert answer.status_code == 200
    return answer.text


def test_the_page_is_a_table_that_says_its_numbers_and_leads_on(page, samples, sample_client):
    with samples.reading():
        picture = chapter_picture(samples)
    for row in picture.chapters:
        part = re.search(rf'<tr id="chapter-{row.chapter}">(.*?)</tr>', page, re.DOTALL)[1]
        assert f'href="/system/{row.chapter}"' in part and '<th scope="row">' in part
        assert f'<td class="number">{row.counted.pages:,}</td>' in part
        for each in row.publications:
            assert f'href="/publications/{each.publication_id}/pages/{each.first_page}"' in part
        assert sample_client.get(f"/system/{row.chapter}").status_code == 200
        widths = [float(width) for width in re.findall(r'<rect [^>]*width="([\d.]+)"', part)]
        most = max(each.counted.pages for each in picture.chapters)
        assert sum(widths) == pytest.approx(300 * row.counted.pages / most, abs=0.2)
    assert "style=" not in page.split("<main", 1)[1], "no inline style"
    assert f"{picture.filed.pages:,}" in page and "Without a chapter" in page and "Not read" in page


def test_an_empty_library_says_so(tmp_path):
    from indexer.library.catalogue import Catalogue
    from server.opened import OpenedLibrary

    Catalogue.open(tmp_path / "library", create=True).close()
    with OpenedLibrary.open(tmp_path / "library", Settings()) as opened:
        answer = Client(create_app(opened, Settings())).get("/chapters")
    assert answer.status_code == 200 and "No page is filed under a chapter yet." in answer.text
