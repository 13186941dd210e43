"""What directives held here say of a publication on a day, and what became of a directive.

Sources: 14 CFR 39.27 (the directive governs), 1 CFR 51.1(f) (the edition named). That an older directive
binds until the newer takes effect, and that credit ends on the day named, is common teaching of the trade, no
source.
"""

import pytest
from making import Made, tag, take
from shop import DATE, about, bulletin, bulletin_texts, claim, directive, withdrawal

from indexer.library.catalogue import Catalogue
from indexer.library.directives_held import directive_numbered, directives_on, force_of
from indexer.library.records import RevisionMatch
from indexer.library.relation_rules.directive_force import Force, ReplacedBy, in_force
from indexer.library.relations import relate
from indexer.tagging.directive_claims import directive_claims
from indexer.tagging.directive_reading import read_directive_flow
from indexer.tagging.directive_text import text_flow
from indexer.tagging.tags import ClaimKind, DirectiveFacts, StandingValue
from indexer.trade.evidence import Answer, Basis, Evidence, Origin, Tag
from indexer.trade.publication_types import PublicationType as Type

NAMED = {"revision": "3", "date": DATE(2030, 8, 3)}
REV_3 = bulletin("32-0012", "3", DATE(2030, 8, 3))
REQUIRES = claim(ClaimKind.REQUIRES, "32-0012", "do Service Bulletin 32-0012, Revision 3", **NAMED)
TODAY = DATE(2036, 1, 1)


@pytest.fixture
def shelf(tmp_path):
    with Catalogue.open(tmp_path / "library", create=True) as catalogue:

        def put(*made):
            """Take and relate; gives the publication ids."""
            ids = [take(catalogue, tmp_path / "in", each).publications[0] for each in made]
            relate(catalogue)
            return ids

        put.catalogue = catalogue
        yield put


def replacing(older: str):
    return claim(ClaimKind.SUPERSEDES, older, f"replaces AD {older}", type=Type.AIRWORTHINESS_DIRECTIVE)


def approved(shelf, publication_id) -> list[str]:
    passages = shelf.catalogue.passages_of(publication_id)
    return [each.text for each in passages if each.standing.value is StandingValue.APPROVED]


EVERY_TEXT = [text.text for text in bulletin_texts()]


# In force on a day ------------------------------------------------------------


EFFECTIVE = DATE(2031, 5, 12)


def facts(effective=EFFECTIVE, number="2031-04-07", **said) -> DirectiveFacts:
    given = {"is_rule": True} | said
    return DirectiveFacts(tag(number), None, tag(effective), (), tag("Model C-220"), **given)


def newer(effective, withdrawal=False) -> ReplacedBy:
    return ReplacedBy("AD 2033-02-09", "n", withdrawal, effective)


@pytest.mark.parametrize(
    ("said", "replaced_by", "on", "state"),
    [
        (facts(), (), DATE(2031, 5, 11), Force.NOT_YET),
        (facts(), (), DATE(2031, 5, 12), Force.IN_FORCE),
        (facts(), (newer(DATE(2033, 3, 1)),), DATE(2033, 2, 28), Force.IN_FORCE),
        (facts(), (newer(DATE(2033, 3, 1)),), DATE(2033, 3, 1), Force.SUPERSEDED),
        (facts(), (newer(DATE(2033, 3, 1), True),), DATE(2034, 1, 1), Force.WITHDRAWN),
        (facts(), (newer(DATE(2035, 1, 1)), newer(DATE(2033, 3, 1))), DATE(2034, 1, 1), Force.SUPERSEDED),
        (facts(), (newer(None),), DATE(2034, 1, 1), Force.CANNOT_TELL),
        (facts(), (newer(None), newer(DATE(2035, 1, 1))), DATE(2034, 1, 1), Force.CANNOT_TELL),
        (facts(), (newer(None), newer(DATE(2033, 3, 1))), DATE(2034, 1, 1), Force.SUPERSEDED),
        (facts(), (newer(DATE(2033, 3, 1)),), DATE(2030, 1, 1), Force.NOT_YET),
        (facts(is_rule=False, proposal=True), (), TODAY, Force.PROPOSAL),
        (facts(is_rule=False), (), TODAY, Force.NO_RULE),
        (facts(None, "47-51-08"), (), TODAY, Force.IN_FORCE),  # its form prints no effective date
        (facts(None, "2035-04-07"), (), TODAY, Force.CANNOT_TELL),
        (facts(None, on_receipt=tag("effective upon receipt")), (), TODAY, Force.CANNOT_TELL),
        (
            facts(None, on_receipt=tag("effective upon receipt"), issued=tag(DATE(2031, 3, 1))),
            (),
            DATE(2031, 3, 1),
            Force.IN_FORCE,
        ),
    ],
)
def test_a_directive_binds_from_its_day_until_the_day_of_what_replaces_it(said, replaced_by, on, state):
    assert in_force(said, replaced_by, on).state is state


def test_an_effective_date_read_by_ocr_proves_nothing():
    seen = Evidence(Basis.PRINTED, "test", "effective May 12, 2031", 1, origin=Origin.OCR)
    read = DirectiveFacts(tag("2031-04-07"), None, Tag(DATE(2031, 5, 12), seen), (), None, True)
    assert in_force(read, (), TODAY).state is Force.CANNOT_TELL


def test_a_directive_still_binds_until_the_day_of_the_one_that_replaces_it(shelf):
    old, new = shelf(
        directive("2029-11-02", effective=DATE(2029, 12, 1)),
        directive("2031-04-07", replacing("2029-11-02"), effective=DATE(2031, 5, 12)),
    )
    before, after = DATE(2031, 5, 11), DATE(2031, 5, 12)
    assert force_of(shelf.catalogue, old, before).state is Force.IN_FORCE
    assert "until AD 2031-04-07 takes its place on 12 May 2031" in force_of(shelf.catalogue, old, before).why
    assert force_of(shelf.catalogue, new, before).state is Force.NOT_YET
    assert force_of(shelf.catalogue, old, after).state is Force.SUPERSEDED
    assert force_of(shelf.catalogue, new, after).state is Force.IN_FORCE


# Ties ------------------------------------------------------------


def test_a_tie_tells_directive_level_quote_parts_and_the_aircraft_it_is_for(shelf):
    said = claim(ClaimKind.REQUIRES, "32-0012", "do Part 3", paragraphs=("Part 3",), **NAMED)
    held, source = shelf(REV_3, directive("2031-04-07", said))
    (tie,) = directives_on(shelf.catalogue, held, TODAY)
    assert (tie.directive_id, tie.number, tie.level) == (source, "2031-04-07", ClaimKind.REQUIRES)
    assert (tie.quote, tie.pdf_page, tie.paragraphs) == ("do Part 3", 1, ("Part 3",))
    assert (tie.revision, tie.date, tie.match) == ("3", DATE(2030, 8, 3), RevisionMatch.EXACT)
    assert tie.raises_now and "Model C-220" in tie.applicability.value
    (early,) = directives_on(shelf.catalogue, held, DATE(2031, 5, 11))
    assert early.raises and not early.raises_now and early.force.state is Force.NOT_YET


def test_what_it_raises_carries_the_aircraft_it_reaches(shelf):
    held, _ = shelf(REV_3, directive("2031-04-07", REQUIRES))
    standing = shelf.catalogue.passages_of(held)[0].standing
    assert any(
        "aircraft that AD 2031-04-07 reaches" in each and "C-220" in each for each in standing.conditions
    )


@pytest.mark.parametrize(
    ("level", "raises"),
    [
        (ClaimKind.REQUIRES, True),
        (ClaimKind.INCORPORATES, True),
        (ClaimKind.CREDITS, False),
        (ClaimKind.ALTERNATIVE, False),
        (ClaimKind.MENTIONS, False),
    ],
)
def test_of_five_levels_two_raise(shelf, level, raises):
    held, _ = shelf(REV_3, directive("2031-04-07", claim(level, "32-0012", "words", **NAMED)))
    (tie,) = directives_on(shelf.catalogue, held, TODAY)
    assert tie.level is level and tie.raises_now is raises
    assert approved(shelf, held) == (EVERY_TEXT if raises else [])


@pytest.mark.parametrize(
    ("done_on", "answer"),
    [
        (DATE(2031, 5, 11), Answer.YES),
        (DATE(2031, 5, 12), Answer.NO),  # on the day itself it is not before it
        (None, Answer.CANNOT_TELL),
    ],
)
def test_credit_is_for_work_done_before_its_day(shelf, done_on, answer):
    """Worked question 8: credit for Revision 3 before the effective date, work done after it."""
    said = claim(ClaimKind.CREDITS, "32-0012", "before the effective date", before=DATE(2031, 5, 12), **NAMED)
    held, _ = shelf(REV_3, directive("2031-04-07", said))
    (tie,) = directives_on(shelf.catalogue, held, TODAY)
    assert tie.credits(done_on) is answer


def test_credit_without_a_readable_day_cannot_be_told(shelf):
    held, _ = shelf(REV_3, directive("2031-04-07", claim(ClaimKind.CREDITS, "32-0012", **NAMED)))
    (tie,) = directives_on(shelf.catalogue, held, TODAY)
    assert tie.credits(DATE(2020, 1, 1)) is Answer.CANNOT_TELL


def test_a_proposal_is_information(shelf):
    held, _ = shelf(REV_3, directive("2031-04-07", REQUIRES, is_rule=False))
    (tie,) = directives_on(shelf.catalogue, held, TODAY)
    assert (tie.number, tie.force.state, tie.raises_now) == ("", Force.PROPOSAL, False)
    assert approved(shelf, held) == []


# Coming and going ------------------------------------------------------------


def test_a_directive_that_comes_after_its_bulletin_raises_it_and_gone_it_takes_it_back(shelf):
    (held,) = shelf(REV_3)
    assert approved(shelf, held) == []
    (source,) = shelf(directive("2031-04-07", REQUIRES))
    assert approved(shelf, held) == EVERY_TEXT
    shelf.catalogue.remove(shelf.catalogue.publication(source).copy_id)
    relate(shelf.catalogue)
    assert approved(shelf, held) == [] and directives_on(shelf.catalogue, held, TODAY) == ()


def test_a_withdrawal_takes_back_what_the_directive_raised_and_gone_gives_it_again(shelf):
    held, old = shelf(REV_3, directive("2031-04-07", REQUIRES))
    assert approved(shelf, held) == EVERY_TEXT
    (paper,) = shelf(withdrawal("2035-03-02", "2031-04-07", effective=DATE(2035, 4, 1)))
    assert approved(shelf, held) == approved(shelf, old) == []
    (tie,) = directives_on(shelf.catalogue, held, TODAY)
    assert not tie.raises and tie.force.state is Force.WITHDRAWN and tie.force.by == "AD 2035-03-02"
    assert force_of(shelf.catalogue, old, DATE(2035, 3, 31)).state is Force.IN_FORCE
    history = shelf.catalogue.passages_of(old)[0].standing
    assert history.conditions == ("Withdrawn by AD 2035-03-02. No longer in force.",)
    shelf.catalogue.remove(shelf.catalogue.publication(paper).copy_id)
    relate(shelf.catalogue)
    assert approved(shelf, held) == EVERY_TEXT


def test_a_superseded_directive_keeps_its_history_and_raises_nothing(shelf):
    held, _, _ = shelf(
        REV_3, directive("2029-11-02", REQUIRES), directive("2031-04-07", replacing("2029-11-02"))
    )
    (tie,) = directives_on(shelf.catalogue, held, TODAY)
    assert (tie.number, tie.level, tie.raises) == ("2029-11-02", ClaimKind.REQUIRES, False)
    assert (tie.force.state, tie.force.by) == (Force.SUPERSEDED, "AD 2031-04-07")
    assert approved(shelf, held) == []


def test_a_directive_put_off_raises_nothing_and_gone_the_paper_gives_it_again(shelf):
    held, source = shelf(REV_3, directive("2031-04-07", REQUIRES))
    (paper,) = shelf(about("2031-04-07", put_off=True))
    assert approved(shelf, held) == []
    assert force_of(shelf.catalogue, source, TODAY).state is Force.CANNOT_TELL
    (condition,) = shelf.catalogue.passages_of(source)[0].standing.conditions
    assert condition == "A paper held here puts it off or stays it: cannot tell whether it is in force."
    shelf.catalogue.remove(shelf.catalogue.publication(paper).copy_id)
    relate(shelf.catalogue)
    assert approved(shelf, held) == EVERY_TEXT


def test_a_correction_is_told_beside_the_directive_it_corrects(shelf):
    held, source, _ = shelf(REV_3, directive("2031-04-07", REQUIRES), about("2031-04-07", correction=True))
    force = force_of(shelf.catalogue, source, TODAY)
    assert force.state is Force.IN_FORCE and "about-2031-04-07.pdf corrects it" in force.why
    assert approved(shelf, held) == EVERY_TEXT


# One directive by its number ------------------------------------------------------------


def test_a_directive_is_found_by_its_number_however_it_is_written(shelf):
    (held,) = shelf(directive("82-27-14 R1", effective=None))
    for written in ("82-27-14R1", "AD 82-27-14-R1", "1982-27-14 R1"):
        found = directive_numbered(shelf.catalogue, written, TODAY)
        assert [each.publication.id for each in found.held] == [held]
    assert directive_numbered(shelf.catalogue, "82-27-14", TODAY).held == ()


def test_what_replaces_a_directive_is_told_whether_or_not_it_is_held(shelf):
    shelf(directive("2031-04-07", replacing("2029-11-02")))
    found = directive_numbered(shelf.catalogue, "AD 2029-11-02", TODAY)
    assert found.held == () and [each.name for each in found.replaced_by] == ["AD 2031-04-07"]
    shelf(directive("2029-11-02"))
    found = directive_numbered(shelf.catalogue, "AD 2029-11-02", TODAY)
    assert [each.name for each in found.replaced_by] == ["AD 2031-04-07"]
    assert [each.force.state for each in found.held] == [Force.SUPERSEDED]


def test_a_proposal_replaces_nothing(shelf):
    shelf(directive("2031-04-07", replacing("2029-11-02"), is_rule=False), directive("2029-11-02"))
    found = directive_numbered(shelf.catalogue, "2029-11-02", TODAY)
    assert found.replaced_by == () and [each.force.state for each in found.held] == [Force.IN_FORCE]


def test_a_revision_takes_the_place_of_its_base_number(shelf):
    base, _ = shelf(
        directive("82-27-14", effective=DATE(1983, 1, 1)),
        directive("82-27-14 R1", effective=DATE(1985, 1, 10)),
    )
    assert force_of(shelf.catalogue, base, DATE(1985, 1, 9)).state is Force.IN_FORCE
    assert force_of(shelf.catalogue, base, DATE(1985, 1, 10)).state is Force.SUPERSEDED


def test_no_directive_held_is_no_answer_about_directives(shelf):
    (held,) = shelf(REV_3)
    assert directives_on(shelf.catalogue, held, TODAY) == ()
    assert directive_numbered(shelf.catalogue, "2031-04-07", TODAY).held == ()
    assert force_of(shelf.catalogue, held, TODAY) is None


# From the words of the older forms ------------------------------------------------------------


def from_text(number: str, text: str) -> Made:
    reading = read_directive_flow(text_flow(text))
    assert reading.facts.is_rule
    return Made(
        f"ad-{number}.pdf",
        Type.AIRWORTHINESS_DIRECTIVE,
        number,
        claims=directive_claims(reading),
        directive=reading.facts,
    )


OF_1989 = """89-24-10 CORVANE: Amendment 39-6391. Docket No. 89-CE-24-AD.
Applicability: Corvane Model C-220 airplanes, serial numbers MB-1 through MB-816, except MB-814.
Compliance: Required within 100 hours, unless already accomplished.
(a) Inspect the bolts in accordance with Part 2 of Corvane Service Bulletin 32-0012, {named}.
This amendment becomes effective on December 8, 1989.
"""
OF_1947 = """47-51-09 CORVANE: Applies to All Model C-220 Aircraft.
Compliance required not later than March 1, 1948.
To prevent failure of the hub, replace the hub nut.
(Service Bulletin 32-0012 also covers this same subject.)
"""
PART_2 = ["Look at the fitting.", "Measure the fitting."]


@pytest.mark.parametrize(
    ("named", "raised"),
    [
        ("Revision 3, dated August 3, 2030", PART_2),
        ("Revision 2, dated August 3, 2030", []),
        ("Revision 3, dated August 4, 2030", []),
        ("dated August 2030", []),  # no day and no revision: cannot tell which is meant
    ],
)
def test_a_directive_of_1989_raises_the_part_and_the_revision_it_names(shelf, named, raised):
    held, _ = shelf(REV_3, from_text("89-24-10", OF_1989.format(named=named)))
    assert approved(shelf, held) == raised


def test_a_directive_of_1947_that_only_mentions_a_bulletin_raises_nothing(shelf):
    """Worked question 10."""
    held, _ = shelf(REV_3, from_text("47-51-09", OF_1947))
    (tie,) = directives_on(shelf.catalogue, held, TODAY)
    assert (tie.level, tie.raises_now, tie.force.state) == (ClaimKind.MENTIONS, False, Force.IN_FORCE)
    assert approved(shelf, held) == []
    assert "also covers this same subject" in tie.quote
