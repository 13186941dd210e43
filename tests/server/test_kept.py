"""What is kept of one state of the library changes no answer, and is lost with its state."""

import datetime
import itertools

import pytest
from making import Made, Text, evidence, take

from indexer.library import fleet
from indexer.library.catalogue import Catalogue
from indexer.library.register import record_check
from indexer.library.register_records import CurrencyState
from indexer.settings import Settings
from indexer.tagging.tags import ApplicabilityScope, StatedApplicability
from indexer.trade.applies import Applies
from indexer.trade.chapters import ChapterNumber
from indexer.trade.evidence import Origin, Tag
from indexer.trade.publication_types import PublicationType as Type
from server.applying import Applying
from server.current import Current
from server.hiding import to_hide
from server.kept import Kept, KeptByState
from server.opened import OpenedLibrary
from server.search import search
from server.sourcecheck import check
from server.stated_words import names_one_of, read_once
from server.system import everything_on

INSIDE = "Model C-220 airplanes, serial numbers CV-101 through CV-150"
OUTSIDE = "Model C-220 airplanes, serial numbers CV-201 through CV-250"
OPEN = Applies.APPLIES
DAY = datetime.date
TODAY = DAY(2026, 2, 1)
ASKED = (
    lambda library: search(library, "brake lining", limit=1000).fields(),
    lambda library: search(library, "brake lining", limit=1000, aircraft="QX-1AB").fields(),
    lambda library: search(library, "brake", aircraft="QX-1AB", hide_not_applying=True).fields(),
    lambda library: everything_on(library, "32-41", "QX-1AB"),
    lambda library: everything_on(library, "brakes", "QX-1AB", hide_not_applying=True),
    lambda library: check(library, "Done IAW SM-1 paragraph 5-2.", "QX-1AB", keep=False).fields(),
    lambda library: check(library, "Done IAW SM-1 page 2.", "QX-1AB", keep=False).fields(),
)


def said(text, page=None, passage=None):
    scope = ApplicabilityScope.PUBLICATION
    if page:
        scope = ApplicabilityScope.PASSAGE if passage is not None else ApplicabilityScope.PAGE
    return StatedApplicability(scope, Tag(text, evidence(text, page or 1)), page, passage)


class Shop:
    def __init__(self, place):
        self.place = place
        self.library = OpenedLibrary.open(place / "library", Settings())
        self.catalogue = self.library.catalogue
        self.numbers = itertools.count(1)

    def paper(self, *stated, count=3, kind=Type.SERVICE_BULLETIN):
        name = f"SB 32-{next(self.numbers):04}"
        texts = [
            Text(f"Examine the brake lining, item {number}.", page=number, number=ChapterNumber("32", "41"))
            for number in range(1, count + 1)
        ]
        made = Made(
            f"{name}.pdf", kind, name, "1", DAY(2025, 1, 1), title=name, texts=texts, pages=count,
            applicability=stated,
        )  # fmt: skip
        return take(self.catalogue, self.place / "files", made).publications[0]


@pytest.fixture
def shop(tmp_path):
    Catalogue.open(tmp_path / "library", create=True).close()
    made = Shop(tmp_path)
    fleet.add(made.catalogue, "QX-1AB", "C-220", "R. Quill", "CV-120")
    made.paper(said(INSIDE))
    made.paper(said(OUTSIDE))
    made.paper(said(INSIDE), said(OUTSIDE, page=2), said(OUTSIDE, page=3, passage=2))
    made.paper()
    texts = [Text("Adjust it.", ("SECTION 5", f"5-{number}. Brake lining"), number) for number in (1, 2, 3)]
    manual = Made("sm.pdf", Type.SERVICE_MANUAL, "SM-1", "1", title="Manual", texts=texts, pages=3)
    take(made.catalogue, tmp_path / "files", manual)
    made.library.catch_up()
    yield made
    made.library.close()


def without_times(answer):
    """An answer but for the moment at which it was given."""
    if isinstance(answer, dict):
        return {
            name: without_times(value)
            for name, value in answer.items()
            if name not in ("at", "shown_at", "library_state")
        }
    if isinstance(answer, list):
        return [without_times(each) for each in answer]
    return answer if isinstance(answer, str | int | float | type(None)) else repr(answer)


def answers(library):
    found = []
    for ask in ASKED:
        answer = ask(library)
        found.append(
            without_times(answer) if isinstance(answer, dict) else (answer.on, answer.may_be, answer.hidden)
        )
    return found


def test_the_first_answer_the_next_one_and_one_for_which_nothing_is_kept_are_equal(shop, monkeypatch):
    first, second = answers(shop.library), answers(shop.library)
    monkeypatch.setattr(KeptByState, "of", lambda self, *_: Kept(1))
    assert answers(shop.library) == first == second
    assert any("does not apply" in repr(each) for each in first)


def test_a_list_kept_short_gives_the_same_answers(shop, monkeypatch):
    first = answers(shop.library)
    monkeypatch.setattr(KeptByState, "of", lambda self, *_: Kept(2))
    assert answers(shop.library) == first


def state_of(shop, publication_id, on=TODAY):
    with shop.library.reading():
        return Current(shop.catalogue, on).of_publication(shop.library.publication(publication_id)).state


def test_a_check_of_the_register_is_seen_at_once_and_each_day_has_its_own_state(shop):
    paper = shop.paper(said(INSIDE))
    assert state_of(shop, paper) is CurrencyState.UNKNOWN
    record_check(
        shop.catalogue, paper, "1", DAY(2025, 1, 1), "Maker's list", DAY(2026, 1, 1), "L. Onda", 90,
        today=TODAY,
    )  # fmt: skip
    assert state_of(shop, paper) is CurrencyState.CURRENT
    assert state_of(shop, paper, DAY(2026, 5, 1)) is CurrencyState.CHECK_EXPIRED
    assert state_of(shop, paper, DAY(2025, 12, 31)) is CurrencyState.UNKNOWN
    assert state_of(shop, paper) is CurrencyState.CURRENT


def outside(shop):
    with shop.library.reading():
        row = fleet.aircraft(shop.catalogue, "QX-1AB")
        found = to_hide(shop.library, Applying(shop.catalogue, row))
    return set(found.publications), set(found.passages)


def test_what_does_not_apply_follows_the_fleet_list_and_the_documents(shop):
    whole, parts = outside(shop)
    assert len(whole) == 1 and len(parts) == 2
    fleet.change(shop.catalogue, "QX-1AB", "R. Quill", "plate read", serial="CV-210")
    moved, _ = outside(shop)
    assert len(moved) == 2 and not moved & whole
    fleet.change(shop.catalogue, "QX-1AB", "R. Quill", "plate read again", serial="CV-120")
    assert outside(shop) == (whole, parts)
    new = shop.paper(said(OUTSIDE))
    assert outside(shop) == (whole | {new}, parts)
    with shop.library.reading():
        copy = shop.library.publication(new).copy_id
    shop.catalogue.remove(copy)
    assert outside(shop) == (whole, parts)


def test_a_reader_of_an_older_state_pushes_out_nothing_and_sees_its_own(shop):
    store = KeptByState(most=10, states=2)
    with shop.catalogue.reading():
        new = store.of(shop.catalogue, 7)
        new.keep("key", "new")
        assert store.of(shop.catalogue, 6).once("key", lambda: "old") == "old"
        assert store.of(shop.catalogue, 7) is new
        store.of(shop.catalogue, 7, "second"), store.of(shop.catalogue, 7, "third")
        assert store.of(shop.catalogue, 7) is not new  # used longest ago
        assert store.of(shop.catalogue, 8).missing(["key"]) == ["key"]


def test_outside_of_reading_nothing_is_shared(shop):
    store = KeptByState(most=10)
    assert store.of(shop.catalogue, 1) is not store.of(shop.catalogue, 1)
    with shop.catalogue.database.writing():
        assert store.of(shop.catalogue, 1) is not store.of(shop.catalogue, 1)


def test_what_is_kept_is_bounded():
    held = Kept(most=3)
    for number in range(10):
        assert held.once(number, lambda number=number: number * 2) == number * 2
        assert len(held._held) <= 3


@pytest.mark.parametrize(
    "text", [INSIDE, "Model K-7 airplanes, all serial numbers", "S/N 101 and on", "C-220"]
)
def test_the_quick_way_to_tell_an_aircrafts_model_gives_what_the_plain_one_gives(text):
    """Plain: the words are held against every aircraft of the fleet, one by one."""
    aircraft = [("C-220", "CV-120"), ("C-221", ""), ("K-70", "9"), ("Maker K-7", "12"), ("Q 9", "CV-110")]
    for count in range(len(aircraft) + 1):
        for some in itertools.combinations(aircraft, count):
            words = read_once(text, Origin.DIGITAL)
            listed = {name.name.casefold() for each in words.read.clauses for name in each.models}
            plain = bool(listed) and any(
                model.casefold() in listed or words.applies(model, serial).answer is OPEN
                for model, serial in some
            )
            assert names_one_of(text, Origin.DIGITAL, frozenset(some)) is plain
