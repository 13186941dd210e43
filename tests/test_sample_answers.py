"""What the sample library (our own fiction) answers to a technician's questions, end to end."""

from pathlib import Path

import pytest

from indexer.ingest import ingest
from indexer.settings import Settings
from server import leaf
from server.opened import OpenedLibrary
from server.search import search
from server.words import standing_words

SAMPLES = Path(__file__).parent.parent / "sample_docs" / "pdf"


@pytest.fixture(scope="module")
def library(tmp_path_factory):
    folder = tmp_path_factory.mktemp("library")
    ingest([SAMPLES], folder, Settings(workers=2))
    with OpenedLibrary.open(folder, Settings()) as opened:
        yield opened


def hits(library, question, **filters):
    answer = search(library, question, limit=200, **filters).fields()
    return [hit for group in answer["groups"] for hit in group["hits"]]


@pytest.mark.parametrize("typed", ["32-41", "32-41-00", "324100"])
def test_a_chapter_number_finds_its_own_pages_first(library, typed):
    found = hits(library, typed)
    assert found[0]["number"]["text"] == "32-41-00"
    assert {hit["publication"]["type"] for hit in found} >= {"maintenance-manual", "parts-catalog"}


@pytest.mark.parametrize("typed", ["SB QZ62-32-0114", "QZ62-32-0114", "qz62320114"])
def test_a_bulletin_is_found_by_its_number(library, typed):
    files = {hit["publication"]["file"] for hit in hits(library, typed)}
    assert files >= {"sb-qz62-32-0114-rev-b.pdf", "sb-qz62-32-0114-rev-c.pdf"}


def test_each_revision_says_which_one_the_directive_names(library):
    said = {
        hit["publication"]["revision"]: " ".join(hit["currency"])
        for hit in hits(library, "tie bolt")
        if hit["publication"]["number"] == "QZ62-32-0114"
    }
    assert "AD 2031-07-11 names this revision, not the later one." in said["B"]
    assert "AD 2031-07-11 names another revision of this document, not this one." in said["C"]


def test_a_page_that_denies_approval_is_not_called_usually_approved(library):
    denied = [hit for hit in hits(library, "corner doubler") if hit["number"]["text"] == "53-60-00"]
    assert denied
    for hit in denied:
        words = standing_words(library.catalogue.passage(hit["passage"]).standing)
        assert words.lead == "Not determined"
        assert words.why == "The words printed here speak against approval:"
        assert "NOT FAA APPROVED" in words.quote


def test_an_approval_stamp_is_no_heading_over_other_pages(library):
    found = hits(library, "repairs", types=("structural-repair-manual",))
    assert found
    assert not [hit["heading"] for hit in found if hit["heading"].startswith("FAA APPROVED")]


def test_a_page_says_what_speaks_against_its_publication(library):
    (publication,) = {
        hit["publication"]["id"]
        for hit in hits(library, "tie bolt")
        if hit["publication"]["file"] == "sb-qz62-32-0114-rev-b.pdf"
    }
    assert "Superseded by revision C of 6 October 2031." in leaf.page(library, publication, 3)["currency"]
