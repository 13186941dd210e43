"""Standing by directive, told as cases: what a directive in force raises, and all that must not be raised.

Sources: 14 CFR 39.27 (the directive governs); 1 CFR 51.1(f) (incorporation is of the edition named, later
ones are not in it); the other cases are common practice, no source, and the project's own rule: any doubt
raises nothing.
"""

import pytest
from making import Text, take
from shop import DATE, MAKER, OTHER_MAKER, bulletin, bulletin_texts, claim, directive, manual

from indexer.library.catalogue import Catalogue
from indexer.library.records import RevisionMatch
from indexer.library.relations import relate, ties_to, unresolved_claims
from indexer.tagging.tags import ClaimKind, StandingValue
from indexer.trade.evidence import Basis, Evidence, Origin
from indexer.trade.publication_types import PublicationType as Type

NAMED = {"revision": "3", "date": DATE(2030, 8, 3)}
REQUIRES = claim(ClaimKind.REQUIRES, "32-0012", "in accordance with Service Bulletin 32-0012", **NAMED)
REV_3 = bulletin("32-0012", "3", DATE(2030, 8, 3))


@pytest.fixture
def shelf(tmp_path):
    with Catalogue.open(tmp_path / "library", create=True) as catalogue:

        def put(*made):
            """Take and relate; gives the passages of the first."""
            ids = [take(catalogue, tmp_path / "in", each).publications[0] for each in made]
            relate(catalogue)
            return catalogue.passages_of(ids[0])

        put.catalogue = catalogue
        yield put


def raised(passages) -> list[str]:
    return [each.text for each in passages if each.standing.value is StandingValue.APPROVED]


def mandatory(passages) -> list[str]:
    return [each.text for each in passages if each.standing.mandatory]


EVERY_TEXT = [text.text for text in bulletin_texts()]


@pytest.mark.parametrize("kind", [ClaimKind.REQUIRES, ClaimKind.INCORPORATES])
def test_a_directive_in_force_raises_the_revision_it_names(shelf, kind):
    said = claim(kind, "32-0012", "comply with Service Bulletin 32-0012, Revision 3", **NAMED)
    passages = shelf(REV_3, directive("2031-04-07", said))
    assert raised(passages) == mandatory(passages) == EVERY_TEXT
    standing = passages[0].standing
    assert standing.evidence.basis is Basis.LINKED_DIRECTIVE
    assert standing.evidence.source == "AD 2031-04-07"
    assert standing.quote == "comply with Service Bulletin 32-0012, Revision 3"
    assert standing.scope == "bulletin revision"
    assert standing.usual is StandingValue.ACCEPTABLE
    assert standing.conditions[0] == (
        "For the products and conditions named in AD 2031-04-07 only, effective 2031-05-12."
    )
    assert passages[0].own_standing.value is StandingValue.UNDETERMINED


@pytest.mark.parametrize("kind", [ClaimKind.CREDITS, ClaimKind.ALTERNATIVE, ClaimKind.MENTIONS])
def test_weaker_words_raise_nothing(shelf, kind):
    passages = shelf(REV_3, directive("2031-04-07", claim(kind, "32-0012", **NAMED)))
    assert raised(passages) == mandatory(passages) == []
    (tie,) = ties_to(shelf.catalogue, passages[0].publication_id)
    assert tie.level is kind and tie.match is RevisionMatch.EXACT and not tie.raises and tie.reason


NEAR_MISSES = {
    "another revision": bulletin("32-0012", "5", DATE(2032, 6, 30)),
    "an earlier revision": bulletin("32-0012", "2", DATE(2029, 1, 9)),
    "no revision printed": bulletin("32-0012", None, None),
    "the revision under another date": bulletin("32-0012", "3", DATE(2030, 9, 3)),
    "a letter beside a number": bulletin("32-0012", "C", DATE(2030, 8, 3)),
}


@pytest.mark.parametrize("held", NEAR_MISSES.values(), ids=NEAR_MISSES)
def test_nothing_but_the_named_revision_is_raised(shelf, held):
    passages = shelf(held, directive("2031-04-07", REQUIRES))
    assert raised(passages) == mandatory(passages) == []
    assert [each.claim for each in unresolved_claims(shelf.catalogue)] == [0]


def test_a_bulletin_of_another_number_is_no_part_of_it(shelf):
    passages = shelf(bulletin("32-0013", "3", DATE(2030, 8, 3)), directive("2031-04-07", REQUIRES))
    assert raised(passages) == [] and ties_to(shelf.catalogue, passages[0].publication_id) == []


def test_an_alert_bulletin_is_not_the_bulletin_of_the_same_number(shelf):
    alert = bulletin("32-0012", "3", DATE(2030, 8, 3))
    alert.number = "ASB 32-0012"
    assert raised(shelf(alert, directive("2031-04-07", REQUIRES))) == []


def test_the_named_alert_bulletin_is_known_from_the_words_before_its_number(shelf):
    alert = bulletin("32-0012", "3", DATE(2030, 8, 3))
    alert.number = "ASB 32-0012"
    said = claim(
        ClaimKind.REQUIRES, "32-0012", "following Alert Service Bulletin 32-0012, Revision 3", **NAMED
    )
    assert raised(shelf(alert, directive("2031-04-07", said))) == EVERY_TEXT


def test_a_proposal_raises_nothing(shelf):
    passages = shelf(REV_3, directive("2031-04-07", REQUIRES, is_rule=False))
    assert raised(passages) == mandatory(passages) == []


def test_a_rule_without_a_number_raises_nothing(shelf):
    nameless = directive("2031-04-07", REQUIRES)
    nameless.number = None
    nameless.directive = None
    assert raised(shelf(REV_3, nameless)) == []


def test_a_directive_superseded_by_one_held_here_raises_nothing_and_keeps_its_tie(shelf):
    newer = directive(
        "2033-01-05", claim(ClaimKind.SUPERSEDES, "2031-04-07", type=Type.AIRWORTHINESS_DIRECTIVE)
    )
    passages = shelf(REV_3, directive("2031-04-07", REQUIRES), newer)
    assert raised(passages) == mandatory(passages) == []
    (tie,) = ties_to(shelf.catalogue, passages[0].publication_id)
    assert tie.level is ClaimKind.REQUIRES and not tie.in_force and not tie.raises


def test_a_directive_stays_out_of_force_when_the_one_that_replaced_it_was_replaced_too(shelf):
    def replaces(number):
        return claim(ClaimKind.SUPERSEDES, number, type=Type.AIRWORTHINESS_DIRECTIVE)

    chain = [directive("2033-01-05", replaces("2031-04-07")), directive("2034-02-06", replaces("2033-01-05"))]
    assert raised(shelf(REV_3, directive("2031-04-07", REQUIRES), *chain)) == []


def test_a_directive_that_says_itself_that_it_was_superseded_raises_nothing(shelf):
    by = claim(ClaimKind.SUPERSEDED_BY, "2033-01-05", type=Type.AIRWORTHINESS_DIRECTIVE)
    assert raised(shelf(REV_3, directive("2031-04-07", REQUIRES, by))) == []


def test_a_revised_directive_replaces_its_base_number(shelf):
    """R1 replaces the base number (common practice, no source)."""
    assert raised(shelf(REV_3, directive("2031-04-07", REQUIRES), directive("2031-04-07R1"))) == []


def test_a_proposal_to_supersede_supersedes_nothing(shelf):
    proposal = directive(
        "2033-01-05",
        claim(ClaimKind.SUPERSEDES, "2031-04-07", type=Type.AIRWORTHINESS_DIRECTIVE),
        is_rule=False,
    )
    assert raised(shelf(REV_3, directive("2031-04-07", REQUIRES), proposal)) == EVERY_TEXT


def test_a_superseded_directive_is_history_itself(shelf):
    newer = directive(
        "2033-01-05", claim(ClaimKind.SUPERSEDES, "2031-04-07", type=Type.AIRWORTHINESS_DIRECTIVE)
    )
    (passage,) = shelf(directive("2031-04-07", REQUIRES), newer)
    assert passage.own_standing.value is StandingValue.APPROVED
    assert passage.standing.value is StandingValue.INFORMATION and not passage.standing.mandatory
    assert passage.standing.conditions == ("Superseded by AD 2033-01-05. No longer in force.",)
    assert passage.standing.evidence.source == "AD 2033-01-05"


def test_a_bulletin_cannot_raise_another(shelf):
    passages = shelf(REV_3, bulletin("32-0020", "A", DATE(2031, 1, 1), claims=(REQUIRES,)))
    assert raised(passages) == mandatory(passages) == []


def test_only_the_parts_that_are_named_are_raised(shelf):
    said = claim(ClaimKind.REQUIRES, "32-0012", paragraphs=("Part 3",), **NAMED)
    passages = shelf(REV_3, directive("2031-04-07", said))
    assert raised(passages) == ["Replace the fitting.", "Install the fitting."]
    assert passages[0].standing == passages[0].own_standing
    assert passages[3].standing.scope == "section"


def test_a_list_of_incorporated_material_does_not_widen_the_parts_that_are_required(shelf):
    said = claim(ClaimKind.REQUIRES, "32-0012", paragraphs=("Part 3",), **NAMED)
    listed = claim(ClaimKind.INCORPORATES, "32-0012", **NAMED)
    assert raised(shelf(REV_3, directive("2031-04-07", said, listed))) == EVERY_TEXT[3:]


def test_parts_named_without_a_revision_narrow_what_the_list_incorporates(shelf):
    said = claim(ClaimKind.REQUIRES, "32-0012", paragraphs=("Part 3",))
    listed = claim(ClaimKind.INCORPORATES, "32-0012", **NAMED)
    assert raised(shelf(REV_3, directive("2031-04-07", said, listed))) == EVERY_TEXT[3:]


def test_parts_that_cannot_be_found_leave_the_passages_as_they_were_and_say_so(shelf):
    said = claim(ClaimKind.REQUIRES, "32-0012", paragraphs=("Part 9",), **NAMED)
    passages = shelf(REV_3, directive("2031-04-07", said))
    assert raised(passages) == mandatory(passages) == []
    for passage in passages:
        assert passage.standing.value is passage.own_standing.value
        assert passage.standing.conditions == (
            "AD 2031-04-07 names Part 9, which cannot be found here: cannot tell which paragraphs it means.",
        )


def test_a_requirement_without_a_revision_raises_nothing(shelf):
    passages = shelf(REV_3, directive("2031-04-07", claim(ClaimKind.REQUIRES, "32-0012")))
    assert raised(passages) == []
    (tie,) = ties_to(shelf.catalogue, passages[0].publication_id)
    assert tie.match is RevisionMatch.NOT_NAMED


def test_a_later_revision_that_the_words_allow_is_still_to_be_shown_approved(shelf):
    later = bulletin("32-0012", "5", DATE(2032, 6, 30))
    said = claim(ClaimKind.REQUIRES, "32-0012", later_allowed=True, **NAMED)
    passages = shelf(later, directive("2031-04-07", said))
    assert raised(passages) == mandatory(passages) == []
    assert "allows later approved ones" in " ".join(passages[0].standing.conditions)


@pytest.mark.parametrize("date", [None, DATE(2029, 1, 1)], ids=["without a date", "earlier"])
def test_words_that_allow_later_revisions_allow_no_others(shelf, date):
    said = claim(ClaimKind.REQUIRES, "32-0012", later_allowed=True, **NAMED)
    assert raised(shelf(bulletin("32-0012", "5", date), directive("2031-04-07", said))) == []


def test_a_number_and_revision_alone_do_not_name_a_bulletin(shelf):
    """Makers number alike: without date, maker or model in the directive nobody can tell whose bulletin 17
    it is."""
    said = claim(ClaimKind.REQUIRES, "17", revision="3")
    foreign = bulletin("17", "3", DATE(2030, 8, 3), maker=OTHER_MAKER, models=("D-9",))
    passages = shelf(foreign, directive("2031-04-07", said))
    assert raised(passages) == []
    assert "cannot tell whether it is meant" in ties_to(shelf.catalogue, passages[0].publication_id)[0].reason


@pytest.mark.parametrize(
    "held",
    [
        bulletin("17", "3", None, maker=MAKER),
        bulletin("17", "3", None, maker=None, models=("C-220",)),
    ],
    ids=["maker", "model"],
)
def test_a_maker_or_model_that_the_directive_names_settles_whose_bulletin_it_is(shelf, held):
    said = claim(ClaimKind.REQUIRES, "17", revision="3")
    assert raised(shelf(held, directive("2031-04-07", said))) == EVERY_TEXT


def test_two_makers_bulletins_that_both_fit_are_both_left(shelf):
    words = f"This AD applies to {MAKER} and {OTHER_MAKER} airplanes."
    said = claim(ClaimKind.REQUIRES, "17", revision="3")
    other = bulletin("17", "3", DATE(2030, 8, 3), maker=OTHER_MAKER, content=b"%PDF of the other maker")
    one = bulletin("17", "3", DATE(2030, 8, 3))
    assert raised(shelf(one, other, directive("2031-04-07", said, text=words))) == []


def test_words_read_by_ocr_raise_nothing(shelf):
    read = Evidence(
        Basis.PRINTED, "test", "Service Bulletin 32-0012, Revision 3", 1, origin=Origin.HIDDEN_OCR
    )
    said = claim(ClaimKind.REQUIRES, "32-0012", **NAMED)
    scanned = directive("2031-04-07", type(said)(said.kind, said.document, read, said.type, "3", said.date))
    assert raised(shelf(REV_3, scanned)) == []


@pytest.mark.parametrize("origin", [Origin.OCR, Origin.HIDDEN_OCR])
def test_a_passage_read_by_ocr_is_not_raised_and_says_to_read_the_page(shelf, origin):
    texts = [Text("Replace the bolts."), Text("Torque to 50.", origin=origin)]
    held = bulletin("32-0012", "3", DATE(2030, 8, 3), texts=texts)
    digital, scanned = shelf(held, directive("2031-04-07", REQUIRES))
    assert digital.standing.value is StandingValue.APPROVED
    assert scanned.standing.value is StandingValue.UNDETERMINED
    assert not scanned.standing.mandatory
    assert "AD 2031-04-07 calls for it. This page was read by OCR" in scanned.standing.conditions[-1]


def test_a_copy_that_blocks_its_use_stays_blocked_and_says_that_a_directive_calls_for_it(shelf):
    texts = [Text("FOR REFERENCE ONLY", value=StandingValue.BLOCKED)]
    blocked = bulletin("32-0012", "3", DATE(2030, 8, 3), texts=texts)
    (passage,) = shelf(blocked, directive("2031-04-07", REQUIRES))
    assert passage.standing.value is StandingValue.BLOCKED
    assert "AD 2031-04-07 calls for it" in passage.standing.conditions[-1]


@pytest.mark.parametrize("paragraphs, expected", [((), []), (("Chapter 4",), ["Limits."])])
def test_a_manual_is_raised_only_in_the_parts_that_are_named(shelf, paragraphs, expected):
    texts = [
        Text("Limits.", ("CHAPTER 4", "4.1. Limits")),
        Text("Greasing.", ("CHAPTER 12", "12.1. Greasing")),
    ]
    held = manual("6", DATE(2030, 3, 1), texts=texts)
    named = {"type": Type.MAINTENANCE_MANUAL, "revision": "6", "date": DATE(2030, 3, 1)}
    said = claim(ClaimKind.REQUIRES, "D4410-1", paragraphs=paragraphs, **named)
    assert raised(shelf(held, directive("2031-04-07", said))) == expected


def test_a_directive_whose_file_was_replaced_speaks_no_more(shelf, tmp_path):
    passages = shelf(REV_3, directive("2031-04-07", REQUIRES))
    assert raised(passages) == EVERY_TEXT
    corrected = directive("2031-04-07", text="A corrected file.")
    take(shelf.catalogue, tmp_path / "in", corrected)
    relate(shelf.catalogue)
    assert raised(shelf.catalogue.passages_of(passages[0].publication_id)) == []


def test_removing_the_directive_takes_its_standing_back_at_once(shelf):
    passages = shelf(REV_3, directive("2031-04-07", REQUIRES))
    gone = next(each for each in shelf.catalogue.publications() if each.directive)
    shelf.catalogue.remove(gone.copy_id)
    assert raised(shelf.catalogue.passages_of(passages[0].publication_id)) == []
