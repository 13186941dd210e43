"""Pages read by OCR as they are kept, the order of the rest, what is wanted, and what is owed."""

import datetime
import itertools
import sqlite3
import threading
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as some
from making import Made, take

from indexer.library import ocr_wants, rows
from indexer.library.catalogue import Catalogue
from indexer.library.fleet import add as add_aircraft
from indexer.library.fleet_records import Fitted, FittedKind
from indexer.library.ocr_order import in_order
from indexer.library.ocr_pages import (
    debt,
    debt_by_publication,
    failed_pages,
    keep_failure,
    keep_page,
    pages_of,
    pages_to_read,
    recognized_in,
    unread_pages_of,
    waiting_copies,
)
from indexer.library.ocr_queue import queue, queue_state, wanted
from indexer.library.ocr_records import MOST_TRIES, PageToRead, RunState, Shelved, Wanted
from indexer.library.ocr_state import at_work, last_state, write_state
from indexer.library.ocr_wants import MOST_KEPT, note_missed, note_wanted, write_noted
from indexer.reading.page import TextState
from indexer.reading.recognized import OcrReason, RecognizedPage, RecognizedWord
from indexer.reading.recognized_page import NO_WORDS_READ
from indexer.trade.evidence import Box

REASON = OcrReason.NO_TEXT


@pytest.fixture
def catalogue(tmp_path):
    with Catalogue.open(tmp_path / "library", create=True) as opened:
        yield opened


def scanned(catalogue, tmp_path, file: str, pages: int = 5, unread: range | None = None, **rest) -> str:
    """A file whose pages `unread` (all of them when not said) hold no text; gives the id of its copy."""
    made = Made(file, pages=pages, **rest)
    copy_id = take(catalogue, tmp_path, made).copy_id
    unread = unread or range(1, pages + 1)
    with catalogue.database.writing() as connection:
        connection.executemany(
            "UPDATE page SET ocr_reason = ?, state = 'no text' WHERE copy_id = ? AND pdf_page = ?",
            ((REASON.value, copy_id, page) for page in unread),
        )
    return copy_id


def read_page(pdf_page: int, *words: str) -> RecognizedPage:
    read = tuple(
        RecognizedWord(word, Box(10.5 * at, 10, 10.5 * at + 9, 20.25), 0.875, at)
        for at, word in enumerate(words)
    )
    return RecognizedPage(pdf_page, 612.0, 792.0, 90, -0.7, read, "fake 1.0", 300, 0.875, 1.25)


# The order -------------------------------------------------------------------------------------------------

COPIES = ["c1", "c2", "c3"]
page_lists = some.lists(
    some.builds(
        PageToRead,
        copy_id=some.sampled_from(COPIES),
        pdf_page=some.integers(1, 12),
        file=some.sampled_from(["a.pdf", "A.pdf", "b.pdf"]),
        reason=some.just(REASON),
    ),
    max_size=20,
    unique_by=lambda page: (page.copy_id, page.pdf_page),
)
shelves = some.lists(
    some.builds(
        Shelved,
        copy_id=some.sampled_from(COPIES),
        first_page=some.integers(1, 10),
        last_page=some.integers(10, 12),
        known=some.booleans(),
        names=some.sampled_from(["", "QZ62 maintenance manual", "brake manual", "wheel and brake"]),
        models=some.sampled_from([(), ("QZ62",), ("H-14", "WT-5")]),
    ),
    max_size=5,
    unique_by=lambda each: (each.copy_id, each.first_page),
)
wishes = some.builds(
    Wanted,
    opened=some.lists(
        some.tuples(some.sampled_from(COPIES), some.integers(1, 12)), max_size=4, unique=True
    ).map(tuple),
    missed=some.lists(
        some.tuples(some.sampled_from(["brake", "brake wheel", "torque", "manual"]), some.integers(1, 9)),
        max_size=3,
    ).map(tuple),
    models=some.sampled_from([(), ("QZ62",), ("H-14B",), ("Marl 260", "")]),
)


@given(page_lists, shelves, wishes, some.randoms(use_true_random=False))
def test_every_page_stands_in_the_order_once_whatever_order_it_was_given_in(pages, shelf, wish, chance):
    ordered = in_order(pages, shelf, wish)
    assert sorted(ordered, key=repr) == sorted(pages, key=repr)
    shuffled, other_shelf = pages.copy(), shelf.copy()
    chance.shuffle(shuffled)
    chance.shuffle(other_shelf)
    assert in_order(shuffled, other_shelf, wish) == ordered
    opened = [page for page in wish.opened if page in {(each.copy_id, each.pdf_page) for each in pages}]
    assert [(each.copy_id, each.pdf_page) for each in ordered[: len(opened)]] == opened


@given(page_lists, shelves, wishes)
def test_taking_the_first_away_leaves_the_order_of_the_rest(pages, shelf, wish):
    """So a page read changes nothing for the others, and the next can be chosen without sorting anew."""
    ordered = in_order(pages, shelf, wish)
    assert in_order(ordered[1:], shelf, wish) == ordered[1:]


def test_opened_then_unknown_fronts_then_missed_then_fleet_then_the_rest():
    def publication(copy_id, names="", models=(), known=True):
        return Shelved(copy_id, 1, 3, known, names, models)

    shelf = [
        publication("rest", "Lift truck handbook rest.pdf"),
        publication("fleet", "Maintenance manual fleet.pdf", ("QZ62",)),
        publication("engine", "Overhaul manual marl-260.pdf"),
        publication("missed", "Wheel and brake component manual missed.pdf"),
        publication("unknown", "scan0001.pdf", known=False),
    ]
    pages = [
        PageToRead(each.copy_id, page, f"{each.copy_id}.pdf", REASON) for each in shelf for page in (1, 2)
    ]
    ordered = in_order(pages, shelf, Wanted((("rest", 2),), (("brake lining", 2),), ("QZ62", "Marl 260")))
    assert [(each.copy_id, each.pdf_page) for each in ordered] == [
        ("rest", 2),
        ("unknown", 1),
        ("missed", 1),
        ("missed", 2),
        ("engine", 1),
        ("engine", 2),
        ("fleet", 1),
        ("fleet", 2),
        ("rest", 1),
        ("unknown", 2),
    ]


def test_a_word_that_most_publications_bear_tells_nothing_and_the_rarer_and_the_oftener_asked_come_first():
    names = ["Brake manual", "Wheel manual", "Wheel and propeller manual", "Engine manual"]
    shelf = [Shelved(f"c{at}", 1, 1, True, name, ()) for at, name in enumerate(names)]
    pages = [PageToRead(each.copy_id, 1, f"{each.copy_id}.pdf", REASON) for each in shelf]

    def first(*missed):
        return in_order(pages, shelf, Wanted(missed=missed))[0].copy_id

    assert first(("manual", 50)) == "c0", "as without"
    assert first(("engine", 1)) == "c3"
    assert first(("wheel", 1), ("engine", 1)) == "c3", "fewer bear it"
    assert first(("wheel", 3), ("engine", 1)) == "c1"
    assert first(("propeller wheel", 2), ("engine", 1)) == "c2"


def test_the_queue_is_ordered_by_what_the_library_and_its_shop_say(catalogue, tmp_path):
    rest = scanned(catalogue, tmp_path, "a handbook.pdf", 2, title="Handbook")
    engine = scanned(catalogue, tmp_path, "marl.pdf", 2, title="Overhaul of the Marl 260")
    fleet = scanned(catalogue, tmp_path, "x.pdf", 2, title="Service manual", models=("QZ62",))
    missed = scanned(catalogue, tmp_path, "y.pdf", 2, title="Landing light manual")
    unknown = scanned(catalogue, tmp_path, "z.pdf", 2)
    add_aircraft(
        catalogue, "QX-1AB", "QZ62", "R. Quill", fitted=[Fitted(FittedKind.ENGINE, "Marl 260", "ML-1")]
    )
    note_missed(catalogue, "landing light bulb")
    note_wanted(catalogue, rest, 2)
    assert wanted(catalogue) == Wanted(((rest, 2),), (("bulb landing light", 1),), ("QZ62", "Marl 260"))
    assert [(page.copy_id, page.pdf_page) for page in queue(catalogue)] == [
        (rest, 2),
        (unknown, 1),
        (missed, 1),
        (missed, 2),
        (engine, 1),
        (engine, 2),
        (fleet, 1),
        (fleet, 2),
        (rest, 1),
        (unknown, 2),
    ]


def test_what_the_order_follows_from_stays_the_same_while_pages_are_read(catalogue, tmp_path):
    """A run asks for it before each page: so a long queue is not ordered anew for each of them."""
    copy_id = scanned(catalogue, tmp_path, "a.pdf")
    before = queue_state(catalogue)
    keep_page(catalogue, copy_id, read_page(1))
    assert queue_state(catalogue) == before
    note_wanted(catalogue, copy_id, 3)
    assert queue_state(catalogue) != before


# What is kept and what is owed ----------------------------------------------------------------------------


def test_a_page_is_kept_as_it_was_read(catalogue, tmp_path):
    copy_id = scanned(catalogue, tmp_path, "a.pdf")
    page = read_page(2, "Torque", "the", "boltß", "92–98")
    assert keep_page(catalogue, copy_id, page)
    assert {number: kept for number, (kept, _) in recognized_in(catalogue, copy_id).items()} == {2: page}
    other = read_page(2, "anew")
    keep_page(catalogue, copy_id, other)
    assert recognized_in(catalogue, copy_id)[2][0] == other
    assert not keep_page(catalogue, "no such copy", page)


def test_what_is_kept_is_owed_until_it_is_searched(catalogue, tmp_path):
    copy_id = scanned(catalogue, tmp_path, "a.pdf", unread=range(2, 5))
    publication = f"{copy_id}-1"
    generation = catalogue.generation
    assert (debt(catalogue).pages_unread, debt(catalogue).publications) == (3, 1)
    assert unread_pages_of(catalogue, publication) == (2, 3, 4)
    keep_page(catalogue, copy_id, read_page(3, "words"))
    assert [page.pdf_page for page in pages_to_read(catalogue)] == [2, 4]
    assert unread_pages_of(catalogue, publication) == (2, 3, 4) and debt(catalogue).pages_unread == 3
    assert waiting_copies(catalogue) == [copy_id] and catalogue.generation == generation
    made = Made("a.pdf", pages=5)
    ((_, at),) = recognized_in(catalogue, copy_id).values()
    document = made.document()
    pages = tuple(replace(page, ocr_reason=REASON if page.pdf_page < 5 else None) for page in document.pages)
    catalogue.read_again(copy_id, replace(document, pages=pages), made.publications(), {3: at})
    assert unread_pages_of(catalogue, publication) == (1, 2, 4) and debt(catalogue).pages_unread == 3
    assert waiting_copies(catalogue) == []
    assert catalogue.history()[-1].detail.endswith(", 1 page by OCR")


def test_a_page_read_anew_while_its_copy_was_read_counts_as_not_used(catalogue, tmp_path):
    copy_id = scanned(catalogue, tmp_path, "a.pdf")
    keep_page(catalogue, copy_id, read_page(1, "old"))
    ((_, at),) = recognized_in(catalogue, copy_id).values()
    while recognized_in(catalogue, copy_id)[1][1] == at:  # moments are told apart by the millisecond
        keep_page(catalogue, copy_id, read_page(1, "new"))
    made = Made("a.pdf", pages=5)
    document = made.document()
    pages = tuple(replace(page, ocr_reason=REASON) for page in document.pages)
    catalogue.read_again(copy_id, replace(document, pages=pages), made.publications(), {1: at})
    assert waiting_copies(catalogue) == [copy_id]


def test_a_page_that_fails_is_owed_for_three_runs_and_then_listed(catalogue, tmp_path):
    copy_id = scanned(catalogue, tmp_path, "a.pdf", 2)
    page = next(each for each in pages_to_read(catalogue) if each.pdf_page == 2)
    for tries in range(1, MOST_TRIES + 1):
        assert page in pages_to_read(catalogue)
        keep_failure(catalogue, page, "fake 1.0", f"no luck, time {tries}")
    assert page not in pages_to_read(catalogue)
    (failed,) = failed_pages(catalogue)
    assert (failed.file, failed.pdf_page, failed.problem, failed.tries) == ("a.pdf", 2, "no luck, time 3", 3)
    owed = debt_by_publication(catalogue)[f"{copy_id}-1"]
    assert (owed.pages_unread, owed.pages_failed) == (1, 1)
    assert unread_pages_of(catalogue, f"{copy_id}-1") == (1, 2)
    keep_page(catalogue, copy_id, read_page(2, "at", "last"))
    assert failed_pages(catalogue) == []
    keep_failure(catalogue, page, "other 2.0", "the other engine cannot")
    assert failed_pages(catalogue) == [], "what was read stays"
    assert not keep_failure(catalogue, replace(page, copy_id="gone"), "fake 1.0", "no copy")


@pytest.mark.parametrize("state", [TextState.GARBLED, TextState.TEXT])
def test_a_page_read_as_what_is_not_words_counts_as_one_that_could_not_be_read(catalogue, tmp_path, state):
    """Whether nothing of it is searched, or its own few words are."""
    copy_id = scanned(catalogue, tmp_path, "a.pdf")
    publication = f"{copy_id}-1"
    for pdf_page in (1, 2):
        keep_page(catalogue, copy_id, read_page(pdf_page, "RURABH"))
    used = {pdf_page: at for pdf_page, (_, at) in recognized_in(catalogue, copy_id).items()}
    made = Made("a.pdf", pages=5)
    document = made.document()
    pages = tuple(
        replace(page, ocr_reason=REASON)
        if page.pdf_page != 2
        else replace(page, ocr_reason=REASON, state=state, problem=NO_WORDS_READ)
        for page in document.pages
    )
    catalogue.read_again(copy_id, replace(document, pages=pages), made.publications(), used)
    owed = debt_by_publication(catalogue)[publication]
    assert (owed.pages_unread, owed.pages_failed) == (3, 1)
    assert (debt(catalogue).pages_unread, debt(catalogue).pages_failed) == (3, 1)
    assert unread_pages_of(catalogue, publication) == (2, 3, 4, 5)
    (failed,) = failed_pages(catalogue)
    assert failed.problem == (
        "a.pdf, PDF page 2: Read by OCR, but what came out is not words (is its language installed?)."
    )
    assert not failed.tried_again
    assert 2 not in [page.pdf_page for page in pages_to_read(catalogue)], "it would be read the same"
    keep_page(catalogue, copy_id, read_page(2, "by", "another", "engine"))
    assert failed_pages(catalogue) == [] and debt(catalogue).pages_unread == 4


def test_the_pages_of_a_publication_are_those_whose_own_text_will_not_do(catalogue, tmp_path):
    copy_id = scanned(catalogue, tmp_path, "a.pdf", unread=range(2, 5))
    keep_page(catalogue, copy_id, read_page(3, "words"))
    asked = {
        (1, 0): [2, 3, 4],
        (3, 0): [3, 4],
        (1, 3): [2, 3],
        (5, 5): [],
    }
    for (first, last), expected in asked.items():
        found = pages_of(catalogue, f"{copy_id}-1", first, last)
        assert [page.pdf_page for page in found] == expected


def test_the_debt_follows_a_copy_that_goes(catalogue, tmp_path):
    copy_id = scanned(catalogue, tmp_path, "a.pdf", 3)
    scanned(catalogue, tmp_path, "b.pdf", 2)
    assert debt(catalogue).pages_unread == 5
    note_wanted(catalogue, copy_id, 1)
    catalogue.remove(copy_id)
    assert debt(catalogue).pages_unread == 2
    assert wanted(catalogue).opened == ()


# What is wanted --------------------------------------------------------------------------------------------


@pytest.fixture
def moments(monkeypatch):
    """Every moment is a second after the one before."""
    begun, counted = datetime.datetime(2031, 5, 1, tzinfo=datetime.UTC), itertools.count()
    later = lambda: begun + datetime.timedelta(seconds=next(counted))  # noqa: E731
    monkeypatch.setattr(rows, "now", lambda: later().isoformat(timespec="milliseconds"))


def test_noting_makes_no_generation_and_folds_what_was_asked(catalogue, tmp_path, moments):
    copy_id = scanned(catalogue, tmp_path, "a.pdf", unread=range(2, 4))
    generation = catalogue.generation
    for asked in ("Tie Bolts torque", "torque tie-bolt", "  "):
        note_missed(catalogue, asked)
    for page in (1, 2, 3, 2, 99):  # page 1 has text, page 99 is not there
        note_wanted(catalogue, copy_id, page)
    note_wanted(catalogue, "no such copy", 1)
    assert wanted(catalogue).missed == (("bolt tie torque", 2),)
    assert wanted(catalogue).opened == ((copy_id, 2), (copy_id, 3))
    keep_page(catalogue, copy_id, read_page(2))
    assert wanted(catalogue).opened == ((copy_id, 3),), "a page that was read is wanted no more"
    note_wanted(catalogue, copy_id, 2)
    assert wanted(catalogue).opened == ((copy_id, 3),)
    assert catalogue.generation == generation


def test_what_is_noted_is_bounded_and_the_oldest_goes(catalogue, tmp_path, monkeypatch, moments):
    monkeypatch.setattr(ocr_wants, "MOST_KEPT", 10)
    copy_id = scanned(catalogue, tmp_path, "a.pdf", 20)
    for number in range(1, 21):
        note_missed(catalogue, f"word{number}")
        note_wanted(catalogue, copy_id, number)
    assert {words for words, _ in wanted(catalogue).missed} == {f"word{number}" for number in range(11, 21)}
    assert [page for _, page in wanted(catalogue).opened] == list(range(20, 10, -1))
    assert MOST_KEPT == 2000


def test_noting_waits_for_no_writer_and_is_written_at_the_next_occasion(catalogue, tmp_path):
    copy_id = scanned(catalogue, tmp_path, "a.pdf")
    begun, go = threading.Event(), threading.Event()

    def ingest():
        with catalogue.database.writing():
            begun.set()
            go.wait(30)

    writer = threading.Thread(target=ingest)
    writer.start()
    begun.wait(30)
    note_missed(catalogue, "tie bolt")
    note_wanted(catalogue, copy_id, 2)
    assert writer.is_alive() and wanted(catalogue).missed == ()
    assert not write_noted(catalogue)
    go.set()
    writer.join()
    note_missed(catalogue, "tie bolt")
    assert wanted(catalogue).missed == (("bolt tie", 2),)
    assert wanted(catalogue).opened == ((copy_id, 2),)


def test_noting_inside_reading_is_kept_for_later(catalogue, tmp_path):
    with catalogue.reading():
        note_missed(catalogue, "tie bolt")
        assert wanted(catalogue).missed == ()
    assert write_noted(catalogue)
    assert wanted(catalogue).missed == (("bolt tie", 1),)


def test_damage_while_noting_is_not_taken_for_another_writer(catalogue):
    with catalogue.database.writing() as connection:
        connection.execute("DROP TABLE missed_search")
    with pytest.raises(sqlite3.OperationalError, match="no such table"):
        note_missed(catalogue, "tie bolt")


# Where a run stands ---------------------------------------------------------------------------------------


def test_a_run_is_at_work_while_it_says_so(catalogue, tmp_path):
    assert last_state(tmp_path) is None and not at_work(None)
    now = datetime.datetime.now(datetime.UTC)
    state = RunState(1, now.isoformat(), now.isoformat(), "fake 1.0", done=3, left=9, seconds_left=81.5)
    write_state(catalogue.folder, state)
    assert last_state(catalogue.folder) == state
    assert (debt(catalogue).running, debt(catalogue).seconds_left) == (True, 81.5)
    assert not at_work(state, now + datetime.timedelta(minutes=2)), "it was killed"
    write_state(catalogue.folder, replace(state, ended="stopped"))
    assert (debt(catalogue).running, debt(catalogue).seconds_left) == (False, None)
    (catalogue.folder / "ocr-state.json").write_text("{not JSON")
    assert last_state(catalogue.folder) is None
