"""Stamps that are lists, forms or things, and grants of which a part is taken back beside them.

Wordings: common practice, no source; names and numbers are invented.
"""

import pytest

from indexer.trade.approval_words import find_approval_words


def grants(text: str) -> bool:
    return any(words.kind.grants for words in find_approval_words(text))


@pytest.mark.parametrize(
    "text",
    [
        "FAA APPROVED\n32-11-02 May 12 2004",
        "FAA APPROVED\nD4410-2 May 12 2004\nD4410-3 May 13 2004",
        "FAA APPROVED\nRev 1 May 12, 2004\nRev 2 June 12, 2005",
        "FAA APPROVED\nRevision Date\n1 May 12, 2004",
    ],
)
def test_a_heading_over_a_list_of_documents_or_revisions_is_no_stamp(text):
    assert not grants(text)


@pytest.mark.parametrize(
    "thing", ["Seat Belts", "Brake Assembly", "Cooper Lane", "Green Label\nBlue Label", "A. Seats\nB. Belts"]
)
def test_two_words_in_capitals_without_a_date_or_office_are_no_signature(thing):
    assert not grants(f"FAA APPROVED\n{thing}")
    assert not grants(f"FAA APPROVED {thing}")


@pytest.mark.parametrize(
    "text",
    [
        "FAA APPROVED [ ] Date 12 May 2004",
        "FAA APPROVED \u2610 12 May 2004",
        "Approved by FAA: _______ Date: 12 May 2004",
    ],
)
def test_a_box_not_ticked_or_a_line_not_signed_is_no_stamp(text):
    assert not grants(text)


def test_a_quality_manager_does_not_sign_for_the_authority():
    assert not grants("APPROVED BY FAA\nJ. Doe\nQuality Manager, Corvane Aircraft\n12 May 2004")


@pytest.mark.parametrize(
    "after",
    [
        "Chapter 5 is not.",
        "All other chapters are FAA accepted.",
        "The remaining sections are accepted.",
        "Chapters 6 through 12 are for reference.",
        "Part 2 awaits approval.",
        "Approval of Part 2 is pending.",
        "Part 2 was submitted to the FAA.",
        "Part 2 only.",
        "See Section 4 for exclusions.",
        "It is not for airplane N12345.",
    ],
)
def test_a_next_sentence_that_tells_a_part_apart_takes_the_grant_back(after):
    assert grants("This manual is FAA approved.")
    assert not grants(f"This manual is FAA approved. {after}")
    assert not grants(f"Approval: The technical content of this bulletin is FAA approved. {after}")


@pytest.mark.parametrize(
    "text",
    [
        "This manual is FAA approved, Section 2.",
        "This manual is FAA approved (Section 2).",
        "Approval: FAA approved, Part 2.",
        "Approval: FAA approved (see note)",
        "Approval: FAA approved (STC holder to confirm)",
        "The repairs in this manual are FAA approved, where so marked.",
        "This document is FAA approved, per EASA agreement.",
        "This manual is FAA approved by the time of delivery.",
        "Approval: FAA APPROVED\nSubmitted to the FAA on May 12, 2004",
    ],
)
def test_a_part_or_a_mark_named_in_the_same_sentence_leaves_the_whole_unapproved(text):
    assert not grants(text)


def test_the_part_of_a_federal_regulation_is_not_a_part_of_the_document():
    assert grants("This repair is FAA approved in accordance with 14 CFR part 21.")


def test_a_next_paragraph_that_says_approval_was_asked_for_takes_the_grant_back():
    assert not grants("Approval: FAA approved.\n\nSubmitted to the FAA on May 12, 2004.")


def test_approval_in_accordance_with_another_bulletin_is_not_this_ones():
    assert not grants("Approval: FAA approved in accordance with Service Bulletin 12.")
    assert not grants("The technical content of this bulletin is FAA approved in accordance with SB 32-0012.")
    assert grants("The technical content of this bulletin is FAA approved in accordance with 14 CFR 21.95.")
