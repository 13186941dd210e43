"""What the drawn sample documents claim of each other; tests/test_sample_truth.py holds their other tags."""

import csv
import functools
from pathlib import Path

import pytest

from indexer.reading.document import read_document
from indexer.settings import Settings
from indexer.tagging.publication import tag_document
from indexer.tagging.tags import ClaimKind

SAMPLES = Path(__file__).parent.parent.parent / "sample_docs"


def rows(name):
    with (SAMPLES / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@functools.cache
def tagged(file):
    return tag_document(read_document(SAMPLES / "pdf" / file, Settings()))


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
