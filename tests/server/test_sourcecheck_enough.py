"""Whether a source is enough: each rule with its basis; nothing but quoted proof ever gives "yes"."""

import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from indexer.library.catalogue import Catalogue
from indexer.library.records import ReferenceState
from indexer.library.register_records import CurrencyFinding, CurrencyState
from indexer.tagging.entry_facts import read_entry
from indexer.tagging.standing import DESIGNEE_CONDITION, FOREIGN_CONDITION, PARTIAL_CONDITION
from indexer.tagging.standing_scope import SRM_CONDITION
from indexer.tagging.tags import ClaimKind, StandingValue
from indexer.trade.applies import ApplicabilityAnswer, Applies
from indexer.trade.evidence import Answer
from indexer.trade.publication_types import PublicationType as Type
from server.checking.answer_facts import Facts
from server.checking.enough import CLASSES, DIRECTIVE, INSPECTION, MAJOR, MINOR, enough
from server.checking.findings import CITED_ITSELF, DirectiveFinding, StandingFinding
from server.checking.standing_found import PART_APPROVAL
from tests.library.making import Made

YES, NO, CANNOT_TELL = Answer.YES, Answer.NO, Answer.CANNOT_TELL
APPROVED = StandingFinding("approved", "acceptable", "section", "printed", "FAA APPROVED 12 May 2031", 2)
ACCEPTABLE = StandingFinding(
    "acceptable", "acceptable", "document", "by type of publication, printed", "MAINTENANCE MANUAL", 1
)
UNDETERMINED = StandingFinding("undetermined", "acceptable")
UNKNOWN = CurrencyFinding(CurrencyState.UNKNOWN, "Nobody has checked which revision is current.")
SUPERSEDED = CurrencyFinding(CurrencyState.SUPERSEDED, "Superseded by revision 7.")
REQUIRED = DirectiveFinding(
    "AD 2031-04-07", "a", ClaimKind.REQUIRES, "in force", "do Part 3 of SB 32-0012, Revision 2", 1, "", YES
)


def changed(finding, **fields):
    names = finding.__dataclass_fields__
    return type(finding)(**{name: getattr(finding, name) for name in names} | fields)


@pytest.fixture(scope="module")
def held(tmp_path_factory):
    """A publication record; what enough() weighs of it stands in the facts."""
    place = tmp_path_factory.mktemp("held")
    made = Made("mm.pdf", Type.MAINTENANCE_MANUAL, "KM-12", "3", datetime.date(2031, 3, 4), title="Manual")
    with Catalogue.open(place / "library", create=True) as catalogue:
        taken = catalogue.take(made.write(place / "in"), made.document(), made.publications())
        return catalogue.publication(taken.publications[0])


def facts(held, **fields):
    given = {
        "kind": Type.MAINTENANCE_MANUAL,
        "publication": held,
        "number": held.number,
        "reason": "",
        "place": ReferenceState.RESOLVED,
        "complete": True,
        "aircraft": "N12QZ",
        "current": UNKNOWN,
        "applies": ApplicabilityAnswer(Applies.APPLIES, "Model QZ62 is listed."),
        "standing": ACCEPTABLE,
        "directives": (),
        "entry": "Replaced brake linings.",
    }
    told = given | fields
    return Facts(**{"said": read_entry(told["entry"]), **told})


BY_RULE = [
    # basis, facts, minor, major
    ("14 CFR 43.13(a): maker's manual for minor work", {}, YES, CANNOT_TELL),
    ("8900.1 v4 ch9 s1: disputed for major work, so no bare no", {}, YES, CANNOT_TELL),
    ("14 CFR 65.95(a)(1): approved words in scope", {"standing": APPROVED}, YES, YES),
    ("nothing printed shows it", {"standing": UNDETERMINED, "kind": None}, CANNOT_TELL, CANNOT_TELL),
    (
        "words looked at that settle nothing",
        {"standing": changed(UNDETERMINED, quote="approval is pending", pdf_page=1)},
        CANNOT_TELL,
        CANNOT_TELL,
    ),
    (
        "a notice where a notice stands blocks",
        {"standing": StandingFinding("blocked", quote="FOR REFERENCE ONLY", pdf_page=1)},
        NO,
        NO,
    ),
    (
        "14 CFR 21.9(a)(2): a part's approval is no data",
        {"standing": StandingFinding(PART_APPROVAL, conditions=("It approves the article.",))},
        NO,
        NO,
    ),
    ("14 CFR part 11: a proposal is no rule", {"kind": Type.PROPOSED_DIRECTIVE}, NO, NO),
    ("Order 8110.100: an information bulletin recommends", {"kind": Type.AIRWORTHINESS_BULLETIN}, NO, NO),
    ("information only", {"standing": StandingFinding("information")}, NO, NO),
    ("14 CFR 145.109(d): current when the work is done", {"current": SUPERSEDED}, NO, NO),
    ("superseded, though approved", {"current": SUPERSEDED, "standing": APPROVED}, NO, NO),
    (
        "a directive in force names the older revision",
        {"current": SUPERSEDED, "standing": APPROVED, "directives": (REQUIRED,)},
        YES,
        CANNOT_TELL,
    ),
    (
        "14 CFR 43.13: not for this aircraft",
        {
            "applies": ApplicabilityAnswer(Applies.DOES_NOT_APPLY, "Serial 9 is excepted."),
            "standing": APPROVED,
        },
        NO,
        NO,
    ),
    (
        "whether it is for this aircraft is open",
        {"applies": ApplicabilityAnswer(Applies.CANNOT_TELL, "The list is elsewhere."), "standing": APPROVED},
        CANNOT_TELL,
        CANNOT_TELL,
    ),
    (
        "14 CFR 43.9(a)(1): the reference leads to no place",
        {"complete": False, "standing": APPROVED},
        CANNOT_TELL,
        CANNOT_TELL,
    ),
    (
        "the place was not found",
        {
            "place": ReferenceState.NO_SUCH_PLACE,
            "reason": "The place named was not found in it.",
            "standing": APPROVED,
        },
        CANNOT_TELL,
        CANNOT_TELL,
    ),
    (
        "the words do not say whose document",
        {"only_by_kind": True, "standing": APPROVED},
        CANNOT_TELL,
        CANNOT_TELL,
    ),
    (
        "not held",
        {"publication": None, "reason": "Not in this library: cannot tell."},
        CANNOT_TELL,
        CANNOT_TELL,
    ),
    (
        "TCDS notes, bilateral agreements: foreign approval",
        {"standing": changed(APPROVED, conditions=(FOREIGN_CONDITION,))},
        YES,
        CANNOT_TELL,
    ),
    (
        "Order 8110.37F: a designee's authority",
        {"standing": changed(APPROVED, conditions=(DESIGNEE_CONDITION,))},
        YES,
        CANNOT_TELL,
    ),
    (
        "an approval that excludes a part",
        {"standing": changed(APPROVED, conditions=(PARTIAL_CONDITION,))},
        YES,
        CANNOT_TELL,
    ),
    (
        "a maker's SRM 51-11: limits on unrepaired structure",
        {"standing": changed(APPROVED, conditions=(SRM_CONDITION,)), "kind": Type.STRUCTURAL_REPAIR_MANUAL},
        YES,
        YES,
    ),
    (
        "the same over an old repair",
        {
            "standing": APPROVED,
            "kind": Type.STRUCTURAL_REPAIR_MANUAL,
            "entry": "Patched skin over an old repair.",
        },
        CANNOT_TELL,
        CANNOT_TELL,
    ),
    (
        "14 CFR 39.27: approved only through a directive that does not reach it",
        {"standing": changed(APPROVED, source="AD 2031-04-07")},
        YES,
        CANNOT_TELL,
    ),
    (
        "14 CFR 39.27: approved through a directive that reaches it",
        {"standing": changed(APPROVED, source="AD 2031-04-07"), "directives": (REQUIRED,)},
        YES,
        YES,
    ),
    (
        "14 CFR 43.16, 91.403(c): a bulletin does not extend a life limit",
        {"kind": Type.SERVICE_BULLETIN, "entry": "Retirement life extended IAW the bulletin."},
        NO,
        NO,
    ),
    (
        "14 CFR 91.213: permits dispatch",
        {"kind": Type.MINIMUM_EQUIPMENT_LIST, "standing": APPROVED},
        CANNOT_TELL,
        CANNOT_TELL,
    ),
    ("a parts catalog gives no procedure", {"kind": Type.PARTS_CATALOG}, CANNOT_TELL, CANNOT_TELL),
    (
        "Form 337 item 3",
        {"kind": Type.REPAIR_ALTERATION_RECORD, "standing": UNDETERMINED},
        CANNOT_TELL,
        CANNOT_TELL,
    ),
    (
        "Order 8110.37F: recommends is not approves",
        {
            "kind": Type.ENGINEERING_APPROVAL,
            "standing": changed(UNDETERMINED, quote="recommends approval of these data"),
        },
        NO,
        NO,
    ),
    (
        "AC 43.13-1B paragraph 1: three findings of the user",
        {"kind": Type.ADVISORY_CIRCULAR, "number": "43.13-1B", "standing": ACCEPTABLE},
        CANNOT_TELL,
        CANNOT_TELL,
    ),
    (
        "AC 43.13-1B paragraph 1: non-pressurized areas",
        {"kind": Type.ADVISORY_CIRCULAR, "number": "43.13-1B", "entry": "Repaired pressurized skin."},
        NO,
        NO,
    ),
    (
        "14 CFR 39.27: a value that a directive replaced",
        {"contradicted": ("The directive says 60.",)},
        CANNOT_TELL,
        CANNOT_TELL,
    ),
]


@pytest.mark.parametrize(("basis", "given", "minor", "major"), BY_RULE, ids=[row[0] for row in BY_RULE])
def test_each_rule(held, basis, given, minor, major):
    told = facts(held, **given)
    assert enough(told, MINOR).answer is minor, enough(told, MINOR)
    assert enough(told, MAJOR).answer is major, enough(told, MAJOR)
    assert all(enough(told, work).why.strip() for work in CLASSES)


def test_an_inspection_needs_what_minor_work_needs(held):
    """FAA Order 8300.16 1b: acceptable data is enough for inspection and servicing."""
    assert enough(facts(held), INSPECTION).answer is YES
    assert enough(facts(held, standing=UNDETERMINED), INSPECTION).answer is CANNOT_TELL


def directive(level, reaches=NO, note="", status="in force", credits=NO):
    return DirectiveFinding("AD 2031-04-07", "a", level, status, "as quoted", 1, note, reaches, credits)


FOR_A_DIRECTIVE = [
    ("14 CFR 39.27: required as named", {"directives": (REQUIRED,)}, YES),
    ("in force itself", {"directives": (directive(CITED_ITSELF, YES),)}, YES),
    ("no bulletin is required by being mentioned", {"directives": (directive(ClaimKind.MENTIONS),)}, NO),
    (
        "1 CFR 51.1(f): another revision",
        {"directives": (directive(ClaimKind.REQUIRES, NO, "Names 3, not 5."),)},
        NO,
    ),
    (
        "cannot tell which revision",
        {"directives": (directive(ClaimKind.REQUIRES, CANNOT_TELL, "Unclear."),)},
        CANNOT_TELL,
    ),
    (
        "credit before the effective date",
        {"directives": (directive(ClaimKind.CREDITS),), "credited": YES},
        YES,
    ),
    ("no credit after it", {"directives": (directive(ClaimKind.CREDITS),), "credited": NO}, NO),
    (
        "credit and no day of the work",
        {"directives": (directive(ClaimKind.CREDITS),), "credited": CANNOT_TELL},
        CANNOT_TELL,
    ),
    (
        "superseded directive",
        {"directives": (directive(CITED_ITSELF, NO, status="superseded by AD 2032-01-01"),)},
        NO,
    ),
    (
        "an alternative method holds for its holder",
        {"directives": (directive(ClaimKind.ALTERNATIVE),)},
        CANNOT_TELL,
    ),
    ("none held here", {}, CANNOT_TELL),
    (
        "another aircraft",
        {
            "directives": (REQUIRED,),
            "applies": ApplicabilityAnswer(Applies.DOES_NOT_APPLY, "Serial 9 is excepted."),
        },
        NO,
    ),
    ("the directive governs", {"directives": (REQUIRED,), "contradicted": ("The directive says 60.",)}, NO),
]


@pytest.mark.parametrize(
    ("basis", "given", "answer"), FOR_A_DIRECTIVE, ids=[row[0] for row in FOR_A_DIRECTIVE]
)
def test_each_rule_of_a_directive(held, basis, given, answer):
    told = enough(facts(held, kind=Type.SERVICE_BULLETIN, **given), DIRECTIVE)
    assert told.answer is answer, told


STANDINGS = st.builds(
    StandingFinding,
    value=st.sampled_from([*(each.value for each in StandingValue), PART_APPROVAL]),
    usual=st.sampled_from(["approved", "acceptable", "information", ""]),
    scope=st.sampled_from(["", "page", "section", "document"]),
    quote=st.sampled_from(["", "FAA APPROVED", "recommends approval"]),
    pdf_page=st.sampled_from([None, 2]),
    conditions=st.lists(st.sampled_from([FOREIGN_CONDITION, SRM_CONDITION, "Read which."]), max_size=2).map(
        tuple
    ),
    source=st.sampled_from(["", "AD 2031-04-07"]),
    read_by_ocr=st.booleans(),
)
DIRECTIVES = st.lists(
    st.builds(
        DirectiveFinding,
        number=st.just("AD 2031-04-07"),
        publication=st.just("a"),
        level=st.sampled_from([*ClaimKind, CITED_ITSELF]),
        status=st.sampled_from(["in force", "superseded by AD 2032-01-01"]),
        quote=st.sampled_from(["", "do Part 3"]),
        pdf_page=st.just(1),
        note=st.just(""),
        reaches=st.sampled_from(list(Answer)),
    ),
    max_size=3,
).map(tuple)


@given(
    kind=st.sampled_from([None, *Type]),
    number=st.sampled_from(["", "KM-12", "43.13-1B", "AC 43.13-2B"]),
    is_held=st.booleans(),
    place=st.sampled_from(list(ReferenceState)),
    complete=st.booleans(),
    aircraft=st.sampled_from(["", "N12QZ"]),
    state=st.sampled_from(list(CurrencyState)),
    applies=st.sampled_from(list(Applies)),
    standing=STANDINGS,
    directives=DIRECTIVES,
    entry=st.sampled_from(
        ["Done.", "Patched over an old repair.", "Pressurized skin.", "Life limit extended."]
    ),
    credited=st.sampled_from([None, *Answer]),
    only_by_kind=st.booleans(),
)
def test_yes_needs_proof_whatever_is_found(
    held, kind, number, is_held, place, complete, aircraft, state, applies, standing, directives, entry,
    credited, only_by_kind,
):  # fmt: skip
    """No mix of findings gives "yes" without quoted words, document and place, or for another aircraft."""
    told = facts(
        held,
        kind=kind,
        number=number,
        publication=held if is_held else None,
        reason="" if is_held else "Not in this library: cannot tell.",
        place=place,
        complete=complete,
        aircraft=aircraft,
        current=CurrencyFinding(state, "as found"),
        applies=ApplicabilityAnswer(applies, "as printed"),
        standing=standing,
        directives=directives,
        entry=entry,
        credited=credited,
        only_by_kind=only_by_kind,
    )
    reached = any(each.reaches is YES for each in directives)
    for work in CLASSES:
        if enough(told, work).answer is not YES:
            continue
        assert applies is not Applies.DOES_NOT_APPLY
        assert standing.value != StandingValue.BLOCKED.value
        if work == DIRECTIVE:
            assert (reached and is_held) or credited is YES
            continue
        assert is_held and place is ReferenceState.RESOLVED and complete and not only_by_kind
        assert standing.quote and standing.value in ("approved", "acceptable")
        assert not (aircraft and applies is Applies.CANNOT_TELL)
        assert state is not CurrencyState.SUPERSEDED or reached
        if work == MAJOR:
            assert standing.value == "approved" and state is not CurrencyState.SUPERSEDED
            assert not standing.source or reached
            assert FOREIGN_CONDITION not in standing.conditions and "Read which." not in standing.conditions
