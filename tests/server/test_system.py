"""The listing of a system on small libraries made by hand, and on published directives.

Outside check: Federal Register documents whose Subject paragraph states a chapter (tests/data/SOURCES.md).
"""

import csv
import hashlib
import io
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner
from plain_engine import PlainEngine
from small_library import number, one_page, passage, tag, take

from indexer.library.catalogue import Catalogue
from indexer.reading.page import Document
from indexer.settings import Settings
from indexer.tagging.inference import LIKELY, POSSIBLE
from indexer.tagging.publication import tag_document
from indexer.tagging.tags import Citation, CitationKind
from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.evidence import Basis, Evidence, Tag
from indexer.trade.publication_types import PublicationType
from server.cli import main
from server.opened import OpenedLibrary
from server.render import PagePictures
from server.system import everything_on
from server.system_csv import system_csv
from server.system_records import How
from tests.tagging.made_documents import document_of_text

DIRECTIVES = Path(__file__).parents[1] / "data" / "directives"


@pytest.fixture
def shelf(tmp_path):
    """Takes publications by name and opens the library over a plain engine."""

    class Shelf:
        folder = tmp_path / "library"

        def take(self, name, publication):
            with Catalogue.open(self.folder, create=True) as catalogue:
                return take(catalogue, tmp_path, name, publication)

        def open(self):
            pictures = PagePictures(self.folder / "cache", Settings())
            self.opened = OpenedLibrary(self.folder, Catalogue.open(self.folder), PlainEngine(), pictures)
            return self.opened

    made = Shelf()
    yield made
    if hasattr(made, "opened"):
        made.opened.close()


def of_type(publication, kind, number_text="", title="", **more):
    identity = replace(
        publication.identity,
        type=tag(kind, kind.label),
        number=tag(number_text, number_text) if number_text else None,
        title=tag(title, title) if title else None,
    )
    return replace(publication, identity=identity, **more)


def manual(*passages, kind=PublicationType.MAINTENANCE_MANUAL, **more):
    pages = max(each.passage.pdf_page for each in passages)
    return of_type(replace(one_page(""), last_page=pages, passages=passages), kind, "MM-7", "Manual", **more)


def inferred(text, confidence):
    return Tag(ChapterNumber(text), Evidence(Basis.INFERRED, "text", "brake", 1, confidence=confidence))


def hows(answer):
    return {line.how: line for line in answer.on.lines}


def test_how_we_know_is_told_from_the_evidence(shelf):
    numbers = [
        number("32-41"),
        Tag(ChapterNumber("32"), Evidence(Basis.SHOP_ENTRY, "shop entry", "why", source="A. Person")),
        Tag(ChapterNumber("32"), Evidence(Basis.SHOP_ENTRY, "shop map", "why", source="A. Person")),
        inferred("32", LIKELY),
        inferred("32", POSSIBLE),
    ]
    passages = [
        replace(passage(at, at + 1, f"Text {at}."), numbers=(each,)) for at, each in enumerate(numbers)
    ]
    shelf.take("manual", manual(*passages))
    answer = everything_on(shelf.open(), "32")
    assert list(answer.on.counts.by_how) == [
        How.PRINTED,
        How.SHOP_ENTRY,
        How.MAPPED,
        How.LIKELY,
        How.POSSIBLE,
    ]
    assert {line.pages[0].pdf_page: line.how for line in answer.on.lines} == {
        1: How.PRINTED, 2: How.SHOP_ENTRY, 3: How.MAPPED, 4: How.LIKELY, 5: How.POSSIBLE
    }  # fmt: skip


def test_what_stands_under_the_chapter_may_concern_a_section_and_other_sections_are_counted(shelf):
    shelf.take(
        "manual",
        manual(
            passage(0, 1, "Brake.", numbers=["32-41-05"]),
            passage(1, 2, "Gear in general.", numbers=["32-00-00"]),
            passage(2, 3, "Steering.", numbers=["32-51"]),
            passage(3, 4, "Seats.", numbers=["25-10"]),
        ),
    )
    answer = everything_on(shelf.open(), "32-41")
    assert [str(line.number) for line in answer.on.lines] == ["32-41-05"]
    assert [str(line.number) for line in answer.may_be.lines] == ["32-00-00"]
    assert "takes in 32-41" in answer.may_be.lines[0].wider
    assert answer.elsewhere == {"32-50": 1}


def test_another_reading_of_the_number_is_shown_and_listed_under_both(shelf):
    both = Tag(ChapterNumber("27", "30"), number("27-30").evidence, (number("32-41"),))
    shelf.take("manual", manual(replace(passage(0, 1, "Text."), numbers=(both,))))
    library = shelf.open()
    (line,) = everything_on(library, "27").on.lines
    assert line.also_read == (ChapterNumber("32", "41"),)
    (line,) = everything_on(library, "32").may_be.lines
    assert line.wider == "Filed under 27-30; also read as 32-41."


def test_a_passage_that_refers_to_the_system_is_listed_with_its_words(shelf):
    named = Citation(
        CitationKind.CHAPTER, "see 32-41-00", 0, 12, chapter_number=ChapterNumber("32", "41", "00")
    )
    refers = replace(passage(0, 1, "see 32-41-00", numbers=["12-10"]), references=(named,))
    shelf.take("manual", manual(refers))
    (line,) = everything_on(shelf.open(), "32-41").on.lines
    assert (line.how, line.evidence.quote, str(line.number)) == (How.REFERRED, "see 32-41-00", "12-10")


def test_a_line_is_one_run_of_pages_and_a_manual_of_its_own_order_gives_its_sections(shelf):
    runs = [passage(at, page, f"Brake {at}.", numbers=["32-41"]) for at, page in enumerate((1, 2, 5))]
    shelf.take("manual", manual(*runs))
    own = [
        replace(
            passage(at, at + 1, f"Brake shoe {at}."),
            numbers=(
                inferred("32", LIKELY),
                Tag(ChapterNumber("5", str(paragraph), scheme=Scheme.OWN), number("32").evidence),
            ),
        )
        for at, paragraph in enumerate((9, 10, 12))
    ]
    shelf.take("old", manual(*own, kind=PublicationType.SERVICE_MANUAL))
    lines = everything_on(shelf.open(), "32").on.lines
    assert [[page.pdf_page for page in line.pages] for line in lines] == [[1, 2], [5], [1, 2, 3]]
    assert lines[2].own == "5-9 to 5-10, 5-12"


def test_nothing_filed_under_a_code_still_shows_what_may_concern_it(shelf):
    shelf.take("manual", manual(passage(0, 1, "Brake.", numbers=["32-45-00"])))
    answer = everything_on(shelf.open(), "3245")
    assert answer.on.counts.passages == 0 and answer.may_be.counts.passages == 1
    assert any("four digits are not ATA" in words for words in answer.warnings)
    assert [str(meaning.number) for meaning in answer.could_mean] == ["32-45", "32"]


def test_hardware_has_a_listing_of_its_own_for_ata_has_no_chapter_for_it(shelf):
    bolts = Tag(ChapterNumber("14", "20", scheme=Scheme.JASC), number("32").evidence)
    shelf.take("manual", manual(replace(passage(0, 1, "Bolts."), numbers=(bolts,))))
    answer = everything_on(shelf.open(), "14")
    assert answer.on.counts.passages == 1 and any("hardware" in words for words in answer.warnings)


def test_a_bulletin_filed_under_the_whole_chapter_is_on_the_part_that_its_words_name(shelf):
    for name, words in (("SB 32-1", "Measure the brake lining."), ("SB 32-2", "Rig the gear.")):
        said = passage(0, 1, words, numbers=["32"], heading=("Instructions",))
        shelf.take(name, of_type(one_page(""), PublicationType.SERVICE_BULLETIN, name, passages=(said,)))
    answer = everything_on(shelf.open(), "brake")
    assert [line.publication.number for line in answer.on.lines] == ["SB 32-1"]
    assert [line.publication.number for line in answer.may_be.lines] == ["SB 32-2"]


def test_each_row_of_the_csv_file_is_safe_in_a_spreadsheet(shelf):
    titles = ["=HYPERLINK(1)", "+1", "-1", "@SUM(A1)", "  =1", "plain"]
    for at, title in enumerate(titles):
        made = manual(passage(0, 1, f"Brake {at}.", numbers=["32-41"]))
        shelf.take(f"m{at}", of_type(made, PublicationType.MAINTENANCE_MANUAL, f"M-{at}", title))
    text = system_csv(everything_on(shelf.open(), "32"))
    rows = list(csv.DictReader(io.StringIO(text, newline="")))
    cells = [cell for row in rows for cell in row.values()]
    assert not [cell for cell in cells if cell.lstrip().startswith(("=", "+", "-", "@"))]
    assert {row["title"].lstrip("'") for row in rows} >= set(titles)
    assert text.count("\r\n") == len(rows) + 1


def test_the_statements_of_a_listing_do_not_grow_with_its_lines(shelf):
    def take_more(first, last):
        for at in range(first, last):
            words = passage(0, 1, f"Brake {at}.", numbers=["32-41"])
            shelf.take(f"manual {at}", manual(words))
            paper = replace(one_page(""), passages=(words,))
            shelf.take(f"bulletin {at}", of_type(paper, PublicationType.SERVICE_BULLETIN, f"32-{at:04}"))

    def statements():
        opened, ran = shelf.open(), []
        opened.catch_up()
        opened.catalogue.database.connection().set_trace_callback(ran.append)
        answer = everything_on(opened, "32")
        opened.close()
        return len(answer.on.lines), len(ran)

    take_more(0, 5)
    few_lines, few = statements()
    take_more(5, 20)
    many_lines, many = statements()
    assert (few_lines, many_lines) == (10, 40)
    assert many - few <= 5


@pytest.mark.parametrize(
    ("document_number", "chapter"),
    [
        ("2017-11001", "57"),
        ("2018-02352", "57"),
        ("2018-02354", "92"),
        ("2024-02724", "51"),
        ("2024-02930", "27"),
    ],
)
def test_a_published_directive_is_listed_under_the_chapter_it_states(tmp_path, document_number, chapter):
    text = (DIRECTIVES / f"{document_number}.txt").read_text(encoding="utf-8")
    read = document_of_text(text)
    file = tmp_path / f"{document_number}.pdf"
    file.write_bytes(b"%PDF-1.4 " + document_number.encode())
    sha256 = hashlib.sha256(file.read_bytes()).hexdigest()
    document = Document(file.name, sha256, {}, (), read.pages, read.passages)
    with Catalogue.open(tmp_path / "library", create=True) as catalogue:
        catalogue.take(file, document, tag_document(document))
        pictures = PagePictures(tmp_path / "cache", Settings())
        with OpenedLibrary(tmp_path / "library", catalogue, PlainEngine(), pictures) as library:
            answer = everything_on(library, chapter)
            (line,) = answer.on.lines
            assert line.how is How.PRINTED and f"Code {chapter}" in line.evidence.quote
            assert answer.on.counts.passages == len(document.passages)
            assert line.group.key in ("directives", "proposed")


def test_the_command_prints_the_listing_and_writes_the_file(sample_folder, tmp_path):
    def run(*words):
        return CliRunner().invoke(main, ["system", *words, "--library", str(sample_folder)])

    done = run("ATA", "32")
    assert done.exit_code == 0 and done.stdout.startswith("32 Landing gear\n")
    assert "Airworthiness directives (" in done.stdout and "In no listing" in done.stdout
    file = tmp_path / "brakes.csv"
    assert run("brakes", "--csv", str(file)).exit_code == 0
    assert file.read_bytes().startswith(b"\xef\xbb\xbfsystem,")
    assert run("zeppelin").exit_code == 2
    assert run("32", "--csv", str(tmp_path / "none" / "x.csv")).exit_code == 2
