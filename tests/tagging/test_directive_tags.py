"""Airworthiness directives in the lettered form, on the published texts and on invented ones.

Outside check: Federal Register documents of 2017 to 2024 (tests/data/SOURCES.md); what each prints was read
by eye.
"""

import datetime
from pathlib import Path

import pytest
from directive_forms import FORMS
from made_documents import document, document_of_lines, document_of_text, page

from indexer.tagging.directive_reading import read_directive_pages
from indexer.tagging.publication import tag_document
from indexer.tagging.tags import ClaimKind, StandingValue
from indexer.trade.directive_numbers import normalised_directive
from indexer.trade.publication_types import PublicationType as Type

RULED, PROPOSED = Type.AIRWORTHINESS_DIRECTIVE, Type.PROPOSED_DIRECTIVE
DIRECTIVES = Path(__file__).parent.parent / "data" / "directives"


def tagged(name):
    return tag_document(document_of_text((DIRECTIVES / f"{name}.txt").read_text(encoding="utf-8")))[0]


@pytest.mark.parametrize(
    "document_number, chapter",
    [
        ("2017-11001", "57"),
        ("2018-02352", "57"),
        ("2018-02354", "92"),
        ("2024-02724", "51"),
        ("2024-02930", "27"),
    ],
)
def test_every_passage_gets_exactly_the_chapter_the_subject_paragraph_states(document_number, chapter):
    publication = tagged(document_number)
    assert publication.passages
    for passage in publication.passages:
        assert [str(tag.value) for tag in passage.numbers] == [chapter]
        assert f"Code {chapter}" in passage.numbers[0].evidence.quote


@pytest.mark.parametrize(
    "document_number, kind, number, amendment, effective, maker",
    [
        ("2018-02352", RULED, "2018-03-08", "39-19181", datetime.date(2018, 2, 22), "Airbus"),
        ("2018-02354", RULED, "2018-03-07", "39-19180", datetime.date(2018, 2, 22), "Airbus"),
        (
            "2024-02930", Type.AIRWORTHINESS_DIRECTIVE, "2024-03-04", "39-22673", datetime.date(2024, 2, 12),
            "The Boeing Company",
        ),
        ("2017-11001", Type.PROPOSED_DIRECTIVE, None, None, None, "Bombardier, Inc."),
        (
            "2024-02724", Type.PROPOSED_DIRECTIVE, None, None, None,
            "Airbus Canada Limited Partnership (Type Certificate Previously Held by C Series Aircraft Limited"
            " Partnership (CSALP); Bombardier, Inc.)",
        ),
    ],
)  # fmt: skip
def test_number_amendment_and_effective_date_are_those_printed(
    document_number, kind, number, amendment, effective, maker
):
    publication = tagged(document_number)
    facts = publication.directive
    assert publication.identity.type.value is kind
    assert publication.identity.maker.value == maker
    assert (facts.number and facts.number.value) == number
    assert (facts.amendment and facts.amendment.value) == amendment
    assert (facts.effective and facts.effective.value) == effective
    assert facts.is_rule is (kind is Type.AIRWORTHINESS_DIRECTIVE)


def test_the_models_and_the_applicability_paragraph_are_those_printed():
    publication = tagged("2018-02354")
    assert [model.value for model in publication.identity.models] == [
        "A330-202", "A330-203", "A330-223", "A330-243", "A340-211", "A340-212", "A340-311", "A340-313",
    ]  # fmt: skip
    assert publication.directive.applicability.value.startswith(
        "This AD applies to the airplanes identified in"
    )


def test_a_final_rule_supersedes_the_directive_its_paragraph_b_replaces():
    claims = tagged("2018-02352").claims
    assert [claim.document for claim in claims if claim.kind is ClaimKind.SUPERSEDES] == ["2005-19-28"]
    assert not [claim for claim in claims if claim.kind in (ClaimKind.REQUIRES, ClaimKind.INCORPORATES)]


def test_guidance_in_a_note_is_a_mention_and_credit_is_bound_to_its_paragraph():
    claims = tagged("2024-02930").claims
    (message,) = [
        claim
        for claim in claims
        if claim.document == "MOM-MOM-23-0993-01B" and claim.kind is ClaimKind.CREDITS
    ]
    assert message.date == datetime.date(2023, 12, 27)
    assert not [claim for claim in claims if claim.kind in (ClaimKind.REQUIRES, ClaimKind.INCORPORATES)]


@pytest.mark.parametrize("document_number", ["2017-11001", "2024-02724"])
def test_a_proposal_requires_nothing_and_raises_nothing(document_number):
    publication = tagged(document_number)
    assert {claim.kind for claim in publication.claims} <= {ClaimKind.MENTIONS}
    assert {passage.standing.value for passage in publication.passages} == {StandingValue.INFORMATION}
    assert not any(passage.standing.mandatory for passage in publication.passages)


def test_the_rule_itself_binds_and_its_preamble_does_not():
    publication = tagged("2024-02930")
    first, last = publication.passages[0].standing, publication.passages[-1].standing
    assert (first.value, first.mandatory) == (StandingValue.UNDETERMINED, False)
    assert (last.value, last.mandatory) == (StandingValue.APPROVED, True)
    assert last.quote == "2024–03–04 The Boeing Company: Amendment 39–22673"


RULE = """# AIRWORTHINESS DIRECTIVE
Federal Aviation Administration
2033-05-11 Corrigan Aircraft: Amendment 39-31007; Docket No. FAA-2032-7001.
# (a) Effective Date
This AD is effective June 1, 2033.
# (b) Affected ADs
This AD replaces AD 2030-02-09, Amendment 39-28000, and AD 2029-01-03.
# (c) Applicability
This AD applies to Corrigan Aircraft Model C88 and C88A airplanes, certificated in any category.
# (d) Subject
{subject}
# (e) Unsafe Condition
This AD was prompted by a report in Corrigan Service Letter SL-40, dated May 2, 2031.
# (f) Compliance
Comply with this AD within the compliance times specified, unless already done.
# (g) Required Actions
{required}
# (h) Related Information
Corrigan Service Bulletin 32-0099, dated May 2, 2032, has more information.
# (i) Material Incorporated by Reference
(1) The Director of the Federal Register approved the incorporation by reference of this material.
(i) Corrigan Service Bulletin 32-0012, Revision 3, dated August 3, 2032.
"""
SUBJECT = "Air Transport Association (ATA) of America Code 32, Landing gear."
REQUIRED = (
    "Before further flight, replace the pin in accordance with Part 3 of Corrigan Service Bulletin 32-0012, "
    "Revision 3."
)


def rule(subject=SUBJECT, required=REQUIRED):
    return tag_document(document(page(1, RULE.format(subject=subject, required=required))))[0]


@pytest.mark.parametrize(
    "subject, numbers",
    [
        ("Joint Aircraft System Component (JASC) Code 6700, Rotorcraft Flight Control.", ["6700"]),
        ("Air Transport Association (ATA) of America Code 38, Water/waste.", ["38"]),
        (
            "Joint Aircraft System Component (JASC)/Air Transport Association (ATA) of America Code 32.",
            ["32"],
        ),
        (  # the subject paragraph of 85 FR 47698 (6 August 2020)
            "Air Transport Association (ATA) of America Code 22, Auto flight; 27, Flight controls; and 31, "
            "Indicating/recording systems.",
            ["22", "27", "31"],
        ),
        ("Landing gear.", []),
    ],
)
def test_the_subject_paragraph_gives_the_chapters(subject, numbers):
    assert [str(tag.value) for tag in rule(subject=subject).passages[0].numbers] == numbers


def of_kind(publication, kind):
    return [
        (claim.document, claim.revision, claim.paragraphs)
        for claim in publication.claims
        if claim.kind is kind
    ]


def test_each_document_stands_at_the_level_of_its_paragraph():
    publication = rule()
    assert of_kind(publication, ClaimKind.REQUIRES) == [("32-0012", "3", ("Part 3",))]
    assert of_kind(publication, ClaimKind.INCORPORATES) == [("32-0012", "3", ())]
    assert of_kind(publication, ClaimKind.SUPERSEDES) == [("2030-02-09", "", ()), ("2029-01-03", "", ())]
    assert {document for document, _, _ in of_kind(publication, ClaimKind.MENTIONS)} == {"SL-40", "32-0099"}


BULLETIN = "Corrigan Service Bulletin 32-0077, Revision 1"


@pytest.mark.parametrize(
    "sentence, required",
    [
        (f"Within 10 hours, inspect the fork in accordance with {BULLETIN}.", True),
        (f"Replace the pin as specified in paragraphs 2.A through 2.C of {BULLETIN}.", True),
        (f"Before further flight, do the actions in paragraph (g)(1), using {BULLETIN}.", True),
        (f"Within 60 hours, do paragraph 3.A of {BULLETIN}.", True),
        (f"Do not do paragraph 3.A of {BULLETIN}.", False),
        (f"Guidance on the work can be found in {BULLETIN}.", False),
        (
            f"Where {BULLETIN} says to contact the maker, this AD requires repair by an approved method.",
            False,
        ),
        (f"Although {BULLETIN} specifies to send a report, this AD does not require that.", False),
        (
            f"As of the effective date of this AD, no person may install a pin per {BULLETIN}.",
            False,
        ),
        (
            f"For airplanes that have been modified in accordance with {BULLETIN}: inspect the fork.",
            False,
        ),
        (f"The inspection may be done in accordance with {BULLETIN}.", False),
        (
            f"Actions done before the effective date in accordance with {BULLETIN} are acceptable.",
            False,
        ),
        (f"Doing the replacement in accordance with {BULLETIN} is optional.", False),
        (f"{BULLETIN} also covers this same subject.", False),
        (f"Replace any bolt that was installed in accordance with {BULLETIN}.", False),
        (f"Inspect each brake modified using {BULLETIN}.", False),
        (f"Remove the parts installed per {BULLETIN}.", False),
        (f"For airplanes not modified in accordance with {BULLETIN}, inspect the brake.", False),
        (f"Undo any repair made using {BULLETIN}, and replace the brake.", False),
        (f"Inspect the brake for bolts specified in {BULLETIN}.", False),
        (f"Within the times specified in {BULLETIN}, replace the bolts.", False),
        (f"Report the findings to the maker at the address specified in {BULLETIN}.", False),
        (f"Repair it by an approved method, or contact the maker as specified in {BULLETIN}.", False),
        (f"Repair it using a method approved by the Manager, FAA; one such method is {BULLETIN}.", False),
        (f"If you did the work before May 12, 2031, using {BULLETIN}, nothing more is needed.", False),
        (f"Replacing the brake in accordance with {BULLETIN}, terminates the inspections.", False),
        (f"The inspections must be done in accordance with {BULLETIN}.", True),
        (f"Airplanes in compliance with {BULLETIN} are exempt.", False),
        (f"Installing the pin in accordance with {BULLETIN} eliminates the inspections.", False),
        (f"Replacement of the pin per {BULLETIN} constitutes compliance.", False),
        (f"If the modification per {BULLETIN} fails, replace the fork.", False),
        (f"When inspecting in accordance with {BULLETIN}, use a 10-power glass.", False),
        (f"After doing the inspection per {BULLETIN}, repair the fork by an approved method.", False),
        (f"If a crack is found, replace the pin in accordance with {BULLETIN}.", True),
        (f"Upon the next overhaul, inspect the fork in accordance with {BULLETIN}.", True),
        (f"Replace the pin following {BULLETIN}.", True),
        (f"Within 50 hours, unless accomplished previously, inspect the fork per {BULLETIN}.", True),
        (f"Within 10 hours following accomplishment of {BULLETIN}, inspect the fork.", False),
        (f"Within 10 hours following the installation of the pin of {BULLETIN}, inspect it.", False),
    ],
)
def test_only_words_that_order_work_require_a_document(sentence, required):
    documents = [document for document, _, _ in of_kind(rule(required=sentence), ClaimKind.REQUIRES)]
    assert ("32-0077" in documents) is required


def test_later_revisions_are_allowed_only_where_the_words_say_so():
    def later(sentence):
        claims = [claim for claim in rule(required=sentence).claims if claim.kind is ClaimKind.REQUIRES]
        return [claim.later_allowed for claim in claims]

    assert later(f"Inspect the fork in accordance with {BULLETIN}.") == [False]
    assert later(f"Inspect the fork in accordance with {BULLETIN}, or later FAA-approved revisions.") == [
        True
    ]


def test_credit_names_every_revision_it_lists():
    text = RULE.format(subject=SUBJECT, required=REQUIRED) + (
        "# (j) Credit for Previous Actions\nThis paragraph provides credit for paragraph (g), if done"
        " before the effective date using Corrigan Service Bulletin 32-0012, original issue, dated May 1,"
        " 2030, or Revision 2, dated May 1, 2031.\n"
    )
    publication = tag_document(document(page(1, text)))[0]
    assert [revision for _, revision, _ in of_kind(publication, ClaimKind.CREDITS)] == ["original", "2"]


def test_a_directive_of_another_authority_is_one_and_binds_nothing_here():
    body = """# AIRWORTHINESS DIRECTIVE
European Union Aviation Safety Agency
AD No.: 2033-0101
Applicability: Corrigan C88
Required action: inspect in accordance with Corrigan Service Bulletin 32-0012, Revision 3."""
    publication = tag_document(document(page(1, body)))[0]
    assert publication.identity.type.value is Type.AIRWORTHINESS_DIRECTIVE
    assert publication.directive.is_rule is False
    assert {passage.standing.value for passage in publication.passages} == {StandingValue.UNDETERMINED}
    assert {claim.kind for claim in publication.claims} <= {ClaimKind.MENTIONS}


@pytest.mark.parametrize(
    "words",
    ["ACTION: Notice of proposed rulemaking (NPRM).", "ACTION: Supplemental notice of proposed rulemaking.",
     "The FAA proposes to amend 14 CFR part 39 as follows:", "The Proposed Amendment"],
)  # fmt: skip
def test_words_of_a_proposal_beside_those_of_a_rule_make_it_no_rule(words):
    reading = read_directive_pages([page(1, words + "\n" + RULE.format(subject=SUBJECT, required=REQUIRED))])
    assert reading.facts.is_rule is False
    assert reading.facts.number is None


def test_a_withdrawn_rule_is_no_rule():
    body = "ACTION: Final rule; removal.\n" + RULE.format(subject=SUBJECT, required=REQUIRED)
    assert read_directive_pages([page(1, body)]).facts.is_rule is False


def test_a_sub_paragraph_i_does_not_pass_for_paragraph_i():
    body = RULE.format(
        subject=SUBJECT,
        required=REQUIRED + "\n(1) Group 1:\n(i) Inspect the fork.\n(ii) Replace the pin.",
    )
    reading = read_directive_pages([page(1, body)])
    assert [(each.letter, each.heading) for each in reading.paragraphs][-3:] == [
        ("g", "Required Actions"), ("h", "Related Information"), ("i", "Material Incorporated by Reference"),
    ]  # fmt: skip


def test_headings_above_their_letters_are_read_too():
    """The form of about 2005 to 2012."""
    body = """Airworthiness Directives; Corrigan Aircraft Airplanes
AGENCY: Federal Aviation Administration (FAA), DOT.
ACTION: Final rule.
2009-11-02 Corrigan Aircraft: Amendment 39-15900. Docket No. FAA-2008-0100.
Effective Date
(a) This AD becomes effective July 1, 2009.
Affected ADs
(b) None.
Applicability
(c) This AD applies to Corrigan Aircraft Model C88 airplanes; certificated in any category.
Subject
(d) Air Transport Association (ATA) of America Code 57: Wings.
Reason
(e) This AD results from reports of cracks."""
    publication = tag_document(document(page(1, body)))[0]
    assert publication.directive.effective.value == datetime.date(2009, 7, 1)
    assert [str(tag.value) for tag in publication.directive.subjects] == ["57"]


def test_a_letter_that_reprints_a_directive_is_not_one():
    body = "# SERVICE LETTER SL-40\nSubject: a new directive\n" + RULE.format(
        subject=SUBJECT, required=REQUIRED
    )
    publication = tag_document(document(page(1, body)))[0]
    assert publication.identity.type.value is Type.SERVICE_LETTER
    assert publication.directive is None
    assert not any(passage.standing.mandatory for passage in publication.passages)


def test_a_list_of_directives_is_no_directive():
    body = """Airworthiness directives received
Federal Aviation Administration
2033-05-11 Corrigan Aircraft: Amendment 39-31007
2033-06-02 Corrigan Aircraft: Amendment 39-31020
2033-06-09 Pellworth Aircraft: Amendment 39-31027"""
    publication = tag_document(document(page(1, body)))[0]
    assert publication.identity.type is None
    assert not any(passage.standing.mandatory for passage in publication.passages)


def test_a_rule_of_another_part_is_no_directive():
    body = """DEPARTMENT OF TRANSPORTATION
Federal Aviation Administration
14 CFR Part 25
ACTION: Notice of proposed rulemaking (NPRM).
SUMMARY: The rule would change a paragraph that an airworthiness directive had used before."""
    assert tag_document(document(page(1, body)))[0].identity.type is None


@pytest.mark.parametrize(
    "words",
    [
        "It is no longer incorporated by reference.",
        "This material is removed from this AD.",
        "It is not incorporated by reference in this AD.",
    ],
)
def test_material_that_the_list_takes_out_again_is_not_incorporated(words):
    lines = RULE.format(subject=SUBJECT, required="Replace the pin.")
    assert of_kind(tag_document(document(page(1, lines)))[0], ClaimKind.INCORPORATES)
    said = tag_document(document(page(1, f"{lines}{words}")))[0]
    assert of_kind(said, ClaimKind.INCORPORATES) == of_kind(said, ClaimKind.REQUIRES) == []


@pytest.mark.parametrize(
    "action", ["delay of effective date", "stay", "withdrawal", "correction", "correcting amendment"]
)
def test_a_rule_put_off_taken_back_or_corrected_requires_nothing(action):
    lines = RULE.format(subject=SUBJECT, required=REQUIRED)
    for said, binds in ((f"Final rule; {action}", False), ("Final rule", True)):
        made = tag_document(document(page(1, lines.replace("2033-05-11", f"ACTION: {said}.\n2033-05-11"))))[0]
        assert bool(of_kind(made, ClaimKind.REQUIRES)) is binds


@pytest.mark.parametrize(
    ("action", "speaks"),
    [("delay of effective date", True), ("correction", True), ("request for comments", False)],
)
def test_a_paper_about_a_directive_of_its_number_speaks_of_that_directive(action, speaks):
    lines = RULE.format(subject=SUBJECT, required=REQUIRED)
    body = lines.replace("2033-05-11", f"ACTION: Final rule; {action}.\n2033-05-11")
    made = tag_document(document(page(1, body)))[0]
    mentions = [document for document, _, _ in of_kind(made, ClaimKind.MENTIONS)]
    assert ("2033-05-11" in mentions) is speaks
    assert made.directive.put_off is (action == "delay of effective date")


@pytest.mark.parametrize("form", FORMS, ids=lambda form: form.name)
def test_a_file_of_every_form_is_the_publication_a_person_sees(form):
    publication = tag_document(document_of_lines(form.text))[0]
    if form.is_rule:
        assert publication.identity.type.value is Type.AIRWORTHINESS_DIRECTIVE
        assert normalised_directive(publication.identity.number.value) == form.number
        assert publication.directive.is_rule
    elif form.proposal:
        assert publication.identity.type.value is Type.PROPOSED_DIRECTIVE
    if not form.is_rule:
        assert not any(passage.standing.mandatory for passage in publication.passages)
        kinds = {claim.kind for claim in publication.claims}
        assert kinds <= {ClaimKind.MENTIONS, ClaimKind.SUPERSEDES}
        assert (ClaimKind.SUPERSEDES in kinds) is bool(
            publication.directive and publication.directive.withdraws
        )


def test_the_instructions_of_a_bulletin_are_a_part_of_it():
    sentence = f"Replace the pin in accordance with the Accomplishment Instructions of {BULLETIN}."
    required = of_kind(rule(required=sentence), ClaimKind.REQUIRES)
    (parts,) = [parts for document, _, parts in required if document == "32-0077"]
    assert parts == ("Accomplishment Instructions",)
