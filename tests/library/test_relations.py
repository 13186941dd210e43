"""Supersession, page overrides and unresolved claims, told as cases of the invented shop."""

import pytest
from making import Made, Text, take
from shop import DATE, OTHER_MAKER, bulletin, claim, directive, manual, temporary_revision

from indexer.library.catalogue import Catalogue
from indexer.library.records import OverrideState, SupersessionKind
from indexer.library.relations import (
    overrides_by,
    overrides_of,
    relate,
    supersessions_of,
    ties_from,
    unresolved_claims,
)
from indexer.tagging.tags import ClaimKind
from indexer.trade.chapters import ChapterNumber
from indexer.trade.publication_types import PublicationType as Type


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


def order(shelf, *made) -> list[tuple]:
    """(older file, newer file, kind) of every supersession; a pair without an order is sorted."""
    ids = shelf(*made)
    names = {each.id: each.file for each in shelf.catalogue.publications()}
    found = {each for publication_id in ids for each in supersessions_of(shelf.catalogue, publication_id)}
    pairs = []
    for each in found:
        pair = (names[each.older_id], names[each.newer_id])
        pairs.append((*(sorted(pair) if each.kind is SupersessionKind.CANNOT_TELL else pair), each.kind))
    return sorted(pairs)


NEWER, CANNOT_TELL = SupersessionKind.NEWER_REVISION, SupersessionKind.CANNOT_TELL


def test_revisions_of_a_work_are_ordered_by_their_dates(shelf):
    three = [manual("9", DATE(2030, 1, 1)), manual("10", DATE(2031, 1, 1)), manual("11", DATE(2032, 1, 1))]
    assert order(shelf, *three) == [
        ("mm-D4410-1-10.pdf", "mm-D4410-1-11.pdf", NEWER),
        ("mm-D4410-1-9.pdf", "mm-D4410-1-10.pdf", NEWER),
        ("mm-D4410-1-9.pdf", "mm-D4410-1-11.pdf", NEWER),
    ]


NO_ORDER = {
    "a date is missing": (bulletin("1", "1", DATE(2030, 1, 1)), bulletin("1", "2", None)),
    "both dates are missing": (bulletin("1", "1", None), bulletin("1", "2", None)),
    "the dates are the same": (bulletin("1", "1", DATE(2030, 1, 1)), bulletin("1", "2", DATE(2030, 1, 1))),
    "dates and revisions contradict": (
        bulletin("1", "1", DATE(2031, 1, 1)),
        bulletin("1", "2", DATE(2030, 1, 1)),
    ),
    "one maker is not printed": (
        bulletin("1", "1", DATE(2030, 1, 1)),
        bulletin("1", "2", DATE(2031, 1, 1), maker=None),
    ),
}


@pytest.mark.parametrize("pair", NO_ORDER.values(), ids=NO_ORDER)
def test_no_order_is_claimed_where(shelf, pair):
    assert order(shelf, *pair) == [(*sorted(each.file for each in pair), CANNOT_TELL)]


UNRELATED = {
    "another maker": bulletin("1", "2", DATE(2031, 1, 1), maker=OTHER_MAKER),
    "another number": bulletin("2", "2", DATE(2031, 1, 1)),
    "another type": Made(
        "sl.pdf", Type.SERVICE_LETTER, "SL 1", "2", DATE(2031, 1, 1), "Corvane Aircraft Company"
    ),
    "a second copy of the revision": bulletin("1", "1", DATE(2030, 1, 1), content=b"%PDF scanned again"),
}


@pytest.mark.parametrize("other", UNRELATED.values(), ids=UNRELATED)
def test_nothing_gives_way_to(shelf, other):
    assert order(shelf, bulletin("1", "1", DATE(2030, 1, 1)), other) == []


def test_rev_0_and_original_issue_are_one_state(shelf):
    """Common practice, no source."""
    assert (
        order(shelf, bulletin("1", "0", DATE(2030, 1, 1)), bulletin("1", "original", DATE(2030, 1, 1))) == []
    )


def test_a_bulletin_that_says_what_it_replaces_supersedes_every_held_issue_of_it(shelf):
    held = [bulletin("52-0009", "A", DATE(2031, 3, 3)), bulletin("52-0010", "A", None)]
    held[1].claims = (claim(ClaimKind.SUPERSEDES, "52-0009"),)
    assert order(shelf, *held) == [("sb-52-0009-A.pdf", "sb-52-0010-A.pdf", SupersessionKind.STATED)]


def test_a_bulletin_that_names_one_revision_to_replace_supersedes_no_other(shelf):
    newer = bulletin("52-0010", "A", None, claims=(claim(ClaimKind.SUPERSEDES, "52-0009", revision="A"),))
    assert order(shelf, bulletin("52-0009", "B", DATE(2031, 3, 3)), newer) == []


def test_a_bulletin_cannot_supersede_a_directive(shelf):
    words = claim(ClaimKind.SUPERSEDES, "2031-04-07", type=Type.AIRWORTHINESS_DIRECTIVE)
    assert order(shelf, directive("2031-04-07"), bulletin("1", "1", None, claims=(words,))) == []


def test_a_directive_supersedes_a_directive(shelf):
    words = claim(ClaimKind.SUPERSEDES, "2029-11-02", type=Type.AIRWORTHINESS_DIRECTIVE)
    assert order(shelf, directive("2029-11-02"), directive("2031-04-07", words)) == [
        ("ad-2029-11-02.pdf", "ad-2031-04-07.pdf", SupersessionKind.DIRECTIVE)
    ]


# Temporary revisions ---------------------------------------------------------------------------------------

TR_DATE = DATE(2031, 1, 15)
PAGE_201 = ("32-41-00", "201")


def overridden(shelf, publication_id) -> list[tuple]:
    return [(each.pdf_page, each.state) for each in overrides_of(shelf.catalogue, publication_id)]


def test_a_temporary_revision_overrides_the_page_it_names_and_not_the_same_page_of_another_subject(shelf):
    held, tr = shelf(manual("6", DATE(2030, 3, 1)), temporary_revision("TR 32-1", TR_DATE, PAGE_201))
    assert overridden(shelf, held) == [(2, OverrideState.IN_FORCE)]
    (override,) = overrides_by(shelf.catalogue, tr)
    assert (override.target_id, override.source_pdf_page) == (held, 1)


@pytest.mark.parametrize(("inferred", "pages"), [(False, [(1, OverrideState.IN_FORCE)]), (True, [])])
def test_no_page_is_overridden_by_a_chapter_that_was_only_worked_out_from_its_text(shelf, inferred, pages):
    words = [Text("Words of the landing gear.", (), 1, ChapterNumber("32"), inferred)]
    old = manual("6", DATE(2030, 3, 1), texts=words, pages=1, printed={1: "5"})
    held, _ = shelf(old, temporary_revision("TR 32-1", TR_DATE, ("32-00-00", "5")))
    assert overridden(shelf, held) == pages


def test_its_manual_may_come_later(shelf):
    (tr,) = shelf(temporary_revision("TR 32-1", TR_DATE, PAGE_201))
    assert [each.reason for each in unresolved_claims(shelf.catalogue, tr)] == [
        "No document with this number is held here."
    ]
    (held,) = shelf(manual("6", DATE(2030, 3, 1)))
    assert overridden(shelf, held) == [(2, OverrideState.IN_FORCE)]
    assert unresolved_claims(shelf.catalogue, tr) == []


def test_a_manual_dated_after_it_may_include_it_already(shelf):
    held, _ = shelf(manual("7", DATE(2032, 3, 1)), temporary_revision("TR 32-1", TR_DATE, PAGE_201))
    assert overridden(shelf, held) == [(2, OverrideState.CANNOT_TELL)]


@pytest.mark.parametrize("manual_date, tr_date", [(None, TR_DATE), (DATE(2030, 3, 1), None)])
def test_without_both_dates_nobody_can_tell(shelf, manual_date, tr_date):
    held, _ = shelf(manual("6", manual_date), temporary_revision("TR 32-1", tr_date, PAGE_201))
    assert overridden(shelf, held) == [(2, OverrideState.CANNOT_TELL)]


def test_the_revision_it_names_is_overridden_and_an_earlier_one_is_not(shelf):
    tr = temporary_revision("TR 32-1", TR_DATE, PAGE_201, revision="6", date=DATE(2030, 3, 1))
    five, six, seven, _ = shelf(
        manual("5", DATE(2029, 3, 1)), manual("6", DATE(2030, 3, 1)), manual("7", DATE(2032, 3, 1)), tr
    )
    assert overridden(shelf, five) == []
    assert overridden(shelf, six) == [(2, OverrideState.IN_FORCE)]
    assert overridden(shelf, seven) == [(2, OverrideState.CANNOT_TELL)]


def test_one_that_was_superseded_says_so(shelf):
    newer = temporary_revision("TR 32-2", DATE(2031, 6, 1), PAGE_201)
    newer.claims += (claim(ClaimKind.SUPERSEDES, "TR 32-1", type=Type.TEMPORARY_REVISION),)
    held, _, _ = shelf(manual("6", DATE(2030, 3, 1)), temporary_revision("TR 32-1", TR_DATE, PAGE_201), newer)
    assert sorted(overridden(shelf, held)) == [(2, OverrideState.IN_FORCE), (2, OverrideState.SUPERSEDED)]


def test_temporary_revisions_of_two_manuals_do_not_supersede_each_other_by_number(shelf):
    other = temporary_revision("TR 32-1", DATE(2031, 6, 1))
    other.file = "tr-of-another-manual.pdf"
    other.claims = (
        claim(ClaimKind.CHANGES_PAGE, "D9900-2", type=Type.MAINTENANCE_MANUAL, pages=(PAGE_201,)),
    )
    assert order(shelf, temporary_revision("TR 32-1", TR_DATE, PAGE_201), other) == []


@pytest.mark.parametrize(
    "page",
    [("32-43-00", "201"), ("", "201"), ("32-41-00", "999")],
    ids=["no such subject", "in two", "no such page"],
)
def test_a_page_that_is_not_there_once_is_left_alone_and_listed(shelf, page):
    held, tr = shelf(manual("6", DATE(2030, 3, 1)), temporary_revision("TR 32-1", TR_DATE, page))
    assert overridden(shelf, held) == []
    (unresolved,) = unresolved_claims(shelf.catalogue, tr)
    assert unresolved.reason.startswith("Not found, or found more than once")


# References ------------------------------------------------------------------------------------------------


def test_a_claim_is_resolved_when_its_document_comes_and_unresolved_when_it_goes(shelf):
    (source,) = shelf(bulletin("1", "1", None, claims=(claim(ClaimKind.MENTIONS, "32-0012", revision="3"),)))
    assert [each.document for each in unresolved_claims(shelf.catalogue)] == ["32-0012"]
    (target,) = shelf(bulletin("32-0012", "3", None))
    assert [each.target_id for each in ties_from(shelf.catalogue, source)] == [target]
    assert unresolved_claims(shelf.catalogue) == []
    shelf.catalogue.remove(shelf.catalogue.publication(target).copy_id)
    relate(shelf.catalogue)
    assert ties_from(shelf.catalogue, source) == []
    assert [each.document for each in unresolved_claims(shelf.catalogue)] == ["32-0012"]


def test_another_makers_bulletin_of_the_same_number_is_not_meant(shelf):
    source = bulletin("1", "1", None, claims=(claim(ClaimKind.MENTIONS, "17"),))
    (source_id, _) = shelf(source, bulletin("17", "1", None, maker=OTHER_MAKER))
    assert ties_from(shelf.catalogue, source_id) == []
