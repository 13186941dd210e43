"""The sample library (our own fiction) against its own truth: every page's tags, every relation."""

import csv
import re
from collections import defaultdict
from functools import cache
from pathlib import Path

import pytest

from indexer.ingest import ingest
from indexer.library.catalogue import Catalogue
from indexer.library.records import SupersessionKind
from indexer.library.relations import overrides_by, supersessions_of, ties_from, unresolved_claims
from indexer.reading.document import read_document
from indexer.settings import Settings
from indexer.tagging.publication import tag_document
from indexer.trade.chapters import Scheme
from indexer.trade.evidence import Basis
from indexer.trade.own_numbers import in_range

SAMPLES = Path(__file__).parent.parent / "sample_docs"


# Printed in a way that is not read yet: left empty, never guessed. Whoever mends one removes its line.
NOT_READ = {
    ("amoc-letter-2031-07-11.pdf", "models"),  # only inside a sentence of the letter
    ("hangar-handbook-two-column.pdf", "maker"),  # only before a colon in the line under the title
    ("qz62-structural-repair-manual.pdf", "models"),  # two names in a line without the word Model
    ("qz62-temporary-revision-32-07.pdf", "models"),
}
NAMED_BY_TITLE_ONLY = ("ad-2030-19-04.pdf", "mentioned", "h-14-service-manual.pdf")  # a title and a date

SUPERSESSION = {  # our words for what the truth states in the trade's
    SupersessionKind.DIRECTIVE: "supersedes",
    SupersessionKind.STATED: "supersedes",
    SupersessionKind.NEWER_REVISION: "later revision",
}


def table(name: str) -> list[dict[str, str]]:
    with (SAMPLES / name).open(encoding="utf-8", newline="") as rows:
        return list(csv.DictReader(rows))


def by_file(name: str) -> dict[str, list[dict[str, str]]]:
    files = defaultdict(list)
    for row in table(name):
        files[row["file"]].append(row)
    return files


PAGES = by_file("truth.csv")
PUBLICATIONS = by_file("publications_truth.csv")


@cache
def read(file: str):
    document = read_document(SAMPLES / "pdf" / file, Settings())
    return document, tag_document(document)


def passages(file: str):
    """Each tagged passage with the row that states what its page carries."""
    rows = {int(row["pdf_page"]): row for row in PAGES[file]}
    return [(tagged, rows[tagged.passage.pdf_page]) for work in read(file)[1] for tagged in work.passages]


def differences(pairs) -> list:
    return [(place, found, stated) for place, found, stated in pairs if found != stated]


def value(tag) -> str:
    return str(tag.value) if tag else ""


@pytest.mark.parametrize("file", sorted(PUBLICATIONS))
def test_the_publications_bound_in_a_file(file):
    found = []
    for work in read(file)[1]:
        identity = work.identity
        found.append({
            "file": file,
            "first_page": str(work.first_page),
            "last_page": str(work.last_page),
            "type": value(identity.type),
            "number": value(identity.number),
            "title": value(identity.title).casefold(),
            "maker": value(identity.maker).casefold(),
            "models": "; ".join(model.value for model in identity.models),
            "revision": value(identity.revision),
            "date": value(identity.date),
        })  # fmt: skip
    assert found == [_readable(row) for row in PUBLICATIONS[file]]


def _readable(row: dict[str, str]) -> dict[str, str]:
    """What can be read of a publication: a scan's words are for people, and capitals are the typesetter's."""
    place = ("file", "first_page", "last_page")
    if all(page["text_state"] == "no text" for page in PAGES[row["file"]]):
        return {name: text if name in place else "" for name, text in row.items()}
    return {
        name: ""
        if (row["file"], name) in NOT_READ
        else text.casefold()
        if name in ("title", "maker")
        else text
        for name, text in row.items()
    }


@pytest.mark.parametrize("file", sorted(PAGES))
def test_which_pages_have_text_and_what_page_number_is_printed(file):
    pages = read(file)[0].pages
    assert [page.pdf_page for page in pages] == [int(row["pdf_page"]) for row in PAGES[file]]
    assert not differences(
        (page.pdf_page, page.state.value, row["text_state"])
        for page, row in zip(pages, PAGES[file], strict=True)
    )
    assert not differences(
        (page.pdf_page, page.printed_page, row["printed_page"])
        for page, row in zip(pages, PAGES[file], strict=True)
        if row["text_state"] == "text"
    )


def printed_number(tagged):
    """The number that the page prints: neither worked out from the text nor of the manual's own order."""
    for tag in tagged.numbers:
        if tag.evidence.basis is not Basis.INFERRED and tag.value.scheme is not Scheme.OWN:
            return (
                tag.value.chapter,
                tag.value.section or "",
                tag.value.subject or "",
                str(tag.value.scheme),
            )
    return ("",) * 4


@pytest.mark.parametrize("file", sorted(PAGES))
def test_the_number_each_passage_is_filed_under_as_printed(file):
    def stated(row):
        own = row["scheme"] == Scheme.OWN
        return ("",) * 4 if own else (row["chapter"], row["section"], row["subject"], row["scheme"])

    assert not differences(
        ((tagged.passage.pdf_page, tagged.passage.text[:40]), printed_number(tagged), stated(row))
        for tagged, row in passages(file)
    )


@pytest.mark.parametrize("file", sorted(PAGES))
def test_the_section_of_a_manual_with_its_own_order_and_of_no_other(file):
    wrong = []
    for tagged, row in passages(file):
        own = [tag.value for tag in tagged.numbers if tag.value.scheme is Scheme.OWN]
        section = row["chapter"] if row["scheme"] == Scheme.OWN else ""
        if bool(own) != bool(section) or not all(in_range(str(each), section, section) for each in own):
            wrong.append(
                (tagged.passage.pdf_page, tagged.passage.text[:40], [str(each) for each in own], section)
            )
        if own and tagged.numbers[-1].value.scheme is not Scheme.OWN:
            wrong.append((tagged.passage.pdf_page, tagged.passage.text[:40], "not last"))
    assert not wrong


def test_each_numbered_paragraph_of_the_own_order_manual_is_the_number_to_cite():
    """Its paragraphs are headed "5-12. ADJUSTMENT OF THE BRAKES."; every passage stands under one."""
    for tagged, _ in passages("h-14-service-manual.pdf"):
        headings = [heading for heading in tagged.passage.heading_path if re.match(r"\d+-\d+\.", heading)]
        own = [str(tag.value) for tag in tagged.numbers if tag.value.scheme is Scheme.OWN]
        if headings:
            assert headings[-1].split(".")[0] in own


@pytest.mark.parametrize("file", sorted(PAGES))
def test_the_page_block_of_each_passage(file):
    assert not differences(
        ((tagged.passage.pdf_page, tagged.passage.text[:40]), value(tagged.page_block), row["page_block"])
        for tagged, row in passages(file)
    )


@pytest.mark.parametrize("file", sorted(PAGES))
def test_the_standing_that_printed_words_give_each_passage(file):
    assert not differences(
        (
            (tagged.passage.pdf_page, tagged.passage.text[:40]),
            tagged.standing.value.value,
            row["data_standing"],
        )
        for tagged, row in passages(file)
    )


@pytest.mark.parametrize("file", sorted(PAGES))
def test_every_standing_above_undetermined_quotes_words_printed_on_its_page(file):
    pages = {page.pdf_page: page for page in read(file)[0].pages}
    for tagged, _ in passages(file):
        evidence = tagged.standing.evidence
        if tagged.standing.value.value == "undetermined":
            continue
        assert evidence is not None and evidence.quote and evidence.pdf_page
        page = pages[evidence.pdf_page]
        printed = "".join("".join(line.text for line in (*page.head, *page.body, *page.foot)).split())
        assert "".join(evidence.quote.split()) in printed, evidence


@pytest.fixture(scope="module")
def library(tmp_path_factory):
    folder = tmp_path_factory.mktemp("library")
    report = ingest([SAMPLES / "pdf"], folder, Settings(workers=2))
    assert not report.refused
    with Catalogue.open(folder) as catalogue:
        yield catalogue


def test_the_standing_of_each_page_once_directives_are_counted(library):
    wrong = []
    for publication in library.publications():
        rows = {int(row["pdf_page"]): row for row in PAGES[publication.file]}
        for passage in library.passages_of(publication.id):
            stated = rows[passage.pdf_page]["directive_standing"].split(";")[0].strip()
            if passage.standing.value.value != stated:
                wrong.append(
                    (
                        publication.file,
                        passage.pdf_page,
                        passage.text[:40],
                        passage.standing.value.value,
                        stated,
                    )
                )
    assert not wrong


@pytest.fixture(scope="module")
def relations(library):
    """What was derived, as rows of file names: kind, from, level, to ("" when the other is not held)."""
    file_of = {publication.id: publication.file for publication in library.publications()}
    found = set()
    for publication in library.publications():
        for tie in ties_from(library, publication.id):
            found.add(("tie", publication.file, str(tie.level), file_of[tie.target_id]))
        for claim in unresolved_claims(library, publication.id):
            found.add(("tie", publication.file, str(claim.kind), ""))
        for each in supersessions_of(library, publication.id):
            found.add(
                ("supersession", file_of[each.newer_id], SUPERSESSION[each.kind], file_of[each.older_id])
            )
        for each in overrides_by(library, publication.id):
            found.add(("page override", publication.file, "changes page", file_of[each.target_id]))
    return found


@pytest.mark.parametrize(
    "row", table("relations_truth.csv"), ids=lambda row: f"{row['from_file']} {row['level']} {row['to_file']}"
)
def test_each_relation_of_the_truth_is_found(relations, row):
    found = (row["kind"], row["from_file"], row["level"], row["to_file"]) in relations
    assert found is ((row["from_file"], row["level"], row["to_file"]) != NAMED_BY_TITLE_ONLY)


def test_nothing_is_superseded_or_overridden_that_the_truth_does_not_state(relations):
    stated = {
        (row["kind"], row["from_file"], row["level"], row["to_file"]) for row in table("relations_truth.csv")
    }
    assert {row for row in relations - stated if row[0] != "tie"} == set()


def test_a_superseded_directive_and_a_proposal_raise_nothing(library):
    raising = {
        publication.file
        for publication in library.publications()
        for tie in ties_from(library, publication.id)
        if tie.raises
    }
    assert raising == {"ad-2030-19-04.pdf", "ad-2031-07-11.pdf", "ad-2032-03-05.pdf"}
