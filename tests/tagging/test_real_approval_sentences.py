"""Every sentence with "approv" in real circulars, a job aid, a form and the rules: none grants anything.

Outside check: the papers themselves, each read whole (data/real_approval_sentences.csv, see
tests/data/SOURCES.md). Judged as a person reads them, all speak of approvals in general, of another paper, or
of what must be done: the list of sentences that may raise a standing is empty.
"""

import csv
import re
from collections import Counter
from pathlib import Path

import pytest
from approval_pages import TITLE_PAGES
from made_documents import document, document_of_text, page

from indexer.reading.document import read_document
from indexer.settings import Settings
from indexer.tagging.publication import tag_document
from indexer.tagging.standing import standing_in
from indexer.tagging.tags import StandingValue
from indexer.trade.publication_types import PublicationType as Type

APPROVED, ACCEPTABLE, INFORMATION, BLOCKED, UNDETERMINED = StandingValue
DATA = Path(__file__).parent / "data" / "real_approval_sentences.csv"
WHOLE = Path(__file__).parent.parent / "data"
MAY_RAISE: dict[str, StandingValue] = {}  # sentence -> what a person agrees it grants


def sentences() -> list[tuple[str, str]]:
    with DATA.open(encoding="utf-8", newline="") as file:
        return [(row["paper"], row["sentence"]) for row in csv.DictReader(file)]


def test_the_papers_are_all_there():
    counted = Counter(paper for paper, _ in sentences())
    assert counted["Major_Repair_Alteration_Data_Approval_Job-Aid_R5"] > 250
    assert counted["AC_43-210A"] > 150
    assert {"FAA_Form_8130-3", "14cfr_part43_2015", "14cfr_part39_2015", "AC-43-9C_CHG_1"} <= set(counted)
    assert all(re.search("approv", sentence, re.IGNORECASE) for _, sentence in sentences())


@pytest.mark.parametrize(
    "kind", [None, Type.STRUCTURAL_REPAIR_MANUAL, Type.SERVICE_BULLETIN, Type.FLIGHT_MANUAL]
)
def test_no_sentence_raises_a_standing(kind):
    raised = {
        sentence: said.value
        for _, sentence in sentences()
        if (said := standing_in(sentence, kind)).value not in (UNDETERMINED, INFORMATION)
    }
    assert raised == MAY_RAISE


@pytest.mark.parametrize("title", ["SRM", "AMM", "AFM", "SL", "ICA", "ALS", "TR", "NOTES"])
def test_nor_does_any_on_the_pages_of_another_publication(title):
    """The same sentences twelve to a page, as a maker's manual would quote them."""
    pages = [page(1, TITLE_PAGES[title].replace(" || ", "\n").replace(" | ", "\n"))]
    said = [sentence for _, sentence in sentences()]
    for number, start in enumerate(range(0, len(said), 12), 2):
        pages.append(page(number, "\n".join(said[start : start + 12]), foot=[f"Page {number}"]))
    values = {each.standing.value for work in tag_document(document(*pages)) for each in work.passages}
    assert values == {UNDETERMINED}


@pytest.mark.parametrize("name", sorted(path.name for path in (WHOLE / "real").glob("AC*.pdf")))
def test_no_passage_of_a_whole_circular_is_approved(name):
    works = tag_document(read_document(WHOLE / "real" / name, Settings()))
    values = {each.standing.value for work in works for each in work.passages}
    assert values <= {UNDETERMINED, INFORMATION}


@pytest.mark.parametrize("name", sorted(path.name for path in (WHOLE / "text").glob("14cfr*.txt")))
def test_no_passage_of_the_rules_is_approved(name):
    works = tag_document(document_of_text((WHOLE / "text" / name).read_text(encoding="utf-8")))
    assert {each.standing.value for work in works for each in work.passages} == {UNDETERMINED}
