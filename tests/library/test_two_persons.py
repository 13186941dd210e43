"""What one person may not bring about alone: no standing rises by what a publication is said to be.

The shop and its papers are invented. The rule that a directive requires the named revision of a bulletin: 14
CFR 39.27 and the trade's common teaching. The rule of two persons is the shop's own.
"""

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from making import take
from shop import DATE, bulletin, claim, directive, everything

from indexer.library.catalogue import Catalogue
from indexer.library.entry_values import height
from indexer.library.records import EntryKind, EntryState
from indexer.library.relations import relate, ties_to
from indexer.library.shop_entries import add_entry, entries, second_entry, undo_entry
from indexer.tagging.tags import ClaimKind, StandingValue

KINDS = {"type": EntryKind.TYPE, "number": EntryKind.NUMBER, "revision": EntryKind.REVISION}
KINDS |= {"date": EntryKind.DATE, "title": EntryKind.TITLE}
REQUIRED = claim(ClaimKind.REQUIRES, "32-0012", revision="3", date=DATE(2030, 8, 3))


@pytest.fixture
def catalogue(tmp_path):
    with Catalogue.open(tmp_path / "library", create=True) as opened:
        yield opened


def say(catalogue, copy_id, kind, value, who="R. Quill"):
    return add_entry(catalogue, copy_id, 1, who, "seen on the cover", KINDS[kind], value)


def values(catalogue, copy_id):
    """Standing values, whether any is mandatory."""
    found = [each.standing for each in catalogue.passages_of(f"{copy_id}-1")]
    return {each.value for each in found}, any(each.mandatory for each in found)


UNDETERMINED = ({StandingValue.UNDETERMINED}, False)
REQUIRED_NOW = ({StandingValue.APPROVED}, True)
ATTACKS = [
    (("revision", "3"), ("date", "2030-08-03")),
    (("number", "SB 32-0012"), ("revision", "3"), ("date", "2030-08-03")),
]


def attacked(catalogue, tmp_path, attack):
    """A paper that is not the required one until all is said of it."""
    take(catalogue, tmp_path, directive("2031-04-07", REQUIRED))
    paper = bulletin("32-0012", "C", DATE(2034, 1, 1))
    if len(attack) == 3:
        paper.number = None
    return take(catalogue, tmp_path, paper).copy_id


@pytest.mark.parametrize("attack", ATTACKS, ids=["two entries", "three entries"])
def test_several_entries_of_one_person_do_nothing_together(catalogue, tmp_path, attack):
    copy_id = attacked(catalogue, tmp_path, attack)
    relate(catalogue)
    before = catalogue.publication(f"{copy_id}-1").identity
    for kind, value in attack:
        assert say(catalogue, copy_id, kind, value).state is EntryState.WAITING
        relate(catalogue)
        assert values(catalogue, copy_id) == UNDETERMINED
    assert catalogue.publication(f"{copy_id}-1").identity == before
    assert [each.state for each in entries(catalogue)] == [EntryState.WAITING] * len(attack)


@pytest.mark.parametrize(
    ("attack", "order"),
    [(attack, order) for attack in ATTACKS for order in itertools.permutations(range(len(attack)))],
)
def test_all_must_be_agreed_to_in_whatever_order(catalogue, tmp_path, attack, order):
    copy_id = attacked(catalogue, tmp_path, attack)
    made = [say(catalogue, copy_id, kind, value) for kind, value in attack]
    for place in order:
        relate(catalogue)
        assert values(catalogue, copy_id) == UNDETERMINED
        second_entry(catalogue, made[place].id, "M. Ohler")
    relate(catalogue)
    assert values(catalogue, copy_id) == REQUIRED_NOW


@pytest.mark.parametrize(
    ("read_as", "said"),
    [("proposal", "airworthiness-directive"), ("bulletin", "airworthiness-directive")],
)
def test_one_person_makes_no_directive(catalogue, tmp_path, read_as, said):
    target = take(catalogue, tmp_path, bulletin("32-0012", "3", DATE(2030, 8, 3))).copy_id
    paper = (
        directive("2031-04-07", REQUIRED, is_rule=False)
        if read_as == "proposal"
        else bulletin("99-0001", "A", None, claims=(REQUIRED,))
    )
    copy_id = take(catalogue, tmp_path, paper).copy_id
    relate(catalogue)
    before = catalogue.publication(f"{copy_id}-1").type
    say(catalogue, copy_id, "type", said)
    relate(catalogue)
    assert catalogue.publication(f"{copy_id}-1").type is before
    assert values(catalogue, target) == UNDETERMINED


def test_one_person_takes_no_directive_its_force_and_gives_it_none_back(catalogue, tmp_path):
    copy_id = take(catalogue, tmp_path, directive("2031-04-07", REQUIRED)).copy_id
    target = take(catalogue, tmp_path, bulletin("32-0012", "3", DATE(2030, 8, 3))).copy_id
    made = say(catalogue, copy_id, "type", "service-letter")
    relate(catalogue)
    assert values(catalogue, target) == REQUIRED_NOW
    second_entry(catalogue, made.id, "M. Ohler")
    relate(catalogue)
    assert values(catalogue, target) == UNDETERMINED
    assert undo_entry(catalogue, made.id, "R. Quill", "it is one after all").undo_waits
    relate(catalogue)
    assert values(catalogue, target) == UNDETERMINED
    second_entry(catalogue, made.id, "M. Ohler")
    relate(catalogue)
    assert values(catalogue, target) == REQUIRED_NOW


def test_undoing_goes_at_once_where_what_was_read_comes_back(catalogue, tmp_path):
    copy_id = take(catalogue, tmp_path, bulletin("32-0012", "C", DATE(2034, 1, 1))).copy_id
    alone = say(catalogue, copy_id, "number", "SB 1")
    assert undo_entry(catalogue, alone.id, "R. Quill", "a slip").state is EntryState.UNDONE
    first, second = say(catalogue, copy_id, "revision", "3"), say(catalogue, copy_id, "date", "2030-08-03")
    second_entry(catalogue, first.id, "M. Ohler")
    second_entry(catalogue, second.id, "M. Ohler")
    assert undo_entry(catalogue, first.id, "R. Quill", "a slip").undo_waits, "the date would stand alone"
    relate(catalogue)
    assert catalogue.publication(f"{copy_id}-1").revision == "3"
    second_entry(catalogue, first.id, "M. Ohler")
    assert undo_entry(catalogue, second.id, "R. Quill", "a slip").state is EntryState.UNDONE
    relate(catalogue)
    record = catalogue.publication(f"{copy_id}-1")
    assert (record.revision, record.date) == ("C", DATE(2034, 1, 1))


def test_undoing_waits_while_the_file_is_not_held(catalogue, tmp_path):
    copy_id = take(catalogue, tmp_path, bulletin("32-0012", "C", None)).copy_id
    made = second_entry(catalogue, say(catalogue, copy_id, "revision", "3").id, "M. Ohler")
    catalogue.remove(copy_id)
    assert undo_entry(catalogue, made.id, "R. Quill", "a slip").undo_waits


SAID = {
    "type": ("airworthiness-directive", "service-bulletin", "service-letter", "maintenance-manual"),
    "number": ("SB 32-0012", "SB 24-0107", "SB 52-0009", "2031-04-07"),
    "revision": ("2", "3", "A", "original"),
    "date": ("2030-08-03", "2029-01-09", "2028-02-01", "2031-03-03"),
    "title": ("Another title",),
}
ACTS = st.lists(
    st.tuples(st.integers(0, 99), st.sampled_from([(kind, one) for kind in SAID for one in SAID[kind]])),
    min_size=1,
    max_size=12,
)


def standing_of_all(catalogue):
    return {
        passage.id: passage.standing
        for record in catalogue.publications(replaced=True)
        for passage in catalogue.passages_of(record.id)
    }


@settings(deadline=None, max_examples=25)
@given(ACTS, st.data())
def test_whatever_one_person_enters_nothing_rises(tmp_path_factory, acts, data):
    """Entries and undoing by one person, in any mixture, on a shop with directives of every kind."""
    with Catalogue.open(tmp_path_factory.mktemp("library"), create=True) as catalogue:
        folder = tmp_path_factory.mktemp("in")
        papers = [take(catalogue, folder, made).copy_id for made in everything()]
        relate(catalogue)
        derived = standing_of_all(catalogue)
        assert any(each.mandatory for each in derived.values())
        for place, (kind, value) in acts:
            say(catalogue, papers[place % len(papers)], kind, value)
            if data.draw(st.booleans()):
                target = data.draw(st.sampled_from(papers))
                wanted = data.draw(st.sampled_from([each.value for each in StandingValue]))
                add_entry(catalogue, target, 1, "R. Quill", "seen", EntryKind.STANDING, wanted)
            open_ = [each for each in entries(catalogue) if not each.undone_by]
            if data.draw(st.booleans()):
                undo_entry(catalogue, data.draw(st.sampled_from(open_)).id, "R. Quill", "not so")
        relate(catalogue)
        for passage, now in standing_of_all(catalogue).items():
            assert height(now.value) <= height(derived[passage].value)
            assert derived[passage].mandatory or not now.mandatory


def test_the_attacks_would_work_with_two_persons(catalogue, tmp_path):
    """Otherwise the tests above would show nothing."""
    copy_id = attacked(catalogue, tmp_path, ATTACKS[0])
    for kind, value in ATTACKS[0]:
        second_entry(catalogue, say(catalogue, copy_id, kind, value).id, "M. Ohler")
    relate(catalogue)
    assert any(tie.raises for tie in ties_to(catalogue, f"{copy_id}-1"))
