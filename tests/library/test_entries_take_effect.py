"""What entries and the shop's map change, and that undoing them takes back exactly that. Invented manuals."""

import itertools

import pytest
from making import Made, Text, take
from shop import DATE, MAKER, bulletin, claim, directive, manual

from indexer.library import shop_map
from indexer.library.catalogue import Catalogue
from indexer.library.outbox import feed
from indexer.library.problems import EntryRefused, SecondPersonRefused
from indexer.library.records import EntryKind, EntryState, ReviewCause, SupersessionKind
from indexer.library.relations import relate, supersessions_of, ties_to
from indexer.library.review import queue
from indexer.library.shop_entries import add_entry, entries, entry_passages, second_entry, undo_entry
from indexer.tagging.tags import ClaimKind, StandingValue
from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.evidence import Basis
from indexer.trade.publication_types import PublicationType as Type


@pytest.fixture
def catalogue(tmp_path):
    with Catalogue.open(tmp_path / "library", create=True) as opened:
        yield opened


def own(text: str) -> ChapterNumber:
    return ChapterNumber(text, scheme=Scheme.OWN)


APRIL_1951 = DATE(1951, 4, 1)


def own_order(revision: str = "1", date=APRIL_1951, **rest) -> Made:
    """A manual with its own order: section V of brakes, VI of wheels, and a page that prints a chapter."""
    texts = [
        Text("General words about brakes of the landing gear.", ("SECTION V BRAKES",), 1, own("5")),
        Text(
            "Adjust the brake as the figure shows it.",
            ("SECTION V BRAKES", "5-12 Adjustment"),
            2,
            own("5-12"),
        ),
        Text("Grease the wheel bearing of either wheel.", ("SECTION VI WHEELS",), 3, own("6")),
        Text("A page that prints its chapter all the same.", (), 4, ChapterNumber("24")),
    ]
    given = {"maker": MAKER, "title": "Handbook of the Kestrel", "texts": texts, "pages": 4, **rest}
    return Made(f"km-{revision}.pdf", Type.SERVICE_MANUAL, "KM-12", revision, date, **given)


def chapters(catalogue, copy_id):
    """Numbers of each passage of a copy, in order."""
    return [
        tuple(str(tag.value) for tag in passage.numbers)
        for publication in catalogue.publications_in(copy_id)
        for passage in catalogue.passages_of(publication.id)
    ]


def enter(catalogue, copy_id, kind, value, pdf_page=1, who="R. Quill", why="looked at the page", **rest):
    return add_entry(catalogue, copy_id, pdf_page, who, why, kind, value, **rest)


def agreed(catalogue, copy_id, kind, value, second="M. Ohler", **rest):
    """An entry that two persons made."""
    return second_entry(catalogue, enter(catalogue, copy_id, kind, value, **rest).id, second)


def file_under(catalogue, copy_id, value, **rest):
    return enter(catalogue, copy_id, EntryKind.CHAPTERS, value, **rest)


def state_of(catalogue, made):
    return next(each.state for each in entries(catalogue) if each.id == made.id)


# Filing ----------------------------------------------------------------------------------------------------


def test_an_entry_beats_what_is_printed_and_keeps_it_beside(catalogue, tmp_path):
    copy_id = take(catalogue, tmp_path, own_order()).copy_id
    entry = agreed(catalogue, copy_id, EntryKind.CHAPTERS, "32-41;32-42", pdf_page=4)
    assert relate(catalogue)
    passage = catalogue.passages_of(f"{copy_id}-1")[3]
    assert [str(tag.value) for tag in passage.numbers] == ["32-41", "32-42"]
    evidence = passage.numbers[0].evidence
    assert (evidence.basis, evidence.rule, evidence.source, evidence.quote) == (
        Basis.SHOP_ENTRY,
        "shop entry",
        "R. Quill; M. Ohler",
        "looked at the page",
    )
    assert [str(tag.value) for tag in passage.numbers[0].others] == ["24"]
    assert entry_passages(catalogue, entry.id) == [passage.id]
    assert not relate(catalogue)


def test_the_map_reaches_every_revision_and_stands_below_print(catalogue, tmp_path):
    shop_map.add_row(catalogue, "km 12", "V", "VI", "32", "R. Quill", "all of the landing gear")
    shop_map.add_row(catalogue, "KM-12", "5-10", "5-20", "32-41", "M. Ohler", "brake paragraphs")
    older = take(catalogue, tmp_path, own_order()).copy_id
    newer = take(catalogue, tmp_path, own_order("2", DATE(1953, 4, 1))).copy_id
    relate(catalogue)
    for copy_id in (older, newer):
        assert chapters(catalogue, copy_id) == [("32", "5"), ("32-41", "5-12"), ("32", "6"), ("24",)]
        assert catalogue.publications_in(copy_id)[0].not_numbered == 0
    tag = catalogue.passages_of(f"{newer}-1")[1].numbers[0]
    assert (tag.evidence.rule, tag.evidence.source, tag.evidence.quote) == (
        "shop map",
        "M. Ohler",
        "brake paragraphs",
    )
    row = shop_map.map_rows(catalogue)[0]
    shop_map.remove_row(catalogue, row.id, "M. Ohler", "too wide")
    relate(catalogue)
    assert chapters(catalogue, newer) == [("5",), ("32-41", "5-12"), ("6",), ("24",)]
    assert catalogue.publications_in(newer)[0].not_numbered == 2


def test_a_line_of_the_map_may_name_the_manual_by_its_title(catalogue, tmp_path):
    shop_map.add_row(catalogue, "HANDBOOK of the Kestrel", "V", "", "32", "R. Quill", "brakes")
    shop_map.add_row(catalogue, "another handbook", "VI", "", "28", "R. Quill", "not this one")
    copy_id = take(catalogue, tmp_path, own_order()).copy_id
    relate(catalogue)
    assert chapters(catalogue, copy_id) == [("32", "5"), ("32", "5-12"), ("6",), ("24",)]


def test_the_narrower_entry_holds_and_then_the_later_one(catalogue, tmp_path):
    copy_id = take(catalogue, tmp_path, own_order()).copy_id
    file_under(catalogue, copy_id, "27", pdf_page=2, quote="Adjust the brake as the figure shows it.")
    file_under(catalogue, copy_id, "28", section="V")
    file_under(catalogue, copy_id, "29", last_page=3)
    later = file_under(catalogue, copy_id, "30", last_page=3)
    relate(catalogue)
    assert chapters(catalogue, copy_id) == [("28", "5"), ("27", "5-12"), ("30", "6"), ("24",)]
    undo_entry(catalogue, later.id, "R. Quill", "a slip")
    relate(catalogue)
    assert chapters(catalogue, copy_id)[2] == ("29", "6")


def test_an_entry_can_say_that_there_is_no_chapter(catalogue, tmp_path):
    copy_id = take(catalogue, tmp_path, own_order()).copy_id
    agreed(catalogue, copy_id, EntryKind.CHAPTERS, "", pdf_page=4)
    relate(catalogue)
    assert chapters(catalogue, copy_id)[3] == ()
    assert catalogue.publications_in(copy_id)[0].not_numbered == 4
    assert catalogue.status().passages_not_numbered == 4


@pytest.mark.parametrize("value", ["32-41", "", "28;32"])
def test_one_person_drops_no_printed_number(catalogue, tmp_path, value):
    copy_id = take(catalogue, tmp_path, own_order()).copy_id
    with pytest.raises(EntryRefused, match="Write the words printed there"):
        file_under(catalogue, copy_id, value, pdf_page=4, why="Read on the page")
    waits = file_under(catalogue, copy_id, value, pdf_page=4)
    assert waits.state is EntryState.WAITING
    relate(catalogue)
    assert state_of(catalogue, waits) is EntryState.WAITING
    assert chapters(catalogue, copy_id)[3] == ("24",), "what is printed holds"
    with pytest.raises(SecondPersonRefused):
        second_entry(catalogue, waits.id, "Quill, R.")
    (asked,) = queue(catalogue, {ReviewCause.WAITING}).items
    assert "It leaves out a number that is printed there, so a second person must agree." in asked.now
    second_entry(catalogue, waits.id, "M. Ohler")
    relate(catalogue)
    assert state_of(catalogue, waits) is EntryState.IN_FORCE
    assert chapters(catalogue, copy_id)[3] == tuple(filter(None, value.split(";")))
    undo_entry(catalogue, waits.id, "R. Quill", "a slip")
    relate(catalogue)
    assert chapters(catalogue, copy_id)[3] == ("24",)


@pytest.mark.parametrize("value", ["24;32", "24-10"])
def test_one_person_adds_to_a_printed_number_or_says_it_closer(catalogue, tmp_path, value):
    copy_id = take(catalogue, tmp_path, own_order()).copy_id
    made = file_under(catalogue, copy_id, value, pdf_page=4, why="Read on the page")
    relate(catalogue)
    assert state_of(catalogue, made) is EntryState.IN_FORCE
    assert chapters(catalogue, copy_id)[3] == tuple(value.split(";"))


def test_an_entry_waits_whole_where_one_of_its_pages_prints_another_number(catalogue, tmp_path):
    copy_id = take(catalogue, tmp_path, own_order()).copy_id
    waits = file_under(catalogue, copy_id, "32", last_page=4)
    relate(catalogue)
    assert waits.state is EntryState.WAITING
    assert chapters(catalogue, copy_id) == [("5",), ("5-12",), ("6",), ("24",)]


# Identity --------------------------------------------------------------------------------------------------


def test_an_entered_identity_is_shown_with_what_was_read_beside_it(catalogue, tmp_path):
    copy_id = take(catalogue, tmp_path, own_order()).copy_id
    agreed(catalogue, copy_id, EntryKind.TYPE, "maintenance-manual", pdf_page=3)
    agreed(catalogue, copy_id, EntryKind.DATE, "1952-01-31")
    agreed(catalogue, copy_id, EntryKind.NUMBER, "KM-13")
    relate(catalogue)
    record = catalogue.publication(f"{copy_id}-1")
    assert (record.type, record.number, record.date) == (Type.MAINTENANCE_MANUAL, "KM-13", DATE(1952, 1, 31))
    assert record.identity.type.evidence.basis is Basis.SHOP_ENTRY
    assert [tag.value for tag in record.identity.type.others] == [Type.SERVICE_MANUAL]
    assert record.work_id.startswith("maintenance-manual|") and record.work_id.endswith("|KM-13")
    assert record.revision_id.endswith("|1952-01-31")
    assert catalogue.status().publications_by_type == {"maintenance-manual": 1}
    standing = catalogue.passages_of(record.id)[0].standing
    assert standing.usual is StandingValue(Type.MAINTENANCE_MANUAL.usual_standing)
    with catalogue.reading() as connection:
        works = [row["id"] for row in connection.execute("SELECT id FROM work")]
        assert works == [record.work_id]


def test_supersession_follows_from_the_entered_date(catalogue, tmp_path):
    older = take(catalogue, tmp_path, manual("6", DATE(2030, 3, 1))).copy_id
    newer = take(catalogue, tmp_path, manual("7", None)).copy_id
    relate(catalogue)
    (found,) = supersessions_of(catalogue, f"{older}-1")
    assert found.kind is SupersessionKind.CANNOT_TELL
    entry = enter(catalogue, newer, EntryKind.DATE, "2032-03-01")
    relate(catalogue)
    (found,) = supersessions_of(catalogue, f"{older}-1")
    assert found.kind is SupersessionKind.CANNOT_TELL
    second_entry(catalogue, entry.id, "M. Ohler")
    relate(catalogue)
    (found,) = supersessions_of(catalogue, f"{older}-1")
    assert (found.kind, found.newer_id) == (SupersessionKind.NEWER_REVISION, f"{newer}-1")
    undo_entry(catalogue, entry.id, "M. Ohler", "not sure")
    relate(catalogue)
    (found,) = supersessions_of(catalogue, f"{older}-1")
    assert found.kind is SupersessionKind.CANNOT_TELL


def test_no_standing_rises_by_one_persons_word_for_a_number(catalogue, tmp_path):
    """A directive requires a bulletin; giving an unnumbered paper that number would make it approved."""
    required = claim(ClaimKind.REQUIRES, "32-0012", revision="3", date=DATE(2030, 8, 3))
    take(catalogue, tmp_path, directive("2031-04-07", required))
    paper = bulletin("32-0012", "3", DATE(2030, 8, 3))
    paper.number = None
    copy_id = take(catalogue, tmp_path, paper).copy_id
    entry = enter(catalogue, copy_id, EntryKind.NUMBER, "SB 32-0012")
    relate(catalogue)

    def values():
        return {passage.standing.value for passage in catalogue.passages_of(f"{copy_id}-1")}

    assert catalogue.publication(f"{copy_id}-1").number == ""
    assert values() == {StandingValue.UNDETERMINED}
    (waiting,) = entries(catalogue, state=EntryState.WAITING)
    assert waiting.id == entry.id
    assert not ties_to(catalogue, f"{copy_id}-1")
    second_entry(catalogue, entry.id, "M. Ohler")
    relate(catalogue)
    assert values() == {StandingValue.APPROVED}
    assert entries(catalogue, state=EntryState.WAITING) == []
    undo_entry(catalogue, entry.id, "R. Quill", "another bulletin")
    relate(catalogue)
    assert values() == {StandingValue.UNDETERMINED}


# Standing --------------------------------------------------------------------------------------------------


def standing(catalogue, copy_id, ordinal=0):
    return catalogue.passages_of(f"{copy_id}-1")[ordinal].standing


def test_standing_rises_when_two_persons_agree_and_keeps_the_notice(catalogue, tmp_path):
    notice = Text("FOR REFERENCE ONLY", value=StandingValue.BLOCKED)
    copy_id = take(catalogue, tmp_path, manual("6", None, texts=[notice, Text("Other words.")])).copy_id
    entry = enter(
        catalogue, copy_id, EntryKind.STANDING, "acceptable", quote="For reference only", why="letter of May"
    )
    relate(catalogue)
    assert standing(catalogue, copy_id).value is StandingValue.BLOCKED
    assert [each.state for each in entries(catalogue)] == [EntryState.WAITING]
    second_entry(catalogue, entry.id, "M. Ohler")
    relate(catalogue)
    now = standing(catalogue, copy_id)
    assert (now.value, now.evidence.basis, now.evidence.source, now.evidence.quote, now.scope) == (
        StandingValue.ACCEPTABLE,
        Basis.SHOP_ENTRY,
        "R. Quill; M. Ohler",
        "letter of May",
        "passage",
    )
    assert any("FOR REFERENCE ONLY" in condition for condition in now.conditions)
    assert standing(catalogue, copy_id, 1).value is StandingValue.UNDETERMINED
    assert catalogue.passages_of(f"{copy_id}-1")[0].own_standing.value is StandingValue.BLOCKED


def test_lowering_takes_effect_at_once_and_the_lowest_holds(catalogue, tmp_path):
    granted = Text("FAA APPROVED J. Doe", value=StandingValue.APPROVED)
    copy_id = take(catalogue, tmp_path, manual("6", None, texts=[granted], pages=1)).copy_id
    lowered = enter(catalogue, copy_id, EntryKind.STANDING, "information")
    relate(catalogue)
    assert standing(catalogue, copy_id).value is StandingValue.INFORMATION
    raised = enter(catalogue, copy_id, EntryKind.STANDING, "approved", who="M. Ohler")
    assert raised.state is EntryState.WAITING
    undo_entry(catalogue, lowered.id, "R. Quill", "no longer so")
    relate(catalogue)
    assert standing(catalogue, copy_id).value is StandingValue.INFORMATION  # undoing waits too
    second_entry(catalogue, lowered.id, "M. Ohler")
    relate(catalogue)
    assert standing(catalogue, copy_id).value is StandingValue.APPROVED


def test_one_person_may_lower_what_two_raised(catalogue, tmp_path):
    copy_id = take(catalogue, tmp_path, manual("6", None)).copy_id
    raised = enter(catalogue, copy_id, EntryKind.STANDING, "approved")
    second_entry(catalogue, raised.id, "M. Ohler")
    relate(catalogue)
    assert standing(catalogue, copy_id).value is StandingValue.APPROVED
    lowered = enter(catalogue, copy_id, EntryKind.STANDING, "information", who="T. Third")
    assert lowered.state is EntryState.IN_FORCE
    relate(catalogue)
    assert standing(catalogue, copy_id).value is StandingValue.INFORMATION


# Taking back, order, index ---------------------------------------------------------------------------------


def everything(catalogue, copy_id):
    """One entry of every kind that changes something; () to undo them in any order."""
    quote = "Grease the wheel bearing of either wheel."
    made = [
        file_under(catalogue, copy_id, "32-41", section="V"),
        file_under(catalogue, copy_id, "", pdf_page=4),
        agreed(catalogue, copy_id, EntryKind.NUMBER, "KM-13"),
        agreed(catalogue, copy_id, EntryKind.TYPE, "maintenance-manual"),
        enter(catalogue, copy_id, EntryKind.TITLE, "Another handbook"),
        enter(catalogue, copy_id, EntryKind.STANDING, "acceptable", pdf_page=3, quote=quote),
        enter(catalogue, copy_id, EntryKind.STANDING, "blocked", pdf_page=4),
    ]
    second_entry(catalogue, made[5].id, "M. Ohler")
    return made


def without_entries(text: str) -> str:
    """A dump without the entries themselves, which stay when they are undone."""
    return "\n".join(line for line in text.splitlines() if '"R. Quill"' not in line)


def test_undoing_takes_back_exactly_what_was_given(catalogue, tmp_path):
    copy_id = take(catalogue, tmp_path, own_order()).copy_id
    take(catalogue, tmp_path, own_order("2", DATE(1953, 4, 1)))
    relate(catalogue)
    before = catalogue.dump()
    made = everything(catalogue, copy_id)
    relate(catalogue)
    assert without_entries(catalogue.dump()) != before
    for entry in made:
        undone = undo_entry(catalogue, entry.id, "M. Ohler", "all taken back")
        if undone.undo_waits:
            second_entry(catalogue, entry.id, "T. Third")
        relate(catalogue)
    assert without_entries(catalogue.dump()).splitlines() == before.splitlines()


@pytest.mark.parametrize("order", list(itertools.permutations(range(3)))[1:])
def test_the_order_of_files_entries_and_relating_is_nothing(tmp_path, order):
    def built(name: str, order) -> str:
        with Catalogue.open(tmp_path / name, create=True) as catalogue:
            files = [own_order(), own_order("2", DATE(1953, 4, 1)), bulletin("1", "A", None)]
            for place in order:
                taken = take(catalogue, tmp_path, files[place])
                if place == order[0]:
                    relate(catalogue)
                if place == 0:
                    first = taken.copy_id
            acts = [
                lambda: file_under(catalogue, first, "32-41", section="V"),
                lambda: enter(catalogue, first, EntryKind.STANDING, "blocked", pdf_page=3),
                lambda: shop_map.add_row(catalogue, "KM-12", "VI", "", "32", "M. Ohler", "wheels"),
            ]
            for place in order:
                acts[place]()
                if place == order[1]:
                    relate(catalogue)
            relate(catalogue)
            return catalogue.dump()

    assert built("one", order) == built("other", (0, 1, 2))


class Engine:
    """Notes what it is handed."""

    def __init__(self):
        self.held, self.added = None, []

    def generation(self):
        return self.held

    def rebuild(self, generation, passages):
        self.held, self.added = generation, list(passages)

    def apply(self, generation, removed, added):
        self.held, self.added = generation, list(added)


def test_the_index_is_handed_what_an_entry_changed_and_nothing_else(catalogue, tmp_path):
    copy_id = take(catalogue, tmp_path, own_order()).copy_id
    take(catalogue, tmp_path, bulletin("1", "A", None))
    engine = Engine()
    relate(catalogue)
    feed(catalogue, engine)
    file_under(catalogue, copy_id, "32-41", section="V")
    relate(catalogue)
    feed(catalogue, engine)
    assert {each.publication_id for each in engine.added} == {f"{copy_id}-1"}
    assert [each.chapters for each in engine.added] == [("32",), ("32",), (), ("24",)]
    enter(catalogue, copy_id, EntryKind.STANDING, "blocked", pdf_page=4)
    relate(catalogue)
    feed(catalogue, engine)
    assert [each.standing for each in engine.added] == ["undetermined"] * 3 + ["blocked"]
    agreed(catalogue, copy_id, EntryKind.TYPE, "maintenance-manual")
    relate(catalogue)
    feed(catalogue, engine)
    assert {each.type for each in engine.added} == {"maintenance-manual"}
