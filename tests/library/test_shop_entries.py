"""What people add: entries checked, agreed to, taken back, and written down. Invented manuals and persons."""

from dataclasses import replace

import pytest
from making import take
from shop import DATE, bulletin, manual

from indexer.errors import HangarleafError, PageUnknown, PublicationUnknown
from indexer.library.catalogue import Catalogue
from indexer.library.persons import may_be_one
from indexer.library.problems import EntryRefused, EntryUnknown, SecondPersonRefused
from indexer.library.records import EntryKind, EntryState
from indexer.library.shop_entries import add_entry, entries, second_entry, undo_entry
from indexer.trade.evidence import Box


@pytest.fixture
def catalogue(tmp_path):
    with Catalogue.open(tmp_path / "library", create=True) as opened:
        yield opened


@pytest.fixture
def copy_id(catalogue, tmp_path):
    return take(catalogue, tmp_path, manual("6", DATE(2030, 3, 1))).copy_id


def file_under(catalogue, copy_id, chapters="24", pdf_page=1, who="R. Quill", why="read on the page", **rest):
    return add_entry(catalogue, copy_id, pdf_page, who, why, EntryKind.CHAPTERS, chapters, **rest)


def stands(catalogue, copy_id, value, who="R. Quill", **rest):
    return add_entry(catalogue, copy_id, 1, who, "looked it up", EntryKind.STANDING, value, **rest)


def test_an_entry_is_kept_as_given_and_in_force(catalogue, copy_id):
    entry = file_under(catalogue, copy_id, "32-41 , 24", quote="Words  of page 1.", box=Box(10, 10, 50, 24))
    assert (entry.value, entry.quote, entry.box) == ("32-41;24", "Words of page 1.", Box(10, 10, 50, 24))
    assert (entry.who, entry.why, entry.state) == ("R. Quill", "read on the page", EntryState.IN_FORCE)
    assert entries(catalogue) == entries(catalogue, copy_id) == [entry]
    assert entries(catalogue, "another") == entries(catalogue, state=EntryState.WAITING) == []
    assert catalogue.status().relations_pending


def test_an_entry_outlives_its_copy(catalogue, copy_id):
    entry = file_under(catalogue, copy_id)
    catalogue.remove(copy_id)
    assert entries(catalogue, copy_id) == [entry]
    with pytest.raises(PublicationUnknown):
        file_under(catalogue, copy_id)


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ({"who": "  "}, "no name"),
        ({"who": "--"}, "no name"),
        ({"why": "\t"}, "no reason"),
        ({"value": "17"}, "no assigned chapter"),
        ({"value": "32; brakes"}, "«brakes»"),
        ({"kind": EntryKind.TYPE, "value": "comic"}, "type of publication"),
        ({"kind": EntryKind.DATE, "value": "05/12/2031"}, "no date"),
        ({"kind": EntryKind.STANDING, "value": "excellent"}, "no standing"),
        ({"kind": EntryKind.SETTLED, "value": "whatever"}, "doubt"),
        ({"kind": EntryKind.NUMBER, "value": " "}, "no number"),
        ({"pdf_page": 3, "last_page": 2}, "before the first"),
        ({"quote": "words that are not there"}, "is not found"),
        ({"quote": "Words of page", "last_page": 2}, "several places"),
        ({"section": "V"}, "No passage of section V"),
    ],
)
def test_what_is_not_complete_or_not_of_its_kind_is_refused_and_nothing_is_kept(
    catalogue, copy_id, given, says
):
    generation = catalogue.generation
    wanted = {"pdf_page": 1, "who": "R. Quill", "why": "read it", "kind": EntryKind.CHAPTERS, "value": "32"}
    with pytest.raises(EntryRefused, match=says) as refused:
        add_entry(catalogue, copy_id, **{**wanted, **given})
    assert refused.value.slug == "entry-refused" and refused.value.remedy
    assert (entries(catalogue), catalogue.generation) == ([], generation)


def test_pages_must_be_there(catalogue, copy_id):
    for pages in ({"pdf_page": 7}, {"pdf_page": 6, "last_page": 9}):
        with pytest.raises(PageUnknown):
            file_under(catalogue, copy_id, **pages)


def test_what_raises_standing_waits_for_another_person(catalogue, copy_id):
    entry = stands(catalogue, copy_id, "approved")
    assert entry.state is EntryState.WAITING
    for same in ("R. Quill", "r quill", "QUILL, R.", "Robert Quill"):
        with pytest.raises(SecondPersonRefused):
            second_entry(catalogue, entry.id, same)
    assert entries(catalogue, state=EntryState.WAITING) == [entry]
    agreed = second_entry(catalogue, entry.id, "M. Ohler")
    assert (agreed.state, agreed.second) == (EntryState.IN_FORCE, "M. Ohler")
    with pytest.raises(EntryRefused, match="waits for nobody"):
        second_entry(catalogue, entry.id, "T. Third")


@pytest.mark.parametrize(
    ("value", "state"),
    [
        ("blocked", EntryState.IN_FORCE),  # below undetermined, which the page is
        ("undetermined", EntryState.IN_FORCE),
        ("information", EntryState.WAITING),
        ("acceptable", EntryState.WAITING),
    ],
)
def test_only_what_raises_waits(catalogue, copy_id, value, state):
    assert stands(catalogue, copy_id, value).state is state


def test_undoing_keeps_the_row(catalogue, copy_id):
    entry = file_under(catalogue, copy_id)
    undone = undo_entry(catalogue, entry.id, "M. Ohler", "wrong page")
    assert (undone.state, undone.undone_by, undone.undone_why) == (
        EntryState.UNDONE,
        "M. Ohler",
        "wrong page",
    )
    assert entries(catalogue) == entries(catalogue, state=EntryState.UNDONE) == [undone]
    with pytest.raises(EntryRefused, match="undone by M. Ohler"):
        undo_entry(catalogue, entry.id, "R. Quill", "again")
    with pytest.raises(EntryUnknown):
        undo_entry(catalogue, 99, "R. Quill", "none")


def test_undoing_what_holds_a_standing_down_waits_for_another_person(catalogue, copy_id):
    lowered = stands(catalogue, copy_id, "blocked")
    waiting = undo_entry(catalogue, lowered.id, "R. Quill", "no longer so")
    assert waiting.state is EntryState.WAITING and waiting.undo_waits
    with pytest.raises(SecondPersonRefused):
        second_entry(catalogue, lowered.id, "R. Quill")
    undone = second_entry(catalogue, lowered.id, "M. Ohler")
    assert undone.state is EntryState.UNDONE and undone.undone_second == "M. Ohler"


def test_taking_back_a_raise_needs_no_second_person(catalogue, copy_id):
    raised = stands(catalogue, copy_id, "approved")
    assert undo_entry(catalogue, raised.id, "R. Quill", "a slip").state is EntryState.UNDONE
    raised = stands(catalogue, copy_id, "approved")
    second_entry(catalogue, raised.id, "M. Ohler")
    assert undo_entry(catalogue, raised.id, "R. Quill", "a slip").state is EntryState.UNDONE


def test_every_act_stands_in_the_history(catalogue, copy_id):
    page = {"pdf_page": 2, "quote": "Words of page 2."}
    entry = file_under(catalogue, copy_id, **page, why="the figure is headed 24")
    undo_entry(catalogue, entry.id, "M. Ohler", "wrong page")
    raised = stands(catalogue, copy_id, "approved")
    second_entry(catalogue, raised.id, "M. Ohler")
    acts = [(each.event, each.detail) for each in catalogue.history(copy_id) if each.event != "taken"]
    assert [event for event, _ in acts] == ["shop entry", "shop entry undone", "shop entry", "second person"]
    assert acts[0][1] == (
        "R. Quill: chapters on PDF page 2, «Words of page 2.»: 32-41-00 -> 24. Why: the figure is headed 24"
    )
    assert "M. Ohler: undoes entry 1 of R. Quill" in acts[1][1] and "wrong page" in acts[1][1]
    assert "undetermined -> approved" in acts[2][1]
    assert "M. Ohler agrees to entry 2" in acts[3][1]


def test_an_entry_belongs_to_one_publication(catalogue, tmp_path):
    made = bulletin("1", "A", None, pages=2)
    first = made.publications()[0]
    parts = (replace(first, last_page=1), replace(first, first_page=2, passages=()))
    copy_id = catalogue.take(made.write(tmp_path), made.document(), parts).copy_id
    with pytest.raises(EntryRefused, match="one publication"):
        file_under(catalogue, copy_id, last_page=2)


# Common sense, no source: initials and order say nothing against one person.
@pytest.mark.parametrize(
    ("one", "other", "may"),
    [
        ("R. Quill", "Quill, R", True),
        ("R. Quill", "robert quill", True),
        ("José Núñez", "JOSE NUNEZ", True),
        ("R. Quill", "M. Quill", False),
        ("R. Quill", "R. Quillan", False),
        ("Ann", "Ann Lee", False),
    ],
)
def test_names_that_may_be_one_persons(one, other, may):
    assert may_be_one(one, other) is may_be_one(other, one) is may


def test_every_refusal_says_what_to_do(catalogue, copy_id):
    for refused in (EntryUnknown("entry", 3), SecondPersonRefused("a", "b"), EntryRefused("x", "Do y.")):
        assert isinstance(refused, HangarleafError) and refused.what and refused.remedy
