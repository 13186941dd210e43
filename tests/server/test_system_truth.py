"""The listing of a system over the whole sample library (our own fiction), held to its truth page by page."""

import csv
import io
import re
from collections import defaultdict
from pathlib import Path

import pytest
from asking import Client

from indexer.ingest import ingest
from indexer.library.catalogue import Catalogue
from indexer.library.systems import places_in, remainder
from indexer.reading.page import PassageKind
from indexer.settings import Settings
from indexer.trade.chapters import ChapterNumber, Scheme
from server.app import create_app
from server.opened import OpenedLibrary
from server.routes import system_models
from server.system import chapters_held, everything_on
from server.system_asked import number_name
from server.system_csv import COLUMNS, NOT_LISTED, system_csv
from server.system_fields import answer_fields
from server.system_order import GROUPS, ONE_SUBJECT
from server.system_records import How, Part

SAMPLES = Path(__file__).parents[2] / "sample_docs"


def table(name):
    with (SAMPLES / name).open(encoding="utf-8", newline="") as rows:
        return list(csv.DictReader(rows))


def chapter_of(row):
    """The ATA chapter of a page by the truth; "" without one."""
    if not row["chapter"] or row["scheme"] == "OWN":
        return ""
    section = row["section"] or None
    subject = None if row["scheme"] == "JASC" else row["subject"] or None
    number = ChapterNumber(row["chapter"], section, subject, Scheme(row["scheme"]))
    return number.ata().chapter


TRUTH = [row for row in table("truth.csv") if row["text_state"] == "text"]
CHAPTERS = sorted({chapter_of(row) for row in TRUTH} - {""})


@pytest.fixture(scope="module")
def library(tmp_path_factory):
    folder = tmp_path_factory.mktemp("whole") / "library"
    assert not ingest([SAMPLES / "pdf"], folder, Settings(library=str(folder))).refused
    with OpenedLibrary.open(folder, Settings()) as opened:
        yield opened


@pytest.fixture(scope="module")
def answers(library):
    return {chapter: everything_on(library, chapter) for chapter in CHAPTERS}


def pages(lines):
    return {(line.publication.file, page.pdf_page) for line in lines for page in line.pages}


def passages_of(section):
    return {each.passage_id for line in section.lines for each in line.passages}


@pytest.mark.parametrize("chapter", CHAPTERS)
def test_every_page_of_a_chapter_is_in_its_listing(answers, chapter):
    wanted = {(row["file"], int(row["pdf_page"])) for row in TRUTH if chapter_of(row) == chapter}
    assert wanted and not wanted - pages(answers[chapter].on.lines)


@pytest.mark.parametrize("chapter", CHAPTERS)
def test_nothing_is_called_printed_that_the_page_does_not_print(answers, chapter):
    wanted = {(row["file"], int(row["pdf_page"])) for row in TRUTH if chapter_of(row) == chapter}
    printed = [line for line in answers[chapter].on.lines if line.how is How.PRINTED]
    assert not pages(printed) - wanted


@pytest.mark.parametrize("section", ["32-42", "24-31", "35-10", "52-10"])
def test_every_page_of_a_section_is_in_its_listing(library, section):
    chapter, _, wanted_section = section.partition("-")
    wanted = {
        (row["file"], int(row["pdf_page"]))
        for row in TRUTH
        if row["scheme"] == "ATA" and (row["chapter"], row["section"]) == (chapter, wanted_section)
    }
    found = everything_on(library, section)
    assert not wanted - pages(found.on.lines)
    wide = {
        (row["file"], int(row["pdf_page"]))
        for row in TRUTH
        if row["scheme"] == "ATA" and row["chapter"] == chapter and row["section"] in ("", "00")
    }
    assert not wide - pages([*found.on.lines, *found.may_be.lines])


def test_every_passage_that_prints_a_number_of_a_chapter_is_in_its_listing(library, answers):
    """Held against a plain pattern over the text, which knows nothing of how references are found.

    Tables and the contents page are left out: they name every chapter and refer to none. So are chapters up
    to 12, whose numbers may be dates (05-10-00): the words around them decide there.
    """
    missing, met = [], 0
    for held in places_in(library.catalogue, [each.id for each in library.publications()]).values():
        texts = library.catalogue.passages(place.passage_id for place in held)
        for passage in texts.values():
            if passage.kind is PassageKind.TABLE or passage.printed_page.startswith("TC"):
                continue
            for chapter in set(re.findall(r"(?<![\w-])([0-9]{2})-[0-9]{2}-00(?![\w-])", passage.text)):
                if int(chapter) <= 12 or chapter not in answers:
                    continue
                met += 1
                if passage.id not in passages_of(answers[chapter].on):
                    missing.append((chapter, passage.id, passage.text[:80]))
    assert met > 20 and not missing


def test_a_paper_tied_to_one_on_the_system_is_listed_with_it(library, answers):
    chapters = defaultdict(set)
    for row in TRUTH:
        chapters[row["file"]].add(chapter_of(row))
    one_subject = {each.file for each in library.publications() if each.type in ONE_SUBJECT}
    checked = 0
    for row in table("relations_truth.csv"):
        ends = [row["from_file"], row["to_file"]]
        if row["kind"] != "tie" or not set(ends) <= one_subject:
            continue
        for one, other in (ends, ends[::-1]):
            for chapter in chapters[one] - {""}:
                assert other in {line.publication.file for line in answers[chapter].on.lines}, (row, chapter)
                checked += 1
    assert checked > 5


def test_a_page_that_a_temporary_revision_changes_says_so(answers):
    changed = [
        words
        for line in answers["32"].on.lines
        for words in line.currency
        if line.publication.file == "qz62-maintenance-manual.pdf"
    ]
    assert changed == ["Page 402: Overridden by TR 32-07: read that page first."]
    assert "temporary" in answers["32"].on.counts.by_group


def test_all_listings_and_the_remainder_are_all_that_is_on_the_shelf(library):
    with library.reading() as status:
        systems = [number_name(meaning.number) for meaning, _ in chapters_held(library)]
        left = remainder(library.catalogue)
    filed = (How.PRINTED, How.SHOP_ENTRY, How.MAPPED, How.LIKELY, How.POSSIBLE)
    listed = {
        each.passage_id
        for system in systems
        for line in everything_on(library, system).on.lines
        if line.how in filed
        for each in line.passages
    }
    assert len(listed) + sum(left.own.values()) + sum(left.unknown.values()) == status.passages


def test_pages_without_text_are_counted_and_not_listed(library):
    scans = [row for row in table("truth.csv") if row["text_state"] == "no text"]
    answer = everything_on(library, "32")
    (cause,) = [cause for cause in answer.remainder if cause.unit == "page"]
    assert cause.total == len(scans)
    assert not pages(answer.on.lines) & {(row["file"], int(row["pdf_page"])) for row in scans}


@pytest.mark.parametrize("asked", [*CHAPTERS, "32-40", "3245", "brakes", "fuel selector"])
def test_counts_are_the_sums_of_what_is_listed(library, asked):
    answer = everything_on(library, asked)
    seen = set()
    for section in answer.sections:
        passages = passages_of(section)
        counts = section.counts
        assert counts.passages == len(passages)
        assert sum(counts.by_how.values()) == sum(counts.by_group.values()) == len(passages)
        assert counts.lines == len(section.lines)
        assert counts.publications == len({line.publication.id for line in section.lines})
        assert not seen & passages, "a passage stands in one part only"
        seen |= passages
    if answer.word_counts:
        words = answer.word_counts
        assert words.total == words.listed + words.elsewhere + words.not_numbered


def test_groups_come_in_the_order_a_technician_needs(answers):
    order = [GROUPS.index(line.group) for line in answers["32"].on.lines]
    assert order == sorted(order)
    titles = list(dict.fromkeys(line.group.key for line in answers["32"].on.lines))
    assert titles[:2] == ["directives", "proposed"]
    assert titles.index("bulletins") < titles.index("maintenance") < titles.index("parts")
    blocks = [line.block for line in answers["32"].on.lines if line.group.key == "maintenance"]
    blocks = list(dict.fromkeys(block for block in blocks if block))
    assert blocks[0] == "Description and operation" and blocks[-1] == "Inspection/check"


def test_brakes_finds_the_directive_and_the_bulletins_on_brakes(library):
    answer = everything_on(library, "brakes")
    assert number_name(answer.taken.number) == "32-40" and answer.could_mean
    files = {line.publication.file for line in answer.on.lines}
    assert {
        "ad-2031-07-11.pdf",
        "sb-qz62-32-0114-rev-b.pdf",
        "sb-qz62-32-0114-rev-c.pdf",
        "qz62-temporary-revision-32-07.pdf",
        "qz62-maintenance-manual.pdf",
        "qz62-parts-catalog.pdf",
        "sl-0219.pdf",
    } <= files
    assert answer.word_counts.not_numbered > 0


def test_references_are_listed_both_ways(answers):
    lines = answers["32"].on.lines
    assert any(line.how is How.REFERRED for line in lines)
    refers = {(mention.other, line.publication.id) for line in lines for mention in line.refers_to}
    referred = {(line.publication.id, mention.other) for line in lines for mention in line.referred_from}
    assert {pair for pair in refers if pair[0] and pair[0] != pair[1]} & referred
    assert any("not in this library" in each.state for each in answers["32"].not_here)


@pytest.mark.parametrize("asked", ["32", "32-40", "3245", "brakes", "JASC 14"])
def test_the_json_answer_has_the_shape_that_is_described(library, asked):
    answer = everything_on(library, asked)
    fields = answer_fields(library, answer)
    system_models.SystemAnswer.model_validate(fields)
    assert len([line for part in fields["parts"] for group in part["groups"] for line in group["lines"]]) == (
        answer.on.counts.lines + answer.may_be.counts.lines
    )


def test_the_csv_file_has_a_row_for_each_line_and_each_cause(answers):
    answer = answers["32"]
    rows = list(csv.DictReader(io.StringIO(system_csv(answer), newline="")))
    assert tuple(rows[0]) == COLUMNS
    assert len(rows) == answer.on.counts.lines + answer.may_be.counts.lines + len(answer.remainder)
    assert sum(row["part"] == NOT_LISTED for row in rows) == len(answer.remainder)
    manual = next(row for row in rows if row["number"] == "32-42-00" and row["page block"].startswith("Rem"))
    assert (manual["printed pages"], manual["how we know"]) == ("401 to 403", "Printed")
    assert manual["part"] == Part.ON.value and "read that page first" in manual["currency"]


def test_the_service_answers_as_page_paper_json_and_csv(library):
    client = Client(create_app(library, Settings()))
    for address in (
        "/system",
        "/system/32",
        "/system?q=brakes",
        "/system/32-41?print=1",
        "/system/jasc%2028",
    ):
        assert client.get(address).status_code == 200, address
    system_models.SystemList.model_validate(client.get("/api/system").json())
    system_models.SystemAnswer.model_validate(client.get("/api/system/brakes").json())
    system_models.SystemAnswer.model_validate(client.get("/api/system?q=prop/rotor").json())
    given = client.get("/api/system/32.csv")
    assert given.headers["content-disposition"] == 'attachment; filename="system-32.csv"'
    assert given.content.startswith(b"\xef\xbb\xbfsystem,part,")
    assert client.get("/api/system/xyzzy").json()["error"]["slug"] == "unknown-system"
    assert client.get("/system/17").status_code == 400


def test_a_removed_copy_is_in_no_listing_any_more(library, tmp_path):
    """On a catalogue of its own: the shared one stays as it is."""
    folder = tmp_path / "library"
    ingest([SAMPLES / "pdf" / "sb-qz62-32-0114-rev-b.pdf"], folder, Settings(library=str(folder)))
    with Catalogue.open(folder) as catalogue:
        (copy,) = catalogue.copies()
    with OpenedLibrary.open(folder, Settings()) as opened:
        assert everything_on(opened, "32").on.counts.publications == 1
        opened.catalogue.remove(copy.id)
        assert everything_on(opened, "32").on.counts.passages == 0
