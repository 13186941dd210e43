"""Words of approval that belong to another paper than the one they are bound in.

Publications are invented; the limitations statement is that of 14 CFR part 23, A23.4.
"""

import pytest
from made_documents import document, page

from indexer.tagging.publication import tag_document
from indexer.tagging.tags import StandingValue

LIMITATIONS = (
    "The Airworthiness Limitations section is FAA approved and specifies maintenance\n"
    "required under 43.16 and 91.403 of Title 14 of the Code of Federal Regulations\n"
    "unless an alternative program has been FAA approved."
)
BULLETIN = "# SERVICE BULLETIN\nNumber: SB 32-0012\nRevision C\nSubject: Brakes"


def approved_pages(*pages):
    return {
        each.passage.pdf_page
        for work in tag_document(document(*pages))
        for each in work.passages
        if each.standing.value is StandingValue.APPROVED
    }


@pytest.mark.parametrize(
    "words",
    [
        "This supplement is FAA approved.",
        "The technical content of this bulletin is FAA approved.",
        "The technical content of this service letter is FAA approved.",
    ],
)
def test_the_approval_of_a_paper_bound_in_a_manual_does_not_reach_the_manual(words):
    made = (page(1, "# MAINTENANCE MANUAL\nRevision 3"), page(2, words), page(3, "Remove the wheel."))
    assert approved_pages(*made) == set()
    own = (made[0], page(2, "This manual is FAA approved."), made[2])
    assert approved_pages(*own) == {1, 2, 3}


@pytest.mark.parametrize("words", ["This manual is FAA approved.", "This supplement is FAA approved."])
def test_a_manual_page_attached_to_a_bulletin_does_not_approve_the_bulletin(words):
    assert approved_pages(page(1, BULLETIN), page(2, f"# APPENDIX A\n{words}")) == set()


def test_this_document_on_an_attached_paper_reaches_that_page_only():
    made = (page(1, BULLETIN), page(2, "# GENERAL\nThis document is FAA approved."), page(3, "Do this."))
    assert approved_pages(*made) == {2}


def test_nor_that_page_where_the_heading_may_name_a_part_of_another_paper():
    made = (page(1, BULLETIN), page(2, "# APPENDIX A\nThis document is FAA approved."), page(3, "Do this."))
    assert approved_pages(*made) == set()


def test_a_bulletin_that_repeats_the_limitations_statement_is_not_approved_by_it():
    assert approved_pages(page(1, BULLETIN), page(2, LIMITATIONS), page(3, "Do this.")) == set()


def test_the_limitations_statement_on_a_contents_page_approves_nothing():
    made = (page(1, "# MAINTENANCE MANUAL"), page(2, f"# CONTENTS\nBrakes 32-41\n{LIMITATIONS}"))
    assert approved_pages(*made) == set()


@pytest.mark.parametrize(
    ("named", "approved"),
    [(", Revision C,", True), (", Revision B,", False), (" Revision CC", False), ("", True)],
)
def test_a_grant_that_names_another_revision_does_not_approve_this_one(named, approved):
    words = f"C. Approval: The technical content of this bulletin{named} is FAA approved."
    assert bool(approved_pages(page(1, f"{BULLETIN}\n{words}"))) is approved
