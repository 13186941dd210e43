"""The drawn sample library gets the tags its truth states, publication by publication and page by page."""

import csv
import functools
from pathlib import Path

import pytest

from indexer.reading.document import read_document
from indexer.settings import Settings
from indexer.tagging.publication import tag_document
from indexer.tagging.tags import ClaimKind, StandingValue

SAMPLES = Path(__file__).parent.parent.parent / "sample_docs"


def rows(name):
    with (SAMPLES / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@functools.cache
def tagged(file):
    return tag_document(read_document(SAMPLES / "pdf" / file, Settings()))


def files():
    return sorted({row["file"] for row in rows("truth.csv")})


def work_at(file, pdf_page):
    return next(work for work in tagged(file) if work.first_page <= pdf_page <= work.last_page)


# What only a person can know: the scan holds no text at all.
UNREADABLE = "brake-component-manual-scan.pdf"


@pytest.mark.parametrize(
    "row", rows("publications_truth.csv"), ids=lambda row: f"{row['file']}-{row['first_page']}"
)
def test_a_publication_is_identified_as_its_title_page_prints(row):
    work = work_at(row["file"], int(row["first_page"]))
    assert (work.first_page, work.last_page) == (int(row["first_page"]), int(row["last_page"]))
    identity = work.identity
    if row["file"] == UNREADABLE:
        assert (identity.type, identity.number, identity.revision) == (None, None, None)
        return
    assert identity.type.value == row["type"]
    assert (identity.number.value if identity.number else "") == row["number"]
    assert (identity.revision.value if identity.revision else "") == row["revision"]
    assert (identity.date.value.isoformat() if identity.date else "") == row["date"]


@pytest.mark.parametrize("file", files())
def test_each_page_is_filed_under_the_number_it_prints(file):
    for row in rows("truth.csv"):
        if row["file"] != file:
            continue
        joint = "" if row["scheme"] == "JASC" else "-"
        printed = joint.join(part for part in (row["chapter"], row["section"], row["subject"]) if part)
        expected = "" if row["scheme"] == "OWN" else printed
        for passage in work_at(file, int(row["pdf_page"])).passages:
            if passage.passage.pdf_page == int(row["pdf_page"]):
                number = str(passage.numbers[0].value) if passage.numbers else ""
                assert number == expected, f"page {row['pdf_page']}: {passage.passage.text[:60]}"
                block = passage.page_block.value if passage.page_block else ""
                assert block == row["page_block"], f"page {row['pdf_page']}"


@pytest.mark.parametrize("file", files())
def test_each_page_has_the_standing_its_own_words_give(file):
    for row in rows("truth.csv"):
        if row["file"] != file:
            continue
        work = work_at(file, int(row["pdf_page"]))
        for passage in work.passages:
            if passage.passage.pdf_page != int(row["pdf_page"]):
                continue
            standing = passage.standing
            assert standing.value == row["data_standing"], f"page {row['pdf_page']}"
            if work.directive:
                assert standing.mandatory is (standing.value is StandingValue.APPROVED)
            if standing.value is not StandingValue.UNDETERMINED:
                assert standing.quote


LEVELS = {kind.value: kind for kind in ClaimKind}


@pytest.mark.parametrize(
    "row",
    [row for row in rows("relations_truth.csv") if row["level"] in LEVELS and row["to_number"]],
    ids=lambda row: f"{row['from_file']}-{row['level']}-{row['to_number']}",
)
def test_each_relation_is_claimed_by_the_document_that_states_it(row):
    claims = [claim for work in tagged(row["from_file"]) for claim in work.claims]
    found = [
        claim
        for claim in claims
        if claim.kind is LEVELS[row["level"]] and claim.document.removeprefix("SB ") == row["to_number"]
    ]
    assert found, [(claim.kind.value, claim.document) for claim in claims]
    if row["level"] in ("required", "incorporated", "credit"):
        assert row["to_revision"] in {claim.revision for claim in found}


def test_the_temporary_revision_names_the_page_it_overrides():
    (claim,) = tagged("qz62-temporary-revision-32-07.pdf")[0].claims
    assert (claim.kind, claim.document, claim.revision) == (ClaimKind.CHANGES_PAGE, "QZM-62-2", "6")
    assert claim.pages == (("32-42-00", "402"),)


def test_the_limitations_chapter_of_the_manual_is_mandatory_and_the_time_limits_beside_it_are_not():
    by_number = {}
    for passage in tagged("qz62-maintenance-manual.pdf")[0].passages:
        if passage.numbers:
            by_number.setdefault(str(passage.numbers[0].value), []).append(passage.standing)
    assert all(standing.mandatory for standing in by_number["04-00-00"])
    assert not any(standing.mandatory for standing in by_number["05-10-00"])
