"""Which words grant an approval. A grant that is invented is the one defect that may never happen here.

Sources: the limitations statement is the rule's own (14 CFR part 23, A23.4, and G23.4 before it); quotations
from Federal Register documents, advisory circulars and 14 CFR name them; every other wording is common
practice, no source, with invented names and numbers.
"""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from indexer.trade.approval_words import ApprovalKind, find_approval_words

K = ApprovalKind

GRANTS = [
    # stamps: the words by themselves, with name, office or date
    ("FAA APPROVED  J. Doe  12 May 2004", K.GRANT),
    ("FAA APPROVED May 12, 2004", K.GRANT),
    ("FAA-APPROVED 12 MAY 2004", K.GRANT),
    ("FAA Approved: Aug 31/98", K.GRANT),
    ("Page 201   FAA APPROVED   12 May 2004", K.GRANT),
    ("53-10-00  FAA APPROVED: J. Doe, Manager, Wichita ACO, FAA  12 May 2004  Page 201", K.GRANT),
    ("APPROVED BY THE FAA: J. Doe 12 May 2004", K.GRANT),
    ("Repairs of frames.\n\nFAA APPROVED\n\nJ. Doe\nManager, Wichita ACO\n12 May 2004", K.GRANT),
    ("FAA APPROVED\nDate: 12 May 2004", K.GRANT),
    ("F.A.A. APPROVED 12 May 2004", K.GRANT),
    ("Approval:\nFAA APPROVED 12 May 2004", K.GRANT),
    ("REPAIR 5\nFAA APPROVED J. Doe 12 May 2004", K.GRANT),
    ("53-10-00\nPage 201\nFAA APPROVED\nMay 12/04", K.GRANT),
    ("Torque the bolts.\nFAA APPROVED J. Doe 12 May 2004", K.GRANT),
    ("FAA APPROVED J. Doe 12 May 2004\nRepair 5 is done as\nfollows.", K.GRANT),
    ("DER APPROVED J. Doe DERT-123456-NM", K.DESIGNEE),
    ("FAA-DER APPROVED J. Doe 12 May 2004", K.DESIGNEE),
    ("EASA APPROVED 12 May 2004", K.FOREIGN),
    ("DGAC APPROVED 3 March 1999", K.FOREIGN),
    # sentences: at the start, of "this" publication
    ("This manual is FAA approved.", K.GRANT),
    ("This section has been approved by the FAA.", K.GRANT),
    ("These repairs are FAA approved and must be done as written.", K.GRANT),
    ("This structural repair manual is FAA-approved for the repairs it describes.", K.GRANT),
    ("This repair is approved by the Manager, Wichita Aircraft Certification Office, FAA.", K.GRANT),
    ("The technical content of this service bulletin is FAA approved.", K.BULLETIN),
    ("The technical content of this service bulletin has been FAA approved.", K.BULLETIN),
    ("The technical data in this bulletin are approved by the Federal Aviation Administration.", K.BULLETIN),
    ("F. Approval\nThe technical content of this service bulletin, Revision 3, is FAA approved.", K.BULLETIN),
    ("1. F. APPROVAL\nTHE TECHNICAL CONTENT OF THIS SERVICE BULLETIN IS FAA APPROVED.", K.BULLETIN),
    ("The technical con-\ntent of this service\nbulletin is FAA ap-\nproved.", K.BULLETIN),
    (
        "The engineering aspects of this service bulletin have been shown to comply with the applicable "
        "Federal Aviation Regulations and are FAA approved.",
        K.BULLETIN,
    ),
    (
        "FAA approval has been obtained on technical data in this publication that affects type design.",
        K.BULLETIN,
    ),
    ("The FAA has approved the technical content of this service bulletin.", K.BULLETIN),
    ("Approval: FAA approved.", K.BULLETIN),
    ("Approval: FAA approved 12 May 2004", K.BULLETIN),
    ("This repair is approved by the Manager, Small Airplane Standards Branch, FAA.", K.GRANT),
    ("This manual is FAA approved. It has 40 pages and no index.", K.GRANT),
    ("The technical content of this bulletin is approved under the authority of ODA-100999-CE.", K.DESIGNEE),
    ("Approval: FAA-DER approved.", K.DESIGNEE),
    ("The repair instructions in this document are FAA-DER approved.", K.DESIGNEE),
    (
        "The technical data in this bulletin have been approved by an authorized representative of the "
        "Exemplar Aircraft ODA.",
        K.DESIGNEE,
    ),
    (
        "The technical content of this document is approved under the authority of DOA ref. EASA.21J.999.",
        K.FOREIGN,
    ),
    # the rule's own statement, in both of its wordings
    (
        "The Airworthiness Limitations section is FAA approved and specifies maintenance required under §§ "
        "43.16 and 91.403 of Title 14 of the Code of Federal Regulations unless an alternative "
        "program has been FAA approved.",
        K.LIMITATIONS,
    ),
    (
        "AIRWORTHINESS LIMITATIONS\nThe Airworthiness Limitations section is FAA approved and specifies "
        "inspection and\nmaintenance required under §§ 43.16 and 91.403 of the Federal Aviation "
        "Regulations unless an\n"
        "alternative program has been FAA approved.",
        K.LIMITATIONS,
    ),
]


@pytest.mark.parametrize(("text", "kind"), GRANTS)
def test_these_words_grant(text, kind):
    assert [words.kind for words in find_approval_words(text)] == [kind]


NO_GRANTS = [
    # denied
    "not FAA approved",
    "NOT FAA APPROVED",
    "NOT\nFAA APPROVED\n12 May 2004",
    "This document has not been FAA approved.",
    "This document has not been\nFAA APPROVED",
    "This manual is not FAA approved.",
    "This manual isn't FAA approved.",
    "This manual is non-FAA approved.",
    "This repair is no longer FAA approved.",
    "This manual was never FAA approved.",
    "Neither this manual nor its supplement is FAA approved.",
    "This manual is FAA approved? No.",
    "This manual is FAA approved, but the approval was withdrawn.",
    "FAA APPROVED 12 May 2004 - CANCELLED",
    "FAA APPROVED: NO",
    "FAA APPROVED: N/A",
    "The technical content of this service bulletin has been denied approval by the FAA.",
    "Nothing in this manual is FAA approved.",
    "It is not true that this manual is FAA approved.",
    "The following are not correct:\n(1) This manual is FAA approved.",
    "Without a signature on page 1,\nthis manual is FAA approved by nobody.",
    "N0T FAA APPROVED 12 May 2004",
    "This repair is n0t FAA approved.",
    # hoped, planned, asked
    "pending FAA approval",
    "PENDING\nFAA APPROVED\n12 May 2004",
    "FAA APPROVED (PENDING)",
    "FAA APPROVED 12 May 2004 (DRAFT)",
    "will be FAA approved",
    "This manual will be FAA approved.",
    "This manual should be FAA approved.",
    "This manual may be FAA approved.",
    "This manual can be FAA approved.",
    "This manual is expected to be FAA approved.",
    "FAA approval is expected.",
    "FAA approval has been requested.",
    "FAA approval has been applied for.",
    "awaiting FAA approval",
    "This manual is believed to be FAA approved.",
    "This manual is considered FAA approved.",
    "The operator believes this manual is FAA approved.",
    "Do not assume that this manual is FAA approved.",
    "If this manual is FAA approved, file the page.",
    "When this manual is FAA approved, file the page.",
    "This manual is FAA approved when signed on page 1.",
    "This manual is FAA approved unt1l 12 May 2004.",
    "This manual is FAA approved once the letter of the office is attached.",
    "This manual is FAA approved subject to flight test.",
    "This manual is FAA approved provided the supplement is carried.",
    "Is this manual FAA approved?",
    "This manual is FAA approved?",
    "The technical content of this service bulletin is proposed for FAA approval.",
    "The technical content of this draft service bulletin is FAA approved after signature.",
    # told to do
    "submit to the FAA for approval",
    "Submit the data to the FAA for approval.",
    "Obtain FAA approval before further flight.",
    "Contact the FAA for an approved repair.",
    "Use only FAA approved parts.",
    "Repair in accordance with an FAA-approved method.",
    "Repair per FAA approved data.",
    "FAA-approved AMOC required",
    "Must be FAA approved.",
    "Repairs beyond these limits require FAA approval.",
    "The repair must be approved by the Manager, Wichita ACO, FAA.",
    # of something else
    "The technical content of Service Bulletin 32-0012 is FAA approved.",
    "The technical content of the service bulletin is FAA approved.",
    "Service Bulletin 32-0012 is FAA approved.",
    "The airplane flight manual is FAA approved.",
    "The maker's structural repair manual is FAA approved.",
    "See the FAA approved airplane flight manual.",
    "the FAA approved maintenance program",
    "FAA APPROVED AIRPLANE FLIGHT MANUAL",
    "FAA APPROVED AIRPLANE FLIGHT MANUAL SUPPLEMENT 12 May 2004",
    "FAA APPROVED REPAIR STATION NO. EX1A 12 May 2004",
    "FAA APPROVED REPAIRS",
    "FAA APPROVED PARTS LIST 12 May 2004",
    "FAA Approved Model List",
    "FAA APPROVED MATERIALS J. Doe 12 May 2004",
    "FAA APPROVED ALTERNATIVE METHOD 12 May 2004",
    "This repair station is FAA approved.",
    "This section has FAA approved data for the mount.",
    "This document is FAA approved mechanic's property.",
    "Revision 2 of this bulletin was FAA approved.",
    "This manual was FAA approved.",
    "Earlier revisions of this manual were FAA approved.",
    "The engine on this page is FAA approved.",
    "Smith Aviation is FAA approved.",
    "We are an FAA approved school.",
    # quoted or prescribed
    'The section must say "The Airworthiness Limitations section is FAA approved and specifies maintenance '
    'required under §§ 43.16 and 91.403 of Title 14 of the Code of Federal Regulations".',
    "This section must contain a legible statement in a prominent location that reads: “The Airworthiness "
    "Limitations section is FAA approved and specifies maintenance required under §§ 43.16 and 91.403 of the "
    "Federal Aviation Regulations unless an alternative program has been FAA approved.”",
    "Put these words on the page:\nThis manual is FAA approved.",
    "Example of an approval page:\nFAA APPROVED\nJ. Doe\n12 May 2004",
    "SAMPLE\nFAA APPROVED 12 May 2004",
    'The stamp reads "FAA APPROVED J. Doe 12 May 2004"',
    "The words “This manual is FAA approved.” were removed.",
    # limited, so that nobody can tell how far it reaches
    "This manual is FAA approved except chapter 5.",
    "Only this section is FAA approved.",
    "This manual is FAA approved in part.",
    "This manual is FAA approved for training.",
    "This document is FAA approved as an alternative method of compliance with AD 2099-04-07.",
    "Some of the repairs in this manual are FAA approved.",
    "The technical content of this service bulletin is FAA approved. However, Part 3 has not been submitted.",
    "This manual is FAA approved; chapter 5 is not.",
    "This manual is FAA approved. Chapter 5 is not FAA approved.",
    "This manual is FAA approved. (Not valid for Model B.)",
    "This manual is FAA approved. Do not use it for Model B.",
    "The technical content of this service bulletin is FAA approved.\n\nNOTE: Part 3 is not FAA approved.",
    "This page is FAA approved by reference.",
    "This repair is approved by the FAA on a case by case basis.",
    "These instructions are FAA approved in name.",
    "The data in this service bulletin are FAA approved data of another maker.",
    "The FAA has approved the technical content of this bulletin for release to the public.",
    # approved by somebody else, with the FAA in the sentence
    "This document is approved by the manager of quality at Smith, an FAA repair station.",
    "This document is approved by the chief pilot and mailed to the FAA.",
    "THIS DOCUMENT IS APPROVED BY THE MANAGER AND MAILED TO THE FAA.",
    "This document is approved by the director, and a copy was sent to the FAA.",
    "This manual is approved by the FAA Academy Student Union.",
    "Approval: approved by the maker's ODA unit",
    # a stamp's line that belongs to the lines around it
    "THE FOLLOWING ITEM WAS\nFAA APPROVED 12 MAY 2004",
    "The item below is\nFAA APPROVED\n12 May 2004",
    "If signed,\nFAA APPROVED\n12 May 2004",
    "FAA APPROVED\n12 May 2004\nis not a valid stamp",
    "FAA APPROVED 12 May 2004\nvoid without seal",
    "Legend:\nFAA APPROVED 12 May 2004",
    "Stamp must show:\nFAA APPROVED J. Doe 12 May 2004",
    "Do not use this page until it carries\n\nFAA APPROVED J. Doe 12 May 2004",
    "Old stamp:\nFAA APPROVED J. Doe 12 May 2004",
    "DELETED\nFAA APPROVED J. Doe 12 May 2004",
    "FAA APPROVED 12 May 2004 (withdrawn)",
    "FAA APPROVED: see Form 8110-3, 12 May 2004",
    "It was FAA approved 12 May 2004",
    "FAA approved on 12 May 2004.",
    # blank forms and titles
    "FAA APPROVED",
    "FAA APPROVED: ____________ DATE: ____________",
    "FAA APPROVED\nNAME:\nDATE:",
    "FAA APPROVED [insert signature]\n\nDate [insert date]",
    "FAA Approved ( ) Yes ( ) No",
    # misread
    "FAA APPR0VED J. Doe 12 May 2004",
    "FAA APPROVE0 12 May 2004",
    "FM APPROVED 12 May 2004",
    "FAA APPROVEDLY 12 May 2004",
    "The technica1 content of this service bulletin is FAA approved exc3pt Part 3.",
    # other words that only sound alike
    "FAA accepted",
    "This manual is acceptable to the FAA.",
    "FAA-PMA",
    "Approved: J. Doe, Chief Engineer, Exemplar Aircraft, 12 May 2004",
    "Approved repairs",
    "TSO approved",
    "Approved for return to service",
    "Approval: Not applicable",
    "Approval: None",
    "No FAA approval required.",
    "FAA approval is not required.",
    "EASA approved",
    "The technical content of this document is approved under the authority of DOA ref. EASA.21J.999.",
    # the last lines of a page, cut off
    "This manual is FAA",
    "approved",
    "FAA",
    "",
]


@pytest.mark.parametrize("text", NO_GRANTS)
def test_these_words_grant_nothing(text):
    assert [words for words in find_approval_words(text) if words.kind.grants] == []


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("FAA accepted", K.BARE_STAMP),
        ("FAA accepted 12 May 2004", K.ACCEPTED),
        ("This manual is acceptable to the FAA.", K.ACCEPTED),
        ("Approval: Not applicable", K.NOT_REQUIRED),
        ("No FAA approval required.", K.NOT_REQUIRED),
        ("This document has not been FAA approved.", K.BLOCKS),
        ("This document has not been\nFAA APPROVED", K.BLOCKS),
        ("FOR REFERENCE ONLY", K.BLOCKS),
        ("*** FOR REFERENCE ONLY ***", K.BLOCKS),
        ("This manual is for reference only.", K.BLOCKS),
        ("NOT FOR MAINTENANCE", K.BLOCKS),
        ("These notes are for training purposes only.", K.BLOCKS),
        ("UNCONTROLLED COPY", K.BLOCKS),
        ("Uncontrolled when printed", K.PAPER),
        ("This document is uncontrolled if printed.", K.PAPER),
        ("Dimensions in parentheses are for reference only.", K.PAPER),
        ("not FAA approved", K.NEGATED),
        ("pending FAA approval", K.HOPE),
        ("Is this manual FAA approved?", K.HOPE),
        ("submit to the FAA for approval", K.INSTRUCTION),
        ("the FAA approved maintenance program", K.MENTION),
        ("This manual is FAA approved except chapter 5.", K.PARTIAL),
        ("The technical content of this bulletin is FAA approved for the airplanes of group 1.", K.PARTIAL),
        ("FAA APPROVED", K.BARE_STAMP),
        ("FAA APPROVED AIRPLANE FLIGHT MANUAL", K.MENTION),
        ("This manual is FAA approved. (Not valid for Model B.)", K.PARTIAL),
    ],
)
def test_the_other_kinds(text, kind):
    assert [words.kind for words in find_approval_words(text)] == [kind]


def test_a_dimension_for_reference_blocks_nothing():
    text = "The torque of 50 is given for reference only. Fit the bolt."
    assert [words.kind for words in find_approval_words(text)] == [K.PAPER]


def test_quotes_are_the_words_as_printed():
    text = (
        "A. Reason.\n\nF.  Approval:\n The technical con-\ntent of this  bulletin\nis FAA ap-\nproved.\n\n"
        "G. Manpower"
    )
    (words,) = [one for one in find_approval_words(text) if one.kind.grants]
    assert words.quote == text[words.start : words.end]
    assert words.quote.endswith("is FAA ap-\nproved.")


@pytest.mark.parametrize(
    "text",
    [
        # AD 2024-03-04, 89 FR 9764 (document 2024-02930), paragraph on alternative methods
        "Before using any approved AMOC, notify your appropriate principal inspector, or lacking a principal "
        "inspector, the manager of the responsible Flight Standards Office.",
        # NPRM, document 2024-02724, paragraph (h)(2)
        "for this AD, any repair using Airbus Canada source data must be accomplished using a method "
        "approved by the Manager, International Validation Branch, FAA; or Transport Canada; or Airbus "
        "Canada Limited Partnership's Transport Canada Design Approval Organization (DAO).",
        # NPRM, document 2024-02724
        "This product has been approved by the aviation authority of another country and is approved for "
        "operation in the United States.",
        # 14 CFR 43.7(d), edition of 2015
        "(d) A manufacturer may approve for return to service any aircraft which that manufacturer has "
        "worked on under § 43.3(j). However, except for minor alterations, the work must have been done in "
        "accordance with technical data approved by the Administrator.",
        # 14 CFR 43.16, edition of 2015
        "Each person performing an inspection or other maintenance specified in an Airworthiness Limitations "
        "section of a manufacturer's maintenance manual or Instructions for Continued Airworthiness shall "
        "perform the inspection or other maintenance in accordance with that section, or in accordance with "
        "operations specifications approved by the Administrator",
    ],
)
def test_rules_and_directives_speak_of_approval_and_grant_none(text):
    assert not any(words.kind.grants for words in find_approval_words(text))


_STARTS = ["It is said that ", "Do not think ", "If ", "Whether ", "He claims ", "Unless ", "The copy of "]


@settings(deadline=None)  # how long it takes is measured elsewhere
@given(st.sampled_from([text for text, kind in GRANTS if kind.grants]), st.sampled_from(_STARTS))
def test_a_grant_inside_a_larger_sentence_is_none(text, start):
    sentence = start + text[0].lower() + text[1:]
    if "\n" not in text and not re.match(r"\d|Approval|Page|F\. |1\. ", text):
        assert not any(words.kind.grants for words in find_approval_words(sentence))


# One sentence or line, in which a letter misread must not turn the trap into a grant. Where a second sentence
# or line denies the first, or the end is a question mark, one letter can hide that from any reader.
ONE_SENTENCE = [
    text
    for text in NO_GRANTS
    if not re.search(r"[.;:?]\s*\S.*$|\n|\?|APPR0VED", text) and "approved" in text.lower()
]


def test_there_are_enough_single_sentences():
    assert len(ONE_SENTENCE) > 60


@pytest.mark.parametrize("text", ONE_SENTENCE)
def test_no_single_misread_letter_makes_a_grant(text):
    for place in range(len(text)):
        for letter in "0I. ":
            misread = text[:place] + letter + text[place + 1 :]
            assert not any(words.kind.grants for words in find_approval_words(misread)), misread


@settings(deadline=None)  # how long it takes is measured elsewhere
@given(st.text(alphabet='FAADERO approved.\n-—:_?“"', max_size=120))
def test_any_text_can_be_asked(text):
    for words in find_approval_words(text):
        assert words.quote == text[words.start : words.end] != ""
