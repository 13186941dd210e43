"""Words about paper, drawings, dimensions, tools or other people's sheets forbid nothing; a notice does.

Wordings: common practice, no source. " | " is a line's end, as in approval_pages.py.
"""

import pytest
from approval_pages import Case, made_for

from indexer.tagging.publication import tag_document
from indexer.tagging.tags import StandingValue

BLOCKED = StandingValue.BLOCKED

FREE = [
    ("every foot", "Uncontrolled when printed"),
    ("every foot", "UNCONTROLLED IF PRINTED"),
    ("every foot", "Uncontrolled once downloaded"),
    ("every foot", "Printed copies are uncontrolled"),
    ("every foot", "Printed copies are uncontrolled. Check the server for the current revision."),
    ("every foot", "Hard copies are uncontrolled"),
    ("every foot", "This document is uncontrolled when printed"),
    ("every foot", "Prints are uncontrolled"),
    ("every foot", "Uncontrolled copy when printed"),
    ("every foot", "Paper copies are uncontrolled"),
    ("every foot", "Printed copies are for reference only"),
    ("every foot", "If printed, this copy is uncontrolled"),
    ("every foot", "NOT CONTROLLED WHEN PRINTED"),
    ("every foot", "Printed copies are not controlled"),
    ("every foot", "NOT FOR FLIGHT"),
    ("every foot", "Not for resale"),
    ("every foot", "NOT FOR NAVIGATION"),
    ("every foot", "Company proprietary. For use by the holder only"),
    ("every foot", "For internal use only"),
    ("every foot", "For official use only"),
    ("every foot", "Valid only on the date printed"),
    ("every foot", "Export controlled. Use subject to restriction on the title page"),
    ("foot", "REFERENCE ONLY drawing 4410"),
    ("body", "REFERENCE ONLY"),
    ("body", "REF ONLY"),
    ("body", "(REF)"),
    ("body", "FOR REF"),
    ("body", "1.25 (REF)"),
    ("body", "Dimensions in parentheses are for reference only."),
    ("body", "Dimension A is for reference only."),
    ("body", "A 1.25 inch for reference only"),
    ("body", "Torque values in Table 2 are for reference only."),
    ("body", "The weights shown are for reference only."),
    ("body", "The view is for reference only."),
    ("body", "Figure 202 is for reference only."),
    ("body", "The illustration is for reference only."),
    ("body", "Part numbers in this figure are for reference only."),
    ("body", "Item 14 is shown for reference only."),
    ("body", "Items marked REF are for reference only."),
    ("body", "Shown for reference only"),
    ("body", "The old part number is given for reference only."),
    ("body", "Metric units are for reference only."),
    ("body", "Vendor names are for reference only."),
    ("body", "For reference only: see drawing 4410."),
    ("body", "The ATA number is for information only."),
    ("body", "Times are for planning only."),
    ("body", "Man-hours are for information only."),
    ("body", "Drawing not to scale. For reference only."),
    ("body", "32-41-00-15 BOLT REF ONLY 1"),
    ("body", "NOTE: This dimension is for reference only and is not to be used for inspection."),
    ("body", "This step is for information only."),
    ("body", "This tool is not for maintenance of the C88."),
    ("body", "The stand is not intended for maintenance access."),
    ("body", "Do not use the jack for maintenance of the wing."),
    ("body", "The ladder is not to be used in maintenance."),
    ("body", "The light is not for use in maintenance of fuel tanks."),
    ("body", "The mock-up is for training purposes only."),
    ("body", "The training airplane's panel is for training only."),
    ("body", "Use the demonstration unit for training purposes only."),
    ("body", "The notice on the vendor's sheet reads \u201cThis document is for reference only\u201d."),
    ("body", 'The sheet is stamped "FOR TRAINING PURPOSES ONLY" by the school.'),
    ("body", 'A copy marked "UNCONTROLLED COPY" must be destroyed.'),
    ("body", "Do not use a manual that says FOR REFERENCE ONLY."),
    ("body", "Uncontrolled copies are not kept up to date."),
    ("body", "Copies marked FOR REFERENCE ONLY are not used."),
    ("body", "The wiring list is for reference only; the diagram governs."),
    ("body", "Not for maintenance steps"),
    ("body", 'The placard "NOT FOR MAINTENANCE" is on the door.'),
    ("body", "The placard reads | NOT FOR MAINTENANCE"),
    ("body", "Stencil the words | FOR REFERENCE ONLY"),
    ("body", "Legend | REFERENCE ONLY"),
    ("body", "See 32-41-00 for reference."),
    ("body", "Refer to chapter 20 for information only."),
    ("body", "CAUTION: THE GAUGE IS FOR REFERENCE ONLY."),
    ("body", "(for reference only)"),
    ("body", "The serial numbers in this table are for reference only."),
]
NOTICES = [
    ("title", "FOR REFERENCE ONLY"),
    ("title", "*** FOR REFERENCE ONLY ***"),
    ("title", "FOR TRAINING PURPOSES ONLY"),
    ("title", "FOR TRAINING USE ONLY"),
    ("title", "FOR INFORMATION ONLY"),
    ("title", "UNCONTROLLED COPY"),
    ("title", "NOT FOR MAINTENANCE"),
    ("title", "NOT FOR USE IN MAINTENANCE"),
    ("title", "NOT TO BE USED FOR MAINTENANCE"),
    ("title", "REFERENCE ONLY"),
    ("title", "DO NOT USE FOR MAINTENANCE"),
    ("title", "This document is for reference only."),
    ("title", "This manual is for training purposes only."),
    ("title", "This manual has not been FAA approved."),
    ("title", "This publication is for information only."),
    ("title", "This copy is for reference only."),
    ("title", "This document is not FAA approved."),
    ("title", "This copy is not to be used for aircraft maintenance."),
    ("front", "Notice | This copy is for reference only."),
    ("front", "NOTICE || This manual is provided for information only."),
    ("front", "This document has not been approved by the FAA."),
    ("front", "This manual is intended for training purposes only."),
    ("every foot", "FOR REFERENCE ONLY"),
    ("every foot", "FOR TRAINING PURPOSES ONLY"),
    ("every foot", "NOT FOR MAINTENANCE"),
    ("every foot", "UNCONTROLLED COPY"),
    ("every foot", "FOR INFORMATION ONLY"),
]


def standings(kind: str, where: str, words: str) -> list[StandingValue]:
    case = Case("block", kind, where, "", words, "", "", "", "")
    return [each.standing.value for work in tag_document(made_for(case)) for each in work.passages]


def test_there_are_as_many_kinds_as_are_claimed():
    assert len(set(FREE)) >= 70
    assert len(set(NOTICES)) >= 25


@pytest.mark.parametrize("kind", ["AMM", "SRM", "IPC"])
@pytest.mark.parametrize(("where", "words"), FREE)
def test_these_words_block_no_passage(where, words, kind):
    assert BLOCKED not in standings(kind, where, words)


@pytest.mark.parametrize("kind", ["AMM", "SRM"])
@pytest.mark.parametrize(("where", "words"), NOTICES)
def test_a_notice_in_a_notice_s_place_blocks_the_whole_document(where, words, kind):
    assert set(standings(kind, where, words)) == {BLOCKED}


@pytest.mark.parametrize(("where", "words"), [row for row in NOTICES if row[0] == "title"])
def test_the_same_words_deep_in_a_document_do_not_block_all_of_it(where, words):
    assert set(standings("AMM", "far", words)) != {BLOCKED}


def test_a_parts_catalog_s_usual_notice_does_not_block_it():
    assert BLOCKED not in standings("IPC", "title", "NOT FOR USE IN MAINTENANCE")
