"""How far quoted words reach: passage, page, section, bulletin, document.

Publications are invented; the limitations statement is that of 14 CFR part 23, A23.4.
"""

from dataclasses import replace

import pytest
from approval_traps import NEVER_APPROVED
from hypothesis import given, settings
from hypothesis import strategies as st
from made_documents import document, page

from indexer.reading.page import Passage, PassageKind
from indexer.tagging.publication import tag_document
from indexer.tagging.standing import FOREIGN_CONDITION
from indexer.tagging.tags import StandingValue
from indexer.trade.evidence import PageBox

APPROVED, ACCEPTABLE, INFORMATION, BLOCKED, UNDETERMINED = StandingValue
STAMP = "FAA APPROVED  J. Doe  12 May 2004"
LIMITATIONS = (
    "The Airworthiness Limitations section is FAA approved and specifies maintenance\n"
    "required under 43.16 and 91.403 of Title 14 of the Code of Federal Regulations\n"
    "unless an alternative program has been FAA approved."
)


def standings(*pages):
    """Per pdf page the standing of its first passage."""
    found = {}
    for passage in tag_document(document(*pages))[0].passages:
        found.setdefault(passage.passage.pdf_page, passage.standing)
    return found


def values(*pages):
    return {number: standing.value for number, standing in standings(*pages).items()}


def test_the_usual_standing_stands_beside_and_never_inside():
    standing = standings(page(1, "# STRUCTURAL REPAIR MANUAL"), page(2, "Drill out the rivets."))[2]
    assert (standing.usual, standing.value, standing.evidence) == (APPROVED, UNDETERMINED, None)


def test_a_stamp_in_the_foot_approves_its_page_and_no_other():
    made = (page(1, "# STRUCTURAL REPAIR MANUAL"), page(2, "Text", foot=[STAMP]), page(3, "Text"))
    assert values(*made) == {1: UNDETERMINED, 2: APPROVED, 3: UNDETERMINED}
    standing = standings(*made)[2]
    assert (standing.scope, standing.quote, standing.evidence.pdf_page) == (
        "page",
        STAMP.replace("  ", " "),
        2,
    )
    assert standing.evidence.box is not None


def test_the_limitations_statement_reaches_its_section_and_makes_it_mandatory():
    made = (
        page(1, "# MAINTENANCE MANUAL"),
        page(2, LIMITATIONS, foot=["04-00-00 Page 1"], printed_page="1"),
        page(3, "Main fitting: replace at 8000 landings.", foot=["04-00-00 Page 2"], printed_page="2"),
        page(4, "Times that the maker recommends.", foot=["05-10-00 Page 1"], printed_page="1"),
        page(5, "Remove the wheel.", foot=["32-41-00 Page 401"], printed_page="401"),
    )
    found = standings(*made)
    assert [found[number].value for number in (1, 2, 3, 4, 5)] == [
        UNDETERMINED,
        APPROVED,
        APPROVED,
        UNDETERMINED,
        UNDETERMINED,
    ]
    assert [found[number].mandatory for number in (2, 3, 4)] == [True, True, False]
    assert found[3].scope == "section"
    assert found[3].evidence.pdf_page == 2


def test_limitations_in_05_10_reach_05_10_only():
    made = (
        page(1, "# MAINTENANCE MANUAL"),
        page(2, LIMITATIONS, foot=["05-10-00 Page 1"]),
        page(3, "Limits go on", foot=["05-10-01 Page 1"]),
        page(4, "Checks", foot=["05-20-00 Page 1"]),
        page(5, "Brakes", foot=["32-41-00 Page 1"]),
    )
    assert values(*made) == {1: UNDETERMINED, 2: APPROVED, 3: APPROVED, 4: UNDETERMINED, 5: UNDETERMINED}


def test_a_limitations_section_without_numbers_ends_with_its_heading_and_its_section_of_pages():
    made = (
        page(1, "# SERVICE MANUAL", printed_page="3-9"),
        page(2, "# AIRWORTHINESS LIMITATIONS\n" + LIMITATIONS, printed_page="4-1"),
        page(3, "Main fitting: 8000 landings.", printed_page="4-2"),
        page(4, "Nose fitting: 9000 landings.", printed_page="5-1"),
        page(5, "# LUBRICATION\nGrease the hinge.", printed_page="5-2"),
    )
    found = values(*made)
    assert [found[number] for number in (1, 2, 3, 4, 5)] == [
        UNDETERMINED,
        APPROVED,
        APPROVED,
        UNDETERMINED,
        UNDETERMINED,
    ]


def test_a_limitations_section_of_which_the_end_cannot_be_told_is_its_first_page():
    made = (
        page(1, "# SERVICE MANUAL"),
        page(2, "# AIRWORTHINESS LIMITATIONS\n" + LIMITATIONS),
        page(3, "Grease the hinge."),
    )
    assert values(*made) == {1: UNDETERMINED, 2: APPROVED, 3: UNDETERMINED}


@pytest.mark.parametrize("mark", ["DRAFT", "Draft - for comment", "PRELIMINARY COPY"])
def test_a_draft_s_words_of_approval_are_not_yet_said(mark):
    made = (page(1, f"# STRUCTURAL REPAIR MANUAL\n{mark}"), page(2, "Drill out the rivets.", foot=[STAMP]))
    assert values(*made)[2] is UNDETERMINED


def bulletin(approval, after=""):
    body = f"""# SERVICE BULLETIN No. C88-32-0012
Subject: Brake bolts
1. PLANNING INFORMATION
A. Effectivity
(1) C88 airplanes, serial numbers 1 through 40.
E. Compliance
(1) MANDATORY, within 10 hours.
F. Approval
{approval}
G. Manpower
(1) 2 hours.
{after}"""
    return standings(page(1, body), page(2, "3. ACCOMPLISHMENT INSTRUCTIONS\nReplace the bolts."))


@pytest.mark.parametrize(
    "approval, value",
    [
        ("(1) The technical content of this service bulletin is FAA approved.", APPROVED),
        (
            "(1) FAA approval has been obtained on technical data in this publication.",
            APPROVED,
        ),
        ("(1) Not applicable.", ACCEPTABLE),
        ("Not required.", ACCEPTABLE),
        ("(1) FAA approval is pending.", UNDETERMINED),
        ("(1) The technical content of this service bulletin is not FAA approved.", UNDETERMINED),
        ("(1) The technical content of this service bulletin will be FAA approved.", UNDETERMINED),
        ("(1) Submit this bulletin to the FAA for approval.", UNDETERMINED),
        ("(1) Service Bulletin C88-32-0009 is FAA approved.", UNDETERMINED),
    ],
)
def test_the_approval_paragraph_speaks_for_the_whole_bulletin(approval, value):
    found = bulletin(approval)
    assert (found[1].value, found[2].value) == (value, value)
    assert not found[2].mandatory  # "MANDATORY" is the maker's word, not law
    if value is not UNDETERMINED:
        assert found[2].scope == "bulletin revision"


def test_a_bulletin_without_an_approval_paragraph_is_not_determined_and_usually_acceptable():
    found = standings(page(1, "# SERVICE BULLETIN No. 14\nSubject: Bolts\nCompliance: MANDATORY"))
    assert (found[1].value, found[1].usual) == (UNDETERMINED, ACCEPTABLE)


def test_a_foreign_design_approval_of_a_bulletin_is_not_told():
    found = bulletin(
        "(1) The technical content of this document is approved under the authority of DOA ref. EASA.21J.999."
    )
    assert found[2].value is UNDETERMINED
    assert FOREIGN_CONDITION in found[2].conditions


APPROVAL_PAGE = """# APPROVAL PAGE
The repairs on the pages of this manual that are listed below are
FAA APPROVED
Structural Repair Manual D88-3, Revision 2
51 All pages May 17, 2030
53 All pages of 53-10-00 May 17, 2030
57-10-00 Pages 201 thru 203 May 17, 2030
J. Doe, Manager, Wichita Aircraft Certification Office"""


LISTED_53 = "53 All pages of 53-10-00 May 17, 2030\n"


def repair_manual(approval=APPROVAL_PAGE, revision="Revision 2: May 17, 2030", undated=False):
    def sheet(number, chapter, printed, date="May 17, 2030", body="Drill out the rivets."):
        foot = [f"{chapter} Page {printed}", *([] if undated else [date])]
        return page(number, body, foot=foot, printed_page=printed)

    return values(
        page(1, f"# STRUCTURAL REPAIR MANUAL\nManual No. D88-3\n{revision}"),
        page(2, approval),
        sheet(3, "51-10-00", "101"),
        sheet(4, "53-10-00", "201"),
        sheet(5, "53-60-00", "201"),
        sheet(6, "57-10-00", "202"),
        sheet(7, "57-10-00", "204"),
        sheet(8, "51-20-00", "1", date="June 1, 2031"),
        sheet(9, "51-30-00", "1", body="THIS PAGE IS NOT FAA APPROVED. APPROVAL IS PENDING."),
    )


def test_an_approval_page_covers_what_it_lists_and_nothing_else():
    found = repair_manual()
    assert [found[number] for number in (2, 3, 4, 6)] == [APPROVED] * 4
    assert found[1] is UNDETERMINED  # the title page is in no list
    assert found[5] is UNDETERMINED  # 53-60-00 is not listed
    assert found[7] is UNDETERMINED  # page 204 is outside 201 thru 203
    assert found[8] is UNDETERMINED  # dated after the approval
    assert found[9] is UNDETERMINED  # says of itself that it is not approved


@pytest.mark.parametrize(
    "approval",
    [
        APPROVAL_PAGE.replace("are\nFAA", "are not\nFAA"),
        APPROVAL_PAGE.replace("are\nFAA", "will be\nFAA"),
        APPROVAL_PAGE.replace("Revision 2", "Revision 1"),  # the approval is of an earlier revision
        APPROVAL_PAGE.replace("are\nFAA APPROVED", "are shown in the index"),
    ],
)
def test_an_approval_page_that_does_not_grant_covers_nothing(approval):
    assert APPROVED not in repair_manual(approval).values()


@pytest.mark.parametrize(
    "row",
    [
        "53 All pages of 53-10-00\nexcept page 201",
        "53 All pages *",
        "53 All pages (see note)",
        "53 All pages less 53-10-00",
        "53 All pages\nRepairs of 53-10-00 are not FAA approved.",
        "NOT APPROVED\n53 All pages",
        "The chapters below are not approved:\n53 All pages",
    ],
)
def test_a_row_of_an_approval_page_with_an_exception_or_under_a_denial_covers_nothing(row):
    without = APPROVAL_PAGE.replace(LISTED_53, "")
    assert repair_manual(f"{without}\n52 All pages\n53 All pages")[4] is APPROVED
    assert repair_manual(f"{without}\n52 All pages\n{row}")[4] is UNDETERMINED


def test_an_undated_page_is_not_covered_by_a_row_approved_at_a_date():
    assert repair_manual(undated=True)[4] is UNDETERMINED


def test_a_page_that_says_it_is_not_approved_is_not_blocked_only_not_approved():
    made = (
        page(1, "# STRUCTURAL REPAIR MANUAL"),
        page(2, "THIS PAGE IS NOT FAA APPROVED.\nText of the page."),
    )
    assert values(*made)[2] is UNDETERMINED


@pytest.mark.parametrize(
    "title_page",
    [
        "# MAINTENANCE MANUAL\nFOR REFERENCE ONLY",
        "# TRAINING NOTES\nThis document is for reference only.",
        "# MAINTENANCE MANUAL\nThis manual has not been FAA approved.",
        "# MAINTENANCE MANUAL\nUNCONTROLLED COPY",
    ],
)
def test_a_notice_on_the_title_page_blocks_the_whole_document(title_page):
    found = standings(page(1, title_page), page(2, "Remove the wheel.", foot=[STAMP]))
    assert (found[1].value, found[2].value) == (BLOCKED, BLOCKED)
    assert (found[2].scope, found[2].evidence.pdf_page) == ("document", 1)


@pytest.mark.parametrize(
    "foot, body",
    [
        ("Uncontrolled when printed", "Remove the wheel."),
        ("Page 3", "Dimension A 1.25 inch for reference only"),
        ("Page 3", "REFERENCE ONLY"),
        ("Page 3", "See the drawing for reference."),
        ("NOT FOR FLIGHT", "Remove the wheel."),
    ],
)
def test_words_about_paper_or_a_dimension_block_nothing(foot, body):
    made = [page(1, "# MAINTENANCE MANUAL")] + [page(number, body, foot=[foot]) for number in (2, 3, 4)]
    if body == "REFERENCE ONLY":  # on one drawing, not on each page
        made[2:] = [page(3, "Text"), page(4, "Text")]
    assert BLOCKED not in values(*made).values()


def test_a_foot_that_forbids_use_on_every_page_blocks_the_document():
    made = [page(number, "Text", foot=["FOR REFERENCE ONLY"]) for number in (1, 2, 3)]
    assert set(values(*made).values()) == {BLOCKED}


def test_a_parts_catalog_that_is_no_maintenance_manual_is_not_blocked():
    made = page(1, "# ILLUSTRATED PARTS CATALOG\nNOT FOR USE IN MAINTENANCE"), page(2, "Item 1  Bolt")
    assert BLOCKED not in values(*made).values()


def circular(number, words):
    body = f"# ADVISORY CIRCULAR\nAC No: {number}\nSubject: Repairs\n1. PURPOSE.\n{words}"
    return standings(page(1, body), page(2, "FAA APPROVED  J. Doe  12 May 2004\nDrill the hole."))[2]


def test_a_circular_that_says_it_is_no_regulation_is_information():
    standing = circular("43-99", "This AC is not mandatory and does not constitute a regulation.")
    assert (standing.value, standing.quote) == (
        INFORMATION,
        "This AC is not mandatory and does not constitute a regulation.",
    )


def test_a_circular_without_those_words_is_not_determined_and_never_approved():
    assert circular("43-99", "This AC tells how to drill a hole.").value is UNDETERMINED


@pytest.mark.parametrize("number, conditions", [("43.13-1B", True), ("43.13-2B", True), ("43-99", False)])
def test_only_43_13_carries_the_conditions_under_which_it_may_serve(number, conditions):
    """Outside check: AC 43.13-1B (8 September 1998, Change 1) paragraph 1; 43.13-2B from memory."""
    standing = circular(number, "This AC tells how to drill a hole.")
    assert bool(standing.conditions) is conditions
    assert standing.value is not APPROVED


def test_43_13_that_gives_acceptable_methods_is_acceptable_under_its_conditions_and_never_approved():
    """Outside check: the first sentence of AC 43.13-1B (8 September 1998, Change 1), as published."""
    standing = circular(
        "43.13-1B",
        "This advisory circular (AC) contains methods, techniques, and practices acceptable to\n"
        "the Administrator for the inspection and repair of nonpressurized areas of civil\n"
        "aircraft, only when there are no manufacturer repair or maintenance instructions.",
    )
    assert standing.value is ACCEPTABLE
    assert standing.quote.startswith(
        "This advisory circular (AC) contains methods, techniques, and practices"
    )
    assert "block 8 of Form 337" in " ".join(standing.conditions)


def running_over(made):
    """The document with one passage, which begins on page 2 and runs over to page 3."""
    boxes = tuple(PageBox(number, made.pages[number - 1].body[0].box) for number in (2, 3))
    crossing = Passage(0, 2, boxes, (), "Drill\nand rivet", PassageKind.STEP)
    return replace(made, passages=(crossing,))


def test_a_passage_that_runs_over_to_an_unstamped_page_is_not_approved():
    made = document(
        page(1, "# STRUCTURAL REPAIR MANUAL"), page(2, "Drill", foot=[STAMP]), page(3, "and rivet")
    )
    assert tag_document(running_over(made))[0].passages[0].standing.value is UNDETERMINED


@pytest.mark.parametrize("foot", ["THIS PAGE IS NOT FAA APPROVED", "FAA approval of this page is pending"])
def test_a_passage_that_runs_over_to_a_page_that_denies_is_not_approved(foot):
    made = document(
        page(1, "# STRUCTURAL REPAIR MANUAL\nThis manual is FAA approved."),
        page(2, "Drill"),
        page(3, "and rivet", foot=[foot]),
    )
    assert tag_document(running_over(made))[0].passages[0].standing.value is UNDETERMINED


def test_a_bulletin_that_denies_its_approval_anywhere_is_not_approved_by_its_paragraph():
    found = bulletin(
        "(1) The technical content of this service bulletin is FAA approved.",
        after="H. Note\nThis bulletin is not FAA approved for airplanes of the second lot.",
    )
    assert (found[1].value, found[2].value) == (UNDETERMINED, UNDETERMINED)


def test_a_repair_that_denies_its_own_approval_takes_the_manual_s_grant_back():
    made = (
        page(1, "# STRUCTURAL REPAIR MANUAL\nThis manual is FAA approved."),
        page(2, "Drill out the rivets."),
        page(3, "This repair is not FAA approved."),
    )
    found = values(*made)
    assert (found[2], found[3]) == (APPROVED, UNDETERMINED)


def test_a_statement_about_this_manual_in_a_paper_of_unknown_type_reaches_its_page_only():
    found = values(page(1, "# Notes\nThis manual is FAA approved."), page(2, "Drill out the rivets."))
    assert found[2] is UNDETERMINED


@settings(max_examples=60, deadline=None)
@given(
    title=st.sampled_from(
        [
            "STRUCTURAL REPAIR MANUAL",
            "MAINTENANCE MANUAL",
            "SERVICE BULLETIN No. 14",
            "AIRWORTHINESS LIMITATIONS",
        ]
    ),
    heading=st.sampled_from(
        ["# APPROVAL PAGE", "F. Approval", "APPROVAL:", "# AIRWORTHINESS LIMITATIONS", ""]
    ),
    front=NEVER_APPROVED,
    body=NEVER_APPROVED,
    foot=NEVER_APPROVED,
    rows=st.booleans(),
)
def test_no_page_made_of_denied_hoped_asked_or_mentioned_approvals_is_ever_approved(
    title, heading, front, body, foot, rows
):
    listed = ["51 All pages May 17, 2030", "53-10-00 Pages 1 thru 9 May 17, 2030"] if rows else []
    made = (
        page(1, "\n".join([f"# {title}", heading, *front, *listed])),
        page(2, "\n".join(body), foot=["51-10-00 Page 1", *foot[:1]], printed_page="1"),
        page(3, "Drill out the rivets.", foot=["53-10-00 Page 2"], printed_page="2"),
    )
    assert APPROVED not in {standing.standing.value for standing in tag_document(document(*made))[0].passages}
