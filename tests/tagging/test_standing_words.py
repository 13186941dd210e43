"""The standing that words alone give.

Wordings: bulletins, manuals and rules as quoted in the trade (common practice, no source); the
limitations statement is that of 14 CFR part 23, A23.4 (G23.4 before 2017).
"""

import pytest
from approval_traps import NEVER_APPROVED
from hypothesis import given
from hypothesis import strategies as st

from indexer.tagging.standing import FOREIGN_CONDITION, standing_in
from indexer.tagging.tags import StandingValue
from indexer.trade.publication_types import PublicationType as Type

APPROVED, ACCEPTABLE, INFORMATION, BLOCKED, UNDETERMINED = StandingValue

LIMITATIONS = (
    "The Airworthiness Limitations section is FAA approved and specifies maintenance required under 43.16 "
    "and 91.403 of Title 14 of the Code of Federal Regulations unless an alternative program has been FAA "
    "approved."
)


@pytest.mark.parametrize(
    "words, value",
    [
        ("FAA APPROVED  J. Doe  12 May 2004", APPROVED),  # a stamp with name and date
        ("The technical content of this service bulletin is FAA approved.", APPROVED),
        (LIMITATIONS, APPROVED),
        ("FAA accepted", ACCEPTABLE),  # accepted is not approved
        ("Approval: Not applicable", ACCEPTABLE),
        ("No FAA approval required", ACCEPTABLE),
        ("This AC is not mandatory and does not constitute a regulation.", INFORMATION),
        ("FOR REFERENCE ONLY", BLOCKED),
        ("For reference only. Not FAA approved.", BLOCKED),
        ("This document has not been FAA approved.", BLOCKED),
        ("FAA APPR0VED J. Doe 12 May 2004", UNDETERMINED),  # misread letters never grant
        ("This document is for reference only.", BLOCKED),
        ("uncontrolled when printed", UNDETERMINED),  # about paper, not about the data
        ("not FAA approved", UNDETERMINED),
        ("pending FAA approval", UNDETERMINED),  # a hope, not a grant
        ("This bulletin will be FAA approved.", UNDETERMINED),
        ("submit to the FAA for approval", UNDETERMINED),  # an instruction, not a grant
        ("FAA-approved AMOC required", UNDETERMINED),
        ("Service Bulletin SB 32-0012 is FAA approved.", UNDETERMINED),  # another document's approval
        ("Approved repairs", UNDETERMINED),  # a page block's title
        ("Replace the brake linings.", UNDETERMINED),
        ("", UNDETERMINED),
    ],
)
def test_only_words_that_grant_approval_raise_the_standing(words, value):
    standing = standing_in(words)
    assert standing.value is value
    assert standing.quote in words


def test_a_foreign_design_approval_is_not_told_and_says_what_it_hangs_on():
    standing = standing_in(
        "The technical content of this document is approved under the authority of DOA ref. EASA.21J.999."
    )
    assert standing.value is UNDETERMINED
    assert standing.conditions == (FOREIGN_CONDITION,)


@pytest.mark.parametrize(
    "words",
    [
        "EASA APPROVED 12 May 2004",
        "TCCA APPROVED 12 May 2004",
        "DGAC approved 3 March 1999",
        "ANAC APPROVED 12 May 2004",
        "Approval: Transport Canada approved.",
        "The technical content of this bulletin is EASA approved.",
        "The technical content of this bulletin has been approved by ANAC.",
        "This manual is approved by Transport Canada Civil Aviation.",
        "This manual is DGAC approved.",
        "This bulletin is approved under the authority of DOA EASA.21J.999.",
    ],
)
def test_the_approval_of_another_authority_is_said_with_its_condition(words):
    standing = standing_in(words)
    assert (standing.value, standing.conditions) == (UNDETERMINED, (FOREIGN_CONDITION,))


def test_words_that_grant_beside_words_that_deny_cannot_be_told():
    both = "FAA APPROVED  J. Doe  12 May 2004\n\nThis repair is not FAA approved for pressurized skin."
    assert standing_in(both).value is UNDETERMINED


def test_a_notice_that_forbids_use_outweighs_a_stamp():
    assert standing_in("FAA APPROVED  J. Doe  12 May 2004\n\nFOR REFERENCE ONLY").value is BLOCKED


@pytest.mark.parametrize(
    "kind",
    [Type.ADVISORY_CIRCULAR, Type.ORDER_OR_HANDBOOK, Type.REGULATION, Type.ACCIDENT_REPORT,
     Type.PROPOSED_DIRECTIVE, Type.AIRWORTHINESS_DIRECTIVE, Type.RELEASE_CERTIFICATE, Type.PARTS_APPROVAL],
)  # fmt: skip
@pytest.mark.parametrize("words", [LIMITATIONS, "FAA APPROVED  J. Doe  12 May 2004"])
def test_papers_that_speak_of_approvals_in_general_are_not_approved_by_words(kind, words):
    assert standing_in(words, kind).value is not APPROVED


@pytest.mark.parametrize(
    "kind", [None, Type.STRUCTURAL_REPAIR_MANUAL, "SRM", "structural-repair-manual", "no type at all"]
)
def test_the_type_may_be_given_by_any_of_its_names_and_an_unknown_one_counts_as_none(kind):
    assert standing_in("FAA APPROVED  J. Doe  12 May 2004", kind).value is APPROVED


@pytest.mark.parametrize("kind", list(Type))
def test_the_type_alone_never_gives_a_standing(kind):
    assert standing_in("Remove the four bolts and lift the cover.", kind).value is UNDETERMINED


@given(
    sentences=NEVER_APPROVED,
    joint=st.sampled_from([" ", "\n", "\n\n", "  "]),
    upper=st.booleans(),
    kind=st.sampled_from([None, *Type]),
)
def test_no_text_made_of_denied_hoped_asked_or_mentioned_approvals_is_ever_approved(
    sentences, joint, upper, kind
):
    text = joint.join(sentences)
    assert standing_in(text.upper() if upper else text, kind).value is not APPROVED
