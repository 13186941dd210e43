"""What the listing of a system reads: complete, from the shelf only, with what the shop files."""

import datetime
from dataclasses import replace

import pytest
from making import Made, Text, evidence, take

from indexer.library import systems
from indexer.library.catalogue import Catalogue
from indexer.library.codec import to_json
from indexer.tagging.tags import Citation, CitationKind
from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.evidence import Basis, Evidence, Tag
from indexer.trade.publication_types import PublicationType

BRAKES, SEATS = ChapterNumber("32", "41", "00"), ChapterNumber("25", "10")
OWN = ChapterNumber("32", "4", scheme=Scheme.OWN)


@pytest.fixture
def catalogue(tmp_path):
    with Catalogue.open(tmp_path / "library", create=True) as opened:
        yield opened


def manual(file="manual.pdf", texts=None, **more):
    usual = [Text("Brake.", ("Brakes",), 1, BRAKES), Text("Seat.", (), 2, SEATS), Text("?")]
    kind, date = PublicationType.MAINTENANCE_MANUAL, datetime.date(2031, 1, 1)
    return Made(file, kind, "MM-1", "1", date, texts=texts or usual, pages=3, printed={1: "201"}, **more)


def with_numbers(made, ordinal, tags, references=()):
    """The publication with other numbers on one of its passages."""
    (publication,) = made.publications()
    passages = list(publication.passages)
    passages[ordinal] = replace(passages[ordinal], numbers=tuple(tags), references=tuple(references))
    return (replace(publication, passages=tuple(passages)),)


def taken(catalogue, folder, made, publications):
    return catalogue.take(made.write(folder), made.document(), publications)


def of_chapter_32(number):
    return number.chapter == "32"


def test_a_passage_comes_with_its_number_its_pages_and_its_evidence(catalogue, tmp_path):
    take(catalogue, tmp_path, manual())
    (found,) = systems.filed(catalogue, ["32"], of_chapter_32)
    assert (found.number, found.evidence.quote) == (BRAKES, "32-41-00")
    assert (found.place.pdf_page, found.place.pages, found.place.heading_path) == (1, (1,), ("Brakes",))
    assert systems.printed_pages(catalogue, [found.place.publication_id]) == {
        (found.place.publication_id, 1): "201"
    }


def test_a_passage_with_two_numbers_comes_for_each(catalogue, tmp_path):
    made = manual()
    tags = [Tag(BRAKES, evidence()), Tag(ChapterNumber("32", "42"), evidence()), Tag(SEATS, evidence())]
    taken(catalogue, tmp_path, made, with_numbers(made, 0, tags))
    assert [str(each.number) for each in systems.filed(catalogue, ["32"], of_chapter_32)] == [
        "32-41-00",
        "32-42",
    ]


def test_a_manuals_own_numbers_file_nothing(catalogue, tmp_path):
    made = manual()
    taken(catalogue, tmp_path, made, with_numbers(made, 0, [Tag(OWN, evidence())]))
    assert systems.filed(catalogue, ["32"], of_chapter_32) == []
    assert [held.number for held in systems.numbers_held(catalogue)] == [SEATS]
    left = systems.remainder(catalogue)
    assert sum(left.own.values()) == 1 and sum(left.unknown.values()) == 1


def test_what_the_shop_files_takes_the_place_of_what_was_read(catalogue, tmp_path):
    take(catalogue, tmp_path, manual())
    (brake,) = systems.filed(catalogue, ["32"], of_chapter_32)
    mapped = Evidence(Basis.SHOP_ENTRY, "shop map", "as the type club has it", source="A. Person")
    with catalogue.database.writing() as connection:
        connection.execute("INSERT INTO filing VALUES (?)", (brake.place.passage_id,))
        row = (brake.place.passage_id, 0, "ATA", "25", "20", None, to_json(mapped), "[]")
        connection.execute("INSERT INTO filed_number VALUES (?, ?, ?, ?, ?, ?, ?, ?)", row)
    assert systems.filed(catalogue, ["32"], of_chapter_32) == []
    seats = systems.filed(catalogue, ["25"], lambda number: number.chapter == "25")
    assert [(str(each.number), each.evidence.rule) for each in seats] == [
        ("25-20", "shop map"),
        ("25-10", "test"),
    ]


def test_replaced_and_removed_copies_are_not_listed(catalogue, tmp_path):
    take(catalogue, tmp_path, manual())
    newer = manual(texts=[Text("Newer.", (), 1, BRAKES)])
    copy_id = take(catalogue, tmp_path, newer).copy_id
    assert [each.place.publication_id for each in systems.filed(catalogue, ["32"], of_chapter_32)] == [
        f"{copy_id}-1"
    ]
    assert systems.remainder(catalogue).unknown == {}
    catalogue.remove(copy_id)
    assert systems.filed(catalogue, ["32"], of_chapter_32)[0].place.publication_id != f"{copy_id}-1"


def test_references_that_name_a_number_are_found_by_it(catalogue, tmp_path):
    made = manual()
    named = Citation(CitationKind.CHAPTER, "refer to 32-41-00", 0, 17, chapter_number=BRAKES)
    own = Citation(CitationKind.OWN_SECTION, "section 32-4", 20, 32, chapter_number=OWN)
    publications = with_numbers(made, 1, [Tag(SEATS, evidence())], [named, own])
    taken(catalogue, tmp_path, made, publications)
    (found,) = systems.naming(catalogue, ["32"], of_chapter_32)
    assert (found.citation, found.place.ordinal) == (named, 1)


def test_readings_that_disagree_are_found_whatever_the_number(catalogue, tmp_path):
    made = manual()
    tags = [Tag(SEATS, evidence(), (Tag(BRAKES, evidence()),))]
    taken(catalogue, tmp_path, made, with_numbers(made, 2, tags))
    (found,) = systems.read_two_ways(catalogue)
    assert (found.number, found.others) == (SEATS, (BRAKES,))


def test_figures_of_a_parts_catalog_are_named(catalogue, tmp_path):
    text = "7\nREF\nFigure 14. Brake Assembly\nItem Part number"
    made = manual(texts=[Text(text, (), 1, BRAKES)])
    made.type = PublicationType.PARTS_CATALOG
    take(catalogue, tmp_path, made)
    assert systems.filed(catalogue, ["32"], of_chapter_32)[0].place.figure == "Figure 14. Brake Assembly"


def test_what_is_kept_for_a_generation_is_read_anew_in_the_next(catalogue, tmp_path):
    assert systems.numbers_held(catalogue) == []
    take(catalogue, tmp_path, manual())
    assert [held.number for held in systems.numbers_held(catalogue)] == [SEATS, BRAKES]
